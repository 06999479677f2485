//! Waivers: the one failed check that each is for, and those that meet none.

use std::collections::BTreeMap;

use super::run::Run;
use super::settings::World;
use super::stages::{Verdicts, title_prefix};
use crate::diagnostic::{Diagnostic, names as codes};
use crate::outcome::CheckVerdict;
use crate::plan::{RowsPlan, WaivePlan};

/// Verdicts of all checks after waiving, by the prefix of their run, and the reasons of waived ones.
#[derive(Debug, Default)]
pub struct Waived {
    /// Verdicts by prefix, check and entry.
    pub verdicts: BTreeMap<String, Verdicts>,
    /// Reasons by prefix, check and entry.
    pub reasons: BTreeMap<(String, usize, usize), String>,
}

/// Applies the waivers of a run and of all filled in it; an outer sheet waives inner checks as `filling: label`.
pub fn waive(run: &Run, world: &World<'_>) -> Waived {
    let mut waived = Waived::default();
    collect(run, &mut waived);
    apply(run, world, &mut waived);
    waived
}

fn collect(run: &Run, waived: &mut Waived) {
    let verdicts = run.checks.iter().map(|check| check.entries.iter().map(|entry| entry.verdict).collect()).collect();
    waived.verdicts.insert(run.prefix.clone(), verdicts);
    for child in run.children() {
        collect(child, waived);
    }
}

fn apply(run: &Run, world: &World<'_>, waived: &mut Waived) {
    for waiver in &run.plan.waivers {
        if let Err(diagnostic) = waive_one(run, waiver, waived) {
            world.report(diagnostic);
        }
    }
    for child in run.children() {
        apply(child, world, waived);
    }
}

fn waive_one(run: &Run, waiver: &WaivePlan, waived: &mut Waived) -> Result<(), Diagnostic> {
    let error = |code, message: String, mend: &str| Diagnostic::error(code, message, waiver.span, "").with_mend(mend);
    let label = &waiver.label;
    let mut met = Vec::new();
    find(run, run, label, &mut met);
    let (of, check) = match met.as_slice() {
        [] => {
            let message = format!("this waiver meets no failed check \"{label}\"");
            let mend = "take it away, or give it the label (and row) of the failed check as the report shows it";
            return Err(error(&codes::UNKNOWN_CHECK, message, mend));
        }
        [one] => *one,
        several => {
            let message = format!("{} checks are called \"{label}\", and a waiver is for one", several.len());
            return Err(error(&codes::WAIVES_SEVERAL, message, "give each check a label of its own"));
        }
    };
    let (plan, entries) = (&of.plan.checks[check], &of.checks[check].entries);
    let wanted = |key: Option<&str>| match &waiver.rows {
        Some(RowsPlan::One(wanted)) => key == Some(wanted),
        Some(RowsPlan::All) | None => true,
    };
    match (plan.each, &waiver.rows) {
        (Some(_), None) => {
            let message = format!("\"{label}\" judges each row, and this waiver does not say which it is for");
            let mend = "name the row as the report shows it, `for \"F-10\"`, or say `for all rows`";
            return Err(error(&codes::WAIVED_ROWS, message, mend));
        }
        (None, Some(_)) => {
            let message = format!("\"{label}\" does not judge row by row, so this waiver cannot be for rows");
            return Err(error(&codes::WAIVED_ROWS, message, "take out `for …`"));
        }
        _ => {}
    }
    let named = entries.iter().filter(|entry| wanted(entry.key.as_deref())).count();
    if let (Some(RowsPlan::One(key)), true) = (&waiver.rows, named > 1) {
        let message = format!("{named} rows of \"{label}\" are called \"{key}\", and a waiver for a row is for one");
        return Err(error(&codes::WAIVES_SEVERAL, message, "give each row a key of its own, or say `for all rows`"));
    }
    let mut any = false;
    for (at, entry) in entries.iter().enumerate().filter(|(_, entry)| wanted(entry.key.as_deref())) {
        let verdict = waived.verdicts.get_mut(&of.prefix).and_then(|checks| checks.get_mut(check)?.get_mut(at));
        let Some(verdict) = verdict else { continue };
        // What is close and guarded stands in the way like a failed check.
        if *verdict != CheckVerdict::Failed && !(*verdict == CheckVerdict::Close && entry.guarded) {
            continue;
        }
        if plan.safety {
            let message = format!("the check \"{label}\" judges a safety function and cannot be waived");
            let mend = "mend what fails; local code and a licensed practitioner decide, not a waiver";
            return Err(error(&codes::WAIVED_SAFETY, message, mend));
        }
        any = true;
        *verdict = CheckVerdict::Waived;
        waived.reasons.insert((of.prefix.clone(), check, at), told(waiver));
    }
    if any {
        return Ok(());
    }
    let message = format!("this waiver meets no failed check \"{label}\"");
    let mend = "take it away, or give it the label (and row) of the failed check as the report shows it";
    Err(error(&codes::UNKNOWN_CHECK, message, mend))
}

/// The reason with the person and the time.
fn told(waiver: &WaivePlan) -> String {
    format!("{} ({}, {})", waiver.reason, waiver.by, waiver.at_text)
}

/// The checks of this label in a run and what it fills, as seen from the sheet of the waiver.
fn find<'a>(run: &'a Run, from: &Run, label: &str, met: &mut Vec<(&'a Run, usize)>) {
    let inner = title_prefix(run);
    let outer = title_prefix(from);
    let shown = inner.strip_prefix(outer.trim_end_matches(": ")).unwrap_or(&inner).trim_start_matches('.');
    for (at, check) in run.plan.checks.iter().enumerate() {
        let full = if std::ptr::eq(run, from) { check.label.clone() } else { format!("{shown}{}", check.label) };
        if full == label {
            met.push((run, at));
        }
    }
    for child in run.children() {
        find(child, from, label, met);
    }
}
