//! Texts: quotes taken off, doubled quotes undone, fillings `{…}` cut into tokens.

use std::ops::Range;

use super::{Joiner, Text, lines};
use crate::diagnostic::{Diagnostic, words};
use crate::syntax::lexeme::{Lexeme, LexemeKind, lexemes};
use crate::syntax::token::{Filling, Joined, LineRole, TextToken, TextTokenPart, TokenKind};

impl Joiner<'_, '_> {
    pub(super) fn text_token(&mut self, lexeme: Lexeme) {
        let range = lexeme.range();
        let closed = lexeme.kind == LexemeKind::Text;
        if !closed {
            let place = self.text.span(range.clone());
            self.report(
                Diagnostic::error(&words::TEXT_OPEN, "a text is not closed on its line", place, "it begins here")
                    .with_mend("close it with `\"`; a quote inside a text is written twice: `\"\"`"),
            );
        }
        let inside = range.start + 1..range.end - usize::from(closed && range.len() > 1);
        let shown = self.text.slice(inside.clone());
        let plain = if shown.contains('"') { shown.replace("\"\"", "\"") } else { shown.to_string() };
        let mut token = TextToken { plain, parts: Vec::new() };
        // A text inside a filling has no fillings of its own, so that they never nest; nor has a title.
        if closed && self.fillings && shown.contains(['{', '}']) && self.may_be_filled() {
            token.parts = Splitter { joiner: self, plain: String::new(), parts: Vec::new() }.split(inside);
        }
        self.push(TokenKind::Text(token), range);
        self.at += 1;
    }

    /// Titles, labels, stage names and paths are words as they stand.
    fn may_be_filled(&self) -> bool {
        let statement = self.get(0).is_some_and(|first| first.kind == LexemeKind::Word);
        let first = self.word_at(0);
        let words_only = ["sheet", "stage", "instrument", "input", "reading", "confirm", "waive", "chart", "table"];
        if !statement || self.role == LineRole::Header || words_only.contains(&first) {
            return false;
        }
        // A label stands right behind `require`, `advise` and their `each`; a path behind `use` and `fill`.
        let leads = |at: usize| matches!(self.word_at(at), "require" | "advise" | "use" | "fill");
        !(self.at == 1 && leads(0) || self.at == 2 && leads(0) && self.word_at(1) == "each")
    }
}

/// Splits a text with fillings into its parts.
struct Splitter<'s, 'a, 'j> {
    joiner: &'s mut Joiner<'a, 'j>,
    plain: String,
    parts: Vec<TextTokenPart>,
}

impl Splitter<'_, '_, '_> {
    fn split(mut self, inside: Range<usize>) -> Vec<TextTokenPart> {
        let text = self.joiner.text;
        let mut at = inside.start;
        while let Some(letter) = text.slice(at..inside.end).chars().next() {
            let next = at + letter.len_utf8();
            let doubled = text.slice(next..inside.end).starts_with(letter);
            at = match letter {
                '{' | '}' | '"' if doubled => {
                    self.plain.push(letter);
                    next + 1
                }
                '{' => self.filling(at, inside.end),
                '}' => {
                    self.brace(at, "this `}` closes no filling", "write `}}` for a plain brace");
                    next
                }
                _ => {
                    self.plain.push(letter);
                    next
                }
            };
        }
        self.end_plain();
        self.parts
    }

    /// Reads the filling whose brace stands at `at`; gives where to go on.
    fn filling(&mut self, at: usize, end: usize) -> usize {
        let Some(length) = self.joiner.text.slice(at + 1..end).find('}') else {
            self.brace(at, "this `{` is not closed", "close the filling with `}`, or write `{{` for a plain brace");
            return end;
        };
        let inner = at + 1..at + 1 + length;
        self.end_plain();
        let filling = self.joiner.filling(inner.clone());
        self.parts.push(TextTokenPart::Filled(filling));
        inner.end + 1
    }

    fn brace(&mut self, at: usize, message: &str, mend: &str) {
        let place = self.joiner.text.span(at..at + 1);
        self.joiner.report(Diagnostic::error(&words::FILLING, message, place, "").with_mend(mend));
    }

    fn end_plain(&mut self) {
        if !self.plain.is_empty() {
            self.parts.push(TextTokenPart::Plain(std::mem::take(&mut self.plain)));
        }
    }
}

impl Joiner<'_, '_> {
    fn filling(&mut self, inner: Range<usize>) -> Filling {
        let span = self.text.span(inner.clone());
        let shown = single_quotes(self.text.slice(inner.clone()));
        let text = Text { file: self.text.file, text: &shown, base: self.text.base + inner.start };
        let mut joined = Joined::default();
        let raw = lines::split(&text, &lexemes(text.text), &mut joined.diagnostics);
        for line in raw.lines.iter().filter(|line| !line.too_deep) {
            let lexemes = raw.lexemes.get(line.lexemes.clone()).unwrap_or(&[]);
            let mut joiner = Joiner {
                text,
                lexemes,
                at: 0,
                line: self.line,
                role: LineRole::Plain,
                outline: self.outline,
                fillings: false,
                joined: &mut joined,
            };
            joiner.line();
        }
        let faulty = !joined.diagnostics.is_empty();
        joined.diagnostics.into_iter().for_each(|diagnostic| self.report(diagnostic));
        Filling { span, tokens: joined.tokens, faulty }
    }
}

/// The doubled quotes of a filling as single ones with a blank outside, so that every place keeps its distance.
fn single_quotes(shown: &str) -> String {
    let mut result = String::with_capacity(shown.len());
    for (index, part) in shown.split("\"\"").enumerate() {
        result.push_str(match (index, index % 2) {
            (0, _) => "",
            (_, 1) => " \"",
            _ => "\" ",
        });
        result.push_str(part);
    }
    result
}
