//! What the checks of each row say of one column: its limits, and the word for each row.

use dewline_lang::library::Limit;
use dewline_lang::outcome::{CheckOutcome, CheckVerdict, Outcome};

use crate::report::summary::{check_word, groups};

/// What is judged of a column.
#[derive(Default)]
pub(super) struct Judged {
    /// Its limits, where they are the same for all rows.
    pub limits: Vec<Limit>,
    /// The word of each row that did not simply pass; empty for the others.
    pub words: Vec<&'static str>,
}

/// What the checks of each row of a table say of its column.
pub(super) fn judged(outcome: &Outcome, table: &str, column: &str) -> Judged {
    let mut judged = Judged::default();
    for group in groups(&outcome.checks) {
        let of_column = |check: &&CheckOutcome| check.bounds.as_ref().is_some_and(|bounds| bounds.of == column);
        if group.table != Some(table) || !group.entries.iter().any(of_column) {
            continue;
        }
        judged.words.resize(judged.words.len().max(group.entries.len()), "");
        for (word, entry) in judged.words.iter_mut().zip(&group.entries) {
            if matches!(
                entry.verdict,
                CheckVerdict::Failed | CheckVerdict::Close | CheckVerdict::Waived | CheckVerdict::NotAsked
            ) {
                *word = check_word(entry.verdict);
            }
        }
        let mut all = group.entries.iter().filter_map(|entry| entry.bounds.as_ref());
        let Some(first) = all.next() else { continue };
        if all.all(|bounds| bounds.low == first.low && bounds.high == first.high) {
            for (name, at) in [("at least", first.low), ("at most", first.high)] {
                judged.limits.extend(at.map(|at| Limit { name: name.to_string(), at }));
            }
        }
    }
    judged.limits.dedup();
    judged
}
