//! What has gone into a number by multiplying and dividing: pressures and temperatures, from zero or as differences.
//!
//! A product that comes out as a pressure does not show by its dimension whether it is one from true zero
//! (`absolute(p1) * absolute(t2) / absolute(t1)`) or a difference (`3 psi * absolute(t2) / absolute(t1)`). Its factors do,
//! as far as they are themselves pressures or temperatures; a kelvin inside `J/(kg·K)` is none. So they are remembered
//! through cells and plain numbers until a pressure or a temperature comes out.

use super::kind::{Kind, Quantity, Stance};
use crate::units::Dimension;

/// The pressures and temperatures among the factors of a value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Factors {
    pressure: Sides,
    temperature: Sides,
}

/// How one dimension is among the factors.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Sides {
    from_zero: bool,
    difference: bool,
    /// Two values were put together of which one counts from zero and the other does not.
    mixed: bool,
}

impl Sides {
    const NONE: Sides = Sides { from_zero: false, difference: false, mixed: false };
    const FROM_ZERO: Sides = Sides { from_zero: true, ..Sides::NONE };
    const DIFFERENCE: Sides = Sides { difference: true, ..Sides::NONE };

    const fn joined(self, other: Sides) -> Sides {
        Sides {
            from_zero: self.from_zero || other.from_zero,
            difference: self.difference || other.difference,
            mixed: self.mixed || other.mixed,
        }
    }

    const fn only_from_zero(self) -> bool {
        self.from_zero && !self.difference
    }
}

impl Factors {
    /// None at all.
    pub const NONE: Factors = Factors { pressure: Sides::NONE, temperature: Sides::NONE };

    /// A value as a factor: itself if it is a pressure or a temperature, else what has gone into it.
    pub fn of(kind: &Kind, carried: Factors) -> Factors {
        let Kind::Quantity(Quantity { dimension, stance }) = kind else { return carried };
        let side = match stance {
            Stance::FromZero => Sides::FROM_ZERO,
            Stance::Difference => Sides::DIFFERENCE,
            Stance::Plain | Stance::Point | Stance::Unsaid => return carried,
        };
        match *dimension {
            Dimension::PRESSURE => Factors { pressure: side, ..Factors::NONE },
            _ => Factors { temperature: side, ..Factors::NONE },
        }
    }

    /// Those of a product or a quotient.
    pub fn times(self, other: Factors) -> Factors {
        self.each(other, Sides::joined)
    }

    /// Those of a sum: what counts from zero and something more counts from zero still.
    pub fn plus(self, other: Factors) -> Factors {
        self.each(other, |own, its| {
            let from_zero = own.only_from_zero() || its.only_from_zero();
            Sides { difference: (own.difference || its.difference) && !from_zero, ..own.joined(its) }
        })
    }

    /// Those of a difference: two that count from zero lie so far apart; something less what counts from zero is neither.
    pub fn minus(self, other: Factors) -> Factors {
        self.each(other, |own, its| match (own.only_from_zero(), its.only_from_zero()) {
            (true, true) => Sides { from_zero: false, difference: true, ..own.joined(its) },
            (true, false) => Sides { difference: false, ..own.joined(its) },
            (false, true) => Sides { mixed: true, ..own.joined(its) },
            (false, false) => own.joined(its),
        })
    }

    /// Those of one of two values, whichever it turns out to be.
    pub fn either(self, other: Factors) -> Factors {
        self.each(other, |own, its| {
            let alike = own.only_from_zero() == its.only_from_zero();
            Sides { mixed: own.mixed || its.mixed || !alike, ..own.joined(its) }
        })
    }

    /// Those of a distance between two such values.
    pub fn apart(self) -> Factors {
        self.minus(self)
    }

    fn each(self, other: Factors, combine: impl Fn(Sides, Sides) -> Sides) -> Factors {
        Factors {
            pressure: combine(self.pressure, other.pressure),
            temperature: combine(self.temperature, other.temperature),
        }
    }

    /// How a pressure or a temperature that comes out of them stands to zero.
    pub fn stance(self, dimension: Dimension) -> Stance {
        let own = if dimension == Dimension::PRESSURE { self.pressure } else { self.temperature };
        let both = self.pressure.joined(self.temperature);
        if own.mixed {
            Stance::Unsaid
        } else if own.difference {
            Stance::Difference
        } else if own.from_zero && !both.difference && !both.mixed {
            Stance::FromZero
        } else if both.from_zero || both.mixed {
            Stance::Unsaid
        } else {
            Stance::Difference
        }
    }
}
