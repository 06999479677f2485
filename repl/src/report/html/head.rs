//! The top of a report: what it is, may we go on, what does not hold, what is still to take.

use dewline_lang::outcome::{CheckVerdict, Outcome};
use maud::{Markup, html};

use super::word;
use crate::report::summary::{asks_for_a_look, groups, judged, label_of, sentence, stage_reason};
use crate::words::{count, kept};

/// Rows of one check that are told one by one; of more, the rest is counted.
const ROWS: usize = 20;

/// Title, sheet, verdict.
pub(super) fn head(outcome: &Outcome, run: &str) -> Markup {
    html! {
        header {
            h1 { (outcome.sheet.title) }
            @if outcome.sheet.path != outcome.sheet.title { p class="quiet" { (outcome.sheet.path) } }
            @if !run.is_empty() { p class="quiet" { "with " (run) } }
            (word::plate(outcome.verdict, &sentence(outcome)))
        }
    }
}

/// Every stage at a glance, each leading to its section.
pub(super) fn stages(outcome: &Outcome, sections: &[&str], place: &dyn Fn(usize) -> String) -> Markup {
    html! {
        @if !outcome.stages.is_empty() {
            section {
                h2 { "Stages" }
                table class="pairs" {
                    caption class="unseen" { "Stages in order, with their verdicts" }
                    thead { tr { th scope="col" { "Stage" } th scope="col" { "Verdict" } th scope="col" { "Why" } } }
                    tbody {
                        @for (at, stage) in outcome.stages.iter().enumerate() {
                            tr {
                                th scope="row" {
                                    (at + 1) ". "
                                    @match sections.iter().position(|section| *section == stage.name) {
                                        Some(section) => a href={ "#" (place(section)) } { (stage.name) },
                                        None => (stage.name),
                                    }
                                }
                                td { (word::of_stage(stage)) }
                                td { (kept(&stage_reason(outcome, stage))) }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// What failed, is close to its limit, cannot be computed or was waived, with value, limit and margin.
pub(super) fn attention(outcome: &Outcome) -> Markup {
    let mut rows: Vec<(CheckVerdict, String, String, String)> = Vec::new();
    for group in groups(&outcome.checks).iter().filter(|group| group.level == "require") {
        let entries: Vec<_> = group.entries.iter().filter(|entry| asks_for_a_look(entry.verdict)).collect();
        for entry in entries.iter().take(ROWS) {
            rows.push((entry.verdict, label_of(entry), group.stage.to_string(), judged(entry)));
        }
        if let Some(first) = entries.first().filter(|_| entries.len() > ROWS) {
            let more = format!("{}: and {}", group.label, count(entries.len() - ROWS, "more row", "more rows"));
            rows.push((first.verdict, more, group.stage.to_string(), String::new()));
        }
    }
    for one in outcome.confirmations.iter().filter(|one| one.verdict == CheckVerdict::Failed) {
        rows.push((one.verdict, one.label.clone(), one.stage.clone(), format!("answered with no{}", who(one))));
    }
    html! {
        @if !rows.is_empty() {
            section {
                h2 { "Not in order" }
                table class="pairs" {
                    caption class="unseen" { "Checks that do not hold, or ask for a look" }
                    thead {
                        tr {
                            th scope="col" { "Check" } th scope="col" { "Verdict" } th scope="col" { "Stage" }
                            th scope="col" { "Judged" }
                        }
                    }
                    tbody {
                        @for (verdict, label, stage, judged) in &rows {
                            tr class=[word::tone_at("require", *verdict).row()] {
                                th scope="row" { (label) }
                                td { (word::of_check("require", *verdict)) }
                                td { (stage) }
                                td { (kept(judged)) }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// ` by R. Alder, 2026-05-12T16:20`
pub(super) fn who(one: &dewline_lang::outcome::ConfirmOutcome) -> String {
    let by = one.by.as_ref().map(|by| format!(" by {by}"));
    let at = one.at.as_ref().map(|at| format!(", {at}"));
    [by, at].into_iter().flatten().collect::<String>()
}

/// What is still to take, with a box to tick on paper.
pub(super) fn to_take(outcome: &Outcome) -> Markup {
    html! {
        @if !outcome.to_take.is_empty() {
            section {
                h2 { "Still to take" }
                ul class="take" {
                    @for item in &outcome.to_take { li { span class="box" {} span { (item) } } }
                }
            }
        }
    }
}

/// What could not be used.
pub(super) fn errors(outcome: &Outcome) -> Markup {
    html! {
        @if !outcome.errors.is_empty() {
            section {
                h2 { "Errors" }
                table {
                    caption class="unseen" { "What could not be used, and where it stands" }
                    thead {
                        tr {
                            th scope="col" { "Where" } th scope="col" { "Message" } th scope="col" { "Code" }
                            th scope="col" { "Place" }
                        }
                    }
                    tbody {
                        @for error in &outcome.errors {
                            tr class="look-bad" {
                                th scope="row" class="name" {
                                    @if error.cell.is_empty() { "the sheet" } @else { (error.cell) }
                                    @if let Some(row) = &error.row { " " (row) }
                                }
                                td { (error.message) }
                                td class="name" { (error.code) }
                                td class="name" { (error.place) }
                            }
                        }
                    }
                }
            }
        }
    }
}
