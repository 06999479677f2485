//! Kinds: what an expression stands for, known before any number is.

use std::sync::Arc;

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
    /// Neither temperature nor pressure. `from_zero`: an open value took part in it, so that a pressure or
    /// temperature computed from it is open.
    Plain {
        /// The mark.
        from_zero: bool,
    },
    /// A point on a scale (temperature or pressure).
    Point,
    /// A difference of two points.
    Difference,
    /// From true zero: serves as point and as difference.
    Open,
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

impl Quantity {
    /// An open value or what was computed from one.
    pub fn from_zero(self) -> bool {
        matches!(self.stance, Stance::Open | Stance::Plain { from_zero: true })
    }
}

impl Kind {
    /// The kind of a number in this unit.
    pub fn of_unit(unit: &Unit) -> Kind {
        if unit.dimension.is_number() {
            return Kind::Number;
        }
        let stance = match unit.meaning {
            Meaning::Plain { .. } if unit.dimension.has_points() => Stance::Difference,
            Meaning::Plain { .. } => Stance::Plain { from_zero: false },
            Meaning::Difference { .. } => Stance::Difference,
            Meaning::Open { .. } => Stance::Open,
            Meaning::Point { .. } | Meaning::Gauge { .. } | Meaning::Vacuum { .. } => Stance::Point,
        };
        Kind::Quantity(Quantity { dimension: unit.dimension, stance })
    }

    /// This kind, that of a unit, as it is meant for a value to be shown in it. An open unit measures a step as well as
    /// a distance from zero, so a difference may be shown in one (a superheat in `K`, a rise in `micron`) and stays a
    /// difference.
    pub fn shown_for(self, value: &Kind) -> Kind {
        match (self, value) {
            (Kind::Quantity(unit), Kind::Quantity(have))
                if unit.stance == Stance::Open
                    && have.stance == Stance::Difference
                    && unit.dimension == have.dimension =>
            {
                Kind::Quantity(*have)
            }
            (unit, _) => unit,
        }
    }

    /// A quantity computed by multiplying, dividing or raising; `marked` if any operand counts from zero.
    pub fn computed(dimension: Dimension, marked: bool) -> Kind {
        if dimension.is_number() {
            return Kind::Number;
        }
        let stance = match (dimension.has_points(), marked) {
            (true, true) => Stance::Open,
            (true, false) => Stance::Difference,
            (false, from_zero) => Stance::Plain { from_zero },
        };
        Kind::Quantity(Quantity { dimension, stance })
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

    /// A temperature or pressure point.
    pub fn is_point(&self) -> bool {
        self.quantity().is_some_and(|quantity| quantity.stance == Stance::Point)
    }

    /// A pressure point: may be held above the site's atmosphere.
    pub fn is_pressure_point(&self) -> bool {
        self.is_point() && self.quantity().is_some_and(|quantity| quantity.dimension == Dimension::PRESSURE)
    }

    /// A value that is an error at or below zero: point or open.
    pub fn is_bounded_by_zero(&self) -> bool {
        self.quantity().is_some_and(|quantity| matches!(quantity.stance, Stance::Point | Stance::Open))
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
                Stance::Plain { .. } => Sort::Quantity,
                Stance::Point => Sort::Point,
                Stance::Difference => Sort::Difference,
                Stance::Open => Sort::Open,
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
            Stance::Open => format!("a {what} from true zero"),
            Stance::Plain { .. } => match self.dimension.name() {
                Some(name) => format!("{name} ({})", self.dimension.text()),
                None => format!("a quantity in {}", self.dimension.text()),
            },
        }
    }
}
