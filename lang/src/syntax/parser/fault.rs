//! The parser's own error: where it stopped, and what is to be said if that is known already.

use chumsky::error::{Error, LabelError};
use chumsky::input::Input;
use chumsky::span::SimpleSpan;
use chumsky::util::MaybeRef;

use crate::diagnostic::Diagnostic;

/// Where a line could not be read on. What was expected is not kept: a list of operators helps nobody; the
/// message is made afterwards from what stands around the place.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// The token at which it stopped, counted from the beginning of what was parsed.
    pub at: usize,
    /// A message found while parsing.
    pub said: Option<Box<Diagnostic>>,
}

impl Fault {
    /// A fault whose message is known.
    pub fn said(diagnostic: Diagnostic) -> Fault {
        Fault { at: 0, said: Some(Box::new(diagnostic)) }
    }
}

impl<'t, I: Input<'t, Span = SimpleSpan>> Error<'t, I> for Fault {
    fn merge(self, other: Self) -> Self {
        if self.said.is_some() { self } else { other }
    }
}

impl<'t, I: Input<'t, Span = SimpleSpan>, L> LabelError<'t, I, L> for Fault {
    fn expected_found<E: IntoIterator<Item = L>>(
        _expected: E,
        _found: Option<MaybeRef<'t, I::Token>>,
        span: SimpleSpan,
    ) -> Self {
        Fault { at: span.start, said: None }
    }
}
