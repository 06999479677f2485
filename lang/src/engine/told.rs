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
    /// By place and words.
    faults: BTreeMap<(Span, String), First>,
    /// Errors that were left out.
    more: usize,
}

/// Where a fault was told.
#[derive(Debug, Default)]
struct First {
    /// The value that was broken first.
    cell: String,
    /// Its rows.
    rows: BTreeSet<Option<String>>,
}

impl Told {
    /// A fault is told at the first value it breaks, there for each row; what only depends on that value is broken without
    /// a message.
    pub fn is_new(&mut self, fault: &Fault, cell: &str, row: Option<&str>) -> bool {
        let first = self.faults.entry((fault.span, fault.message.clone())).or_default();
        if first.rows.is_empty() {
            first.cell = cell.to_string();
        }
        if first.cell != cell || (row.is_none() && !first.rows.is_empty()) {
            return false;
        }
        // Rows come one after another: that many are not remembered one by one.
        first.rows.len() >= limits::FAULTS || first.rows.insert(row.map(str::to_string))
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
