//! The outcome as CSV: the cells in one stream, or everything in a folder with one file a table.

use std::io::{self, Write};
use std::path::Path;

use dewline_lang::outcome::{Outcome, TableOutcome};

use super::lists::{self, Datum};
use super::summary::exact;
use crate::formula::guarded;
use crate::output::write_file;
use crate::problem::{Problem, said};

/// The cells, one a line. With `run`, a first column names the run.
pub(super) fn write_cells(out: &mut dyn Write, run: Option<&str>, outcome: &Outcome, head: bool) -> io::Result<()> {
    let mut writer = ::csv::Writer::from_writer(out);
    if head {
        put(&mut writer, run.map(|_| "run").into_iter().chain(["sheet", "verdict"]).chain(lists::VALUES))?;
    }
    for cell in &outcome.cells {
        let fields = lists::value(cell).map(written);
        let before = run.into_iter().chain([outcome.sheet.path.as_str(), outcome.verdict.words()]);
        put(&mut writer, before.chain(fields.iter().map(String::as_str)))?;
    }
    writer.flush()
}

/// Everything in a folder: `cells.csv`, `checks.csv`, `stages.csv`, `outside.csv`, a file for each table, and what trials
/// say. `spare` refuses a place that is not to be written over; then nothing is written.
pub fn write_folder(
    folder: &Path,
    outcome: &Outcome,
    spare: &dyn Fn(&Path) -> Result<(), Problem>,
) -> Result<(), Problem> {
    std::fs::create_dir_all(folder).map_err(|error| {
        Problem::new(format!("the folder \"{}\" cannot be made: {}", folder.display(), said(&error)))
    })?;
    let refused = |error: io::Error| Problem::new(format!("the tables cannot be written: {}", said(&error)));
    let mut cells = Vec::new();
    write_cells(&mut cells, None, outcome, true).map_err(refused)?;
    let mut files = vec![
        ("cells.csv".to_string(), Ok(cells)),
        ("checks.csv".to_string(), checks(outcome)),
        ("stages.csv".to_string(), stages(outcome)),
        ("outside.csv".to_string(), list(lists::OUTSIDE, lists::outside(outcome).into_iter())),
    ];
    if let Some(trials) = &outcome.trials {
        let values =
            list(lists::TRIAL_VALUES, trials.values.iter().map(|value| lists::trial_value(value, trials.count)));
        let checks = list(lists::TRIAL_CHECKS, trials.checks.iter().map(lists::trial_check));
        files.extend([("trials.csv".to_string(), values), ("trials-checks.csv".to_string(), checks)]);
    }
    files.extend(outcome.tables.iter().map(|one| (table_file(&one.name), table(one))));
    files.iter().try_for_each(|(name, _)| spare(&folder.join(name)))?;
    for (name, bytes) in files {
        write_file(&folder.join(name), &bytes.map_err(refused)?)?;
    }
    Ok(())
}

/// A list with its heads.
fn list<const N: usize>(heads: [&str; N], lines: impl Iterator<Item = [Datum; N]>) -> io::Result<Vec<u8>> {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    put(&mut writer, heads.into_iter())?;
    for line in lines {
        let fields = line.map(written);
        put(&mut writer, fields.iter().map(String::as_str))?;
    }
    writer.into_inner().map_err(|error| error.into_error())
}

fn written(field: Datum) -> String {
    match field {
        Datum::Text(text) | Datum::Printed(text) => text,
        Datum::Exact(number) => exact(number),
    }
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
    let confirmations = outcome.confirmations.iter().map(lists::confirmation);
    list(lists::CHECKS, outcome.checks.iter().map(lists::check).chain(confirmations))
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

/// A table as it is shown.
fn table(table: &TableOutcome) -> io::Result<Vec<u8>> {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    let columns = lists::columns(table);
    put(&mut writer, columns.iter().map(|column| column.head.as_str()))?;
    let rows = table.columns.iter().map(|column| column.text.len()).max().unwrap_or(0);
    for row in 0..rows {
        let fields: Vec<String> = columns.iter().map(|column| written(column.field(row))).collect();
        put(&mut writer, fields.iter().map(String::as_str))?;
    }
    writer.into_inner().map_err(|error| error.into_error())
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
