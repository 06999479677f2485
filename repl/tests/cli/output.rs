//! Reports in files, and the outcome against its schema.

use crate::{Bench, PASSING, sheet_reading};

fn outcome(bench: &Bench, arguments: &[&str]) -> serde_json::Value {
    let left = bench.run(arguments);
    let outcome: serde_json::Value = serde_json::from_str(&left.out).unwrap();
    let schema = include_str!("../../schema/outcome-1.schema.json");
    let validator = jsonschema::draft202012::new(&serde_json::from_str(schema).unwrap()).unwrap();
    let errors: Vec<String> =
        validator.iter_errors(&outcome).map(|error| format!("{}: {error}", error.instance_path())).collect();
    assert!(errors.is_empty(), "{}", errors.join("\n"));
    outcome
}

#[test]
fn the_outcome_fits_its_schema() {
    let rich = "sheet \"Rich\"\ninstrument clamp \"pipe clamp\"\n  accuracy ± 1 F°\n  serial \"PC-4\"\n\
        reading pipe = 52.0 degF by clamp at 2026-03-14T07:40\nreading air : degF ± 1 F°\n\
        split : F° = pipe - air\nnote \"{pipe} at the pipe\"\nstage \"Run\"\n  table indoor\n    tag | gas_pipe\n    \
        text | degF by clamp\n    \"Exam 1\" | 52.3\n    \"Exam 2\" | ?\n    over : F° = gas_pipe - 45 degF\n    \
        require each \"superheat\" over within 5 .. 15 F°\n  end\n  confirm \"soap\"\n  advise \"warm\" pipe >= 60 degF\n  \
        chart line \"pipes\" indoor.tag, indoor.gas_pipe\nend\nstage \"Next\" after \"Run\"\n  require \"never\" pipe < 0 degF\nend\n";
    for text in [PASSING, &sheet_reading("= 540 psig"), &sheet_reading(": psig"), rich, "a = 1 ft / (2 ft - 2 ft)\n"] {
        let bench = Bench::with_sheet(text);
        outcome(&bench, &["run", "job.dew", "--format", "json"]);
    }
    let unusable = outcome(&Bench::with_sheet("a = 3 ft + 1 lb\n"), &["run", "job.dew", "--format", "json"]);
    assert_eq!(unusable["verdict"], "unusable");
    assert_eq!(unusable["errors"][0]["place"].as_str().unwrap().split(':').next(), Some("job.dew"));
}

#[test]
fn the_outcome_knows_the_sheet_and_its_numbers() {
    let bench = Bench::with_sheet(PASSING);
    let outcome = outcome(&bench, &["run", "job.dew", "--format", "json"]);
    let cells = outcome["cells"].as_array().unwrap();
    let drop = cells.iter().find(|cell| cell["name"] == "drop").unwrap();
    assert!((drop["si"].as_f64().unwrap() - 6_894.757_293_168_36).abs() < 1e-6, "{drop}");
    assert_eq!(drop["shown"]["unit"], "psi");
    assert_eq!(outcome["sheet"]["title"], "Riser B");
    assert_eq!(outcome["sheet"]["sha256"].as_str().unwrap().len(), 64);
    assert_eq!(outcome["verdict"], "passed");
}

#[test]
fn the_ending_chooses_the_format_and_nothing_is_left_beside() {
    let bench = Bench::with_sheet(PASSING);
    for (file, begins) in [
        ("a.txt", "Riser B\n"),
        ("a.md", "# Riser B\n"),
        ("a.json", "{\n  \"format\": \"dewline-outcome/1\""),
        ("a.csv", "sheet,verdict,"),
        ("a.html", "<!DOCTYPE html><html lang=\"en\">"),
    ] {
        let left = bench.run(&["run", "job.dew", "--out", file]).ends_with_code(0);
        assert!(left.out.is_empty());
        assert!(bench.read(file).starts_with(begins), "{}", bench.read(file));
    }
    assert_eq!(bench.names(), ["a.csv", "a.html", "a.json", "a.md", "a.txt", "job.dew"]);
    bench.run(&["run", "job.dew", "--out", "a.doc"]).ends_with_code(2).says("text, markdown, html, json, csv, xlsx");
    bench.run(&["run", "job.dew", "--format", "docx"]).ends_with_code(2).says("text, markdown, html, json, csv, xlsx");
    bench.run(&["run", "job.dew", "--out", "-"]).ends_with_code(0).prints("Riser B");
}

#[test]
fn a_folder_takes_all_tables() {
    let table = "table rise\n  time | pressure\n  min | micron\n  0 | 312\n  5 | 341\nend\n";
    let bench = Bench::with_sheet(table);
    bench.run(&["run", "job.dew", "--out", "tables/"]).ends_with_code(0);
    assert_eq!(bench.read("tables/table-rise.csv"), "time [min],pressure [micron]\n0,312\n5,341\n");
    assert!(bench.read("tables/checks.csv").starts_with("stage,check,"));
    assert!(bench.read("tables/cells.csv").starts_with("sheet,verdict,"));
}

#[test]
fn what_is_in_doubt_has_its_uncertainty_beside_it_and_trials_have_files_of_their_own() {
    let table = "table rise\n  time | pressure\n  min | micron ± 10 micron\n  0 | 312\n  5 | ?\n  \
        require each \"low\" pressure <= 312 micron\nend\ndeep = last(taken(rise.pressure))\n";
    let bench = Bench::with_sheet(table);
    bench.run(&["run", "job.dew", "--out", "tables/", "--trials", "2000"]).ends_with_code(3);
    // Limits of error of 10 micron are 10/√3 micron as a standard uncertainty (JCGM 100, 4.3.7), twice that expanded.
    let rows = "time [min],pressure [micron],U(pressure) [micron]\n0,312,12\n5,,\n";
    assert_eq!(bench.read("tables/table-rise.csv"), rows);
    let trials = bench.read("tables/trials.csv");
    assert!(trials.starts_with("name,mean,u,") && trials.contains("\ndeep,312"), "{trials}");
    let checks = bench.read("tables/trials-checks.csv");
    assert_eq!(checks.lines().count(), 2, "{checks}");
    assert!(checks.contains(",low,require,rise,0 min,close,0."), "{checks}");
    // The same in a report for reading; a sheet reads the table again.
    let told = bench.run(&["run", "job.dew", "--trials", "2000"]).out;
    assert!(told.contains("How often a check holds") && told.contains("CLOSE     low: rise 0 min (50.0 %)"), "{told}");
    bench.run(&["columns", "tables/table-rise.csv"]).ends_with_code(0).prints("pressure");
}

#[test]
fn what_may_stay_away_is_not_asked_for() {
    let bench = Bench::with_sheet("input spare : psig optional\ninput must : psig\n");
    let told = bench.run(&["run", "job.dew"]).out;
    assert!(told.contains("spare  not given") && told.contains("must   ? TO TAKE"), "{told}");
}

#[test]
fn a_failed_condition_is_written_out_and_leaves_no_blank_line() {
    let bench = Bench::with_sheet("require \"both\" 1 < 2 and 3 < 2\nrequire \"same\" 1 == 2\n");
    let told = bench.run(&["run", "job.dew", "--quiet"]).out;
    assert!(told.contains("FAILED    both\n              this does not hold: 1 < 2 and 3 < 2\n    FAILED"), "{told}");
    let bench = Bench::with_sheet("require not 1 < 2\nrequire \"b\" 3 < 2\n");
    let told = bench.run(&["run", "job.dew", "--quiet"]).out;
    assert!(told.contains("FAILED    not 1 < 2\n    FAILED    b\n"), "{told}");
}

#[test]
fn a_report_never_overwrites_what_the_run_reads() {
    let bench = Bench::with_sheet(PASSING);
    bench.run(&["run", "job.dew", "--out", "./job.dew", "--format", "text"]).ends_with_code(2).says("overwrite");
    assert_eq!(bench.read("job.dew"), PASSING);
    bench.run(&["run", "job.dew", "--out", "no/such/a.txt"]).ends_with_code(2).says("cannot be written");
}

#[test]
fn an_old_report_does_not_outlive_a_sheet_that_broke() {
    let bench = Bench::with_sheet(PASSING);
    bench.run(&["run", "job.dew", "--out", "a.txt"]).ends_with_code(0);
    bench.file("job.dew", "a = 3 ft + 1 lb\n");
    bench.run(&["run", "job.dew", "--out", "a.txt"]).ends_with_code(2);
    assert!(bench.read("a.txt").contains("UNUSABLE"));
}

#[test]
fn markdown_and_quiet_say_the_verdict() {
    let bench = Bench::with_sheet(&sheet_reading("= 540.0 psig"));
    bench.run(&["run", "job.dew", "--format", "markdown"]).ends_with_code(1).prints("**FAILED.**").prints("| Test |");
    let left = bench.run(&["run", "job.dew", "--quiet"]).ends_with_code(1);
    assert!(left.out.lines().count() < 12, "{}", left.out);
    left.prints("holds pressure");
}

const LOGGED: &str = "sheet \"Hold\"\ntable hold from \"log.xlsx#Log\"\n  time | pressure\n  min | micron\nend\n\
     most : micron = max(hold.pressure)\nrequire \"level\" most <= 500 micron\n";

fn logged(bad: bool) -> Vec<u8> {
    let mut book = rust_xlsxwriter::Workbook::new();
    book.add_worksheet().write_string(0, 0, "nothing").unwrap();
    let sheet = book.add_worksheet();
    sheet.set_name("Log").unwrap();
    for (at, head) in ["time [min]", "pressure [micron]"].into_iter().enumerate() {
        sheet.write_string(0, at as u16, head).unwrap();
    }
    for (at, pressure) in [312.0, 341.0, 352.5].into_iter().enumerate() {
        sheet.write_number(at as u32 + 1, 0, at as f64 * 5.0).unwrap();
        sheet.write_number(at as u32 + 1, 1, pressure).unwrap();
    }
    if bad {
        let formula = rust_xlsxwriter::Formula::new("=1/0").set_result("#DIV/0!");
        sheet.write_formula(2, 1, formula).unwrap();
    }
    book.save_to_buffer().unwrap()
}

#[test]
fn a_table_is_read_from_a_workbook_and_a_workbook_written_is_read_again() {
    let bench = Bench::with_sheet(LOGGED);
    bench.file("log.xlsx", logged(false));
    bench.run(&["run", "job.dew"]).ends_with_code(0).prints("352.5 micron");
    bench
        .run(&["columns", "log.xlsx#Log"])
        .ends_with_code(0)
        .prints("table log from \"log.xlsx#Log\"\n  time | pressure\n");
    bench.run(&["run", "job.dew", "--out", "out.xlsx"]).ends_with_code(0);
    let again = std::fs::read(bench.path().join("out.xlsx")).unwrap();
    bench.run(&["run", "job.dew", "--out", "out.xlsx"]).ends_with_code(0);
    assert!(again == std::fs::read(bench.path().join("out.xlsx")).unwrap(), "the same run gives the same bytes");
    bench.run(&["run", "job.dew", "--set", "hold=out.xlsx#hold"]).ends_with_code(0).prints("352.5 micron");
    bench.run(&["run", "job.dew", "--record", "run.json"]).ends_with_code(0);
    bench.file("log.xlsx", logged(true));
    bench.run(&["audit", "run.json"]).ends_with_code(0);
    let refused = bench.run(&["run", "job.dew"]).ends_with_code(2);
    refused
        .says("\"log.xlsx\" sheet \"Log\", cell B3, column `pressure [micron]`:")
        .says("\"#DIV/0!\" is an error of the workbook");
    bench.run(&["run", "job.dew", "--set", "hold=log.xlsx#Lot"]).ends_with_code(2).says("did you mean \"Log\"?");
}

#[test]
fn the_page_and_the_workbook_name_the_record() {
    let bench = Bench::with_sheet(PASSING);
    bench.run(&["run", "job.dew", "--out", "a.html", "--record", "run.json"]).ends_with_code(0);
    let record: serde_json::Value = serde_json::from_str(&bench.read("run.json")).unwrap();
    let digest = record["digest"].as_str().unwrap();
    assert!(bench.read("a.html").contains(digest));
}

#[test]
fn no_report_takes_the_place_of_what_the_run_reads() {
    let sheet = "table hold from \"hold.csv\"\n  t | p\n  min | micron\nend\n";
    let bench = Bench::with_sheet(&format!("{sheet}last_one = last(hold.p)\n"));
    bench.file("cells.dew", sheet.replace("hold.csv", "cells.csv"));
    let hold = "t,p\n0,300\n5,310\n";
    for name in ["hold.csv", "other.csv", "cells.csv"] {
        bench.file(name, hold);
    }
    for arguments in [
        &["run", "job.dew", "--out", "hold.csv"][..],
        &["run", "job.dew", "--out", "./hold.csv", "--format", "text"],
        &["run", "job.dew", "--out", "other.csv", "--set", "hold=other.csv"],
        &["run", "job.dew", "--out", "job.dew", "--format", "text"],
        &["run", "cells.dew", "--out", "./"],
    ] {
        bench.run(arguments).ends_with_code(2).says("which the run reads");
        for name in ["hold.csv", "other.csv", "cells.csv"] {
            assert_eq!(bench.read(name), hold, "{arguments:?}");
        }
        assert_eq!(bench.names(), ["cells.csv", "cells.dew", "hold.csv", "job.dew", "other.csv"], "{arguments:?}");
    }
    bench.run(&["run", "job.dew", "--out", "cells.csv"]).ends_with_code(0);
}
