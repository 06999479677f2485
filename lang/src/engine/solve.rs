//! `solve`: the root of a difference between two ends, by bracketing, in a bounded number of steps.

use std::cell::Cell;

use super::block::{Block, Data};
use super::doubt::Doubt;
use super::evaluate::{Local, Sight, spent};
use super::fault::Fault;
use super::{doubt, origins, shown};
use crate::diagnostic::running as codes;
use crate::limits;
use crate::plan::Solve;
use crate::source::Span;

/// The root for the one row at hand.
pub fn solve(sight: &Sight<'_>, solve: &Solve, span: Span) -> Block {
    let (from, to) = (sight.eval(&solve.from), sight.eval(&solve.to));
    let states = from.states.merge(&to.states, 1);
    let (Some(mut a), Some(mut b)) = (from.number_at(0), to.number_at(0)) else {
        return Block { data: Data::Nothing(1), states };
    };
    if a > b {
        std::mem::swap(&mut a, &mut b);
    }
    let difference = |unknown: Block| {
        let mut locals = sight.locals.clone();
        locals.truncate(solve.local);
        while locals.len() < solve.local {
            locals.push(Local { block: Block::pending(1), column: false });
        }
        locals.push(Local { block: unknown, column: false });
        sight.with(sight.window, locals).eval(&solve.difference)
    };
    let doubtful = Cell::new(false);
    let at = |x: f64| -> Result<f64, Block> {
        if sight.is_spent() {
            return Err(spent(span));
        }
        let difference = difference(Block::number(x));
        doubtful.set(doubtful.get() || difference.states.doubt().is_some());
        difference.number_at(0).ok_or(difference)
    };
    match root(a, b, at) {
        Ok(Found::Root(x)) if doubtful.get() => doubtful_root(x, (b - a) * STEP, solve.local, difference),
        Ok(Found::Root(x)) => Block::number(x),
        Ok(Found::NoChange(at_a, at_b)) => {
            Block::broken(no_root(sight, solve, span, &codes::NO_ROOT, (a, at_a), (b, at_b)))
        }
        Ok(Found::Jump(x, y)) => Block::broken(no_root(sight, solve, span, &codes::JUMP, x, y)),
        Err(block) => block,
    }
}

/// How far the unknown is moved, as a share of its range, where a function in the equation has no slope of its own.
const STEP: f64 = 1e-5;

/// A root with its doubt: the root of F(x, s) = 0 moves with s by −(∂F/∂s)/(∂F/∂x). The unknown goes through the
/// equation with doubt of its own, so that one evaluation gives both.
fn doubtful_root(x: f64, step: f64, local: usize, difference: impl Fn(Block) -> Block) -> Block {
    let mut unknown = Block::number(x);
    unknown.states = unknown.states.with_doubt(Some(Box::new(Doubt::one(vec![(origins::unknown(local), step)]))));
    let difference = difference(unknown);
    let mut parts = difference.states.doubt_at(0).to_vec();
    let slope = parts.iter().find(|(cause, _)| *cause == origins::unknown(local)).map_or(0.0, |(_, part)| part / step);
    parts.retain(|(cause, _)| *cause != origins::unknown(local));
    let mut root = Block::number(x);
    if slope == 0.0 {
        parts.clear();
        doubt::lost(&mut parts);
    }
    parts.iter_mut().for_each(|(_, part)| *part /= if slope == 0.0 { 1.0 } else { -slope });
    root.states = root.states.with_doubt(Some(Box::new(Doubt::one(parts))));
    root
}

fn no_root(
    sight: &Sight<'_>,
    solve: &Solve,
    span: Span,
    code: &'static crate::diagnostic::Code,
    low: (f64, f64),
    high: (f64, f64),
) -> Fault {
    let atmosphere = sight.atmosphere.number_at(0);
    let show = |typing, value| shown::number(value, typing, sight.system, atmosphere);
    let ends = format!(
        "left less right is {} at {} and {} at {}",
        show(&solve.residual, low.1),
        show(&solve.unknown, low.0),
        show(&solve.residual, high.1),
        show(&solve.unknown, high.0),
    );
    if std::ptr::eq(code, &codes::JUMP) {
        Fault::new(code, format!("the two sides change places by a jump, without ever being equal: {ends}"), span)
            .with_mend("one side jumps there; choose a range without the jump")
    } else {
        Fault::new(code, format!("the two sides do not change places between these ends: {ends}"), span)
            .with_mend("widen the range, or see whether the formula can be right")
    }
}

enum Found {
    Root(f64),
    NoChange(f64, f64),
    Jump((f64, f64), (f64, f64)),
}

/// Bisection joined with the secant through the ends (regula falsi after Illinois): never slower than halving twice
/// over, never outside the bracket, and the same bits everywhere.
fn root<E>(a: f64, b: f64, difference: impl Fn(f64) -> Result<f64, E>) -> Result<Found, E> {
    let (mut low, mut high) = ((a, difference(a)?), (b, difference(b)?));
    if low.1 == 0.0 {
        return Ok(Found::Root(low.0));
    }
    if high.1 == 0.0 {
        return Ok(Found::Root(high.0));
    }
    if (low.1 > 0.0) == (high.1 > 0.0) {
        return Ok(Found::NoChange(low.1, high.1));
    }
    let size = low.1.abs().max(high.1.abs());
    let mut weights = (1.0, 1.0);
    for step in 0..limits::SOLVE_STEPS {
        let width = high.0 - low.0;
        if width <= f64::EPSILON * low.0.abs().max(high.0.abs()) {
            break;
        }
        let (f, g) = (low.1 * weights.0, high.1 * weights.1);
        let secant = low.0 + width * (f / (f - g));
        let middle = low.0 + width / 2.0;
        // Every third step halves, so that the bracket shrinks whatever the secant does.
        let x = if step % 3 == 2 || !(secant > low.0 && secant < high.0) { middle } else { secant };
        if x <= low.0 || x >= high.0 {
            break;
        }
        let y = difference(x)?;
        if y == 0.0 {
            return Ok(Found::Root(x));
        }
        if (y > 0.0) == (low.1 > 0.0) {
            low = (x, y);
            weights = (1.0, weights.1 / 2.0);
        } else {
            high = (x, y);
            weights = (weights.0 / 2.0, 1.0);
        }
    }
    let best = if low.1.abs() <= high.1.abs() { low } else { high };
    // At a true root the difference dies away with the bracket; across a jump it stays.
    if best.1.abs() > 1e-6 * size {
        return Ok(Found::Jump(low, high));
    }
    Ok(Found::Root(best.0))
}

#[cfg(test)]
mod tests {
    use super::{Found, root};

    fn solved(a: f64, b: f64, f: impl Fn(f64) -> f64) -> Option<f64> {
        match root::<()>(a, b, |x| Ok(f(x))) {
            Ok(Found::Root(x)) => Some(x),
            _ => None,
        }
    }

    #[test]
    fn roots_are_found_to_the_last_bits() {
        let near = |found: Option<f64>, wanted: f64| found.is_some_and(|x| (x - wanted).abs() <= 1e-14 * wanted.abs());
        assert!(near(solved(0.0, 2.0, |x| x * x - 2.0), 2.0_f64.sqrt()));
        assert!(near(solved(1e-3, 1e6, |x| 1.0 / x - 1e-3), 1000.0));
        assert!(near(solved(0.0, 1.0, |x| libm::exp(x) - 2.0), std::f64::consts::LN_2));
        // Flat at the root.
        assert!(solved(-1.0, 2.0, |x| x * x * x).is_some_and(|x| x.abs() < 1e-4));
    }

    #[test]
    fn ends_may_be_roots_and_jumps_are_none() {
        assert_eq!(solved(3.0, 5.0, |x| x - 3.0), Some(3.0));
        assert_eq!(solved(1.0, 5.0, |x| x - 5.0), Some(5.0));
        assert_eq!(solved(-1.0, 1.0, |x| if x < 0.3 { -1.0 } else { 1.0 }), None);
        assert_eq!(solved(1.0, 2.0, |x| x), None);
    }
}
