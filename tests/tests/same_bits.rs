//! The corpus and the demo jobs come to the committed bits, on one thread and on many. `UPDATE_DIGESTS=1` writes them
//! anew: do it when an outcome is meant to change, and only then. The release build and another platform are held
//! against the same digests by `.ci/run`.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::BTreeMap;

use dewline_tests::same_bits::{cases, digests, list};

const COMMITTED: &str = "same_bits/digests.txt";

#[test]
fn every_outcome_has_the_committed_bits_on_one_thread_and_on_many() {
    let library = dewline_stdlib::library();
    let cases = cases(&library);
    let lines = digests(&library, &cases, 1);
    for threads in [2, 3, 7] {
        assert_eq!(digests(&library, &cases, threads), lines, "{threads} threads");
    }
    if std::env::var_os("UPDATE_DIGESTS").is_some() {
        std::fs::write(COMMITTED, list(&lines)).unwrap();
    }
    let committed = std::fs::read_to_string(COMMITTED).unwrap();
    let known: BTreeMap<&str, &str> =
        committed.lines().filter_map(|line| line.split_once("  ")).map(|(digest, name)| (name, digest)).collect();
    let other: Vec<&str> = lines
        .iter()
        .filter(|(name, digest)| known.get(name.as_str()) != Some(&digest.as_str()))
        .map(|(name, _)| name.as_str())
        .collect();
    assert!(
        other.is_empty() && committed == list(&lines),
        "other bits, or not in {COMMITTED}: {other:#?}\nif that is meant: UPDATE_DIGESTS=1 cargo test -p dewline-tests \
         --test same_bits"
    );
}

#[test]
fn a_changed_bit_changes_the_digest() {
    use dewline_same_bits::{Case, digest};
    let library = dewline_stdlib::library();
    let of = |text: &str, value: &str| {
        let settings = vec![("a".to_string(), value.to_string())];
        digest(&library, &Case { text: text.to_string(), settings, ..Case::default() }).1
    };
    let sheet = "input a = 1\nb = a / 3\n";
    // The outcome tells what was set as it was written, so that only the same text comes to the same.
    assert_eq!(of(sheet, "0.3"), of(sheet, "0.3"));
    assert_ne!(of(sheet, "0.3"), of(sheet, "0.30"));
    assert_ne!(of(sheet, "0.3"), of(sheet, "0.30000000000000004"));
    assert_ne!(of("a = 3 ft + 1 lb\n", "1"), of("a = 3 ft + 1 min\n", "1"));
}
