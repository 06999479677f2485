//! Where an answer is written.

use dewline_lang::diagnostic::{Diagnostic, settings as codes};
use dewline_lang::host::{column_of, without_unit};
use dewline_lang::source::{FileId, Sources, Span};
use dewline_lang::syntax::tree::{Confirm, StatementKind};
use dewline_lang::syntax::{parse, words};

use super::Change;
use super::ask::{Ask, Sort, Target};
use super::value::{completed, has_decimal_comma};
use crate::host::workbook;
use crate::problem::Problem;
use crate::session::edit::{Edit, edit};
use crate::session::identity::Identity;
use crate::session::quote::TYPED;
use crate::session::{Field, Reply, Session};

impl Session {
    /// What an answer changes, or why it cannot be read.
    pub(super) fn written_answer(&self, ask: &Ask, line: &str) -> Result<Change, Reply> {
        let rows = matches!(ask.target, Target::Rows { .. });
        if (ask.sort == Sort::Number || rows) && has_decimal_comma(line) {
            let message = match rows {
                true => "write `|` between two fields, and a point before decimals",
                false => "a point stands before decimals; readings taken several times are written 52.3, 52.5",
            };
            return Err(self.wrong(line, message));
        }
        let value = completed(line, ask.sort, ask.unit.as_deref());
        match &ask.target {
            Target::Given => self.give_value(&ask.name, &value),
            Target::Confirm { label } => self.confirmed(label, None, line),
            Target::FormConfirm { fill, label } => self.confirmed(label, Some(fill), line),
            Target::Row { table, row, column } => self.row_field(table, *row, *column, ask, line),
            Target::File { .. } => {
                let mut work = self.sheet.work.clone();
                work.fill(self.field_of(ask, line)?);
                Ok(Change::Work(work))
            }
            Target::Rows { table, begun } => self.table_rows(table, *begun, line),
            Target::Fill { fill, input } => self.fill_input(fill, input, &value),
        }
    }

    /// `name = value`, which fills the line of that name.
    fn give_value(&self, name: &str, value: &str) -> Result<Change, Reply> {
        let lead = format!("{name} = ");
        let typed = format!("{lead}{value}");
        match edit(&self.sheet.work.text, &typed) {
            Ok(mut edit) => {
                // Shown is the answer alone.
                for quote in &mut edit.quotes {
                    let hidden = lead.len().saturating_sub(quote.typed);
                    quote.part.start = (quote.part.start + hidden).min(quote.part.end);
                    quote.typed = quote.typed.saturating_sub(lead.len());
                }
                if !fills(&self.sheet.work.text, &edit) {
                    return Err(self.wrong(value, "this is no value that can stand here"));
                }
                Ok(Change::Text(edit, value.to_string()))
            }
            Err(diagnostics) => {
                let (mut sources, part) = (Sources::default(), Span::new(FileId::default(), lead.len(), typed.len()));
                sources.add(TYPED, typed.as_str());
                let alone = sources.add(TYPED, value);
                let moved: Vec<Diagnostic> = diagnostics.into_iter().map(|one| one.moved(part, alone, 0)).collect();
                Err(Reply::refused(self.drawn(&sources, &moved)))
            }
        }
    }

    /// In the line of a confirmation, or in a new one behind the filling of a sheet that asks for it.
    fn confirmed(&self, label: &str, beside: Option<&str>, line: &str) -> Result<Change, Reply> {
        let (answer, rest) = match line.split_once(char::is_whitespace) {
            Some((answer, rest)) => (answer, with_quotes(rest.trim())),
            None => (line, String::new()),
        };
        let answer = match answer.to_lowercase().as_str() {
            "yes" | "y" => "yes",
            "no" | "n" => "no",
            _ => {
                let message = "answer with yes or no; when and who may follow: yes at 2026-03-14T10:00 by \"R. Alder\"";
                return Err(self.wrong(line, message));
            }
        };
        let place = self.sheet.statements().find_map(|one| match (&one.kind, beside) {
            (StatementKind::Confirm(confirm), None) if confirm.label.text == label => Some((one.span, Some(confirm))),
            (StatementKind::Fill(fill), Some(name)) if fill.name.text == name => Some((one.span, None)),
            _ => None,
        });
        let Some((span, old)) = place else { return Err(Reply::of(&Problem::new("its line is not in this sheet"))) };
        let text = &self.sheet.work.text;
        let slice = |span: Span| text.get(span.range()).unwrap_or("");
        let quoted = format!("\"{}\"", label.replace('"', "\"\""));
        let lead = format!("confirm {} ", old.map_or(quoted.as_str(), |old| slice(old.label.span)));
        let said = format!("{answer} {rest}").trim_end().to_string();
        let new = read_confirm(&format!("{lead}{said}")).map_err(|diagnostics| {
            let part = Span::new(FileId::default(), lead.len(), lead.len() + said.len());
            let mut sources = Sources::default();
            sources.add(TYPED, format!("{lead}{said}"));
            let alone = sources.add(TYPED, said.as_str());
            let moved: Vec<Diagnostic> = diagnostics.into_iter().map(|one| one.moved(part, alone, 0)).collect();
            Reply::refused(self.drawn(&sources, &moved))
        })?;
        let mut words = format!("{lead}{said}");
        if let (Some(at), None) = (old.and_then(|old| old.at.as_ref()), &new.at) {
            words.push_str(&format!(" at {}", slice(at.span)));
        }
        if let (Some(by), None) = (old.and_then(|old| old.by.as_ref()), &new.by) {
            words.push_str(&format!(" by {}", slice(by.span)));
        }
        let mut edit = self.nothing_yet();
        match old {
            Some(_) => edit.replace(span.range(), &words, lead.len()..lead.len() + said.len(), 0),
            None => {
                let end = self.line_end(span.end as usize);
                edit.replace(end..end, &format!("\n{words}"), lead.len() + 1..lead.len() + 1 + said.len(), 0);
            }
        }
        Ok(Change::Text(edit, said))
    }

    /// The end of the line that a byte of the sheet stands on.
    pub(in crate::session) fn line_end(&self, at: usize) -> usize {
        let text = &self.sheet.work.text;
        text.get(at..).and_then(|rest| rest.find('\n')).map_or(text.len(), |end| at + end)
    }

    /// In the place of a field of a row written in the sheet, in which a bare number takes the column's unit by itself.
    fn row_field(&self, table: &str, row: usize, column: usize, ask: &Ask, line: &str) -> Result<Change, Reply> {
        let value = completed(line, ask.sort, None);
        let place = self.table(table).and_then(|table| table.rows.get(row)).and_then(|row| row.values.get(column));
        let Some(place) = place else { return Err(Reply::of(&Problem::new("its row is not in this sheet"))) };
        let mut edit = self.nothing_yet();
        edit.replace(place.span.range(), &value, 0..value.len(), 0);
        Ok(Change::Text(edit, value))
    }

    /// The field of a data file that an answer stands in.
    pub(in crate::session) fn field_of(&self, ask: &Ask, line: &str) -> Result<Field, Reply> {
        let Target::File { path, table, row, column, header } = &ask.target else {
            return Err(Reply::of(&Problem::new("this stands in no file")));
        };
        if workbook(path).is_some() {
            let message = format!("this stands in the workbook \"{path}\", which a session cannot save");
            let mend = "type it in the workbook, or save its sheet as CSV and read that";
            return Err(Reply::of(&Problem::new(message).with_mend(mend)));
        }
        let raw = self.host.table(&self.sheet.name, path).map_err(|problem| Reply::of(&problem.into()))?;
        let at = column_of(&raw, column, header.as_deref());
        // Rows that stood in the file twice are not among those shown.
        let tables = self.sheet.outcome().into_iter().flat_map(|outcome| &outcome.tables);
        let once = tables.filter(|one| one.name == *table).flat_map(|one| &one.counted_once);
        let row = &once.fold(*row, |row, &out| row + usize::from(out <= row));
        let (Some(at), Some(_)) = (at, raw.rows.get(*row)) else {
            return Err(Reply::of(&Problem::new(format!("its field is not found in \"{path}\""))));
        };
        let value = &completed(line, ask.sort, ask.unit.as_deref());
        // The value is held against the column before it goes where messages could no longer point at it.
        let evaluated = self.around().evaluate(value);
        let Some(part) = evaluated.parts.first() else {
            return Err(Reply::refused(self.drawn(&evaluated.sources, &evaluated.diagnostics)));
        };
        if let Some(unit) = &ask.unit {
            let wanted = self.around().evaluate(&format!("1 {unit}"));
            let same = wanted
                .parts
                .first()
                .is_some_and(|one| one.cell.kind == part.cell.kind && one.cell.dimension == part.cell.dimension);
            if !same {
                return Err(self.wrong(value, &format!("the column is in {unit}")));
            }
        }
        let first = self.table(table).and_then(|table| table.columns.first());
        let key =
            first.and_then(|key| column_of(&raw, &key.name.text, key.header.as_ref().map(|one| one.text.as_str())));
        // A bare number is of the unit that was asked for, which the file's own head need not be in.
        let other_unit = without_unit(&raw.headers[at]).1.is_some_and(|unit| Some(unit.trim()) != ask.unit.as_deref());
        let text = if other_unit { value } else { unquoted(line, value, ask) };
        Field::at(&raw, *row, at, key, text).map_err(|problem| Reply::of(&problem))
    }

    /// Rows behind the two lines of a table, or the file they stand in.
    fn table_rows(&self, table: &str, begun: bool, line: &str) -> Result<Change, Reply> {
        let Some(written) = self.table(table) else {
            return Err(Reply::of(&Problem::new("its lines are not in this sheet")));
        };
        let mut edit = self.nothing_yet();
        let file = line.trim_matches('"');
        if !begun && (line.starts_with('"') && line.ends_with('"') && !line.contains('|') || file.ends_with(".csv")) {
            let at = written.name.span.end as usize;
            let words = format!(" from \"{file}\"");
            edit.replace(at..at, &words, 6..words.len(), 0);
            return Ok(Change::Text(edit, format!("\"{file}\"")));
        }
        // Fields may be typed with commas or tabulators between, as in a file.
        let row = match line.contains('|') {
            true => line.to_string(),
            false => line.replace(['\t', ';'], " | ").replace(", ", " | ").replace(',', " | "),
        };
        let end = match written.rows.last() {
            Some(row) => row.span.end,
            None => written
                .columns
                .iter()
                .filter_map(|column| column.annotation.as_ref())
                .map(|one| one.span.end)
                .max()
                .unwrap_or(0),
        };
        let at = self.line_end(end as usize);
        let words = format!("\n{row}");
        edit.replace(at..at, &words, 1..words.len(), 0);
        Ok(Change::Text(edit, row))
    }

    /// In the brackets of a filled sheet.
    fn fill_input(&self, fill: &str, input: &str, value: &str) -> Result<Change, Reply> {
        let found = self.sheet.statements().find_map(|one| match &one.kind {
            StatementKind::Fill(written) if written.name.text == fill => Some((one.span, written)),
            _ => None,
        });
        let Some((span, written)) = found else {
            return Err(Reply::of(&Problem::new("its line is not in this sheet")));
        };
        let mut edit = self.nothing_yet();
        if let Some((_, old)) = written.bindings.iter().find(|(name, _)| name.text == input) {
            edit.replace(old.span.range(), value, 0..value.len(), 0);
            return Ok(Change::Text(edit, value.to_string()));
        }
        let text = self.sheet.work.text.get(span.range()).unwrap_or("");
        let (at, lead, tail) = match text.rfind(')') {
            Some(at) if written.bindings.is_empty() => (span.start as usize + at, format!("{input} = "), ""),
            Some(_) => {
                // Behind the last value: what stands before the bracket may be blanks and line ends.
                let end = written.bindings.last().map_or(span.end, |(_, value)| value.span.end);
                (end as usize, format!(", {input} = "), "")
            }
            None => (span.end as usize, format!(" ({input} = "), ")"),
        };
        let words = format!("{lead}{value}{tail}");
        edit.replace(at..at, &words, lead.len()..lead.len() + value.len(), 0);
        Ok(Change::Text(edit, value.to_string()))
    }

    /// The text of the sheet as it is.
    pub(in crate::session) fn nothing_yet(&self) -> Edit {
        Edit { text: self.sheet.work.text.clone(), quotes: Vec::new(), touched: Vec::<Identity>::new() }
    }

    /// An answer that was read but is none.
    fn wrong(&self, line: &str, message: &str) -> Reply {
        let mut sources = Sources::default();
        let file = sources.add(TYPED, line);
        let error = Diagnostic::error(&codes::BAD_SETTING, message, Span::new(file, 0, line.len()), "");
        Reply::refused(self.drawn(&sources, &[error]))
    }
}

/// A text column of a file holds texts without the quotes of the language.
fn unquoted<'a>(line: &'a str, value: &'a str, ask: &Ask) -> &'a str {
    match ask.sort {
        Sort::Text => line.trim_matches('"'),
        Sort::Flag => value,
        _ => line,
    }
}

/// Who it was may be typed without quotes.
fn with_quotes(rest: &str) -> String {
    let at = if rest.starts_with("by ") { Some(0) } else { rest.find(" by ").map(|at| at + 1) };
    match at.and_then(|at| rest.split_at_checked(at + "by ".len())) {
        Some((lead, who)) if !who.contains('"') => {
            // What follows the name may be the time.
            let time = who.match_indices(" at ").map(|(at, _)| at).find(|at| {
                who.get(at + " at ".len()..).is_some_and(|time| time.starts_with(|sign: char| sign.is_ascii_digit()))
            });
            let (who, time) = who.split_at(time.unwrap_or(who.len()));
            format!("{lead}\"{}\"{time}", who.trim())
        }
        _ => rest.to_string(),
    }
}

fn read_confirm(text: &str) -> Result<Confirm, Vec<Diagnostic>> {
    let parsed = parse(FileId::default(), text);
    match parsed.sheet.statements.into_iter().next().map(|one| one.kind) {
        Some(StatementKind::Confirm(confirm)) if parsed.diagnostics.is_empty() => Ok(confirm),
        _ => Err(parsed.diagnostics),
    }
}

/// Whether an edit gave an input its value rather than putting a formula in its place: the word of the statement stays.
fn fills(before: &str, edit: &Edit) -> bool {
    let keywords = |text: &str| {
        words(text).into_iter().filter(|word| matches!(text.get(word.range.clone()), Some("input" | "reading"))).count()
    };
    keywords(before) == keywords(&edit.text)
}

#[cfg(test)]
mod tests {
    use super::with_quotes;

    #[test]
    fn a_name_without_quotes_ends_before_the_time() {
        for (typed, whole) in [
            ("by R. Alder", "by \"R. Alder\""),
            ("by R. Alder at 2026-03-14T10:00", "by \"R. Alder\" at 2026-03-14T10:00"),
            ("at 2026-03-14 by R. Alder", "at 2026-03-14 by \"R. Alder\""),
            ("by Ann at the desk", "by \"Ann at the desk\""),
            ("by \"R. Alder\" at 2026-03-14", "by \"R. Alder\" at 2026-03-14"),
            ("at 2026-03-14", "at 2026-03-14"),
        ] {
            assert_eq!(with_quotes(typed), whole);
        }
    }
}
