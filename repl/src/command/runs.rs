//! Every sheet with every row of settings, one outcome after another.

use dewline_lang::diagnostic::Diagnostic;
use dewline_lang::host::Document;
use dewline_lang::job::{self, Job, Settings};
use dewline_lang::library::Library;
use dewline_lang::outcome::Outcome;
use dewline_lang::source::Sources;
use sha2::{Digest, Sha256};

use super::worse;
use crate::console::Console;
use crate::draw::draw;
use crate::host::FolderHost;
use crate::problem::{Problem, Stop};
use crate::progress::Progress;
use crate::report::unusable;
use crate::settings::{RunSettings, refused};

/// What is done with each outcome; the text names the row of settings.
type Report<'a> = dyn FnMut(&str, &Outcome) -> Result<(), Stop> + 'a;

/// Runs them all; the exit code is that of the worst.
pub fn each(
    sheets: &[String],
    runs: &[RunSettings],
    console: &mut Console<'_>,
    report: &mut Report<'_>,
) -> Result<u8, Stop> {
    let library = dewline_stdlib::library();
    let progress = Progress::new(sheets.len() * runs.len(), console.err_terminal);
    let mut round = Round { library: &library, console, report, progress, worst: 0 };
    for sheet in sheets {
        match round.sheet(sheet, runs) {
            // Nobody reads on; what was found so far is still the answer.
            Err(Stop::OutputClosed) => return Ok(round.worst),
            done => done?,
        }
    }
    Ok(round.worst)
}

struct Round<'a, 'c> {
    library: &'a Library,
    console: &'a mut Console<'c>,
    report: &'a mut Report<'a>,
    progress: Progress,
    worst: u8,
}

impl Round<'_, '_> {
    fn sheet(&mut self, sheet: &str, runs: &[RunSettings]) -> Result<(), Stop> {
        let (host, document) = match FolderHost::open(sheet, &mut self.console.input) {
            Ok(opened) => opened,
            Err(problem) => {
                self.say(&Problem::from(problem).text());
                self.count(2, runs.len());
                return Ok(());
            }
        };
        let checked = job::check(self.library, &host, &document.name, &document.text);
        self.draw(&checked.sources, &checked.diagnostics);
        let Some(job) = &checked.job else {
            self.count(2, runs.len());
            return self.hand_on("", unusable(&document, &checked.sources, &checked.diagnostics), &document);
        };
        for settings in runs {
            self.one(job, &host, &document, settings)?;
        }
        Ok(())
    }

    /// One run with one row of settings.
    fn one(&mut self, job: &Job, host: &FolderHost, document: &Document, settings: &RunSettings) -> Result<(), Stop> {
        let values = Settings { values: settings.values.clone() };
        let run = job.run(self.library, host, &values);
        self.draw(&run.sources, &run.diagnostics);
        let outcome = match refused(&run.diagnostics) {
            true => unusable(document, &run.sources, &run.diagnostics),
            false => run.outcome,
        };
        self.count(outcome.verdict.exit_code(), 1);
        self.hand_on(&settings.name, outcome, document)
    }

    fn hand_on(&mut self, run: &str, mut outcome: Outcome, document: &Document) -> Result<(), Stop> {
        outcome.sheet.sha256 = fingerprint(&document.text);
        let report = &mut self.report;
        let mut done = Ok(());
        self.progress.aside(|| done = report(run, &outcome));
        done
    }

    fn count(&mut self, code: u8, runs: usize) {
        self.worst = worse(self.worst, code);
        self.progress.step(runs);
    }

    fn draw(&mut self, sources: &Sources, diagnostics: &[Diagnostic]) {
        if !diagnostics.is_empty() {
            let text = draw(sources, diagnostics, self.console.err_paint);
            self.say(&text);
        }
    }

    fn say(&mut self, text: &str) {
        let console = &mut *self.console;
        self.progress.aside(|| console.say(text));
    }
}

/// SHA-256 in hexadecimal.
fn fingerprint(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect()
}
