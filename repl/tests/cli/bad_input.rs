//! Files that cannot be used: a clear error each, code 2.

use crate::{Bench, PASSING};

const TABLE: &str =
    "table hold from \"hold.csv\"\n  time | pressure\n  min  | micron\nend\nlast_one = last(hold.pressure)\n";

#[track_caller]
fn refused(csv: &[u8], words: &[&str]) {
    let bench = Bench::with_sheet(TABLE);
    bench.file("hold.csv", csv);
    let mut left = bench.run(&["run", "job.dew"]).ends_with_code(2);
    for word in words {
        left = left.says(word);
    }
}

#[test]
fn a_missing_sheet_names_the_one_that_may_be_meant() {
    Bench::with_sheet(PASSING).run(&["run", "jbo.dew"]).ends_with_code(2).says("no file \"jbo.dew\"").says("job.dew");
}

#[test]
fn a_folder_is_no_sheet() {
    let bench = Bench::new();
    bench.file("jobs/a.dew", PASSING);
    bench.run(&["run", "jobs"]).ends_with_code(2).says("is a folder");
}

#[test]
fn a_sheet_must_be_utf_8_and_not_empty() {
    let bench = Bench::new();
    bench.file("job.dew", b"sheet \"a\"\nt = 61 \xb0F\n");
    bench.run(&["run", "job.dew"]).ends_with_code(2).says("not UTF-8").says("line 2");
    for empty in ["", "\n \r\n", "\u{feff}"] {
        bench.file("job.dew", empty);
        bench.run(&["run", "job.dew"]).ends_with_code(2).says("is empty");
    }
}

#[test]
fn a_byte_order_mark_and_crlf_are_no_matter() {
    let bench = Bench::new();
    bench.file("job.dew", format!("\u{feff}{}", PASSING.replace('\n', "\r\n")));
    bench.run(&["run", "job.dew"]).ends_with_code(0).prints("PASSED");
}

#[test]
fn a_huge_sheet_is_refused() {
    let bench = Bench::with_sheet(&"# ten million bytes\n".repeat(500_000));
    bench.run(&["run", "job.dew"]).ends_with_code(2).says("larger than 4 MB");
}

#[test]
fn a_table_reads_marks_line_ends_and_quoted_commas() {
    let bench = Bench::with_sheet(TABLE);
    bench.file("hold.csv", "\u{feff}Time,Pressure,Note\r\n0,312,\"cold, dry\"\r\n5,341,\r\n");
    bench.run(&["run", "job.dew"]).ends_with_code(0).prints("341 micron");
}

#[test]
fn a_table_that_cannot_be_used_says_why() {
    refused(b"time,presure\n0,312\n", &["hold.csv", "pressure"]);
    refused(b"time,pressure\n0,312\n5,3x1\n", &["3x1", "3"]);
    refused(b"time,pressure\n0,312\n5\n", &["3"]);
    refused(b"", &["is empty"]);
    refused(b"time,pressure\n0,31\xff\n", &["not UTF-8", "line 2"]);
    refused(b"time,pressure\n\"0,312\n5,341\n", &["line 2", "not closed"]);
    refused(b"PK\x03\x04xxxx", &["workbook"]);
    let long = [b"time,pressure\n0,".as_slice(), &b"1".repeat(10_000_000)].concat();
    refused(&long, &["line 2", "longer than 1 MB"]);
}

#[test]
fn control_characters_never_reach_the_terminal() {
    let bench = Bench::with_sheet("sheet \"a\u{1b}[31mred\"\nb = 3 ft \u{7} + 1 lb\n");
    let left = bench.run(&["run", "job.dew"]).ends_with_code(2);
    assert!(!left.out.contains('\u{1b}') && !left.err.contains('\u{1b}') && !left.err.contains('\u{7}'));
    bench.file("job.dew", "sheet \"a\u{202e}b\"\nt = \"x\u{9b}31m\"\n");
    let left = bench.run(&["run", "job.dew"]);
    assert!(!left.out.contains(['\u{202e}', '\u{9b}']) && !left.err.contains(['\u{202e}', '\u{9b}']));
}
