//! A number with what it stands for, and what may be done with it.

/// Exponents of length, mass, time, temperature.
pub type Dimension = [i8; 4];

pub const NUMBER: Dimension = [0, 0, 0, 0];
pub const PRESSURE: Dimension = [-1, 1, -2, 0];
pub const TEMPERATURE: Dimension = [0, 0, 0, 1];

/// The atmosphere without a site, in Pa.
pub const ATMOSPHERE: f64 = 101_325.0;

/// Exponents beyond this have no unit.
const EXPONENTS: i8 = 12;

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

/// The kinds do not go together: the language must refuse it before running.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct IllKinded;

/// The kinds go together, the numbers do not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// At or below absolute zero.
    BelowZero,
    /// Divided by zero.
    DivisionByZero,
    /// Too large to hold.
    Overflow,
    /// A root or logarithm that no number is.
    NotReal,
}

impl Fault {
    /// The code of the language's message.
    pub fn code(self) -> &'static str {
        match self {
            Fault::BelowZero => "D0601",
            Fault::DivisionByZero => "D0602",
            Fault::Overflow => "D0603",
            Fault::NotReal => "D0604",
        }
    }
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
    /// A gauge pressure: the number counts from the atmosphere.
    pub gauge: bool,
    /// The number in SI.
    pub number: Result<f64, Fault>,
}

type Kinded = Result<Value, IllKinded>;

impl Value {
    /// A pure number.
    pub fn pure(number: f64) -> Value {
        Value { dimension: NUMBER, stance: Stance::Plain, from_zero: false, gauge: false, number: Ok(number) }
    }

    /// Whether it is a pure number.
    pub fn is_number(self) -> bool {
        self.dimension == NUMBER
    }

    /// Addition, or subtraction.
    pub fn plus(self, other: Value, minus: bool) -> Kinded {
        use Stance::{Difference, Open, Plain, Point};
        if self.dimension != other.dimension {
            return Err(IllKinded);
        }
        let stance = match (self.stance, other.stance) {
            (Plain, Plain) => Plain,
            (Point, Point) | (Open, Open) | (Difference, Open) if minus => Difference,
            (Open, Open) | (Difference, Open) => Open,
            (Difference, Difference) => Difference,
            (Point, Difference) => Point,
            (Point, Open) | (Difference, Point) if !minus => Point,
            (Open, Difference) => Open,
            _ => return Err(IllKinded),
        };
        // A difference of two values from true zero counts from no zero any more.
        let from_zero = match stance {
            Open => true,
            Plain if minus => self.from_zero && !other.from_zero,
            Plain => self.from_zero || other.from_zero,
            Point | Difference => false,
        };
        // Between two gauge readings the atmosphere cancels.
        let cancels = self.gauge && other.gauge;
        let (left, right) = match (self.stance, other.stance) {
            (Point, Point) if !cancels => (self.from_true_zero(), other.from_true_zero()),
            _ => (self, other),
        };
        let gauge = stance == Point && (left.gauge || right.gauge);
        let number = both(left.number, right.number, |a, b| Ok(if minus { a - b } else { a + b }));
        Ok(Value { dimension: self.dimension, stance, from_zero, gauge, number }.existing())
    }

    /// Multiplication, or division.
    pub fn times(self, other: Value, over: bool) -> Kinded {
        if self.stance == Stance::Point || other.stance == Stance::Point {
            return Err(IllKinded);
        }
        let mut dimension = self.dimension;
        for (own, its) in dimension.iter_mut().zip(other.dimension) {
            *own += if over { -its } else { its };
        }
        let number = both(self.number, other.number, |a, b| match over {
            true if b == 0.0 => Err(Fault::DivisionByZero),
            true => Ok(a / b),
            false => Ok(a * b),
        });
        let counted = |value: Value| value.from_zero || value.stance == Stance::Open;
        computed(dimension, counted(self) || counted(other), number)
    }

    /// A power with a whole exponent, or the square root for none.
    pub fn power(self, exponent: Option<i8>) -> Kinded {
        if self.stance == Stance::Point {
            return Err(IllKinded);
        }
        let dimension = match exponent {
            Some(exponent) => self.dimension.map(|own| own.saturating_mul(exponent)),
            None if self.dimension.iter().all(|own| own % 2 == 0) => self.dimension.map(|own| own / 2),
            None => return Err(IllKinded),
        };
        let number = self.number.and_then(|base| match exponent {
            None if base < 0.0 => Err(Fault::NotReal),
            None => Ok(base.sqrt()),
            Some(exponent) if exponent < 0 && base == 0.0 => Err(Fault::DivisionByZero),
            Some(exponent) => Ok(whole_power(base, exponent)),
        });
        let counted = self.from_zero || self.stance == Stance::Open;
        computed(dimension, counted, number)
    }

    /// The opposite.
    pub fn negated(self) -> Kinded {
        let stance = match self.stance {
            Stance::Point => return Err(IllKinded),
            // Below true zero there is nothing, so the opposite of an open value is a difference.
            Stance::Open => Stance::Difference,
            stance => stance,
        };
        let from_zero = self.from_zero && stance == Stance::Plain;
        Ok(Value { stance, from_zero, number: self.number.map(|number| -number), ..self })
    }

    /// `absolute(x)`.
    pub fn absolute(self) -> Kinded {
        match self.stance {
            Stance::Point | Stance::Open => {
                Ok(Value { stance: Stance::Open, from_zero: true, ..self.from_true_zero() })
            }
            Stance::Plain | Stance::Difference => Err(IllKinded),
        }
    }

    /// A function of a pure number.
    pub fn of_number(self, function: impl Fn(f64) -> Result<f64, Fault>) -> Kinded {
        if !self.is_number() {
            return Err(IllKinded);
        }
        Ok(Value { number: self.number.and_then(function), ..self }.existing())
    }

    /// Both as one kind, held alike.
    pub fn unified(self, other: Value) -> Result<(Value, Value), IllKinded> {
        use Stance::{Open, Plain};
        if self.dimension != other.dimension {
            return Err(IllKinded);
        }
        let stance = match (self.stance, other.stance) {
            (one, other) if one == other => one,
            (Open, other) => other,
            (one, Open) => one,
            _ => return Err(IllKinded),
        };
        let from_zero = match stance {
            Plain => self.from_zero || other.from_zero,
            stance => stance == Open,
        };
        let (left, right) =
            if self.gauge == other.gauge { (self, other) } else { (self.from_true_zero(), other.from_true_zero()) };
        Ok((Value { stance, from_zero, ..left }, Value { stance, from_zero, ..right }))
    }

    /// The greater, or the lesser.
    pub fn chosen(self, other: Value, greater: bool) -> Kinded {
        let (left, right) = self.unified(other)?;
        // Of equal ones the first, so that a zero keeps its sign.
        let takes_other = |a: f64, b: f64| if greater { b > a } else { b < a };
        let number = both(left.number, right.number, |a, b| Ok(if takes_other(a, b) { b } else { a }));
        Ok(Value { number, ..left })
    }

    /// `if self < other then yes else no`: only the branch that is needed counts.
    pub fn choosing(self, other: Value, yes: Value, no: Value) -> Kinded {
        let (left, right) = self.unified(other)?;
        let (yes, no) = yes.unified(no)?;
        let number = match both(left.number, right.number, |a, b| Ok(if less(a, b) { 1.0 } else { 0.0 })) {
            Err(fault) => Err(fault),
            Ok(1.0) => yes.number,
            Ok(_) => no.number,
        };
        Ok(Value { number, ..yes })
    }

    /// As a cell holds it in the end: from true zero, and above it.
    pub fn from_true_zero(self) -> Value {
        if !self.gauge {
            return self;
        }
        Value { gauge: false, number: self.number.map(|number| number + ATMOSPHERE), ..self }.existing()
    }

    /// A point or open value stands above absolute zero, and no number overflows. What counts from the atmosphere is
    /// looked at when it is counted from true zero.
    fn existing(self) -> Value {
        let bounded = matches!(self.stance, Stance::Point | Stance::Open) && !self.gauge;
        let number = self.number.and_then(|number| match number {
            number if !number.is_finite() => Err(Fault::Overflow),
            number if bounded && number <= 0.0 => Err(Fault::BelowZero),
            number => Ok(number),
        });
        Value { number, ..self }
    }
}

/// The result of a product or a power.
fn computed(dimension: Dimension, from_zero: bool, number: Result<f64, Fault>) -> Kinded {
    if dimension.iter().any(|exponent| exponent.abs() > EXPONENTS) {
        return Err(IllKinded);
    }
    let stance = match dimension {
        PRESSURE | TEMPERATURE if from_zero => Stance::Open,
        PRESSURE | TEMPERATURE => Stance::Difference,
        _ => Stance::Plain,
    };
    // A pure number carries no mark.
    let from_zero = from_zero && dimension != NUMBER && stance != Stance::Difference;
    Ok(Value { dimension, stance, from_zero, gauge: false, number }.existing())
}

/// What goes wrong on the left is told first.
fn both(
    left: Result<f64, Fault>,
    right: Result<f64, Fault>,
    op: impl Fn(f64, f64) -> Result<f64, Fault>,
) -> Result<f64, Fault> {
    let left = left?;
    op(left, right?)
}

/// Numbers that differ by less than 1e-9 of the larger count as equal.
fn less(a: f64, b: f64) -> bool {
    a < b && (a - b).abs() > 1e-9 * a.abs().max(b.abs())
}

/// By squaring, and the reciprocal at the end.
fn whole_power(base: f64, exponent: i8) -> f64 {
    let size = match exponent.unsigned_abs() {
        0 => 1.0,
        1 => base,
        2 => base * base,
        3 => base * (base * base),
        _ => f64::NAN,
    };
    if exponent < 0 { 1.0 / size } else { size }
}
