//! Lays a sheet out: two blanks of indentation a block, one blank round operators, a table's columns under one another.
//! Words, units and comments stay as they are spelled and on their lines.

mod columns;
mod lines;
mod spacing;

use std::mem::discriminant;

use self::lines::{PrintLine, print_lines};
use super::join::{Text, join};
use super::parser::parse;
use super::token::{Joined, Token, TokenKind};
use crate::diagnostic::Diagnostic;
use crate::source::FileId;

/// Blanks of indentation for each block.
const INDENT: usize = 2;

/// Lays a sheet out, or says why it cannot be read. Places are in the first file of the sources.
pub fn format(text: &str) -> Result<String, Vec<Diagnostic>> {
    let file = FileId::default();
    let parsed = parse(file, text);
    if !parsed.diagnostics.is_empty() {
        return Err(parsed.diagnostics);
    }
    let text = Text { file, text, base: 0 };
    let joined = join(text);
    let result = print(&print_lines(text, &joined));
    // A layout that would be read otherwise is no layout: such a sheet is left as it stands.
    let read_again = Text { file, text: &result, base: 0 };
    Ok(if same(text, &joined, read_again, &join(read_again)) { result } else { text.text.to_string() })
}

/// Puts the lines under one another, at most one blank line between two.
fn print(lines: &[PrintLine]) -> String {
    let mut result = String::new();
    let mut blank = false;
    for line in lines {
        if line.words.is_empty() && line.comment.is_none() {
            blank = !result.is_empty();
            continue;
        }
        if std::mem::take(&mut blank) {
            result.push('\n');
        }
        let start = result.len();
        result.extend(std::iter::repeat_n(' ', INDENT * line.indent));
        result.push_str(&line.words);
        if let Some(comment) = line.comment {
            result.push_str(if line.words.is_empty() { "" } else { "  " });
            result.push_str(comment);
        }
        result.truncate(start + result.get(start..).unwrap_or("").trim_end().len());
        result.push('\n');
    }
    result
}

/// Whether two texts are cut into the same tokens and lines.
fn same(text: Text<'_>, joined: &Joined, other_text: Text<'_>, other: &Joined) -> bool {
    let token = |(one, two): (&Token, &Token)| {
        // A name and the bracket behind it may have come together or apart, where the statement takes both.
        let named = |token: &Token| matches!(token.kind, TokenKind::Word(_) | TokenKind::Function(_));
        (discriminant(&one.kind) == discriminant(&two.kind) || named(one) && named(two))
            && spacing::spelled(text, one) == spacing::spelled(other_text, two)
    };
    other.diagnostics.is_empty()
        && joined.tokens.len() == other.tokens.len()
        && joined.lines.len() == other.lines.len()
        && joined.tokens.iter().zip(&other.tokens).all(token)
        && joined.lines.iter().zip(&other.lines).all(|(one, two)| one.tokens == two.tokens && one.role == two.role)
}

#[cfg(test)]
mod tests;
