//! Standard input and output, colour, a reader that goes away.

use std::io::Read;
use std::process::Stdio;

use crate::{Bench, PASSING};

#[test]
fn a_sheet_comes_from_standard_input() {
    let bench = Bench::new();
    bench.run_with(&["run", "-"], PASSING).ends_with_code(0).prints("Riser B");
    bench.run_with(&["check", "-"], PASSING).ends_with_code(0).prints("-: usable");
    bench.run_with(&["run", "-"], "").ends_with_code(2).says("empty");
}

#[test]
fn results_and_messages_go_their_own_ways_without_colour() {
    let bench = Bench::with_sheet("a = 3 ft + 1 lb\n");
    let left = bench.run(&["run", "job.dew"]).ends_with_code(2);
    assert!(left.err.contains("Error") && left.out.contains("UNUSABLE"));
    assert!(!left.err.contains('\u{1b}') && !left.out.contains('\u{1b}'));
}

#[test]
fn a_reader_that_goes_away_ends_it_cleanly() {
    let rows: String = (0..40_000).map(|row| format!("  {row} | {row}\n")).collect();
    let bench = Bench::with_sheet(&format!("table t\n  a | b\n  - | -\n{rows}end\n"));
    let mut child = bench
        .command()
        .args(["run", "job.dew", "--format", "json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut first = [0; 100];
    child.stdout.take().unwrap().read_exact(&mut first).unwrap();
    let left = child.wait_with_output().unwrap();
    assert_eq!(left.status.code(), Some(0));
    assert_eq!(String::from_utf8_lossy(&left.stderr), "");
}
