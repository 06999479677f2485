//! Files that cannot be used: one clear error each, and exit code 2.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::fs;
use std::path::PathBuf;

use dewline_tests::program::{Left, dewline, dewline_reading};
use tempfile::TempDir;

struct Folder(TempDir);

impl Folder {
    fn new() -> Folder {
        Folder(tempfile::tempdir().unwrap())
    }

    fn put(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        let path = self.0.path().join(name);
        fs::write(&path, bytes).unwrap();
        path
    }

    /// Runs a sheet that reads `data.csv` into two columns.
    fn run_with_data(&self, data: impl AsRef<[u8]>) -> Left {
        self.put("data.csv", data);
        let sheet = "table t from \"data.csv\"\n  time | pressure\n  min | micron\nend\ntop = last(t.pressure)\n";
        let sheet = self.put("job.dew", sheet);
        dewline(&["run", sheet.to_str().unwrap()])
    }
}

/// The run could not be used, and says so in words that hold all of these.
fn unusable(left: &Left, words: &[&str]) {
    assert_eq!(left.code, 2, "{left:?}");
    for word in words {
        assert!(left.err.contains(word), "`{word}` is not in\n{}", left.err);
    }
    assert!(!left.err.contains("panicked"), "{}", left.err);
}

#[test]
fn a_file_that_is_not_there() {
    unusable(&dewline(&["run", "no-such-sheet.dew"]), &["no-such-sheet.dew"]);
    unusable(&dewline(&["check", "no-such-sheet.dew"]), &["no-such-sheet.dew"]);
    unusable(&dewline(&["fmt", "no-such-sheet.dew"]), &["no-such-sheet.dew"]);
    unusable(&dewline(&["columns", "no-such-data.csv"]), &["no-such-data.csv"]);
}

#[test]
fn a_folder() {
    let folder = Folder::new();
    unusable(&dewline(&["run", folder.0.path().to_str().unwrap()]), &["folder"]);
}

#[test]
fn not_utf8() {
    let folder = Folder::new();
    let sheet = folder.put("job.dew", b"a = 1\nb = \xff\xfe 2\n");
    unusable(&dewline(&["run", sheet.to_str().unwrap()]), &["UTF-8"]);
    unusable(&folder.run_with_data(b"time,pressure\n0,\xff\xfe\n"), &["UTF-8"]);
}

#[test]
fn an_empty_sheet() {
    let folder = Folder::new();
    for text in ["", "\n\n", "# only a comment\n", "\u{feff}"] {
        let sheet = folder.put("job.dew", text);
        let left = dewline(&["run", sheet.to_str().unwrap()]);
        unusable(&left, &["empty"]);
    }
    unusable(&dewline_reading(&["run", "-"], b""), &["empty"]);
}

#[test]
fn a_csv_with_wrong_columns() {
    let folder = Folder::new();
    unusable(&folder.run_with_data("time,presure\n0,300\n"), &["pressure"]);
    unusable(&folder.run_with_data("time,pressure,pressure\n0,300,300\n"), &["pressure"]);
    unusable(&folder.run_with_data("time,pressure [psig]\n0,300\n"), &["psig"]);
    unusable(&folder.run_with_data("time,pressure\n0,3OO\n"), &["3OO", "2"]);
    unusable(&folder.run_with_data(""), &["data.csv"]);
}

#[test]
fn a_csv_that_is_not_there_or_outside() {
    let folder = Folder::new();
    for path in ["nowhere.csv", "../outside.csv", "/etc/hostname", "."] {
        let sheet = format!("table t from \"{path}\"\n  time\n  min\nend\n");
        let sheet = folder.put("job.dew", sheet);
        unusable(&dewline(&["run", sheet.to_str().unwrap()]), &[path]);
    }
}

#[test]
fn quoted_commas_a_mark_at_the_beginning_and_carriage_returns_are_fine() {
    let folder = Folder::new();
    let left = folder
        .run_with_data("\u{feff}note,time,pressure\r\n\"valve shut, pump off\",0,300\r\n\"a \"\"b\"\"\",5,310\r\n");
    assert_eq!(left.code, 0, "{left:?}");
    assert!(left.out.contains("310"), "{}", left.out);
    let sheet = folder.put("windows.dew", "\u{feff}a = 1 psi\r\nb = a + 1 psi\r\n");
    assert_eq!(dewline(&["run", sheet.to_str().unwrap()]).code, 0);
}

#[test]
fn a_quote_left_open() {
    let folder = Folder::new();
    unusable(&folder.run_with_data("time,pressure\n0,\"300\n5,310\n"), &["data.csv"]);
}

#[test]
fn a_line_of_ten_megabytes() {
    let folder = Folder::new();
    let long = "x".repeat(10 * 1024 * 1024);
    let sheet = folder.put("job.dew", &long);
    let left = dewline(&["run", sheet.to_str().unwrap()]);
    unusable(&left, &["job.dew"]);
    assert!(left.err.len() < 10_000, "{} bytes of message", left.err.len());
    let left = folder.run_with_data(format!("time,pressure\n0,{long}\n"));
    unusable(&left, &["data.csv"]);
    assert!(left.err.len() < 10_000, "{} bytes of message", left.err.len());
}

#[test]
fn settings_that_cannot_be_used() {
    let folder = Folder::new();
    let sheet = folder.put("job.dew", "reading p : psig\nq = p + 1 psi\n");
    let sheet = sheet.to_str().unwrap();
    for setting in ["p", "p=", "p=5 ft", "q=5 psig", "nobody=5", "p=5 psig psig", "=5"] {
        unusable(&dewline(&["run", sheet, "--set", setting]), &[]);
    }
    assert_eq!(dewline(&["run", sheet, "--set", "p=5 psig"]).code, 0);
}
