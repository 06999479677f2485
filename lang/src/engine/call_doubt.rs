//! Doubt through library functions. Where a function says its slopes, they are taken. Otherwise it is opaque, and its
//! slopes are those of chords over one standard uncertainty either way (JCGM 100, 5.1.3, note 2); where it refuses on one
//! side, over the other side alone, or over shorter steps.

use std::collections::BTreeSet;

use super::block::{Block, Data};
use super::calls::{OwnedColumn, Ready, one, weight};
use super::doubt::{Doubt, Part, lost, standard};
use super::evaluate::Sight;
use crate::library::{Failure, Value};
use crate::plan::{Call, Given};

/// Steps tried, as shares of the standard uncertainty.
const STEPS: [f64; 3] = [1.0, 0.1, 0.01];
/// Rows times directions of a call beyond which its doubt is not worked out.
const MOST: usize = 2_500_000;

/// Whether any argument is doubtful.
pub fn is_doubtful(ready: &[Ready], atmosphere: &Block) -> bool {
    let doubtful = |block: &Block| block.states.doubt().is_some();
    doubtful(atmosphere)
        || ready.iter().any(|one| match one {
            Ready::Absent => false,
            Ready::Value(block) => doubtful(block),
            Ready::Range(low, high) => doubtful(low) || doubtful(high),
            Ready::Column(_, doubt) => doubt.is_some(),
        })
}

/// A number among the arguments.
#[derive(Clone, Copy)]
enum Place {
    /// A single value, or the lower end of a range.
    Single,
    /// The upper end of a range.
    Upper,
    /// A row of a column.
    Row(usize),
}

/// Numbers that are moved together.
struct Direction {
    /// Argument, number in it, and how far.
    moves: Vec<(usize, Place, f64)>,
    /// How far the site's atmosphere is moved.
    site: f64,
    /// What one such move is, by cause.
    parts: Vec<Part>,
}

/// The result for one row with its doubt.
pub fn with_doubt(
    sight: &Sight<'_>,
    call: &Call,
    ready: &[Ready],
    at: usize,
    value: &Value,
    mut block: Block,
) -> Block {
    let (site, weight) = (sight.site(), weight(call, ready));
    let mut arguments = row_of(ready, at);
    let base = leaves(value);
    let mut sums: Vec<Vec<(Vec<Part>, f64)>> = vec![Vec::new(); base.len()];
    let mut incomplete = vec![false; base.len()];
    match directions(call, &arguments, sight.atmosphere.states.doubt_at(0)) {
        None => incomplete.fill(true),
        Some(directions) => {
            for direction in directions {
                // Two calls at the least; what takes too long is given up for all that is left.
                sight.spend(weight.saturating_mul(2));
                if sight.is_spent() {
                    incomplete.fill(true);
                    break;
                }
                let slopes = slopes(&base, |step| {
                    let before = shift(&mut arguments, &direction.moves, step);
                    let moved = one(call, &arguments, 0, site + step * direction.site);
                    restore(&mut arguments, &before);
                    moved.map(|value| leaves(&value))
                });
                for (leaf, slope) in slopes.into_iter().enumerate() {
                    match slope {
                        Some(slope) => sums[leaf].push((direction.parts.clone(), slope)),
                        None => incomplete[leaf] = true,
                    }
                }
            }
        }
    }
    let mut doubts = sums.iter().zip(incomplete).map(|(terms, incomplete)| {
        let sum = Doubt::linear(terms.iter().map(|(parts, slope)| (parts.as_slice(), *slope)));
        let mut parts = sum.map_or_else(Vec::new, |sum| sum.row(0).to_vec());
        if incomplete {
            lost(&mut parts);
        }
        parts
    });
    attach(&mut block, &mut doubts);
    block
}

/// What a function of numbers alone makes of the doubt of its arguments; `exact` gives slopes that it says itself.
pub fn of_numbers(
    arguments: &[f64],
    doubts: &[&[Part]],
    base: f64,
    function: impl Fn(&[f64]) -> Result<f64, Failure>,
    exact: impl Fn(usize) -> Option<f64>,
) -> Vec<Part> {
    let mut moved = arguments.to_vec();
    let mut terms: Vec<(&[Part], f64)> = Vec::new();
    let mut incomplete = false;
    for (index, parts) in doubts.iter().enumerate() {
        if parts.is_empty() {
            continue;
        }
        if let Some(slope) = exact(index).filter(|slope| slope.is_finite()) {
            terms.push((parts, slope));
            continue;
        }
        let u = standard(parts);
        let slope = slopes(&[Some(base)], |step| {
            moved[index] = arguments[index] + step * u;
            let result = function(&moved);
            moved[index] = arguments[index];
            result.map(|number| vec![Some(number).filter(|number| number.is_finite())])
        });
        match slope.first().copied().flatten() {
            Some(slope) => terms.push((parts, if u > 0.0 { slope / u } else { 0.0 })),
            None => incomplete = true,
        }
    }
    let mut parts = Doubt::linear(terms.into_iter()).map_or_else(Vec::new, |sum| sum.row(0).to_vec());
    if incomplete {
        lost(&mut parts);
    }
    parts
}

/// The change of each number of a result over one step; none where the function refuses on both sides.
fn slopes(base: &[Option<f64>], mut at: impl FnMut(f64) -> Result<Vec<Option<f64>>, Failure>) -> Vec<Option<f64>> {
    let mut found: Vec<Option<f64>> = vec![None; base.len()];
    for step in STEPS {
        let (up, down) = (at(step).unwrap_or_default(), at(-step).unwrap_or_default());
        for (leaf, base) in base.iter().enumerate() {
            let Some(base) = base else {
                found[leaf] = Some(0.0);
                continue;
            };
            let side = |values: &[Option<f64>]| values.get(leaf).copied().flatten();
            let slope = match (side(&up), side(&down)) {
                (Some(up), Some(down)) => Some((up - down) / (2.0 * step)),
                (Some(up), None) => Some((up - base) / step),
                (None, Some(down)) => Some((base - down) / step),
                (None, None) => None,
            };
            found[leaf] = found[leaf].or(slope.filter(|slope| slope.is_finite()));
        }
        if found.iter().all(Option::is_some) {
            break;
        }
    }
    found
}

/// The numbers of a result in order: one, one a field, or one a row.
fn leaves(value: &Value) -> Vec<Option<f64>> {
    let number = |value: &Value| match value {
        Value::Number(number) if number.is_finite() => Some(*number),
        _ => None,
    };
    match value {
        Value::Record(parts) | Value::Column(parts) => {
            parts.iter().map(|part| part.as_ref().ok().and_then(number)).collect()
        }
        one => vec![number(one)],
    }
}

/// Puts the doubt of each number of a result into its block.
fn attach(block: &mut Block, doubts: &mut dyn Iterator<Item = Vec<Part>>) {
    if let Data::Record(fields) = &mut block.data {
        fields.iter_mut().for_each(|field| attach(field, doubts));
        return;
    }
    let rows: Vec<Vec<Part>> = (0..block.len()).map(|_| doubts.next().unwrap_or_default()).collect();
    if matches!(block.data, Data::Numbers(_)) && rows.iter().any(|parts| !parts.is_empty()) {
        let mut doubt = Doubt::with_room(rows.len());
        rows.into_iter().for_each(|parts| doubt.push(parts));
        block.states = std::mem::take(&mut block.states).with_doubt(Some(Box::new(doubt)));
    }
}

/// The arguments of one row.
fn row_of(ready: &[Ready], at: usize) -> Vec<Ready> {
    ready
        .iter()
        .map(|one| match one {
            Ready::Absent => Ready::Absent,
            Ready::Value(block) => Ready::Value(block.row(at)),
            Ready::Range(low, high) => Ready::Range(low.row(at), high.row(at)),
            Ready::Column(column, doubt) => Ready::Column(column.clone(), doubt.clone()),
        })
        .collect()
}

/// The directions that the arguments of one row can move in; none if there are too many.
fn directions(call: &Call, arguments: &[Ready], site: &[Part]) -> Option<Vec<Direction>> {
    let mut directions = Vec::new();
    // The site moves the function's view of it together with arguments that stand for it.
    if !site.is_empty() {
        let u = standard(site);
        let stands = |given: &Given| matches!(given, Given::Atmosphere);
        let moves = call.arguments.iter().enumerate().filter(|(_, given)| stands(given));
        let moves = moves.map(|(index, _)| (index, Place::Single, u)).collect();
        directions.push(Direction { moves, site: u, parts: shares(site, u) });
    }
    let mut single = |index: usize, place: Place, block: &Block| {
        let parts = block.states.doubt_at(0);
        let u = standard(parts);
        if u > 0.0 && u.is_finite() {
            directions.push(Direction { moves: vec![(index, place, u)], site: 0.0, parts: shares(parts, u) });
        }
    };
    let mut elements: Vec<(usize, usize, &[Part])> = Vec::new();
    let mut rows = 1;
    for (index, argument) in arguments.iter().enumerate() {
        match argument {
            Ready::Value(_) if matches!(call.arguments.get(index), Some(Given::Atmosphere)) => {}
            Ready::Value(block) => single(index, Place::Single, block),
            Ready::Range(low, high) => {
                single(index, Place::Single, low);
                single(index, Place::Upper, high);
            }
            Ready::Column(_, Some(doubt)) => {
                rows = rows.max(doubt.len());
                let some = (0..doubt.len()).map(|row| (index, row, doubt.row(row)));
                elements.extend(some.filter(|(.., parts)| !parts.is_empty()));
            }
            Ready::Absent | Ready::Column(_, None) => {}
        }
    }
    let causes: BTreeSet<u32> = elements.iter().flat_map(|(.., parts)| parts.iter().map(|(cause, _)| *cause)).collect();
    if elements.len().min(causes.len()).saturating_mul(rows) > MOST {
        return None;
    }
    if elements.len() <= causes.len() {
        for (index, row, parts) in elements {
            let u = standard(parts);
            if u > 0.0 {
                let moves = vec![(index, Place::Row(row), u)];
                directions.push(Direction { moves, site: 0.0, parts: shares(parts, u) });
            }
        }
    } else {
        for cause in causes {
            let part = |parts: &[Part]| parts.iter().find(|(one, _)| *one == cause).map(|(_, part)| *part);
            let moves =
                elements.iter().filter_map(|(index, row, parts)| Some((*index, Place::Row(*row), part(parts)?)));
            directions.push(Direction { moves: moves.collect(), site: 0.0, parts: vec![(cause, 1.0)] });
        }
    }
    Some(directions)
}

fn shares(parts: &[Part], u: f64) -> Vec<Part> {
    parts.iter().map(|&(cause, part)| (cause, if u > 0.0 { part / u } else { 0.0 })).collect()
}

/// Moves numbers, and gives what they were.
fn shift(arguments: &mut [Ready], moves: &[(usize, Place, f64)], step: f64) -> Vec<(usize, Place, f64)> {
    let mut before = Vec::with_capacity(moves.len());
    for &(index, place, far) in moves {
        if let Some(number) = number_at(arguments, index, place) {
            before.push((index, place, *number));
            *number += step * far;
        }
    }
    before
}

fn restore(arguments: &mut [Ready], before: &[(usize, Place, f64)]) {
    for &(index, place, was) in before {
        if let Some(number) = number_at(arguments, index, place) {
            *number = was;
        }
    }
}

fn number_at(arguments: &mut [Ready], index: usize, place: Place) -> Option<&mut f64> {
    let block = match (arguments.get_mut(index)?, place) {
        (Ready::Column(OwnedColumn::Numbers(numbers), _), Place::Row(row)) => return numbers.get_mut(row),
        (Ready::Value(block), Place::Single) | (Ready::Range(block, _), Place::Single) => block,
        (Ready::Range(_, block), Place::Upper) => block,
        _ => return None,
    };
    match &mut block.data {
        Data::Numbers(numbers) => numbers.first_mut(),
        _ => None,
    }
}
