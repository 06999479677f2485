//! Audits: against the sheets of today, with another library, of many records.

use serde_json::{Value, json};

use crate::Bench;
use crate::records::{JOB, RISE, RULES, audited, job, read, recorded, redigest, write};

/// Changes of one kind: name, old and new.
fn changes<'a>(report: &'a Value, what: &str) -> Vec<(&'a str, &'a str, &'a str)> {
    let text = |value: &'a Value| value.as_str().unwrap_or("");
    let all = report["changes"].as_array().unwrap().iter().filter(|change| change["what"] == what);
    all.map(|change| (text(&change["name"]), text(&change["old"]), text(&change["new"]))).collect()
}

#[test]
fn sheets_that_are_as_they_were_come_to_the_same() {
    let bench = recorded(&[]);
    let report = audited(&bench, &["--sources", "."]);
    assert_eq!(report["result"], "same", "{report:#}");
}

#[test]
fn what_changed_on_disk_is_told_cell_by_cell_verdicts_first() {
    let bench = recorded(&[]);
    bench.file("job.dew", JOB.replace("550.0", "560.0").replace("± 3", "± 4"));
    bench.file("parts/rules.dew", RULES.replace("from - to", "2 * (from - to)"));
    bench.file("rise.csv", RISE.replace("341", "346"));
    let report = audited(&bench, &["--sources", "."]);
    assert_eq!(report["result"], "differs");
    assert_eq!(changes(&report, "verdict"), [("job", "passed", "failed")]);
    assert_eq!(changes(&report, "stage"), [("Test", "passed", "failed")]);
    let check = changes(&report, "check");
    assert_eq!(check.len(), 1, "{report:#}");
    assert_eq!(check[0].0, "\"holds pressure\" in Test");
    assert!(check[0].1.starts_with("passed, drop = 1 psi") && check[0].2.starts_with("failed, drop = 22 psi"));
    assert_eq!(changes(&report, "limit"), [("\"holds pressure\" in Test", "within -3 .. 3 psi", "within -4 .. 4 psi")]);
    // A column without an instrument is given, not measured.
    assert_eq!(changes(&report, "input").len(), 2);
    assert!(changes(&report, "input")[0].2.starts_with("560 psig"));
    assert_eq!(changes(&report, "value"), [("drop", "1 psi", "22 psi")]);
    let row = report["changes"].as_array().unwrap().iter().find(|change| change["name"] == "rise.pressure").unwrap();
    assert_eq!((&row["row"], &row["old"], &row["new"]), (&json!("2"), &json!("341 micron"), &json!("346 micron")));
    let files: Vec<&str> =
        report["files"].as_array().unwrap().iter().map(|file| file["name"].as_str().unwrap()).collect();
    assert_eq!(files, ["job.dew", "parts/rules.dew", "rise.csv"]);
    let whats: Vec<&str> =
        report["changes"].as_array().unwrap().iter().map(|change| change["what"].as_str().unwrap()).collect();
    assert_eq!(whats[..3], ["verdict", "stage", "check"]);

    let text = bench.run(&["audit", "r.json", "--sources", "."]).ends_with_code(1);
    for said in
        ["differs     r.json", "  verdict\n    job: passed → failed", "drop: 1 psi → 22 psi", "\"rise.csv\" changed"]
    {
        assert!(text.out.contains(said), "no {said:?} in\n{}", text.out);
    }
}

#[test]
fn what_is_printed_of_uncertain_rows_is_not_told_beside_the_rows() {
    let sheet = "table t\n  x | y\n  - | kPag ± 1 kPa\n  1 | 200\n  2 | 300\n  twice : kPa = 2 * (y - 0 kPag)\nend\n";
    let bench = Bench::with_sheet(sheet);
    bench.run(&["run", "job.dew", "--record", "r.json", "--quiet"]).ends_with_code(0);
    bench.file("job.dew", sheet.replace("300", "301"));
    let report = audited(&bench, &["--sources", "."]);
    let told: Vec<&str> =
        report["changes"].as_array().unwrap().iter().filter_map(|change| change["name"].as_str()).collect();
    assert_eq!(told, ["t.y", "t.twice"], "{report:#}");
    // A text that somebody changed in the record is found though no value is another.
    bench.file("job.dew", sheet);
    let mut record = read(&bench);
    let text = &mut record["record"]["outcome"]["tables"][0]["columns"][2]["together"][0];
    assert_eq!(text.as_str(), Some("400.0 ± 2.3"));
    *text = json!("400.0 ± 0.3");
    redigest(&mut record);
    write(&bench, &record);
    assert!(bench.run(&["audit", "r.json"]).ends_with_code(1).out.contains("together"));
}

#[test]
fn a_formula_that_changed_is_told_as_written() {
    let bench = recorded(&[]);
    bench.file("job.dew", JOB.replace("fallen(start, end_pressure)", "start - end_pressure"));
    let report = audited(&bench, &["--sources", "."]);
    assert_eq!(changes(&report, "formula"), [("drop", "fallen(start, end_pressure)", "start - end_pressure")]);
    assert!(changes(&report, "value").is_empty(), "{report:#}");
}

#[test]
fn words_alone_are_a_difference_of_the_text_and_of_no_value() {
    let bench = recorded(&[]);
    bench.file("job.dew", format!("{JOB}# and a comment\n"));
    let report = audited(&bench, &["--sources", "."]);
    assert_eq!((&report["result"], &report["changes"]), (&json!("differs"), &json!([])));
    bench.run(&["audit", "r.json", "--sources", "."]).ends_with_code(1).prints("no value differs");
}

#[test]
fn a_row_is_known_by_its_key_wherever_it_stands() {
    let sheet = "table indoor from \"indoor.csv\"\n  tag | gas_pipe\n  text | degF\nend\n";
    let bench = crate::Bench::with_sheet(sheet);
    bench.file("indoor.csv", "tag,gas_pipe [degF]\nExam 1,52.3\nExam 2,51.8\n");
    bench.run(&["run", "job.dew", "--record", "r.json", "--quiet"]);
    bench.file("indoor.csv", "tag,gas_pipe [degF]\nStore,70.4\nExam 2,51.9\nExam 1,52.3\n");
    let report = audited(&bench, &["--sources", "."]);
    let rows: Vec<(&Value, &Value)> = report["changes"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|change| change["name"] == "indoor.gas_pipe")
        .map(|change| (&change["row"], &change["new"]))
        .collect();
    assert_eq!(rows.len(), 2, "{report:#}");
    assert_eq!(rows[0].0, "Exam 2");
    assert_eq!(rows[1].0, "Store");
}

#[test]
fn sources_that_are_not_there_cannot_be_run() {
    let bench = recorded(&[]);
    std::fs::create_dir(bench.path().join("else")).unwrap();
    let report = audited(&bench, &["--sources", "else"]);
    assert_eq!(report["result"], "cannot run", "{report:#}");
    bench.file("job.dew", "a = 3 ft + 1 lb\n");
    assert_eq!(audited(&bench, &["--sources", "."])["result"], "cannot run");
}

/// A record as an older library would have made it: its fingerprint is another, and its numbers differ a little.
fn older(factor: f64) -> crate::Bench {
    let bench = recorded(&[]);
    let mut record = read(&bench);
    record["record"]["made_by"]["fingerprints"]["trade library"] = json!("0".repeat(64));
    for cell in record["record"]["outcome"]["cells"].as_array_mut().unwrap() {
        if let Some(si) = cell["si"].as_f64().filter(|_| cell["name"] == "drop") {
            cell["si"] = json!(si * factor);
            cell["shown"]["number"] = json!(cell["shown"]["number"].as_f64().unwrap() * factor);
        }
    }
    redigest(&mut record);
    write(&bench, &record);
    bench
}

#[test]
fn a_tolerance_holds_for_an_older_library() {
    let bench = older(1.0 + 1e-8);
    let report = audited(&bench, &[]);
    assert_eq!(report["result"], "differs");
    assert_eq!(report["library"], json!(["trade library: another fingerprint"]));
    let largest = report["largest_difference"].as_f64().unwrap();
    assert!((largest / 1e-8 - 1.0).abs() < 1e-3, "{largest}");
    let report = audited(&bench, &["--tolerance", "1e-7"]);
    assert_eq!((&report["result"], &report["within_tolerance"]), (&json!("same"), &json!(2)), "{report:#}");
    assert_eq!(audited(&bench, &["--tolerance", "1e-9"])["result"], "differs");
    bench.run(&["audit", "r.json", "--tolerance", "1e-7"]).ends_with_code(0).prints("2 numbers differ within");
    bench.run(&["audit", "r.json", "--tolerance", "2"]).ends_with_code(2).says("from 0 to less than 1");
}

#[test]
fn no_tolerance_holds_for_the_same_library() {
    let bench = older(1.0 + 1e-8);
    let mut record = read(&bench);
    let this = recorded(&[]);
    record["record"]["made_by"] = read(&this)["record"]["made_by"].clone();
    redigest(&mut record);
    write(&bench, &record);
    assert_eq!(audited(&bench, &["--tolerance", "1e-7"])["result"], "differs");
}

#[test]
fn one_bad_record_never_stops_the_rest() {
    let bench = job();
    let rows: String = (0..30).map(|row| format!("{}\n", 548.0 + f64::from(row) / 10.0)).collect();
    bench.file("jobs.csv", format!("end_pressure [psig]\n{rows}"));
    bench.run(&["run", "job.dew", "--set-from", "jobs.csv", "--record", "done", "--quiet"]).ends_with_code(0);
    bench.file("done/00007-job.json", "{");
    bench.file("done/00011-job.json", bench.read("done/00012-job.json").replace("\"passed\"", "\"failed\""));
    bench.file("done/deeper/a.json", "[]");
    bench.file("done/.hidden.json", "[]");
    bench.file("done/notes.txt", "[]");
    let left = bench.run(&["audit", "done"]).ends_with_code(2);
    for said in [
        "cannot run  done/00007-job.json",
        "tampered    done/00011-job.json",
        "cannot run  done/deeper/a.json",
        "      31  records\n      28  same\n       1  tampered\n       2  cannot run\n",
    ] {
        assert!(left.out.contains(said), "no {said:?} in\n{}", left.out);
    }
    assert!(left.err.is_empty(), "{}", left.err);
    // The order is that of the names, however many threads there are.
    let lines = |threads| bench.run(&["audit", "done", "--format", "jsonl", "--threads", threads]).out;
    assert_eq!(lines("1"), lines("4"));
    assert_eq!(lines("1").lines().count(), 31);
}
