//! An input or a reading given a new value: its name, its kind and what is stated beside it stay, unless typed anew.

use std::ops::Range;

use dewline_lang::source::{FileId, Span};
use dewline_lang::syntax::parse;
use dewline_lang::syntax::tree::{ExprKind, Given, Statement, StatementKind};

/// A statement with its new value.
#[derive(Debug)]
pub struct Filled {
    /// The name of what was filled.
    pub name: String,
    /// What is replaced in the sheet.
    pub range: Range<usize>,
    /// What stands there now.
    pub words: String,
    /// The part of it that was typed.
    pub quote: Range<usize>,
    /// The first byte of that part in what was typed.
    pub typed: usize,
}

/// Fills the statement `old`, which begins with `word`, with what was typed as `name = value …`; `None` if that cannot
/// be read as the value of one.
pub fn fill(text: &str, place: Span, old: &Given, word: &str, typed: &str) -> Option<Filled> {
    let as_given = format!("{word}{typed}");
    let parsed = parse(FileId::default(), &as_given);
    let [Statement { span, kind: StatementKind::Input(new) | StatementKind::Reading(new) }] =
        parsed.sheet.statements.as_slice()
    else {
        return None;
    };
    let first = new.values.first()?;
    // `name = ?` says no kind, and needs none where the old line has one.
    let known = old.annotation.is_some() && matches!(first.kind, ExprKind::NotTaken);
    if !parsed.diagnostics.is_empty() && !known {
        return None;
    }
    let name_end = old.name.span.end as usize;
    let (head_end, from, join) = match (&new.annotation, &old.annotation) {
        (Some(_), _) => (name_end, new.name.span.end as usize, ""),
        (None, Some(kind)) => (kind.span.end as usize, first.span.start as usize, " = "),
        (None, None) => (name_end, first.span.start as usize, " = "),
    };
    let head = text.get(place.start as usize..head_end)?;
    let said = as_given.get(from..span.end as usize)?;
    let lead = format!("{head}{join}");
    let rest = kept(text, old, new);
    Some(Filled {
        name: old.name.text.clone(),
        range: place.range(),
        quote: lead.len()..lead.len() + said.len(),
        words: format!("{lead}{said}{rest}"),
        typed: from - word.len(),
    })
}

/// What was stated beside the old value and not beside the new one.
fn kept(text: &str, old: &Given, new: &Given) -> String {
    let slice = |span: Span| text.get(span.range()).unwrap_or("");
    let (old, new) = (&old.tail, &new.tail);
    let mut rest = String::new();
    let mut keep = |words: String| {
        rest.push(' ');
        rest.push_str(&words);
    };
    // A reading has its own uncertainty or that of its instrument: a new one of either takes the place of both.
    if let (Some(uncertainty), None, None) = (&old.uncertainty, &new.uncertainty, &new.by) {
        let words = slice(uncertainty.span);
        keep(if words.starts_with(['±', '+']) { words.to_string() } else { format!("± {words}") });
    }
    if let (Some(by), None) = (&old.by, &new.by) {
        keep(format!("by {}", by.text));
    }
    if let (Some(at), None) = (&old.at, &new.at) {
        keep(format!("at {}", slice(at.span)));
    }
    if let (Some((low, high)), None) = (&old.within, &new.within) {
        keep(format!("within {}", slice(low.span.to(high.span))));
    }
    if let (Some(_), None) = (old.optional, new.optional) {
        keep("optional".to_string());
    }
    if let (Some(note), None) = (&old.note, &new.note) {
        keep(slice(note.span).to_string());
    }
    rest
}
