//! Writes a record for each run.

use std::io::Write;
use std::path::{Path, PathBuf};

use dewline_lang::host::Document;
use dewline_lang::job::{self, Settings};
use dewline_lang::library::Library;
use dewline_lang::outcome::Outcome;
use serde_json::value::RawValue;

use super::content::{Content, JobPart};
use super::seal::sealed;
use super::{Key, MadeBy, RECORD_BYTES, RECORD_VALUES, RecordHost, Rerunner, canonical};
use crate::host::{Allowed, FolderHost, KeepingHost, Kept};
use crate::output::{NewFile, refused};
use crate::problem::{Problem, said};
use crate::report::size;
use crate::settings::{RunSettings, Values};

/// Where records go, and who signs them.
pub struct Recorder {
    place: Place,
    key: Option<Key>,
    rerunner: Rerunner,
    made_by: MadeBy,
    written: usize,
}

enum Place {
    /// One record.
    File(PathBuf),
    /// A record a run.
    Folder(PathBuf),
}

impl Recorder {
    /// Prepares to write records to a place. `many` says that there is more than one run.
    pub fn new(place: &str, many: bool, key: Option<Key>) -> Result<Recorder, Problem> {
        let path = PathBuf::from(place);
        if place == "-" {
            return Err(Problem::new("a record is a file and cannot go to the standard output")
                .with_mend("name a file: --record job.json"));
        }
        let folder = place.ends_with('/') || path.is_dir();
        let place = if many || folder {
            if path.exists() && !path.is_dir() {
                return Err(Problem::new(format!("\"{place}\" is a file, and several runs are to be recorded"))
                    .with_mend("name a folder, which takes a record a run"));
            }
            Place::Folder(path)
        } else {
            Place::File(path)
        };
        let rerunner = Rerunner::new();
        let made_by = MadeBy::this(&rerunner.library)
            .map_err(|error| Problem::new(format!("the library cannot be described: {error}")))?;
        Ok(Recorder { place, key, rerunner, made_by, written: 0 })
    }

    /// Records one run and gives the record's digest: `kept` are the files it read, `outcome` is what it came to.
    pub fn record(
        &mut self,
        kept: Kept,
        prefix: &str,
        document: &Document,
        settings: &RunSettings,
        outcome: &Outcome,
    ) -> Result<String, Problem> {
        self.written += 1;
        if size::values(outcome) > RECORD_VALUES {
            let message = format!("no record was written: its tables have more than {RECORD_VALUES} values");
            return Err(Problem::new(message).with_mend("record fewer rows: a log's part that proves something"));
        }
        let place = self.next_place(&document.name)?;
        let kept = kept.relative(prefix);
        let sheet = document.name.strip_prefix(prefix).unwrap_or(&document.name);
        let mut job = JobPart::new(sheet, &settings.values, &settings.name);
        let ran = self
            .rerunner
            .run(&job, &RecordHost::of_kept(&kept))
            .map_err(|why| Problem::new(format!("no record was written: {why}")))?;
        if ran.outcome.verdict != outcome.verdict {
            return Err(Problem::new("no record was written: the run from the record's own files came to another end")
                .with_mend("run it again when nothing writes to its files"));
        }
        job.site = ran.site;
        let cannot = |error| Problem::new(format!("the record cannot be written as JSON: {error}"));
        let outcome = canonical(&ran.outcome).and_then(RawValue::from_string).map_err(cannot)?;
        let content = Content::new(kept, job, self.made_by.clone(), outcome).map_err(cannot)?;
        let (text, digest) = sealed(&content, &now(), self.key.as_ref())?;
        if text.len() as u64 > RECORD_BYTES {
            let most = RECORD_BYTES / 1024 / 1024;
            return Err(Problem::new(format!("no record was written: it would be larger than {most} MB")));
        }
        let mut file = NewFile::begin(&place)?;
        file.write_all(text.as_bytes()).map_err(|error| refused(&place, &error))?;
        file.finish()?;
        Ok(digest)
    }

    /// The next record's file. What is there and is no record is never overwritten.
    fn next_place(&self, sheet: &str) -> Result<PathBuf, Problem> {
        let place = match &self.place {
            Place::File(file) => file.clone(),
            Place::Folder(folder) => {
                std::fs::create_dir_all(folder).map_err(|error| {
                    Problem::new(format!("the folder \"{}\" cannot be made: {}", folder.display(), said(&error)))
                })?;
                let stem = Path::new(sheet).file_stem().map(|stem| stem.to_string_lossy().into_owned());
                let stem = stem.filter(|stem| stem != "-").unwrap_or_else(|| "record".to_string());
                folder.join(format!("{:05}-{stem}.json", self.written))
            }
        };
        if place.is_file() && !looks_like_a_record(&place) {
            return Err(Problem::new(format!("\"{}\" is there already and is no record", place.display()))
                .with_mend("give the record a name of its own"));
        }
        Ok(place)
    }
}

/// Whether a file begins as records do; an empty one holds nothing to lose.
fn looks_like_a_record(path: &Path) -> bool {
    use std::io::Read;
    let mut beginning = Vec::new();
    let read = std::fs::File::open(path).and_then(|file| file.take(200).read_to_end(&mut beginning));
    read.is_ok() && (beginning.is_empty() || String::from_utf8_lossy(&beginning).contains("\"dewline-record/"))
}

/// The time of the run, in UTC to the second.
fn now() -> String {
    let now = jiff::Timestamp::now();
    now.round(jiff::Unit::Second).unwrap_or(now).to_string()
}

/// Reads all files that a job uses, as they stand in its folder now; names are from that folder.
pub fn gather(library: &Library, path: &str, allowed: &Allowed, values: &Values) -> Result<(Kept, String), Problem> {
    let (host, document) = FolderHost::open(path, &mut std::io::empty())?;
    let host = host.allowing(allowed);
    let keeping = KeepingHost::new(&host, Kept::of_sheet(&document));
    if let Some(job) = job::check(library, &keeping, &document.name, &document.text).job {
        job.run(library, &keeping, &Settings { values: values.clone() });
    }
    let sheet = document.name.strip_prefix(host.prefix()).unwrap_or(&document.name).to_string();
    Ok((keeping.into_kept().relative(host.prefix()), sheet))
}
