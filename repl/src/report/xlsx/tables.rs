//! The sheets that hold one kind of row: values, checks, and each table.

use dewline_lang::outcome::{CellOutcome, CheckVerdict, ColumnOutcome, Outcome, Role, Sort, TableOutcome};

use super::sheet::{Field, Sheet, Style};
use crate::report::rows;
use crate::report::summary::{check_word, printed_number, role_word, state_word};

/// All single values.
pub(super) fn values(sheet: &mut Sheet, run: Option<&str>, outcome: &Outcome, head: bool) {
    let columns = [
        "stage",
        "name",
        "role",
        "value",
        "unit",
        "shown",
        "plus_minus",
        "by",
        "at",
        "note",
        "state",
        "formula",
        "SI",
        "UCUM",
    ];
    if head {
        sheet.heads(&named(run, &columns));
    }
    for cell in &outcome.cells {
        let style = match (cell.broken, cell.pending) {
            (true, _) => Style::Bad,
            (_, true) => Style::Look,
            _ => Style::Plain,
        };
        let stated = |text: &Option<String>| Field::text(text.as_deref().unwrap_or_default());
        let fields = vec![
            Field::text(&cell.stage),
            Field::text(&cell.name),
            Field::text(role_word(cell.role)),
            value(cell),
            Field::text(cell.shown.as_ref().map_or("", |shown| shown.unit.as_str())),
            Field::text(cell.shown.as_ref().map_or("", |shown| shown.text.as_str())),
            stated(&cell.stated.uncertainty),
            stated(&cell.stated.by),
            stated(&cell.stated.at),
            stated(&cell.stated.note),
            Field::text(state_word(cell)),
            Field::text(&cell.formula),
            cell.si.map_or(Field::Blank, |si| Field::Number(si, None)),
            Field::text(&cell.ucum),
        ];
        row(sheet, run, fields, style);
    }
}

/// A number as shown; a text where it is none, or is shown in pieces.
fn value(cell: &CellOutcome) -> Field {
    match &cell.shown {
        None => Field::Blank,
        Some(shown) if shown.number.is_some() => Field::printed(&printed_number(shown)),
        Some(shown) => Field::text(&shown.text),
    }
}

/// All checks, row by row, and confirmations.
pub(super) fn checks(sheet: &mut Sheet, run: Option<&str>, outcome: &Outcome, head: bool) {
    let columns = [
        "stage", "check", "level", "table", "row", "verdict", "value", "limit", "margin", "at_least", "at_most",
        "unit", "reason",
    ];
    if head {
        sheet.heads(&named(run, &columns));
    }
    for check in &outcome.checks {
        let text = |text: &Option<String>| Field::text(text.as_deref().unwrap_or_default());
        let bound = |number: Option<f64>| number.map_or(Field::Blank, |number| Field::Number(number, None));
        let bounds = check.bounds.as_ref();
        let fields = vec![
            Field::text(&check.stage),
            Field::text(&check.label),
            Field::text(check.level),
            text(&check.table),
            text(&check.row),
            Field::text(check_word(check.verdict)),
            text(&check.value),
            text(&check.limit),
            text(&check.margin),
            bound(bounds.and_then(|bounds| bounds.low)),
            bound(bounds.and_then(|bounds| bounds.high)),
            Field::text(bounds.map_or("", |bounds| bounds.unit.as_str())),
            text(&check.reason),
        ];
        row(sheet, run, fields, style_of(check.verdict));
    }
    for one in &outcome.confirmations {
        let said: Vec<&str> = [&one.by, &one.at].into_iter().flatten().map(String::as_str).collect();
        let fields = vec![
            Field::text(&one.stage),
            Field::text(&one.label),
            Field::text("confirm"),
            Field::Blank,
            Field::Blank,
            Field::text(check_word(one.verdict)),
            Field::text(&said.join(", ")),
        ];
        row(sheet, run, fields, style_of(one.verdict));
    }
}

/// One table, with a last column for the word of its checks; false if it has more rows than a sheet.
pub(super) fn table(sheet: &mut Sheet, outcome: &Outcome, table: &TableOutcome) -> bool {
    let rows = table.columns.iter().map(|column| column.text.len()).max().unwrap_or(0);
    let marks = rows::marks(outcome, table, rows);
    let marked = marks.iter().any(|mark| !mark.is_empty());
    let head = |column: &ColumnOutcome| match column.unit.as_str() {
        "" => column.name.clone(),
        unit => format!("{} [{unit}]", column.name),
    };
    let check = marked.then(|| "check".to_string());
    sheet.heads(&table.columns.iter().map(head).chain(check).collect::<Vec<_>>());
    (0..rows).all(|at| {
        let mark = marks.get(at).copied().unwrap_or_default();
        let fields = table.columns.iter().map(|column| field(column, at));
        let mark_field = marked.then(|| Field::text(mark));
        sheet.add(fields.chain(mark_field).map(|field| (field, style_of_word(mark))).collect())
    })
}

/// A number as shown, or a text; blank where it is not known, as in a file that is read.
fn field(column: &ColumnOutcome, row: usize) -> Field {
    let text = column.text.get(row).map_or("", String::as_str);
    match column.kind {
        Sort::Text | Sort::Flag | Sort::Time | Sort::Refrigerant | Sort::Gas => Field::text(text),
        _ if text.is_empty() && column.broken.contains(&row) => Field::text("broken"),
        _ if text.is_empty() && column.role != Role::Cell => Field::text("?"),
        _ => Field::printed(text),
    }
}

fn named(run: Option<&str>, columns: &[&str]) -> Vec<String> {
    run.map(|_| "run").into_iter().chain(columns.iter().copied()).map(str::to_string).collect()
}

fn row(sheet: &mut Sheet, run: Option<&str>, fields: Vec<Field>, style: Style) {
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
