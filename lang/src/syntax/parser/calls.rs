//! Calls, folds and `solve`.

use chumsky::prelude::*;

use super::expression::ends;
use super::literals::same_unit;
use super::marks::{Rule, function, mark, name, place, token};
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::TokenKind;
use crate::syntax::tree::{Argument, Call, Expr, ExprKind, Name, Solve};

/// What looks like a call and has a form of its own.
pub const SOLVE: &str = "solve";

/// `f(a, named = b where c)`, `alias.f(a)`, `solve(x within a .. b where left == right)`
pub fn calls<'t>(whole: Rule<'t, Expr>, sum: Rule<'t, Expr>) -> Rule<'t, Expr> {
    let alias = name().then_ignore(mark(Mark::Dot)).then(function());
    let plain = token(|token| match &token.kind {
        TokenKind::Function(text) if text != SOLVE => Some(Name { text: text.clone(), span: token.span }),
        _ => None,
    });
    let called = choice((plain.map(|name| (None, name)), alias.map(|(alias, name)| (Some(alias), name))));
    let call = called.then(arguments(whole)).map_with(|((alias, name), (arguments, filter)), e| Expr {
        span: place(e.slice()),
        kind: ExprKind::Call(Call { name, alias, arguments, filter }),
    });
    choice((solve(sum), call)).boxed()
}

fn arguments<'t>(whole: Rule<'t, Expr>) -> Rule<'t, (Vec<Argument>, Option<Box<Expr>>)> {
    // Some functions call a tolerance `within`; before `=` it can be nothing else.
    let within = token(|token| match token.kind {
        TokenKind::Mark(Mark::Within) => Some(Name { text: "within".to_string(), span: token.span }),
        _ => None,
    });
    let named = choice((name(), within)).then_ignore(mark(Mark::Equals));
    let value = whole.clone().then(mark(Mark::Range).ignore_then(whole.clone()).or_not()).map(|(from, to)| match to {
        None => from,
        Some(to) => {
            let from = same_unit(from, &to);
            Expr { span: from.span.to(to.span), kind: ExprKind::Range(Box::new(from), Box::new(to)) }
        }
    });
    named
        .or_not()
        .then(value)
        .map(|(name, value)| Argument { name, value })
        .separated_by(mark(Mark::Comma))
        .collect::<Vec<_>>()
        .then(mark(Mark::Where).ignore_then(whole).map(Box::new).or_not())
        .delimited_by(mark(Mark::OpenRound), mark(Mark::CloseRound))
        .boxed()
}

fn solve<'t>(sum: Rule<'t, Expr>) -> Rule<'t, Expr> {
    let solve = token(|token| matches!(&token.kind, TokenKind::Function(name) if name == SOLVE).then_some(()));
    let sides = sum.clone().then_ignore(mark(Mark::Same)).then(sum.clone());
    let inside = name()
        .then_ignore(mark(Mark::Within))
        .then(ends(sum))
        .then_ignore(mark(Mark::Where))
        .then(sides)
        .map(|((unknown, (from, to)), (left, right))| Solve { unknown, from, to, left, right });
    solve
        .ignore_then(inside.delimited_by(mark(Mark::OpenRound), mark(Mark::CloseRound)))
        .map_with(|solve, e| Expr { span: place(e.slice()), kind: ExprKind::Solve(Box::new(solve)) })
        .boxed()
}
