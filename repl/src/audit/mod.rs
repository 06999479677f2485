//! Audits: records run again, and held against what they say.

mod change;
mod compare;
mod numbers;
mod pairs;
mod print;
mod walk;

pub use change::{Change, What};
pub use print::{Printer, Style};
pub use walk::records;

use std::collections::HashSet;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;

use serde::Serialize;
use serde_json::Value;

use crate::host::{Allowed, read_file};
use crate::problem::Problem;
use crate::record::{
    MadeBy, Opened, RECORD_BYTES, Ran, RecordHost, Rerunner, SignatureState, Trusted, canonical, gather, open,
    read_strictly,
};
use compare::{Comparison, compare};

/// Changes told of one record; the rest is counted.
const CHANGES: usize = 1_000;

/// What an audit goes by.
pub struct Auditor {
    rerunner: Rerunner,
    made_by: MadeBy,
    /// Keys whose signature counts.
    pub trusted: Trusted,
    /// The folder of the sheets as they are now.
    pub sources: Option<String>,
    /// Folders that these may use files of.
    pub allowed: Allowed,
    /// How far numbers of an older library may lie apart, relative to the larger.
    pub tolerance: Option<f64>,
}

/// How a record stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Finding {
    /// It comes to the same bits, or to the same within the tolerance.
    #[serde(rename = "same")]
    Same,
    /// It comes to something else.
    #[serde(rename = "differs")]
    Differs,
    /// It was changed after it was made.
    #[serde(rename = "tampered")]
    Tampered,
    /// It stands, but nobody trusted has signed it.
    #[serde(rename = "not trusted")]
    NotTrusted,
    /// It could not be run.
    #[serde(rename = "cannot run")]
    CannotRun,
}

impl Finding {
    /// All of them, in the order of the summary.
    pub const ALL: [Finding; 5] =
        [Finding::Same, Finding::Differs, Finding::Tampered, Finding::NotTrusted, Finding::CannotRun];

    /// In words, as in JSON.
    pub fn words(self) -> &'static str {
        match self {
            Finding::Same => "same",
            Finding::Differs => "differs",
            Finding::Tampered => "tampered",
            Finding::NotTrusted => "not trusted",
            Finding::CannotRun => "cannot run",
        }
    }

    /// The exit code it asks for.
    pub fn exit_code(self) -> u8 {
        match self {
            Finding::Same => 0,
            Finding::Differs | Finding::Tampered | Finding::NotTrusted => 1,
            Finding::CannotRun => 2,
        }
    }
}

/// What was found of one record; a line of JSON.
#[derive(Debug, Serialize)]
pub struct Report {
    /// Its file.
    pub record: String,
    /// How it stands.
    pub result: Finding,
    /// Why: what was changed, or why it cannot be run.
    pub why: Vec<String>,
    /// The title of its sheet.
    pub title: Option<String>,
    /// The verdict that it states.
    pub verdict: Option<String>,
    /// When it was run, as stated.
    pub run_at: Option<String>,
    /// Who vouches for it.
    pub signature: SignedBy,
    /// In what the program that made it was another than this one.
    pub library: Vec<String>,
    /// Sheets and data whose text on disk is another than in the record.
    pub files: Vec<FileChange>,
    /// What differs, verdicts first.
    pub changes: Vec<Change>,
    /// Changes that are not listed, of very many.
    pub changes_left_out: usize,
    /// Numbers that differ within the tolerance.
    pub within_tolerance: usize,
    /// The largest relative difference between numbers that differ.
    pub largest_difference: Option<f64>,
}

/// Who vouches for a record.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SignedBy {
    /// `missing`, `wrong`, `untrusted`, `trusted`; `unknown` where the record could not be read.
    pub state: &'static str,
    /// The beginning of the SHA-256 of the key.
    pub key: Option<String>,
}

/// A file that is not as it was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FileChange {
    /// Its name, from the sheet's folder.
    pub name: String,
    /// `changed`, `no longer used`, `used now`.
    pub state: &'static str,
}

impl Report {
    fn new(record: String) -> Report {
        Report {
            record,
            result: Finding::Same,
            why: Vec::new(),
            title: None,
            verdict: None,
            run_at: None,
            signature: SignedBy { state: "unknown", key: None },
            library: Vec::new(),
            files: Vec::new(),
            changes: Vec::new(),
            changes_left_out: 0,
            within_tolerance: 0,
            largest_difference: None,
        }
    }

    fn cannot_run(mut self, why: String) -> Report {
        // What was changed weighs more than that it cannot be run, which may come of it.
        self.result = if self.why.is_empty() { Finding::CannotRun } else { Finding::Tampered };
        self.why.push(why);
        self
    }

    fn take(&mut self, mut found: Comparison) {
        self.changes_left_out = found.changes.len().saturating_sub(CHANGES);
        found.changes.truncate(CHANGES);
        self.changes = found.changes;
        self.within_tolerance = found.within;
        self.largest_difference = found.largest;
    }
}

impl Auditor {
    /// An audit that trusts nobody and bears no difference.
    pub fn new() -> Result<Auditor, Problem> {
        let rerunner = Rerunner::new();
        let made_by = MadeBy::this(&rerunner.library)
            .map_err(|error| Problem::new(format!("the library cannot be described: {error}")))?;
        Ok(Auditor {
            rerunner,
            made_by,
            trusted: Trusted::default(),
            sources: None,
            allowed: Allowed::default(),
            tolerance: None,
        })
    }

    /// Audits one file.
    pub fn audit(&self, path: &Path) -> Report {
        let name = path.to_string_lossy().into_owned();
        let report = Report::new(name.clone());
        let bytes = match read_file(path, &name, RECORD_BYTES) {
            Ok(bytes) => bytes,
            Err(problem) => return report.cannot_run(problem.message),
        };
        // A fault of the program at one record is no reason to leave thousands unread.
        let judged = catch_unwind(AssertUnwindSafe(|| self.judge(report, bytes)));
        judged.unwrap_or_else(|_| Report::new(name).cannot_run("a fault of the program itself".to_string()))
    }

    fn judge(&self, mut report: Report, bytes: Vec<u8>) -> Report {
        let opened = match open(bytes, &self.trusted) {
            Ok(opened) => opened,
            Err(why) => return report.cannot_run(why),
        };
        report.signature = signed_by(&opened.signature);
        report.run_at = Some(opened.run_at.clone());
        report.why.clone_from(&opened.tampered);
        report.library = opened.made_by.differences(&self.made_by);
        let ran = match self.rerunner.run(&opened.job, &opened.host) {
            Ok(ran) => ran,
            Err(why) => return report.cannot_run(why),
        };
        let (title, verdict) = (ran.outcome.sheet.title.clone(), ran.outcome.verdict);
        let form = match canonical(&ran.outcome) {
            Ok(form) => form,
            Err(error) => return report.cannot_run(error.to_string()),
        };
        let same = form == opened.outcome.get() && ran.site == opened.job.site;
        if same && self.sources.is_none() {
            report.title = Some(title);
            report.verdict = Some(verdict.words().to_string());
        } else {
            let recorded = match read_strictly(opened.outcome.get()) {
                Ok(recorded) => recorded,
                Err(error) => return report.cannot_run(format!("its outcome cannot be read: {error}")),
            };
            let text = |at: &str| recorded.pointer(at).and_then(Value::as_str).map(str::to_string);
            report.title = text("/sheet/title");
            report.verdict = text("/verdict");
            if let Err(why) = self.tell_changes(&mut report, &opened, &recorded, &ran) {
                return report.cannot_run(why);
            }
        }
        report.result = self.finding(&report, &opened.signature);
        report
    }

    fn finding(&self, report: &Report, signature: &SignatureState) -> Finding {
        if !report.why.is_empty() {
            return Finding::Tampered;
        }
        if !report.changes.is_empty() || !report.files.is_empty() {
            return Finding::Differs;
        }
        match signature {
            SignatureState::Trusted(_) => Finding::Same,
            _ if self.trusted.is_empty() => Finding::Same,
            _ => Finding::NotTrusted,
        }
    }

    /// Numbers of the same library differ by no correction, so no tolerance holds for them.
    fn tolerance(&self, report: &Report) -> Option<f64> {
        self.tolerance.filter(|_| !report.library.is_empty())
    }

    fn tell_changes(&self, report: &mut Report, opened: &Opened, recorded: &Value, ran: &Ran) -> Result<(), String> {
        let tolerance = self.tolerance(report);
        let again = serde_json::to_value(&ran.outcome).map_err(|error| error.to_string())?;
        let mut found = compare(recorded, &again, tolerance);
        found.site(opened.job.site, ran.site);
        let Some(folder) = &self.sources else {
            report.take(found);
            return Ok(());
        };
        let by_library: HashSet<_> = found.changes.iter().map(Change::key).collect();
        let path = format!("{}/{}", folder.trim_end_matches('/'), opened.job.sheet);
        let (kept, _) = gather(&self.rerunner.library, &path, &self.allowed, &opened.job.values())
            .map_err(|problem| format!("the sources cannot be run: {}", problem.message))?;
        let host = RecordHost::of_kept(&kept);
        let now = self.rerunner.run(&opened.job, &host).map_err(|why| format!("the sources cannot be run: {why}"))?;
        let outcome = serde_json::to_value(&now.outcome).map_err(|error| error.to_string())?;
        let mut now_found = compare(recorded, &outcome, tolerance);
        now_found.site(opened.job.site, now.site);
        now_found.changes.retain(|change| change.what != What::SheetText);
        for change in &mut now_found.changes {
            change.by_library = by_library.contains(&change.key());
        }
        report.files = file_changes(&opened.host, &host);
        report.take(now_found);
        Ok(())
    }
}

fn signed_by(state: &SignatureState) -> SignedBy {
    let (state, key) = match state {
        SignatureState::Missing => ("missing", None),
        SignatureState::Wrong(_) => ("wrong", None),
        SignatureState::Untrusted(key) => ("untrusted", Some(key.clone())),
        SignatureState::Trusted(key) => ("trusted", Some(key.clone())),
    };
    SignedBy { state, key }
}

fn file_changes(then: &RecordHost, now: &RecordHost) -> Vec<FileChange> {
    let then: std::collections::BTreeMap<&str, &str> = then.prints().into_iter().collect();
    let now: std::collections::BTreeMap<&str, &str> = now.prints().into_iter().collect();
    let names: std::collections::BTreeSet<&str> = then.keys().chain(now.keys()).copied().collect();
    let state = |name: &str| match (then.get(name), now.get(name)) {
        (Some(old), Some(new)) => (old != new).then_some("changed"),
        (Some(_), None) => Some("no longer used"),
        (None, _) => Some("used now"),
    };
    names.into_iter().filter_map(|name| Some(FileChange { name: name.to_string(), state: state(name)? })).collect()
}
