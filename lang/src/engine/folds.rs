//! Folds: one value from a column, or from several values.

use std::sync::Arc;

use super::block::{Block, Data, Mark, States};
use super::doubt::{Doubt, Part};
use super::evaluate::Sight;
use super::fault::Fault;
use crate::diagnostic::running as codes;
use crate::plan::{Fold, FoldKind};
use crate::source::Span;

/// A fold over a table's rows.
pub fn fold(sight: &Sight<'_>, fold: &Fold, span: Span) -> Block {
    let many = sight.length() > 1 || sight.locals.iter().any(|local| !local.column && local.block.len() > 1);
    if fold.correlated && many {
        return sight.row_by_row(|row| one_fold(row, fold, span));
    }
    one_fold(sight, fold, span)
}

fn one_fold(sight: &Sight<'_>, fold: &Fold, span: Span) -> Block {
    let Some(table) = sight.tables.get(fold.table) else { return Block::pending(1) };
    if table.pending {
        return Block::pending(1);
    }
    let rows = table.rows;
    sight.spend(rows);
    let over = sight.eval(&fold.over).spread(rows);
    let filter = fold.filter.as_ref().map(|filter| sight.eval(filter).spread(rows));
    let weight = fold.weight.as_ref().map(|weight| sight.eval(weight).spread(rows));
    // Rows that count; one row that is pending or broken decides for all.
    let mut kept = Vec::with_capacity(rows);
    let mut pending = false;
    for at in 0..rows {
        if let Some(filter) = &filter {
            match filter.mark(at) {
                Mark::Known => {
                    if filter.flag_at(at) != Some(true) {
                        continue;
                    }
                }
                Mark::LeftOut => continue,
                Mark::Pending => {
                    pending = true;
                    continue;
                }
                Mark::Broken => return broken_like(filter, at),
            }
        }
        let weight_mark = weight.as_ref().map_or(Mark::Known, |weight| weight.mark(at));
        match over.mark(at).max(weight_mark) {
            Mark::Known => kept.push(at),
            Mark::LeftOut => {}
            // All and any may be decided by the other rows.
            Mark::Pending => pending = true,
            Mark::Broken => {
                return if over.mark(at) == Mark::Broken {
                    broken_like(&over, at)
                } else {
                    weight.map_or_else(|| Block::pending(1), |weight| broken_like(&weight, at))
                };
            }
        }
    }
    match (fold.kind, pending) {
        (FoldKind::All, _) if kept.iter().any(|&at| over.flag_at(at) == Some(false)) => Block::flags(vec![false]),
        (FoldKind::Any, _) if kept.iter().any(|&at| over.flag_at(at) == Some(true)) => Block::flags(vec![true]),
        (_, true) => Block::pending(1),
        // Nothing has been shown over no rows.
        (FoldKind::All | FoldKind::Any, false) if kept.is_empty() => Block::pending(1),
        (FoldKind::All, false) => Block::flags(vec![true]),
        (FoldKind::Any, false) => Block::flags(vec![false]),
        (FoldKind::Count, false) => {
            let flags = matches!(over.data, Data::Flags(_));
            let count = kept.iter().filter(|&&at| !flags || over.flag_at(at) == Some(true)).count();
            Block::number(count as f64)
        }
        (FoldKind::First | FoldKind::Last, false) => {
            let at = if fold.kind == FoldKind::First { kept.first() } else { kept.last() };
            at.map_or_else(|| empty(span), |&at| over.row(at))
        }
        (FoldKind::WeightedMean, false) => weighted(&over, weight.as_ref(), &kept, span),
        (kind, false) => {
            let numbers = over.as_numbers();
            let values: Vec<f64> = kept.iter().filter_map(|&at| numbers.get(at).copied()).collect();
            with_doubt(reduce(kind, &values, span), kind, &values, |index| over.states.doubt_at(kept[index]))
        }
    }
}

fn weighted(over: &Block, weight: Option<&Block>, kept: &[usize], span: Span) -> Block {
    let Some(weight) = weight else { return Block::pending(1) };
    let (values, weights) = (over.as_numbers(), weight.as_numbers());
    let mut total = 0.0;
    let mut sum = 0.0;
    for &at in kept {
        let (Some(value), Some(weight)) = (values.get(at), weights.get(at)) else { continue };
        if *weight < 0.0 {
            return Block::broken(Fault::new(&codes::NEGATIVE_TOLERANCE, "a weight is below zero", span));
        }
        total += weight;
        sum += value * weight;
    }
    if total == 0.0 {
        return Block::broken(Fault::new(&codes::DIVISION_BY_ZERO, "the weights add up to zero", span));
    }
    let mean = sum / total;
    let mut folded = checked(mean, span);
    if over.states.doubt().is_some() || weight.states.doubt().is_some() {
        let terms = kept.iter().flat_map(|&at| {
            let (value, factor) = (values[at], weights[at]);
            [(over.states.doubt_at(at), factor / total), (weight.states.doubt_at(at), (value - mean) / total)]
        });
        folded.states = folded.states.with_doubt(Doubt::linear(terms));
    }
    folded
}

/// A fold of several values, row by row where they are columns.
pub fn fold_values(kind: FoldKind, values: &[Block], span: Span) -> Block {
    let length = values.iter().map(Block::len).fold(1, |most, length| if length == 1 { most } else { length });
    let rows = (0..length)
        .map(|at| {
            let row: Vec<Block> = values.iter().map(|value| value.row(at)).collect();
            fold_row(kind, &row, span)
        })
        .collect();
    Block::gather(rows)
}

fn fold_row(kind: FoldKind, values: &[Block], span: Span) -> Block {
    let states = values.iter().fold(States::known(), |states, value| states.merge(&value.states, 1));
    let decided = |flag| values.iter().any(|value| value.flag_at(0) == Some(flag));
    match kind {
        FoldKind::All if decided(false) => return Block::flags(vec![false]),
        FoldKind::Any if decided(true) => return Block::flags(vec![true]),
        _ => {}
    }
    if !states.all_known() {
        return Block { data: Data::Nothing(1), states };
    }
    match kind {
        FoldKind::All => Block::flags(vec![true]),
        FoldKind::Any => Block::flags(vec![false]),
        FoldKind::Count => Block::number(values.iter().filter(|value| value.flag_at(0) != Some(false)).count() as f64),
        FoldKind::First => values.first().cloned().unwrap_or_else(|| empty(span)),
        FoldKind::Last => values.last().cloned().unwrap_or_else(|| empty(span)),
        _ => {
            let numbers: Vec<f64> = values.iter().filter_map(|value| value.number_at(0)).collect();
            with_doubt(reduce(kind, &numbers, span), kind, &numbers, |index| values[index].states.doubt_at(0))
        }
    }
}

/// A folded value with what the values folded contribute to its doubt; the least, greatest and middle ones are chosen
/// by value.
pub fn with_doubt<'a>(mut folded: Block, kind: FoldKind, values: &[f64], doubt: impl Fn(usize) -> &'a [Part]) -> Block {
    if (0..values.len()).all(|index| doubt(index).is_empty()) {
        return folded;
    }
    let place = |wanted: f64| values.iter().position(|value| *value == wanted);
    let share = 1.0 / values.len() as f64;
    let factors: Vec<(usize, f64)> = match kind {
        FoldKind::Sum => (0..values.len()).map(|index| (index, 1.0)).collect(),
        FoldKind::Mean => (0..values.len()).map(|index| (index, share)).collect(),
        FoldKind::Min | FoldKind::Max | FoldKind::Spread => {
            let (least, greatest) = ends(values);
            let (lower, upper) = match kind {
                FoldKind::Min => (place(least).map(|at| (at, 1.0)), None),
                FoldKind::Max => (None, place(greatest).map(|at| (at, 1.0))),
                _ => (place(least).map(|at| (at, -1.0)), place(greatest).map(|at| (at, 1.0))),
            };
            lower.into_iter().chain(upper).collect()
        }
        FoldKind::Median => {
            let mut order: Vec<usize> = (0..values.len()).collect();
            order.sort_by(|&a, &b| values[a].total_cmp(&values[b]));
            let middle = order.len() / 2;
            match order.len() % 2 {
                1 => vec![(order[middle], 1.0)],
                _ => vec![(order[middle - 1], 0.5), (order[middle], 0.5)],
            }
        }
        _ => Vec::new(),
    };
    folded.states =
        folded.states.with_doubt(Doubt::linear(factors.into_iter().map(|(at, factor)| (doubt(at), factor))));
    folded
}

/// Numbers to one number, always in the order of the rows.
pub fn reduce(kind: FoldKind, values: &[f64], span: Span) -> Block {
    let Some(&first) = values.first() else {
        return if kind == FoldKind::Sum { Block::number(0.0) } else { empty(span) };
    };
    let (least, greatest) = ends(values);
    let number = match kind {
        FoldKind::Sum => sum(values),
        FoldKind::Mean => {
            // From the first value on, so that a mean of large equal values is that value.
            let offsets: Vec<f64> = values.iter().map(|value| value - first).collect();
            first + sum(&offsets) / values.len() as f64
        }
        FoldKind::Median => {
            let mut sorted = values.to_vec();
            sorted.sort_by(f64::total_cmp);
            let middle = sorted.len() / 2;
            if sorted.len() % 2 == 1 {
                sorted[middle]
            } else {
                sorted[middle - 1] + (sorted[middle] - sorted[middle - 1]) / 2.0
            }
        }
        FoldKind::Min => least,
        FoldKind::Max => greatest,
        FoldKind::Spread => greatest - least,
        _ => first,
    };
    checked(number, span)
}

/// Compensated summation: the order of magnitude of rows does not matter.
pub fn sum(values: &[f64]) -> f64 {
    let mut total = 0.0_f64;
    let mut lost = 0.0_f64;
    for &value in values {
        let next = total + value;
        lost += if total.abs() >= value.abs() { (total - next) + value } else { (value - next) + total };
        total = next;
    }
    total + lost
}

fn checked(number: f64, span: Span) -> Block {
    if number.is_finite() {
        Block::number(number)
    } else {
        Block::broken(Fault::new(&codes::OVERFLOW, "the result is too large to hold", span))
    }
}

fn empty(span: Span) -> Block {
    Block::broken(
        Fault::new(&codes::EMPTY_COLUMN, "there are no rows to fold", span)
            .with_mend("`count` and `sum` of no rows are 0; the others need at least one row"),
    )
}

fn broken_like(block: &Block, at: usize) -> Block {
    match block.states.fault(at) {
        Some(fault) => {
            let mut states = States::known();
            states.break_at(0, Arc::clone(fault), 1);
            Block { data: Data::Nothing(1), states }
        }
        None => Block { data: Data::Nothing(1), states: States::all(Mark::Broken, 1) },
    }
}

/// The least and the greatest number. Of equal ones, such as zeros of both signs, the first counts, where `f64::min` and
/// `f64::max` give either.
fn ends(values: &[f64]) -> (f64, f64) {
    let first = values.first().copied().unwrap_or_default();
    values.iter().fold((first, first), |(least, greatest), &value| {
        (if value < least { value } else { least }, if value > greatest { value } else { greatest })
    })
}
