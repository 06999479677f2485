//! Rows of a table: literals between bars.

use super::literals::{literal_kind, negated};
use super::show::shown;
use crate::diagnostic::{Diagnostic, counted, statements};
use crate::source::Span;
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::{Token, TokenKind};
use crate::syntax::tree::{Expr, ExprKind, Row, TextLiteral, TextPart};

/// Reads a row for a table with so many columns. A blank cell is not taken yet, as in a file.
pub fn row(line: &[Token], place: Span, columns: usize) -> Result<Row, Diagnostic> {
    let mut values = Vec::with_capacity(columns);
    let mut behind = Span { end: place.start, ..place };
    for cell in line.split(|token| token.kind == TokenKind::Mark(Mark::Bar)) {
        values.push(value(cell, behind)?);
        behind = cell.last().map_or(behind, |token| token.span);
    }
    if values.len() != columns {
        return Err(wrong_length(values.len(), columns, place));
    }
    Ok(Row { span: place, values })
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
