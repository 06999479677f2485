//! Digests of everything that must come to the same bits everywhere, for comparing builds and platforms.
//!
//! `same_bits check` holds this build against the committed digests, on one thread and on many; `same_bits cases FOLDER`
//! writes the cases, a line of JSON each, and the digests of this build there.

use std::process::ExitCode;

use dewline_same_bits::examples;
use dewline_tests::same_bits::{cases, digests, list};

/// What this build must come to.
const COMMITTED: &str = include_str!("../same_bits/digests.txt");

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    // Paths of cases are those from the folder of this crate.
    if let Err(error) = std::env::set_current_dir(env!("CARGO_MANIFEST_DIR")) {
        eprintln!("the folder of the tests cannot be entered: {error}");
        return ExitCode::from(2);
    }
    match words.as_slice() {
        ["check"] => check(),
        ["cases", folder] => write(folder),
        _ => {
            eprintln!("same_bits check | same_bits cases FOLDER");
            ExitCode::from(2)
        }
    }
}

fn check() -> ExitCode {
    let library = dewline_stdlib::library();
    let cases = cases(&library);
    let mut code = ExitCode::SUCCESS;
    for threads in [1, 4] {
        let same = list(&digests(&library, &cases, threads)) == COMMITTED;
        println!("{} cases on {threads} threads: {}", cases.len(), if same { "the same bits" } else { "OTHER BITS" });
        if !same {
            code = ExitCode::FAILURE;
        }
    }
    code
}

fn write(folder: &str) -> ExitCode {
    let library = dewline_stdlib::library();
    let cases = cases(&library);
    let texts: Result<Vec<String>, _> = cases.iter().map(serde_json::to_string).collect();
    let mut lines = digests(&library, &cases, 4);
    lines.extend(examples(&library));
    let written = texts.map_err(std::io::Error::from).and_then(|texts| {
        std::fs::write(format!("{folder}/cases.jsonl"), texts.join("\n"))?;
        std::fs::write(format!("{folder}/digests.txt"), list(&lines))
    });
    match written {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{folder}: {error}");
            ExitCode::FAILURE
        }
    }
}
