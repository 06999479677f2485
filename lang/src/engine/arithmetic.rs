//! Arithmetic on blocks. Every result is checked: no NaN, no infinity leaves an operation.

use std::sync::Arc;

use super::block::{Block, Data, Mark, States};
use super::doubt::{Doubt, standard};
use super::fault::Fault;
use crate::diagnostic::running as codes;
use crate::plan::{Math, Order};
use crate::source::Span;

/// Numbers that differ by less than this share of the larger count as equal.
pub const EQUAL: f64 = 1e-9;

/// The length of what two blocks give together.
pub fn common_length(a: &Block, b: &Block) -> usize {
    if a.len() == 1 { b.len() } else { a.len() }
}

/// An operation on two blocks of numbers, value by value, with its two slopes.
pub fn pairwise(
    a: Block,
    b: Block,
    span: Span,
    op: impl Fn(f64, f64) -> f64,
    slopes: impl Fn(f64, f64) -> (f64, f64),
) -> Block {
    let length = common_length(&a, &b);
    let states = a.states.merge(&b.states, length);
    let states = if a.states.doubt().is_some() || b.states.doubt().is_some() {
        let doubt = doubt_of_two(&a, &b, length, &states, &op, slopes);
        states.with_doubt(Some(Box::new(doubt)))
    } else {
        states
    };
    let (a_len, b_len) = (a.len(), b.len());
    let (mut x, _) = a.into_numbers();
    let (mut y, _) = b.into_numbers();
    let values = if a_len == b_len {
        for (left, right) in x.iter_mut().zip(&y) {
            *left = op(*left, *right);
        }
        x
    } else if b_len == 1 {
        let right = y[0];
        for left in &mut x {
            *left = op(*left, right);
        }
        x
    } else if a_len == 1 {
        let left = x[0];
        for right in &mut y {
            *right = op(left, *right);
        }
        y
    } else {
        return Block::broken(Fault::new(&codes::NOT_EVEN, "columns of different length meet", span));
    };
    finite(values, states, span, "the result")
}

/// What two doubtful values make of their doubt.
fn doubt_of_two(
    a: &Block,
    b: &Block,
    length: usize,
    states: &States,
    op: impl Fn(f64, f64) -> f64,
    slopes: impl Fn(f64, f64) -> (f64, f64),
) -> Doubt {
    let (left, right) = (a.as_numbers(), b.as_numbers());
    let mut doubt = Doubt::with_room(length);
    for at in 0..length {
        if states.mark(at) != Mark::Known {
            doubt.push([]);
            continue;
        }
        let x = left[if left.len() == 1 { 0 } else { at }];
        let y = right[if right.len() == 1 { 0 } else { at }];
        let (by_x, by_y) = (a.states.doubt_at(at), b.states.doubt_at(at));
        let (p, q) = slopes(x, y);
        // Where there is no finite slope, that of the chord over one standard uncertainty stands in.
        let p = finite_slope(p, || chord(standard(by_x), |u| op(x + u, y) - op(x, y)));
        let q = finite_slope(q, || chord(standard(by_y), |u| op(x, y + u) - op(x, y)));
        doubt.push_sum((by_x, p), (by_y, q));
    }
    doubt
}

fn finite_slope(slope: f64, otherwise: impl FnOnce() -> f64) -> f64 {
    if slope.is_finite() { slope } else { Some(otherwise()).filter(|slope| slope.is_finite()).unwrap_or(0.0) }
}

fn chord(u: f64, rise: impl Fn(f64) -> f64) -> f64 {
    if u > 0.0 { rise(u) / u } else { 0.0 }
}

/// An operation on two runs of known numbers of one length.
pub fn of_slices(x: &[f64], y: &[f64], span: Span, op: impl Fn(f64, f64) -> f64) -> Block {
    let values = x.iter().zip(y).map(|(x, y)| op(*x, *y)).collect();
    finite(values, States::known(), span, "the result")
}

/// An operation on a block and a run of known numbers; the block comes first.
pub fn with_slice(
    a: Block,
    y: &[f64],
    span: Span,
    op: impl Fn(f64, f64) -> f64,
    slopes: impl Fn(f64, f64) -> (f64, f64),
) -> Block {
    if a.len() != y.len() || a.states.doubt().is_some() {
        return pairwise(a, Block::numbers(y.to_vec()), span, op, slopes);
    }
    let (mut values, states) = a.into_numbers();
    for (value, y) in values.iter_mut().zip(y) {
        *value = op(*value, *y);
    }
    finite(values, states, span, "the result")
}

/// An operation on one block of numbers, value by value, with its slope.
pub fn each(a: Block, span: Span, op: impl Fn(f64) -> f64, slope: impl Fn(f64) -> f64) -> Block {
    let (mut values, mut states) = a.into_numbers();
    if let Some(before) = states.doubt() {
        let mut doubt = Doubt::with_room(values.len());
        for (at, &x) in values.iter().enumerate() {
            let parts = before.row(at);
            let slope = finite_slope(slope(x), || chord(standard(parts), |u| op(x + u) - op(x)));
            doubt.push(parts.iter().map(|&(cause, part)| (cause, part * slope)));
        }
        states = states.with_doubt(Some(Box::new(doubt)));
    }
    for value in &mut values {
        *value = op(*value);
    }
    finite(values, states, span, "the result")
}

/// Breaks what is not finite.
fn finite(mut values: Vec<f64>, mut states: States, span: Span, what: &str) -> Block {
    // One more in the exponent's last place carries into the sign bit only from an exponent of all ones: that of
    // infinities and NaN. Without a comparison the loop works on several values at once on any processor.
    const EXPONENT: u64 = 0x7ff0_0000_0000_0000;
    const ONE: u64 = 0x0010_0000_0000_0000;
    let carries = values.iter().fold(0, |carries, value| carries | (value.to_bits() & EXPONENT).wrapping_add(ONE));
    if carries >> 63 == 1 {
        let length = values.len();
        let fault = Arc::new(Fault::new(&codes::OVERFLOW, format!("{what} is too large to hold"), span));
        for (at, value) in values.iter_mut().enumerate() {
            if !value.is_finite() {
                if states.mark(at) == Mark::Known {
                    states.break_at(at, fault.clone(), length);
                }
                *value = 0.0;
            }
        }
    }
    Block { data: Data::Numbers(values), states }
}

/// Breaks known values for which a condition holds.
pub fn break_where(block: Block, wrong: impl Fn(f64) -> bool, fault: impl Fn(f64) -> Fault) -> Block {
    let (values, mut states) = block.into_numbers();
    let length = values.len();
    for (at, value) in values.iter().enumerate() {
        if wrong(*value) && states.mark(at) == Mark::Known {
            states.break_at(at, Arc::new(fault(*value)), length);
        }
    }
    Block { data: Data::Numbers(values), states }
}

/// A quotient; division by zero breaks.
pub fn divide(a: Block, b: Block, span: Span) -> Block {
    let zero = b.as_numbers().contains(&0.0);
    let b = if zero {
        break_where(
            b,
            |value| value == 0.0,
            |_| {
                Fault::new(&codes::DIVISION_BY_ZERO, "this divides by zero", span)
                    .with_mend("see how the lower part of the fraction comes to be zero")
            },
        )
    } else {
        b
    };
    pairwise(a, b, span, |x, y| x / y, |x, y| (1.0 / y, -x / (y * y)))
}

/// A power with a written exponent: roots of negative numbers and negative powers of zero break.
pub fn power(a: Block, numerator: i32, denominator: i32, span: Span) -> Block {
    let a = if denominator % 2 == 0 {
        break_where(a, |value| value < 0.0, |_| not_real("a root of a negative number", span))
    } else {
        a
    };
    let a = if numerator < 0 {
        break_where(a, |value| value == 0.0, |_| Fault::new(&codes::DIVISION_BY_ZERO, "zero to a negative power", span))
    } else {
        a
    };
    let exponent = f64::from(numerator) / f64::from(denominator);
    // The slope of x^n is n·x^n/x; at zero that of the plain cases is known.
    let slope = |x: f64, power: f64| match (x == 0.0, numerator, denominator) {
        (false, ..) => exponent * power / x,
        (true, n, d) if n > d => 0.0,
        (true, n, d) if n == d => 1.0,
        (true, 0, _) => 0.0,
        _ => f64::INFINITY,
    };
    let by = |a: Block, power: &dyn Fn(f64) -> f64| each(a, span, power, |x| slope(x, power(x)));
    match (numerator, denominator) {
        (0, _) => each(a, span, |_| 1.0, |_| 0.0),
        (1, 1) => a,
        (1, 2) => by(a, &f64::sqrt),
        (1, 3) => by(a, &libm::cbrt),
        (_, 1) => by(a, &|x| whole_power(x, numerator)),
        (_, 2) => by(a, &|x| whole_power(x.sqrt(), numerator)),
        (_, 3) => by(a, &|x| whole_power(libm::cbrt(x), numerator)),
        _ => {
            let odd = denominator % 2 != 0 && numerator % 2 != 0;
            by(a, &|x| {
                let size = libm::pow(x.abs(), exponent);
                if x < 0.0 && odd { -size } else { size }
            })
        }
    }
}

/// By squaring, so that the bits are the same everywhere.
fn whole_power(base: f64, exponent: i32) -> f64 {
    let mut result = 1.0;
    let mut square = base;
    let mut left = exponent.unsigned_abs();
    while left > 0 {
        if left & 1 == 1 {
            result *= square;
        }
        square *= square;
        left >>= 1;
    }
    if exponent < 0 { 1.0 / result } else { result }
}

/// A power of plain numbers.
pub fn power_of(a: Block, b: Block, span: Span) -> Block {
    let length = common_length(&a, &b);
    let states = a.states.merge(&b.states, length);
    let raised = |x: f64, y: f64| {
        let power = libm::pow(x, y);
        if power.is_nan() { f64::MAX } else { power }
    };
    let slopes = |x: f64, y: f64| {
        let power = libm::pow(x, y);
        let by_x = if x == 0.0 { y * libm::pow(x, y - 1.0) } else { y * power / x };
        // A negative number has only whole powers, which cannot move.
        (by_x, if x > 0.0 { power * libm::log(x) } else { 0.0 })
    };
    let mut result = pairwise(a.clone(), b.clone(), span, raised, slopes);
    let (x, y) = (a.as_numbers(), b.as_numbers());
    for at in 0..length {
        let (x, y) = (x[if x.len() == 1 { 0 } else { at }], y[if y.len() == 1 { 0 } else { at }]);
        if libm::pow(x, y).is_nan() && states.mark(at) == Mark::Known {
            result.states.break_at(at, Arc::new(not_real("a broken power of a negative number", span)), length);
        }
    }
    result
}

/// A general function.
pub fn math(math: Math, mut parts: Vec<Block>, span: Span) -> Block {
    if parts.is_empty() {
        return Block::pending(1);
    }
    let a = parts.remove(0);
    match math {
        Math::Abs => each(a, span, f64::abs, |x| if x < 0.0 { -1.0 } else { 1.0 }),
        Math::Sign => {
            let sign = |x: f64| {
                if x > 0.0 {
                    1.0
                } else if x < 0.0 {
                    -1.0
                } else {
                    0.0
                }
            };
            each(a, span, sign, |_| 0.0)
        }
        Math::Sqrt => {
            let a = break_where(a, |x| x < 0.0, |_| not_real("the square root of a negative number", span));
            // Of zeros of both signs `f64::max` gives either, as the compiler likes.
            let root = |x: f64| if x < 0.0 { 0.0 } else { x.sqrt() };
            each(a, span, root, |x| 0.5 / root(x))
        }
        Math::Cbrt => each(a, span, libm::cbrt, |x| {
            let root = libm::cbrt(x);
            1.0 / (3.0 * root * root)
        }),
        Math::Exp => each(a, span, libm::exp, libm::exp),
        Math::Ln | Math::Log10 => {
            let a =
                break_where(a, |x| x <= 0.0, |_| not_real("the logarithm of a number that is not above zero", span));
            let logarithm = |x: f64| {
                let x = if x > 0.0 { x } else { 1.0 };
                if math == Math::Ln { libm::log(x) } else { libm::log10(x) }
            };
            let base = if math == Math::Ln { 1.0 } else { std::f64::consts::LN_10 };
            each(a, span, logarithm, |x| 1.0 / (x * base))
        }
        Math::Sin => each(a, span, libm::sin, libm::cos),
        Math::Cos => each(a, span, libm::cos, |x| -libm::sin(x)),
        Math::Tan => each(a, span, libm::tan, |x| {
            let tangent = libm::tan(x);
            1.0 + tangent * tangent
        }),
        Math::Round | Math::RoundUp | Math::RoundDown => {
            let Some(step) = parts.pop() else { return a };
            let step = break_where(
                step,
                |x| x <= 0.0,
                |_| Fault::new(&codes::NEGATIVE_TOLERANCE, "the step to round to must be above zero", span),
            );
            // A rounded value is no better known than what was rounded.
            pairwise(a, step, span, move |x, step| round_to(x, step, math), |_, _| (1.0, 0.0))
        }
    }
}

fn round_to(x: f64, step: f64, how: Math) -> f64 {
    if step <= 0.0 {
        return x;
    }
    let parts = x / step;
    // A value that is a whole number of steps but for the last bits is one already.
    let nearest = parts.round();
    let whole = if (parts - nearest).abs() <= EQUAL * parts.abs().max(1.0) {
        nearest
    } else {
        match how {
            Math::RoundUp => parts.ceil(),
            Math::RoundDown => parts.floor(),
            _ => nearest,
        }
    };
    whole * step
}

fn not_real(what: &str, span: Span) -> Fault {
    Fault::new(&codes::NOT_REAL, format!("this is {what}"), span)
}

/// Whether two numbers stand in an order, within [`EQUAL`].
pub fn stands(order: Order, x: f64, y: f64) -> bool {
    let equal = same(x, y);
    match order {
        Order::Equal => equal,
        Order::NotEqual => !equal,
        Order::Less => x < y && !equal,
        Order::AtMost => x <= y || equal,
        Order::More => x > y && !equal,
        Order::AtLeast => x >= y || equal,
    }
}

/// Whether two numbers differ by less than [`EQUAL`] of the larger.
pub fn same(x: f64, y: f64) -> bool {
    (x - y).abs() <= EQUAL * x.abs().max(y.abs())
}
