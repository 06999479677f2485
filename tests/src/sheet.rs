//! Short ways to check and run a sheet in a test.

use std::collections::BTreeMap;

use dewline_lang::host::{Document, Host, HostProblem, RawTable};
use dewline_lang::job::{self, Settings};
use dewline_lang::library::Library;
use dewline_lang::outcome::Outcome;

/// A host that holds sheets by name and no tables.
#[derive(Debug, Default)]
pub struct Shelf(pub BTreeMap<String, String>);

impl Host for Shelf {
    fn sheet(&self, _from: &str, path: &str) -> Result<Document, HostProblem> {
        let text = self.0.get(path).ok_or_else(|| not_here(path))?;
        Ok(Document { name: path.to_string(), text: text.clone() })
    }

    fn table(&self, _from: &str, path: &str) -> Result<RawTable, HostProblem> {
        Err(not_here(path))
    }
}

fn not_here(path: &str) -> HostProblem {
    HostProblem { message: format!("there is no file \"{path}\""), mend: None }
}

/// Runs a sheet that can be run; what breaks while running is in the outcome.
pub fn run(library: &Library, text: &str) -> Outcome {
    try_run(library, text).unwrap_or_else(|told| panic!("the sheet does not run: {told:?}\n{text}"))
}

/// Runs a sheet, or gives the messages that keep it from running.
pub fn try_run(library: &Library, text: &str) -> Result<Outcome, Vec<String>> {
    let host = Shelf::default();
    let checked = job::check(library, &host, "test.dew", text);
    match checked.job {
        Some(job) => Ok(job.run(library, &host, &Settings { values: Vec::new() }).outcome),
        None => Err(checked.diagnostics.iter().map(|one| format!("{} {}", one.code.id, one.message)).collect()),
    }
}

/// All messages of a sheet, from checking it or from running it.
pub fn errors(library: &Library, text: &str) -> Vec<String> {
    match try_run(library, text) {
        Ok(outcome) => outcome.errors.iter().map(|one| format!("{} {}", one.code, one.message)).collect(),
        Err(told) => told,
    }
}

/// A cell as shown; `pending` or `broken` if it has no value.
pub fn cell(outcome: &Outcome, name: &str) -> String {
    let Some(cell) = outcome.cells.iter().find(|cell| cell.name == name) else {
        panic!("no cell `{name}` among {:?}", outcome.cells.iter().map(|cell| &cell.name).collect::<Vec<_>>());
    };
    match &cell.shown {
        Some(shown) => shown.text.clone(),
        None if cell.broken => "broken".to_string(),
        None => "pending".to_string(),
    }
}

/// A cell in SI.
pub fn si(outcome: &Outcome, name: &str) -> f64 {
    outcome.cells.iter().find(|cell| cell.name == name).and_then(|cell| cell.si).unwrap_or(f64::NAN)
}
