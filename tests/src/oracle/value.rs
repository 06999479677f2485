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
    /// A size from true zero.
    FromZero,
    /// A product of which nothing says whether it counts from zero: more can be multiplied to it, and no more.
    Unsaid,
}

/// What has gone into a number by multiplying: letters `P` and `T` for a pressure or temperature from zero, `p` and `t` for
/// a difference of two, `!P` and `!T` where values were put together of which one counts from zero and the other does not.
pub type Marks = [[bool; 3]; 2];

const FROM_ZERO: usize = 0;
const DIFFERENCE: usize = 1;
const MIXED: usize = 2;

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
    /// Pressures and temperatures that have gone into it.
    pub marks: Marks,
    /// A gauge pressure: the number counts from the atmosphere.
    pub gauge: bool,
    /// Whether the unit it is shown in, if one was written, counts from the atmosphere.
    pub shown: Option<bool>,
    /// As it was typed, if it was.
    pub literal: Option<f64>,
    /// The number in SI.
    pub number: Result<f64, Fault>,
}

type Kinded = Result<Value, IllKinded>;

impl Value {
    /// A pure number.
    pub fn pure(number: f64) -> Value {
        Value {
            dimension: NUMBER,
            stance: Stance::Plain,
            marks: Marks::default(),
            gauge: false,
            shown: None,
            literal: None,
            number: Ok(number),
        }
    }

    /// The same, refused if nobody can say what it stands for.
    pub fn said(self) -> Kinded {
        if self.stance == Stance::Unsaid { Err(IllKinded) } else { Ok(self) }
    }

    /// What it brings into a product.
    fn brought(self) -> Marks {
        let at = usize::from(self.dimension == TEMPERATURE);
        let mut marks = Marks::default();
        match self.stance {
            Stance::FromZero => marks[at][FROM_ZERO] = true,
            Stance::Difference => marks[at][DIFFERENCE] = true,
            _ => return self.marks,
        }
        marks
    }

    /// A step of the size of the air's own pressure, typed beside a gauge pressure.
    fn takes_air_for_a_step(self, step: Value) -> bool {
        let on_a_gauge =
            |value: Value| value.dimension == PRESSURE && value.stance == Stance::Point && value.shown.unwrap_or(true);
        let near = step.literal.is_some_and(|typed| (typed - ATMOSPHERE).abs() <= 0.005 * ATMOSPHERE);
        on_a_gauge(self) && !on_a_gauge(step) && near
    }

    /// Whether it is a pure number.
    pub fn is_number(self) -> bool {
        self.dimension == NUMBER
    }

    /// Addition, or subtraction.
    pub fn plus(self, other: Value, minus: bool) -> Kinded {
        use Stance::{Difference, FromZero, Plain, Point};
        if self.dimension != other.dimension {
            return Err(IllKinded);
        }
        if !minus && (self.takes_air_for_a_step(other) || other.takes_air_for_a_step(self)) {
            return Err(IllKinded);
        }
        let stance = match (self.stance, other.stance) {
            (Plain, Plain) => Plain,
            (Point | FromZero, Point | FromZero) if minus => Difference,
            (FromZero, FromZero) => FromZero,
            (Difference, FromZero) if !minus => FromZero,
            (Difference, Difference) => Difference,
            (Point, Difference) => Point,
            (Difference, Point) if !minus => Point,
            (FromZero, Difference) => FromZero,
            _ => return Err(IllKinded),
        };
        let marks = each(self.marks, other.marks, |own, its| {
            let [a, b] = [own, its].map(|one| one[FROM_ZERO] && !one[DIFFERENCE]);
            let mut sum = either_of(own, its);
            match (a, b) {
                (true, true) if minus => {
                    sum[FROM_ZERO] = false;
                    sum[DIFFERENCE] = true;
                }
                (false, true) if minus => sum[MIXED] = true,
                (true, _) | (_, true) => sum[DIFFERENCE] = false,
                _ => {}
            }
            sum
        });
        // Between two gauge readings the atmosphere cancels.
        let cancels = self.gauge && other.gauge;
        let (left, right) = match (self.stance, other.stance) {
            (Point | FromZero, Point | FromZero) if minus && !cancels => {
                (self.from_true_zero(), other.from_true_zero())
            }
            _ => (self, other),
        };
        let gauge = stance == Point && (left.gauge || right.gauge);
        let number = both(left.number, right.number, |a, b| Ok(if minus { a - b } else { a + b }));
        Ok(Value { dimension: self.dimension, stance, marks, gauge, shown: None, literal: None, number }.existing())
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
        let alike = over && self.dimension == other.dimension && self.stance == other.stance;
        let marks = match self.stance {
            Stance::FromZero | Stance::Difference if alike => Marks::default(),
            _ => each(self.brought(), other.brought(), either_of),
        };
        computed(dimension, marks, number)
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
        computed(dimension, self.brought(), number)
    }

    /// The opposite.
    pub fn negated(self) -> Kinded {
        // Below true zero there is nothing.
        if matches!(self.stance, Stance::Point | Stance::FromZero) {
            return Err(IllKinded);
        }
        Ok(Value { literal: None, number: self.number.map(|number| -number), ..self })
    }

    /// `absolute(x)`.
    pub fn absolute(self) -> Kinded {
        match self.stance {
            Stance::Point | Stance::FromZero => {
                Ok(Value { stance: Stance::FromZero, shown: None, literal: None, ..self.from_true_zero() })
            }
            Stance::Plain | Stance::Difference | Stance::Unsaid => Err(IllKinded),
        }
    }

    /// A function of a pure number; some say as much of what it was made of as the number itself.
    pub fn of_number(self, keeps: bool, function: impl Fn(f64) -> Result<f64, Fault>) -> Kinded {
        if !self.is_number() {
            return Err(IllKinded);
        }
        let marks = if keeps { self.marks } else { Marks::default() };
        Ok(Value { marks, literal: None, number: self.number.and_then(function), ..self }.existing())
    }

    /// Both as one kind, held alike.
    pub fn unified(self, other: Value) -> Result<(Value, Value), IllKinded> {
        use Stance::{FromZero, Point};
        if self.dimension != other.dimension {
            return Err(IllKinded);
        }
        let stance = match (self.stance, other.stance) {
            (one, other) if one == other => one,
            (FromZero, Point) | (Point, FromZero) => Point,
            _ => return Err(IllKinded),
        };
        if stance == Stance::Unsaid {
            return Err(IllKinded);
        }
        let marks = each(self.marks, other.marks, |own, its| {
            let alone = |one: [bool; 3]| one[FROM_ZERO] && !one[DIFFERENCE];
            let mut both = either_of(own, its);
            both[MIXED] |= alone(own) != alone(its);
            both
        });
        let shown = self.shown.or(other.shown);
        let (left, right) =
            if self.gauge == other.gauge { (self, other) } else { (self.from_true_zero(), other.from_true_zero()) };
        let alike = |value: Value| Value { stance, marks, shown, literal: None, ..value };
        Ok((alike(left), alike(right)))
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

    /// A point or a size from zero stands above absolute zero, and no number overflows. What counts from the atmosphere is
    /// looked at when it is counted from true zero.
    fn existing(self) -> Value {
        let bounded = matches!(self.stance, Stance::Point | Stance::FromZero) && !self.gauge;
        let number = self.number.and_then(|number| match number {
            number if !number.is_finite() => Err(Fault::Overflow),
            number if bounded && number <= 0.0 => Err(Fault::BelowZero),
            number => Ok(number),
        });
        Value { number, ..self }
    }
}

/// The result of a product or a power.
fn computed(dimension: Dimension, marks: Marks, number: Result<f64, Fault>) -> Kinded {
    if dimension.iter().any(|exponent| exponent.abs() > EXPONENTS) {
        return Err(IllKinded);
    }
    let of = |at: usize, mark: usize| marks[at][mark];
    let stance = match dimension {
        PRESSURE | TEMPERATURE => {
            let (own, other) = if dimension == PRESSURE { (0, 1) } else { (1, 0) };
            let odd = of(0, FROM_ZERO) || of(1, FROM_ZERO) || of(0, MIXED) || of(1, MIXED);
            let clean = !of(0, DIFFERENCE) && !of(1, DIFFERENCE) && !of(other, MIXED);
            match () {
                () if of(own, MIXED) => Stance::Unsaid,
                () if of(own, DIFFERENCE) => Stance::Difference,
                () if of(own, FROM_ZERO) && clean => Stance::FromZero,
                () if odd => Stance::Unsaid,
                () => Stance::Difference,
            }
        }
        _ => Stance::Plain,
    };
    Ok(Value { dimension, stance, marks, gauge: false, shown: None, literal: None, number }.existing())
}

fn each(one: Marks, other: Marks, combine: impl Fn([bool; 3], [bool; 3]) -> [bool; 3]) -> Marks {
    [combine(one[0], other[0]), combine(one[1], other[1])]
}

fn either_of(one: [bool; 3], other: [bool; 3]) -> [bool; 3] {
    [0, 1, 2].map(|at| one[at] || other[at])
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
