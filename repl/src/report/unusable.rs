//! The outcome of a sheet that could not be run: its errors, in the shape of every outcome.

use dewline_lang::diagnostic::{Diagnostic, Severity};
use dewline_lang::host::Document;
use dewline_lang::outcome::{ErrorOutcome, JobVerdict, Outcome, SheetHead};
use dewline_lang::source::Sources;

/// An outcome that holds nothing but errors.
pub fn unusable(document: &Document, sources: &Sources, diagnostics: &[Diagnostic]) -> Outcome {
    let errors = diagnostics.iter().filter(|one| one.severity == Severity::Error);
    Outcome {
        format: "dewline-outcome/1",
        sheet: SheetHead { title: document.name.clone(), path: document.name.clone(), sha256: String::new() },
        verdict: JobVerdict::Unusable,
        files: Vec::new(),
        set: Vec::new(),
        otherwise: Vec::new(),
        replaced: Vec::new(),
        assumptions: Vec::new(),
        cells: Vec::new(),
        tables: Vec::new(),
        checks: Vec::new(),
        confirmations: Vec::new(),
        stages: Vec::new(),
        to_take: Vec::new(),
        notes: Vec::new(),
        charts: Vec::new(),
        instruments: Vec::new(),
        advice: Vec::new(),
        cautions: Vec::new(),
        trials: None,
        functions: Vec::new(),
        refrigerants: Vec::new(),
        errors: errors.map(|error| error_outcome(sources, error)).collect(),
        diagnostics: Vec::new(),
    }
}

fn error_outcome(sources: &Sources, error: &Diagnostic) -> ErrorOutcome {
    let span = error.span();
    let place = sources.get(span.file).map_or_else(String::new, |source| {
        let (line, column) = sources.line_column(span.file, span.start);
        format!("{}:{line}:{column}", source.name)
    });
    ErrorOutcome { code: error.code.id, message: error.message.clone(), cell: String::new(), row: None, place }
}
