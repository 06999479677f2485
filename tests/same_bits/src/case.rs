//! A sheet with all that its host would give, and a host that keeps what another gives.

use std::cell::RefCell;

use dewline_lang::host::{Document, Host, HostProblem, RawRow, RawTable};
use serde::{Deserialize, Serialize};

/// One sheet to be run.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Case {
    /// How its digest is called.
    pub name: String,
    /// The name of the sheet.
    pub sheet: String,
    /// Its text.
    pub text: String,
    /// What is set from outside.
    pub settings: Vec<(String, String)>,
    /// Sheets it asks for.
    pub sheets: Vec<Answer<String>>,
    /// Tables it asks for.
    pub tables: Vec<Answer<Rows>>,
}

/// What a host gives for a path in a file.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Answer<T> {
    /// The file that asks.
    pub from: String,
    /// For this path.
    pub path: String,
    /// The name of the file, and what is in it; or the message and the mend.
    pub given: Result<(String, T), (String, Option<String>)>,
}

/// A table as read.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Rows {
    /// Column names.
    pub headers: Vec<String>,
    /// The line they stand on.
    pub header_line: u64,
    /// Lines and fields.
    pub rows: Vec<(u64, Vec<String>)>,
}

impl<T: Clone> Answer<T> {
    fn find(answers: &[Answer<T>], from: &str, path: &str) -> Result<(String, T), HostProblem> {
        let found = answers.iter().find(|answer| answer.from == from && answer.path == path);
        let given = found.map(|answer| answer.given.clone());
        given
            .unwrap_or_else(|| Err((format!("nobody asked for \"{path}\" before"), None)))
            .map_err(|(message, mend)| HostProblem { message, mend })
    }
}

impl Host for Case {
    fn sheet(&self, from: &str, path: &str) -> Result<Document, HostProblem> {
        Answer::find(&self.sheets, from, path).map(|(name, text)| Document { name, text })
    }

    fn table(&self, from: &str, path: &str) -> Result<RawTable, HostProblem> {
        let (name, Rows { headers, header_line, rows }) = Answer::find(&self.tables, from, path)?;
        let rows = rows.into_iter().map(|(line, fields)| RawRow { line, fields }).collect();
        Ok(RawTable { name, headers, header_line, rows, ..RawTable::default() })
    }
}

/// Gives what another host gives, and keeps it in a case.
pub struct Keeping<'a> {
    host: &'a dyn Host,
    case: RefCell<Case>,
}

impl<'a> Keeping<'a> {
    /// Begins with a case that has no answers yet.
    pub fn new(host: &'a dyn Host, case: Case) -> Keeping<'a> {
        Keeping { host, case: RefCell::new(case) }
    }

    /// The case with all answers.
    pub fn into_case(self) -> Case {
        self.case.into_inner()
    }
}

impl Host for Keeping<'_> {
    fn sheet(&self, from: &str, path: &str) -> Result<Document, HostProblem> {
        let found = self.host.sheet(from, path);
        let given = found.clone().map(|document| (document.name, document.text));
        self.case.borrow_mut().sheets.push(answer(from, path, given));
        found
    }

    fn table(&self, from: &str, path: &str) -> Result<RawTable, HostProblem> {
        let found = self.host.table(from, path);
        let given = found.clone().map(|table| {
            let rows = table.rows.into_iter().map(|row| (row.line, row.fields)).collect();
            (table.name, Rows { headers: table.headers, header_line: table.header_line, rows })
        });
        self.case.borrow_mut().tables.push(answer(from, path, given));
        found
    }
}

fn answer<T>(from: &str, path: &str, given: Result<(String, T), HostProblem>) -> Answer<T> {
    let given = given.map_err(|problem| (problem.message, problem.mend));
    Answer { from: from.to_string(), path: path.to_string(), given }
}
