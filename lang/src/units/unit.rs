//! A unit as used in a sheet: dimension, meaning of its numbers, factor to SI.

use super::Dimension;

/// What a number in this unit stands for, and how it becomes SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Meaning {
    /// Neither temperature nor pressure: SI = number × factor.
    Plain {
        /// SI units in one of this unit.
        factor: f64,
    },
    /// A difference of temperatures or pressures: SI = number × factor.
    Difference {
        /// SI units in one of this unit.
        factor: f64,
    },
    /// A temperature or pressure whose zero is true zero: SI = number × factor.
    Open {
        /// SI units in one of this unit.
        factor: f64,
    },
    /// A point on a scale of its own: SI = (number + offset) × factor.
    Point {
        /// Added to the number first.
        offset: f64,
        /// SI units in one of this unit.
        factor: f64,
    },
    /// A point above the site's atmosphere: SI = number × factor + atmosphere.
    Gauge {
        /// Pascals in one of this unit.
        factor: f64,
    },
    /// A point below the site's atmosphere: SI = atmosphere − number × factor.
    Vacuum {
        /// Pascals in one of this unit.
        factor: f64,
    },
}

impl Meaning {
    /// SI units in one of this unit.
    pub fn factor(self) -> f64 {
        match self {
            Meaning::Plain { factor }
            | Meaning::Difference { factor }
            | Meaning::Open { factor }
            | Meaning::Point { factor, .. }
            | Meaning::Gauge { factor }
            | Meaning::Vacuum { factor } => factor,
        }
    }
}

/// A unit with its shown spelling, such as `psig` or `Btu/(h·ft2·degF)`.
#[derive(Debug, Clone, PartialEq)]
pub struct Unit {
    /// The spelling that reports use.
    pub text: String,
    /// What it measures.
    pub dimension: Dimension,
    /// What its numbers stand for.
    pub meaning: Meaning,
    /// Code in the Unified Code for Units of Measure, for data exchange.
    pub ucum: String,
}
