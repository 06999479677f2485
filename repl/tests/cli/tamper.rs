//! Everything that can be changed in a record, each told as what it is.

use serde_json::{Value, json};

use crate::records::{audited, digest, read, recorded, redigest, sha256, write};

/// Changes a record by this, and returns what the audit says.
fn after(change: impl Fn(&mut Value)) -> Value {
    let bench = recorded(&[]);
    let mut record = read(&bench);
    let before = record.clone();
    change(&mut record);
    assert_ne!(record, before, "nothing was changed");
    write(&bench, &record);
    audited(&bench, &[])
}

#[track_caller]
fn is(report: &Value, result: &str, why: &str) {
    assert_eq!(report["result"], result, "{report:#}");
    let said = format!("{} {}", report["why"], report["changes"]);
    assert!(said.contains(why), "no {why:?} in {report:#}");
}

/// Changes one text in an embedded file.
fn in_file(record: &mut Value, name: &str, old: &str, new: &str) {
    let files = record["record"]["files"].as_array_mut().unwrap();
    let file = files.iter_mut().find(|file| file["name"] == name).unwrap();
    let text = file["text"].as_str().unwrap();
    assert!(text.contains(old), "{text}");
    file["text"] = Value::from(text.replacen(old, new, 1));
}

#[test]
fn one_character_of_an_embedded_file() {
    let cases = [
        ("a given value", "job.dew", "550.0", "551.0"),
        ("a formula", "job.dew", "fallen(start, end", "fallen(end_pressure, end"),
        ("a limit", "job.dew", "± 3 psi", "± 9 psi"),
        ("a unit", "job.dew", "500 micron", "500 torr"),
        ("a label", "job.dew", "holds pressure", "held pressure"),
        ("a comment", "job.dew", "fitter", "Fitter"),
        ("the altitude", "job.dew", "1280", "1290"),
        ("a blank", "job.dew", "input start", "input  start"),
        ("a reading in a data file", "rise.csv", "341", "342"),
        ("a unit in a data file", "rise.csv", "[micron]", "[Pa]"),
        ("a row of a data file", "rise.csv", "10,352\n", ""),
        ("a definition", "parts/rules.dew", "from - to", "to - from"),
    ];
    for (what, name, old, new) in cases {
        let report = after(|record| in_file(record, name, old, new));
        is(&report, "tampered", &format!("the embedded file \\\"{name}\\\" does not fit its SHA-256"));
        assert!(report["why"].to_string().contains("the embedded files changed"), "{what}: {report:#}");
    }
}

#[test]
fn what_stands_beside_the_files() {
    let file = |record: &mut Value, index: usize, field: &str, value: Value| {
        record["record"]["files"][index][field] = value;
    };
    is(&after(|record| file(record, 0, "sha256", json!("0".repeat(64)))), "tampered", "\\\"job.dew\\\" does not fit");
    is(&after(|record| file(record, 1, "name", json!("parts/rulez.dew"))), "cannot run", "parts/rules.dew");
    is(
        &after(|record| {
            in_file(record, "rise.csv", "341", "342");
            let sum = sha256(record["record"]["files"][2]["text"].as_str().unwrap().as_bytes());
            record["record"]["files"][2]["sha256"] = json!(sum);
        }),
        "tampered",
        "the digest does not fit: the embedded files changed",
    );
    is(
        &after(|record| record["record"]["asked"][0]["path"] = json!("parts/other.dew")),
        "tampered",
        "the list of the files asked for changed",
    );
}

#[test]
fn anything_in_the_outcome() {
    let cases: [(&str, &str, Value); 11] = [
        ("the verdict", "/verdict", json!("failed")),
        ("the last bit of a number", "/cells/3/si", json!(0.1)),
        ("a value as shown", "/cells/3/shown/text", json!("0.9 psi")),
        ("a formula", "/cells/3/formula", json!("start")),
        ("a verdict on a check", "/checks/0/verdict", json!("failed")),
        ("a limit", "/checks/0/limit", json!("within -9 psi .. 9 psi")),
        ("a margin", "/checks/0/margin_si", json!(1.0)),
        ("a verdict on a stage", "/stages/0/verdict", json!("waiting")),
        ("a row of a table", "/tables/0/columns/1/si/1", json!(45.0)),
        ("the title", "/sheet/title", json!("Riser C")),
        ("what is to be taken", "/to_take", json!(["end_pressure"])),
    ];
    for (what, at, value) in cases {
        let report = after(|record| *record["record"]["outcome"].pointer_mut(at).expect(at) = value.clone());
        is(&report, "tampered", "the digest does not fit: the outcome changed");
        // Running again tells what it was.
        assert_eq!(report["changes"].as_array().unwrap().len(), 1, "{what}: {report:#}");
    }
    let report = after(|record| {
        record["record"]["outcome"]["cells"].as_array_mut().unwrap().remove(0);
    });
    is(&report, "tampered", "the outcome changed");
    let report = after(|record| record["record"]["outcome"]["advice"] = json!(["take more care"]));
    is(&report, "tampered", "the outcome changed");
}

#[test]
fn what_was_set_the_site_and_the_versions() {
    let job = "the job: its settings, its sheet or its site changed";
    let made = "the versions or fingerprints of what made it changed";
    is(&after(|record| record["record"]["job"]["settings"][0]["value"] = json!("549.1 psig")), "tampered", job);
    is(&after(|record| record["record"]["job"]["settings"] = json!([])), "tampered", job);
    is(&after(|record| record["record"]["job"]["row"] = json!("jobs.csv line 2")), "tampered", job);
    is(&after(|record| record["record"]["job"]["site"]["atmosphere"] = json!(101_325.0)), "tampered", job);
    is(&after(|record| record["record"]["job"]["site"]["stated"] = json!(false)), "tampered", job);
    is(&after(|record| record["record"]["job"]["sheet"] = json!("parts/rules.dew")), "tampered", job);
    is(&after(|record| record["record"]["made_by"]["versions"]["dewline"] = json!("0.0.9")), "tampered", made);
    is(&after(|record| record["record"]["made_by"]["versions"]["libm"] = json!("0.1.0")), "tampered", made);
    is(
        &after(|record| record["record"]["made_by"]["fingerprints"]["data: equations"] = json!("1".repeat(64))),
        "tampered",
        made,
    );
    is(
        &after(|record| record["record"]["parts"]["files"] = json!("1".repeat(64))),
        "tampered",
        "the digest does not fit",
    );
    is(&after(|record| record["digest"] = json!("2".repeat(64))), "tampered", "the digest itself was changed");
    is(&after(|record| record["format"] = json!("dewline-record/2")), "cannot run", "this version reads");
}

#[test]
fn a_forger_who_mends_every_digest_is_met_by_the_numbers() {
    let report = after(|record| {
        record["record"]["outcome"]["cells"][3]["shown"]["text"] = json!("0.1 psi");
        redigest(record);
    });
    is(&report, "differs", "0.1 psi");
    let report = after(|record| {
        in_file(record, "job.dew", "± 3 psi", "± 0.5 psi");
        redigest(record);
    });
    is(&report, "differs", "verdict");
    assert_eq!(
        report["changes"][0],
        json!({"what": "verdict", "name": "job", "row": null, "old": "passed",
        "new": "failed", "by_library": false})
    );
    let report = after(|record| {
        record["record"]["job"]["site"]["atmosphere"] = json!(101_325.0);
        redigest(record);
    });
    is(&report, "differs", "atmosphere");
}

#[test]
fn signatures() {
    let bench = crate::records::job();
    bench.run(&["record", "keys", "qa"]).ends_with_code(0);
    bench.run(&["record", "keys", "other"]).ends_with_code(0);
    let make = |key: &str| {
        let arguments =
            ["run", "job.dew", "--set", "end_pressure=549 psig", "--quiet", "--record", "r.json", "--sign", key];
        bench.run(&arguments).ends_with_code(0);
        read(&bench)
    };
    let trust = ["--trust", "qa.public.pem"];
    let others = make("other.private.pem");
    is(&audited(&bench, &trust), "not trusted", "");
    assert_eq!(audited(&bench, &trust)["signature"]["state"], "untrusted");
    assert_eq!(audited(&bench, &["--trust", "qa.public.pem", "--trust", "other.public.pem"])["result"], "same");
    let good = make("qa.private.pem");
    assert_eq!(audited(&bench, &trust)["signature"]["state"], "trusted");
    is(&audited(&bench, &trust), "same", "");
    is(&audited(&bench, &[]), "same", "");

    let wrong = |change: &dyn Fn(&mut Value), result: &str, why: &str| {
        let mut record = good.clone();
        change(&mut record);
        write(&bench, &record);
        is(&audited(&bench, &trust), result, why);
    };
    let flip = |text: &Value| {
        let text = text.as_str().unwrap();
        let first = if text.starts_with('A') { "B" } else { "A" };
        Value::from(format!("{first}{}", &text[1..]))
    };
    wrong(
        &|record| record["signature"]["value"] = flip(&record["signature"]["value"]),
        "tampered",
        "does not fit the record",
    );
    wrong(&|record| record["signature"]["value"] = json!("AAAA"), "tampered", "not the length");
    wrong(&|record| record["signature"]["value"] = json!("not base64!"), "tampered", "not base64");
    wrong(
        &|record| record["signature"]["key"] = others["signature"]["key"].clone(),
        "tampered",
        "does not fit the record",
    );
    wrong(&|record| record["signature"]["key"] = json!("AAAA"), "tampered", "no Ed25519 key");
    wrong(&|record| record["signature"]["algorithm"] = json!("none"), "tampered", "not by Ed25519");
    // The other record says the same, and may have been made in the same second.
    let stranger = |record: &mut Value| {
        record["signature"] = others["signature"].clone();
        record["run_at"] = json!("2020-01-01T00:00:00Z");
    };
    wrong(&stranger, "tampered", "does not fit the record");
    wrong(&|record| record["run_at"] = json!("2020-01-01T00:00:00Z"), "tampered", "does not fit the record");
    wrong(&|record| record["digest"] = json!("3".repeat(64)), "tampered", "signature is wrong");
    wrong(&|record| drop(record.as_object_mut().unwrap().remove("signature")), "not trusted", "");
    let mended = |record: &mut Value| {
        in_file(record, "job.dew", "# kept", "# Kept");
        let text = record["record"]["files"][0]["text"].as_str().unwrap();
        let sum = json!(sha256(text.as_bytes()));
        record["record"]["outcome"]["sheet"]["sha256"] = sum.clone();
        let read = record["record"]["outcome"]["files"].as_array_mut().unwrap();
        read.iter_mut().find(|file| file["name"] == "job.dew").unwrap()["sha256"] = sum;
        redigest(record);
    };
    wrong(&mended, "tampered", "signature is wrong: it does not fit the record");
    let unsigned = |record: &mut Value| {
        mended(record);
        record.as_object_mut().unwrap().remove("signature");
    };
    wrong(&unsigned, "not trusted", "");
    assert_eq!(digest(&good), good["digest"]);
}
