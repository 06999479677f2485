//! Rows that a job hands to a form stand in the job's table and again in the form's. A report shows them once, in the
//! form's table, beside what is worked out from them and how it is judged.

use dewline_lang::outcome::{ColumnOutcome, Outcome, TableOutcome};

use super::rows;

/// A table as a report prints it.
pub(super) struct Printed<'a> {
    /// The columns that stand here; the first is the key.
    pub columns: Vec<&'a ColumnOutcome>,
    /// The table that the others stand in, if they do.
    pub others_in: Option<&'a str>,
}

impl<'a> Printed<'a> {
    /// All of it.
    pub fn whole(table: &'a TableOutcome) -> Printed<'a> {
        Printed { columns: table.columns.iter().collect(), others_in: None }
    }

    /// What stands in no table of a form: whole, unless a form was handed its rows.
    pub fn once(outcome: &'a Outcome, table: &'a TableOutcome) -> Printed<'a> {
        let shared = |other: &TableOutcome| table.columns.iter().filter(|column| stands_in(column, other)).count();
        let mut best: Option<(usize, &TableOutcome)> = None;
        for other in
            outcome.tables.iter().filter(|other| is_of_a_form(table, other) && has_rows_of(outcome, table, other))
        {
            let count = shared(other);
            // The key alone is no repetition: other tables of the same units have it too.
            if count > 1 && best.is_none_or(|(most, _)| count > most) {
                best = Some((count, other));
            }
        }
        let Some((_, other)) = best else { return Printed::whole(table) };
        let own = table.columns.iter().enumerate().filter(|(at, column)| *at == 0 || !stands_in(column, other));
        Printed { columns: own.map(|(_, column)| column).collect(), others_in: Some(&other.name) }
    }

    /// Whether there is more to print than the key.
    pub fn has_fields(&self) -> bool {
        self.others_in.is_none() || self.columns.len() > 1
    }

    /// Where the rest stands, in a sentence.
    pub fn elsewhere(&self, rows: &str) -> Option<String> {
        let other = self.others_in?;
        let what = if self.has_fields() { "its other columns" } else { rows };
        Some(format!("{what}: in table {other}, with what is worked out from them"))
    }
}

/// Whether `other` is a table of a form that the sheet of `table` fills: `lines.runs` beside `runs`.
fn is_of_a_form(table: &TableOutcome, other: &TableOutcome) -> bool {
    let sheet = |name: &str| name.rsplit_once('.').map_or(String::new(), |(sheet, _)| sheet.to_string());
    let form = sheet(&other.name);
    !form.is_empty() && sheet(&form) == sheet(&table.name)
}

/// Whether the same rows stand in both, and `other` prints each row that `table` would.
fn has_rows_of(outcome: &Outcome, table: &TableOutcome, other: &TableOutcome) -> bool {
    let Some(key) = table.columns.first().filter(|key| !key.text.is_empty()) else { return false };
    let printed = |table: &TableOutcome| rows::chosen(&rows::marks(outcome, table, key.text.len()));
    if table.pending || other.pending || !other.columns.first().is_some_and(|first| are_equal(key, first)) {
        return false;
    }
    let there = printed(other);
    printed(table).iter().all(|row| there.binary_search(row).is_ok())
}

fn stands_in(column: &ColumnOutcome, other: &TableOutcome) -> bool {
    other.columns.iter().any(|one| are_equal(column, one))
}

/// Whether a reader would find the same name, unit and fields.
fn are_equal(one: &ColumnOutcome, other: &ColumnOutcome) -> bool {
    let fields = || (0..one.text.len()).all(|row| rows::field(one, row) == rows::field(other, row));
    one.name == other.name && one.unit == other.unit && one.text.len() == other.text.len() && fields()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::indexing_slicing)]
    use super::*;
    use crate::report::sample;

    /// The sample with its table handed to a form that adds one column.
    fn handed() -> Outcome {
        let mut outcome = sample::outcome();
        let mut form = outcome.tables[0].clone();
        form.name = format!("run.{}", form.name);
        let mut added = form.columns[2].clone();
        added.name = "rise".to_string();
        form.columns.push(added);
        outcome.tables.push(form);
        outcome
    }

    #[test]
    fn rows_handed_to_a_form_stand_in_the_form() {
        let outcome = handed();
        let printed = Printed::once(&outcome, &outcome.tables[0]);
        assert_eq!(printed.others_in, Some(outcome.tables.last().map_or("", |form| form.name.as_str())));
        assert!(printed.columns.len() == 1 && !printed.has_fields());
        let form = outcome.tables.last().map(|form| Printed::once(&outcome, form).columns.len());
        assert_eq!(form, Some(outcome.tables[0].columns.len() + 1), "the form's table is whole");
    }

    #[test]
    fn what_the_form_has_not_or_has_otherwise_stays() {
        let mut outcome = handed();
        let form = outcome.tables.len() - 1;
        outcome.tables[form].columns.remove(1);
        outcome.tables[form].columns[1].unit = "degC".to_string();
        let names = |outcome: &Outcome| -> Vec<String> {
            Printed::once(outcome, &outcome.tables[0]).columns.iter().map(|column| column.name.clone()).collect()
        };
        assert_eq!(names(&outcome), ["tag", "running", "gas_pipe"]);
        outcome.tables[form].columns[0].text[1] = "Exam 9".to_string();
        assert_eq!(names(&outcome).len(), outcome.tables[0].columns.len(), "other rows");
    }
}
