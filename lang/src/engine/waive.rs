//! Waivers: which failed checks they meet, and those that meet none.

use std::collections::BTreeMap;

use super::run::Run;
use super::settings::World;
use super::stages::{Verdicts, title_prefix};
use crate::diagnostic::{Diagnostic, names as codes};
use crate::outcome::CheckVerdict;

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
        let mut met = Vec::new();
        find(run, run, &waiver.label, waiver.row.as_deref(), &mut met);
        let mut any = false;
        for (prefix, check, entry, (safety, guarded)) in met {
            let verdict = waived
                .verdicts
                .get_mut(&prefix)
                .and_then(|checks| checks.get_mut(check))
                .and_then(|rows| rows.get_mut(entry));
            let Some(verdict) = verdict else { continue };
            // What is close and guarded stands in the way like a failed check.
            if *verdict != CheckVerdict::Failed && !(*verdict == CheckVerdict::Close && guarded) {
                continue;
            }
            any = true;
            if safety {
                world.report(
                    Diagnostic::error(
                        &codes::WAIVED_SAFETY,
                        format!("the check \"{}\" judges a safety function and cannot be waived", waiver.label),
                        waiver.span,
                        "",
                    )
                    .with_mend("mend what fails; local code and a licensed practitioner decide, not a waiver"),
                );
                continue;
            }
            *verdict = CheckVerdict::Waived;
            waived.reasons.insert((prefix, check, entry), waiver.reason.clone());
        }
        if !any {
            world.report(
                Diagnostic::error(
                    &codes::UNKNOWN_CHECK,
                    format!("this waiver meets no failed check \"{}\"", waiver.label),
                    waiver.span,
                    "",
                )
                .with_mend("take it away, or give it the label (and row) of the failed check as the report shows it"),
            );
        }
    }
    for child in run.children() {
        apply(child, world, waived);
    }
}

/// Prefix, check, entry; whether it judges a safety function, and whether it is guarded.
type Met = Vec<(String, usize, usize, (bool, bool))>;

fn find(run: &Run, from: &Run, label: &str, row: Option<&str>, met: &mut Met) {
    let inner = title_prefix(run);
    let outer = title_prefix(from);
    let shown = inner.strip_prefix(outer.trim_end_matches(": ")).unwrap_or(&inner).trim_start_matches('.');
    for (at, (check, outcome)) in run.plan.checks.iter().zip(&run.checks).enumerate() {
        let full = if std::ptr::eq(run, from) { check.label.clone() } else { format!("{shown}{}", check.label) };
        if full != label {
            continue;
        }
        for (entry_at, entry) in outcome.entries.iter().enumerate() {
            if row.is_none() || entry.key.as_deref() == row {
                met.push((run.prefix.clone(), at, entry_at, (check.safety, entry.guarded)));
            }
        }
    }
    for child in run.children() {
        find(child, from, label, row, met);
    }
}
