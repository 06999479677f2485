//! What functions are handed.

use super::{Failure, Function};
use crate::moment::Moment;

/// What a call knows besides its arguments.
#[derive(Debug, Clone, Copy)]
pub struct Context {
    /// The site's atmosphere in pascal; NaN never reaches a function: a call that needs it waits while it is pending.
    pub atmosphere: f64,
}

/// One argument, checked against its declaration.
#[derive(Debug, Clone)]
pub enum Argument<'a> {
    /// Optional and not given.
    Absent,
    /// A number or quantity in SI, points absolute.
    Number(f64),
    /// A text.
    Text(&'a str),
    /// True or false.
    Flag(bool),
    /// A date or time.
    Moment(Moment),
    /// A refrigerant.
    Refrigerant(&'a str),
    /// A gas.
    Gas(&'a str),
    /// Two ends, the lesser first.
    Range(f64, f64),
    /// A column.
    Column(ColumnView<'a>),
}

/// A column without the rows that were left out; paired columns have lost the same rows.
#[derive(Debug, Clone, Copy)]
pub enum ColumnView<'a> {
    /// Numbers and quantities in SI; `NaN` marks a gap, only where the parameter lets gaps through.
    Numbers(&'a [f64]),
    /// Texts, refrigerants, gases; an empty option is a gap.
    Texts(&'a [Option<&'a str>]),
    /// Flags.
    Flags(&'a [Option<bool>]),
    /// Times.
    Moments(&'a [Option<Moment>]),
}

/// The arguments of one call, in the order of the declaration.
#[derive(Debug)]
pub struct Arguments<'a> {
    /// The declaration.
    pub function: &'a Function,
    /// One for each parameter.
    pub values: &'a [Argument<'a>],
    /// What else is known.
    pub context: Context,
    /// For an [`super::Accepts::AnyOf`] parameter: which of its kinds was given, by parameter.
    pub chosen: &'a [u8],
}

impl<'a> Arguments<'a> {
    /// The argument of this parameter.
    pub fn get(&self, parameter: &str) -> &Argument<'a> {
        self.position(parameter).and_then(|at| self.values.get(at)).unwrap_or(&Argument::Absent)
    }

    /// A number or quantity in SI.
    pub fn number(&self, parameter: &'static str) -> Result<f64, Failure> {
        self.maybe_number(parameter).ok_or_else(|| self.missing(parameter))
    }

    /// A number or quantity in SI, if given.
    pub fn maybe_number(&self, parameter: &str) -> Option<f64> {
        match self.get(parameter) {
            Argument::Number(number) => Some(*number),
            _ => None,
        }
    }

    /// A text, a choice, a refrigerant or a gas.
    pub fn text(&self, parameter: &'static str) -> Result<&'a str, Failure> {
        match self.get(parameter) {
            Argument::Text(text) | Argument::Refrigerant(text) | Argument::Gas(text) => Ok(text),
            _ => Err(self.missing(parameter)),
        }
    }

    /// A flag.
    pub fn flag(&self, parameter: &'static str) -> Result<bool, Failure> {
        match self.get(parameter) {
            Argument::Flag(flag) => Ok(*flag),
            _ => Err(self.missing(parameter)),
        }
    }

    /// A range, lesser end first.
    pub fn range(&self, parameter: &'static str) -> Result<(f64, f64), Failure> {
        match self.get(parameter) {
            Argument::Range(low, high) => Ok((*low, *high)),
            _ => Err(self.missing(parameter)),
        }
    }

    /// A column of numbers or quantities in SI.
    pub fn numbers(&self, parameter: &'static str) -> Result<&'a [f64], Failure> {
        match self.get(parameter) {
            Argument::Column(ColumnView::Numbers(values)) => Ok(values),
            _ => Err(self.missing(parameter)),
        }
    }

    /// A column of texts.
    pub fn texts(&self, parameter: &'static str) -> Result<&'a [Option<&'a str>], Failure> {
        match self.get(parameter) {
            Argument::Column(ColumnView::Texts(values)) => Ok(values),
            _ => Err(self.missing(parameter)),
        }
    }

    /// Which of its kinds an [`super::Accepts::AnyOf`] parameter was given in.
    pub fn chosen(&self, parameter: &str) -> usize {
        self.position(parameter).and_then(|at| self.chosen.get(at)).map_or(0, |&which| usize::from(which))
    }

    fn position(&self, parameter: &str) -> Option<usize> {
        self.function.parameters.iter().position(|one| one.name == parameter)
    }

    fn missing(&self, parameter: &'static str) -> Failure {
        Failure::of(parameter, format!("`{}` needs `{parameter}`", self.function.name))
    }
}
