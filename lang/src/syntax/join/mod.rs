//! The pass between plain tokens and the parser: settles lines, joins numbers, fractions and units into
//! single tokens, and catches the habits of typing that the language does not have.

mod commas;
mod habits;
mod lines;
mod moments;
mod numbers;
mod outline;
mod quantities;
mod refrigerants;
mod texts;
mod unit_texts;
mod words;

use std::borrow::Cow;
use std::ops::Range;

use unicode_normalization::{IsNormalized, UnicodeNormalization, is_nfc_quick};

pub use self::commas::mend as mend_of_commas;
use self::outline::Outline;
pub use self::words::begins_value;
use super::lexeme::{Lexeme, LexemeKind, lexemes};
use super::token::{Joined, Line, LineRole, Token, TokenKind};
use crate::diagnostic::Diagnostic;
use crate::source::{FileId, Span};

/// A text being read, and which file it is.
#[derive(Debug, Clone, Copy)]
pub struct Text<'a> {
    /// The file.
    pub file: FileId,
    /// Its text.
    pub text: &'a str,
    /// Where it stands in the file, if it is a part of one.
    pub base: usize,
}

impl<'a> Text<'a> {
    /// The bytes of a range; empty if there are none.
    pub fn slice(&self, range: Range<usize>) -> &'a str {
        self.text.get(range).unwrap_or("")
    }

    /// A name in its canonical form.
    pub fn name(&self, lexeme: Lexeme) -> String {
        canonical(self.slice(lexeme.range())).into_owned()
    }

    /// The place of a range.
    pub fn span(&self, range: Range<usize>) -> Span {
        Span::new(self.file, self.base + range.start, self.base + range.end)
    }
}

/// A word in NFC, so that an accent typed in two ways gives one name.
pub fn canonical(word: &str) -> Cow<'_, str> {
    if is_nfc_quick(word.chars()) == IsNormalized::Yes { word.into() } else { word.nfc().collect::<String>().into() }
}

/// Cuts a whole text into lines of joined tokens.
pub fn join(text: Text<'_>) -> Joined {
    let mut joined = Joined::default();
    let raw = lines::split(&text, &lexemes(text.text), &mut joined.diagnostics);
    let outline = Outline::of(&text, &raw);
    joined.tokens.reserve(raw.lexemes.len());
    for (index, line) in raw.lines.iter().enumerate() {
        let start = joined.tokens.len();
        let lexemes = raw.lexemes.get(line.lexemes.clone()).unwrap_or(&[]);
        let role = outline.role(index);
        let before = joined.diagnostics.len();
        if line.too_deep {
            let place = lexemes.first().map_or(0..0, |lexeme| lexeme.range());
            joined.tokens.push(Token { kind: TokenKind::Unreadable, span: text.span(place) });
        } else {
            let mut joiner = Joiner {
                text,
                lexemes,
                at: 0,
                line: index,
                role,
                outline: &outline,
                fillings: true,
                joined: &mut joined,
            };
            joiner.line();
        }
        let faulty = line.faulty || joined.diagnostics.len() > before;
        joined.lines.push(Line { tokens: start..joined.tokens.len(), role, faulty });
    }
    joined
}

/// Joins the tokens of one line.
struct Joiner<'a, 'j> {
    text: Text<'a>,
    lexemes: &'a [Lexeme],
    at: usize,
    line: usize,
    role: LineRole,
    outline: &'a Outline,
    /// Texts may have fillings here.
    fillings: bool,
    joined: &'j mut Joined,
}

impl<'a> Joiner<'a, '_> {
    fn line(&mut self) {
        if self.role == LineRole::UnitLine {
            self.annotation();
        }
        while let Some(lexeme) = self.get(self.at) {
            self.token(lexeme);
        }
    }

    /// Joins what stands at the current place; always goes on by at least one.
    fn token(&mut self, lexeme: Lexeme) {
        match lexeme.kind {
            LexemeKind::Number => self.number(false),
            LexemeKind::Minus if self.minus_belongs_to_quantity() => self.number(true),
            LexemeKind::Word => self.word(lexeme),
            LexemeKind::Text | LexemeKind::OpenText => self.text_token(lexeme),
            LexemeKind::Moment => self.moment(lexeme),
            LexemeKind::Refrigerant => self.refrigerant(lexeme),
            LexemeKind::As => {
                let names = self.names_a_sheet();
                self.mark(lexeme);
                if !names {
                    self.units();
                }
            }
            LexemeKind::Colon => {
                self.mark(lexeme);
                self.annotation();
            }
            LexemeKind::Bar if self.role == LineRole::UnitLine => {
                self.mark(lexeme);
                self.annotation();
            }
            LexemeKind::PlusMinus => {
                self.mark(lexeme);
                self.after_plus_minus(lexeme);
            }
            LexemeKind::CloseRound => {
                self.mark(lexeme);
                self.unit_after_bracket(lexeme);
            }
            LexemeKind::Dot if self.is_number_without_zero() => self.number_without_zero(lexeme),
            LexemeKind::Strange
            | LexemeKind::InchMark
            | LexemeKind::FootMark
            | LexemeKind::Percent
            | LexemeKind::Degree
            | LexemeKind::Squared
            | LexemeKind::Cubed => self.misplaced(lexeme),
            _ => self.mark(lexeme),
        }
    }

    /// `use "path" as name` and `fill "path" as name`: a name follows, not a unit.
    fn names_a_sheet(&self) -> bool {
        self.at == 2 && matches!(self.word_at(0), "use" | "fill")
    }

    fn word(&mut self, lexeme: Lexeme) {
        let name = self.text.name(lexeme);
        let calls = self.get(self.at + 1).is_some_and(|next| next.kind == LexemeKind::OpenRound && !next.spaced);
        self.push(if calls { TokenKind::Function(name) } else { TokenKind::Word(name) }, lexeme.range());
        self.at += 1;
    }

    fn mark(&mut self, lexeme: Lexeme) {
        self.push(TokenKind::Mark(lexeme.kind), lexeme.range());
        self.at += 1;
    }

    fn get(&self, at: usize) -> Option<Lexeme> {
        self.lexemes.get(at).copied()
    }

    /// The plain token at a place, if it stands there without a space before it.
    fn close(&self, at: usize) -> Option<Lexeme> {
        self.get(at).filter(|lexeme| !lexeme.spaced)
    }

    /// As [`Joiner::close`], if it is of this kind.
    fn close_kind(&self, at: usize, kind: LexemeKind) -> Option<Lexeme> {
        self.close(at).filter(|lexeme| lexeme.kind == kind)
    }

    fn before(&self, at: usize) -> Option<Lexeme> {
        at.checked_sub(1).and_then(|at| self.get(at))
    }

    fn word_at(&self, at: usize) -> &'a str {
        self.get(at).map_or("", |lexeme| self.text.slice(lexeme.range()))
    }

    /// The bytes from one plain token up to before another.
    fn bytes(&self, from: usize, to: usize) -> Range<usize> {
        let start = self.get(from).map_or(0, |lexeme| lexeme.start as usize);
        let end = self.before(to).map_or(start, |lexeme| lexeme.end as usize);
        start..end.max(start)
    }

    fn slice(&self, from: usize, to: usize) -> &'a str {
        self.text.slice(self.bytes(from, to))
    }

    fn span(&self, from: usize, to: usize) -> Span {
        self.text.span(self.bytes(from, to))
    }

    fn sees(&self, word: &str) -> bool {
        self.outline.sees(&canonical(word), self.line)
    }

    fn push(&mut self, kind: TokenKind, range: Range<usize>) {
        let span = self.text.span(range);
        self.joined.tokens.push(Token { kind, span });
    }

    /// Takes the tokens up to `to` for one that has an error.
    fn give_up(&mut self, to: usize, diagnostic: Diagnostic) {
        let range = self.bytes(self.at, to);
        self.report(diagnostic);
        self.push(TokenKind::Unreadable, range);
        self.at = to;
    }

    fn report(&mut self, diagnostic: Diagnostic) {
        self.joined.diagnostics.push(diagnostic);
    }
}
