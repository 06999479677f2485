//! The report for reading: 80 columns, no colour needed. The top answers whether the job may go on, what does not hold
//! and by how much, and what is still to be taken; the rest is the evidence, stage by stage.

mod checks;
mod head;
mod table;
mod trials;
mod values;

use dewline_lang::outcome::{CellOutcome, Outcome, TableOutcome};

use super::once::Printed;
use super::{Look, outside, stages_in_order, summary};
use crate::paint::Paint;
use crate::words::{PAGE, hang, plain, width};

/// The report on one outcome; `run` names the row of settings it belongs to, if any.
pub(super) fn report(outcome: &Outcome, run: &str, look: &Look) -> String {
    let paint = look.paint;
    let mut out = String::new();
    head::head(&mut out, outcome, run, paint);
    if look.quiet {
        checks::attention(&mut out, outcome, paint);
        errors(&mut out, outcome, look);
        return out;
    }
    head::stages(&mut out, outcome, paint);
    checks::attention(&mut out, outcome, paint);
    to_take(&mut out, outcome);
    errors(&mut out, outcome, look);
    items(&mut out, "ADVICE", &outcome.advice, paint);
    for (title, lines) in outside::lists(outcome) {
        items(&mut out, &title.to_uppercase(), &lines, paint);
    }
    for stage in stages_in_order(outcome) {
        section(&mut out, outcome, stage, paint);
    }
    trials::trials(&mut out, outcome, paint);
    instruments(&mut out, outcome, paint);
    items(&mut out, "ASSUMPTIONS", &outcome.assumptions, paint);
    items(&mut out, "CAUTIONS", &outcome.cautions, paint);
    items(&mut out, &outside::FILES.to_uppercase(), &outside::files(outcome), paint);
    out
}

/// What all runs came to.
pub(super) fn total(title: &str, lines: &[String], paint: Paint) -> String {
    let mut out = format!("\n{}\n{}\n", paint.strong(title), "-".repeat(width(title)));
    lines.iter().for_each(|line| hang(&mut out, "  ", line));
    out
}

/// One line a stage.
pub(super) fn stages(outcome: &Outcome, paint: Paint) -> String {
    let mut out = String::new();
    head::stages(&mut out, outcome, paint);
    out
}

/// One table.
pub(super) fn one_table(outcome: &Outcome, table: &TableOutcome, paint: Paint) -> String {
    let mut out = String::new();
    table::table(&mut out, outcome, (table, &Printed::whole(table)), paint);
    out
}

/// Everything of one stage.
fn section(out: &mut String, outcome: &Outcome, stage: &str, paint: Paint) {
    let mut body = String::new();
    values::values(&mut body, outcome, stage, paint);
    for one in outcome.tables.iter().filter(|table| table.stage == stage) {
        table::table(&mut body, outcome, (one, &Printed::once(outcome, one)), paint);
    }
    for chart in outcome.charts.iter().filter(|chart| chart.stage == stage) {
        table::chart(&mut body, chart, paint);
    }
    checks::of_stage(&mut body, outcome, stage, paint);
    for note in outcome.notes.iter().filter(|note| note.stage == stage) {
        hang(&mut body, "  Note: ", note.text.as_deref().unwrap_or("(waits for values not taken yet)"));
    }
    if body.is_empty() {
        return;
    }
    let verdict = outcome.stages.iter().find(|one| one.name == stage).map(summary::stage_word);
    let name = if stage.is_empty() { "For the whole job" } else { stage };
    let title = match verdict {
        Some(word) => format!("{} - {word}", plain(name)),
        None => plain(name).into_owned(),
    };
    out.push_str(&format!("\n{}\n{}\n", paint.strong(&title), "-".repeat(width(&title).min(PAGE))));
    out.push_str(&body);
}

fn to_take(out: &mut String, outcome: &Outcome) {
    if outcome.to_take.is_empty() {
        return;
    }
    out.push_str("\nSTILL TO TAKE\n");
    for item in &outcome.to_take {
        hang(out, "  [ ] ", item);
    }
}

fn errors(out: &mut String, outcome: &Outcome, look: &Look) {
    if outcome.errors.is_empty() || look.errors_seen {
        return;
    }
    out.push_str("\nERRORS\n");
    for error in &outcome.errors {
        let row = error.row.as_ref().map(|row| format!(" {row}")).unwrap_or_default();
        let of = if error.cell.is_empty() { String::new() } else { format!("{}{row}: ", error.cell) };
        let place = if error.place.is_empty() { String::new() } else { format!(" ({})", error.place) };
        hang(out, &format!("  {} ", error.code), &format!("{of}{}{place}", error.message));
    }
}

fn items(out: &mut String, title: &str, items: &[String], paint: Paint) {
    if items.is_empty() {
        return;
    }
    out.push_str(&format!("\n{}\n", paint.strong(title)));
    for item in items {
        hang(out, "  - ", item);
    }
}

fn instruments(out: &mut String, outcome: &Outcome, paint: Paint) {
    if outcome.instruments.is_empty() {
        return;
    }
    out.push_str(&format!("\n{}\n", paint.strong("INSTRUMENTS")));
    for one in &outcome.instruments {
        let part = |name: &str, text: &Option<String>| text.as_ref().map(|text| format!("{name} {text}"));
        let parts: Vec<String> = [
            Some(one.description.clone()),
            part("serial", &one.serial),
            part("accuracy", &one.accuracy),
            part("repeats", &one.repeats),
            part("calibrated", &one.calibrated),
            part("due", &one.due),
        ]
        .into_iter()
        .flatten()
        .filter(|part| !part.is_empty())
        .collect();
        hang(out, &format!("  {}: ", plain(&one.name)), &parts.join(", "));
    }
}

/// Where a single value comes from, in words; that it was set from outside before all else.
pub(super) fn provenance_of(cell: &CellOutcome) -> String {
    let stated = &cell.stated;
    let rest = provenance(stated.by.as_deref(), stated.at.as_deref(), stated.note.as_deref());
    match &cell.set {
        None => rest,
        Some(_) if rest.is_empty() => "set from outside".to_string(),
        Some(_) => format!("set from outside, {rest}"),
    }
}

/// Where a value comes from, in words: `by test_gauge, 2026-03-14T07:40, line sheet L-2`.
pub(super) fn provenance(by: Option<&str>, at: Option<&str>, note: Option<&str>) -> String {
    let by = by.map(|by| format!("by {by}"));
    let parts: Vec<String> = [by, at.map(str::to_string), note.map(str::to_string)]
        .into_iter()
        .flatten()
        .filter(|part| !part.is_empty())
        .collect();
    parts.join(", ")
}
