//! Tokens as the parser sees them: numbers, fractions and units joined, lines settled.

use std::ops::Range;

use super::lexeme::LexemeKind;
use super::tree::Quantity;
use crate::diagnostic::Diagnostic;
use crate::moment::Moment;
use crate::source::Span;
use crate::units::Unit;

/// A joined token with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Token {
    /// What it is.
    pub kind: TokenKind,
    /// Where it stands.
    pub span: Span,
}

/// What a joined token is.
#[derive(Debug, Clone, PartialEq)]
pub enum TokenKind {
    /// A name, or a word of a statement.
    Word(String),
    /// A name with an opening bracket right behind it.
    Function(String),
    /// A number without a unit.
    Number(f64),
    /// A number with its unit, in one or several pieces.
    Quantity(Quantity),
    /// A unit after `as`, after `:` or in a table's unit line; several falling ones are possible.
    Units(Vec<Unit>),
    /// A text.
    Text(TextToken),
    /// A date or time.
    Moment(Moment),
    /// A refrigerant in its canonical spelling.
    Refrigerant(String),
    /// An operator, a bracket or a reserved word.
    Mark(LexemeKind),
    /// A value whose error has been given.
    Unreadable,
}

/// A text, quotes taken off and doubled quotes undone.
#[derive(Debug, Clone, PartialEq)]
pub struct TextToken {
    /// As it stands where it may not be filled: in titles, labels and paths.
    pub plain: String,
    /// Its parts, if it has fillings.
    pub parts: Vec<TextTokenPart>,
}

/// A part of a text with fillings.
#[derive(Debug, Clone, PartialEq)]
pub enum TextTokenPart {
    /// Plain words.
    Plain(String),
    /// The tokens of a filling.
    Filled(Filling),
}

/// What stands between the braces of a filling.
#[derive(Debug, Clone, PartialEq)]
pub struct Filling {
    /// Its place, without braces.
    pub span: Span,
    /// Its tokens.
    pub tokens: Vec<Token>,
    /// It has a message already.
    pub faulty: bool,
}

/// What a line is to be read as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineRole {
    /// A statement, a row, a formula.
    Plain,
    /// The line of a table that names its columns.
    Header,
    /// The line of a table that gives columns their units.
    UnitLine,
}

/// A line, continued lines joined.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its tokens.
    pub tokens: Range<usize>,
    /// What it is to be read as.
    pub role: LineRole,
    /// It has a message already: the parser keeps quiet about it.
    pub faulty: bool,
}

/// A text cut into tokens and lines.
#[derive(Debug, Default)]
pub struct Joined {
    /// All tokens.
    pub tokens: Vec<Token>,
    /// Lines that hold at least one token, in order.
    pub lines: Vec<Line>,
    /// What was wrong with words, marks, numbers and units.
    pub diagnostics: Vec<Diagnostic>,
}

impl Joined {
    /// The tokens of a line.
    pub fn of(&self, line: &Line) -> &[Token] {
        self.tokens.get(line.tokens.clone()).unwrap_or(&[])
    }
}
