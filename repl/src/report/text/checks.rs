//! Checks: those that ask for a look at the top, and all of a stage in its section.

use dewline_lang::outcome::{CheckVerdict, Outcome};

use super::summary::{CheckGroup, asks_for_a_look, groups, is_advice, judged, label_of, word_at};
use crate::paint::Paint;
use crate::words::{count, hang_painted, left, plain};

/// Columns of the verdict's word.
const WORD: usize = 9;
/// Rows of one check that are told one by one; of more, the rest is counted.
const ROWS: usize = 20;

/// What failed, is close to its limit, cannot be computed or was waived, with value, limit and margin.
pub(super) fn attention(out: &mut String, outcome: &Outcome, paint: Paint) {
    let mut body = String::new();
    let mut stage = None;
    for group in groups(&outcome.checks) {
        let entries = || group.entries.iter().filter(|entry| asks_for_a_look(entry.verdict));
        let refusing = entries().count();
        if group.level == "advise" || refusing == 0 {
            continue;
        }
        heading(&mut body, &mut stage, group.stage);
        for entry in entries().take(ROWS) {
            line(&mut body, ("require", entry.verdict), &label_of(entry), paint);
            let judged = judged(entry);
            if !judged.is_empty() {
                hang_painted(&mut body, &" ".repeat(WORD + 5), WORD + 5, &judged);
            }
        }
        if refusing > ROWS {
            let more = count(refusing - ROWS, "more row", "more rows");
            body.push_str(&format!("{}and {more} of it\n", " ".repeat(WORD + 5)));
        }
    }
    for one in outcome.confirmations.iter().filter(|one| one.verdict == CheckVerdict::Failed) {
        heading(&mut body, &mut stage, &one.stage);
        let who = super::provenance(one.by.as_deref(), one.at.as_deref(), None);
        let who = if who.is_empty() { String::new() } else { format!(" ({who})") };
        line(&mut body, ("confirm", one.verdict), &format!("{}: answered with no{who}", one.label), paint);
    }
    if !body.is_empty() {
        out.push('\n');
        out.push_str(&paint.strong("NOT IN ORDER"));
        out.push('\n');
        out.push_str(&body);
    }
}

/// All checks and confirmations of a stage.
pub(super) fn of_stage(out: &mut String, outcome: &Outcome, stage: &str, paint: Paint) {
    let all = groups(&outcome.checks);
    let mine: Vec<&CheckGroup<'_>> = all.iter().filter(|group| group.stage == stage).collect();
    let confirmations: Vec<_> = outcome.confirmations.iter().filter(|one| one.stage == stage).collect();
    if mine.is_empty() && confirmations.is_empty() {
        return;
    }
    out.push_str("  Checks\n");
    for group in mine {
        let advised = if group.level == "advise" { " (advice)" } else { "" };
        if group.table.is_some() && (group.entries.len() > 1 || group.entries.iter().any(|entry| entry.row.is_some())) {
            let text = format!("{}{advised}, {}", group.label, group.rows_in_words());
            line(out, (group.level, group.worst()), &text, paint);
            continue;
        }
        for entry in &group.entries {
            let judged = judged(entry);
            let gap = if judged.is_empty() { "" } else { ": " };
            line(out, (entry.level, entry.verdict), &format!("{}{advised}{gap}{judged}", label_of(entry)), paint);
        }
    }
    for one in confirmations {
        let who = super::provenance(one.by.as_deref(), one.at.as_deref(), None);
        let said = match one.verdict {
            CheckVerdict::Pending => "to be confirmed".to_string(),
            _ if who.is_empty() => "confirmed".to_string(),
            _ => format!("confirmed {who}"),
        };
        let said =
            if one.verdict == CheckVerdict::Failed { said.replacen("confirmed", "answered with no", 1) } else { said };
        line(out, ("confirm", one.verdict), &format!("{}: {said}", one.label), paint);
    }
}

/// The stage's name, once above its checks.
fn heading<'a>(out: &mut String, last: &mut Option<&'a str>, stage: &'a str) {
    if *last != Some(stage) {
        if !stage.is_empty() {
            out.push_str(&format!("  {}\n", plain(stage)));
        }
        *last = Some(stage);
    }
}

/// A line that begins with the verdict's word.
fn line(out: &mut String, (level, verdict): (&str, CheckVerdict), text: &str, paint: Paint) {
    let indent = "    ";
    let word = left(word_at(level, verdict), WORD);
    let painted = match verdict {
        _ if is_advice(level, verdict) => paint.wait(&word),
        CheckVerdict::Failed | CheckVerdict::Broken => paint.bad(&word),
        CheckVerdict::Close | CheckVerdict::Pending | CheckVerdict::Waived => paint.wait(&word),
        CheckVerdict::Passed => paint.good(&word),
        CheckVerdict::NotAsked => word,
    };
    hang_painted(out, &format!("{indent}{painted} "), indent.len() + WORD + 1, text);
}
