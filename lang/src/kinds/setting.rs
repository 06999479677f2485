//! A value set from outside, read and held against the kind of what it sets.

use super::Kind;
use super::checker::{Checker, Compiler};
use super::site;
use super::typed::Scope;
use super::words::folded;
use crate::diagnostic::{Diagnostic, settings as codes};
use crate::library::Library;
use crate::names::{Directory, Files};
use crate::outcome::Stated;
use crate::plan::{Datum, Node, Op, Plan, SlotPlan, Spread};
use crate::source::{FileId, Sources, Span};
use crate::syntax::{self, tree::ExprKind};

/// A value as read: several are repeats, none is `?`.
#[derive(Debug)]
pub struct ReadSetting {
    /// Formulas of literals, with how each is held.
    pub values: Vec<(Node, Datum)>,
    /// What was stated with it.
    pub stated: Stated,
    /// Its own `± …`.
    pub spread: Option<Spread>,
}

/// Reads the text of `--set`. A text or a choice may stand without quotes, a flag may be `yes` or `no`.
pub fn read_setting(
    library: &Library,
    file: FileId,
    text: &str,
    slot: &SlotPlan,
) -> Result<ReadSetting, Vec<Diagnostic>> {
    let span = Span::new(file, 0, text.len());
    if let Kind::Text(words) = &slot.typing.kind
        && !text.trim_start().starts_with('"')
    {
        let word = words.as_ref().and_then(|words| folded(words, text)).unwrap_or(text.trim());
        let node = Node { span, op: Op::Text(word.into()) };
        return Ok(ReadSetting { values: vec![(node, Datum::Absolute)], stated: Stated::default(), spread: None });
    }
    if slot.typing.kind == Kind::Flag
        && let Some(flag) = flag(text, span)
    {
        let node = Node { span, op: Op::Flag(flag?) };
        return Ok(ReadSetting { values: vec![(node, Datum::Absolute)], stated: Stated::default(), spread: None });
    }
    let (given, diagnostics) = syntax::parse_literal(file, text);
    if !diagnostics.is_empty() {
        return Err(diagnostics);
    }
    let Some(syntax::Literal { values, tail }) = given else { return Err(vec![unreadable(span)]) };
    let files = Files::default();
    let mut sources = Sources::default();
    // The text stands under its own id, so that what is stated can be quoted.
    for _ in 0..file.0 {
        sources.add("", "");
    }
    sources.add("", text);
    let mut compiler = Compiler::new(&files, &sources, library);
    let mut read = ReadSetting { values: Vec::new(), stated: Stated::default(), spread: None };
    {
        let mut checker = Checker::bare(&mut compiler, Directory::default(), Plan::default());
        for expr in &values {
            if matches!(expr.kind, ExprKind::NotTaken) {
                continue;
            }
            if !checker.insist_literal(expr, "a value set from outside") {
                continue;
            }
            let typed = checker.value(expr, &Scope::default());
            let typed = if slot.name == site::ATMOSPHERE { site::shown_by_a_barometer(typed) } else { typed };
            let typed = checker.chosen(typed, &slot.typing.kind);
            if let Some(typed) = checker.settled(typed, &slot.typing, span)
                && typed.kind != Kind::Unknown
            {
                read.values.push((typed.node, typed.datum));
            }
        }
        if let Some(uncertainty) = &tail.uncertainty {
            read.spread = checker.uncertainty(uncertainty, &slot.typing.kind);
        }
        read.stated = checker.stated(&tail);
    }
    if compiler.diagnostics.is_empty() { Ok(read) } else { Err(compiler.diagnostics) }
}

/// A flag said in one word, as in a file; nothing if there is more than a word.
fn flag(text: &str, span: Span) -> Option<Result<bool, Vec<Diagnostic>>> {
    let word = text.trim();
    if word.is_empty() || !word.chars().all(char::is_alphabetic) {
        return None;
    }
    Some(match word.to_lowercase().as_str() {
        "true" | "yes" => Ok(true),
        "false" | "no" => Ok(false),
        _ => {
            let message = format!("\"{word}\" is neither true nor false");
            Err(vec![Diagnostic::error(&codes::BAD_SETTING, message, span, "").with_mend("write `true` or `false`")])
        }
    })
}

fn unreadable(span: Span) -> Diagnostic {
    Diagnostic::error(&codes::BAD_SETTING, "this value cannot be read", span, "")
        .with_mend("write it as in a sheet: a number with its unit, a text, a time")
}
