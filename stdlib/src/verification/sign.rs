//! How sure a sign is.

use uom::si::{Dimension, Quantity, SI};

/// How sure a sign is: it counts only when its uncertainty keeps clear of the limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sign {
    /// Surely not there.
    No,
    /// Within its uncertainty, or not read.
    Unsure,
    /// Surely there.
    Sure,
}

/// A quantity of any one dimension.
type Of<D> = Quantity<D, SI<f64>, f64>;

impl Sign {
    /// A value above a limit.
    pub fn above<D: Dimension + ?Sized>(value: Of<D>, limit: Of<D>, uncertainty: Of<D>) -> Sign {
        match value.value - limit.value {
            over if over > uncertainty.value => Sign::Sure,
            over if over < -uncertainty.value => Sign::No,
            _ => Sign::Unsure,
        }
    }

    /// A value below a limit.
    pub fn below<D: Dimension + ?Sized>(value: Of<D>, limit: Of<D>, uncertainty: Of<D>) -> Sign {
        Sign::above(limit, value, uncertainty)
    }

    /// Both.
    pub fn and(self, other: Sign) -> Sign {
        self.min(other)
    }

    /// Whether it is surely there.
    pub fn is_sure(self) -> bool {
        self == Sign::Sure
    }
}
