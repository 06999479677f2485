//! Says in an outcome which texts it rests on: digests of its sheets, and which forms are the library's and which the job's.

use dewline_lang::outcome::{Outcome, ReplacedOutcome};
use dewline_lang::source::Sources;

use super::library;
use crate::record::sha256;

/// Completes an outcome by the texts that it was made from.
pub fn identify(outcome: &mut Outcome, sources: &Sources) {
    let text = |name: &str| sources.iter().find(|(_, source)| source.name == name).map(|(_, source)| &source.text);
    if let Some(text) = text(&outcome.sheet.path) {
        outcome.sheet.sha256 = sha256(text.as_bytes());
    }
    // A data file brings its digest with it.
    for file in outcome.files.iter_mut().filter(|file| file.sha256.is_empty()) {
        if let Some(text) = text(&file.name) {
            file.sha256 = sha256(text.as_bytes());
        }
    }
    // The outermost sheet may be a form; it takes nobody's place.
    for file in outcome.files.iter().skip(1) {
        if let Some(form) = library::replaced_by(&file.name) {
            let one = ReplacedOutcome { what: "form", name: form, by: file.name.clone() };
            outcome.replaced.push(one);
        }
    }
    library::mention_forms(outcome, sources);
}
