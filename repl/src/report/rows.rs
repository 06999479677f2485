//! Which rows of a table a report shows, what stands in them, and the word beside each.

use dewline_lang::outcome::{ChartOutcome, CheckVerdict, ColumnOutcome, Outcome, Role, TableOutcome};

use super::summary::{check_word, groups};

/// Rows up to which a table is shown whole.
const WHOLE: usize = 60;
/// First and last rows shown of a longer one.
const FIRST: usize = 20;
const LAST: usize = 5;
/// Rows shown of a longer one because a check asks for a look at them.
const MARKED: usize = 20;

/// The word of the check that weighs most, by row; empty where nothing asks for a look.
pub(super) fn marks(outcome: &Outcome, table: &TableOutcome, rows: usize) -> Vec<&'static str> {
    let order =
        [CheckVerdict::Close, CheckVerdict::Waived, CheckVerdict::Pending, CheckVerdict::Broken, CheckVerdict::Failed];
    let weight = |verdict: CheckVerdict| order.iter().position(|&other| other == verdict);
    let mut worst: Vec<Option<usize>> = vec![None; rows];
    for group in groups(&outcome.checks) {
        // One entry a row, in the order of the rows; anything else is no check of each row of this table.
        if group.table == Some(table.name.as_str()) && group.level == "require" && group.entries.len() == rows {
            for (slot, entry) in worst.iter_mut().zip(&group.entries) {
                *slot = (*slot).max(weight(entry.verdict));
            }
        }
    }
    for row in table.columns.iter().flat_map(|column| &column.broken) {
        if let Some(slot) = worst.get_mut(*row) {
            *slot = (*slot).max(weight(CheckVerdict::Broken));
        }
    }
    worst.into_iter().map(|at| at.and_then(|at| order.get(at)).map_or("", |&verdict| check_word(verdict))).collect()
}

/// All rows of a short table; of a long one the first, the last and some of those that ask for a look.
pub(super) fn chosen(marks: &[&str]) -> Vec<usize> {
    let rows = marks.len();
    if rows <= WHOLE {
        return (0..rows).collect();
    }
    let between = FIRST..rows - LAST;
    let marked = between.filter(|&row| marks.get(row).is_some_and(|mark| !mark.is_empty())).take(MARKED);
    (0..FIRST).chain(marked).chain(rows - LAST..rows).collect()
}

/// What stands in one row of a column: a computed value with its uncertainty where it has one. What was read stands as it
/// was read; how well is said beside the table.
pub(super) fn field(column: &ColumnOutcome, row: usize) -> Result<&str, &'static str> {
    let together = column.together.get(row).filter(|_| column.role == Role::Cell);
    match together.filter(|text| !text.is_empty()).or_else(|| column.text.get(row)) {
        Some(text) if !text.is_empty() => Ok(text),
        _ if column.broken.contains(&row) => Err("broken"),
        _ if column.role == Role::Cell => Err("waits"),
        _ => Err("?"),
    }
}

/// The points of a chart alone: how well they are known stands in their table.
pub(super) fn points(chart: &ChartOutcome) -> Vec<ColumnOutcome> {
    chart.columns.iter().map(|column| ColumnOutcome { together: Vec::new(), ..column.clone() }).collect()
}

/// How well a column was read, and with what: `by clamp, U = ± 1.2 F°`.
pub(super) fn measured_by(column: &ColumnOutcome) -> Option<String> {
    let by = column.by.as_ref().map(|by| format!("by {by}"));
    let carried = column.spread.as_ref().map(|spread| format!("U = {spread}"));
    let stated = column.uncertainty.clone().or(carried);
    let parts: Vec<String> = [by, stated.filter(|_| column.role != Role::Cell)].into_iter().flatten().collect();
    (!parts.is_empty()).then(|| parts.join(", "))
}

#[cfg(test)]
mod tests {
    use super::chosen;

    #[test]
    fn a_long_table_shows_its_ends_and_what_asks_for_a_look() {
        let mut marks = vec![""; 100];
        assert_eq!(chosen(&marks[..60]).len(), 60);
        marks[50] = "FAILED";
        let rows = chosen(&marks);
        assert_eq!(rows.len(), 26);
        assert!(rows.contains(&50) && rows.contains(&99) && !rows.contains(&49));
    }
}
