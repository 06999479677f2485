//! The outcome as CSV: the cells in one stream, or everything in a folder with one file a table.

use std::io::{self, Write};
use std::path::Path;

use dewline_lang::outcome::{ColumnOutcome, Outcome, TableOutcome};

use super::summary::{exact, printed_number, role_word, state_word};
use crate::formula::guarded;
use crate::output::write_file;
use crate::problem::{Problem, said};

/// The cells, one a line. With `run`, a first column names the run.
pub(super) fn write_cells(out: &mut dyn Write, run: Option<&str>, outcome: &Outcome, head: bool) -> io::Result<()> {
    let mut writer = ::csv::Writer::from_writer(out);
    if head {
        let columns = [
            "sheet",
            "verdict",
            "stage",
            "name",
            "role",
            "value",
            "unit",
            "shown",
            "si",
            "ucum",
            "plus_minus",
            "by",
            "at",
            "state",
            "note",
        ];
        put(&mut writer, run.map(|_| "run").into_iter().chain(columns))?;
    }
    for cell in &outcome.cells {
        let (number, unit, shown) = match &cell.shown {
            Some(shown) => (printed_number(shown), shown.unit.as_str(), shown.text.as_str()),
            None => (String::new(), "", ""),
        };
        let state = state_word(cell);
        let si = exact(cell.si);
        let stated = |text: &Option<String>| text.clone().unwrap_or_default();
        let (plus_minus, by) = (stated(&cell.stated.uncertainty), stated(&cell.stated.by));
        let (at, note) = (stated(&cell.stated.at), stated(&cell.stated.note));
        let fields = [
            outcome.sheet.path.as_str(),
            outcome.verdict.words(),
            &cell.stage,
            &cell.name,
            role_word(cell.role),
            &number,
            unit,
            shown,
            &si,
            &cell.ucum,
            &plus_minus,
            &by,
            &at,
            state,
            &note,
        ];
        put(&mut writer, run.into_iter().chain(fields))?;
    }
    writer.flush()
}

/// Everything in a folder: `cells.csv`, `checks.csv`, `stages.csv` and a file for each table.
pub fn write_folder(folder: &Path, outcome: &Outcome) -> Result<(), Problem> {
    std::fs::create_dir_all(folder).map_err(|error| {
        Problem::new(format!("the folder \"{}\" cannot be made: {}", folder.display(), said(&error)))
    })?;
    let mut cells = Vec::new();
    let refused = |error: io::Error| Problem::new(format!("the tables cannot be written: {}", said(&error)));
    write_cells(&mut cells, None, outcome, true).map_err(refused)?;
    write_file(&folder.join("cells.csv"), &cells)?;
    write_file(&folder.join("checks.csv"), &checks(outcome).map_err(refused)?)?;
    write_file(&folder.join("stages.csv"), &stages(outcome).map_err(refused)?)?;
    for one in &outcome.tables {
        write_file(&folder.join(table_file(&one.name)), &table(one).map_err(refused)?)?;
    }
    Ok(())
}

/// One line; no field of it is taken for a formula.
fn put<'a, W: Write>(writer: &mut ::csv::Writer<W>, fields: impl Iterator<Item = &'a str>) -> io::Result<()> {
    writer.write_record(fields.map(guarded)).map_err(io::Error::from)
}

/// `table-riser_b.rise.csv`; what could mean a folder to some system is replaced.
fn table_file(name: &str) -> String {
    let safe: String = name.chars().map(|letter| if letter.is_alphanumeric() { letter } else { '_' }).collect();
    // `.` between a filled sheet's name and its table's reads well and is safe inside a name.
    let dotted: String = name.chars().zip(safe.chars()).map(|(was, now)| if was == '.' { '.' } else { now }).collect();
    format!("table-{dotted}.csv")
}

fn checks(outcome: &Outcome) -> io::Result<Vec<u8>> {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    writer.write_record([
        "stage",
        "label",
        "level",
        "table",
        "row",
        "verdict",
        "value",
        "limit",
        "margin",
        "margin_si",
        "reason",
    ])?;
    for check in &outcome.checks {
        let text = |text: &Option<String>| text.clone().unwrap_or_default();
        let fields = [
            check.stage.clone(),
            check.label.clone(),
            check.level.to_string(),
            text(&check.table),
            text(&check.row),
            check.verdict.words().to_string(),
            text(&check.value),
            text(&check.limit),
            text(&check.margin),
            exact(check.margin_si),
            text(&check.reason),
        ];
        put(&mut writer, fields.iter().map(String::as_str))?;
    }
    for one in &outcome.confirmations {
        let mut fields = vec![String::new(); 11];
        fields[0].clone_from(&one.stage);
        fields[1].clone_from(&one.label);
        fields[2] = "confirm".to_string();
        fields[5] = one.verdict.words().to_string();
        put(&mut writer, fields.iter().map(String::as_str))?;
    }
    writer.into_inner().map_err(|error| error.into_error())
}

fn stages(outcome: &Outcome) -> io::Result<Vec<u8>> {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    writer.write_record(["stage", "verdict", "waiting_for", "blocked_by"])?;
    for stage in &outcome.stages {
        let (waiting, blocked) = (stage.waiting_for.join("; "), stage.blocked_by.join("; "));
        put(&mut writer, [stage.name.as_str(), stage.verdict.words(), &waiting, &blocked].into_iter())?;
    }
    writer.into_inner().map_err(|error| error.into_error())
}

/// A table as it is shown, units in `[…]` of the header, so that a sheet can read it again.
fn table(table: &TableOutcome) -> io::Result<Vec<u8>> {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    let heads: Vec<String> = table.columns.iter().map(header).collect();
    put(&mut writer, heads.iter().map(String::as_str))?;
    let rows = table.columns.iter().map(|column| column.text.len()).max().unwrap_or(0);
    for row in 0..rows {
        put(&mut writer, table.columns.iter().map(|column| column.text.get(row).map_or("", String::as_str)))?;
    }
    writer.into_inner().map_err(|error| error.into_error())
}

fn header(column: &ColumnOutcome) -> String {
    if column.unit.is_empty() { column.name.clone() } else { format!("{} [{}]", column.name, column.unit) }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::host::read_table;
    use crate::report::sample;

    #[test]
    fn no_field_is_a_formula_and_texts_come_back_as_they_were() {
        let outcome = sample::hostile();
        let written = table(&outcome.tables[0]).unwrap();
        let mut fields = Vec::new();
        for bytes in [&written, &checks(&outcome).unwrap(), &stages(&outcome).unwrap()] {
            let mut reader =
                ::csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(bytes.as_slice());
            for record in reader.records() {
                fields.extend(record.unwrap().iter().map(str::to_string));
            }
        }
        assert!(fields.len() > 60);
        for field in &fields {
            let number = field.parse::<f64>().is_ok();
            assert!(number || !field.starts_with(['=', '+', '@']) && !field.starts_with("-2"), "{field:?}");
        }
        let read = read_table(String::new(), "t.csv", written).unwrap();
        let found: Vec<&str> = read.rows.iter().map(|row| row.fields[0].as_str()).collect();
        let expected: Vec<String> =
            sample::HOSTILE.iter().map(|text| crate::words::visible(text).trim().to_string()).collect();
        assert_eq!(found, expected);
    }
}
