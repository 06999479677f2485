//! Kinds: what an expression stands for, known before any number is.

use std::sync::Arc;

use super::factors::Factors;
use crate::outcome::Sort;
use crate::plan::Wish;
use crate::units::{Dimension, Meaning, Unit};

/// The kind of an expression.
#[derive(Debug, Clone, PartialEq)]
pub enum Kind {
    /// A pure number.
    Number,
    /// A quantity.
    Quantity(Quantity),
    /// A text; with choices, one of them.
    Text(Option<Arc<[String]>>),
    /// True or false.
    Flag,
    /// A date or time.
    Time,
    /// A refrigerant.
    Refrigerant,
    /// A gas.
    Gas,
    /// The result of a function with several parts.
    Record(Arc<RecordKind>),
    /// Not known, because of an error that has been reported. Agrees with everything.
    Unknown,
}

/// A dimension with a stance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Quantity {
    /// What it measures; never a pure number.
    pub dimension: Dimension,
    /// How it stands to zero.
    pub stance: Stance,
}

/// How a quantity stands to zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stance {
    /// Neither temperature nor pressure.
    Plain,
    /// A point on a scale (temperature or pressure).
    Point,
    /// A difference of two points.
    Difference,
    /// A size counted from true zero, as `absolute(…)` gives it: it can be scaled, and it stands where a point is wanted.
    FromZero,
    /// A product of which its factors do not say whether it counts from zero or is a difference. The place it is for
    /// must say so; no value is held as one.
    Unsaid,
}

/// The fields of a record.
#[derive(Debug, PartialEq)]
pub struct RecordKind {
    /// The function that gives it.
    pub of: &'static str,
    /// Fields in order.
    pub fields: Vec<RecordField>,
}

/// One field of a record.
#[derive(Debug, Clone, PartialEq)]
pub struct RecordField {
    /// Its name.
    pub name: &'static str,
    /// Its kind; never a record.
    pub kind: Kind,
    /// How its declaration says it is shown.
    pub wish: Option<Wish>,
}

impl Kind {
    /// The kind of a number in this unit.
    pub fn of_unit(unit: &Unit) -> Kind {
        if unit.dimension.is_number() {
            return Kind::Number;
        }
        let stance = match unit.meaning {
            Meaning::Plain { .. } if unit.dimension.has_points() => Stance::Difference,
            Meaning::Plain { .. } => Stance::Plain,
            Meaning::Difference { .. } => Stance::Difference,
            Meaning::Point { .. } | Meaning::Gauge { .. } | Meaning::Vacuum { .. } => Stance::Point,
        };
        Kind::Quantity(Quantity { dimension: unit.dimension, stance })
    }

    /// A quantity computed by multiplying, dividing or raising, of these factors.
    pub fn computed(dimension: Dimension, factors: Factors) -> Kind {
        if dimension.is_number() {
            return Kind::Number;
        }
        let stance = if dimension.has_points() { factors.stance(dimension) } else { Stance::Plain };
        Kind::Quantity(Quantity { dimension, stance })
    }

    /// A quantity that is neither temperature nor pressure.
    pub fn plain(dimension: Dimension) -> Kind {
        Kind::Quantity(Quantity { dimension, stance: Stance::Plain })
    }

    /// The quantity, if it is one.
    pub fn quantity(&self) -> Option<Quantity> {
        match self {
            Kind::Quantity(quantity) => Some(*quantity),
            _ => None,
        }
    }

    /// Held as a number: a pure number or a quantity.
    pub fn is_numeric(&self) -> bool {
        matches!(self, Kind::Number | Kind::Quantity(_))
    }

    /// What the rows of a log run along: a time, or a duration.
    pub fn is_time_axis(&self) -> bool {
        *self == Kind::Time || self.quantity().is_some_and(|quantity| quantity.dimension == Dimension::TIME)
    }

    /// A temperature or pressure point.
    pub fn is_point(&self) -> bool {
        self.quantity().is_some_and(|quantity| quantity.stance == Stance::Point)
    }

    /// A pressure point: may be held above the site's atmosphere.
    pub fn is_pressure_point(&self) -> bool {
        self.is_point() && self.quantity().is_some_and(|quantity| quantity.dimension == Dimension::PRESSURE)
    }

    /// A value that is an error at or below zero: a point, or a size from zero.
    pub fn is_bounded_by_zero(&self) -> bool {
        self.quantity().is_some_and(|quantity| matches!(quantity.stance, Stance::Point | Stance::FromZero))
    }

    /// A product of which the place that wants it must say how it stands to zero.
    pub fn is_unsaid(&self) -> bool {
        self.quantity().is_some_and(|quantity| quantity.stance == Stance::Unsaid)
    }

    /// The dimension of a numeric kind.
    pub fn dimension(&self) -> Option<Dimension> {
        match self {
            Kind::Number => Some(Dimension::NUMBER),
            Kind::Quantity(quantity) => Some(quantity.dimension),
            _ => None,
        }
    }

    /// The sort that outcomes name; of a record's own there is none.
    pub fn sort(&self) -> Sort {
        match self {
            Kind::Number | Kind::Unknown | Kind::Record(_) => Sort::Number,
            Kind::Quantity(quantity) => match quantity.stance {
                Stance::Plain => Sort::Quantity,
                Stance::Point => Sort::Point,
                Stance::Difference | Stance::Unsaid => Sort::Difference,
                Stance::FromZero => Sort::FromZero,
            },
            Kind::Text(_) => Sort::Text,
            Kind::Flag => Sort::Flag,
            Kind::Time => Sort::Time,
            Kind::Refrigerant => Sort::Refrigerant,
            Kind::Gas => Sort::Gas,
        }
    }

    /// In words for messages, such as `a temperature difference` or `a mass flow (kg/s)`.
    pub fn words(&self) -> String {
        match self {
            Kind::Number => "a plain number".into(),
            Kind::Quantity(quantity) => quantity.words(),
            Kind::Text(None) => "a text".into(),
            Kind::Text(Some(words)) => {
                let words: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
                format!("one of {}", words.join(", "))
            }
            Kind::Flag => "a yes-or-no value".into(),
            Kind::Time => "a date or time".into(),
            Kind::Refrigerant => "a refrigerant".into(),
            Kind::Gas => "a gas".into(),
            Kind::Record(record) => format!("the whole result of `{}`", record.of),
            Kind::Unknown => "something unreadable".into(),
        }
    }
}

impl Quantity {
    /// In words for messages.
    pub fn words(self) -> String {
        let what = if self.dimension == Dimension::TEMPERATURE { "temperature" } else { "pressure" };
        match self.stance {
            Stance::Point if self.dimension == Dimension::PRESSURE => {
                "a pressure (a point, such as psig or psia)".into()
            }
            Stance::Point => "a temperature (a point, such as degF)".into(),
            Stance::Difference if self.dimension == Dimension::PRESSURE => "a pressure difference (such as psi)".into(),
            Stance::Difference => "a temperature difference (such as F°)".into(),
            Stance::FromZero => format!("a {what} counted from true zero"),
            Stance::Unsaid => format!("a {what} of which nothing says whether it is a difference"),
            Stance::Plain => match self.dimension.name() {
                Some(name) => format!("{name} ({})", self.dimension.text()),
                None => format!("a quantity in {}", self.dimension.text()),
            },
        }
    }
}
