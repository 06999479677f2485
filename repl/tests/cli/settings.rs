//! Values from outside: `--set` and `--set-from`.

use crate::{Bench, sheet_reading};

fn bench() -> Bench {
    Bench::with_sheet(&sheet_reading(": psig"))
}

#[test]
fn a_reading_is_set_on_the_command_line() {
    bench().run(&["run", "job.dew", "--set", "end_pressure=549 psig"]).ends_with_code(0).prints("549 psig");
    bench().run(&["run", "job.dew", "--set", "end_pressure = 540 psig ± 1 psi"]).ends_with_code(1);
}

#[test]
fn what_cannot_be_set_is_said_at_its_place() {
    bench().run(&["run", "job.dew", "--set", "end_presure=549 psig"]).ends_with_code(2).says("end_pressure");
    bench().run(&["run", "job.dew", "--set", "end_pressure=549 kg"]).ends_with_code(2).says("end_pressure");
    bench().run(&["run", "job.dew", "--set", "drop=1 psi"]).ends_with_code(2).says("drop");
}

#[test]
fn an_object_sets_one_run_and_the_command_line_wins() {
    let bench = bench();
    bench.file("taken.json", r#"{"end_pressure": "540 psig"}"#);
    bench.run(&["run", "job.dew", "--set-from", "taken.json"]).ends_with_code(1);
    let both = ["run", "job.dew", "--set-from", "taken.json", "--set", "end_pressure=549 psig"];
    bench.run(&both).ends_with_code(0);
    bench.file("taken.json", "[1]");
    bench.run(&["run", "job.dew", "--set-from", "taken.json"]).ends_with_code(2).says("taken.json");
    bench.file("taken.json", "{\"end_pressure\": ");
    bench.run(&["run", "job.dew", "--set-from", "taken.json"]).ends_with_code(2).says("is not JSON");
}

#[test]
fn each_row_is_one_run() {
    let bench = bench();
    bench.file("runs.csv", "end_pressure [psig]\n549\n540\n\"548 psig ± 1 psi\"\n");
    let left = bench.run(&["run", "job.dew", "--set-from", "runs.csv", "--quiet"]).ends_with_code(1);
    assert_eq!(left.out.matches("PASSED").count(), 2, "{}", left.out);
    left.prints("runs.csv line 3");
    let left = bench.run(&["run", "job.dew", "--set-from", "runs.csv", "--format", "json"]).ends_with_code(1);
    let list: serde_json::Value = serde_json::from_str(&left.out).unwrap();
    assert_eq!(list.as_array().unwrap().len(), 3);
    bench.file("runs.xlsx", "x");
    bench.run(&["run", "job.dew", "--set-from", "runs.xlsx"]).ends_with_code(2).says("is no workbook");
    bench.file("runs.ods", "x");
    bench.run(&["run", "job.dew", "--set-from", "runs.ods"]).ends_with_code(2).says("neither JSON, CSV nor XLSX");
}

/// Two good rows, one that fails and one that cannot be used.
#[test]
fn many_runs_are_named_by_their_first_column_and_counted_at_the_end() {
    let bench = bench();
    bench.file("runs.csv", "end_pressure [psig]\n549\n540\n549\nmuch\n");
    let left = bench.run(&["run", "job.dew", "--set-from", "runs.csv", "--quiet"]).ends_with_code(2);
    left.prints("with runs.csv line 3: end_pressure = 540 psig")
        .prints("All 4 runs")
        .prints("2 passed\n")
        .prints("1 failed: runs.csv line 3: end_pressure = 540 psig")
        .prints("1 could not be used: runs.csv line 5");
    for format in ["markdown", "html"] {
        let left = bench.run(&["run", "job.dew", "--set-from", "runs.csv", "--format", format]).ends_with_code(2);
        left.prints("All 4 runs").prints("2 passed");
    }
    let left = bench.run(&["run", "job.dew", "--set-from", "runs.csv", "--format", "csv"]).ends_with_code(2);
    assert!(!left.out.contains("All 4 runs"), "{}", left.out);
}

#[test]
fn a_misspelt_column_is_told_once_and_no_row_is_run() {
    let bench = bench();
    bench.file("runs.csv", "end_pressure [psig],end_presure\n549,\n540,548 psig\n549,548 psig\n");
    let left = bench.run(&["run", "job.dew", "--set-from", "runs.csv"]).ends_with_code(2);
    assert_eq!(left.err.matches("no input `end_presure`").count(), 1, "{}", left.err);
    assert!(!left.out.contains("PASSED"), "{}", left.out);
    left.says("did you mean `end_pressure`").prints("3 rows, none of them run");
}

#[test]
fn what_was_set_is_told_in_every_format() {
    let sheet = "units IP\ninput most = 500 micron\nreading vacuum = 620 micron\nrequire \"deep\" vacuum <= most\n";
    let bench = Bench::with_sheet(sheet);
    let set = ["run", "job.dew", "--set", "most=700 micron", "--format"];
    for format in ["text", "markdown", "html"] {
        let left = bench.run(&[&set[..], &[format]].concat()).ends_with_code(0);
        left.prints("LIMIT CHANGED").prints("700 micron").prints("500 micron").prints("the command line");
    }
    let left = bench.run(&[&set[..], &["json"]].concat()).ends_with_code(0);
    let outcome: serde_json::Value = serde_json::from_str(&left.out).unwrap();
    let told = serde_json::json!([{
        "name": "most", "sheet": "500 micron", "value": "700 micron", "from": "the command line", "limit": true
    }]);
    assert_eq!(outcome["set"], told);
    bench.run(&[&set[..], &["csv"]].concat()).ends_with_code(0).prints(",the command line,");
}

#[test]
fn a_name_set_twice_is_refused() {
    let bench = bench();
    let twice = ["run", "job.dew", "--set", "end_pressure=540 psig", "--set", "end_pressure=549 psig"];
    bench.run(&twice).ends_with_code(2).says("set twice");
    bench.file("taken.json", r#"{"end_pressure": "540 psig", "end_pressure": "549 psig"}"#);
    bench.run(&["run", "job.dew", "--set-from", "taken.json"]).ends_with_code(2);
    bench.file("runs.csv", "end_pressure,end_pressure\n540 psig,549 psig\n");
    bench.run(&["run", "job.dew", "--set-from", "runs.csv"]).ends_with_code(2).says("two columns");
}
