//! Tokens as messages show them.

use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::{Token, TokenKind};

/// Letters of a word that a message shows.
const LONGEST_WORD: usize = 60;

/// A token as it reads in a sentence.
pub fn shown(token: &Token) -> String {
    match &token.kind {
        TokenKind::Word(word) | TokenKind::Function(word) => match word.char_indices().nth(LONGEST_WORD) {
            Some((end, _)) => format!("`{}…`", word.get(..end).unwrap_or_default()),
            None => format!("`{word}`"),
        },
        TokenKind::Refrigerant(name) => format!("`{name}`"),
        TokenKind::Number(number) => format!("the number `{number}`"),
        TokenKind::Quantity(_) => "a quantity".to_string(),
        TokenKind::Units(units) => format!("the unit `{}`", units.first().map_or("", |unit| &unit.text)),
        TokenKind::Text(text) if text.plain.chars().count() <= 20 => format!("the text \"{}\"", text.plain),
        TokenKind::Text(_) => "a text".to_string(),
        TokenKind::Moment(_) => "a date".to_string(),
        TokenKind::Unreadable => "this".to_string(),
        TokenKind::Mark(mark) => format!("`{}`", spelling(*mark)),
    }
}

/// Whether a value may end with a token.
pub fn ends_value(token: &Token) -> bool {
    match &token.kind {
        TokenKind::Mark(mark) => mark.is_closing() || matches!(mark, Mark::True | Mark::False | Mark::NotTaken),
        TokenKind::Function(_) => false,
        _ => true,
    }
}

fn spelling(mark: Mark) -> &'static str {
    match mark {
        Mark::If => "if",
        Mark::Then => "then",
        Mark::Else => "else",
        Mark::And => "and",
        Mark::Or => "or",
        Mark::Not => "not",
        Mark::As => "as",
        Mark::Within => "within",
        Mark::Where => "where",
        Mark::True => "true",
        Mark::False => "false",
        Mark::Plus => "+",
        Mark::Minus => "-",
        Mark::Times => "*",
        Mark::Over => "/",
        Mark::Caret => "^",
        Mark::Equals => "=",
        Mark::Same => "==",
        Mark::Differs => "!=",
        Mark::Less => "<",
        Mark::AtMost => "<=",
        Mark::More => ">",
        Mark::AtLeast => ">=",
        Mark::PlusMinus => "±",
        Mark::Range => "..",
        Mark::Dot => ".",
        Mark::Comma => ",",
        Mark::Colon => ":",
        Mark::Bar => "|",
        Mark::NotTaken => "?",
        Mark::OpenRound => "(",
        Mark::CloseRound => ")",
        Mark::OpenSquare => "[",
        Mark::CloseSquare => "]",
        _ => "this mark",
    }
}
