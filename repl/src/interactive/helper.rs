//! What the line editor asks while a line is typed.

use std::borrow::Cow;
use std::cell::{Cell, RefCell};
use std::rc::Rc;

use rustyline::completion::{Completer, Pair};
use rustyline::highlight::{CmdKind, Highlighter};
use rustyline::hint::{Hint, Hinter};
use rustyline::validate::{ValidationContext, ValidationResult, Validator};
use rustyline::{Context, Result};

use crate::paint::Paint;
use crate::session::{Session, coloured};

/// Answers from the session.
pub struct Helper {
    /// The session, which is at rest while a line is typed.
    pub session: Rc<RefCell<Session>>,
    /// Columns behind the prompt.
    pub columns: Cell<usize>,
    /// Colours.
    pub paint: Paint,
}

impl rustyline::Helper for Helper {}

impl Completer for Helper {
    type Candidate = Pair;

    fn complete(&self, line: &str, position: usize, _: &Context<'_>) -> Result<(usize, Vec<Pair>)> {
        let Ok(session) = self.session.try_borrow() else { return Ok((position, Vec::new())) };
        let (start, found) = session.complete(line, position);
        let pairs = found.into_iter().map(|one| Pair { display: one.shown, replacement: one.text });
        Ok((start, pairs.collect()))
    }
}

/// A hint that is read and never typed in.
pub struct Told(String);

impl Hint for Told {
    fn display(&self) -> &str {
        &self.0
    }

    fn completion(&self) -> Option<&str> {
        None
    }
}

impl Hinter for Helper {
    type Hint = Told;

    fn hint(&self, line: &str, position: usize, _: &Context<'_>) -> Option<Told> {
        if position < line.len() {
            return None;
        }
        self.session.try_borrow().ok()?.hint(line, self.columns.get()).map(Told)
    }
}

impl Highlighter for Helper {
    fn highlight<'l>(&self, line: &'l str, _: usize) -> Cow<'l, str> {
        if self.paint.is_on() { Cow::Owned(coloured(line)) } else { Cow::Borrowed(line) }
    }

    fn highlight_hint<'h>(&self, hint: &'h str) -> Cow<'h, str> {
        if self.paint.is_on() { Cow::Owned(format!("\u{1b}[2m{hint}\u{1b}[0m")) } else { Cow::Borrowed(hint) }
    }

    fn highlight_char(&self, _: &str, _: usize, _: CmdKind) -> bool {
        self.paint.is_on()
    }
}

impl Validator for Helper {
    fn validate(&self, context: &mut ValidationContext<'_>) -> Result<ValidationResult> {
        let more = self.session.try_borrow().is_ok_and(|session| session.wants_more(context.input()));
        Ok(if more { ValidationResult::Incomplete } else { ValidationResult::Valid(None) })
    }
}
