//! What is read along a column: rows by key, interpolation, times, neighbours, slopes.

use std::sync::Arc;

use super::arithmetic::{common_length, same};
use super::block::{Block, Data, Mark, States};
use super::doubt::Doubt;
use super::evaluate::Sight;
use super::fault::Fault;
use super::shown;
use crate::diagnostic::{running, tables as codes};
use crate::plan::{Look, Node, Op, Typing};
use crate::source::Span;
use crate::suggest::did_you_mean;

/// One row's value, by the table's key.
pub fn look(sight: &Sight<'_>, look: &Look, span: Span) -> Block {
    let keys = sight.eval(&look.key);
    let Some(table) = sight.tables.get(look.table) else { return Block::pending(keys.len()) };
    if table.pending {
        return Block::pending(keys.len());
    }
    let column = sight.eval(&look.column).spread(table.rows);
    let Some(first) = table.columns.first() else { return Block::pending(keys.len()) };
    let rows = (0..keys.len())
        .map(|at| {
            if !keys.is_known(at) {
                return Block { data: Data::Nothing(1), states: keys.row(at).states };
            }
            sight.spend(table.rows);
            let found: Vec<usize> = (0..table.rows).filter(|&row| same_key(&keys, at, first, row)).collect();
            match found.as_slice() {
                [row] => column.row(*row),
                [] => Block::broken(unknown_key(sight, look.table, &keys, at, first, span)),
                _ => Block::broken(
                    Fault::new(
                        &codes::DOUBLE_KEY,
                        format!("{} rows have the key {}", found.len(), key_text(sight, look.table, &keys, at)),
                        span,
                    )
                    .with_mend("give each row a key of its own"),
                ),
            }
        })
        .collect();
    Block::gather(rows)
}

fn same_key(keys: &Block, at: usize, column: &Block, row: usize) -> bool {
    if let (Some(a), Some(b)) = (keys.text_at(at), column.text_at(row)) {
        return a == b;
    }
    if let (Some(a), Some(b)) = (keys.number_at(at), column.number_at(row)) {
        return same(a, b);
    }
    if let (Some(a), Some(b)) = (keys.moment_at(at), column.moment_at(row)) {
        return a == b;
    }
    matches!((keys.flag_at(at), column.flag_at(row)), (Some(a), Some(b)) if a == b)
}

/// A key as its column is shown.
fn key_text(sight: &Sight<'_>, table: usize, keys: &Block, at: usize) -> String {
    if let Some(text) = keys.text_at(at) {
        return format!("\"{text}\"");
    }
    let typing = sight.plan.tables.get(table).and_then(|table| table.columns.first()).map(|column| &column.typing);
    let site = sight.atmosphere.number_at(0);
    typing
        .and_then(|typing| shown::value(keys, at, typing, sight.system, site))
        .map_or_else(|| "asked for".into(), |shown| shown.text)
}

fn unknown_key(sight: &Sight<'_>, table: usize, keys: &Block, at: usize, column: &Block, span: Span) -> Fault {
    let name = sight.plan.tables.get(table).map_or("", |table| table.name.as_str());
    let mut fault = Fault::new(
        &codes::UNKNOWN_KEY,
        format!("the table `{name}` has no row {}", key_text(sight, table, keys, at)),
        span,
    );
    if let Some(text) = keys.text_at(at) {
        let all: Vec<&str> = (0..column.len()).filter_map(|row| column.text_at(row)).map(|text| &**text).collect();
        fault.mend = did_you_mean(text, all).map(|near| format!("did you mean \"{near}\"?"));
    }
    fault
}

/// Rows not taken are left out.
pub fn taken(mut block: Block) -> Block {
    let length = block.len();
    for at in 0..length {
        if block.mark(at) == Mark::Pending {
            block.states.set(at, Mark::LeftOut, length);
        }
    }
    block
}

/// Seconds since the first row. Times that do not run forward are no log.
pub fn elapsed(block: &Block, span: Span) -> Block {
    if let Some(fault) = super::keys::backwards(block, span) {
        return Block::broken(fault).spread(block.len());
    }
    let first = block.row(0);
    match &block.data {
        Data::Moments(_) => between(block, &first, span),
        _ => super::arithmetic::pairwise(block.clone(), first, span, |x, y| x - y, |_, _| (1.0, -1.0)),
    }
}

/// The row before; the first has none.
pub fn previous(block: Block) -> Block {
    let length = block.len();
    if length == 0 {
        return block;
    }
    // There is nothing to wait for: the first row is simply not meant.
    let mut shifted = Block { data: Data::Nothing(1), states: States::all(Mark::LeftOut, 1) };
    shifted.append(block.slice_strict(0, length - 1));
    shifted
}

impl Block {
    /// Some rows, also of a block of one row.
    fn slice_strict(&self, start: usize, length: usize) -> Block {
        if length == 0 { Block { data: Data::Nothing(0), states: States::known() } } else { self.slice(start, length) }
    }
}

/// A time moved by seconds.
pub fn shift(time: &Block, duration: &Block, span: Span) -> Block {
    let length = common_length(time, duration);
    let rows = (0..length)
        .map(|at| match (time.moment_at(at), duration.number_at(at)) {
            (Some(moment), Some(seconds)) => match moment.plus(seconds) {
                Ok(moment) => Block::moment(moment),
                Err(message) => Block::broken(Fault::new(&running::OVERFLOW, message, span)),
            },
            _ => unknown(time, duration, at),
        })
        .collect();
    Block::gather(rows)
}

/// Seconds between two times.
pub fn between(later: &Block, earlier: &Block, span: Span) -> Block {
    let length = common_length(later, earlier);
    let rows = (0..length)
        .map(|at| match (later.moment_at(at), earlier.moment_at(at)) {
            (Some(later), Some(earlier)) => match later.since(earlier) {
                Ok(seconds) => Block::number(seconds),
                Err(message) => Block::broken(Fault::new(&running::TIME_OFFSETS, message, span)),
            },
            _ => unknown(later, earlier, at),
        })
        .collect();
    Block::gather(rows)
}

fn unknown(a: &Block, b: &Block, at: usize) -> Block {
    let states = a.row(at).states.merge(&b.row(at).states, 1);
    Block { data: Data::Nothing(1), states }
}

/// Pairs of two columns with their rows, rows left out in either dropped; anything else unknown decides for all.
fn pairs(across: &Block, up: &Block, rows: usize) -> Result<Vec<(f64, f64, usize)>, Block> {
    let states = across.states.merge(&up.states, rows);
    let (x, y) = (across.as_numbers(), up.as_numbers());
    let mut pairs = Vec::with_capacity(rows);
    let mut pending = false;
    for at in 0..rows {
        match states.mark(at) {
            Mark::Known => pairs.push((x[at], y[at], at)),
            Mark::LeftOut => {}
            Mark::Pending => pending = true,
            Mark::Broken => {
                let mut broken = States::known();
                if let Some(fault) = states.fault(at) {
                    broken.break_at(0, Arc::clone(fault), 1);
                }
                return Err(Block { data: Data::Nothing(1), states: broken });
            }
        }
    }
    if pending { Err(Block::pending(1)) } else { Ok(pairs) }
}

/// The slope of the least-squares line.
pub fn slope(sight: &Sight<'_>, table: usize, across: &Node, up: &Node, span: Span) -> Block {
    let Some(values) = sight.tables.get(table).filter(|values| !values.pending) else { return Block::pending(1) };
    sight.spend(values.rows);
    let outside = sight.with(None, sight.locals.clone());
    let across = outside.eval(across).spread(values.rows);
    let across = if matches!(across.data, Data::Moments(_)) { elapsed(&across, span) } else { across };
    let up = outside.eval(up).spread(values.rows);
    let pairs = match pairs(&across, &up, values.rows) {
        Ok(pairs) => pairs,
        Err(block) => return block,
    };
    let count = pairs.len() as f64;
    let (Some(first), true) = (pairs.first().copied(), pairs.len() >= 2) else {
        return Block::broken(Fault::new(&running::EMPTY_COLUMN, "a slope needs at least two rows", span));
    };
    let mean_x = pairs.iter().map(|(x, ..)| x - first.0).sum::<f64>() / count;
    let mean_y = pairs.iter().map(|(_, y, _)| y - first.1).sum::<f64>() / count;
    let mut xx = 0.0;
    let mut xy = 0.0;
    for (x, y, _) in &pairs {
        let (dx, dy) = (x - first.0 - mean_x, y - first.1 - mean_y);
        xx += dx * dx;
        xy += dx * dy;
    }
    if xx == 0.0 {
        return Block::broken(Fault::new(&running::DIVISION_BY_ZERO, "all rows lie at the same place: no slope", span));
    }
    let mut slope = super::arithmetic::divide(Block::number(xy), Block::number(xx), span);
    if across.states.doubt().is_some() || up.states.doubt().is_some() {
        let b = xy / xx;
        let terms = pairs.iter().flat_map(|(x, y, at)| {
            let (dx, dy) = (x - first.0 - mean_x, y - first.1 - mean_y);
            [(up.states.doubt_at(*at), dx / xx), (across.states.doubt_at(*at), (dy - 2.0 * b * dx) / xx)]
        });
        slope.states = slope.states.with_doubt(Doubt::linear(terms));
    }
    slope
}

/// Linear interpolation between the rows of a table.
pub fn interpolate(sight: &Sight<'_>, value: &Node, table: usize, across: &Node, up: &Node, span: Span) -> Block {
    let wanted = sight.eval(value);
    let Some(values) = sight.tables.get(table).filter(|values| !values.pending) else {
        return Block::pending(wanted.len());
    };
    sight.spend(values.rows);
    let typing = column_typing(sight, across);
    let across = sight.eval(across).spread(values.rows);
    let up = sight.eval(up).spread(values.rows);
    let pairs = match pairs(&across, &up, values.rows) {
        Ok(pairs) => pairs,
        Err(block) => return block,
    };
    let rising = pairs.windows(2).all(|two| two[0].0 < two[1].0);
    let falling = pairs.windows(2).all(|two| two[0].0 > two[1].0);
    if pairs.len() < 2 || !(rising || falling) {
        return Block::broken(Fault::new(
            &codes::NOT_STEADY,
            "the column to read along must rise or fall from row to row, over two rows at least",
            span,
        ));
    }
    let rows = (0..wanted.len())
        .map(|at| {
            let Some(x) = wanted.number_at(at) else {
                return Block { data: Data::Nothing(1), states: wanted.row(at).states };
            };
            let Some(between) = between_rows(&pairs, x, rising) else {
                return Block::broken(outside(sight, typing, x, &pairs, span));
            };
            let Between { value, share, rise, rows: [below, above] } = between;
            let terms = [
                (wanted.states.doubt_at(at), rise),
                (up.states.doubt_at(below), 1.0 - share),
                (up.states.doubt_at(above), share),
                (across.states.doubt_at(below), -rise * (1.0 - share)),
                (across.states.doubt_at(above), -rise * share),
            ];
            let mut block = Block::number(value);
            block.states = block.states.with_doubt(Doubt::linear(terms.into_iter()));
            block
        })
        .collect();
    Block::gather(rows)
}

/// A value read between two rows.
struct Between {
    value: f64,
    /// How far it lies from the first of them to the second.
    share: f64,
    /// The rise from row to row over the step across.
    rise: f64,
    rows: [usize; 2],
}

fn between_rows(pairs: &[(f64, f64, usize)], x: f64, rising: bool) -> Option<Between> {
    let exact = pairs.iter().position(|(a, ..)| same(*a, x));
    let above = match exact {
        // At a row the slope is that of the step behind it; at the last row, of the step before.
        Some(at) => (at + 1).min(pairs.len().checked_sub(1)?),
        None => pairs.partition_point(|(a, ..)| if rising { *a < x } else { *a > x }),
    };
    let (&(x0, y0, below), &(x1, y1, above)) = (pairs.get(above.checked_sub(1)?)?, pairs.get(above)?);
    let share = (x - x0) / (x1 - x0);
    let value = exact.and_then(|at| pairs.get(at)).map_or(y0 + (y1 - y0) * share, |(_, y, _)| *y);
    Some(Between { value, share, rise: (y1 - y0) / (x1 - x0), rows: [below, above] })
}

/// How the values of a column are shown; `None` for what was worked out from one.
fn column_typing<'a>(sight: &Sight<'a>, node: &Node) -> Option<&'a Typing> {
    let Op::Column { table, column } = &node.op else { return None };
    Some(&sight.plan.tables.get(*table)?.columns.get(*column)?.typing)
}

fn outside(sight: &Sight<'_>, typing: Option<&Typing>, x: f64, pairs: &[(f64, f64, usize)], span: Span) -> Fault {
    let site = sight.atmosphere.number_at(0);
    let show = |x: f64| Some(shown::value(&Block::number(x), 0, typing?, sight.plan.system, site)?.text);
    let ends = pairs.first().zip(pairs.last()).and_then(|(first, last)| show(first.0).zip(show(last.0)));
    let message = match show(x).zip(ends) {
        Some((x, (first, last))) => format!("{x} lies outside the rows, which go from {first} to {last}"),
        None => "the value lies outside the rows".to_string(),
    };
    Fault::new(&codes::OUTSIDE_TABLE, message, span)
        .with_mend("`interpolate` never reads beyond the first or last row: check the value, or extend the table")
}
