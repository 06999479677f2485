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
    book.add(None, outcome, Some("d1d1")).unwrap();
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

fn column_of(range: &Range<Data>, head: &str) -> usize {
    (0..range.width()).find(|&column| text(range, 0, column) == head).unwrap()
}

#[test]
fn what_is_written_is_what_is_read() {
    let outcome = sample::outcome();
    let sheets = read(written(&outcome));
    let names: Vec<&str> = sheets.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["Summary", "Values", "Checks", "Trials", "Trials of checks", "indoor"]);
    let values = sheet(&sheets, "Values");
    for (at, cell) in outcome.cells.iter().enumerate() {
        let [name, value, shown] = ["name", "value", "shown"].map(|head| column_of(values, head));
        assert_eq!(text(values, at + 1, name), cell.name);
        match cell.shown.as_ref().and_then(|shown| shown.number) {
            Some(number) => assert_eq!(values.get((at + 1, value)), Some(&Data::Float(number)), "{}", cell.name),
            None => assert_eq!(text(values, at + 1, value), ""),
        }
        assert_eq!(text(values, at + 1, shown), cell.shown.as_ref().map_or("", |shown| shown.text.as_str()));
    }
    let (table, range) = (&outcome.tables[0], sheet(&sheets, "indoor"));
    for column in &table.columns {
        let head =
            if column.unit.is_empty() { column.name.clone() } else { format!("{} [{}]", column.name, column.unit) };
        let at = column_of(range, &head);
        for (row, field) in column.text.iter().enumerate() {
            match (field.parse::<f64>(), range.get((row + 1, at))) {
                (Ok(number), found) => assert_eq!(found, Some(&Data::Float(number)), "{head} {row}"),
                (Err(_), Some(Data::String(found))) if !field.is_empty() => assert_eq!(found, &plain(field)),
                (Err(_), found) => assert!(field.is_empty(), "{head} {row}: {found:?} for {field}"),
            }
        }
    }
    // The expanded uncertainty stands beside its column.
    let doubtful = column_of(range, "U(state.temperature) [F°]");
    assert_eq!(doubtful, column_of(range, "state.temperature [F°]") + 1);
    let found: Vec<Option<&Data>> = (1..4).map(|row| range.get((row, doubtful))).collect();
    assert_eq!(found, [Some(&Data::Float(1.4)), Some(&Data::Float(0.95)), Some(&Data::Empty)]);
    assert_eq!(text(range, 2, column_of(range, "check")), "FAILED");
    let checks = sheet(&sheets, "Checks");
    for (at, check) in outcome.checks.iter().enumerate() {
        assert_eq!(text(checks, at + 1, column_of(checks, "check")), check.label);
        assert_eq!(text(checks, at + 1, column_of(checks, "limit")), check.limit.clone().unwrap());
        assert_eq!(checks.get((at + 1, column_of(checks, "at_least"))), Some(&Data::Float(5.0)));
    }
    let trials = sheet(&sheets, "Trials");
    assert_eq!(text(trials, 1, column_of(trials, "agrees")), "wider");
    let trials = sheet(&sheets, "Trials of checks");
    assert_eq!(trials.get((1, column_of(trials, "share"))), Some(&Data::Float(0.502)));
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
