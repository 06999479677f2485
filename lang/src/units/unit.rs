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
    pub const fn factor(self) -> f64 {
        match self {
            Meaning::Plain { factor }
            | Meaning::Difference { factor }
            | Meaning::Point { factor, .. }
            | Meaning::Gauge { factor }
            | Meaning::Vacuum { factor } => factor,
        }
    }

    /// Which stance of a temperature or pressure it is.
    pub const fn stance(self) -> Stance {
        match self {
            Meaning::Plain { .. } => Stance::Plain,
            Meaning::Difference { .. } => Stance::Difference,
            Meaning::Point { .. } | Meaning::Gauge { .. } | Meaning::Vacuum { .. } => Stance::Point,
        }
    }
}

/// How a quantity stands to its zero; only temperatures and pressures are other than plain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Stance {
    /// Neither temperature nor pressure.
    Plain,
    /// A point on a scale.
    Point,
    /// A difference of two points.
    Difference,
    /// A size counted from true zero, as `absolute(…)` gives it. No unit means it; it has units to be shown in.
    FromZero,
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
    /// The word `difference` stands behind it, so that nobody need ask whether it is meant.
    pub said: bool,
}

impl Unit {
    /// A number in this unit as SI; points become absolute. Only gauge and vacuum units look at the atmosphere (Pa).
    pub fn to_si(&self, number: f64, atmosphere: f64) -> f64 {
        match self.meaning {
            Meaning::Plain { factor } | Meaning::Difference { factor } => multiply(number, factor),
            Meaning::Point { offset, factor } => multiply(number + offset, factor),
            Meaning::Gauge { factor } => multiply(number, factor) + atmosphere,
            Meaning::Vacuum { factor } => atmosphere - multiply(number, factor),
        }
    }

    /// An SI value, points absolute, as a number in this unit.
    pub fn from_si(&self, si: f64, atmosphere: f64) -> f64 {
        match self.meaning {
            Meaning::Plain { factor } | Meaning::Difference { factor } => divide(si, factor),
            Meaning::Point { offset, factor } => divide(si, factor) - offset,
            Meaning::Gauge { factor } => divide(si - atmosphere, factor),
            Meaning::Vacuum { factor } => divide(atmosphere - si, factor),
        }
    }

    /// Whether numbers in this unit depend on the site's atmosphere.
    pub fn needs_atmosphere(&self) -> bool {
        matches!(self.meaning, Meaning::Gauge { .. } | Meaning::Vacuum { .. })
    }
}

/// `number × factor`, exact wherever the factor is the reciprocal of a short number (1/1000, 1/100, 1/1.8): 55 % is the
/// same bits as 0.55, and 3 mm as 0.003 m, which multiplying by a rounded 0.01 or 0.001 would miss now and then.
fn multiply(number: f64, factor: f64) -> f64 {
    match reciprocal(factor) {
        Some(parts) => number / parts,
        None => number * factor,
    }
}

/// The way back of [`multiply`].
fn divide(number: f64, factor: f64) -> f64 {
    match reciprocal(factor) {
        Some(parts) => number * parts,
        None => number / factor,
    }
}

/// `1/factor`, if that is greater than one, has at most one decimal, and `factor` is its reciprocal to the last bit.
fn reciprocal(factor: f64) -> Option<f64> {
    if !(1e-12..1.0).contains(&factor) {
        return None;
    }
    let parts = (10.0 / factor).round() / 10.0;
    (1.0 / parts == factor).then_some(parts)
}
