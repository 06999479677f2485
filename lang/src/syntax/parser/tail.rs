//! What stands after the value of an input or a reading.

use chumsky::prelude::*;

use super::expression::{Expressions, ends};
use super::fault::Fault;
use super::literals::{amount, in_differences, share};
use super::marks::{Rule, mark, moment, name, place, token, word, words};
use crate::diagnostic::{Diagnostic, statements, words as codes};
use crate::source::Span;
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::TokenKind;
use crate::syntax::tree::{
    Expr, ExprKind, MomentLiteral, Name, Tail, Uncertainty, UncertaintyStyle, UncertaintyTerm, Words,
};
use crate::units::Stance;

enum Part {
    Uncertainty(Uncertainty),
    By(Name),
    At(MomentLiteral),
    Within(Expr, Expr),
    Optional(Span),
    Note(Words),
}

/// `± …`, `by instrument`, `at time`, `within a .. b`, `optional`, `"note"`, in any order, each at most once.
pub fn tail<'t>(expressions: &Expressions<'t>) -> Rule<'t, Tail> {
    let part = choice((
        uncertainty(expressions).map(Part::Uncertainty),
        word("by").ignore_then(instrument_name()).map(Part::By),
        at().map(Part::At),
        mark(Mark::Within).ignore_then(ends(expressions.sum.clone())).map(|(from, to)| Part::Within(from, to)),
        word("optional").map(Part::Optional),
        words().map(Part::Note),
    ));
    part.map_with(|part, e| (part, place(e.slice())))
        .repeated()
        .collect::<Vec<_>>()
        .validate(|parts, _, emitter| {
            let mut tail = Tail::default();
            for (part, span) in parts {
                let (before, what) = match part {
                    Part::Uncertainty(value) => (tail.uncertainty.replace(value).is_some(), "±"),
                    Part::By(value) => (tail.by.replace(value).is_some(), "by"),
                    Part::At(value) => (tail.at.replace(value).is_some(), "at"),
                    Part::Within(from, to) => (tail.within.replace((from, to)).is_some(), "within"),
                    Part::Optional(value) => (tail.optional.replace(value).is_some(), "optional"),
                    Part::Note(value) => (tail.note.replace(value).is_some(), "a note"),
                };
                if before {
                    let message = format!("{what} stands here twice");
                    let diagnostic = Diagnostic::error(&statements::TWICE, message, span, "the second");
                    emitter.emit(Fault::said(diagnostic.with_mend("keep one of them")));
                }
            }
            tail
        })
        .boxed()
}

/// The name of an instrument, `clamp`, or of one of a used sheet, `tools.clamp`.
pub fn instrument_name<'t>() -> Rule<'t, Name> {
    let of_alias = mark(Mark::Dot).ignore_then(name());
    name()
        .then(of_alias.or_not())
        .map(|(first, second)| match second {
            Some(own) => Name { text: format!("{}.{}", first.text, own.text), span: first.span.to(own.span) },
            None => first,
        })
        .boxed()
}

/// The unit of a literal that is a point on a scale.
fn point_unit(value: &Expr) -> Option<&str> {
    let ExprKind::Quantity(quantity) = &value.kind else { return None };
    let unit = &quantity.pieces.first()?.unit;
    (unit.meaning.stance() == Stance::Point).then_some(unit.text.as_str())
}

/// `at 2026-03-14T07:40`
pub fn at<'t>() -> Rule<'t, MomentLiteral> {
    let unreadable = token(|token| {
        (token.kind == TokenKind::Unreadable).then_some(MomentLiteral {
            moment: crate::moment::Moment { seconds: 0.0, offset: None, whole_day: true },
            span: token.span,
        })
    });
    word("at").ignore_then(choice((moment(), unreadable))).boxed()
}

/// `± 0.5 % of reading + 0.2 psi coverage 2 freedom 18`
pub fn uncertainty<'t>(expressions: &Expressions<'t>) -> Rule<'t, Uncertainty> {
    #[derive(Clone)]
    enum Of {
        Reading,
        Value(Expr),
    }
    let of = word("of").ignore_then(choice((
        word("reading").to(Of::Reading),
        amount().map(|value| Of::Value(in_differences(value))),
        expressions.value.clone().map(Of::Value),
    )));
    let term = amount().map(in_differences).then(of.or_not()).validate(|(amount, of), _, emitter| {
        let span = amount.span;
        match (of, share(&amount)) {
            (None, _) => UncertaintyTerm::Amount(amount),
            (Some(Of::Reading), Some(share)) => UncertaintyTerm::OfReading(share, span),
            (Some(Of::Value(value)), Some(share)) => {
                if let Some(point) = point_unit(&value) {
                    let message = format!("a share of a value in `{point}` means nothing: it is a point on a scale");
                    let diagnostic = Diagnostic::error(&codes::PLUS_MINUS_POINT, message, value.span, "");
                    let mend = "write a share of a difference, such as `0.5 % of 800 psi`, or `of reading`";
                    emitter.emit(Fault::said(diagnostic.with_mend(mend)));
                }
                UncertaintyTerm::Of(share, value)
            }
            (Some(_), None) => {
                if !matches!(amount.kind, ExprKind::Unreadable) {
                    let message = "before `of` stands a share in per cent";
                    let diagnostic = Diagnostic::error(&statements::FORM, message, span, "not a per cent");
                    emitter.emit(Fault::said(diagnostic.with_mend("write `0.5 % of reading` or `0.5 % of 800 psi`")));
                }
                UncertaintyTerm::Amount(amount)
            }
        }
    });
    let number = token(|token| match token.kind {
        TokenKind::Number(number) => Some(number),
        _ => None,
    });
    let style = choice((
        word("coverage").ignore_then(number).map(UncertaintyStyle::Coverage),
        word("standard").to(UncertaintyStyle::Standard),
    ));
    let freedom = word("freedom").ignore_then(token(|token| match token.kind {
        TokenKind::Number(number) => Some((number, token.span)),
        _ => None,
    }));
    mark(Mark::PlusMinus)
        .ignore_then(term.separated_by(mark(Mark::Plus)).at_least(1).collect::<Vec<_>>())
        .then(style.or_not())
        .then(freedom.or_not())
        .map_with(|((terms, style), freedom), e| Uncertainty {
            span: place(e.slice()),
            terms,
            style: style.unwrap_or(UncertaintyStyle::Limits),
            freedom,
        })
        .boxed()
}
