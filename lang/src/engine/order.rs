//! Work out of the order of the stages: readings taken before those of an earlier stage, and readings in a stage that
//! comes after one that has not passed.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use super::advice::push;
use super::run::Run;
use super::stages::stage_name;
use crate::moment::Moment;
use crate::outcome::{Outcome, Role, StageVerdict};
use crate::plan::{ColumnSource, SlotSource};

/// A reading with its time.
pub struct Timed {
    /// Its full name.
    pub name: String,
    /// The stage it stands in, of the run that is looked at.
    pub stage: Option<usize>,
    /// The filling it stands in.
    pub fill: Option<usize>,
    /// When.
    pub time: Moment,
    /// The instrument.
    pub by: Option<usize>,
}

/// The readings of a run itself that say when they were taken.
pub fn readings(run: &Run) -> Vec<Timed> {
    let mut readings = Vec::new();
    for (at, slot) in run.plan.slots.iter().enumerate() {
        if let SlotSource::Given(given) = &slot.source {
            let set =
                run.stated.get(&at).and_then(|stated| stated.at.as_ref()).and_then(|text| Moment::parse(text).ok());
            let by = run.stated.get(&at).and_then(|stated| stated.by.as_ref());
            let by = by.and_then(|by| run.plan.instruments.iter().position(|one| one.name == *by));
            if let Some(time) = set.or(given.at) {
                let name = format!("{}{}", run.prefix, slot.name);
                readings.push(Timed { name, stage: slot.stage, fill: None, time, by: by.or(given.by) });
            }
        }
    }
    for table in &run.plan.tables {
        if let Some(time) = table.at {
            let name = format!("{}{}", run.prefix, table.name);
            readings.push(Timed { name: name.clone(), stage: table.stage, fill: None, time, by: None });
            for column in table.columns.iter().filter(|column| column.by.is_some()) {
                let name = format!("{name}.{}", column.name);
                readings.push(Timed { name, stage: table.stage, fill: None, time, by: column.by });
            }
        }
    }
    readings
}

/// The same with those of all that is filled in, which stand in the stage of their filling. What is handed to a filling
/// was read where it comes from.
fn readings_within(run: &Run) -> Vec<Timed> {
    let handed: BTreeSet<String> =
        run.filled.iter().map(|&slot| format!("{}{}", run.prefix, run.plan.slots[slot].name)).collect();
    let mut all = readings(run);
    all.retain(|reading| !handed.contains(&reading.name));
    for (at, fill) in run.fills.iter().enumerate() {
        let stage = run.plan.fills[at].stage;
        let inside = fill.runs().flat_map(readings_within);
        all.extend(inside.map(|reading| Timed { stage, fill: Some(at), by: None, ..reading }));
    }
    all
}

/// A stage whose readings are earlier than those of a stage or a filling it comes after.
pub fn by_time(run: &Run, outcome: &mut Outcome) {
    let all = readings_within(run);
    for (at, stage) in run.plan.stages.iter().enumerate() {
        let own = || all.iter().filter(|reading| reading.stage == Some(at));
        let before_any = |is_earlier: &dyn Fn(&Timed) -> bool| {
            own().find_map(|one| {
                let is_after = |other: &&Timed| one.time.compare(other.time) == Ok(Ordering::Less);
                Some((one, all.iter().filter(|other| is_earlier(other)).find(is_after)?))
            })
        };
        let stages = stage.after.iter().map(|&before| {
            let name = format!("\"{}\"", run.plan.stages[before].name);
            (name, before_any(&|other| other.stage == Some(before)))
        });
        let fills = stage.after_fills.iter().map(|&before| {
            let name = format!("`{}`", run.plan.fills[before].name);
            (name, before_any(&|other| other.fill == Some(before)))
        });
        for (before, pair) in stages.chain(fills) {
            let Some((one, other)) = pair else { continue };
            let message = format!(
                "out of order: \"{}\" comes after {before}, but `{}` ({}) was read before `{}` ({})",
                stage.name, one.name, one.time, other.name, other.time
            );
            push(outcome, message);
        }
    }
}

/// Stages in which something was read already, though one that they come after has not passed.
pub fn ahead(run: &Run, outcome: &mut Outcome) {
    let mut read = BTreeSet::new();
    stages_read(run, &mut read);
    // By what holds them up, in the order of the sheet.
    let mut held: Vec<(String, Vec<String>)> = Vec::new();
    for stage in outcome.stages.iter().filter(|stage| read.contains(&stage.name)) {
        let mut causes = Vec::new();
        held_up_by(outcome, &stage.blocked_by, &mut causes);
        for cause in causes {
            match held.iter_mut().find(|(known, _)| *known == cause) {
                Some((_, stages)) => stages.push(format!("\"{}\"", stage.name)),
                None => held.push((cause, vec![format!("\"{}\"", stage.name)])),
            }
        }
    }
    for (cause, stages) in held {
        let verdict = outcome.stages.iter().find(|stage| stage.name == cause).map(|stage| stage.verdict);
        let stands = if verdict == Some(StageVerdict::Failed) { "has failed" } else { "is not done" };
        let (before, holds) = if stages.len() == 1 { ("it", "holds") } else { ("them", "hold") };
        push(
            outcome,
            format!(
                "out of order: {} {holds} readings, though \"{cause}\" before {before} {stands}",
                in_words(&stages)
            ),
        );
    }
}

/// The stages at the beginning of what blocks: those that are not blocked themselves.
fn held_up_by(outcome: &Outcome, blocked_by: &[String], causes: &mut Vec<String>) {
    for name in blocked_by {
        match outcome.stages.iter().find(|stage| stage.name == *name) {
            Some(stage) if !stage.blocked_by.is_empty() => held_up_by(outcome, &stage.blocked_by, causes),
            _ if causes.contains(name) => {}
            _ => causes.push(name.clone()),
        }
    }
}

/// The stages in which something was read: not what is handed to them, nor what a drawing says.
fn stages_read(run: &Run, stages: &mut BTreeSet<String>) {
    for (at, (slot, block)) in run.plan.slots.iter().zip(&run.slots).enumerate() {
        if slot.role == Role::Reading && block.is_known(0) && !run.filled.contains(&at) {
            stages.insert(stage_name(run, slot.stage));
        }
    }
    for (at, (table, values)) in run.plan.tables.iter().zip(&run.tables).enumerate() {
        let measured = |at: usize| {
            matches!(table.columns[at].source, ColumnSource::Rows { measured: true })
                && values.columns.get(at).is_some_and(|block| (0..block.len()).any(|row| block.is_known(row)))
        };
        if !table.used && !run.filled_tables.contains(&at) && (0..table.columns.len()).any(measured) {
            stages.insert(stage_name(run, table.stage));
        }
    }
    run.children().for_each(|child| stages_read(child, stages));
}

fn in_words(names: &[String]) -> String {
    match names {
        [first @ .., last] if !first.is_empty() => format!("{} and {last}", first.join(", ")),
        _ => names.concat(),
    }
}
