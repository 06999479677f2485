//! Expressions. From loosest to tightest: `if` · `or` · `and` · `not` · comparisons and `within` · `as` ·
//! `+ -` · `* /` · unary `-` · `^` · call, field, index.

use chumsky::pratt::{infix, left, postfix, prefix, right};
use chumsky::prelude::*;

use super::calls::calls;
use super::fault::Fault;
use super::literals::{in_differences, literal, same_unit, share};
use super::marks::{Extra, Rule, Tokens, mark, name, place, token, word};
use super::texts::text_value;
use crate::diagnostic::{Diagnostic, statements};
use crate::source::Span;
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::TokenKind;
use crate::syntax::tree::{As, BinaryOp, Expr, ExprKind, Name, Range};

/// The rules for expressions that statements use.
#[derive(Clone)]
pub struct Expressions<'t> {
    /// Any expression.
    pub whole: Rule<'t, Expr>,
    /// An expression without comparisons, `and`, `or`, `not`: what stands before a `within` or `..`.
    pub sum: Rule<'t, Expr>,
    /// A value with its fields, without operators.
    pub value: Rule<'t, Expr>,
}

/// Makes the rules for expressions.
pub fn expressions<'t>() -> Expressions<'t> {
    // `recursive` rather than `Recursive::declare`: rules that own one another would never be freed.
    let whole = recursive(|whole| {
        let whole = whole.boxed();
        choice((conditional(whole.clone()), condition(sum(whole))))
    })
    .boxed();
    let sum = sum(whole.clone());
    let value = value(whole.clone(), sum.clone());
    Expressions { whole, sum, value }
}

fn sum<'t>(whole: Rule<'t, Expr>) -> Rule<'t, Expr> {
    recursive(|sum| arithmetic(value(whole, sum.boxed()))).boxed()
}

/// A literal, a name, a call or a bracket, with fields and keys behind it.
fn value<'t>(whole: Rule<'t, Expr>, sum: Rule<'t, Expr>) -> Rule<'t, Expr> {
    let bracket = whole
        .clone()
        .delimited_by(mark(Mark::OpenRound), mark(Mark::CloseRound))
        .map_with(|inner, e| Expr { span: place(e.slice()), ..inner });
    let named = name().map(|name| Expr { span: name.span, kind: ExprKind::Name(name.text) });
    let base = choice((literal(), text_value(whole.clone()), bracket, calls(whole.clone(), sum), named)).boxed();

    let field = mark(Mark::Dot).ignore_then(name()).map(Behind::Field);
    let index = whole.delimited_by(mark(Mark::OpenSquare), mark(Mark::CloseSquare)).map(Behind::Key);
    base.foldl_with(choice((field, index)).repeated(), |before, behind, e| Expr {
        span: place(e.slice()),
        kind: match behind {
            Behind::Field(name) => ExprKind::Field(Box::new(before), name),
            Behind::Key(key) => ExprKind::Index(Box::new(before), Box::new(key)),
        },
    })
    .boxed()
}

/// What stands right behind a value.
enum Behind {
    Field(Name),
    Key(Expr),
}

fn arithmetic<'t>(value: Rule<'t, Expr>) -> Rule<'t, Expr> {
    value
        .pratt((
            infix(right(5), operator([(Mark::Caret, BinaryOp::Power)]), |left, operator, right, _| {
                binary(left, operator, right)
            }),
            prefix(4, mark(Mark::Minus), |sign: Span, operand: Expr, _| Expr {
                span: sign.to(operand.span),
                kind: ExprKind::Negate(Box::new(operand)),
            }),
            infix(
                left(3),
                operator([(Mark::Times, BinaryOp::Multiply), (Mark::Over, BinaryOp::Divide)]),
                |left, operator, right, _| binary(left, operator, right),
            ),
            infix(
                left(2),
                operator([(Mark::Plus, BinaryOp::Add), (Mark::Minus, BinaryOp::Subtract)]),
                |left, operator, right, _| binary(left, operator, right),
            ),
            postfix(1, shown_as(), |operand: Expr, shown: As, _| Expr {
                span: operand.span.to(shown.span),
                kind: ExprKind::As(Box::new(operand), shown),
            }),
        ))
        .boxed()
}

/// `as psig to 0.1`
fn shown_as<'t>() -> Rule<'t, As> {
    let units = token(|token| match &token.kind {
        TokenKind::Units(units) => Some(units.clone()),
        TokenKind::Unreadable => Some(Vec::new()),
        _ => None,
    });
    let step = word("to").ignore_then(token(|token| match token.kind {
        TokenKind::Number(step) => Some(step),
        _ => None,
    }));
    mark(Mark::As)
        .ignore_then(units)
        .then(step.or_not())
        .map_with(|(units, step), e| As { units, span: place(e.slice()), step })
        .boxed()
}

fn condition<'t>(sum: Rule<'t, Expr>) -> Rule<'t, Expr> {
    let comparison = operator([
        (Mark::Same, BinaryOp::Equal),
        (Mark::Differs, BinaryOp::NotEqual),
        (Mark::Less, BinaryOp::Less),
        (Mark::AtMost, BinaryOp::AtMost),
        (Mark::More, BinaryOp::More),
        (Mark::AtLeast, BinaryOp::AtLeast),
    ]);
    // Not a part of the operators below: at most one comparison stands between two of them.
    let compared = choice((
        comparison.then(sum.clone()).map(|(operator, right)| Compared::With(operator, right)),
        mark(Mark::Within).ignore_then(range(sum.clone())).map(|(range, end)| Compared::Within(range, end)),
    ));
    let comparison = sum.then(compared.or_not()).map(|(value, compared)| match compared {
        None => value,
        Some(Compared::With(operator, right)) => binary(value, operator, right),
        Some(Compared::Within(range, end)) => {
            Expr { span: value.span.to(end), kind: ExprKind::Within(Box::new(value), Box::new(range)) }
        }
    });
    comparison
        .pratt((
            prefix(3, mark(Mark::Not), |sign: Span, operand: Expr, _| Expr {
                span: sign.to(operand.span),
                kind: ExprKind::Not(Box::new(operand)),
            }),
            infix(left(2), operator([(Mark::And, BinaryOp::And)]), |left, operator, right, _| {
                binary(left, operator, right)
            }),
            infix(left(1), operator([(Mark::Or, BinaryOp::Or)]), |left, operator, right, _| {
                binary(left, operator, right)
            }),
        ))
        .boxed()
}

/// What a value is compared with.
enum Compared {
    With(BinaryOp, Expr),
    Within(Range, Span),
}

/// What stands after `within`, with its place.
fn range<'t>(sum: Rule<'t, Expr>) -> Rule<'t, (Range, Span)> {
    let around = mark(Mark::PlusMinus).ignore_then(sum.clone()).then(word("of").ignore_then(sum.clone()).or_not()).map(
        |(amount, of)| match (of, share(&amount)) {
            (None, _) => Range::PlusMinus(in_differences(amount)),
            (Some(of), Some(share)) => Range::ShareOf(share, of),
            (Some(of), None) => Range::PlusMinusOf(in_differences(amount), of),
        },
    );
    choice((around, ends(sum).map(|(from, to)| Range::Between(from, to))))
        .map_with(|range, e| (range, place(e.slice())))
        .boxed()
}

/// `a .. b`; a bare number at one end takes the unit of the other.
pub fn ends<'t>(sum: Rule<'t, Expr>) -> Rule<'t, (Expr, Expr)> {
    sum.clone().then_ignore(mark(Mark::Range)).then(sum).map(|(from, to)| (same_unit(from, &to), to)).boxed()
}

/// `if a then b else c`
fn conditional<'t>(whole: Rule<'t, Expr>) -> Rule<'t, Expr> {
    mark(Mark::If)
        .ignore_then(whole.clone())
        .then_ignore(mark(Mark::Then))
        .then(whole.clone())
        .then(mark(Mark::Else).ignore_then(whole).or_not())
        .validate(|((condition, then), otherwise), e, emitter| {
            let span = place(e.slice());
            let otherwise = otherwise.unwrap_or_else(|| {
                emitter.emit(Fault::said(else_missing(span)));
                Expr { span, kind: ExprKind::Unreadable }
            });
            Expr { span, kind: ExprKind::If(Box::new(condition), Box::new(then), Box::new(otherwise)) }
        })
        .boxed()
}

fn else_missing(span: Span) -> Diagnostic {
    let label = "and what if the condition does not hold?";
    Diagnostic::error(&statements::ELSE_MISSING, "this `if` has no `else`", span, label)
        .with_mend("add `else …`: a formula has a value in either case")
}

fn operator<'t, const N: usize>(
    marks: [(Mark, BinaryOp); N],
) -> impl Parser<'t, Tokens<'t>, BinaryOp, Extra> + Clone + 't {
    token(move |token| match token.kind {
        TokenKind::Mark(kind) => marks.iter().find(|(mark, _)| *mark == kind).map(|(_, operator)| *operator),
        _ => None,
    })
}

fn binary(left: Expr, operator: BinaryOp, right: Expr) -> Expr {
    Expr { span: left.span.to(right.span), kind: ExprKind::Binary(operator, Box::new(left), Box::new(right)) }
}
