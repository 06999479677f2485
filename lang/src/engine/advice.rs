//! What was taken for granted, and what a careful reader should know.

use std::cmp::Ordering;

use super::run::Run;
use super::shown;
use crate::moment::Moment;
use crate::outcome::{CheckVerdict, Outcome};
use crate::plan::{SitePlan, SlotSource};

/// What was taken for granted.
pub fn assumptions(run: &Run) -> Vec<String> {
    let mut assumptions = Vec::new();
    if matches!(run.plan.site, SitePlan::Unstated) && uses_atmosphere(run) {
        assumptions
            .push("the site is at sea level: 101.325 kPa (14.696 psia), since the sheet states no site".to_string());
    }
    assumptions
}

fn uses_atmosphere(run: &Run) -> bool {
    let plan = &run.plan;
    let columns = plan.tables.iter().flat_map(|table| &table.columns).map(|column| &column.typing);
    let mut shown = plan.slots.iter().map(|slot| &slot.typing).chain(columns);
    plan.uses_atmosphere
        || shown.any(|typing| shown::needs_atmosphere(typing, run.system))
        || run.children().any(uses_atmosphere)
}

/// Adds advice: failed `advise` checks, stages out of order, lapsed calibrations, hidden library names.
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
}

fn walk(run: &Run, outcome: &mut Outcome) {
    for name in &run.plan.hides {
        push(outcome, format!("`{name}` of this sheet hides the library's `{name}`"));
    }
    calibrations(run, outcome);
    order(run, outcome);
    for child in run.children() {
        walk(child, outcome);
    }
}

fn push(outcome: &mut Outcome, advice: String) {
    if !outcome.advice.contains(&advice) {
        outcome.advice.push(advice);
    }
}

/// A reading of the plan: its name, stage, time and instrument.
fn readings(run: &Run) -> Vec<(String, Option<usize>, Moment, Option<usize>)> {
    let mut readings = Vec::new();
    for (at, slot) in run.plan.slots.iter().enumerate() {
        if let SlotSource::Given(given) = &slot.source {
            let set =
                run.stated.get(&at).and_then(|stated| stated.at.as_ref()).and_then(|text| Moment::parse(text).ok());
            if let Some(time) = set.or(given.at) {
                readings.push((format!("{}{}", run.prefix, slot.name), slot.stage, time, given.by));
            }
        }
    }
    for table in &run.plan.tables {
        if let Some(time) = table.at {
            let name = format!("{}{}", run.prefix, table.name);
            readings.push((name.clone(), table.stage, time, None));
            for column in &table.columns {
                if column.by.is_some() {
                    readings.push((format!("{name}.{}", column.name), table.stage, time, column.by));
                }
            }
        }
    }
    readings
}

fn calibrations(run: &Run, outcome: &mut Outcome) {
    for (name, _, time, by) in readings(run) {
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

/// A stage whose readings are earlier than those of a stage it comes after.
fn order(run: &Run, outcome: &mut Outcome) {
    let readings = readings(run);
    for (at, stage) in run.plan.stages.iter().enumerate() {
        for &before in &stage.after {
            let own: Vec<_> = readings.iter().filter(|(_, stage, ..)| *stage == Some(at)).collect();
            let earlier: Vec<_> = readings.iter().filter(|(_, stage, ..)| *stage == Some(before)).collect();
            let pair = own.iter().find_map(|one| {
                let other = earlier.iter().find(|other| one.2.compare(other.2) == Ok(Ordering::Less))?;
                Some((one, other))
            });
            if let Some(((name, _, time, _), (other, _, other_time, _))) = pair {
                let message = format!(
                    "out of order: \"{}\" comes after \"{}\", but `{name}` ({time}) was read before `{other}` ({other_time})",
                    stage.name, run.plan.stages[before].name
                );
                push(outcome, message);
            }
        }
    }
}
