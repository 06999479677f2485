//! What a value is, how it is held and how it is shown.

use crate::kinds::{Factors, Kind};
use crate::units::Unit;

/// How a pressure point is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Datum {
    /// From true zero, as every other quantity.
    #[default]
    Absolute,
    /// Above the site's atmosphere.
    Gauge,
}

/// What a value is and how it is shown.
#[derive(Debug, Clone, PartialEq)]
pub struct Typing {
    /// Its kind.
    pub kind: Kind,
    /// How it is held.
    pub datum: Datum,
    /// How it is to be shown, if something says so.
    pub wish: Option<Wish>,
    /// The pressures and temperatures that were multiplied and divided to make it.
    pub factors: Factors,
}

/// How a value is to be shown.
#[derive(Debug, Clone, PartialEq)]
pub struct Wish {
    /// One unit, or several falling ones.
    pub units: Vec<Unit>,
    /// Rounding step in the last of them.
    pub step: Option<f64>,
    /// As a function declares its result: two units are for SI and inch–pound; a single one only stands in where the
    /// sheet's unit system has none of its own for this dimension.
    pub weak: bool,
}

impl Wish {
    /// A share shown in per cent or in parts of a million, so that a bare number beside it may be meant a hundredfold.
    pub fn is_share(&self) -> bool {
        matches!(self.units.first(), Some(unit) if matches!(unit.text.as_str(), "%" | "ppm"))
    }

    /// One unit, not rounded.
    pub fn unit(unit: Unit) -> Wish {
        Wish { units: vec![unit], step: None, weak: false }
    }

    /// Whether values that are shown in the other's units can be shown in these: same dimension, and both points or both
    /// differences.
    pub fn stands_for(&self, other: &Wish) -> bool {
        let alike = |one: &Unit, other: &Unit| {
            one.dimension == other.dimension && one.meaning.stance() == other.meaning.stance()
        };
        !self.weak && self.units.first().zip(other.units.first()).is_some_and(|(one, other)| alike(one, other))
    }
}

impl Typing {
    /// A number with a unit as a declaration or an annotation names it.
    pub fn of_unit(unit: &Unit) -> Typing {
        let datum = if unit.needs_atmosphere() { Datum::Gauge } else { Datum::Absolute };
        Typing { datum, wish: Some(Wish::unit(unit.clone())), ..Typing::of(Kind::of_unit(unit)) }
    }

    /// A kind held absolute and shown by default.
    pub fn of(kind: Kind) -> Typing {
        Typing { kind, datum: Datum::Absolute, wish: None, factors: Factors::NONE }
    }
}
