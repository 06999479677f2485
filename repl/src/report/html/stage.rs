//! Everything of one stage: values, tables, charts, checks, notes.

use dewline_lang::outcome::{CellOutcome, CheckVerdict, Offers, Outcome, Role};
use maud::{Markup, html};

use super::head::who;
use super::{chart, table, word};
use crate::report::summary::{groups, is_wanted, judged, label_of, value};
use crate::report::text::provenance_of;
use crate::words::kept;

/// The section of a stage; nothing if it holds nothing.
pub(super) fn section(outcome: &Outcome, offers: &Offers, stage: &str, place: &str) -> Markup {
    let body = html! {
        (values(outcome, stage))
        @for one in outcome.tables.iter().filter(|table| table.stage == stage) { (table::table(outcome, one)) }
        @for (at, one) in crate::report::chart::of_stage(outcome, offers, stage).iter().enumerate() {
            (chart::figure(one, &format!("{place}-c{at}")))
        }
        (checks(outcome, stage))
        @for note in outcome.notes.iter().filter(|note| note.stage == stage) {
            p class="note" { (note.text.as_deref().unwrap_or("(waits for values not taken yet)")) }
        }
    };
    let verdict = outcome.stages.iter().find(|one| one.name == stage);
    html! {
        @if !body.0.is_empty() {
            section id=(place) {
                h2 {
                    @if stage.is_empty() { "For the whole job" } @else { (stage) }
                    @if let Some(verdict) = verdict { " " (word::of_stage(verdict)) }
                }
                (body)
            }
        }
    }
}

/// What was given and read, then what was computed from it.
fn values(outcome: &Outcome, stage: &str) -> Markup {
    let cells = || outcome.cells.iter().filter(|cell| cell.stage == stage);
    let (given, computed): (Vec<_>, Vec<_>) = cells().partition(|cell| cell.role != Role::Cell);
    html! {
        (listed("Given and read", &given, "From"))
        (listed("Computed", &computed, "How"))
    }
}

fn listed(title: &str, cells: &[&CellOutcome], last: &str) -> Markup {
    html! {
        @if !cells.is_empty() {
            h3 { (title) }
            table class="pairs values" {
                caption class="unseen" { (title) }
                thead { tr { th scope="col" { "Name" } th scope="col" { "Value" } th scope="col" { (last) } } }
                tbody { @for cell in cells { (line(cell)) } }
            }
        }
    }
}

fn line(cell: &CellOutcome) -> Markup {
    let tone = match (cell.broken, is_wanted(cell)) {
        (true, _) => Some(word::Tone::Bad),
        (_, true) => Some(word::Tone::Wait),
        _ => None,
    };
    let from = provenance_of(cell);
    html! {
        tr class=[tone.and_then(word::Tone::row)] {
            th scope="row" class="name" { (cell.name) }
            td class="value" {
                @match tone {
                    Some(tone) => (word::word(&kept(&value(cell)), tone)),
                    None => (kept(&value(cell))),
                }
            }
            td {
                (kept(&from))
                @if !cell.formula.is_empty() {
                    details { summary { "formula" } code { (cell.formula) } }
                }
            }
        }
    }
}

/// All checks and confirmations of a stage.
fn checks(outcome: &Outcome, stage: &str) -> Markup {
    let mut rows: Vec<(&str, CheckVerdict, String, String)> = Vec::new();
    for group in groups(&outcome.checks).iter().filter(|group| group.stage == stage) {
        let advised = if group.level == "advise" { " (advice)" } else { "" };
        match group.entries.as_slice() {
            [only] if only.row.is_none() => {
                rows.push((only.level, only.verdict, format!("{}{advised}", label_of(only)), judged(only)));
            }
            _ => rows.push((group.level, group.worst(), format!("{}{advised}", group.label), group.rows_in_words())),
        }
    }
    for one in outcome.confirmations.iter().filter(|one| one.stage == stage) {
        let said = match one.verdict {
            CheckVerdict::Pending => "to be confirmed".to_string(),
            CheckVerdict::Failed => format!("answered with no{}", who(one)),
            _ => format!("confirmed{}", who(one)),
        };
        rows.push(("confirm", one.verdict, one.label.clone(), said));
    }
    html! {
        @if !rows.is_empty() {
            h3 { "Checks" }
            table class="pairs" {
                caption class="unseen" { "Checks and confirmations" }
                thead { tr { th scope="col" { "Check" } th scope="col" { "Verdict" } th scope="col" { "Judged" } } }
                tbody {
                    @for (level, verdict, label, judged) in &rows {
                        tr class=[word::tone_at(level, *verdict).row()] {
                            th scope="row" { (label) }
                            td { (word::of_check(level, *verdict)) }
                            td { (kept(judged)) }
                        }
                    }
                }
            }
        }
    }
}
