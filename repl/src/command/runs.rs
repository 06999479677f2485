//! Every sheet with every row of settings, one outcome after another.

use std::sync::Mutex;

use dewline_lang::diagnostic::Diagnostic;
use dewline_lang::host::Document;
use dewline_lang::job::{self, Job, Run, Settings, Trials};
use dewline_lang::library::Library;
use dewline_lang::outcome::Outcome;
use dewline_lang::source::Sources;

use super::inputs::Inputs;
use super::worse;
use crate::console::Console;
use crate::draw::draw;
use crate::host::{Allowed, FolderHost, KeepingHost, Kept, identify};
use crate::problem::{Problem, Stop};
use crate::progress::Progress;
use crate::record::{Recorder, sha256};
use crate::report::{Beside, unusable};
use crate::settings::{RunSettings, is_about_a_name, names, refused};

/// What is done with each outcome; the text names the row of settings.
type Report<'a> = dyn FnMut(&str, &Outcome, &Beside<'_>) -> Result<(), Stop> + 'a;

/// What is wanted of runs beside their outcomes.
pub struct Asked<'a> {
    /// Takes note of every file that is read.
    pub inputs: &'a Inputs,
    /// Records each.
    pub recorder: Option<Recorder>,
    /// Runs each many times more.
    pub trials: Option<Trials>,
    /// Folders that sheets may use files of.
    pub allowed: Allowed,
}

/// Runs them all and records them if that is asked for; the exit code is that of the worst.
pub fn each(
    sheets: &[String],
    runs: &[RunSettings],
    asked: Asked<'_>,
    console: &mut Console<'_>,
    report: &mut Report<'_>,
) -> Result<u8, Stop> {
    let library = dewline_stdlib::library();
    let progress = Progress::new("runs", sheets.len() * runs.len(), console.err_terminal);
    let mut round = Round { library: &library, asked, console, report, progress, worst: 0 };
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
    asked: Asked<'a>,
    console: &'a mut Console<'c>,
    report: &'a mut Report<'a>,
    progress: Progress,
    worst: u8,
}

impl Round<'_, '_> {
    fn sheet(&mut self, sheet: &str, runs: &[RunSettings]) -> Result<(), Stop> {
        let (host, document) = match FolderHost::open(sheet, &mut self.console.input) {
            Ok((host, document)) => (host.allowing(&self.asked.allowed), document),
            Err(problem) => {
                self.say(&Problem::from(problem).text());
                self.count(2, runs.len());
                return Ok(());
            }
        };
        let keeping = KeepingHost::new(&host, Kept::of_sheet(&document));
        let checked = job::check(self.library, &keeping, &document.name, &document.text);
        let kept = keeping.into_kept();
        self.asked.inputs.add(&host, &kept);
        self.draw(&checked.sources, &checked.diagnostics);
        let Some(job) = &checked.job else {
            self.count(2, runs.len());
            if self.asked.recorder.is_some() {
                self.say(&Problem::new("no record was written: the sheet could not be run").text());
            }
            let mut outcome = unusable(&document, &checked.sources, &checked.diagnostics);
            outcome.sheet.sha256 = sha256(document.text.as_bytes());
            return self.hand_on("", &outcome, &Beside::NOTHING);
        };
        if runs.len() > 1 && self.refuses_a_name(job, &host, &kept, &document, runs)? {
            return Ok(());
        }
        for settings in runs {
            self.one(job, &host, &kept, &document, settings)?;
        }
        Ok(())
    }

    /// Whether a name that rows set is not to be set, such as a misspelt column: that is told once, and no row is run.
    fn refuses_a_name(
        &mut self,
        job: &Job,
        host: &FolderHost,
        kept: &Kept,
        document: &Document,
        runs: &[RunSettings],
    ) -> Result<bool, Stop> {
        let keeping = KeepingHost::new(host, kept.clone());
        let run = job.run(self.library, &keeping, &Settings { values: names(runs) });
        let wrong: Vec<Diagnostic> = run.diagnostics.into_iter().filter(is_about_a_name).collect();
        if wrong.is_empty() {
            return Ok(false);
        }
        self.draw(&run.sources, &wrong);
        self.count(2, runs.len());
        let mut outcome = unusable(document, &run.sources, &wrong);
        outcome.sheet.sha256 = sha256(document.text.as_bytes());
        self.hand_on(&format!("{} rows, none of them run", runs.len()), &outcome, &Beside::NOTHING)?;
        Ok(true)
    }

    /// One run with one row of settings. `kept` are the files that the check has read.
    fn one(
        &mut self,
        job: &Job,
        host: &FolderHost,
        kept: &Kept,
        document: &Document,
        settings: &RunSettings,
    ) -> Result<(), Stop> {
        let values = Settings { values: settings.values.clone() };
        let keeping = KeepingHost::new(host, kept.clone());
        let mut run = job.run(self.library, &keeping, &values);
        self.draw(&run.sources, &run.diagnostics);
        let usable = !refused(&run.diagnostics);
        if !usable {
            run.outcome = unusable(document, &run.sources, &run.diagnostics);
        }
        identify(&mut run.outcome, &run.sources);
        self.count(run.outcome.verdict.exit_code(), 1);
        let kept = keeping.into_kept();
        self.asked.inputs.add(host, &kept);
        let recorded = usable.then(|| self.record(kept, host, document, settings, &run.outcome));
        // Trials are told beside a run and are no part of its record.
        if usable {
            self.trials(&mut run);
        }
        let digest = recorded.flatten();
        let beside = Beside { offers: &|| run.offers(), digest: digest.as_deref() };
        self.hand_on(&settings.shown(), &run.outcome, &beside)
    }

    /// Writes the record if one is asked for, and gives its digest. A record that cannot be written stops neither the
    /// report nor other runs.
    fn record(
        &mut self,
        kept: Kept,
        host: &FolderHost,
        document: &Document,
        settings: &RunSettings,
        outcome: &Outcome,
    ) -> Option<String> {
        let recorder = self.asked.recorder.as_mut()?;
        match recorder.record(kept, host.prefix(), document, settings, outcome) {
            Ok(digest) => Some(digest),
            Err(problem) => {
                self.say(&problem.text());
                self.count(2, 0);
                None
            }
        }
    }

    /// Runs it again as often as is asked for.
    fn trials(&self, run: &mut Run) {
        let Some(trials) = self.asked.trials else { return };
        let progress = Mutex::new(Progress::new("trials", trials.count, self.console.err_terminal));
        run.trials(trials, &|done| {
            if let Ok(mut progress) = progress.lock() {
                progress.step(done);
            }
        });
    }

    fn hand_on(&mut self, run: &str, outcome: &Outcome, beside: &Beside<'_>) -> Result<(), Stop> {
        let report = &mut self.report;
        let mut done = Ok(());
        self.progress.aside(|| done = report(run, outcome, beside));
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
