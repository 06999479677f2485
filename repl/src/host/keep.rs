//! A host that keeps what it gives, so that a record can hold every file a sheet used.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::Arc;

use dewline_lang::host::{Document, Host, HostProblem, RawTable};
use serde::{Deserialize, Serialize};

use super::{Files, Found, Use, sheet_of, table_of};

/// Files that were given, and what was asked for.
#[derive(Debug, Clone, Default)]
pub struct Kept {
    /// Bytes by name.
    pub files: BTreeMap<String, Arc<[u8]>>,
    /// Every question with its answer, in the order of asking.
    pub asked: Vec<Asked>,
}

/// One question to the host: a file named in a file, and which file it was, or why there was none.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Asked {
    /// The file that names it; empty for one named on the command line.
    #[serde(rename = "in")]
    pub from: String,
    /// The path as written there.
    pub path: String,
    /// As what it was asked for.
    #[serde(rename = "as")]
    pub wanted: Use,
    /// The name of the file that was given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub file: Option<String>,
    /// Why none was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub problem: Option<Trouble>,
}

/// Why a file could not be given, in words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trouble {
    /// What is wrong.
    pub message: String,
    /// How to mend it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mend: Option<String>,
}

impl Kept {
    /// The outermost sheet, which no file asks for.
    pub fn of_sheet(document: &Document) -> Kept {
        let text: Arc<[u8]> = document.text.as_bytes().into();
        Kept { files: BTreeMap::from([(document.name.clone(), text)]), asked: Vec::new() }
    }

    /// The same with names as they are from the sheet's own folder: a record does not tell where that was.
    pub fn relative(self, prefix: &str) -> Kept {
        let bare = |name: String| name.strip_prefix(prefix).map(str::to_string).unwrap_or(name);
        let asked = self.asked.into_iter().map(|one| Asked { from: bare(one.from), file: one.file.map(bare), ..one });
        Kept {
            files: self.files.into_iter().map(|(name, bytes)| (bare(name), bytes)).collect(),
            asked: asked.collect(),
        }
    }
}

/// Gives the files of another host and keeps them.
pub struct KeepingHost<'a> {
    files: &'a dyn Files,
    kept: RefCell<Kept>,
}

impl<'a> KeepingHost<'a> {
    /// Begins with what was kept before.
    pub fn new(files: &'a dyn Files, kept: Kept) -> KeepingHost<'a> {
        KeepingHost { files, kept: RefCell::new(kept) }
    }

    /// What was kept.
    pub fn into_kept(self) -> Kept {
        self.kept.into_inner()
    }

    fn keep(&self, found: &Found) -> Result<(), HostProblem> {
        let mut kept = self.kept.borrow_mut();
        match kept.files.get(&found.name) {
            // Two readings of one file must be of one text, else a record would hold neither run.
            Some(before) if **before != *found.bytes => Err(HostProblem {
                message: format!("\"{}\" was changed while the sheet was run", found.name),
                mend: Some("run it again when nothing writes to the file".to_string()),
            }),
            Some(_) => Ok(()),
            None => {
                kept.files.insert(found.name.clone(), Arc::from(found.bytes.as_slice()));
                Ok(())
            }
        }
    }
}

impl Files for KeepingHost<'_> {
    fn find(&self, from: &str, path: &str, wanted: Use) -> Result<Found, HostProblem> {
        let found = self.files.find(from, path, wanted).and_then(|found| self.keep(&found).map(|()| found));
        let (file, problem) = match &found {
            Ok(found) => (Some(found.name.clone()), None),
            Err(problem) => {
                let trouble = Trouble { message: problem.message.clone(), mend: problem.mend.clone() };
                (None, Some(trouble))
            }
        };
        let asked = Asked { from: from.to_string(), path: path.to_string(), wanted, file, problem };
        let mut kept = self.kept.borrow_mut();
        if !kept.asked.contains(&asked) {
            kept.asked.push(asked);
        }
        found
    }
}

impl Host for KeepingHost<'_> {
    fn sheet(&self, from: &str, path: &str) -> Result<Document, HostProblem> {
        sheet_of(self, from, path)
    }

    fn table(&self, from: &str, path: &str) -> Result<RawTable, HostProblem> {
        table_of(self, from, path)
    }
}
