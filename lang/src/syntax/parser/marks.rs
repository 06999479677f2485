//! The smallest parsers: one mark, one word, one name.

use chumsky::prelude::*;

use super::fault::Fault;
use crate::source::Span;
use crate::syntax::lexeme::LexemeKind;
use crate::syntax::token::{Token, TokenKind};
use crate::syntax::tree::{MomentLiteral, Name, Words};

/// What the parsers read.
pub type Tokens<'t> = &'t [Token];
/// How the parsers fail.
pub type Extra = extra::Err<Fault>;
/// A parser behind a pointer, so that types and compile times stay small.
pub type Rule<'t, O> = Boxed<'t, 't, Tokens<'t>, O, Extra>;

/// The place of a run of tokens.
pub fn place(tokens: &[Token]) -> Span {
    match (tokens.first(), tokens.last()) {
        (Some(first), Some(last)) => first.span.to(last.span),
        _ => Span::default(),
    }
}

/// One token of which `take` makes something.
pub fn token<'t, O: 't>(
    take: impl Fn(&'t Token) -> Option<O> + Clone + 't,
) -> impl Parser<'t, Tokens<'t>, O, Extra> + Clone + 't {
    chumsky::primitive::select_ref(move |token: &'t Token, _| take(token))
}

/// An operator, a bracket or a reserved word.
pub fn mark<'t>(kind: LexemeKind) -> impl Parser<'t, Tokens<'t>, Span, Extra> + Clone + 't {
    token(move |token| (token.kind == TokenKind::Mark(kind)).then_some(token.span))
}

/// A word of a statement.
pub fn word<'t>(text: &'static str) -> impl Parser<'t, Tokens<'t>, Span, Extra> + Clone + 't {
    token(move |token| matches!(&token.kind, TokenKind::Word(word) if word == text).then_some(token.span))
}

/// A name.
pub fn name<'t>() -> impl Parser<'t, Tokens<'t>, Name, Extra> + Clone + 't {
    token(|token| match &token.kind {
        TokenKind::Word(text) => Some(Name { text: text.clone(), span: token.span }),
        _ => None,
    })
}

/// A name with an opening bracket right behind it.
pub fn function<'t>() -> impl Parser<'t, Tokens<'t>, Name, Extra> + Clone + 't {
    token(|token| match &token.kind {
        TokenKind::Function(text) => Some(Name { text: text.clone(), span: token.span }),
        _ => None,
    })
}

/// A text without fillings.
pub fn words<'t>() -> impl Parser<'t, Tokens<'t>, Words, Extra> + Clone + 't {
    token(|token| match &token.kind {
        TokenKind::Text(text) => Some(Words { text: text.plain.clone(), span: token.span }),
        _ => None,
    })
}

/// A date or time.
pub fn moment<'t>() -> impl Parser<'t, Tokens<'t>, MomentLiteral, Extra> + Clone + 't {
    token(|token| match &token.kind {
        TokenKind::Moment(moment) => Some(MomentLiteral { moment: *moment, span: token.span }),
        _ => None,
    })
}
