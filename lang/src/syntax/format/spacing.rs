//! Where blanks stand within a line, and how each token is spelled.

use std::borrow::Cow;

use crate::syntax::join::{Text, begins_value};
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::parser::{ends_value, first_word};
use crate::syntax::token::{Token, TokenKind};

/// Some tokens of a line in their layout. `line` is the whole line, `from` and `to` what of it is wanted.
pub fn spell(text: Text<'_>, line: &[Token], from: usize, to: usize) -> String {
    let mut result = String::new();
    for (at, token) in line.iter().enumerate().take(to).skip(from) {
        if at > from && spaced(line, at) {
            result.push(' ');
        }
        result.push_str(&spelled(text, token));
    }
    result
}

/// One token as it is written; in a quantity one blank stands before each unit, between the units of `lb oz` and before
/// the word of `kPa absolute` too.
pub fn spelled<'a>(text: Text<'a>, token: &Token) -> Cow<'a, str> {
    match &token.kind {
        TokenKind::Quantity(quantity) => {
            let mut words = Vec::new();
            let mut at = token.span.start as usize;
            for piece in &quantity.pieces {
                let unit = piece.unit_span.range();
                words.push(text.slice(at..unit.start).trim());
                at = unit.end;
                words.extend(text.slice(unit).split_whitespace());
            }
            words.join(" ").into()
        }
        TokenKind::Units(_) => {
            let units: Vec<&str> = text.slice(token.span.range()).split_whitespace().collect();
            units.join(" ").into()
        }
        _ => text.slice(token.span.range()).into(),
    }
}

/// Whether a blank stands before a token of a line.
fn spaced(line: &[Token], at: usize) -> bool {
    let Some((before, next)) = at.checked_sub(1).and_then(|before| line.get(before).zip(line.get(at))) else {
        return false;
    };
    // Right behind a unit, a point or a bracket would be read with it.
    let open_end = matches!(before.kind, TokenKind::Number(_) | TokenKind::Quantity(_) | TokenKind::Units(_));
    match &next.kind {
        TokenKind::Mark(Mark::CloseRound | Mark::CloseSquare | Mark::Comma) => return false,
        TokenKind::Mark(Mark::Dot | Mark::OpenSquare) => return open_end,
        TokenKind::Mark(Mark::Caret) => return open_end && !matches!(before.kind, TokenKind::Number(_)),
        TokenKind::Mark(Mark::OpenRound) if names_bracket(line, at) => return begins_bindings(line, at),
        _ => {}
    }
    match &before.kind {
        TokenKind::Mark(Mark::OpenRound | Mark::OpenSquare | Mark::Dot) => false,
        TokenKind::Mark(Mark::Caret) => !matches!(
            next.kind,
            TokenKind::Number(_)
                | TokenKind::Word(_)
                | TokenKind::Function(_)
                | TokenKind::Mark(Mark::OpenRound | Mark::Minus)
        ),
        // A sign touches its value, save where it would be taken into a quantity: -40 degF is one, - 40 degF is not.
        TokenKind::Mark(Mark::Minus) if is_sign(line, at - 1) => matches!(next.kind, TokenKind::Quantity(_)),
        _ => true,
    }
}

/// Whether the bracket at a place holds what belongs to the name before it: `f(x)`, `define f(x)`.
fn names_bracket(line: &[Token], at: usize) -> bool {
    match line.get(at - 1).map(|before| &before.kind) {
        Some(TokenKind::Function(_)) => true,
        Some(TokenKind::Word(_)) => at == 2 && first_word(line) == "define",
        _ => false,
    }
}

/// Whether the bracket at a place holds what a form is filled with: `fill "path" as name (…)`, not `fill = level(…)`.
fn begins_bindings(line: &[Token], at: usize) -> bool {
    let names_form = matches!(line.get(1).map(|token| &token.kind), Some(TokenKind::Text(_)));
    first_word(line) == "fill"
        && names_form
        && !line.iter().take(at).any(|token| token.kind == TokenKind::Mark(Mark::OpenRound))
}

/// Whether the minus at a place is a sign rather than an operator between two values.
fn is_sign(line: &[Token], minus: usize) -> bool {
    let before = minus.checked_sub(1).and_then(|before| line.get(before));
    before.is_none_or(|before| match &before.kind {
        TokenKind::Word(word) => begins_value(word),
        TokenKind::Text(_) => true,
        _ => !ends_value(before),
    })
}
