//! What is worked on: the text of a sheet, and fields of its data files that were filled in.

use dewline_lang::host::{Document, Host, HostProblem, RawTable};
use serde_json::{Value, json};

/// Everything that a session can lose.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Work {
    /// The text of the sheet.
    pub text: String,
    /// Fields of data files, in the order of filling in.
    pub fields: Vec<Field>,
}

/// A field of a data file with its new value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Field {
    /// The file, by the name the host knows it by.
    pub file: String,
    /// Its line, from 1.
    pub line: u64,
    /// Its column, from 0.
    pub column: usize,
    /// What stands there now.
    pub value: String,
}

impl Field {
    /// For the journal.
    pub fn to_json(&self) -> Value {
        json!({"file": self.file, "line": self.line, "column": self.column, "value": self.value})
    }

    /// From the journal.
    pub fn of_json(value: &Value) -> Option<Field> {
        Some(Field {
            file: value.get("file")?.as_str()?.to_string(),
            line: value.get("line")?.as_u64()?,
            column: usize::try_from(value.get("column")?.as_u64()?).ok()?,
            value: value.get("value")?.as_str()?.to_string(),
        })
    }
}

/// Files with the fields that were filled in.
pub struct Filled<'a> {
    /// The files as they stand.
    pub host: &'a dyn Host,
    /// What was filled in.
    pub fields: &'a [Field],
}

impl Host for Filled<'_> {
    fn sheet(&self, from: &str, path: &str) -> Result<Document, HostProblem> {
        self.host.sheet(from, path)
    }

    fn table(&self, from: &str, path: &str) -> Result<RawTable, HostProblem> {
        let mut table = self.host.table(from, path)?;
        for field in self.fields.iter().filter(|field| field.file == table.name) {
            let row = table.rows.iter_mut().find(|row| row.line == field.line);
            if let Some(there) = row.and_then(|row| row.fields.get_mut(field.column)) {
                there.clone_from(&field.value);
            }
        }
        Ok(table)
    }
}
