//! What ran a job: versions, and fingerprints of all that its numbers rest on.

use std::collections::BTreeMap;

use dewline_lang::library::{Function, Library};
use serde::{Deserialize, Serialize};

use super::{canonical, sha256};

/// What the libraries say of all that a result rests on.
const FINGERPRINTED: [&[(&str, &str)]; 2] = [dewline_lang::FINGERPRINTS, dewline_stdlib::FINGERPRINTS];
const LIBM: &str = include!(concat!(env!("OUT_DIR"), "/libm.rs"));

/// The program that ran a job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MadeBy {
    /// `dewline`
    pub program: String,
    /// Versions of the program and of the libraries its numbers rest on.
    pub versions: BTreeMap<String, String>,
    /// SHA-256 of the sources of the language and the trade library, of the library's declarations, and of each set of
    /// published data: equations of fluids, mixtures, viscosities, saturation tables, the list of refrigerants.
    pub fingerprints: BTreeMap<String, String>,
}

impl MadeBy {
    /// This program with this library.
    pub fn this(library: &Library) -> serde_json::Result<MadeBy> {
        let versions = [
            ("dewline", env!("CARGO_PKG_VERSION")),
            ("language", dewline_lang::VERSION),
            ("trade library", dewline_stdlib::VERSION),
            ("libm", LIBM),
        ];
        let mut fingerprints: BTreeMap<String, String> = FINGERPRINTED
            .into_iter()
            .flatten()
            .map(|(name, print)| ((*name).to_string(), (*print).to_string()))
            .collect();
        let declared: Vec<&Function> = library.functions().collect();
        let declarations = canonical(&(declared, library.gases()))?;
        fingerprints.insert("declarations".to_string(), sha256(declarations.as_bytes()));
        Ok(MadeBy {
            program: "dewline".to_string(),
            versions: versions.map(|(name, version)| (name.to_string(), version.to_string())).into(),
            fingerprints,
        })
    }

    /// What of this is another than there, in words.
    pub fn differences(&self, other: &MadeBy) -> Vec<String> {
        let mut found = Vec::new();
        if self.program != other.program {
            found.push(format!("program {} → {}", self.program, other.program));
        }
        let none = "none".to_string();
        let names: std::collections::BTreeSet<&String> = self.versions.keys().chain(other.versions.keys()).collect();
        for name in names {
            let (old, new) = (self.versions.get(name).unwrap_or(&none), other.versions.get(name).unwrap_or(&none));
            if old != new {
                found.push(format!("{name} {old} → {new}"));
            }
        }
        let names: std::collections::BTreeSet<&String> =
            self.fingerprints.keys().chain(other.fingerprints.keys()).collect();
        found.extend(
            names
                .into_iter()
                .filter(|&name| self.fingerprints.get(name) != other.fingerprints.get(name))
                .map(|name| format!("{name}: another fingerprint")),
        );
        found
    }
}
