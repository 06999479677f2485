//! Every sheet of the corpus comes to exactly what its comments say. `UPDATE_CORPUS=1` rewrites the comments; read
//! what it wrote before you keep it.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::Path;

use dewline_tests::corpus::{Case, collect, observe};

/// Tests run in the folder of their crate, and messages name files as they were opened.
const ROOT: &str = "corpus";

fn cases() -> Vec<Case> {
    collect(Path::new(ROOT))
}

#[test]
fn every_sheet_comes_to_what_it_says() {
    let library = dewline_stdlib::library();
    let update = std::env::var_os("UPDATE_CORPUS").is_some();
    let only = std::env::var("CORPUS").unwrap_or_default();
    let mut wrong = String::new();
    for case in cases().iter().filter(|case| case.path.to_string_lossy().contains(&only)) {
        let seen = observe(&library, case);
        let differences = case.expected.differences(&seen);
        if differences.is_empty() {
            continue;
        }
        wrong.push_str(&format!("\n{}\n", case.path.display()));
        for difference in differences {
            wrong.push_str(&format!("  {difference}\n"));
        }
        if update {
            std::fs::write(&case.path, seen.write_into(&case.sheet)).unwrap();
        }
    }
    assert!(wrong.is_empty() || update, "sheets that came to something else:\n{wrong}");
    print!("{wrong}");
}

#[test]
fn the_corpus_is_large_enough() {
    let cases = cases();
    let mistakes = cases.iter().filter(|case| case.topic == "trade-mistakes").count();
    assert!(cases.len() >= 150, "only {} sheets", cases.len());
    assert!(mistakes >= 60, "only {mistakes} mistakes of the trade");
}

#[test]
fn nothing_is_expected_by_a_place_holder() {
    for case in cases() {
        for error in case.expected.errors.values().flatten() {
            assert_ne!(error, "*", "{}: an expectation was never written out", case.path.display());
        }
    }
}

#[test]
fn the_index_names_sheets_that_exist() {
    let index = include_str!("../corpus/README.md");
    let named = index.split('`').skip(1).step_by(2).filter(|name| name.contains('/') && !name.contains('.'));
    for name in named.filter(|name| !name.contains('<')) {
        assert!(Path::new(ROOT).join(format!("{name}.dew")).exists(), "the index names {name}");
    }
    // Every sheet is found through the index: by name, or by its folder.
    for case in cases() {
        let topic = &case.topic;
        let sheet = format!("`{topic}/{}`", case.path.file_stem().unwrap().to_string_lossy());
        assert!(
            index.contains(&sheet) || index.contains(&format!("every sheet of `{topic}`")),
            "the index does not name {sheet}"
        );
    }
}
