//! Whether a value is nearer its limit than its uncertainty: such a check is close, and a guarded one does not pass.

use super::arithmetic::EQUAL;
use super::block::{Block, Data};
use super::coverage;
use super::doubt::{Doubt, Part};
use super::evaluate::Sight;
use super::origins::{Origins, Uncertain};
use crate::plan::{Guard, Node, Op, Order};

/// How a value stands to its limits.
pub struct Closeness {
    /// Uncertainty of the margin on the side where it is least.
    pub uncertainty: Uncertain,
    /// What contributes to it.
    pub parts: Vec<Part>,
    /// A limit lies within the expanded uncertainty.
    pub close: bool,
    /// It lies inside by the guard band.
    pub safe: bool,
    /// Probability that the value lies within its limits.
    pub probability: f64,
}

/// A distance to a limit, above zero inside, and what contributes to its doubt.
pub type Side = (f64, Vec<Part>);

/// The distance from one block to another in one row.
pub fn side(upper: &Block, lower: &Block, at: usize) -> Option<Side> {
    let (a, b) = (upper.number_at(at)?, lower.number_at(at)?);
    let terms = [(upper.states.doubt_at(at), 1.0), (lower.states.doubt_at(at), -1.0)];
    let parts = Doubt::linear(terms.into_iter()).map_or_else(Vec::new, |doubt| doubt.row(0).to_vec());
    Some((a - b, parts))
}

/// How the distances to the limits stand; nothing if none of them is in doubt.
pub fn of(origins: &Origins, sides: &[Side], guard: Option<Guard>) -> Option<Closeness> {
    let mut nearest: Option<(f64, Uncertain, &[Part])> = None;
    let (mut close, mut safe, mut probability) = (false, true, 1.0);
    for (margin, parts) in sides {
        let uncertainty = origins.uncertainty(parts).filter(|uncertainty| uncertainty.standard > 0.0);
        let Some(uncertainty) = uncertainty else {
            probability -= if *margin >= 0.0 { 0.0 } else { 1.0 };
            continue;
        };
        let band = match guard {
            Some(Guard::Probability(share)) => coverage::one_sided(share, uncertainty.freedom) * uncertainty.standard,
            _ => uncertainty.expanded,
        };
        close |= margin.abs() <= uncertainty.expanded;
        safe &= *margin >= band * (1.0 - EQUAL);
        probability -= 1.0 - coverage::below(margin / uncertainty.standard, uncertainty.freedom);
        if nearest.as_ref().is_none_or(|(least, ..)| margin < least) {
            nearest = Some((*margin, uncertainty, parts));
        }
    }
    let (_, uncertainty, parts) = nearest?;
    Some(Closeness { uncertainty, parts: parts.to_vec(), close, safe, probability: probability.clamp(0.0, 1.0) })
}

/// Rows in which a condition of several parts hangs on a part that is close; nothing if it compares no doubtful numbers.
pub fn shaky(sight: &Sight<'_>, node: &Node, rows: usize, origins: &Origins) -> Option<Vec<bool>> {
    let value = |node: &Node| sight.eval(node).spread(rows);
    let near = |upper: &Block, lower: &Block, at: usize| {
        side(upper, lower, at).is_some_and(|side| of(origins, &[side], None).is_some_and(|one| one.close))
    };
    match &node.op {
        Op::Compare(order, a, b) if !matches!(order, Order::Equal | Order::NotEqual) => {
            let (a, b) = (value(a), value(b));
            if a.states.doubt().is_none() && b.states.doubt().is_none() {
                return None;
            }
            Some((0..rows).map(|at| near(&a, &b, at)).collect())
        }
        Op::Within(x, low, high) => {
            let (x, low, high) = (value(x), value(low), value(high));
            Some((0..rows).map(|at| near(&x, &low, at) || near(&high, &x, at)).collect())
        }
        Op::Near(x, tolerance, of) => {
            let (x, tolerance, of) = (value(x), value(tolerance), value(of));
            let span = node.span;
            let join = |sign: f64| {
                let slopes = move |_: f64, _: f64| (1.0, sign);
                super::arithmetic::pairwise(of.clone(), tolerance.clone(), span, move |x, t| x + sign * t, slopes)
            };
            let (low, high) = (join(-1.0), join(1.0));
            Some((0..rows).map(|at| near(&x, &low, at) || near(&high, &x, at)).collect())
        }
        Op::Not(inner) => shaky(sight, inner, rows, origins),
        Op::And(a, b) | Op::Or(a, b) => {
            let decisive = matches!(node.op, Op::Or(..));
            let (x, y) = (shaky(sight, a, rows, origins), shaky(sight, b, rows, origins));
            if x.is_none() && y.is_none() {
                return None;
            }
            let (left, right) = (value(a), value(b));
            let is = |rows: &Option<Vec<bool>>, at: usize| rows.as_ref().is_some_and(|rows| rows[at]);
            let flag = |block: &Block, at: usize| match &block.data {
                Data::Flags(_) => block.flag_at(at),
                _ => None,
            };
            let hangs = |at: usize| match (flag(&left, at), flag(&right, at)) {
                // Decided by either side: it hangs on a close one only if the other does not decide too.
                (Some(a), Some(b)) if a == decisive && b == decisive => is(&x, at) && is(&y, at),
                (Some(a), _) if a == decisive => is(&x, at),
                (_, Some(b)) if b == decisive => is(&y, at),
                _ => is(&x, at) || is(&y, at),
            };
            Some((0..rows).map(hangs).collect())
        }
        _ => None,
    }
}
