//! The outcome as a workbook: a summary, all values, all checks, what trials say, and a sheet for each table.
//!
//! Numbers are written as numbers, as many figures as the report shows, with their unit in the head of the column or
//! beside them. Texts are written as texts, whatever they begin with. The same outcome gives the same bytes: the day
//! that a workbook says it was made on is fixed.

mod names;
mod sheet;
mod summary;
mod tables;

#[cfg(test)]
mod tests;

use std::io;

use dewline_lang::outcome::Outcome;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Workbook, Worksheet, XlsxError};

use super::size;
use names::Names;

/// Sheets of tables in one workbook; of more, a folder of csv holds all.
const TABLES: usize = 200;

/// Values of tables in one workbook, which is made in memory.
const VALUES: usize = 2_000_000;

/// The sheets of values and of checks by trials.
const TRIALS: [&str; 2] = ["Trials", "Trials of checks"];

/// A workbook in the making.
pub(super) struct Book {
    sheets: Vec<Worksheet>,
    names: Names,
    written: usize,
    /// Values of tables so far.
    held: usize,
    tables: usize,
    values: sheet::Sheet,
    checks: sheet::Sheet,
    /// Values and checks by trials, once an outcome has any.
    trials: Option<[sheet::Sheet; 2]>,
    summary: sheet::Sheet,
}

impl Book {
    /// An empty one.
    pub fn new() -> Book {
        let names = Names::taking(&["Summary", "Values", "Checks", TRIALS[0], TRIALS[1]]);
        let (values, checks) = (sheet::Sheet::named("Values"), sheet::Sheet::named("Checks"));
        let summary = sheet::Sheet::named("Summary");
        Book { sheets: Vec::new(), names, written: 0, held: 0, tables: 0, values, checks, trials: None, summary }
    }

    /// Adds an outcome; `run` names the row of settings it belongs to, if there are several.
    pub fn add(&mut self, run: Option<&str>, outcome: &Outcome, digest: Option<&str>) -> io::Result<()> {
        self.held += size::values(outcome);
        if self.held > VALUES {
            let message =
                format!("the tables have more than the {VALUES} values that a workbook may have; csv holds them");
            return Err(io::Error::other(message));
        }
        let first = self.written == 0;
        self.written += 1;
        tables::values(&mut self.values, run, outcome, first);
        tables::checks(&mut self.checks, run, outcome, first);
        if let Some(trials) = &outcome.trials {
            let first = self.trials.is_none();
            let [values, checks] = self.trials.get_or_insert_with(|| TRIALS.map(sheet::Sheet::named));
            tables::trial_values(values, run, trials, first);
            tables::trial_checks(checks, run, trials, first);
        }
        let mut sheets = Vec::new();
        for table in &outcome.tables {
            let name = match run {
                Some(_) => format!("{} {}", self.written, table.name),
                None => table.name.clone(),
            };
            self.tables += 1;
            if self.tables > TABLES {
                sheets.push((table.name.clone(), None));
                continue;
            }
            let name = self.names.free(&name);
            let mut sheet = sheet::Sheet::named(&name);
            let whole = tables::table(&mut sheet, outcome, table);
            self.sheets.push(sheet.finished());
            sheets.push((table.name.clone(), Some((name, whole))));
        }
        summary::add(&mut self.summary, run, outcome, digest, &sheets);
        Ok(())
    }

    /// The bytes of the workbook.
    pub fn finish(self) -> io::Result<Vec<u8>> {
        let mut book = Workbook::new();
        book.set_properties(&DocProperties::new().set_creation_datetime(&fixed_day().map_err(refused)?));
        let first = [self.summary, self.values, self.checks].into_iter();
        let lists = first.chain(self.trials.into_iter().flatten()).map(sheet::Sheet::finished);
        for sheet in lists.chain(self.sheets) {
            book.push_worksheet(sheet);
        }
        book.save_to_buffer().map_err(refused)
    }
}

/// No clock gets into a result; this is the day from which dates in a zip archive count.
fn fixed_day() -> Result<ExcelDateTime, XlsxError> {
    ExcelDateTime::from_ymd(1980, 1, 1)
}

fn refused(error: XlsxError) -> io::Error {
    io::Error::other(error.to_string())
}
