//! A workbook read back by a library of another make.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::io::Cursor;

use calamine::{Data, Range, Reader, Xlsx};
use dewline_lang::outcome::Outcome;

use super::Book;
use crate::report::sample;
use crate::words::plain;

fn written(outcome: &Outcome) -> Vec<u8> {
    let mut book = Book::new();
    book.add(None, outcome, Some("d1d1"));
    book.finish().unwrap()
}

fn read(bytes: Vec<u8>) -> Vec<(String, Range<Data>)> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).unwrap();
    book.worksheets()
}

fn sheet<'a>(sheets: &'a [(String, Range<Data>)], name: &str) -> &'a Range<Data> {
    &sheets.iter().find(|(known, _)| known == name).unwrap().1
}

fn text(range: &Range<Data>, row: usize, column: usize) -> String {
    range.get((row, column)).map(ToString::to_string).unwrap_or_default()
}

#[test]
fn what_is_written_is_what_is_read() {
    let outcome = sample::outcome();
    let sheets = read(written(&outcome));
    let names: Vec<&str> = sheets.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["Summary", "Values", "Checks", "indoor"]);
    let values = sheet(&sheets, "Values");
    for (at, cell) in outcome.cells.iter().enumerate() {
        assert_eq!(text(values, at + 1, 1), cell.name);
        match cell.shown.as_ref().and_then(|shown| shown.number) {
            Some(number) => assert_eq!(values.get((at + 1, 3)), Some(&Data::Float(number)), "{}", cell.name),
            None => assert_eq!(text(values, at + 1, 3), ""),
        }
        assert_eq!(text(values, at + 1, 5), cell.shown.as_ref().map_or("", |shown| shown.text.as_str()));
    }
    let (table, range) = (&outcome.tables[0], sheet(&sheets, "indoor"));
    for (at, column) in table.columns.iter().enumerate() {
        let head =
            if column.unit.is_empty() { column.name.clone() } else { format!("{} [{}]", column.name, column.unit) };
        assert_eq!(text(range, 0, at), head);
        for (row, field) in column.text.iter().enumerate() {
            match (field.parse::<f64>(), range.get((row + 1, at))) {
                (Ok(number), found) => assert_eq!(found, Some(&Data::Float(number)), "{head} {row}"),
                (Err(_), Some(Data::String(found))) if !field.is_empty() => assert_eq!(found, &plain(field)),
                (Err(_), found) => assert!(field.is_empty(), "{head} {row}: {found:?} for {field}"),
            }
        }
    }
    let last = table.columns.len();
    assert_eq!((text(range, 0, last), text(range, 2, last)), ("check".to_string(), "FAILED".to_string()));
    let checks = sheet(&sheets, "Checks");
    for (at, check) in outcome.checks.iter().enumerate() {
        assert_eq!(text(checks, at + 1, 1), check.label);
        assert_eq!(text(checks, at + 1, 7), check.limit.clone().unwrap());
        assert_eq!(checks.get((at + 1, 9)), Some(&Data::Float(5.0)));
    }
    let summary = sheet(&sheets, "Summary");
    let all: Vec<String> = summary.cells().map(|(_, _, cell)| cell.to_string()).collect();
    for said in ["FAILED", "d1d1", &"0".repeat(64), "end_pressure", "PG-0417", "definition"] {
        assert!(all.iter().any(|text| text == said), "{said}: {all:?}");
    }
    assert!(all.iter().any(|text| text.starts_with("1 of 3 checks does not hold.")));
}

#[test]
fn texts_that_look_like_formulas_are_texts_in_every_sheet() {
    let outcome = sample::hostile();
    let bytes = written(&outcome);
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes.clone())).unwrap();
    let names: Vec<String> = book.sheet_names().clone();
    let mut seen = 0;
    for name in &names {
        assert!(book.worksheet_formula(name).unwrap().is_empty(), "{name} has a formula");
        for (_, _, cell) in book.worksheet_range(name).unwrap().cells() {
            if let Data::String(text) = cell {
                seen += usize::from(text.starts_with(['=', '@', '+', '-']) || text.contains("<script>"));
                assert!(!text.chars().any(crate::words::steers), "{name}: {text:?}");
            }
        }
    }
    assert!(seen > 40, "{seen}");
    let hostile: Vec<String> = sample::HOSTILE.iter().map(|text| plain(text).into_owned()).collect();
    let sheets = read(bytes);
    let (_, table) = sheets.last().unwrap();
    let found: Vec<String> = (0..hostile.len()).map(|row| text(table, row + 1, 0)).collect();
    assert_eq!(found, hostile);
}

#[test]
fn the_same_outcome_gives_the_same_bytes() {
    let outcome = sample::outcome();
    let first = written(&outcome);
    std::thread::sleep(std::time::Duration::from_millis(1100));
    assert!(first == written(&outcome));
}
