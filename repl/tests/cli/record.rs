//! `run --record`: what a record holds, and where it goes.

use serde_json::Value;

use crate::records::{self, JOB, RISE, RULES, audited, digest, fits, job, read, recorded, sha256};
use crate::{Bench, PASSING, sheet_reading};

#[test]
fn a_record_holds_all_that_the_run_used_and_fits_its_schema() {
    let bench = recorded(&[]);
    let record = read(&bench);
    fits(include_str!("../../schema/record-1.schema.json"), &record);
    assert_eq!(record["digest"], digest(&record));
    let files = record["record"]["files"].as_array().unwrap();
    let embedded: Vec<(&str, &str)> =
        files.iter().map(|file| (file["name"].as_str().unwrap(), file["text"].as_str().unwrap())).collect();
    assert_eq!(embedded, [("job.dew", JOB), ("parts/rules.dew", RULES), ("rise.csv", RISE)]);
    for (file, (_, text)) in files.iter().zip(embedded) {
        assert_eq!(file["sha256"], sha256(text.as_bytes()));
    }
    let job = &record["record"]["job"];
    assert_eq!(
        job["settings"],
        serde_json::json!([{"name": "end_pressure", "value": "549 psig", "from": "the command line"}])
    );
    // 1,280 ft: 101.325 kPa · (1 − 2.25577e-5 · 390.144)^5.2559, ASHRAE Handbook—Fundamentals 2021, ch. 1, eq. 3.
    assert!((job["site"]["atmosphere"].as_f64().unwrap() - 96_725.063_6).abs() < 1e-3, "{}", job["site"]);
    let prints = record["record"]["made_by"]["fingerprints"].as_object().unwrap();
    for name in ["language", "trade library", "declarations", "data: equations", "data: saturation", "data: viscosity"]
    {
        assert!(prints.contains_key(name), "{name}");
    }
    assert_eq!(record["record"]["outcome"]["verdict"], "passed");
}

#[test]
fn the_outcome_in_a_record_has_every_bit_of_the_outcome_printed() {
    let bench = recorded(&[]);
    let printed =
        bench.run(&["run", "job.dew", "--set", "end_pressure=549 psig", "--format", "json"]).ends_with_code(0);
    let printed: Value = serde_json::from_str(&printed.out).unwrap();
    // 1280 and 1280.0 are one number: the canonical form of another make decides.
    let form = |value: &Value| serde_json_canonicalizer::to_string(value).unwrap();
    assert_eq!(form(&read(&bench)["record"]["outcome"]), form(&printed));
}

#[test]
fn a_record_does_not_depend_on_where_it_was_made() {
    let bench = recorded(&[]);
    let whole = bench.path().join("job.dew");
    let elsewhere = Bench::new();
    let arguments = ["run", whole.to_str().unwrap(), "--set", "end_pressure=549 psig", "--record", "r.json"];
    elsewhere.run(&arguments).ends_with_code(0);
    assert_eq!(read(&elsewhere)["digest"], read(&bench)["digest"]);
}

#[test]
fn an_audit_in_another_folder_finds_the_same() {
    let elsewhere = Bench::new();
    elsewhere.file("r.json", recorded(&[]).read("r.json"));
    let report = audited(&elsewhere, &[]);
    assert_eq!((&report["result"], &report["verdict"]), (&Value::from("same"), &Value::from("passed")));
    // Laid out anew by another program, it is still the same record.
    records::write(&elsewhere, &read(&elsewhere));
    assert_eq!(audited(&elsewhere, &[])["result"], "same");
}

#[test]
fn what_a_run_met_with_is_met_with_again() {
    // A table that is not there, a broken cell, a pending reading: each is an outcome like any other.
    for (text, code) in [
        ("table rise from \"rsie.csv\"\n  time | pressure\n  min | micron\nend\na = 1\n", 2),
        ("a = 1 ft / (2 ft - 2 ft)\n", 2),
        (sheet_reading(": psig").as_str(), 3),
        (sheet_reading("= 540 psig").as_str(), 1),
    ] {
        let bench = Bench::with_sheet(text);
        bench.file("rise.csv", RISE);
        bench.run(&["run", "job.dew", "--record", "r.json"]).ends_with_code(code);
        let elsewhere = Bench::new();
        elsewhere.file("r.json", bench.read("r.json"));
        assert_eq!(audited(&elsewhere, &[])["result"], "same", "{text}");
        fits(include_str!("../../schema/record-1.schema.json"), &read(&bench));
    }
}

#[test]
fn bytes_that_are_no_text_are_kept_too() {
    let bench = Bench::with_sheet("table rise from \"rise.csv\"\n  time | pressure\n  min | micron\nend\n");
    bench.file("rise.csv", b"time [min],pressure [micron]\n0,312 \xb0\n");
    bench.run(&["run", "job.dew", "--record", "r.json"]).ends_with_code(2).says("UTF-8");
    assert_eq!(audited(&bench, &[])["result"], "same");
}

#[test]
fn a_sheet_from_standard_input_is_recorded() {
    let bench = Bench::new();
    bench.run_with(&["run", "-", "--record", "r.json"], PASSING).ends_with_code(0);
    assert_eq!(audited(&bench, &[])["result"], "same");
}

#[test]
fn a_row_of_settings_is_a_record() {
    let bench = job();
    bench.file("jobs.csv", "end_pressure [psig]\n549\n540\n\"549.5\"\n");
    let arguments = ["run", "job.dew", "--set-from", "jobs.csv", "--record", "done/", "--quiet"];
    bench.run(&arguments).ends_with_code(1);
    let names: Vec<String> = ["00001-job.json", "00002-job.json", "00003-job.json"].map(str::to_string).into();
    for name in &names {
        bench.file("r.json", bench.read(&format!("done/{name}")));
        assert_eq!(audited(&bench, &[])["result"], "same");
    }
    assert_eq!(read(&bench)["record"]["job"]["row"], "jobs.csv line 4");
    let left = bench.run(&["audit", "done"]).ends_with_code(0);
    assert_eq!(left.out, "       3  records\n       3  same\n");
}

#[test]
fn a_record_overwrites_a_record_and_nothing_else() {
    let bench = recorded(&[]);
    let with =
        |record: &str| bench.run(&["run", "job.dew", "--set", "end_pressure=548 psig", "--quiet", "--record", record]);
    let before = read(&bench)["digest"].clone();
    with("r.json").ends_with_code(0);
    assert_ne!(read(&bench)["digest"], before);
    with("job.dew").ends_with_code(2).says("overwrite");
    with("rise.csv").ends_with_code(2).says("is no record");
    assert_eq!((bench.read("job.dew").as_str(), bench.read("rise.csv").as_str()), (JOB, RISE));
    with("-").ends_with_code(2).says("file");
    with("no/such/r.json").ends_with_code(2).says("cannot be written");
    bench.run(&["run", "job.dew", "--record", "a.json", "--out", "a.json"]).ends_with_code(2).says("both");
    assert_eq!(bench.names(), ["job.dew", "parts", "r.json", "rise.csv"]);
}

#[test]
fn a_sheet_that_cannot_be_run_leaves_the_old_record() {
    let bench = recorded(&[]);
    let before = bench.read("r.json");
    bench.run(&["run", "job.dew", "--set", "end_presure=1 psig", "--record", "r.json"]).ends_with_code(2);
    bench.file("job.dew", "a = 3 ft + 1 lb\n");
    bench.run(&["run", "job.dew", "--record", "r.json"]).ends_with_code(2).says("no record was written");
    assert_eq!(bench.read("r.json"), before);
}
