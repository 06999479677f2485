//! Rows of a table: literals between bars.

use super::literals::{literal_kind, negated};
use super::show::shown;
use crate::diagnostic::{Diagnostic, counted, statements};
use crate::source::Span;
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::{Token, TokenKind};
use crate::syntax::tree::{AnnotationKind, Column, Expr, ExprKind, Row, TextLiteral, TextPart};

/// Reads a row for a table of these columns. A blank cell is not taken yet, as in a file.
pub fn row(line: &[Token], place: Span, columns: &[Column]) -> Result<Row, Diagnostic> {
    let mut values = Vec::with_capacity(columns.len());
    let mut behind = Span { end: place.start, ..place };
    for cell in line.split(|token| token.kind == TokenKind::Mark(Mark::Bar)) {
        if let Some(diagnostic) = fraction(cell, columns.get(values.len())) {
            return Err(diagnostic);
        }
        values.push(value(cell, behind)?);
        behind = cell.last().map_or(behind, |token| token.span);
    }
    if values.len() != columns.len() {
        return Err(wrong_length(values.len(), columns.len(), place));
    }
    Ok(Row { span: place, values })
}

/// `7/8` or `1-1/8` in a column of lengths: a fraction is one number only before its unit.
fn fraction(cell: &[Token], column: Option<&Column>) -> Option<Diagnostic> {
    let digits = |token: &Token| match token.kind {
        TokenKind::Number(number) => Some(crate::units::show::number(number)),
        _ => None,
    };
    let is = |token: &Token, mark: Mark| token.kind == TokenKind::Mark(mark);
    let number = match cell {
        [a, over, b] if is(over, Mark::Over) => format!("{}/{}", digits(a)?, digits(b)?),
        [a, dash, b, over, c] if is(dash, Mark::Minus) && is(over, Mark::Over) => {
            format!("{}-{}/{}", digits(a)?, digits(b)?, digits(c)?)
        }
        _ => return None,
    };
    let AnnotationKind::Units(units) = &column?.annotation.as_ref()?.kind else { return None };
    let unit = &units.first()?.text;
    let place = cell.first()?.span.to(cell.last()?.span);
    let message = format!("`{number}` is one number only with its unit behind it");
    Some(Diagnostic::error(&statements::ROW_VALUE, message, place, "").with_mend(format!("write `{number} {unit}`")))
}

fn value(cell: &[Token], blank: Span) -> Result<Expr, Diagnostic> {
    match cell {
        [] => Ok(Expr { span: Span { start: blank.end, ..blank }, kind: ExprKind::NotTaken }),
        [one] => single(one).ok_or_else(|| not_a_value(one)),
        [sign, one] if sign.kind == TokenKind::Mark(Mark::Minus) => match &one.kind {
            TokenKind::Number(_) | TokenKind::Quantity(_) => {
                let value = single(one).ok_or_else(|| not_a_value(one))?;
                Ok(negated(Expr { span: sign.span.to(one.span), ..value }))
            }
            _ => Err(not_a_value(sign)),
        },
        [first, second, ..] if literal_kind(first).is_some() => Err(not_a_value(second)),
        [first, ..] => Err(not_a_value(first)),
    }
}

fn single(token: &Token) -> Option<Expr> {
    let span = token.span;
    let kind = match &token.kind {
        TokenKind::Mark(Mark::NotTaken) => ExprKind::NotTaken,
        // The name of a gas.
        TokenKind::Word(name) => ExprKind::Name(name.clone()),
        TokenKind::Text(text) => {
            let parts = vec![TextPart::Plain(text.plain.clone())];
            ExprKind::Text(TextLiteral { span, parts })
        }
        _ => literal_kind(token)?,
    };
    Some(Expr { span, kind })
}

fn not_a_value(token: &Token) -> Diagnostic {
    let message = format!("a row holds plain values, and {} is none", shown(token));
    Diagnostic::error(&statements::ROW_VALUE, message, token.span, "")
        .with_mend("separate the values by `|`; formulas stand below the rows as `name : unit = formula`")
}

fn wrong_length(found: usize, wanted: usize, place: Span) -> Diagnostic {
    let message = format!("this row has {} for {}", counted(found, "value"), counted(wanted, "column"));
    let mend = if found < wanted {
        "add the missing ones; `?` for what is not taken yet"
    } else {
        "take the extra ones away, or name their columns"
    };
    Diagnostic::error(&statements::ROW_LENGTH, message, place, "").with_mend(mend)
}
