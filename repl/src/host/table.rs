//! A CSV file as rows of texts with their lines.

use dewline_lang::host::{HostProblem, RawRow, RawTable};
use dewline_lang::limits;

use super::text::read_text;
use crate::formula::unguarded;

/// Bytes of one line; a longer one is no table.
const LINE_BYTES: usize = 1024 * 1024;
/// Lines that one quoted field may run over.
const FIELD_LINES: usize = 50;

/// The rows of a CSV file. `shown` is how messages call it.
pub fn read_table(name: String, shown: &str, bytes: Vec<u8>) -> Result<RawTable, HostProblem> {
    let mut text = read_text(shown, bytes, false)?;
    if text.contains('\r') && !text.contains('\n') {
        text = text.replace('\r', "\n");
    }
    if let Some(line) = text.split('\n').position(|line| line.len() > LINE_BYTES) {
        return Err(problem(
            format!("line {} of \"{shown}\" is longer than {} MB", line + 1, LINE_BYTES / 1024 / 1024),
            "a table has one short line a row; is this the right file?",
        ));
    }
    let mut table = RawTable { name, ..RawTable::default() };
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter(&text))
        .from_reader(text.as_bytes());
    let mut lines = LineCounter { text: text.as_bytes(), at: 0, line: 1 };
    let mut record = csv::StringRecord::new();
    let mut held = 0;
    loop {
        let start = reader.position().byte() as usize;
        match reader.read_record(&mut record) {
            Ok(true) => {}
            Ok(false) => break,
            Err(error) => return Err(problem(format!("\"{shown}\" cannot be read: {error}"), "save it again as CSV")),
        }
        let line = lines.of_record(start);
        let next = reader.position().byte() as usize;
        check_quotes(shown, line, text.as_bytes().get(start..next).unwrap_or_default(), next >= text.len())?;
        let fields: Vec<String> = record.iter().map(|field| unguarded(field.trim()).to_string()).collect();
        if fields.iter().all(String::is_empty) {
            continue;
        }
        // Those beyond the heads too: a row may have any number of them.
        held += fields.len();
        if table.headers.is_empty() {
            if fields.len() > limits::COLUMNS {
                let message = format!("\"{shown}\" has more than {} columns", limits::COLUMNS);
                return Err(problem(message, "keep the columns that the sheet uses"));
            }
            table.headers = fields;
            table.header_line = line;
        } else if table.rows.len() == limits::ROWS {
            return Err(problem(
                format!("\"{shown}\" has more than {} rows", limits::ROWS),
                "cut it into smaller files",
            ));
        } else if held > limits::VALUES {
            return Err(problem(
                format!("\"{shown}\" has more than {} fields", limits::VALUES),
                "keep the columns that the sheet uses, or cut it into smaller files",
            ));
        } else {
            table.rows.push(RawRow { line, fields });
        }
    }
    if table.headers.is_empty() {
        return Err(problem(
            format!("\"{shown}\" is empty"),
            "its first line names the columns, each further line is a row",
        ));
    }
    Ok(table)
}

/// The text of a file with new values in some fields, named by line (from 1) and column (from 0); every other byte stays.
pub fn refill(text: &str, values: &[(u64, usize, &str)]) -> String {
    let between = delimiter(text);
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).flexible(true).delimiter(between).from_reader(text.as_bytes());
    let mut lines = LineCounter { text: text.as_bytes(), at: 0, line: 1 };
    let mut record = csv::StringRecord::new();
    let mut out = String::with_capacity(text.len());
    let mut copied = 0;
    loop {
        let start = reader.position().byte() as usize;
        if !matches!(reader.read_record(&mut record), Ok(true)) {
            break;
        }
        let line = lines.of_record(start);
        let mine = values.iter().filter(|(at, ..)| *at == line);
        let mut fields: Vec<&str> = record.iter().collect();
        let mut changed = false;
        for (_, column, value) in mine {
            if let Some(field) = fields.get_mut(*column) {
                *field = value;
                changed = true;
            }
        }
        if changed {
            let whole = text.get(start..reader.position().byte() as usize).unwrap_or("");
            let begin = start + (whole.len() - whole.trim_start_matches(['\r', '\n']).len());
            let end = start + whole.trim_end_matches(['\r', '\n']).len();
            out.push_str(text.get(copied..begin).unwrap_or(""));
            out.push_str(&written(&fields, between));
            copied = end;
        }
    }
    out.push_str(text.get(copied..).unwrap_or(""));
    out
}

/// One row, without its line end.
fn written(fields: &[&str], between: u8) -> String {
    let mut writer = csv::WriterBuilder::new().delimiter(between).from_writer(Vec::new());
    let _ = writer.write_record(fields);
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8_lossy(&bytes).trim_end_matches(['\r', '\n']).to_string()
}

/// A comma; a semicolon or a tabulator if the header has no comma but one of these.
fn delimiter(text: &str) -> u8 {
    let header = text.lines().find(|line| !line.trim().is_empty()).unwrap_or("");
    match (header.contains(','), header.contains(';'), header.contains('\t')) {
        (true, _, _) => b',',
        (false, true, _) => b';',
        (false, false, true) => b'\t',
        _ => b',',
    }
}

/// A quote that is never closed swallows the lines after it: that is a mistake at its line, not a long field.
fn check_quotes(shown: &str, line: u64, record: &[u8], last: bool) -> Result<(), HostProblem> {
    let inner = record.trim_ascii();
    let breaks = inner.iter().filter(|&&byte| byte == b'\n').count();
    let open = last && breaks > 0 && inner.iter().filter(|&&byte| byte == b'"').count() % 2 == 1;
    if breaks > FIELD_LINES || open {
        return Err(problem(
            format!("a quote opened on line {line} of \"{shown}\" is not closed"),
            "close it, or double a quote that belongs to the text",
        ));
    }
    Ok(())
}

/// Lines of records. The reader counts blank lines to the record after them, so they are stepped over here.
struct LineCounter<'a> {
    text: &'a [u8],
    at: usize,
    line: u64,
}

impl LineCounter<'_> {
    /// The line on which the record that begins at or after this byte stands.
    fn of_record(&mut self, start: usize) -> u64 {
        let blank =
            self.text.get(start..).unwrap_or_default().iter().take_while(|&&byte| matches!(byte, b'\r' | b'\n'));
        let end = start + blank.count();
        let passed = self.text.get(self.at..end).unwrap_or_default();
        self.line += passed.iter().filter(|&&byte| byte == b'\n').count() as u64;
        self.at = end;
        self.line
    }
}

fn problem(message: String, mend: &str) -> HostProblem {
    HostProblem { message, mend: Some(mend.to_string()) }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn read(text: &str) -> Result<RawTable, HostProblem> {
        read_table("a.csv".to_string(), "a.csv", text.as_bytes().to_vec())
    }

    fn lines(table: &RawTable) -> Vec<(u64, Vec<&str>)> {
        table.rows.iter().map(|row| (row.line, row.fields.iter().map(String::as_str).collect())).collect()
    }

    #[test]
    fn quoted_commas_marks_line_ends_and_ragged_rows_are_kept_with_their_lines() {
        let table = read("\u{feff}tag, p [psig]\r\n\"Exam 1, east\",118\r\n\r\n\"two\nlines\",7\r\nshort\r\n").unwrap();
        assert_eq!(table.headers, ["tag", "p [psig]"]);
        assert_eq!(table.header_line, 1);
        let expected = vec![(2, vec!["Exam 1, east", "118"]), (4, vec!["two\nlines", "7"]), (6, vec!["short"])];
        assert_eq!(lines(&table), expected);
    }

    #[test]
    fn fields_beyond_the_heads_count_too() {
        let row = format!("{}1\n", "1,".repeat(400_000));
        let most = limits::VALUES / 400_000 + 2;
        let refused = read(&format!("a,b\n{}", row.repeat(most))).unwrap_err();
        assert!(refused.message.contains("more than 5000000 fields"), "{}", refused.message);
    }

    #[test]
    fn semicolons_and_tabulators_separate_where_there_is_no_comma() {
        assert_eq!(lines(&read("a;b\n1;2\n").unwrap()), [(2, vec!["1", "2"])]);
        assert_eq!(lines(&read("a\tb\n1\t2\n").unwrap()), [(2, vec!["1", "2"])]);
    }

    #[test]
    fn fields_are_filled_in_and_everything_else_stays() {
        let text = "tag;p [psig];note\r\n\r\nF-01;118;\"a; b\"\r\nF-02;;x\r\nF-03;1;y";
        let filled = refill(text, &[(4, 1, "119.5"), (5, 2, "z")]);
        assert_eq!(filled, "tag;p [psig];note\r\n\r\nF-01;118;\"a; b\"\r\nF-02;119.5;x\r\nF-03;1;z");
        assert_eq!(refill("a,b\n\"1,5\",?\n", &[(2, 1, "2, 3")]), "a,b\n\"1,5\",\"2, 3\"\n");
        assert_eq!(refill(text, &[]), text);
    }

    #[test]
    fn rows_without_a_value_are_no_rows() {
        assert_eq!(lines(&read("a,b\n1,2\n,\n,\n").unwrap()), [(2, vec!["1", "2"])]);
    }

    #[test]
    fn an_open_quote_and_a_long_line_are_named_with_their_line() {
        let open = read("a,b\n1,2\n\"3,4\n5,6\n").unwrap_err();
        assert_eq!(open.message, "a quote opened on line 3 of \"a.csv\" is not closed");
        let long = read(&format!("a,b\n{}\n", "1".repeat(2_000_000))).unwrap_err();
        assert_eq!(long.message, "line 2 of \"a.csv\" is longer than 1 MB");
        assert!(read("\n\n").unwrap_err().message.contains("empty"));
    }

    #[test]
    fn an_inch_mark_inside_a_field_is_no_quote() {
        assert_eq!(
            lines(&read("size,n\n3/8\",1\n1/2\",2\n").unwrap()),
            [(2, vec!["3/8\"", "1"]), (3, vec!["1/2\"", "2"])]
        );
    }
}
