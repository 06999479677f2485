//! Expressions, values and fields that come from outside a sheet: the command line, JSON, CSV.

use super::lines::LineReader;
use super::literals::{literal_kind, negated};
use super::statements::Grammar;
use crate::diagnostic::Diagnostic;
use crate::source::FileId;
use crate::syntax::join::{Text, join};
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::{Joined, TokenKind};
use crate::syntax::tree::{Expr, ExprKind, Tail};

/// A value set from outside, such as `556 psig ± 1 psi at 2026-03-15T07:40`.
#[derive(Debug, Clone)]
pub struct Literal {
    /// Its value; several are repeats of a reading.
    pub values: Vec<Expr>,
    /// What stands after it.
    pub tail: Tail,
}

/// Reads one expression.
pub fn parse_expression(file: FileId, text: &str) -> (Option<Expr>, Vec<Diagnostic>) {
    read(file, text, |grammar| grammar.expressions.whole.clone())
}

/// Reads a value as it stands behind the `=` of an input or a reading.
pub fn parse_literal(file: FileId, text: &str) -> (Option<Literal>, Vec<Diagnostic>) {
    let (found, diagnostics) = read(file, text, |grammar| grammar.literal.clone());
    (found.map(|(values, tail)| Literal { values, tail }), diagnostics)
}

/// Reads the field of a data file: a blank or `?` is not taken yet. `None` if it is nothing but words: the
/// caller knows whether the column holds texts.
pub fn parse_field(text: &str) -> Option<ExprKind> {
    let text = text.trim();
    if text.is_empty() || text == "?" {
        return Some(ExprKind::NotTaken);
    }
    if text.bytes().all(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b'-' | b'+' | b'e' | b'E'))
        && let Some(number) = text.parse::<f64>().ok().filter(|number| number.is_finite())
    {
        return Some(ExprKind::Number(number));
    }
    let joined = join(Text { file: FileId::default(), text, base: 0 });
    if !joined.diagnostics.is_empty() {
        return None;
    }
    match joined.tokens.as_slice() {
        [one] => literal_kind(one),
        [sign, one] if sign.kind == TokenKind::Mark(Mark::Minus) => match literal_kind(one)? {
            kind @ (ExprKind::Number(_) | ExprKind::Quantity(_)) => Some(negated(Expr { span: one.span, kind }).kind),
            _ => None,
        },
        _ => None,
    }
}

fn read<O>(
    file: FileId,
    text: &str,
    rule: for<'t, 'g> fn(&'g Grammar<'t>) -> super::marks::Rule<'t, O>,
) -> (Option<O>, Vec<Diagnostic>) {
    let mut joined: Joined = join(Text { file, text, base: 0 });
    let mut diagnostics = std::mem::take(&mut joined.diagnostics);
    let faulty = !diagnostics.is_empty();
    let grammar = Grammar::new();
    let rule = rule(&grammar);
    let mut reader = LineReader { grammar, diagnostics: &mut diagnostics };
    // Several lines are one expression only where the first is not complete; then joining has made them one.
    let found = reader.read(&rule, &joined.tokens, faulty);
    drop(rule);
    let found = if joined.tokens.is_empty() { None } else { found };
    (found, diagnostics)
}
