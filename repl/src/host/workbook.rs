//! A sheet of a workbook as rows of texts, as a CSV file gives them.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{Cursor, Read};
use std::panic::{AssertUnwindSafe, catch_unwind};

use calamine::{DataRef, ExcelDateTime, Reader, Xlsx};
use dewline_lang::host::{HostProblem, RawRow, RawTable};
use dewline_lang::limits;
use dewline_lang::suggest::did_you_mean;
use zip::ZipArchive;

/// Bytes that a workbook may come to when it is unpacked. A small file can be made that comes to any number of them.
const UNPACKED: u64 = 512 * 1024 * 1024;
/// Files inside a workbook.
const PARTS: usize = 10_000;
/// Bytes of all fields together: one long text may be named by a million cells.
const TEXT_BYTES: usize = 256 * 1024 * 1024;

/// The file and the sheet in it that `log.xlsx#Log` names; nothing if it names no workbook.
pub fn workbook(path: &str) -> Option<(&str, Option<&str>)> {
    let (file, sheet) = match path.split_once(".xlsx#").or_else(|| path.split_once(".XLSX#")) {
        Some((stem, sheet)) => (&path[..stem.len() + ".xlsx".len()], Some(sheet)),
        None => (path, None),
    };
    file.to_lowercase().ends_with(".xlsx").then_some((file, sheet))
}

/// The rows of a sheet, the first one if none is named. `shown` is how messages call the file.
pub fn read_workbook(name: String, shown: &str, sheet: Option<&str>, bytes: Vec<u8>) -> Result<RawTable, HostProblem> {
    if !bytes.starts_with(b"PK") {
        return Err(problem(
            format!("\"{shown}\" is no workbook, though its name ends in .xlsx"),
            "save it again as XLSX",
        ));
    }
    bounded(shown, &bytes)?;
    // Whatever somebody has put into the file, a fault of the library that reads it is no reason to end.
    let read = catch_unwind(AssertUnwindSafe(|| rows(name, shown, sheet, bytes)));
    read.unwrap_or_else(|_| Err(unreadable(shown, "it is damaged")))
}

/// Refuses what would come to too much. The sizes written in the archive may lie, so all of it is unpacked once.
fn bounded(shown: &str, bytes: &[u8]) -> Result<(), HostProblem> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(|error| unreadable(shown, &error.to_string()))?;
    let mut left = UNPACKED;
    for at in 0..archive.len().min(PARTS + 1) {
        let part = archive.by_index(at).map_err(|error| unreadable(shown, &error.to_string()))?;
        let unpacked = std::io::copy(&mut part.take(left + 1), &mut std::io::sink())
            .map_err(|error| unreadable(shown, &error.to_string()))?;
        if unpacked > left || at == PARTS {
            let most = UNPACKED / 1024 / 1024;
            let message = format!("\"{shown}\" comes to more than {most} MB when it is unpacked");
            return Err(problem(message, "keep the sheet that is needed, or save it as CSV"));
        }
        left -= unpacked;
    }
    Ok(())
}

fn rows(name: String, shown: &str, sheet: Option<&str>, bytes: Vec<u8>) -> Result<RawTable, HostProblem> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(|error| unreadable(shown, &error.to_string()))?;
    let sheet = chosen(&book, shown, sheet)?;
    let failed = |error: calamine::XlsxError| unreadable(shown, &error.to_string());
    let mut cells = book.worksheet_cells_reader(&sheet).map_err(failed)?;
    let mut lines: BTreeMap<u32, BTreeMap<u32, (String, bool)>> = BTreeMap::new();
    let mut size = 0;
    while let Some(cell) = cells.next_cell().map_err(failed)? {
        let (line, column) = cell.get_position();
        let Some((text, broken)) = field(cell.get_value()) else { continue };
        size += text.len() + 64;
        if size > TEXT_BYTES || lines.len() > limits::ROWS + 1 {
            let message = format!("sheet \"{sheet}\" of \"{shown}\" is too large");
            return Err(problem(message, "cut it into smaller files"));
        }
        lines.entry(line).or_default().insert(column, (text, broken));
    }
    table(name, shown, &sheet, lines)
}

/// The sheet of this name, case apart; the first if none is named.
fn chosen<R>(book: &Xlsx<R>, shown: &str, sheet: Option<&str>) -> Result<String, HostProblem>
where
    R: std::io::Read + std::io::Seek,
{
    let names = book.sheet_names();
    let Some(wanted) = sheet else {
        return names.first().cloned().ok_or_else(|| unreadable(shown, "it has no sheet"));
    };
    let found = names.iter().find(|name| *name == wanted);
    let alike = || names.iter().find(|name| name.to_lowercase() == wanted.to_lowercase());
    found.or_else(alike).cloned().ok_or_else(|| {
        let near = did_you_mean(wanted, names.iter().map(String::as_str));
        let mend = match near {
            Some(near) => format!("did you mean \"{near}\"?"),
            None => format!("its sheets are {}", crate::words::list(&quoted(&names), 8)),
        };
        problem(format!("\"{shown}\" has no sheet \"{wanted}\""), &mend)
    })
}

fn quoted(names: &[String]) -> Vec<String> {
    names.iter().map(|name| format!("\"{name}\"")).collect()
}

fn table(
    name: String,
    shown: &str,
    sheet: &str,
    mut lines: BTreeMap<u32, BTreeMap<u32, (String, bool)>>,
) -> Result<RawTable, HostProblem> {
    let Some((header_line, heads)) = lines.pop_first() else {
        let message = format!("sheet \"{sheet}\" of \"{shown}\" is empty");
        return Err(problem(message, "its first row names the columns, each further row is one of the table"));
    };
    if heads.len() > limits::COLUMNS {
        let message = format!("sheet \"{sheet}\" of \"{shown}\" has more than {} columns", limits::COLUMNS);
        return Err(problem(message, "keep the columns that the sheet uses"));
    }
    if lines.len().saturating_mul(heads.len()) > limits::VALUES {
        let message = format!("sheet \"{sheet}\" of \"{shown}\" has more than {} fields", limits::VALUES);
        return Err(problem(message, "keep the columns that the sheet uses, or cut it into smaller files"));
    }
    let columns: Vec<u32> = heads.keys().copied().collect();
    let mut faults = BTreeSet::new();
    let mut rows = Vec::with_capacity(lines.len());
    for (line, mut fields) in lines {
        // What stands beside the table, under no head, is no part of it.
        let of_table: Vec<Option<(String, bool)>> = columns.iter().map(|column| fields.remove(column)).collect();
        if of_table.iter().all(Option::is_none) {
            continue;
        }
        for (at, field) in of_table.iter().enumerate() {
            if matches!(field, Some((_, true))) {
                faults.insert((rows.len(), at));
            }
        }
        let fields = of_table.into_iter().map(|field| field.map(|(text, _)| text).unwrap_or_default()).collect();
        rows.push(RawRow { line: u64::from(line) + 1, fields });
    }
    Ok(RawTable {
        sha256: String::new(),
        name,
        headers: heads.into_values().map(|(text, _)| text).collect(),
        header_line: u64::from(header_line) + 1,
        rows,
        sheet: Some(sheet.to_string()),
        columns,
        faults,
    })
}

/// The text of a cell as a sheet writes it, and whether it is an error of the workbook; nothing for a blank one.
fn field(value: &DataRef<'_>) -> Option<(String, bool)> {
    let text = match value {
        DataRef::Empty => return None,
        DataRef::String(text) => text.trim().to_string(),
        DataRef::SharedString(text) => text.trim().to_string(),
        DataRef::Int(number) => number.to_string(),
        DataRef::Float(number) => number.to_string(),
        DataRef::Bool(flag) => flag.to_string(),
        DataRef::DateTime(moment) => moment_text(moment),
        DataRef::DateTimeIso(text) | DataRef::DurationIso(text) => text.clone(),
        DataRef::Error(error) => return Some((error.to_string(), true)),
    };
    (!text.is_empty()).then_some((text, false))
}

/// A date or time as the language writes it; a time of no day, and a length of time, as hours and minutes.
fn moment_text(moment: &ExcelDateTime) -> String {
    let days = moment.as_f64();
    if moment.is_duration() || !(1.0..2_958_466.0).contains(&days) {
        let seconds = (days * 86_400.0).round();
        let (hours, rest) = ((seconds / 3600.0).trunc(), (seconds % 3600.0).abs());
        return format!("{hours}:{:02}:{:02}", (rest / 60.0).trunc(), rest % 60.0);
    }
    let (year, month, day, hour, minute, second, milli) = moment.to_ymd_hms_milli();
    let date = format!("{year:04}-{month:02}-{day:02}");
    match (hour, minute, second, milli) {
        (0, 0, 0, 0) => date,
        (_, _, 0, 0) => format!("{date}T{hour:02}:{minute:02}"),
        (.., 0) => format!("{date}T{hour:02}:{minute:02}:{second:02}"),
        _ => format!("{date}T{hour:02}:{minute:02}:{second:02}.{milli:03}"),
    }
}

fn unreadable(shown: &str, why: &str) -> HostProblem {
    problem(format!("\"{shown}\" cannot be read as a workbook: {why}"), "save it again as XLSX, or its sheet as CSV")
}

fn problem(message: String, mend: &str) -> HostProblem {
    HostProblem { message, mend: Some(mend.to_string()) }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use std::io::Write;

    use rust_xlsxwriter::{ExcelDateTime, Format, Formula, Workbook};
    use zip::write::SimpleFileOptions;

    use super::*;

    /// Written by another library than the one that reads.
    fn made() -> Vec<u8> {
        let mut book = Workbook::new();
        let sheet = book.add_worksheet();
        sheet.set_name("Notes").unwrap().write_string(0, 0, "nothing here").unwrap();
        let sheet = book.add_worksheet();
        sheet.set_name("Log").unwrap();
        let date = Format::new().set_num_format("yyyy-mm-dd hh:mm");
        for (at, head) in ["time", "p [psig]", "tag", "ok"].into_iter().enumerate() {
            sheet.write_string(2, at as u16 + 1, head).unwrap();
        }
        let moment = ExcelDateTime::from_ymd(2026, 3, 14).unwrap().and_hms(7, 40, 0).unwrap();
        sheet.write_datetime_with_format(3, 1, &moment, &date).unwrap();
        sheet.write_number(3, 2, 118.25).unwrap();
        sheet.write_string(3, 3, " Exam 1 ").unwrap();
        sheet.write_boolean(3, 4, true).unwrap();
        sheet.write_string(3, 9, "beside the table").unwrap();
        let day = ExcelDateTime::from_ymd(2026, 3, 15).unwrap();
        sheet.write_datetime_with_format(5, 1, &day, &date).unwrap();
        sheet.write_formula(5, 2, Formula::new("=1/0").set_result("#DIV/0!")).unwrap();
        sheet.write_string(5, 3, "=1+1").unwrap();
        book.save_to_buffer().unwrap()
    }

    fn read(sheet: Option<&str>) -> Result<RawTable, HostProblem> {
        read_workbook("log.xlsx".to_string(), "log.xlsx", sheet, made())
    }

    #[test]
    fn a_path_may_name_a_sheet() {
        assert_eq!(workbook("a/log.xlsx"), Some(("a/log.xlsx", None)));
        assert_eq!(workbook("log.xlsx#Log 2#b"), Some(("log.xlsx", Some("Log 2#b"))));
        assert_eq!(workbook("LOG.XLSX#Log"), Some(("LOG.XLSX", Some("Log"))));
        assert_eq!(workbook("a#b.csv"), None);
    }

    #[test]
    fn dates_numbers_blanks_and_errors_keep_their_places() {
        let table = read(Some("log")).unwrap();
        assert_eq!(table.headers, ["time", "p [psig]", "tag", "ok"]);
        assert_eq!((table.header_line, table.sheet.as_deref()), (3, Some("Log")));
        let rows: Vec<(u64, Vec<&str>)> =
            table.rows.iter().map(|row| (row.line, row.fields.iter().map(String::as_str).collect())).collect();
        let expected = vec![
            (4, vec!["2026-03-14T07:40", "118.25", "Exam 1", "true"]),
            (6, vec!["2026-03-15", "#DIV/0!", "=1+1", ""]),
        ];
        assert_eq!(rows, expected);
        assert_eq!(table.faults.iter().copied().collect::<Vec<_>>(), [(1, 1)]);
        assert_eq!(table.place(1, 1), "sheet \"Log\", cell C6");
    }

    #[test]
    fn a_sheet_that_is_not_there_is_named_with_those_that_are() {
        assert_eq!(read(None).unwrap().headers, ["nothing here"]);
        let missing = read(Some("Loh")).unwrap_err();
        assert_eq!(missing.message, "\"log.xlsx\" has no sheet \"Loh\"");
        assert_eq!(missing.mend.as_deref(), Some("did you mean \"Log\"?"));
        assert!(read(Some("zzzzzz")).unwrap_err().mend.unwrap().contains("\"Notes\" and \"Log\""));
    }

    #[test]
    fn a_small_file_that_comes_to_much_is_refused() {
        let mut archive = zip::ZipWriter::new(Cursor::new(Vec::new()));
        archive.start_file("xl/worksheets/sheet1.xml", SimpleFileOptions::default()).unwrap();
        let blanks = vec![b' '; 1024 * 1024];
        for _ in 0..600 {
            archive.write_all(&blanks).unwrap();
        }
        let bytes = archive.finish().unwrap().into_inner();
        assert!(bytes.len() < 2 * 1024 * 1024);
        let refused = read_workbook(String::new(), "bomb.xlsx", None, bytes).unwrap_err();
        assert_eq!(refused.message, "\"bomb.xlsx\" comes to more than 512 MB when it is unpacked");
    }

    #[test]
    fn damaged_files_are_refused_in_words() {
        let whole = made();
        for length in (0..whole.len()).step_by(whole.len() / 40) {
            assert!(read_workbook(String::new(), "cut.xlsx", None, whole[..length].to_vec()).is_err());
        }
        // A byte turned over here and there: a table or a refusal, but an end of neither.
        for at in (0..whole.len()).step_by(97) {
            let mut turned = whole.clone();
            turned[at] ^= 0x55;
            let _ = read_workbook(String::new(), "turned.xlsx", Some("Log"), turned);
        }
        assert!(
            read_workbook(String::new(), "a.xlsx", None, b"tag,p\n".to_vec())
                .unwrap_err()
                .message
                .contains("no workbook")
        );
    }
}
