//! An evaluator of its own for small arithmetic, to hold the language against.
//!
//! It carries dimension and stance beside every number and decides while it computes, where the language decides before.
//! The rules are written anew from the language reference; nothing of the kind checker is used.

mod expression;

pub use expression::{Expression, expressions};

/// Exponents of length, mass, time, temperature.
type Dimension = [i8; 4];

const NUMBER: Dimension = [0, 0, 0, 0];
const PRESSURE: Dimension = [-1, 1, -2, 0];
const TEMPERATURE: Dimension = [0, 0, 0, 1];

/// How a value stands to its zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stance {
    /// Neither temperature nor pressure.
    Plain,
    /// A point on a scale.
    Point,
    /// A difference.
    Difference,
    /// From true zero.
    Open,
}

/// A value with what it stands for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Value {
    /// Its dimension.
    pub dimension: Dimension,
    /// Its stance.
    pub stance: Stance,
    /// It came from something whose zero is true zero.
    pub from_zero: bool,
    /// The number in SI, points absolute.
    pub si: f64,
}

/// Why there is no value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refused {
    /// The kinds do not go together: the language must refuse it before running.
    Kind,
    /// The kinds go together, the numbers do not: below absolute zero, or divided by zero.
    Number,
}

impl Value {
    fn is_pressure_or_temperature(self) -> bool {
        self.dimension == PRESSURE || self.dimension == TEMPERATURE
    }

    /// Addition, or subtraction with `sign` −1.
    pub fn plus(self, other: Value, sign: f64) -> Result<Value, Refused> {
        use Stance::{Difference, Open, Plain, Point};
        if self.dimension != other.dimension {
            return Err(Refused::Kind);
        }
        let minus = sign < 0.0;
        let stance = match (self.stance, other.stance) {
            (Plain, Plain) => Plain,
            (Point, Point) if minus => Difference,
            (Open, Open) => {
                if minus {
                    Difference
                } else {
                    Open
                }
            }
            (Difference, Difference) => Difference,
            (Difference, Open) => {
                if minus {
                    Difference
                } else {
                    Open
                }
            }
            (Point, Difference) => Point,
            (Point, Open) if !minus => Point,
            (Difference, Point) if !minus => Point,
            (Open, Difference) => Open,
            _ => return Err(Refused::Kind),
        };
        // A difference of two values from true zero counts from no zero any more.
        let from_zero = match stance {
            Open => true,
            Plain if minus => self.from_zero && !other.from_zero,
            Plain => self.from_zero || other.from_zero,
            Point | Difference => false,
        };
        Value { dimension: self.dimension, stance, from_zero, si: self.si + sign * other.si }.existing()
    }

    /// Multiplication, or division with `sign` −1.
    pub fn times(self, other: Value, sign: i8) -> Result<Value, Refused> {
        if self.stance == Stance::Point || other.stance == Stance::Point {
            return Err(Refused::Kind);
        }
        let mut dimension = self.dimension;
        for (own, its) in dimension.iter_mut().zip(other.dimension) {
            *own += sign * its;
        }
        let open = |value: Value| value.from_zero || value.stance == Stance::Open;
        let from_zero = open(self) || open(other);
        let mut value = Value { dimension, stance: Stance::Plain, from_zero, si: 0.0 };
        if value.is_pressure_or_temperature() {
            value.stance = if from_zero { Stance::Open } else { Stance::Difference };
        }
        // A pure number carries no mark.
        value.from_zero &= !value.is_number() && value.stance != Stance::Difference;
        if sign < 0 && other.si == 0.0 {
            return Err(Refused::Number);
        }
        value.si = if sign > 0 { self.si * other.si } else { self.si / other.si };
        value.existing()
    }

    /// The opposite.
    pub fn negated(self) -> Result<Value, Refused> {
        if self.stance == Stance::Point {
            return Err(Refused::Kind);
        }
        // Below true zero there is nothing, so the opposite of an open value is a difference.
        let stance = if self.stance == Stance::Open { Stance::Difference } else { self.stance };
        let from_zero = self.from_zero && stance == Stance::Plain;
        Value { si: -self.si, stance, from_zero, ..self }.existing()
    }

    /// `absolute(x)`.
    pub fn absolute(self) -> Result<Value, Refused> {
        match self.stance {
            Stance::Point | Stance::Open => Ok(Value { stance: Stance::Open, from_zero: true, ..self }),
            Stance::Plain | Stance::Difference => Err(Refused::Kind),
        }
    }

    /// A point or open value stands above absolute zero, and no number overflows.
    fn existing(self) -> Result<Value, Refused> {
        let below = matches!(self.stance, Stance::Point | Stance::Open) && self.si <= 0.0;
        if below || !self.si.is_finite() { Err(Refused::Number) } else { Ok(self) }
    }
}

impl Value {
    /// Whether it is a pure number.
    pub fn is_number(self) -> bool {
        self.dimension == NUMBER
    }
}
