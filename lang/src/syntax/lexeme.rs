//! Plain tokens as they stand in the text, cut by `logos`; nothing is joined yet.

use std::ops::Range;

use logos::{Lexer, Logos};

/// A plain token with its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lexeme {
    /// What it is.
    pub kind: LexemeKind,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
    /// A blank, a comment or the line's beginning stands before it.
    pub spaced: bool,
}

impl Lexeme {
    /// Its bytes.
    pub fn range(self) -> Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// What a plain token is.
///
/// Letters, marks and digits are listed by hand rather than with `XID_Continue`, which would take the
/// middle dot of `oz·ft` into a name.
#[derive(Logos, Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[logos(skip r"[ \t\r\f\u{a0}\u{202f}\u{2009}\u{feff}]+")]
pub enum LexemeKind {
    #[token("\n")]
    LineEnd,
    #[regex(r"#[^\n]*", allow_greedy = true)]
    Comment,

    #[regex(r"[0-9](_?[0-9])*(\.[0-9](_?[0-9])*)?([eE][+-]?[0-9]+)?")]
    Number,
    #[regex(
        r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}(T[0-9]{1,2}:[0-9]{1,2}(:[0-9]{1,2}(\.[0-9]+)?)?(Z|[+-][0-9]{2}:[0-9]{2})?)?",
        priority = 20
    )]
    Moment,
    #[regex(r"R-?[0-9]{2,4}[A-Za-z]{0,3}(\([EZ]\))?", priority = 20)]
    #[regex(r"R-?13I1", priority = 21)]
    #[regex(r"R-?C[0-9]{3}", priority = 20)]
    Refrigerant,
    #[regex(r"\p{L}[\p{L}\p{M}\p{Nd}_]*")]
    Word,
    /// A closed text.
    #[token("\"", text)]
    Text,
    /// A text whose closing quote is missing: it ends with its line.
    OpenText,
    /// A `"` right behind a number: meant for inches.
    #[token("″")]
    InchMark,
    #[token("'")]
    #[token("′")]
    FootMark,

    #[token("if")]
    If,
    #[token("then")]
    Then,
    #[token("else")]
    Else,
    #[token("and")]
    And,
    #[token("or")]
    Or,
    #[token("not")]
    Not,
    #[token("as")]
    As,
    #[token("within")]
    Within,
    #[token("where")]
    Where,
    #[token("true")]
    True,
    #[token("false")]
    False,

    #[token("+")]
    Plus,
    #[token("-")]
    Minus,
    #[token("*")]
    #[token("·")]
    Times,
    #[token("/")]
    Over,
    #[token("^")]
    Caret,
    #[token("=")]
    Equals,
    #[token("==")]
    Same,
    #[token("!=")]
    Differs,
    #[token("<")]
    Less,
    #[token("<=")]
    AtMost,
    #[token(">")]
    More,
    #[token(">=")]
    AtLeast,
    #[token("±")]
    #[token("+/-")]
    PlusMinus,
    #[token("..")]
    Range,
    #[token(".")]
    Dot,
    #[token(",")]
    Comma,
    #[token(":")]
    Colon,
    #[token("|")]
    Bar,
    #[token("?")]
    NotTaken,
    #[token("(")]
    OpenRound,
    #[token(")")]
    CloseRound,
    #[token("[")]
    OpenSquare,
    #[token("]")]
    CloseSquare,
    #[token("%")]
    Percent,
    #[token("°")]
    Degree,
    #[token("²")]
    Squared,
    #[token("³")]
    Cubed,

    /// Characters that stand for nothing in the language.
    Strange,
}

impl LexemeKind {
    /// The closing bracket that belongs to an opening one.
    pub fn closing(self) -> Option<LexemeKind> {
        match self {
            LexemeKind::OpenRound => Some(LexemeKind::CloseRound),
            LexemeKind::OpenSquare => Some(LexemeKind::CloseSquare),
            _ => None,
        }
    }

    /// `)` or `]`.
    pub fn is_closing(self) -> bool {
        matches!(self, LexemeKind::CloseRound | LexemeKind::CloseSquare)
    }

    /// What needs something on its other side, so that a line cannot end or begin there.
    pub fn is_operator(self) -> bool {
        use LexemeKind::*;
        matches!(
            self,
            If | Then
                | Else
                | And
                | Or
                | Not
                | As
                | Within
                | Where
                | Plus
                | Minus
                | Times
                | Over
                | Caret
                | Equals
                | Same
                | Differs
                | Less
                | AtMost
                | More
                | AtLeast
                | PlusMinus
                | Range
        )
    }

    /// A comparison that does not chain.
    pub fn is_comparison(self) -> bool {
        use LexemeKind::*;
        matches!(self, Same | Differs | Less | AtMost | More | AtLeast | Within)
    }

    /// A word of the language that no name may have.
    pub fn is_reserved(self) -> bool {
        use LexemeKind::*;
        matches!(self, If | Then | Else | And | Or | Not | As | Within | Where | True | False)
    }
}

/// Cuts a text into plain tokens, comments and line ends included.
pub fn lexemes(text: &str) -> Vec<Lexeme> {
    let mut list: Vec<Lexeme> = Vec::with_capacity(text.len() / 4);
    let mut end = 0;
    for (kind, range) in LexemeKind::lexer(text).spanned() {
        let kind = kind.unwrap_or(LexemeKind::Strange);
        let spaced =
            range.start != end || range.start == 0 || list.last().is_none_or(|l| l.kind == LexemeKind::LineEnd);
        end = range.end;
        match list.last_mut() {
            // Neighbouring strange characters make one message.
            Some(last) if kind == LexemeKind::Strange && last.kind == kind && !spaced => last.end = range.end as u32,
            _ => list.push(Lexeme { kind, start: range.start as u32, end: range.end as u32, spaced }),
        }
    }
    list
}

/// Reads on after an opening quote. The kind is settled by [`LexemeKind`]'s callback result.
fn text(lexer: &mut Lexer<LexemeKind>) -> LexemeKind {
    let behind = lexer.source().as_bytes().get(lexer.span().start.wrapping_sub(1));
    if behind.is_some_and(u8::is_ascii_digit) && !word_ends_at(lexer.source(), lexer.span().start) {
        return LexemeKind::InchMark;
    }
    let rest = lexer.remainder().as_bytes();
    let mut at = 0;
    while let Some(&byte) = rest.get(at) {
        match byte {
            b'"' if rest.get(at + 1) == Some(&b'"') => at += 2,
            b'"' => {
                lexer.bump(at + 1);
                return LexemeKind::Text;
            }
            b'\n' => break,
            _ => at += 1,
        }
    }
    if at > 0 && rest.get(at - 1) == Some(&b'\r') {
        at -= 1;
    }
    lexer.bump(at);
    LexemeKind::OpenText
}

/// Whether the digits before `at` are the tail of a name such as `L2` rather than a number.
fn word_ends_at(text: &str, at: usize) -> bool {
    let digits = text[..at].trim_end_matches(|c: char| c.is_ascii_digit() || c == '.');
    digits.chars().next_back().is_some_and(|c| c.is_alphabetic() || c == '_')
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::LexemeKind::*;
    use super::*;

    fn kinds(text: &str) -> Vec<LexemeKind> {
        lexemes(text).iter().map(|lexeme| lexeme.kind).collect()
    }

    #[test]
    fn traps_of_longest_match() {
        assert_eq!(kinds("1..2"), [Number, Range, Number]);
        assert_eq!(kinds("5eV"), [Number, Word]);
        assert_eq!(kinds("oz·ft"), [Word, Times, Word]);
        assert_eq!(kinds("a+/-b"), [Word, PlusMinus, Word]);
        assert_eq!(kinds("R-410A R410A R-1234ze(E) R12_x"), [Refrigerant, Refrigerant, Refrigerant, Word]);
        assert_eq!(kinds("iffy if"), [Word, If]);
        assert_eq!(kinds("2026-03-14T07:40-05:00"), [Moment]);
        assert_eq!(kinds("µm F° °F m²"), [Word, Word, Degree, Degree, Word, Word, Squared]);
    }

    #[test]
    fn texts_and_inches() {
        assert_eq!(kinds("\"a \"\"b\"\" c\""), [Text]);
        assert_eq!(kinds("\"open\nx"), [OpenText, LineEnd, Word]);
        assert_eq!(kinds("3/8\" x"), [Number, Over, Number, InchMark, Word]);
        assert_eq!(kinds("x # \"no text\n"), [Word, Comment, LineEnd]);
    }

    #[test]
    fn spaces_are_known() {
        let list = lexemes("f(a) b");
        assert_eq!(list.iter().map(|l| l.spaced).collect::<Vec<_>>(), [true, false, false, false, true]);
    }
}
