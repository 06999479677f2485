//! Texts as values, with their fillings.

use chumsky::prelude::*;

use super::explain::explain;
use super::fault::Fault;
use super::marks::{Rule, token};
use crate::syntax::token::{Filling, TextToken, TextTokenPart, TokenKind};
use crate::syntax::tree::{Expr, ExprKind, TextLiteral, TextPart};

/// A text as a value.
pub fn text_value<'t>(whole: Rule<'t, Expr>) -> Rule<'t, Expr> {
    text_literal(whole).map(|text| Expr { span: text.span, kind: ExprKind::Text(text) }).boxed()
}

/// A text that may have fillings.
pub fn text_literal<'t>(whole: Rule<'t, Expr>) -> Rule<'t, TextLiteral> {
    token(|token| match &token.kind {
        TokenKind::Text(text) => Some((text, token.span)),
        _ => None,
    })
    .validate(move |(text, span): (&'t TextToken, _), _, emitter| {
        if text.parts.is_empty() {
            let plain = (!text.plain.is_empty()).then(|| TextPart::Plain(text.plain.clone()));
            return TextLiteral { span, parts: plain.into_iter().collect() };
        }
        let parts = text.parts.iter().map(|part| match part {
            TextTokenPart::Plain(plain) => TextPart::Plain(plain.clone()),
            TextTokenPart::Filled(filling) => {
                TextPart::Filled(filled(&whole, filling, &mut |fault| emitter.emit(fault)))
            }
        });
        TextLiteral { span, parts: parts.collect() }
    })
    .boxed()
}

fn filled<'t>(whole: &Rule<'t, Expr>, filling: &'t Filling, emit: &mut dyn FnMut(Fault)) -> Expr {
    let (expr, faults) = whole.parse(filling.tokens.as_slice()).into_output_errors();
    if !filling.faulty {
        for fault in faults {
            emit(Fault::said(explain(fault, &filling.tokens, filling.span)));
        }
    }
    expr.unwrap_or(Expr { span: filling.span, kind: ExprKind::Unreadable })
}
