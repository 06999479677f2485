//! Records that were never made by this program.

use serde_json::{Value, json};

use crate::records::{audited, read, recorded, redigest, sha256, write};

#[track_caller]
fn refused(text: impl AsRef<[u8]>, why: &str) {
    let bench = crate::Bench::new();
    bench.file("r.json", text);
    let report = audited(&bench, &[]);
    assert_eq!(report["result"], "cannot run", "{report:#}");
    assert!(report["why"].to_string().contains(why), "no {why:?} in {report:#}");
}

#[test]
fn what_is_no_record() {
    refused("", "ends in the middle");
    refused("{", "ends in the middle");
    refused("[1, 2]", "no record");
    refused("not json", "not JSON");
    refused("{\"a\": 1}", "no \\\"format\\\"");
    refused("{\"format\": \"dewline-outcome/1\", \"verdict\": \"passed\"}", "no record: its format is");
    refused("{\"format\": \"dewline-record/9\"}", "this version reads");
    refused("{\"format\": \"dewline-record/1\"}", "missing field");
    refused("{\"format\": 7}", "no record");
    refused([0xff, 0xfe, 0x7b, 0x00], "UTF-16");
    refused([b'P', b'K', 3, 4, 0, 0], "archive");
    refused([0x7b, 0xb0], "not UTF-8");
    refused("[".repeat(200_000), "");
    refused(format!("{{\"format\": {}1{}}}", "[".repeat(100_000), "]".repeat(100_000)), "");
    let whole = recorded(&[]).read("r.json");
    for cut in [10, whole.len() / 3, whole.len() / 2, whole.len() - 3] {
        refused(&whole[..whole.floor_char_boundary(cut)], "ends in the middle");
    }
    refused(format!("{whole}{whole}"), "not JSON");
}

#[test]
fn what_a_record_may_not_hold() {
    let with = |change: &dyn Fn(&mut Value), why: &str| {
        let bench = recorded(&[]);
        let mut record = read(&bench);
        change(&mut record);
        redigest(&mut record);
        write(&bench, &record);
        let report = audited(&bench, &[]);
        assert_eq!(report["result"], "cannot run", "{report:#}");
        assert!(report["why"].to_string().contains(why), "no {why:?} in {report:#}");
    };
    let rename = |name: &str| {
        let name = name.to_string();
        move |record: &mut Value| {
            record["record"]["files"][2]["name"] = json!(name);
            record["record"]["asked"][1]["file"] = json!(name);
        }
    };
    for name in [
        "../rise.csv",
        "/etc/passwd",
        "a/../../rise.csv",
        "C:/rise.csv",
        "a\\rise.csv",
        "~/rise.csv",
        "a//b",
        "a\nb",
        "",
    ] {
        with(&rename(name), "the embedded file");
    }
    with(&rename("job.dew"), "embedded twice");
    with(&|record| record["record"]["files"] = json!({}), "does not fit the format");
    with_raw(&|text| text.replace("\"run_at\"", "\"digest\": \"\", \"run_at\""), "duplicate field");
    with_raw(&|text| text.replace("\"made_by\"", "\"job\": null, \"made_by\""), "");
    with_raw(&|text| text.replace("\"run_at\"", "\"note\": \"read me\", \"run_at\""), "unknown field");
    with(&|record| record["record"]["files"][0]["base64"] = json!("AAAA"), "either");
    with(
        &|record| {
            let file = record["record"]["files"][0].as_object_mut().unwrap();
            file.remove("text");
            file.insert("base64".to_string(), json!("?"));
        },
        "not base64",
    );
    with(&|record| record["record"]["job"]["sheet"] = json!("other.dew"), "does not hold its file");
    with(
        &|record| {
            record["record"]["job"]["settings"] =
                json!([{"name": "drop", "value": "1 psi", "from": "the command line"}])
        },
        "cannot be used",
    );
    with(&|record| record["record"]["files"][0]["text"] = json!("a = 3 ft + 1 lb\n"), "not understood by this version");
    with(&|record| record["record"]["files"][0]["text"] = json!("("), "not understood");
    with(
        &|record| record["record"]["files"][0]["text"] = json!("a = ".to_string() + &"(".repeat(100_000)),
        "not understood",
    );
    with(&|record| record["record"]["job"]["site"]["atmosphere"] = json!("thin"), "does not fit the format");
}

#[track_caller]
fn with_raw(change: &dyn Fn(&str) -> String, why: &str) {
    let bench = recorded(&[]);
    let text = bench.read("r.json");
    let changed = change(&text);
    assert_ne!(text, changed);
    bench.file("r.json", changed);
    let report = audited(&bench, &[]);
    assert_ne!(report["result"], "same");
    assert!(report["why"].to_string().contains(why), "no {why:?} in {report:#}");
}

/// The digest of the text as it stands fits, so that only the second look at the outcome finds the double name.
#[test]
fn a_double_name_never_hides_behind_a_digest_that_fits() {
    let bench = recorded(&[]);
    let text = bench.read("r.json");
    let (head, record) = text.split_once("\"record\":").unwrap();
    let record = record.trim_end().strip_suffix('}').unwrap();
    let record = record.replace("\"verdict\":\"passed\"}", "\"verdict\":\"failed\",\"verdict\":\"passed\"}");
    let old = read(&bench)["digest"].as_str().unwrap().to_string();
    let forged = head.replace(&old, &sha256(record.as_bytes()));
    bench.file("r.json", format!("{forged}\"record\":{record}}}"));
    let report = audited(&bench, &[]);
    assert_eq!(report["result"], "cannot run", "{report:#}");
    assert!(report["why"].to_string().contains("stands twice"), "{report:#}");
}

#[test]
fn what_is_too_large_or_no_file_is_refused_at_once() {
    let bench = crate::Bench::new();
    let large = std::fs::File::create(bench.path().join("r.json")).unwrap();
    large.set_len(300 * 1024 * 1024).unwrap();
    assert!(audited(&bench, &[])["why"].to_string().contains("larger than"));
    bench.run(&["audit", "no.json"]).ends_with_code(2).prints("there is no file");
    bench.run(&["audit", "/dev/zero"]).ends_with_code(2).prints("device");
    std::fs::create_dir(bench.path().join("empty")).unwrap();
    bench.run(&["audit", "empty"]).ends_with_code(2).says("holds no record");
}

/// Whatever byte is changed, an audit says something other than `same`, and never falls over.
#[test]
fn any_changed_byte_is_noticed() {
    let bench = recorded(&[]);
    let text = bench.read("r.json").into_bytes();
    std::fs::create_dir(bench.path().join("changed")).unwrap();
    let step = text.len() / 400;
    let mut count = 0;
    for at in (0..text.len()).step_by(step.max(1)) {
        let mut changed = text.clone();
        changed[at] = if changed[at] == b'7' { b'8' } else { b'7' };
        let time = std::str::from_utf8(&text).unwrap().find("\"run_at\":").unwrap();
        // The time is outside the digest; without a signature nobody vouches for it.
        if changed == text || (time + 10..time + 32).contains(&at) || text[at] == b'\n' {
            continue;
        }
        bench.file(&format!("changed/{at}.json"), changed);
        count += 1;
    }
    assert!(count > 300);
    let left = bench.run(&["audit", "changed", "--format", "jsonl"]);
    for line in left.out.lines() {
        let report: Value = serde_json::from_str(line).unwrap();
        assert_ne!(report["result"], "same", "{report:#}");
    }
    assert_eq!(left.out.lines().count(), count);
}
