//! What was taken for granted, and what a careful reader should know.

use std::cmp::Ordering;

use super::block::{Block, Data};
use super::coverage;
use super::doubt::Part;
use super::meant;
use super::order;
use super::origins::LOST;
use super::run::Run;
use super::settings::World;
use super::shown;
use crate::outcome::{CheckVerdict, Outcome, Role};
use crate::plan::{Guard, SitePlan};

/// What was taken for granted, and how checks were decided.
pub fn assumptions(run: &Run, world: &World<'_>) -> Vec<String> {
    let mut assumptions = Vec::new();
    if matches!(run.plan.site, SitePlan::Unstated) && uses_atmosphere(run) {
        assumptions
            .push("the site is at sea level: 101.325 kPa (14.696 psia), since the sheet states no site".to_string());
    }
    let origins = world.origins.borrow();
    for name in &origins.assumed {
        assumptions.push(format!("`{name}` does not say how well it repeats: a fifth of its accuracy is taken"));
    }
    let mut exact = Vec::new();
    taken_as_exact(run, &mut exact);
    if !exact.is_empty() {
        assumptions.push(format!("taken as exact, with neither ± nor instrument: {}", exact.join(", ")));
    }
    let mut incomplete = Vec::new();
    not_carried(run, &mut incomplete);
    if !incomplete.is_empty() {
        let names = incomplete.join(", ");
        assumptions.push(format!("not all doubt could be carried to {names}: a function refuses beside its arguments, or there is too much of it"));
    }
    if !origins.all().is_empty() && has_checks(run) {
        assumptions.push(rule(world.guard));
        if world.guard.is_none() && has_safety(run) {
            assumptions.push("checks of safety functions are decided guarded, by U".to_string());
        }
    }
    assumptions
}

/// How close checks are decided.
fn rule(guard: Option<Guard>) -> String {
    let known = "U is the expanded uncertainty for 95 % (k = 2, more where readings are few)";
    match guard {
        None => format!(
            "a check whose limit lies within U of its value is called close, and decided by the value (simple \
             acceptance, JCGM 106); {known}"
        ),
        Some(Guard::Expanded) => format!(
            "checks are decided guarded: a value passes only if it keeps its limit by U (JCGM 106; ISO 14253-1); {known}"
        ),
        Some(Guard::Probability(share)) => format!(
            "checks are decided guarded: a value passes only if it keeps its limit with a probability of {} %, which \
             takes {:.3} standard uncertainties or more (JCGM 106; ISO 14253-1)",
            crate::units::show::number(share * 100.0),
            coverage::one_sided(share, None)
        ),
    }
}

fn has_checks(run: &Run) -> bool {
    !run.plan.checks.is_empty() || run.children().any(has_checks)
}

fn has_safety(run: &Run) -> bool {
    run.plan.checks.iter().any(|check| check.safety) || run.children().any(has_safety)
}

/// Readings known without any doubt.
fn taken_as_exact(run: &Run, names: &mut Vec<String>) {
    for (at, (slot, block)) in run.plan.slots.iter().zip(&run.slots).enumerate() {
        let exact = block.number_at(0).is_some() && block.states.doubt().is_none();
        if slot.role == Role::Reading && exact && !run.filled.contains(&at) {
            names.push(format!("`{}{}`", run.prefix, slot.name));
        }
    }
    run.children().for_each(|child| taken_as_exact(child, names));
}

/// Values whose doubt is not complete.
fn not_carried(run: &Run, names: &mut Vec<String>) {
    let lost = |parts: &[Part]| parts.iter().any(|(cause, _)| *cause == LOST);
    let single = |block: &Block| match &block.data {
        Data::Record(fields) => fields.iter().any(|field| lost(field.states.doubt_at(0))),
        _ => lost(block.states.doubt_at(0)),
    };
    for (slot, block) in run.plan.slots.iter().zip(&run.slots) {
        if single(block) {
            names.push(format!("`{}{}`", run.prefix, slot.name));
        }
    }
    for (table, values) in run.plan.tables.iter().zip(&run.tables) {
        for (column, block) in table.columns.iter().zip(&values.columns) {
            if (0..block.len()).any(|row| lost(block.states.doubt_at(row))) {
                names.push(format!("`{}{}.{}`", run.prefix, table.name, column.name));
            }
        }
    }
    run.children().for_each(|child| not_carried(child, names));
}

fn uses_atmosphere(run: &Run) -> bool {
    let plan = &run.plan;
    let columns = plan.tables.iter().flat_map(|table| &table.columns).map(|column| &column.typing);
    let mut shown = plan.slots.iter().map(|slot| &slot.typing).chain(columns);
    plan.uses_atmosphere
        || shown.any(|typing| shown::needs_atmosphere(typing, run.system))
        || run.children().any(uses_atmosphere)
}

/// Adds advice: failed `advise` checks, stages out of order, lapsed calibrations.
pub fn advise(run: &Run, outcome: &mut Outcome) {
    let failed: Vec<String> = outcome
        .checks
        .iter()
        .filter(|check| check.level == "advise" && check.verdict == CheckVerdict::Failed)
        .map(|check| {
            let row = check.row.as_ref().map_or_else(String::new, |row| format!(" ({row})"));
            let judged = match (&check.value, &check.limit) {
                (Some(value), Some(limit)) => format!(": {value}, wanted {limit}"),
                _ => String::new(),
            };
            format!("{}{row}{judged}", check.label)
        })
        .collect();
    outcome.advice.extend(failed);
    walk(run, outcome);
    order::ahead(run, outcome);
}

fn walk(run: &Run, outcome: &mut Outcome) {
    meant::advise(run, outcome);
    for (&table, rows) in &run.counted_once {
        let name = &run.plan.tables[table].name;
        let rows = match rows.len() {
            1 => "a row stands".to_string(),
            many => format!("{many} rows stand"),
        };
        push(outcome, format!("`{}{name}`: {rows} there twice, and counts once", run.prefix));
    }
    calibrations(run, outcome);
    order::by_time(run, outcome);
    for child in run.children() {
        walk(child, outcome);
    }
}

pub(super) fn push(outcome: &mut Outcome, advice: String) {
    if !outcome.advice.contains(&advice) {
        outcome.advice.push(advice);
    }
}

fn calibrations(run: &Run, outcome: &mut Outcome) {
    for order::Timed { name, time, by, .. } in order::readings(run) {
        let Some(instrument) = by.and_then(|by| run.plan.instruments.get(by)) else { continue };
        let Some((on, due)) = &instrument.calibrated else { continue };
        let after_due = due.is_some_and(|due| time.compare(due) == Ok(Ordering::Greater));
        let before = time.compare(*on) == Ok(Ordering::Less);
        if after_due || before {
            let when = if before {
                format!("before its calibration of {on}")
            } else {
                "after its calibration fell due".to_string()
            };
            push(outcome, format!("`{name}` was read with `{}` on {time}, {when}", instrument.name));
        }
    }
}
