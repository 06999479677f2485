//! The head lines and rows of a table, their cells under one another.

use super::spacing::spell;
use crate::syntax::join::Text;
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::{Token, TokenKind};

/// The cells of a head line or a row.
pub fn cells(text: Text<'_>, line: &[Token]) -> Vec<String> {
    let bar = |token: &Token| token.kind == TokenKind::Mark(Mark::Bar);
    let mut cells = Vec::new();
    let mut from = 0;
    for at in (0..line.len()).filter(|&at| line.get(at).is_some_and(bar)) {
        cells.push(spell(text, line, from, at));
        from = at + 1;
    }
    cells.push(spell(text, line, from, line.len()));
    cells
}

/// Each row as one line, its cells as wide as the widest of their column.
pub fn aligned(rows: &[Vec<String>]) -> Vec<String> {
    let mut widths: Vec<usize> = Vec::new();
    for row in rows {
        for (column, cell) in row.iter().enumerate() {
            let width = cell.chars().count();
            match widths.get_mut(column) {
                Some(widest) => *widest = width.max(*widest),
                None => widths.push(width),
            }
        }
    }
    let line = |row: &Vec<String>| {
        let cells: Vec<String> = row.iter().zip(&widths).map(|(cell, &width)| format!("{cell:<width$}")).collect();
        cells.join(" | ").trim_end().to_string()
    };
    rows.iter().map(line).collect()
}
