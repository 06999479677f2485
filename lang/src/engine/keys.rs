//! The first column of a table, held when the table is read: keys that are each a row's own, and times that run forward.

use std::cmp::Ordering;
use std::collections::HashMap;

use super::arithmetic::same;
use super::block::{Block, Data, Mark};
use super::evaluate::TableValues;
use super::fault::Fault;
use super::settings::World;
use crate::diagnostic::{Diagnostic, counted, running, tables as codes};
use crate::kinds::Kind;
use crate::plan::TablePlan;
use crate::source::Span;

/// What is held against the rows.
pub struct Read<'a> {
    /// The table.
    pub table: &'a TablePlan,
    /// Its full name.
    pub name: &'a str,
    /// Where its rows come from; nothing if they stand in the sheet, each at a place of its own.
    pub from: Option<Span>,
    /// A key as it is shown, by its row.
    pub shown: &'a dyn Fn(usize) -> String,
}

/// Holds the first column against what it must be, and reports what it is not. Rows of a log that stand there twice are
/// taken out; gives which, counted in the rows as read.
pub fn hold(read: &Read<'_>, values: &mut TableValues, world: &World<'_>) -> Vec<usize> {
    let Some(kind) = read.table.columns.first().map(|column| &column.typing.kind) else { return Vec::new() };
    if values.pending || values.rows == 0 {
        return Vec::new();
    }
    world.work.set(world.work.get().saturating_add(values.rows as u64));
    read.keyless(values, world);
    if kind.is_time_axis() {
        let twice = read.forward(values, world);
        leave_out(values, &twice);
        return twice;
    }
    if !read.table.traits.keys_repeat
        && matches!(kind, Kind::Number | Kind::Quantity(_) | Kind::Text(_) | Kind::Refrigerant | Kind::Gas)
    {
        read.own(values, world);
    }
    Vec::new()
}

impl Read<'_> {
    fn place(&self, row: usize) -> Span {
        self.from.unwrap_or_else(|| self.table.rows.get(row).map_or(self.table.span, |(span, _)| *span))
    }

    /// A row with values and no key belongs to nothing.
    fn keyless(&self, values: &TableValues, world: &World<'_>) {
        let keyless = |row: &usize| {
            let known = |block: &Block| block.mark(*row) == Mark::Known;
            values.columns.first().is_some_and(|key| key.mark(*row) == Mark::Pending)
                && values.columns.iter().skip(1).take(self.table.given.saturating_sub(1)).any(known)
        };
        let mut rows = (0..values.rows).filter(keyless);
        let Some(first) = rows.next() else { return };
        let more = match rows.count() {
            0 => String::new(),
            more => format!(", nor have {}", counted(more, "further row")),
        };
        let column = self.table.columns.first().map_or("", |column| column.name.as_str());
        let message = format!("row {} of `{}` has values and no `{column}`{more}", first + 1, self.name);
        world.report(
            Diagnostic::error(&codes::NO_KEY, message, self.place(first), "")
                .with_mend("the first column says what a row belongs to: fill it in, or leave the whole row blank"),
        );
    }

    /// Each key stands once.
    fn own(&self, values: &TableValues, world: &World<'_>) {
        let Some(keys) = values.columns.first() else { return };
        let mut seen: HashMap<Key<'_>, usize> = HashMap::with_capacity(values.rows);
        let mut double: Option<(usize, usize)> = None;
        let mut more = 0;
        for row in 0..values.rows {
            let Some(key) = Key::of(keys, row) else { continue };
            let first = *seen.entry(key).or_insert(row);
            if first != row {
                more += usize::from(double.is_some());
                double.get_or_insert((first, row));
            }
        }
        let Some((first, row)) = double else { return };
        let others = if more == 0 { String::new() } else { format!("; {} a key too", more_repeat(more)) };
        let message = format!(
            "rows {} and {} of `{}` have one key, {}{others}",
            first + 1,
            row + 1,
            self.name,
            (self.shown)(row)
        );
        let mut diagnostic = Diagnostic::error(&codes::DOUBLE_KEY, message, self.place(row), "");
        if self.from.is_none() {
            diagnostic = diagnostic.with_label(self.place(first), "first here");
        }
        world.report(diagnostic.with_mend(format!(
            "take the second row out if it is the same thing twice, else give it a key of its own; where a key may stand \
             twice, say so: `table {} … keys repeat`",
            self.table.name
        )));
    }

    /// Times run forward; gives the rows that say again what the row before them says.
    fn forward(&self, values: &TableValues, world: &World<'_>) -> Vec<usize> {
        let mut twice = Vec::new();
        let Some(times) = values.columns.first() else { return twice };
        let mut last: Option<usize> = None;
        for row in 0..values.rows {
            if times.mark(row) != Mark::Known {
                continue;
            }
            let Some(before) = last.replace(row) else { continue };
            let told = match order(times, before, row) {
                Ok(Ordering::Less) => continue,
                Ok(Ordering::Equal) if is_whole_day(times, row) => continue,
                Ok(Ordering::Equal) if equal_rows(values, self.table.given, before, row) => {
                    twice.push(row);
                    last = Some(before);
                    continue;
                }
                Ok(Ordering::Equal) => Diagnostic::error(
                    &codes::SAME_TIME,
                    format!(
                        "rows {} and {} of `{}` differ at one time, {}",
                        before + 1,
                        row + 1,
                        self.name,
                        (self.shown)(row)
                    ),
                    self.place(row),
                    "",
                )
                .with_mend("keep the row that was read, or mend its time"),
                Ok(Ordering::Greater) => Diagnostic::error(
                    &codes::BACKWARDS,
                    format!(
                        "`{}` runs backwards: {} stands behind {} (rows {} and {})",
                        self.name,
                        (self.shown)(row),
                        (self.shown)(before),
                        before + 1,
                        row + 1
                    ),
                    self.place(row),
                    "",
                )
                .with_mend("put the rows in the order of their times, the oldest first"),
                Err(message) => Diagnostic::error(&running::TIME_OFFSETS, message, self.place(row), ""),
            };
            world.report(told);
            break;
        }
        twice
    }
}

/// What is wrong with times that do not run forward.
pub fn backwards(times: &Block, span: Span) -> Option<Fault> {
    let known: Vec<usize> = (0..times.len()).filter(|&row| times.mark(row) == Mark::Known).collect();
    let wrong = known.windows(2).find(|two| order(times, two[0], two[1]) == Ok(Ordering::Greater))?;
    let message = format!("the times run backwards: row {} is earlier than row {}", wrong[1] + 1, wrong[0] + 1);
    let fault = Fault::new(&codes::BACKWARDS, message, span);
    Some(fault.with_mend("put the rows in the order of their times, the oldest first"))
}

fn more_repeat(more: usize) -> String {
    if more == 1 { "1 further row repeats".to_string() } else { format!("{more} further rows repeat") }
}

/// A key that can be found again.
#[derive(PartialEq, Eq, Hash)]
enum Key<'a> {
    Text(&'a str),
    Number(u64),
}

impl Key<'_> {
    fn of(keys: &Block, row: usize) -> Option<Key<'_>> {
        if keys.mark(row) != Mark::Known {
            return None;
        }
        match &keys.data {
            Data::Texts(_) => keys.text_at(row).map(|text| Key::Text(text)),
            // Both zeros are one key.
            _ => keys.number_at(row).map(|number| Key::Number((number + 0.0).to_bits())),
        }
    }
}

/// How a time or duration stands to that of a later row.
fn order(times: &Block, before: usize, row: usize) -> Result<Ordering, String> {
    match (times.moment_at(before), times.moment_at(row)) {
        (Some(one), Some(other)) => one.compare(other),
        _ => match (times.number_at(before), times.number_at(row)) {
            (Some(one), Some(other)) if same(one, other) => Ok(Ordering::Equal),
            (Some(one), Some(other)) => Ok(one.total_cmp(&other)),
            _ => Ok(Ordering::Less),
        },
    }
}

/// Of one day several rows may tell, in the order of the day.
fn is_whole_day(times: &Block, row: usize) -> bool {
    times.moment_at(row).is_some_and(|moment| moment.whole_day)
}

fn equal_rows(values: &TableValues, given: usize, one: usize, other: usize) -> bool {
    values.columns.iter().take(given).all(|block| {
        block.mark(one) == block.mark(other)
            && (block.mark(one) != Mark::Known
                || match &block.data {
                    Data::Numbers(_) => block.number_at(one) == block.number_at(other),
                    Data::Texts(_) => block.text_at(one) == block.text_at(other),
                    Data::Flags(_) => block.flag_at(one) == block.flag_at(other),
                    Data::Moments(_) => block.moment_at(one) == block.moment_at(other),
                    Data::Record(_) | Data::Nothing(_) => true,
                })
    })
}

/// Takes rows out.
fn leave_out(values: &mut TableValues, rows: &[usize]) {
    if rows.is_empty() {
        return;
    }
    for block in &mut values.columns {
        let mut kept = block.slice(0, rows.first().copied().unwrap_or_default());
        let ends = rows.iter().skip(1).copied().chain([values.rows]);
        for (row, end) in rows.iter().zip(ends) {
            if end > row + 1 {
                kept.append(block.slice(row + 1, end - row - 1));
            }
        }
        *block = kept;
    }
    values.rows -= rows.len();
}
