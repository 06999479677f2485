//! The outcome as CSV: the cells in one stream, or everything in a folder with one file a table.

use std::io::{self, Write};
use std::path::Path;

use dewline_lang::outcome::{ColumnOutcome, Outcome, Role, Shown, TableOutcome};

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
        writer.write_record(run.map(|_| "run").into_iter().chain(columns))?;
    }
    for cell in &outcome.cells {
        let (number, unit, shown) = match &cell.shown {
            Some(shown) => (shown_number(shown), shown.unit.as_str(), shown.text.as_str()),
            None => (String::new(), "", ""),
        };
        let state = match (cell.broken, cell.pending) {
            (true, _) => "broken",
            (false, true) => "pending",
            _ if cell.shown.is_none() => "absent",
            _ => "known",
        };
        let si = self::number(cell.si);
        let stated = |text: &Option<String>| text.clone().unwrap_or_default();
        let (plus_minus, by) = (stated(&cell.stated.uncertainty), stated(&cell.stated.by));
        let (at, note) = (stated(&cell.stated.at), stated(&cell.stated.note));
        let fields = [
            outcome.sheet.path.as_str(),
            outcome.verdict.words(),
            &cell.stage,
            &cell.name,
            role(cell.role),
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
        writer.write_record(run.into_iter().chain(fields))?;
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
        writer.write_record([
            check.stage.clone(),
            check.label.clone(),
            check.level.to_string(),
            text(&check.table),
            text(&check.row),
            check.verdict.words().to_string(),
            text(&check.value),
            text(&check.limit),
            text(&check.margin),
            number(check.margin_si),
            text(&check.reason),
        ])?;
    }
    for one in &outcome.confirmations {
        let mut fields = vec![String::new(); 11];
        fields[0].clone_from(&one.stage);
        fields[1].clone_from(&one.label);
        fields[2] = "confirm".to_string();
        fields[5] = one.verdict.words().to_string();
        writer.write_record(&fields)?;
    }
    writer.into_inner().map_err(|error| error.into_error())
}

fn stages(outcome: &Outcome) -> io::Result<Vec<u8>> {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    writer.write_record(["stage", "verdict", "waiting_for", "blocked_by"])?;
    for stage in &outcome.stages {
        writer.write_record([
            stage.name.as_str(),
            stage.verdict.words(),
            &stage.waiting_for.join("; "),
            &stage.blocked_by.join("; "),
        ])?;
    }
    writer.into_inner().map_err(|error| error.into_error())
}

/// A table as it is shown, units in `[…]` of the header, so that a sheet can read it again.
fn table(table: &TableOutcome) -> io::Result<Vec<u8>> {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    writer.write_record(table.columns.iter().map(header))?;
    let rows = table.columns.iter().map(|column| column.text.len()).max().unwrap_or(0);
    for row in 0..rows {
        writer.write_record(table.columns.iter().map(|column| column.text.get(row).map_or("", String::as_str)))?;
    }
    writer.into_inner().map_err(|error| error.into_error())
}

fn header(column: &ColumnOutcome) -> String {
    if column.unit.is_empty() { column.name.clone() } else { format!("{} [{}]", column.name, column.unit) }
}

fn role(role: Role) -> &'static str {
    match role {
        Role::Input => "input",
        Role::Reading => "reading",
        Role::Cell => "cell",
    }
}

/// The number as printed, so that 210 ft is not 210.00000000000003; its SI value beside it is exact.
fn shown_number(shown: &Shown) -> String {
    let printed = shown.text.split(' ').next().unwrap_or("");
    match shown.number {
        Some(_) if printed.parse::<f64>().is_ok() => printed.to_string(),
        other => number(other),
    }
}

/// The shortest text that reads back to the same bits.
fn number(number: Option<f64>) -> String {
    number.map_or_else(String::new, |number| format!("{number:?}"))
}
