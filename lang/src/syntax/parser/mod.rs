//! From joined tokens to the tree: lines are read one by one with chumsky, blocks are put together from them, so
//! that a line that cannot be read costs one message and nothing else.

mod annotation;
mod blocks;
mod calls;
mod depth;
mod explain;
mod expression;
mod fault;
mod forms;
mod lines;
mod literals;
mod marks;
mod outside;
mod rows;
mod show;
mod statements;
mod tables;
mod tail;
mod texts;

pub use forms::{FORMS, form};
pub(super) use lines::{first_word, has_formula, is_cell};
pub use outside::{Literal, parse_expression, parse_field, parse_literal};
pub(super) use show::ends_value;
pub(super) use tables::is_row;

use super::join::{Text, join};
use super::tree::Sheet;
use crate::diagnostic::{Diagnostic, statements as codes};
use crate::limits;
use crate::source::{FileId, Span};

/// A sheet as far as it could be read, and what could not.
#[derive(Debug, Clone)]
pub struct Parsed {
    /// The tree; what could not be read is marked so in it.
    pub sheet: Sheet,
    /// What is wrong, in order of place.
    pub diagnostics: Vec<Diagnostic>,
}

/// Reads a sheet.
pub fn parse(file: FileId, text: &str) -> Parsed {
    if text.len() > limits::SHEET_BYTES {
        let message = format!("a sheet has at most {} MiB", limits::SHEET_BYTES / (1024 * 1024));
        let place = Span::new(file, 0, 0);
        let diagnostic = Diagnostic::error(&codes::TOO_LARGE, message, place, format!("this has {} bytes", text.len()))
            .with_mend("keep data in a CSV file and read it with `table name from \"file.csv\"`");
        return Parsed { sheet: Sheet { file, statements: Vec::new() }, diagnostics: vec![diagnostic] };
    }
    let mut joined = join(Text { file, text, base: 0 });
    let mut diagnostics = std::mem::take(&mut joined.diagnostics);
    let statements = blocks::statements(&joined, &mut diagnostics);
    diagnostics.sort_by_key(|diagnostic| (diagnostic.span().start, diagnostic.span().end));
    Parsed { sheet: Sheet { file, statements }, diagnostics }
}
