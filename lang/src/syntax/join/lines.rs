//! Where lines end: brackets matched, continued lines joined, comments left out.

use std::ops::Range;

use super::Text;
use crate::diagnostic::{Diagnostic, words};
use crate::limits;
use crate::syntax::lexeme::{Lexeme, LexemeKind};

/// A line of plain tokens whose brackets match.
#[derive(Debug)]
pub struct RawLine {
    /// Its plain tokens.
    pub lexemes: Range<usize>,
    /// It has a message already.
    pub faulty: bool,
    /// Its brackets stand too deep inside one another to be read.
    pub too_deep: bool,
}

/// Plain tokens without comments and line ends, and the lines they make.
pub struct RawLines {
    /// Every token that means something.
    pub lexemes: Vec<Lexeme>,
    /// Lines that hold at least one.
    pub lines: Vec<RawLine>,
}

/// Splits a text into lines. A bracket left open is closed at its line's end, so that it never eats the rest.
pub fn split(text: &Text<'_>, lexemes: &[Lexeme], diagnostics: &mut Vec<Diagnostic>) -> RawLines {
    let mut splitter = Splitter {
        text,
        diagnostics,
        result: RawLines { lexemes: Vec::with_capacity(lexemes.len()), lines: Vec::new() },
        start: 0,
        open: Vec::new(),
        faulty: false,
        too_deep: false,
    };
    let mut at = 0;
    while let Some(&lexeme) = lexemes.get(at) {
        at += 1;
        match lexeme.kind {
            LexemeKind::Comment => {}
            // Only an open bracket looks ahead: to do so at each of many empty lines would cost their square.
            LexemeKind::LineEnd if splitter.open.is_empty() => splitter.finish(),
            LexemeKind::LineEnd => {
                let next =
                    lexemes[at..].iter().position(|l| !matches!(l.kind, LexemeKind::Comment | LexemeKind::LineEnd));
                match next.and_then(|ahead| lexemes.get(at + ahead)) {
                    // Skipping to the next word at once keeps a long run of empty lines cheap.
                    Some(ahead) if splitter.goes_on(*ahead) => at += next.unwrap_or(0),
                    _ => splitter.finish(),
                }
            }
            _ => splitter.add(lexeme),
        }
    }
    splitter.finish();
    splitter.result
}

struct Splitter<'a> {
    text: &'a Text<'a>,
    diagnostics: &'a mut Vec<Diagnostic>,
    result: RawLines,
    start: usize,
    open: Vec<Lexeme>,
    faulty: bool,
    too_deep: bool,
}

impl Splitter<'_> {
    /// Whether the line goes on after its end, `next` being what stands there.
    fn goes_on(&self, next: Lexeme) -> bool {
        let ends_open = self.result.lexemes.last().is_some_and(|last| {
            last.kind.is_operator() || last.kind.closing().is_some() || last.kind == LexemeKind::Comma
        });
        let begins_joined = next.kind.is_operator() || next.kind.is_closing() || next.kind == LexemeKind::Comma;
        ends_open || begins_joined
    }

    fn add(&mut self, lexeme: Lexeme) {
        if lexeme.kind.closing().is_some() {
            self.open.push(lexeme);
            if self.open.len() > limits::NESTING && !self.too_deep {
                self.too_deep = true;
                let message = format!("more than {} brackets stand inside one another", limits::NESTING);
                self.report(
                    Diagnostic::error(&words::TOO_DEEP, message, self.text.span(lexeme.range()), "too deep from here")
                        .with_mend("give parts of the formula names of their own"),
                );
            }
        }
        if lexeme.kind.is_closing() {
            let wanted = self.open.pop();
            match wanted.and_then(|open| open.kind.closing()) {
                Some(kind) if kind == lexeme.kind => {}
                Some(kind) => {
                    self.mismatch(wanted.unwrap_or(lexeme), lexeme);
                    self.result.lexemes.push(Lexeme { kind, ..lexeme });
                    return;
                }
                None => return self.stray(lexeme),
            }
        }
        self.result.lexemes.push(lexeme);
    }

    fn stray(&mut self, lexeme: Lexeme) {
        let shown = self.text.slice(lexeme.range());
        let message = format!("`{shown}` closes a bracket that was never opened");
        let place = self.text.span(lexeme.range());
        self.report(
            Diagnostic::error(&words::BRACKETS, message, place, "no opening bracket before it on this line")
                .with_mend(format!("take `{shown}` away, or open the bracket")),
        );
    }

    fn mismatch(&mut self, open: Lexeme, close: Lexeme) {
        let (opened, closed) = (self.text.slice(open.range()), self.text.slice(close.range()));
        let right = if open.kind == LexemeKind::OpenRound { ")" } else { "]" };
        let message = format!("`{opened}` is closed by `{closed}`");
        let place = self.text.span(close.range());
        let opening = self.text.span(open.range());
        self.report(
            Diagnostic::error(&words::BRACKETS, message, place, "this does not match")
                .with_label(opening, "opened here")
                .with_mend(format!("close it with `{right}`")),
        );
    }

    fn finish(&mut self) {
        if let Some(&last_open) = self.open.last() {
            let end = self.result.lexemes.last().map_or(last_open.end, |last| last.end);
            if !self.too_deep {
                let shown = self.text.slice(last_open.range());
                let place = self.text.span(last_open.range());
                let message = format!("this `{shown}` is not closed on its line");
                self.report(
                    Diagnostic::error(&words::BRACKETS, message, place, "opened here").with_mend(
                        "close it; a formula may go on in the next line only after a comma, an operator or an opening bracket",
                    ),
                );
            }
            while let Some(kind) = self.open.pop().and_then(|open| open.kind.closing()) {
                self.result.lexemes.push(Lexeme { kind, start: end, end, spaced: false });
            }
        }
        let end = self.result.lexemes.len();
        if end > self.start {
            let line = RawLine { lexemes: self.start..end, faulty: self.faulty, too_deep: self.too_deep };
            self.result.lines.push(line);
        }
        self.start = end;
        self.faulty = false;
        self.too_deep = false;
    }

    fn report(&mut self, diagnostic: Diagnostic) {
        self.faulty = true;
        self.diagnostics.push(diagnostic);
    }
}
