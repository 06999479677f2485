//! Parts of the text report, for one who asks for a part.

use dewline_lang::outcome::{CellOutcome, CheckOutcome, CheckVerdict, Outcome, StageOutcome, TableOutcome};

use super::{summary, text};
use crate::paint::Paint;

/// One line a stage.
pub fn stages(outcome: &Outcome, paint: Paint) -> String {
    text::stages(outcome, paint)
}

/// One table.
pub fn table(outcome: &Outcome, table: &TableOutcome, paint: Paint) -> String {
    text::one_table(outcome, table, paint)
}

/// A value with its ±, as in a report.
pub fn value(cell: &CellOutcome) -> String {
    summary::value(cell)
}

/// A value as shown, or the word for why there is none.
pub fn known(cell: &CellOutcome) -> Result<&str, &'static str> {
    summary::known(cell)
}

/// The verdict on the job, as its word and a sentence.
pub fn verdict(outcome: &Outcome) -> (&'static str, String) {
    (summary::job_word(outcome.verdict), summary::sentence(outcome))
}

/// The word for a stage's verdict.
pub fn stage_word(stage: &StageOutcome) -> &'static str {
    summary::stage_word(stage)
}

/// The word for what a check came to.
pub fn word_of(check: &CheckOutcome) -> &'static str {
    summary::word_at(check.level, check.verdict)
}

/// The word for a confirmation's verdict.
pub fn check_word(verdict: CheckVerdict) -> &'static str {
    summary::check_word(verdict)
}

/// The label of a check, with its row.
pub fn label(check: &CheckOutcome) -> String {
    summary::label_of(check)
}

/// Value, limit and margin of a check.
pub fn judged(check: &CheckOutcome) -> String {
    summary::judged(check)
}
