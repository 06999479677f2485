//! Messages about what was typed, shown as it was typed.

use dewline_lang::diagnostic::{Diagnostic, Severity};
use dewline_lang::source::{FileId, Sources, Span};

use super::edit::Quote;

/// The name under which a typed line is shown.
pub const TYPED: &str = "typed";

/// A typed text among the other texts, and where its parts stand in the sheet.
pub struct Quoted<'a> {
    /// What was typed.
    pub typed: &'a str,
    /// Its parts.
    pub quotes: &'a [Quote],
}

impl Quoted<'_> {
    /// The messages with the places inside typed parts moved into the typed text, which joins the sources.
    pub fn moved(&self, sources: &Sources, diagnostics: &[Diagnostic]) -> (Sources, Vec<Diagnostic>) {
        let mut sources = sources.clone();
        let alone = sources.add(TYPED, self.typed);
        let moved = diagnostics.iter().map(|diagnostic| {
            self.quotes
                .iter()
                .fold(diagnostic.clone(), |diagnostic, quote| diagnostic.moved(place(quote), alone, quote.typed as u32))
        });
        let moved = moved.collect();
        (sources, moved)
    }

    /// Whether a message is an error about a typed part.
    pub fn blames(&self, diagnostic: &Diagnostic) -> bool {
        diagnostic.severity == Severity::Error && self.quotes.iter().any(|quote| place(quote).holds(diagnostic.span()))
    }
}

fn place(quote: &Quote) -> Span {
    Span::new(FileId::default(), quote.part.start, quote.part.end)
}
