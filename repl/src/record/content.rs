//! What a record holds.

use std::collections::BTreeMap;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use dewline_lang::job;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

use super::{MadeBy, canonical, sha256};
use crate::host::{Asked, Kept};
use crate::settings::Values;

/// The whole file.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Sealed<'a> {
    pub format: String,
    pub digest: String,
    pub run_at: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signature: Option<Signature>,
    #[serde(borrow)]
    pub record: &'a RawValue,
}

/// Who vouches for it.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Signature {
    pub algorithm: String,
    /// The public key, as the base64 of its SubjectPublicKeyInfo.
    pub key: String,
    /// Base64.
    pub value: String,
}

/// Everything that is needed to run a job again, and what came of it.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Content {
    /// Every question to the host with its answer.
    pub asked: Vec<Asked>,
    /// Every file that was used.
    pub files: Vec<Embedded>,
    /// What was run.
    pub job: JobPart,
    /// What ran it.
    pub made_by: MadeBy,
    /// What came of it, in canonical form.
    pub outcome: Box<RawValue>,
    /// SHA-256 of each other part, so that an audit can say which was changed.
    pub parts: BTreeMap<String, String>,
}

/// A file inside the record.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Embedded {
    /// Its name, from the sheet's folder.
    pub name: String,
    /// SHA-256 of its bytes in hexadecimal.
    pub sha256: String,
    /// Its text, if it is UTF-8.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub text: Option<String>,
    /// Its bytes otherwise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub base64: Option<String>,
}

/// What was run.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct JobPart {
    /// The outermost sheet, by its name among the files.
    pub sheet: String,
    /// What was set from outside, in the order given.
    pub settings: Vec<Setting>,
    /// Which row of a file of settings it was, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub row: Option<String>,
    /// The air around the job.
    pub site: Site,
}

/// One value from outside, as typed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Setting {
    /// Its name.
    pub name: String,
    /// Its text.
    pub value: String,
    /// From where it was set, in words.
    pub from: String,
}

/// The air around the job.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Site {
    /// Its pressure in pascal; `None` while the sheet does not know it.
    pub atmosphere: Option<f64>,
    /// The sheet states it; otherwise the standard atmosphere at sea level was taken.
    pub stated: bool,
}

impl From<job::Site> for Site {
    fn from(site: job::Site) -> Site {
        Site { atmosphere: site.atmosphere, stated: site.stated }
    }
}

impl Embedded {
    fn new(name: &str, bytes: &[u8]) -> Embedded {
        let text = std::str::from_utf8(bytes).ok().map(str::to_string);
        let base64 = if text.is_none() { Some(STANDARD.encode(bytes)) } else { None };
        Embedded { name: name.to_string(), sha256: sha256(bytes), text, base64 }
    }

    /// Its bytes, or what is wrong with it.
    pub fn into_bytes(self) -> Result<Vec<u8>, String> {
        match (self.text, self.base64) {
            (Some(text), None) => Ok(text.into_bytes()),
            (None, Some(base64)) => STANDARD
                .decode(base64)
                .map_err(|error| format!("the embedded file \"{}\" is not base64: {error}", self.name)),
            _ => Err(format!("the embedded file \"{}\" needs either \"text\" or \"base64\"", self.name)),
        }
    }
}

impl JobPart {
    /// A job whose site is not known yet.
    pub fn new(sheet: &str, settings: &Values, row: &str) -> JobPart {
        let settings = settings.iter().map(|one| {
            let (name, value, from) = (one.name.clone(), one.text.clone(), one.from.clone());
            Setting { name, value, from }
        });
        let settings = settings.collect();
        let row = if row.is_empty() { None } else { Some(row.to_string()) };
        JobPart { sheet: sheet.to_string(), settings, row, site: Site { atmosphere: None, stated: false } }
    }

    /// What was set, for a run.
    pub fn values(&self) -> Values {
        let setting =
            |one: &Setting| job::Setting { name: one.name.clone(), text: one.value.clone(), from: one.from.clone() };
        self.settings.iter().map(setting).collect()
    }
}

/// Files as they stand in a record.
pub(super) fn embed(kept: &Kept) -> Vec<Embedded> {
    kept.files.iter().map(|(name, bytes)| Embedded::new(name, bytes)).collect()
}

impl Content {
    /// All parts together, each with its SHA-256.
    pub(super) fn new(
        kept: Kept,
        job: JobPart,
        made_by: MadeBy,
        outcome: Box<RawValue>,
    ) -> serde_json::Result<Content> {
        let files = embed(&kept);
        let asked = kept.asked;
        let parts = [
            ("asked", canonical(&asked)?),
            ("files", canonical(&files)?),
            ("job", canonical(&job)?),
            ("made_by", canonical(&made_by)?),
            ("outcome", outcome.get().to_string()),
        ];
        let parts = parts.into_iter().map(|(name, text)| (name.to_string(), sha256(text.as_bytes()))).collect();
        Ok(Content { asked, files, job, made_by, outcome, parts })
    }
}
