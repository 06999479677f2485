//! The errors of an outcome: each told once, and no more of them than anyone reads.

use std::collections::{BTreeMap, BTreeSet};

use super::fault::Fault;
use crate::diagnostic::Diagnostic;
use crate::limits;
use crate::outcome::{ErrorOutcome, Outcome};
use crate::source::{Sources, Span};

/// What has been told.
#[derive(Debug, Default)]
pub struct Told {
    /// By place and words: the value that was broken first, and its rows.
    faults: BTreeMap<(Span, String), (String, BTreeSet<Option<String>>)>,
    /// Errors that were left out.
    more: usize,
}

impl Told {
    /// A fault is told at the first value it breaks, there for each row; what only depends on that value is broken without
    /// a message.
    pub fn is_new(&mut self, fault: &Fault, cell: &str, row: Option<&str>) -> bool {
        let first = self.faults.entry((fault.span, fault.message.clone())).or_default();
        if first.1.is_empty() {
            first.0 = cell.to_string();
        }
        if first.0 != cell || (row.is_none() && !first.1.is_empty()) {
            return false;
        }
        // Rows come one after another: that many are not remembered one by one.
        first.1.len() >= limits::FAULTS || first.1.insert(row.map(str::to_string))
    }

    /// Tells an error, or counts it where there are too many.
    pub fn add(
        &mut self,
        outcome: &mut Outcome,
        sources: &Sources,
        diagnostic: Diagnostic,
        cell: String,
        row: Option<String>,
    ) {
        if outcome.errors.len() >= limits::ERRORS {
            self.more += 1;
            return;
        }
        let span = diagnostic.span();
        let (line, column) = sources.line_column(span.file, span.start);
        let name = sources.get(span.file).map_or("", |source| source.name.as_str());
        outcome.errors.push(ErrorOutcome {
            code: diagnostic.code.id,
            message: diagnostic.message.clone(),
            cell,
            row,
            place: format!("{name}:{line}:{column}"),
        });
        outcome.diagnostics.push(diagnostic);
    }

    /// Says how many were left out, beside the last one told.
    pub fn finish(self, outcome: &mut Outcome) {
        if self.more == 0 {
            return;
        }
        for message in [
            outcome.errors.last_mut().map(|last| &mut last.message),
            outcome.diagnostics.last_mut().map(|last| &mut last.message),
        ]
        .into_iter()
        .flatten()
        {
            message.push_str(&format!("; and {} more errors after this one", self.more));
        }
    }
}
