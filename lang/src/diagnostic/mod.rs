//! Every message that a sheet can cause, as a value with a place. Drawing is done outside.

mod code;

pub mod kinds;
pub mod names;
pub mod running;
pub mod settings;
pub mod statements;
pub mod tables;
pub mod words;

pub use code::{Code, Family};

use crate::source::{FileId, Span};

/// How much a message weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Severity {
    /// The sheet, or a cell of it, cannot be used.
    Error,
    /// Worth knowing; nothing is stopped.
    Advice,
}

/// A place with what is to be said there.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// Where.
    pub span: Span,
    /// What; may be empty if the message says it all.
    pub text: String,
}

/// One message: code, line, places, mend.
#[derive(Debug, Clone, PartialEq)]
pub struct Diagnostic {
    /// Which message it is.
    pub code: &'static Code,
    /// How much it weighs.
    pub severity: Severity,
    /// One line in plain trade language.
    pub message: String,
    /// Places; the first is the place of the message.
    pub labels: Vec<Label>,
    /// How to mend it, where there is a way.
    pub mend: Option<String>,
}

/// `1 value`, `3 values`.
pub fn counted(number: usize, one: &str) -> String {
    format!("{number} {one}{}", if number == 1 { "" } else { "s" })
}

impl Diagnostic {
    /// An error at a place. The text of the place may be empty.
    pub fn error(code: &'static Code, message: impl Into<String>, span: Span, label: impl Into<String>) -> Diagnostic {
        Diagnostic {
            code,
            severity: Severity::Error,
            message: message.into(),
            labels: vec![Label { span, text: label.into() }],
            mend: None,
        }
    }

    /// Advice at a place.
    pub fn advice(code: &'static Code, message: impl Into<String>, span: Span, label: impl Into<String>) -> Diagnostic {
        Diagnostic { severity: Severity::Advice, ..Diagnostic::error(code, message, span, label) }
    }

    /// Names a further place.
    pub fn with_label(mut self, span: Span, text: impl Into<String>) -> Diagnostic {
        self.labels.push(Label { span, text: text.into() });
        self
    }

    /// Says how to mend it.
    pub fn with_mend(mut self, mend: impl Into<String>) -> Diagnostic {
        self.mend = Some(mend.into());
        self
    }

    /// Moves the places that lie in a part of one text to byte `at` of another that holds that part, so that a line is
    /// shown as it was typed and not as it stands among what was put around it.
    pub fn moved(mut self, part: Span, to: FileId, at: u32) -> Diagnostic {
        for label in self.labels.iter_mut().filter(|label| part.holds(label.span)) {
            let (start, end) = (label.span.start - part.start + at, label.span.end - part.start + at);
            label.span = Span { file: to, start, end };
        }
        self
    }

    /// The place of the message.
    pub fn span(&self) -> Span {
        self.labels.first().map_or_else(Span::default, |label| label.span)
    }
}
