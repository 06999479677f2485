//! 2 unusable, 1 failed, 3 incomplete, 0 otherwise; of several the first of these that occurs.

use crate::{Bench, PASSING, sheet_reading};

#[test]
fn each_verdict_has_its_code() {
    Bench::with_sheet(PASSING).run(&["run", "job.dew"]).ends_with_code(0).prints("PASSED");
    Bench::with_sheet(&sheet_reading("= 540.0 psig")).run(&["run", "job.dew"]).ends_with_code(1).prints("FAILED");
    Bench::with_sheet(&sheet_reading(": psig")).run(&["run", "job.dew"]).ends_with_code(3).prints("INCOMPLETE");
    Bench::with_sheet(&sheet_reading("= 549.0 kg")).run(&["run", "job.dew"]).ends_with_code(2).prints("UNUSABLE");
}

#[test]
fn a_waived_check_passes_with_its_reason() {
    let text = sheet_reading("= 540.0 psig").replace(
        "\nend\n",
        "\n  waive \"holds pressure\" reason \"gauge was changed\" by \"R. Alder\" at 2026-03-14\nend\n",
    );
    let left = Bench::with_sheet(&text).run(&["run", "job.dew"]).ends_with_code(0);
    left.prints("PASSED WITH WAIVERS").prints("gauge was changed");
}

#[test]
fn of_several_sheets_the_worst_counts() {
    let bench = Bench::with_sheet(PASSING);
    bench.file("failed.dew", sheet_reading("= 540.0 psig"));
    bench.file("waits.dew", sheet_reading(": psig"));
    bench.file("bad.dew", "a = \n");
    bench.run(&["run", "job.dew", "waits.dew"]).ends_with_code(3);
    bench.run(&["run", "waits.dew", "failed.dew", "job.dew"]).ends_with_code(1);
    let all = bench.run(&["run", "bad.dew", "failed.dew", "waits.dew"]).ends_with_code(2);
    all.prints("FAILED").prints("INCOMPLETE");
    bench.run(&["run", "missing.dew", "job.dew"]).ends_with_code(2).prints("PASSED");
}

#[test]
fn a_broken_cell_makes_the_job_unusable_and_the_rest_is_computed() {
    let text = "units IP\na = 1 ft / (2 ft - 2 ft)\nb = 3 ft + 4 ft\n";
    let left = Bench::with_sheet(text).run(&["run", "job.dew"]).ends_with_code(2);
    left.prints("BROKEN").prints("7 ft");
}

#[test]
fn a_mistyped_command_line_is_code_2_and_help_is_code_0() {
    let bench = Bench::new();
    bench.run(&["rum"]).ends_with_code(2).says("run");
    bench.run(&["run"]).ends_with_code(2);
    bench.run(&["run", "job.dew", "--set", "a"]).ends_with_code(2).says("--set");
    bench.run(&["--help"]).ends_with_code(0).prints("Commands:");
    bench.run(&["--version"]).ends_with_code(0).prints("dewline");
}

#[test]
fn check_computes_nothing() {
    let bench = Bench::with_sheet("a = 1 ft / (2 ft - 2 ft)\n");
    bench.run(&["check", "job.dew"]).ends_with_code(0).prints("job.dew: usable");
    bench.file("job.dew", sheet_reading(": psig"));
    bench.run(&["check", "job.dew"]).ends_with_code(0).prints("  still open\n    end_pressure\n");
    let answered =
        "confirm \"soap, at test pressure\" yes\nconfirm \"drains\"\nfill \"form.dew\" as one ( a = 2 ft )\n";
    let bench = Bench::with_sheet(answered);
    bench.file("form.dew", "input a : ft\ninput b : ft\nc = a + b\n");
    let left = bench.run(&["check", "job.dew"]).ends_with_code(0);
    assert_eq!(left.out, "job.dew: usable\n  still open\n    drains\n    one.b\n");
    bench.file("job.dew", "a = 118 psig + 14.7 psia\n");
    bench.run(&["check", "job.dew"]).ends_with_code(2).prints("UNUSABLE").says("job.dew:1:");
}

#[test]
fn calc_answers_or_is_code_2() {
    let bench = Bench::new();
    bench.run(&["calc", "3 ft + 6 in as in"]).ends_with_code(0).prints("42 in");
    bench.run(&["calc", "-40 degF as degC"]).ends_with_code(0).prints("-40 degC");
    bench.run(&["calc", "0 psig as psia", "--site", "1280 ft"]).ends_with_code(0).prints("14.0");
    bench.run(&["calc", "3 ft + 1 lb"]).ends_with_code(2).says("Error");
}

#[test]
fn why_shows_the_way_and_knows_no_other_cell() {
    let bench = Bench::with_sheet(PASSING);
    let left = bench.run(&["why", "job.dew", "drop"]).ends_with_code(0);
    left.prints("drop = 1 psi").prints("start - end_pressure").prints("end_pressure = 549 psig");
    bench.run(&["why", "job.dew", "drpo"]).ends_with_code(2).says("drop");
    let set = bench.run(&["why", "job.dew", "drop", "--set", "end_pressure=548 psig"]).ends_with_code(0);
    set.prints("drop = 2 psi");
}
