//! Lines from a pipe.

use super::{Bench, PASSING, sheet_reading};

#[test]
fn lines_are_answered_without_a_prompt() {
    let left = Bench::new().run_with(&[], "118 psig - 100 psig\nlast * 2\na = max(1,\n  2)\na + 1").ends_with_code(0);
    assert_eq!(left.out, "18 psi\n36 psi\nunits IP (since US units were typed)\na = 2\n3\n");
    assert_eq!(Bench::new().run_with(&[], "").ends_with_code(0).out, "");
}

#[test]
fn a_line_that_cannot_be_used_is_told_by_its_number_and_the_rest_goes_on() {
    let left = Bench::new().run_with(&[], "2 * 3\n3 psgi\n\n4 * 5\n").ends_with_code(2);
    assert_eq!(left.out, "6\n20\n");
    left.says("Line 2:").says("3 psgi").says("typed:1:");
}

#[test]
fn the_exit_code_is_that_of_the_sheet_as_it_then_stands() {
    let bench = Bench::with_sheet(PASSING);
    bench.run_with(&["job.dew"], "drop\n").ends_with_code(0).prints("1 psi");
    bench.run_with(&["job.dew"], "end_pressure = 540 psig\n").ends_with_code(1).prints("FAILED");
    let waiting = Bench::with_sheet(&sheet_reading(": psig"));
    waiting.run_with(&["job.dew"], "stages\n").ends_with_code(3);
    waiting.run_with(&["job.dew"], "end_pressure = 549 psig\nend_pressure = ?\n").ends_with_code(3);
    bench.run_with(&["job.dew"], "end_pressure = 540 ft\n").ends_with_code(2);
    bench.run_with(&["jbo.dew"], "").ends_with_code(2).says("jbo.dew");
    assert_eq!(bench.read("job.dew"), PASSING);
}

#[test]
fn readings_are_taken_and_saved_from_a_pipe() {
    let bench = Bench::with_sheet(&sheet_reading(": psig"));
    bench.run_with(&["job.dew"], "take\n549\n").ends_with_code(0).prints("Saved \"job.dew\"");
    bench.run(&["run", "job.dew"]).ends_with_code(0);
    let left = bench.run_with(&[], "a = 3\nsave job.dew\n").ends_with_code(2);
    left.prints("Write over it?");
    assert!(bench.read("job.dew").contains("549 psig"));
    bench.run_with(&[], "a = 3\nsave job\nyes\n").ends_with_code(0);
    assert_eq!(bench.read("job.dew"), "a = 3\n");
}

#[test]
fn a_mistyped_command_is_no_sheet() {
    let bench = Bench::new();
    bench.run(&["clac"]).ends_with_code(2).says("dewline calc");
    bench.run(&["clac.dew"]).ends_with_code(2).says("there is no file");
}

#[test]
fn calc_answers_in_the_units_typed_and_shows_the_expression_as_typed() {
    let bench = Bench::new();
    bench.run(&["calc", "dew_temperature(R-410A, 118 psig)"]).ends_with_code(0).prints("degF");
    bench.run(&["calc", "dew_temperature(R-410A, 8 barg)"]).ends_with_code(0).prints("degC");
    bench.run(&["calc", "1 ft * 1 m as m2"]).ends_with_code(0).prints(" m2");
    let left = bench.run(&["calc", "118 psig + 14.7 psia"]).ends_with_code(2).says("calc:1:");
    assert!(!left.err.contains("answer"), "{}", left.err);
}

#[cfg(unix)]
#[test]
fn input_without_an_end_ends_with_an_error() {
    let bench = Bench::new();
    let endless = std::fs::File::open("/dev/zero").unwrap();
    let left = bench.command().stdin(endless).output().unwrap();
    assert_eq!(left.status.code(), Some(2));
    let said = String::from_utf8(left.stderr).unwrap();
    assert!(said.contains("line 1 of standard input cannot be read: it is longer than 4 MB"), "{said}");
    bench.run_with(&[], &"(\n".repeat(30_000)).ends_with_code(2).says("line 1 of standard input begins something");
}
