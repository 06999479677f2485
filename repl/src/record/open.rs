//! Reads a record and holds it against its own digests. A record may come from anywhere: nothing in it is believed.

use std::collections::BTreeMap;

use serde::Deserialize;
use serde_json::Value;
use serde_json::value::RawValue;

use super::content::{Content, JobPart, Sealed};
use super::{FORMAT, MadeBy, RecordHost, Trusted, canonical, keys, names, sha256, strict};
use crate::host::{Asked, read_text};

/// A record that was read.
pub struct Opened {
    /// What was run.
    pub job: JobPart,
    /// What ran it.
    pub made_by: MadeBy,
    /// Its files.
    pub host: RecordHost,
    /// What came of it.
    pub outcome: Box<RawValue>,
    /// When it was run, as stated.
    pub run_at: String,
    /// What in it was changed after it was made; empty if it fits its digests.
    pub tampered: Vec<String>,
    /// Who vouches for it.
    pub signature: SignatureState,
}

/// Who vouches for a record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SignatureState {
    /// Nobody.
    Missing,
    /// The signature does not fit, and why.
    Wrong(String),
    /// The owner of this key, who is not among those trusted.
    Untrusted(String),
    /// The owner of this key.
    Trusted(String),
}

/// Opens a record; `Err` says why it cannot be used.
pub fn open(bytes: Vec<u8>, trusted: &Trusted) -> Result<Opened, String> {
    let text = read_text("the record", bytes, false).map_err(|problem| problem.message)?;
    let sealed: Sealed<'_> = serde_json::from_str(&text).map_err(|error| no_record(&text, &error))?;
    if sealed.format != FORMAT {
        return Err(other_format(&sealed.format));
    }
    let raw = sealed.record.get();
    let content: Content =
        serde_json::from_str(raw).map_err(|error| format!("its \"record\" does not fit the format: {error}"))?;
    if let Some(fault) = names::fault(content.files.iter().map(|file| file.name.as_str())) {
        return Err(fault);
    }
    let mut tampered = Vec::new();
    // A record as it was written is canonical, and its text can be digested as it stands.
    if sha256(raw.as_bytes()) != sealed.digest {
        let value = strict::read(raw).map_err(|error| format!("its \"record\" cannot be read: {error}"))?;
        let form = canonical(&value).map_err(|error| error.to_string())?;
        if sha256(form.as_bytes()) != sealed.digest {
            tampered = changed_parts(&value, &content.parts);
        }
    }
    let Content { asked, files, job, made_by, outcome, .. } = content;
    let (host, changed) = RecordHost::of_record(files, &asked)?;
    tampered.extend(changed.iter().map(|name| format!("the embedded file \"{name}\" does not fit its SHA-256")));
    if let Some(fault) = loose_end(&host, &asked, &job) {
        return Err(fault);
    }
    let signature = match &sealed.signature {
        None => SignatureState::Missing,
        Some(signature) => {
            let statement = super::seal::statement(&sealed.digest, &sealed.run_at).map_err(|e| e.to_string())?;
            match keys::verify(signature, statement.as_bytes(), trusted) {
                Ok((key, true)) => SignatureState::Trusted(key),
                Ok((key, false)) => SignatureState::Untrusted(key),
                Err(why) => SignatureState::Wrong(why),
            }
        }
    };
    if let SignatureState::Wrong(why) = &signature {
        tampered.push(format!("the signature is wrong: {why}"));
    }
    Ok(Opened { job, made_by, host, outcome, run_at: sealed.run_at, tampered, signature })
}

/// Which parts no longer fit their SHA-256; there is at least one thing to say, since the whole does not fit.
fn changed_parts(record: &Value, parts: &BTreeMap<String, String>) -> Vec<String> {
    let words = [
        ("files", "the embedded files"),
        ("asked", "the list of the files asked for"),
        ("job", "the job: its settings, its sheet or its site"),
        ("made_by", "the versions or fingerprints of what made it"),
        ("outcome", "the outcome"),
    ];
    let fits = |part: &str| {
        let form = record.get(part).and_then(|value| canonical(value).ok());
        form.is_some_and(|form| parts.get(part).is_some_and(|stated| *stated == sha256(form.as_bytes())))
    };
    let mut found: Vec<String> = words
        .iter()
        .filter(|(part, _)| !fits(part))
        .map(|(_, words)| format!("the digest does not fit: {words} changed"))
        .collect();
    if found.is_empty() {
        found.push("the digest does not fit, though every part does: the digest itself was changed".to_string());
    }
    found
}

/// A file that is spoken of but not there.
fn loose_end(host: &RecordHost, asked: &[Asked], job: &JobPart) -> Option<String> {
    let named = asked.iter().filter_map(|one| one.file.as_ref()).chain([&job.sheet]);
    named
        .into_iter()
        .find(|name| host.bytes(name).is_none())
        .map(|name| format!("it does not hold its file \"{name}\""))
}

/// Why a text is no record at all.
fn no_record(text: &str, error: &serde_json::Error) -> String {
    #[derive(Deserialize)]
    struct Head {
        format: Option<String>,
    }
    if error.is_eof() {
        return "it ends in the middle: only a part of a record is there".to_string();
    }
    match serde_json::from_str::<Head>(text) {
        Ok(Head { format: Some(format) }) if format != FORMAT => other_format(&format),
        Ok(Head { format: Some(_) }) => format!("it does not fit the format of records: {error}"),
        Ok(Head { format: None }) => "it is JSON, but no record: it has no \"format\"".to_string(),
        Err(_) if error.is_syntax() => format!("it is not JSON: {error}"),
        Err(_) => format!("it is no record: {error}"),
    }
}

fn other_format(format: &str) -> String {
    let shown: String = format.chars().take(60).collect();
    if format.starts_with("dewline-record/") {
        format!("its format is {shown:?}; this version reads {FORMAT:?}")
    } else {
        format!("it is no record: its format is {shown:?}, not {FORMAT:?}")
    }
}
