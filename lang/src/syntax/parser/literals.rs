//! Values as written.

use chumsky::prelude::*;

use super::marks::{Extra, Tokens, mark, token};
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::{Token, TokenKind};
use crate::syntax::tree::{Expr, ExprKind, Piece, Quantity};

/// A number, a quantity, a flag, a time, a refrigerant.
pub fn literal<'t>() -> impl Parser<'t, Tokens<'t>, Expr, Extra> + Clone + 't {
    token(|token| literal_kind(token).map(|kind| Expr { span: token.span, kind }))
}

/// A number or a quantity, maybe with a sign.
pub fn amount<'t>() -> impl Parser<'t, Tokens<'t>, Expr, Extra> + Clone + 't {
    let number = token(|token| match &token.kind {
        TokenKind::Number(_) | TokenKind::Quantity(_) | TokenKind::Unreadable => {
            literal_kind(token).map(|kind| Expr { span: token.span, kind })
        }
        _ => None,
    });
    mark(Mark::Minus).or_not().then(number).map(|(sign, value)| match sign {
        Some(sign) => negated(Expr { span: sign.to(value.span), ..value }),
        None => value,
    })
}

/// What a token is as a value by itself; texts apart.
pub fn literal_kind(token: &Token) -> Option<ExprKind> {
    Some(match &token.kind {
        TokenKind::Number(number) => ExprKind::Number(*number),
        TokenKind::Quantity(quantity) => ExprKind::Quantity(quantity.clone()),
        TokenKind::Moment(moment) => ExprKind::Moment(*moment),
        TokenKind::Refrigerant(name) => ExprKind::Refrigerant(name.clone()),
        TokenKind::Mark(Mark::True) => ExprKind::Flag(true),
        TokenKind::Mark(Mark::False) => ExprKind::Flag(false),
        TokenKind::Unreadable => ExprKind::Unreadable,
        _ => return None,
    })
}

/// A literal number with the other sign; anything else with a minus before it.
pub fn negated(value: Expr) -> Expr {
    let Expr { span, kind } = value;
    let kind = match kind {
        ExprKind::Number(number) => ExprKind::Number(-number),
        ExprKind::Quantity(mut quantity) => {
            quantity.pieces.iter_mut().for_each(|piece| piece.number = -piece.number);
            ExprKind::Quantity(quantity)
        }
        kind => ExprKind::Negate(Box::new(Expr { span, kind })),
    };
    Expr { span, kind }
}

/// A literal behind a ±, where `10 micron` can only be a difference.
pub fn in_differences(mut value: Expr) -> Expr {
    if let ExprKind::Quantity(quantity) = &mut value.kind {
        quantity.pieces.iter_mut().for_each(|piece| piece.unit = crate::units::in_differences(&piece.unit));
    }
    value
}

/// `55 %` as 0.55.
pub fn share(value: &Expr) -> Option<f64> {
    match &value.kind {
        ExprKind::Quantity(Quantity { pieces }) => match pieces.as_slice() {
            [Piece { number, unit, .. }] if unit.text == "%" => Some(unit.to_si(*number, 0.0)),
            _ => None,
        },
        _ => None,
    }
}

/// In `5 .. 15 F°` and `61.0, 61.2 degF` a bare number takes the unit of the literal behind it.
pub fn same_unit(value: Expr, behind: &Expr) -> Expr {
    let ExprKind::Quantity(Quantity { pieces }) = &behind.kind else { return value };
    let [piece] = pieces.as_slice() else { return value };
    let number = match &value.kind {
        ExprKind::Number(number) => *number,
        ExprKind::Negate(inner) => match inner.kind {
            ExprKind::Number(number) => -number,
            _ => return value,
        },
        _ => return value,
    };
    let pieces = vec![Piece { number, unit: piece.unit.clone(), unit_span: piece.unit_span }];
    Expr { span: value.span, kind: ExprKind::Quantity(Quantity { pieces }) }
}
