//! The declaration of a function.

use serde::Serialize;

use super::{Arguments, Drawing, Failure, OfNumbers, Value};

/// A function that sheets can call. All but its body can be written down, so that a record can tell one library from
/// another.
#[derive(Debug, Clone, Serialize)]
pub struct Function {
    /// Its name in sheets.
    pub name: &'static str,
    /// The subject it belongs to, such as `refrigerant`.
    pub subject: &'static str,
    /// What it gives, in one line.
    pub gives: &'static str,
    /// Its parameters in order.
    pub parameters: Vec<Parameter>,
    /// Groups of parameters of which exactly one is to be given.
    pub groups: Vec<Group>,
    /// What it returns.
    pub returns: Returns,
    /// The equation or rule, in plain text.
    pub equation: &'static str,
    /// Where it comes from: paper, standard and clause, or `common practice, no source`.
    pub source: &'static str,
    /// Where it holds.
    pub validity: &'static str,
    /// Worked examples; tests run them.
    pub examples: Vec<Example>,
    /// Cautions that reports print when a sheet uses it.
    pub cautions: Vec<&'static str>,
    /// A safety function: its checks are always guarded and cannot be waived.
    pub safety: bool,
    /// What computes it.
    #[serde(skip)]
    pub body: Body,
    /// What a report can draw of a call, beside its numbers.
    #[serde(skip)]
    pub draws: Option<Draws>,
    /// A column of it is worth a chart of its rows.
    #[serde(skip)]
    pub charted: bool,
}

/// Draws a call; nothing where there is nothing to see.
pub type Draws = fn(&Arguments<'_>) -> Option<Drawing>;

impl Function {
    /// The names of the parameters that settle the kind that a letter stands for.
    pub fn settling(&self, letter: char) -> impl Iterator<Item = &'static str> {
        self.parameters.iter().filter(move |one| one.accepts.settles(letter)).map(|one| one.name)
    }

    /// A function without parameters yet; the rest is set by the methods below.
    pub fn new(
        name: &'static str,
        subject: &'static str,
        gives: &'static str,
        returns: Returns,
        body: Body,
    ) -> Function {
        Function {
            name,
            subject,
            gives,
            parameters: Vec::new(),
            groups: Vec::new(),
            returns,
            equation: "",
            source: "",
            validity: "",
            examples: Vec::new(),
            cautions: Vec::new(),
            safety: false,
            body,
            draws: None,
            charted: false,
        }
    }

    /// Adds a parameter.
    pub fn takes(mut self, parameter: Parameter) -> Function {
        self.parameters.push(parameter);
        self
    }

    /// Says that exactly one of these parameters is to be given; each must be optional by itself.
    pub fn one_of(mut self, parameters: &'static [&'static str]) -> Function {
        self.groups.push(Group { parameters });
        self
    }

    /// Sets the equation.
    pub fn equation(mut self, equation: &'static str) -> Function {
        self.equation = equation;
        self
    }

    /// Sets the source.
    pub fn source(mut self, source: &'static str) -> Function {
        self.source = source;
        self
    }

    /// Says where it holds.
    pub fn valid(mut self, validity: &'static str) -> Function {
        self.validity = validity;
        self
    }

    /// Adds a worked example: an expression and its answer as `calc` prints it. Where columns are needed it is a small
    /// sheet, and the answer is its cell `answer`.
    pub fn example(mut self, expression: &'static str, gives: &'static str) -> Function {
        self.examples.push(Example { expression, gives });
        self
    }

    /// Adds a caution.
    pub fn caution(mut self, caution: &'static str) -> Function {
        self.cautions.push(caution);
        self
    }

    /// Says what a report can draw of a call.
    pub fn draws(mut self, draws: Draws) -> Function {
        self.draws = Some(draws);
        self
    }

    /// Says that a column of it is worth a chart of its rows.
    pub fn charted(mut self) -> Function {
        self.charted = true;
        self
    }

    /// Marks it as a safety function.
    pub fn safety(mut self) -> Function {
        self.safety = true;
        self
    }
}

/// Parameters of which exactly one is to be given.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Group {
    /// Their names.
    pub parameters: &'static [&'static str],
}

/// A worked example.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Example {
    /// The expression; of several lines it is a sheet with a cell `answer`.
    pub expression: &'static str,
    /// Its answer as `calc` prints it.
    pub gives: &'static str,
}

/// A parameter.
#[derive(Debug, Clone, Serialize)]
pub struct Parameter {
    /// Its name, for named arguments.
    pub name: &'static str,
    /// What it takes.
    pub accepts: Accepts,
    /// Least and greatest value, as literals of the language (`"0.1 psia"`); a value outside is an error that names
    /// the limit.
    pub within: Option<(&'static str, &'static str)>,
    /// What it is when not given; `None`: it must be given.
    pub default: Option<Default>,
    /// What it is, in one line.
    pub about: &'static str,
    /// A column whose rows not taken yet reach the function as gaps; otherwise the whole call is pending then.
    pub gaps: bool,
}

/// A parameter that must be given.
pub fn parameter(name: &'static str, accepts: Accepts, about: &'static str) -> Parameter {
    Parameter { name, accepts, within: None, default: None, about, gaps: false }
}

impl Parameter {
    /// States its range.
    pub fn within(mut self, least: &'static str, greatest: &'static str) -> Parameter {
        self.within = Some((least, greatest));
        self
    }

    /// Gives it a default, as a literal of the language.
    pub fn or(mut self, literal: &'static str) -> Parameter {
        self.default = Some(Default::Literal(literal));
        self
    }

    /// Makes it optional: [`super::Argument::Absent`] reaches the function.
    pub fn optional(mut self) -> Parameter {
        self.default = Some(Default::Absent);
        self
    }

    /// Takes the site's atmosphere when not given.
    pub fn or_site_atmosphere(mut self) -> Parameter {
        self.default = Some(Default::SiteAtmosphere);
        self
    }

    /// Lets rows not taken yet through as gaps.
    pub fn with_gaps(mut self) -> Parameter {
        self.gaps = true;
        self
    }
}

/// What a parameter is when not given.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum Default {
    /// A literal of the language.
    Literal(&'static str),
    /// The site's atmosphere.
    SiteAtmosphere,
    /// Nothing.
    Absent,
}

/// What a parameter takes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Accepts {
    /// One kind.
    One(Basic),
    /// One of several kinds, such as a pressure or a temperature point.
    AnyOf(Vec<Basic>),
    /// Any quantity or number; the same letter stands for the same kind throughout the declaration.
    Variable(char),
    /// The same, of what adds up: no point on a scale.
    Amount(char),
    /// The difference of the kind that this letter stands for.
    DifferenceOf(char),
    /// A text out of these.
    Choice(&'static [&'static str]),
    /// A range `a .. b` of one of the above.
    Range(Box<Accepts>),
    /// A column of one of the above.
    Column(Box<Accepts>),
}

impl Accepts {
    /// Whether the kind that a letter stands for is settled by what is given here.
    fn settles(&self, letter: char) -> bool {
        match self {
            Accepts::Variable(one) | Accepts::Amount(one) => *one == letter,
            Accepts::Range(inner) | Accepts::Column(inner) => inner.settles(letter),
            _ => false,
        }
    }

    /// A quantity by a unit of its kind.
    pub fn unit(unit: &'static str) -> Accepts {
        Accepts::One(Basic::Unit(unit))
    }

    /// A column of a quantity.
    pub fn column(unit: &'static str) -> Accepts {
        Accepts::Column(Box::new(Accepts::unit(unit)))
    }

    /// A column of texts, flags, times or what else is no quantity.
    pub fn column_of(basic: Basic) -> Accepts {
        Accepts::Column(Box::new(Accepts::One(basic)))
    }
}

/// A kind without parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Basic {
    /// The kind of this unit. Of a result it is also the unit it is shown in where the sheet's unit system has none of
    /// its own; `mm or in` names the one for SI and the one for inch–pound, and goes before the system's own.
    Unit(&'static str),
    /// A pure number.
    Number,
    /// A text.
    Text,
    /// A text out of these, and never another.
    OneOf(&'static [&'static str]),
    /// True or false.
    Flag,
    /// A date or time.
    Time,
    /// A refrigerant.
    Refrigerant,
    /// A gas.
    Gas,
}

/// What a function returns.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Returns {
    /// One value.
    One(Basic),
    /// The kind that this letter of the parameters stands for.
    Like(char),
    /// The difference of it.
    DifferenceOf(char),
    /// A record.
    Record(Vec<Field>),
    /// A value a row, for the table that its columns come from.
    Column(Basic),
    /// The same, of the kind that this letter stands for.
    ColumnLike(char),
    /// A record a row: [`super::Value::Column`] of [`super::Value::Record`].
    Rows(Vec<Field>),
}

impl Returns {
    /// A quantity by a unit of its kind.
    pub fn unit(unit: &'static str) -> Returns {
        Returns::One(Basic::Unit(unit))
    }

    /// Whether it is a value or a record a row.
    pub fn is_column(&self) -> bool {
        matches!(self, Returns::Column(_) | Returns::ColumnLike(_) | Returns::Rows(_))
    }
}

/// A field of a record.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Field {
    /// Its name.
    pub name: &'static str,
    /// Its kind.
    pub kind: Basic,
    /// What it is.
    pub about: &'static str,
    /// It may be absent; then it is broken for those who use it only.
    pub maybe: bool,
}

/// A field that is always there.
pub fn field(name: &'static str, kind: Basic, about: &'static str) -> Field {
    Field { name, kind, about, maybe: false }
}

/// A field that may be absent.
pub fn maybe_field(name: &'static str, kind: Basic, about: &'static str) -> Field {
    Field { name, kind, about, maybe: true }
}

/// What computes a function.
#[derive(Clone, Copy)]
pub enum Body {
    /// From any arguments to any value.
    Values(fn(&Arguments<'_>) -> Result<Value, Failure>),
    /// From numbers to a number, for what is called a million times: every parameter must be numeric and have a value.
    Numbers(fn(&[f64]) -> Result<f64, Failure>),
    /// From numbers to a number where some arguments are none: what is given is looked at once for all rows that
    /// agree in it, and gives the function of the numbers.
    Prepared(fn(&Arguments<'_>) -> Result<OfNumbers, Failure>),
}

impl std::fmt::Debug for Body {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(match self {
            Body::Values(_) => "Values",
            Body::Numbers(_) => "Numbers",
            Body::Prepared(_) => "Prepared",
        })
    }
}
