//! A typed formula, and the scope in which an expression is read.

use super::algebra::Made;
use super::{Factors, Kind};
use crate::plan::{Datum, Node, Op, Typing, Wish};
use crate::source::Span;
use crate::units::Unit;

/// A compiled expression with what is known of it.
#[derive(Debug, Clone)]
pub(super) struct Typed {
    pub node: Node,
    pub kind: Kind,
    pub datum: Datum,
    pub shape: Shape,
    pub wish: Option<Wish>,
    /// The pressures and temperatures among its factors.
    pub factors: Factors,
    /// Written in inches of vacuum: not to be put in order.
    pub vacuum: bool,
    /// The result of a safety function went into it.
    pub safety: bool,
    /// It uses values of the row or definition around it.
    pub local: bool,
}

/// One value, or a value a row of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Shape {
    One,
    Column(usize),
}

impl Typed {
    pub fn new(span: Span, op: Op, kind: Kind) -> Typed {
        Typed {
            node: Node { span, op },
            kind,
            datum: Datum::Absolute,
            shape: Shape::One,
            wish: None,
            factors: Factors::NONE,
            vacuum: false,
            safety: false,
            local: false,
        }
    }

    /// What stands for an expression whose error has been reported.
    pub fn unknown(span: Span) -> Typed {
        Typed::new(span, Op::NotTaken, Kind::Unknown)
    }

    pub fn span(&self) -> Span {
        self.node.span
    }

    pub fn typing(&self) -> Typing {
        Typing { kind: self.kind.clone(), datum: self.datum, wish: self.wish.clone(), factors: self.factors }
    }

    /// Its kind with what has gone into it.
    pub fn made(&self) -> Made {
        (self.kind.clone(), self.factors)
    }

    /// The number of a literal, in SI as it is held.
    pub fn literal(&self) -> Option<f64> {
        match &self.node.op {
            Op::Number(number) => Some(*number),
            Op::Negate(inner) => match inner.op {
                Op::Number(number) => Some(-number),
                _ => None,
            },
            _ => None,
        }
    }

    /// A number typed without a unit, other than nought.
    pub fn is_bare(&self) -> bool {
        self.kind == Kind::Number && self.wish.is_none() && self.literal().is_some_and(|number| number != 0.0)
    }

    /// Whether it is shown in per cent or parts of a million.
    pub fn is_share(&self) -> bool {
        self.kind == Kind::Number && self.wish.as_ref().is_some_and(Wish::is_share)
    }

    /// The unit it is shown in, if it is one that was written.
    pub fn unit(&self) -> Option<&Unit> {
        match self.wish.as_ref()? {
            Wish { units, weak: false, .. } if units.len() == 1 => units.first(),
            _ => None,
        }
    }

    /// The same value held from true zero.
    pub fn absolute(mut self) -> Typed {
        if self.datum == Datum::Gauge {
            let span = self.node.span;
            self.node = Node { span, op: Op::ToAbsolute(Box::new(self.node)) };
            self.datum = Datum::Absolute;
        }
        self
    }

    /// The same value held as wanted.
    pub fn held(self, datum: Datum) -> Typed {
        match (self.datum, datum) {
            (Datum::Absolute, Datum::Gauge) if self.kind.is_numeric() => {
                let span = self.node.span;
                let node = Node { span, op: Op::ToGauge(Box::new(self.node)) };
                Typed { node, datum, ..self }
            }
            (Datum::Gauge, Datum::Absolute) => self.absolute(),
            _ => self,
        }
    }

    /// Takes over what makes the parts of an operation more than their kinds: safety and use of local values.
    pub fn marked_by(mut self, parts: &[&Typed]) -> Typed {
        for part in parts {
            self.safety |= part.safety;
            self.local |= part.local;
        }
        self
    }
}

/// What names mean where an expression stands.
#[derive(Debug, Clone, Default)]
pub(super) struct Scope {
    /// The table whose formula this is.
    pub table: Option<usize>,
    /// Bare names of that table mean whole columns: inside an argument that takes a column.
    pub whole_columns: bool,
    /// Columns may stand here: inside a fold, an argument that takes a column, or a chart.
    pub columns: bool,
    /// Parameters, cells of a definition, unknowns of `solve`.
    pub locals: Vec<LocalName>,
    /// Inside a definition: the alias under which its sheet is used.
    pub define: Option<Option<String>>,
    /// How many `solve` stand around.
    pub solves: usize,
    /// How many operations stand around.
    pub depth: usize,
}

/// A local name.
#[derive(Debug, Clone)]
pub(super) struct LocalName {
    pub name: String,
    pub kind: Kind,
    pub shape: Shape,
    pub wish: Option<Wish>,
    pub factors: Factors,
    pub safety: bool,
}

impl LocalName {
    /// A name for a value.
    pub fn of(name: &str, typed: &Typed, shape: Shape) -> LocalName {
        LocalName {
            name: name.to_string(),
            kind: typed.kind.clone(),
            shape,
            wish: typed.wish.clone(),
            factors: typed.factors,
            safety: typed.safety,
        }
    }
}

impl Scope {
    /// The same scope where columns may stand.
    pub fn with_columns(&self) -> Scope {
        Scope { columns: true, ..self.clone() }
    }

    /// The same scope inside an argument that takes a column.
    pub fn of_columns(&self) -> Scope {
        Scope { columns: true, whole_columns: true, ..self.clone() }
    }
}
