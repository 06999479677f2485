//! What was typed put into the text of the sheet: in the place of what it replaces, or behind the rest. Everything else
//! stays as it was written, comments too.

use std::ops::Range;

use dewline_lang::diagnostic::Diagnostic;
use dewline_lang::source::FileId;
use dewline_lang::syntax::tree::{self, Statement, StatementKind};
use dewline_lang::syntax::{Class, parse, words};

use super::given::{self, Filled};
use super::identity::{Identity, find, identity};
use super::sheet::all;

/// A changed text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// The new text.
    pub text: String,
    /// Where the typed parts stand in it.
    pub quotes: Vec<Quote>,
    /// What was defined or replaced.
    pub touched: Vec<Identity>,
}

/// A part of what was typed, and where it stands in the sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Quote {
    /// In the sheet.
    pub part: Range<usize>,
    /// Its first byte in what was typed.
    pub typed: usize,
}

/// Puts typed statements into a sheet, or says why they cannot be read; places are then those in what was typed.
pub fn edit(text: &str, typed: &str) -> Result<Edit, Vec<Diagnostic>> {
    let mut edit = Edit { text: text.to_string(), quotes: Vec::new(), touched: Vec::new() };
    if let Some(filled) = filled_in(text, typed) {
        edit.touched.push(Identity::Name(filled.name));
        edit.replace(filled.range, &filled.words, filled.quote, filled.typed);
        return Ok(edit);
    }
    let parsed = parse(FileId::default(), typed);
    if !parsed.diagnostics.is_empty() {
        return Err(parsed.diagnostics);
    }
    for statement in &parsed.sheet.statements {
        edit.add(typed, statement);
    }
    Ok(edit)
}

/// `name = value …` where the sheet has an input or a reading of this name gives it that value; the rest of its line
/// stays.
fn filled_in(text: &str, typed: &str) -> Option<Filled> {
    let list = words(typed);
    let name = list.first().filter(|word| word.class == Class::Name).and_then(|word| typed.get(word.range.clone()))?;
    let mark = list.get(1).and_then(|word| typed.get(word.range.clone()))?;
    if !matches!(mark, "=" | ":") {
        return None;
    }
    let sheet = parse(FileId::default(), text).sheet;
    all(&sheet).find_map(|statement| match &statement.kind {
        StatementKind::Input(old) if old.name.text == name => given::fill(text, statement.span, old, "input ", typed),
        StatementKind::Reading(old) if old.name.text == name => {
            given::fill(text, statement.span, old, "reading ", typed)
        }
        _ => None,
    })
}

impl Edit {
    /// Puts one statement in.
    fn add(&mut self, typed: &str, statement: &Statement) {
        let range = statement.span.range();
        let words = typed.get(range.clone()).unwrap_or("");
        let what = identity(&statement.kind, typed);
        let sheet = parse(FileId::default(), &self.text).sheet;
        let found = what.as_ref().and_then(|what| find(&sheet, &self.text, what));
        match found {
            Some(span) => self.replace(span.range(), words, 0..words.len(), range.start),
            None => {
                let with_comment = format!("{words}{}", comment_after(typed, range.end));
                self.insert(&sheet, &statement.kind, &with_comment, words.len(), range.start);
            }
        }
        self.touched.extend(what);
    }

    /// Replaces a range; `quote` is the part of the new words that was typed at `typed`.
    pub fn replace(&mut self, range: Range<usize>, words: &str, quote: Range<usize>, typed: usize) {
        self.text.replace_range(range.clone(), words);
        let moved = words.len() as isize - range.len() as isize;
        for earlier in self.quotes.iter_mut().filter(|earlier| earlier.part.start >= range.end) {
            earlier.part = shifted(earlier.part.start, moved)..shifted(earlier.part.end, moved);
        }
        self.quotes.push(Quote { part: range.start + quote.start..range.start + quote.end, typed });
    }

    /// Takes a statement out, with its line if nothing else stands there.
    pub fn without(text: &str, range: Range<usize>) -> Edit {
        let slice = |range: Range<usize>| text.get(range).unwrap_or("");
        let line_start = slice(0..range.start).rfind('\n').map_or(0, |at| at + 1);
        let line_end = slice(range.end..text.len()).find('\n').map_or(text.len(), |at| range.end + at + 1);
        let alone = slice(line_start..range.start).trim().is_empty();
        let behind = slice(range.end..line_end).trim();
        let whole = alone && (behind.is_empty() || behind.starts_with('#'));
        let mut edit = Edit { text: text.to_string(), quotes: Vec::new(), touched: Vec::new() };
        edit.text.replace_range(if whole { line_start..line_end } else { range }, "");
        edit
    }

    /// Puts a new statement behind the rest; what holds for the whole sheet goes to its top.
    fn insert(&mut self, sheet: &tree::Sheet, kind: &StatementKind, words: &str, quoted: usize, typed: usize) {
        let first = |wanted: &dyn Fn(&StatementKind) -> bool| {
            sheet.statements.iter().find(|one| !wanted(&one.kind)).map(|one| one.span.start as usize)
        };
        let at = match kind {
            StatementKind::Title(_) => first(&|_| false),
            StatementKind::Units(_) => first(&|one| matches!(one, StatementKind::Title(_))),
            StatementKind::SiteAltitude(_) | StatementKind::SiteAtmosphere(_) | StatementKind::DecideGuarded(_) => {
                first(&|one| matches!(one, StatementKind::Title(_) | StatementKind::Units(_)))
            }
            _ => None,
        };
        match at {
            Some(at) => self.replace(at..at, &format!("{words}\n"), 0..quoted, typed),
            None => {
                let end = self.text.trim_end().len();
                let block = |kind: &StatementKind| matches!(kind, StatementKind::Stage(_) | StatementKind::Table(_));
                let apart = block(kind) || sheet.statements.last().is_some_and(|last| block(&last.kind));
                let gap = match (end, apart) {
                    (0, _) => "",
                    (_, true) => "\n\n",
                    (_, false) => "\n",
                };
                let length = self.text.len();
                self.replace(end..length, &format!("{gap}{words}\n"), gap.len()..gap.len() + quoted, typed);
            }
        }
    }
}

fn shifted(at: usize, by: isize) -> usize {
    at.saturating_add_signed(by)
}

/// The comment that stands behind a statement on its line.
fn comment_after(typed: &str, end: usize) -> String {
    let rest = typed.get(end..).unwrap_or("").split('\n').next().unwrap_or("").trim();
    if rest.starts_with('#') { format!("  {rest}") } else { String::new() }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn edited(text: &str, typed: &str) -> String {
        let edit = edit(text, typed).unwrap();
        for quote in &edit.quotes {
            let part = &edit.text[quote.part.clone()];
            assert_eq!(part, &typed[quote.typed..quote.typed + part.len()], "the quote is what was typed");
        }
        edit.text
    }

    #[test]
    fn a_definition_takes_the_place_of_the_one_of_its_name_and_leaves_comments() {
        assert_eq!(edited("a = 1 # one\nb = a\n", "a = 2 psi"), "a = 2 psi # one\nb = a\n");
        assert_eq!(edited("a = 1", "c = 3 # new"), "a = 1\nc = 3  # new\n");
        assert_eq!(edited("", "c = 3"), "c = 3\n");
    }

    #[test]
    fn a_value_typed_for_a_reading_fills_it_and_leaves_the_rest_of_its_line() {
        let sheet = "stage \"S\"\n  reading p : psig by gauge at 2026-03-14T07:40 \"door\" # to do\nend\n";
        let filled = "stage \"S\"\n  reading p : psig = 556 psig by gauge at 2026-03-14T07:40 \"door\" # to do\nend\n";
        assert_eq!(edited(sheet, "p = 556 psig"), filled);
        let again = filled.replace("556", "557");
        assert_eq!(edited(filled, "p = 557 psig"), again);
        let timed = filled.replace("2026-03-14T07:40", "2026-03-15T08:00");
        assert_eq!(
            edited(filled, "p = 556 psig at 2026-03-15T08:00"),
            timed.replace(" by gauge at 2026-03-15T08:00", " at 2026-03-15T08:00 by gauge")
        );
    }

    #[test]
    fn what_holds_for_the_whole_sheet_goes_to_its_top() {
        let sheet = "# job\nsheet \"Riser\"\n\na = 1 ft\n";
        assert_eq!(edited(sheet, "units IP"), "# job\nsheet \"Riser\"\n\nunits IP\na = 1 ft\n");
        assert_eq!(edited("a = 1 ft\n", "sheet \"X\""), "sheet \"X\"\na = 1 ft\n");
        assert_eq!(edited("units SI\na = 1 ft\n", "units IP"), "units IP\na = 1 ft\n");
    }

    #[test]
    fn checks_stages_and_tables_are_known_by_label_and_name() {
        let sheet = "stage \"S\"\n  require \"deep\" 3 < 4\n  confirm \"soap\"\nend\n";
        assert_eq!(edited(sheet, "confirm \"soap\" yes"), sheet.replace("\"soap\"", "\"soap\" yes"));
        assert_eq!(edited(sheet, "require \"deep\" 3 < 5"), sheet.replace("< 4", "< 5"));
        let table = "table t\n  a\n  number\n  1\n  require each \"r\" a > 0\nend\n";
        assert_eq!(edited(table, "require each \"r\" a > 2"), table.replace("> 0", "> 2"));
        assert_eq!(
            edited("a = 1\n", "table t\n  a\n  number\n  1\nend"),
            "a = 1\n\ntable t\n  a\n  number\n  1\nend\n"
        );
    }

    #[test]
    fn a_statement_is_taken_out_with_its_line() {
        let text = "a = 1\n  b = 2 # two\nc = 3";
        assert_eq!(Edit::without(text, 8..13).text, "a = 1\nc = 3");
        assert_eq!(Edit::without(text, 20..25).text, "a = 1\n  b = 2 # two\n");
    }

    #[test]
    fn several_statements_at_once_are_put_in_one_by_one() {
        let edit = edit("a = 1\nb = 2\n", "b = 30\na = 1000\nc = a").unwrap();
        assert_eq!(edit.text, "a = 1000\nb = 30\nc = a\n");
        let parts: Vec<&str> = edit.quotes.iter().map(|quote| &edit.text[quote.part.clone()]).collect();
        assert_eq!(parts, ["b = 30", "a = 1000", "c = a"]);
    }

    #[test]
    fn what_cannot_be_read_is_told_where_it_was_typed() {
        let errors = edit("a = 1\n", "b = = 2").unwrap_err();
        assert_eq!(errors.first().unwrap().span().range(), 4..5);
    }
}
