//! Why a value cannot be computed: a message with the place in the formula that gave it.

use crate::diagnostic::{Code, Diagnostic};
use crate::library::Failure;
use crate::source::Span;

/// An error that breaks one value.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// Which message.
    pub code: &'static Code,
    /// The message.
    pub message: String,
    /// Where.
    pub span: Span,
    /// How to mend it.
    pub mend: Option<String>,
}

impl Fault {
    /// A fault without a mend.
    pub fn new(code: &'static Code, message: impl Into<String>, span: Span) -> Fault {
        Fault { code, message: message.into(), span, mend: None }
    }

    /// Says how to mend it.
    pub fn with_mend(mut self, mend: impl Into<String>) -> Fault {
        self.mend = Some(mend.into());
        self
    }

    /// The same without what is said of one value only.
    pub fn shared(&self) -> Fault {
        Fault::new(self.code, format!("as in rows before: {}", self.code.title), self.span)
    }

    /// A function's failure at a place.
    pub fn of(failure: &Failure, span: Span) -> Fault {
        Fault {
            code: &crate::diagnostic::running::OUTSIDE_LIMITS,
            message: failure.message.clone(),
            span,
            mend: failure.mend.clone(),
        }
    }

    /// As a message for drawing.
    pub fn diagnostic(&self) -> Diagnostic {
        let mut diagnostic = Diagnostic::error(self.code, self.message.clone(), self.span, "");
        diagnostic.mend = self.mend.clone();
        diagnostic
    }
}
