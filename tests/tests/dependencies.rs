//! What the program is made of: from the registry only, each version by its checksum, under licences that let anyone use
//! it. Works without a network.
#![allow(clippy::unwrap_used)]

use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;

use serde_json::Value;

/// Licences that ask for nothing but their own words.
const LICENCES: [&str; 11] = [
    "MIT",
    "MIT-0",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "Zlib",
    "Unicode-3.0",
    "Unlicense",
    "CC0-1.0",
];

/// Under a licence that asks for changes of its own files to be given away: used as it is.
const UNCHANGED: [(&str, &str); 1] = [("option-ext", "MPL-2.0")];

fn packages() -> Vec<Value> {
    let cargo = std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_string());
    let rustc = String::from_utf8(Command::new("rustc").arg("-vV").output().unwrap().stdout).unwrap();
    // Of other platforms' packages nothing need be on this machine.
    let host = rustc.lines().find_map(|line| line.strip_prefix("host: ")).unwrap();
    let told = Command::new(cargo)
        .args(["metadata", "--format-version", "1", "--locked", "--offline", "--filter-platform", host])
        .output()
        .unwrap();
    assert!(told.status.success(), "{}", String::from_utf8_lossy(&told.stderr));
    let metadata: Value = serde_json::from_slice(&told.stdout).unwrap();
    metadata["packages"].as_array().unwrap().clone()
}

/// Whether one of the choices that a licence gives is among those wanted.
fn is_free(licence: &str) -> bool {
    let choices = licence.replace('/', " OR ");
    let free = |one: &str| LICENCES.contains(&one.trim().trim_matches(['(', ')']).trim());
    choices.split(" OR ").any(|choice| choice.split(" AND ").all(free))
        || choices.split(" AND ").all(|part| part.split(" OR ").any(free))
}

#[test]
fn every_package_comes_from_the_registry_under_a_free_licence() {
    let mut not_free = Vec::new();
    let mut elsewhere = Vec::new();
    for package in packages() {
        let name = format!("{} {}", package["name"].as_str().unwrap(), package["version"].as_str().unwrap());
        match package["source"].as_str() {
            None => {}
            Some(source) if source.starts_with("registry+https://github.com/rust-lang/crates.io-index") => {}
            Some(source) => elsewhere.push(format!("{name}: {source}")),
        }
        let licence = package["license"].as_str().unwrap_or("none");
        if !is_free(licence) && !UNCHANGED.contains(&(package["name"].as_str().unwrap(), licence)) {
            not_free.push(format!("{name}: {licence}"));
        }
    }
    assert!(elsewhere.is_empty(), "not from the registry: {elsewhere:#?}");
    assert!(not_free.is_empty(), "{not_free:#?}");
}

#[test]
fn every_version_is_fixed_by_its_checksum() {
    let lock = include_str!("../../Cargo.lock");
    for package in lock.split("[[package]]").skip(1) {
        let has = |key: &str| package.lines().any(|line| line.starts_with(key));
        assert_eq!(has("source = "), has("checksum = "), "{package}");
        assert!(!package.contains("git+"), "{package}");
    }
}

/// Two versions of one library are twice its size and twice its faults; those that others force on us are named here.
#[test]
fn few_libraries_are_there_twice() {
    let mut versions: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for package in packages() {
        let (name, version) = (package["name"].as_str().unwrap(), package["version"].as_str().unwrap());
        versions.entry(name.to_string()).or_default().insert(version.to_string());
    }
    let twice: Vec<_> = versions.into_iter().filter(|(_, versions)| versions.len() > 1).collect();
    let known: BTreeSet<&str> = KNOWN_TWICE.into();
    let more: Vec<_> = twice.iter().filter(|(name, _)| !known.contains(name.as_str())).collect();
    assert!(more.is_empty(), "{more:#?}");
}

const KNOWN_TWICE: [&str; 8] =
    ["bit-set", "bit-vec", "cfg_aliases", "foldhash", "getrandom", "hashbrown", "nix", "syn"];
