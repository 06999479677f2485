//! Records made, read and forged by the tests. Digests are taken with a canonical form of another make.

use serde_json::Value;
use sha2::{Digest, Sha256};

use crate::Bench;

/// A job with a used sheet, a data file, a setting and a stated site.
pub const JOB: &str = "sheet \"Riser B\"\nunits IP\nsite altitude = 1280 ft\nuse \"parts/rules.dew\"\n\
    input start = 550.0 psig \"by the plan\"\nreading end_pressure : psig\ndrop : psi = fallen(start, end_pressure)\n\
    table rise from \"rise.csv\"\n  time | pressure\n  min | micron\nend\n\
    stage \"Test\"\n  require \"holds pressure\" drop within ± 3 psi\n  require \"deep enough\" mean(rise.pressure) <= 500 micron\nend\n\
    # kept as a note of the fitter\n";
pub const RULES: &str = "define fallen(from : psig, to : psig) = from - to\n";
pub const RISE: &str = "time [min],pressure [micron]\n0,312\n5,341\n10,352\n";

/// A folder with the job, and its record `r.json`.
pub fn recorded(more: &[&str]) -> Bench {
    let bench = job();
    let mut arguments = vec!["run", "job.dew", "--set", "end_pressure=549 psig", "--record", "r.json"];
    arguments.extend(more);
    bench.run(&arguments).ends_with_code(0);
    bench
}

/// A folder with the job.
pub fn job() -> Bench {
    let bench = Bench::with_sheet(JOB);
    bench.file("parts/rules.dew", RULES);
    bench.file("rise.csv", RISE);
    bench
}

/// The record of a folder.
pub fn read(bench: &Bench) -> Value {
    serde_json::from_str(&bench.read("r.json")).unwrap()
}

/// Writes a record as it stands.
pub fn write(bench: &Bench, record: &Value) {
    bench.file("r.json", serde_json::to_string_pretty(record).unwrap());
}

/// Gives a record digests that fit, as a forger would.
pub fn redigest(record: &mut Value) {
    for file in record["record"]["files"].as_array_mut().into_iter().flatten() {
        if let Some(text) = file["text"].as_str() {
            file["sha256"] = Value::from(sha256(text.as_bytes()));
        }
    }
    for part in ["asked", "files", "job", "made_by", "outcome"] {
        let digest = sha256(&serde_json_canonicalizer::to_vec(&record["record"][part]).unwrap());
        record["record"]["parts"][part] = Value::from(digest);
    }
    record["digest"] = Value::from(digest(record));
}

/// The digest that a record should have.
pub fn digest(record: &Value) -> String {
    sha256(&serde_json_canonicalizer::to_vec(&record["record"]).unwrap())
}

pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The one line of JSON that an audit gives, after it was held against its schema.
pub fn audited(bench: &Bench, more: &[&str]) -> Value {
    let mut arguments = vec!["audit", "r.json", "--format", "jsonl"];
    arguments.extend(more);
    let left = bench.run(&arguments);
    let report: Value = serde_json::from_str(&left.out).unwrap_or_else(|_| panic!("{}{}", left.out, left.err));
    fits(include_str!("../../schema/audit-1.schema.json"), &report);
    let code = match report["result"].as_str().unwrap() {
        "same" => 0,
        "cannot run" => 2,
        _ => 1,
    };
    assert_eq!(left.code, code, "{report}");
    report
}

/// Holds JSON against a schema; that of outcomes is at hand.
#[track_caller]
pub fn fits(schema: &str, value: &Value) {
    let mut schema: Value = serde_json::from_str(schema).unwrap();
    schema["$defs"]["outcomes"] = serde_json::from_str(include_str!("../../schema/outcome-1.schema.json")).unwrap();
    let validator = jsonschema::draft202012::new(&schema).unwrap();
    let errors: Vec<String> =
        validator.iter_errors(value).map(|error| format!("{}: {error}", error.instance_path())).collect();
    assert!(errors.is_empty(), "{}", errors.join("\n"));
}
