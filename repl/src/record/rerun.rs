//! Runs a job from what is embedded. Records of one sheet share its checked plan.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};

use dewline_lang::diagnostic::{Diagnostic, Severity};
use dewline_lang::job::{self, Job, Settings};
use dewline_lang::library::Library;
use dewline_lang::outcome::Outcome;
use dewline_lang::source::Sources;

use super::content::{JobPart, Site};
use super::host::RecordHost;
use crate::host::{identify, read_text};
use crate::settings::refused;

/// Plans kept at once; records of more sheets than that are rare, and a plan is made anew in milliseconds.
const PLANS: usize = 64;

/// Runs jobs out of records.
pub struct Rerunner {
    /// The functions that sheets may call.
    pub library: Library,
    plans: Mutex<HashMap<String, Arc<Planned>>>,
}

/// A sheet that was checked.
struct Planned {
    /// The plan, or what is wrong with the sheet.
    job: Result<Job, String>,
}

/// What came of a job.
pub struct Ran {
    /// The outcome.
    pub outcome: Outcome,
    /// The air around it.
    pub site: Site,
}

impl Rerunner {
    /// With all of the trade's functions.
    pub fn new() -> Rerunner {
        Rerunner { library: dewline_stdlib::library(), plans: Mutex::new(HashMap::new()) }
    }

    /// Runs a job; `Err` says why it cannot be run.
    pub fn run(&self, part: &JobPart, host: &RecordHost) -> Result<Ran, String> {
        let planned = self.planned(&part.sheet, host)?;
        let job = planned.job.as_ref().map_err(Clone::clone)?;
        let run = job.run(&self.library, host, &Settings { values: part.values() });
        if refused(&run.diagnostics) {
            let first = first_error(&run.sources, &run.diagnostics);
            return Err(format!("a value that was set cannot be used: {first}"));
        }
        let site = Site::from(run.site());
        let mut outcome = run.outcome;
        identify(&mut outcome, &run.sources);
        Ok(Ran { outcome, site })
    }

    fn planned(&self, sheet: &str, host: &RecordHost) -> Result<Arc<Planned>, String> {
        let key = host.plan_key(sheet);
        // What a thread that failed left behind is whole: entries are put in whole.
        if let Some(known) = self.plans.lock().unwrap_or_else(PoisonError::into_inner).get(&key) {
            return Ok(known.clone());
        }
        let bytes = host.bytes(sheet).ok_or_else(|| format!("it does not hold its sheet \"{sheet}\""))?;
        let text = read_text(sheet, bytes.to_vec(), true).map_err(|problem| problem.message)?;
        let checked = job::check(&self.library, host, sheet, &text);
        let (sources, diagnostics) = (&checked.sources, &checked.diagnostics);
        let job = checked.job.ok_or_else(|| {
            let first = first_error(sources, diagnostics);
            format!("the sheet is not understood by this version: {first}")
        });
        let planned = Arc::new(Planned { job });
        let mut plans = self.plans.lock().unwrap_or_else(PoisonError::into_inner);
        if plans.len() >= PLANS {
            plans.clear();
        }
        plans.insert(key, planned.clone());
        Ok(planned)
    }
}

/// The first error with its place.
fn first_error(sources: &Sources, diagnostics: &[Diagnostic]) -> String {
    let Some(first) = diagnostics.iter().find(|one| one.severity == Severity::Error) else { return String::new() };
    let span = first.span();
    let name = sources.get(span.file).map_or("", |source| source.name.as_str());
    let (line, column) = sources.line_column(span.file, span.start);
    format!("{name}:{line}:{column}: {} ({})", first.message, first.code.id)
}
