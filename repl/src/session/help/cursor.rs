//! What stands round the cursor.

use std::ops::Range;

use dewline_lang::syntax::{Class, Word, words};

/// A line up to the cursor, cut into words.
pub struct Cursor<'a> {
    /// The text before the cursor.
    pub before: &'a str,
    /// Its words without the one being typed.
    pub words: Vec<Word>,
    /// What is being typed; empty behind a blank.
    pub begun: &'a str,
    /// Its first byte.
    pub start: usize,
}

/// A call that the cursor is in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Call<'a> {
    /// The function.
    pub function: &'a str,
    /// Arguments before this one that have no name.
    pub unnamed: usize,
    /// Names of the arguments before this one.
    pub named: Vec<&'a str>,
    /// The name of this argument, if it has one.
    pub name: Option<&'a str>,
    /// Nothing of this argument stands before the word being typed.
    pub empty: bool,
}

impl<'a> Cursor<'a> {
    /// At a place in a line.
    pub fn at(line: &'a str, position: usize) -> Cursor<'a> {
        let mut end = position.min(line.len());
        while !line.is_char_boundary(end) {
            end -= 1;
        }
        let before = &line[..end];
        let mut words = words(before);
        let typed = |word: &Word| {
            word.range.end == before.len()
                && matches!(
                    word.class,
                    Class::Name | Class::Function | Class::Unit | Class::Keyword | Class::Refrigerant
                )
        };
        let start = match words.last() {
            Some(last) if typed(last) => {
                let mut start = last.range.start;
                words.pop();
                // A unit goes on over its marks: `Btu/(h`, `°F`.
                while let Some(last) = words.last()
                    && last.class == Class::Unit
                    && last.range.end == start
                {
                    start = last.range.start;
                    words.pop();
                }
                start
            }
            _ => before.len(),
        };
        Cursor { before, words, begun: &before[start..], start }
    }

    /// The text of a word.
    pub fn text(&self, word: &Word) -> &'a str {
        self.before.get(word.range.clone()).unwrap_or("")
    }

    /// The word before the cursor, counted back.
    pub fn back(&self, count: usize) -> Option<(&Word, &'a str)> {
        let word = self.words.len().checked_sub(count + 1).and_then(|at| self.words.get(at))?;
        Some((word, self.text(word)))
    }

    /// A text that is not closed yet: the word before it, and what is typed of it with its first byte.
    pub fn open_text(&self) -> Option<(&'a str, &'a str, usize)> {
        let (word, text) = self.back(0)?;
        let open = word.class == Class::Text && word.range.end == self.before.len() && self.begun.is_empty();
        let closed = text.len() > 1 && text.ends_with('"') && text.matches('"').count() % 2 == 0;
        let lead = self.back(1).map_or("", |(_, text)| text);
        (open && !closed).then(|| (lead, text.get(1..).unwrap_or(""), word.range.start + 1))
    }

    /// The innermost call whose bracket is open.
    pub fn call(&self) -> Option<Call<'a>> {
        let mut depth = 0_usize;
        let open = self.words.iter().enumerate().rev().find(|(_, word)| match word.class {
            Class::Close => {
                depth += 1;
                false
            }
            Class::Open if depth > 0 => {
                depth -= 1;
                false
            }
            Class::Open => true,
            _ => false,
        });
        let (at, _) = open?;
        let function =
            at.checked_sub(1).and_then(|at| self.words.get(at)).filter(|word| word.class == Class::Function)?;
        let inside = self.words.get(at + 1..).unwrap_or(&[]);
        let mut arguments: Vec<&[Word]> = Vec::new();
        let mut depth = 0_usize;
        let mut from = 0;
        for (index, word) in inside.iter().enumerate() {
            match word.class {
                Class::Open => depth += 1,
                Class::Close => depth = depth.saturating_sub(1),
                Class::Mark if depth == 0 && self.text(word) == "," => {
                    arguments.push(inside.get(from..index).unwrap_or(&[]));
                    from = index + 1;
                }
                _ => {}
            }
        }
        let current = inside.get(from..).unwrap_or(&[]);
        let name = |argument: &[Word]| match argument {
            [name, equals, ..] if self.text(equals) == "=" => Some(self.text(name)),
            _ => None,
        };
        let named: Vec<&str> = arguments.iter().filter_map(|argument| name(argument)).collect();
        Some(Call {
            function: self.text(function),
            unnamed: arguments.len() - named.len(),
            named,
            name: name(current),
            empty: current.is_empty(),
        })
    }

    /// The expression that ends before word `end`: back to an open bracket, a comma, `=` or a word that begins one.
    pub fn expression_before(&self, end: usize) -> Option<&'a str> {
        let mut depth = 0_usize;
        let mut start = end;
        while let Some(word) = start.checked_sub(1).and_then(|at| self.words.get(at)) {
            let text = self.text(word);
            match word.class {
                Class::Close => depth += 1,
                Class::Open if depth == 0 => break,
                Class::Open => depth -= 1,
                Class::Mark if depth == 0 && matches!(text, "," | "=" | ":") => break,
                Class::Keyword if depth == 0 => break,
                Class::Text if depth == 0 && start > 1 => break,
                _ => {}
            }
            start -= 1;
        }
        let range: Range<usize> = self.words.get(start)?.range.start..self.words.get(end.checked_sub(1)?)?.range.end;
        self.before.get(range).filter(|text| !text.trim().is_empty())
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn call(line: &str) -> Call<'_> {
        Cursor::at(line, line.len()).call().unwrap()
    }

    #[test]
    fn the_call_round_the_cursor_is_found() {
        let one = call("x = superheat(R-410A, max(1, 2) psig, li");
        assert_eq!((one.function, one.unnamed, one.empty), ("superheat", 2, true));
        let one = call("superheat(R-410A, suction_pressure = 118 ");
        assert_eq!((one.unnamed, one.name, one.empty), (1, Some("suction_pressure"), false));
        assert_eq!(call("a(b(c), d(").function, "d");
        assert!(Cursor::at("a(b) + ", 7).call().is_none());
    }

    #[test]
    fn what_is_being_typed_is_found() {
        let cursor = |line: &'static str| Cursor::at(line, line.len()).begun;
        assert_eq!(
            [cursor("sup"), cursor("a = b"), cursor("118 ps"), cursor("3 "), cursor("R-41")],
            ["sup", "b", "ps", "", "R-41"]
        );
        let line = "table t from \"ho";
        assert_eq!(Cursor::at(line, line.len()).open_text(), Some(("from", "ho", 14)));
        let line = "table t from \"hold.csv\"";
        assert_eq!(Cursor::at(line, line.len()).open_text(), None);
    }

    #[test]
    fn the_expression_before_a_word_is_found() {
        let line = "x = f(a, b + g(c) as ";
        let cursor = Cursor::at(line, line.len());
        assert_eq!(cursor.expression_before(cursor.words.len() - 1), Some("b + g(c)"));
        let line = "require \"low\" a <= 3 ";
        let cursor = Cursor::at(line, line.len());
        assert_eq!(cursor.expression_before(cursor.words.len() - 2), Some("a"));
    }
}
