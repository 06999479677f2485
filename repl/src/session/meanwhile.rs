//! Data files that somebody else writes while a session is open.

use dewline_lang::host::RawTable;

use super::{Field, Session};
use crate::host::{read_table, refill};
use crate::problem::Problem;
use crate::words::plain;

/// The fields that were typed, put into their files as these stand now.
#[derive(Default)]
pub struct Merged {
    /// Files with their new texts.
    pub files: Vec<(String, String)>,
    /// Fields that no longer stand on their rows, with the reason.
    pub adrift: Vec<(Field, String)>,
}

impl Session {
    /// Reads the data of the sheet again if a file was changed since it was read last, and says so.
    pub(super) fn read_anew(&mut self, path: &str) -> Option<String> {
        let now = self.host.table(&self.sheet.name, path).ok()?;
        if !self.sheet.seen.is_changed(path, &now) {
            return None;
        }
        self.become_work(self.sheet.work.clone());
        Some(format!("\"{}\" was changed by someone else meanwhile and was read anew.\n", plain(path)))
    }

    /// Puts what was typed into the files as they stand.
    pub(super) fn merged(&self, fields: &[Field]) -> Result<Merged, Problem> {
        let mut merged = Merged::default();
        let mut files: Vec<&str> = fields.iter().map(|field| field.file.as_str()).collect();
        files.sort_unstable();
        files.dedup();
        for file in files {
            let text = self.desk.data(file)?;
            let raw = read_table(file.to_string(), file, text.clone().into_bytes())?;
            let mut values = Vec::new();
            for field in fields.iter().filter(|field| field.file == file) {
                match field.place(&raw) {
                    Ok((row, column)) => values.push((line_of(&raw, row), column, field.value.as_str())),
                    Err(why) => merged.adrift.push((field.clone(), why)),
                }
            }
            if !values.is_empty() {
                merged.files.push((file.to_string(), refill(&text, &values)));
            }
        }
        Ok(merged)
    }

    /// A line a field: what would be put into data files, and what no longer stands on its row.
    pub fn field_lines(&self, fields: &[Field]) -> String {
        // A file that cannot be read is told when it is to be written.
        let adrift = self.merged(fields).map(|merged| merged.adrift).unwrap_or_default();
        let stands = fields.iter().filter(|field| adrift.iter().all(|(other, _)| other != *field));
        let mut out: String = stands.map(|field| format!("  + {}\n", plain(&field.shown()))).collect();
        out.push_str(&adrift_lines(&adrift));
        out
    }
}

/// A line a field that no longer stands on its row.
pub fn adrift_lines(adrift: &[(Field, String)]) -> String {
    adrift.iter().map(|(field, why)| format!("  ! {}: {}\n", plain(&field.shown()), plain(why))).collect()
}

fn line_of(raw: &RawTable, row: usize) -> u64 {
    raw.rows.get(row).map_or(0, |row| row.line)
}
