//! The rules of the language, one by one, and what a sheet may never do to its reader.
#![allow(clippy::unwrap_used, clippy::panic)]

mod expressions;
mod habits;
mod hostile;
mod literals;
mod recovery;
mod statements;
mod tables;
mod tree_text;

use super::parser::{Parsed, parse};
use super::tree::StatementKind;
use crate::source::FileId;

fn read(text: &str) -> Parsed {
    parse(FileId::default(), text)
}

/// The statements of a sheet without errors.
fn sound(text: &str) -> Vec<StatementKind> {
    let parsed = read(text);
    let messages: Vec<_> = parsed.diagnostics.iter().map(|d| format!("{} {}", d.code.id, d.message)).collect();
    assert!(messages.is_empty(), "{text}\n{messages:#?}");
    parsed.sheet.statements.into_iter().map(|statement| statement.kind).collect()
}

/// The codes of a sheet's errors, in order of place.
fn codes(text: &str) -> Vec<&'static str> {
    read(text).diagnostics.iter().map(|diagnostic| diagnostic.code.id).collect()
}

/// Holds a sheet to one error: its code, the text it points at, and a part of its mend.
fn one_error(text: &str, code: &str, at: &str, mend: &str) {
    let diagnostics = read(text).diagnostics;
    let found: Vec<_> = diagnostics.iter().map(|d| format!("{} {} / {:?}", d.code.id, d.message, d.mend)).collect();
    assert_eq!(diagnostics.len(), 1, "{text}\n{found:#?}");
    let diagnostic = &diagnostics[0];
    assert_eq!(diagnostic.code.id, code, "{text}\n{found:#?}");
    assert_eq!(&text[diagnostic.span().range()], at, "{text}\n{found:#?}");
    let shown = diagnostic.mend.as_deref().unwrap_or("");
    assert!(shown.contains(mend), "{text}\n{found:#?}");
}
