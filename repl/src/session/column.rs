//! A column of a table typed again: its values, one of them, or its formula.
//!
//! ```text
//! rise.pressure = 312, 341, 352          a value a row
//! indoor["F-02"].pipe = 58.5             one of them
//! indoor.split : F° = air_in - air_out   a formula
//! ```

use std::ops::Range;

use dewline_lang::diagnostic::{Diagnostic, settings as codes};
use dewline_lang::source::{FileId, Sources, Span};
use dewline_lang::syntax::tree::{StatementKind, Table};
use dewline_lang::syntax::{Class, parse, words};

use super::edit::Edit;
use super::quote::TYPED;
use super::take::{Ask, has_decimal_comma};
use super::{Reply, Session};
use crate::words::count;

/// A line that gives a column something new.
#[derive(Debug, PartialEq, Eq)]
struct Typed {
    table: Range<usize>,
    /// The row's key, with its quotes.
    key: Option<Range<usize>>,
    column: Range<usize>,
    /// It says a unit.
    annotated: bool,
    /// What stands behind the `=`.
    value: Range<usize>,
}

impl Session {
    /// What comes of a line about a column of the sheet; nothing if it is about none.
    pub(super) fn column_line(&mut self, line: &str) -> Option<Reply> {
        let typed = typed(line).filter(|typed| !typed.value.is_empty())?;
        let table = self.table(&line[typed.table.clone()])?;
        // Values for all rows were meant for the rows as they were seen; one for a key finds its row by the key.
        let changed = table.from.as_ref().map(|from| from.text.clone()).and_then(|path| self.read_anew(&path));
        if let (Some(told), None) = (&changed, &typed.key) {
            return Some(Reply::refused(format!("{told}Look at its rows and type this again.\n")));
        }
        let mut reply = self.column_changed(line, &typed)?;
        reply.said.insert_str(0, &changed.unwrap_or_default());
        Some(reply)
    }

    fn column_changed(&mut self, line: &str, typed: &Typed) -> Option<Reply> {
        let table = self.table(&line[typed.table.clone()])?;
        let edit = match table.columns.iter().position(|one| one.name.text == line[typed.column.clone()]) {
            Some(column) => self.values_typed(line, typed, column),
            None => self.formula_typed(line, typed, table).map(Change::Text),
        };
        Some(match edit {
            Ok(Change::Text(edit)) => self.take_in(edit, line),
            Ok(Change::Fields(fields)) => {
                let mut work = self.sheet.work.clone();
                fields.into_iter().for_each(|field| work.fill(field));
                self.take_fields(work)
            }
            Err(reply) => reply,
        })
    }

    /// What is to be typed behind the `=`.
    pub(super) fn column_hint(&self, line: &str) -> Option<String> {
        let typed = typed(line).filter(|typed| typed.value.is_empty() && line.ends_with(' '))?;
        let name = &line[typed.table.clone()];
        let column = self.table(name)?.columns.iter().position(|one| one.name.text == line[typed.column.clone()]);
        let Some(column) = column else { return Some("a formula for all rows".to_string()) };
        let unit = self.field_ask(name, 0, column)?.unit.map_or(String::new(), |unit| format!(" [{unit}]"));
        Some(match typed.key {
            Some(_) => format!("a value{unit}"),
            None => format!("{}{unit}", count(self.rows_of(name)?, "value", "values")),
        })
    }

    /// Values for the rows of a given column: one for each, or that of the row with the key.
    fn values_typed(&self, line: &str, typed: &Typed, column: usize) -> Result<Change, Reply> {
        let name = &line[typed.table.clone()];
        let wrong = |place: &Range<usize>, message: String, mend: &str| Err(self.wrong_at(line, place, &message, mend));
        if typed.annotated {
            let message = "the unit of a given column stands in the second line of its table".to_string();
            return wrong(&typed.column, message, "type the values alone, or the table anew");
        }
        let value = &line[typed.value.clone()];
        if has_decimal_comma(value) {
            let message = "a comma between two digits could be read in two ways".to_string();
            return wrong(&typed.value, message, "write `, ` or `|` between two values, and a point before decimals");
        }
        let Some(rows) = self.rows_of(name) else {
            let message = format!("`{name}` has no rows yet");
            return wrong(&typed.table, message, "`take` asks for them, or type the table whole");
        };
        let values = split(line, &typed.value);
        let rows: Vec<usize> = match &typed.key {
            None => (0..rows).collect(),
            Some(key) => match self.row_of_key(name, line[key.clone()].trim_matches('"')) {
                Some(row) => vec![row],
                None => {
                    return wrong(key, format!("`{name}` has no row with this key"), "the first column holds the keys");
                }
            },
        };
        if values.len() != rows.len() {
            let wanted = match &typed.key {
                Some(_) => "a row has one value in a column".to_string(),
                None => format!("`{name}` has {}", count(rows.len(), "row", "rows")),
            };
            let message = format!("{wanted}, and {} typed", count(values.len(), "value was", "values were"));
            return wrong(&typed.value, message, "type a value for each row, `?` for what is not taken yet");
        }
        let asks = rows.iter().map(|&row| self.field_ask(name, row, column));
        let asks: Option<Vec<_>> = asks.collect();
        let Some(asks) = asks else {
            return wrong(&typed.column, "its rows are not in this sheet".to_string(), "take them where they are");
        };
        if asks.iter().all(Ask::is_in_file) {
            let field = |(ask, place): (&Ask, &Range<usize>)| self.field_of(ask, &line[place.clone()]);
            return asks.iter().zip(&values).map(field).collect::<Result<Vec<_>, _>>().map(Change::Fields);
        }
        let mut edit = self.nothing_yet();
        let places = rows.iter().filter_map(|&row| self.table(name)?.rows.get(row)?.values.get(column));
        let mut places: Vec<(Range<usize>, &Range<usize>)> =
            places.map(|place| place.span.range()).zip(&values).collect();
        // From the last to the first, so that those before stay where they are.
        places.sort_by_key(|(place, _)| std::cmp::Reverse(place.start));
        for (place, typed) in places {
            let words = &line[typed.clone()];
            edit.replace(place, words, 0..words.len(), typed.start);
        }
        Ok(Change::Text(edit))
    }

    /// A formula in the place of the old one of its column, or behind the others.
    fn formula_typed(&self, line: &str, typed: &Typed, table: &Table) -> Result<Edit, Reply> {
        let from = typed.column.start;
        let definition = &line[from..];
        let parsed = parse(FileId::default(), definition);
        let cell = match parsed.sheet.statements.as_slice() {
            [one] if parsed.diagnostics.is_empty() => match &one.kind {
                StatementKind::Cell(cell) if typed.key.is_none() => Some(cell),
                _ => None,
            },
            _ => None,
        };
        let Some(cell) = cell else {
            if parsed.diagnostics.is_empty() {
                let message = "a formula holds for all rows of its column";
                return Err(self.wrong_at(line, &typed.table, message, "leave the key away: table.column = formula"));
            }
            let mut sources = Sources::default();
            let alone = sources.add(TYPED, line);
            let whole = Span::new(FileId::default(), 0, definition.len());
            let moved = parsed.diagnostics.into_iter().map(|one| one.moved(whole, alone, from as u32));
            return Err(Reply::refused(self.drawn(&sources, &moved.collect::<Vec<_>>())));
        };
        let mut edit = self.nothing_yet();
        let old = table.formulas.iter().find(|old| old.name.text == cell.name.text);
        match old {
            // The unit it is shown in stays, unless another is typed.
            Some(old) if !typed.annotated => {
                let words = &line[typed.value.clone()];
                edit.replace(old.value.span.range(), words, 0..words.len(), typed.value.start);
            }
            Some(old) => {
                let range = old.name.span.range().start..old.value.span.range().end;
                edit.replace(range, definition, 0..definition.len(), from);
            }
            None => {
                let last = table.formulas.last().map(|one| one.value.span.end);
                let row = table.rows.last().map(|row| row.span.end);
                let units =
                    table.columns.iter().filter_map(|one| one.annotation.as_ref()).map(|one| one.span.end).max();
                let end = self.line_end(last.or(row).or(units).unwrap_or(table.name.span.end) as usize);
                let words = format!("\n  {definition}");
                edit.replace(end..end, &words, 3..words.len(), from);
            }
        }
        Ok(edit)
    }

    fn wrong_at(&self, line: &str, place: &Range<usize>, message: &str, mend: &str) -> Reply {
        let mut sources = Sources::default();
        let file = sources.add(TYPED, line);
        let error = Diagnostic::error(&codes::BAD_SETTING, message, Span::new(file, place.start, place.end), "");
        Reply::refused(format!("{}Nothing was changed.\n", self.drawn(&sources, &[error.with_mend(mend)])))
    }
}

/// What a line changes.
enum Change {
    Text(Edit),
    Fields(Vec<super::Field>),
}

/// Reads `table.column = …`, `table.column : unit = …` and `table["key"].column = …`.
fn typed(line: &str) -> Option<Typed> {
    let list = words(line);
    let range = |at: usize| list.get(at).map(|word| word.range.clone());
    let text = |at: usize| range(at).and_then(|range| line.get(range)).unwrap_or("");
    let name = |at: usize| list.get(at).is_some_and(|word| matches!(word.class, Class::Name | Class::Keyword));
    let (key, column) = match text(1) {
        "[" => {
            let end = (3..list.len()).find(|&at| text(at) == "]").filter(|&end| text(end + 1) == ".")?;
            (Some(range(2)?.start..range(end - 1)?.end), end + 2)
        }
        "." => (None, 2),
        _ => return None,
    };
    if !name(0) || !name(column) {
        return None;
    }
    let equals = match text(column + 1) {
        "=" => column + 1,
        ":" => (column + 2..list.len()).find(|&at| text(at) == "=")?,
        _ => return None,
    };
    let start = range(equals + 1).map_or(line.len(), |value| value.start);
    let end = list.iter().rev().find(|word| word.class != Class::Comment)?.range.end;
    Some(Typed {
        table: range(0)?,
        key,
        column: range(column)?,
        annotated: text(column + 1) == ":",
        value: start..end.max(start),
    })
}

/// The places of values with commas or bars between.
fn split(line: &str, value: &Range<usize>) -> Vec<Range<usize>> {
    let mut places = Vec::new();
    let mut place: Option<Range<usize>> = None;
    let inside = words(line).into_iter().filter(|word| value.start <= word.range.start && word.range.end <= value.end);
    for word in inside {
        if word.class == Class::Mark && matches!(line.get(word.range.clone()), Some("," | "|")) {
            places.push(place.take().unwrap_or(word.range.start..word.range.start));
        } else {
            let start = place.map_or(word.range.start, |place| place.start);
            place = Some(start..word.range.end);
        }
    }
    places.extend(place);
    places
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn lines_about_columns_are_told_from_others() {
        let parts = |line: &'static str| {
            let found = typed(line)?;
            Some((&line[found.table], found.key.map(|key| &line[key]), &line[found.column], &line[found.value]))
        };
        assert_eq!(parts("rise.p = 1, 2 # new"), Some(("rise", None, "p", "1, 2")));
        assert_eq!(parts("rise.time = 1 min | 2 min"), Some(("rise", None, "time", "1 min | 2 min")));
        assert_eq!(parts("t[\"a\"].p = ?"), Some(("t", Some("\"a\""), "p", "?")));
        assert_eq!(parts("t[5 min].p = 3"), Some(("t", Some("5 min"), "p", "3")));
        assert_eq!(parts("t.split : F° = a - b"), Some(("t", None, "split", "a - b")));
        assert_eq!(parts("rise.p = "), Some(("rise", None, "p", "")));
        for line in ["rise.p", "rise.p == 3", "rise = 3", "last(rise.p) - 1", "rise.p + 1 = 2"] {
            assert_eq!(parts(line), None, "{line}");
        }
    }

    #[test]
    fn values_are_split_at_commas_and_bars_and_not_inside_texts() {
        let line = "t.a = \"x, y\" | -3.5 degF, 1-1/8 in, ?";
        let found = typed(line).unwrap();
        let parts: Vec<&str> = split(line, &found.value).into_iter().map(|place| &line[place]).collect();
        assert_eq!(parts, ["\"x, y\"", "-3.5 degF", "1-1/8 in", "?"]);
    }
}
