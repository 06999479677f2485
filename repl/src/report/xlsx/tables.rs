//! The sheets that hold one kind of row: values, checks, what trials say, and each table.

use dewline_lang::outcome::{CheckVerdict, Outcome, TableOutcome, TrialsOutcome};

use super::sheet::{Field, Sheet, Style};
use crate::report::lists::{self, Datum};
use crate::report::rows;
use crate::report::summary::trial_word;

/// All single values.
pub(super) fn values(sheet: &mut Sheet, run: Option<&str>, outcome: &Outcome, head: bool) {
    heads(sheet, run, &lists::VALUES, head);
    for cell in &outcome.cells {
        let style = match (cell.broken, cell.pending && !cell.optional) {
            (true, _) => Style::Bad,
            (_, true) => Style::Look,
            _ => Style::Plain,
        };
        row(sheet, run, lists::value(cell), style);
    }
}

/// All checks, row by row, and confirmations.
pub(super) fn checks(sheet: &mut Sheet, run: Option<&str>, outcome: &Outcome, head: bool) {
    heads(sheet, run, &lists::CHECKS, head);
    for check in &outcome.checks {
        row(sheet, run, lists::check(check), style_of(check.verdict));
    }
    for one in &outcome.confirmations {
        row(sheet, run, lists::confirmation(one), style_of(one.verdict));
    }
}

/// What trials say of the values.
pub(super) fn trial_values(sheet: &mut Sheet, run: Option<&str>, trials: &TrialsOutcome, head: bool) {
    heads(sheet, run, &lists::TRIAL_VALUES, head);
    for value in &trials.values {
        let style = if trial_word(value) == "DIFFERS" { Style::Look } else { Style::Plain };
        row(sheet, run, lists::trial_value(value, trials.count), style);
    }
}

/// How often checks hold in the trials.
pub(super) fn trial_checks(sheet: &mut Sheet, run: Option<&str>, trials: &TrialsOutcome, head: bool) {
    heads(sheet, run, &lists::TRIAL_CHECKS, head);
    for check in &trials.checks {
        row(sheet, run, lists::trial_check(check), style_of(check.verdict));
    }
}

/// One table, with a last column for the word of its checks; false if it has more rows than a sheet.
pub(super) fn table(sheet: &mut Sheet, outcome: &Outcome, table: &TableOutcome) -> bool {
    let rows = table.columns.iter().map(|column| column.text.len()).max().unwrap_or(0);
    let marks = rows::marks(outcome, table, rows);
    let marked = marks.iter().any(|mark| !mark.is_empty());
    let columns = lists::columns(table);
    let check = marked.then(|| "check".to_string());
    sheet.heads(&columns.iter().map(|column| column.head.clone()).chain(check).collect::<Vec<_>>());
    (0..rows).all(|at| {
        let mark = marks.get(at).copied().unwrap_or_default();
        let fields = columns.iter().map(|column| match column.missing(at) {
            "" => field(column.field(at)),
            word => Field::text(word),
        });
        let mark_field = marked.then(|| Field::text(mark));
        sheet.add(fields.chain(mark_field).map(|field| (field, style_of_word(mark))).collect())
    })
}

fn field(datum: Datum) -> Field {
    match datum {
        Datum::Text(text) => Field::text(&text),
        Datum::Printed(text) => Field::printed(&text),
        Datum::Exact(number) => number.map_or(Field::Blank, |number| Field::Number(number, None)),
    }
}

fn heads(sheet: &mut Sheet, run: Option<&str>, columns: &[&str], head: bool) {
    if head {
        let run = run.map(|_| "run").into_iter();
        sheet.heads(&run.chain(columns.iter().copied()).map(str::to_string).collect::<Vec<_>>());
    }
}

fn row(sheet: &mut Sheet, run: Option<&str>, fields: impl IntoIterator<Item = Datum>, style: Style) {
    let fields = fields.into_iter().map(field);
    sheet.add(run.map(Field::text).into_iter().chain(fields).map(|field| (field, style)).collect());
}

pub(super) fn style_of(verdict: CheckVerdict) -> Style {
    match verdict {
        CheckVerdict::Failed | CheckVerdict::Broken => Style::Bad,
        CheckVerdict::Pending | CheckVerdict::Close | CheckVerdict::Waived => Style::Look,
        CheckVerdict::Passed | CheckVerdict::NotAsked => Style::Plain,
    }
}

fn style_of_word(word: &str) -> Style {
    match word {
        "" => Style::Plain,
        "FAILED" | "BROKEN" => Style::Bad,
        _ => Style::Look,
    }
}
