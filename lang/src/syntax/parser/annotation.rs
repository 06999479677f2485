//! Kinds after `:` and in the unit line of a table.

use chumsky::prelude::*;

use super::marks::{Rule, mark, place, token, word, words};
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::TokenKind;
use crate::syntax::tree::{Annotation, AnnotationKind};

/// `: kind`, or nothing.
pub fn annotation<'t>() -> Rule<'t, Option<Annotation>> {
    // A kind that could not be read leaves the name without one; its message has been given.
    let unreadable = token(|token| (token.kind == TokenKind::Unreadable).then_some(None));
    mark(Mark::Colon).ignore_then(choice((kind().map(Some), unreadable))).or_not().map(Option::flatten).boxed()
}

/// A kind.
pub fn kind<'t>() -> Rule<'t, Annotation> {
    let plain = token(|token| {
        Some(match &token.kind {
            TokenKind::Units(units) => AnnotationKind::Units(units.clone()),
            TokenKind::Word(word) => match word.as_str() {
                "number" => AnnotationKind::Number,
                "text" => AnnotationKind::Text,
                "flag" => AnnotationKind::Flag,
                "time" => AnnotationKind::Time,
                "refrigerant" => AnnotationKind::Refrigerant,
                "gas" => AnnotationKind::Gas,
                _ => return None,
            },
            _ => return None,
        })
    });
    let one_of = word("one")
        .ignore_then(word("of"))
        .ignore_then(words().separated_by(mark(Mark::Comma)).at_least(1).collect::<Vec<_>>())
        .map(AnnotationKind::OneOf);
    choice((one_of, plain)).map_with(|kind, e| Annotation { span: place(e.slice()), kind }).boxed()
}
