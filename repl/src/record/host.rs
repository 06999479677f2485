//! The files of a record: what the host answered then, it answers again. No file on any disk is touched.

use std::collections::HashMap;

use dewline_lang::host::{Document, Host, HostProblem, RawTable};

use super::content::Embedded;
use crate::host::{Asked, Files, Found, Kept, Use, sheet_of, table_of};

/// Answers out of a record.
#[derive(Debug)]
pub struct RecordHost {
    files: HashMap<String, File>,
    asked: HashMap<(Use, String, String), Asked>,
    /// Answers about sheets, in order: together with the sheets they say what plan will be made.
    sheets_asked: Vec<Asked>,
}

#[derive(Debug)]
struct File {
    bytes: Vec<u8>,
    sha256: String,
}

impl RecordHost {
    /// Files just kept.
    pub fn of_kept(kept: &Kept) -> RecordHost {
        let file = |bytes: &[u8]| File { bytes: bytes.to_vec(), sha256: super::sha256(bytes) };
        RecordHost::new(
            kept.files.iter().map(|(name, bytes)| (name.clone(), file(bytes))).collect(),
            kept.asked.iter().cloned(),
        )
    }

    /// The files of a record; those whose bytes do not fit their SHA-256 are named.
    pub(super) fn of_record(files: Vec<Embedded>, asked: &[Asked]) -> Result<(RecordHost, Vec<String>), String> {
        let mut changed = Vec::new();
        let mut map = HashMap::with_capacity(files.len());
        for file in files {
            let (name, stated) = (file.name.clone(), file.sha256.clone());
            let bytes = file.into_bytes()?;
            let sha256 = super::sha256(&bytes);
            if sha256 != stated {
                changed.push(name.clone());
            }
            map.insert(name, File { bytes, sha256 });
        }
        Ok((RecordHost::new(map, asked.iter().cloned()), changed))
    }

    fn new(files: HashMap<String, File>, asked: impl Iterator<Item = Asked>) -> RecordHost {
        let mut map = HashMap::new();
        let mut sheets_asked = Vec::new();
        for one in asked {
            if one.wanted == Use::Sheet {
                sheets_asked.push(one.clone());
            }
            map.entry((one.wanted, one.from.clone(), one.path.clone())).or_insert(one);
        }
        RecordHost { files, asked: map, sheets_asked }
    }

    /// The bytes of a file.
    pub fn bytes(&self, name: &str) -> Option<&[u8]> {
        self.files.get(name).map(|file| file.bytes.as_slice())
    }

    /// Names and SHA-256 of all files, in the order of the names.
    pub fn prints(&self) -> Vec<(&str, &str)> {
        let mut list: Vec<(&str, &str)> =
            self.files.iter().map(|(name, file)| (name.as_str(), file.sha256.as_str())).collect();
        list.sort_unstable();
        list
    }

    /// What decides on the plan: this sheet, and each sheet it was given. Equal texts here mean equal plans.
    pub(super) fn plan_key(&self, sheet: &str) -> String {
        let print = |name: &str| self.files.get(name).map_or("", |file| file.sha256.as_str());
        let mut key = format!("{sheet:?} {}", print(sheet));
        for one in &self.sheets_asked {
            let file = one.file.as_deref().unwrap_or_default();
            key.push_str(&format!("\n{:?} {:?} {file:?} {} {:?}", one.from, one.path, print(file), one.problem));
        }
        key
    }
}

impl Files for RecordHost {
    fn find(&self, from: &str, path: &str, wanted: Use) -> Result<Found, HostProblem> {
        let missing = || HostProblem { message: format!("the record holds no file \"{path}\""), mend: None };
        let asked = self.asked.get(&(wanted, from.to_string(), path.to_string())).ok_or_else(missing)?;
        if let Some(trouble) = &asked.problem {
            return Err(HostProblem { message: trouble.message.clone(), mend: trouble.mend.clone() });
        }
        let name = asked.file.as_deref().ok_or_else(missing)?;
        let bytes = self.bytes(name).ok_or_else(missing)?;
        Ok(Found { name: name.to_string(), bytes: bytes.to_vec() })
    }
}

impl Host for RecordHost {
    fn sheet(&self, from: &str, path: &str) -> Result<Document, HostProblem> {
        sheet_of(self, from, path)
    }

    fn table(&self, from: &str, path: &str) -> Result<RawTable, HostProblem> {
        table_of(self, from, path)
    }
}
