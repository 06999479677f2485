//! Verdicts on stages and on the job: what may go on, what waits, what is blocked.

use std::collections::BTreeMap;

use super::block::Mark;
use super::judge::Entry;
use super::run::{FillRun, Run};
use super::settings::World;
use super::trace;
use crate::outcome::{CheckVerdict, JobVerdict, StageVerdict};
use crate::plan::{FillPlan, SlotSource};

/// How a part of a job stands.
#[derive(Debug, Clone, Copy, Default)]
pub struct Standing {
    /// A check in it does not hold.
    pub failed: bool,
    /// Something in it is pending.
    pub waiting: bool,
    /// Something in it is broken.
    pub broken: bool,
    /// A failed check in it is waived.
    pub waived: bool,
    /// A stage in it is blocked.
    pub blocked: bool,
    /// It holds a check or a confirmation that asks for something.
    pub asks: bool,
    /// A stage in it is empty: it asks for nothing.
    pub empty: bool,
}

impl Standing {
    fn join(&mut self, other: Standing) {
        self.failed |= other.failed;
        self.waiting |= other.waiting;
        self.broken |= other.broken;
        self.waived |= other.waived;
        self.blocked |= other.blocked;
        self.asks |= other.asks;
        self.empty |= other.empty;
    }

    /// Something was asked for, and nothing stands in the way of what comes after.
    pub fn passed(self) -> bool {
        self.asks && !self.failed && !self.waiting && !self.broken && !self.blocked && !self.empty
    }

    /// The verdict on a job that stands so.
    pub fn verdict(self) -> JobVerdict {
        if self.broken {
            JobVerdict::Unusable
        } else if self.failed {
            JobVerdict::Failed
        } else if self.waiting {
            JobVerdict::Incomplete
        } else if !self.asks {
            JobVerdict::Computed
        } else if self.blocked || self.empty {
            JobVerdict::Incomplete
        } else if self.waived {
            JobVerdict::PassedWithWaivers
        } else {
            JobVerdict::Passed
        }
    }
}

/// A stage judged.
#[derive(Debug)]
pub struct StageRun {
    /// Its full name.
    pub name: String,
    /// The verdict.
    pub verdict: StageVerdict,
    /// What is still to be taken in it.
    pub waiting_for: Vec<String>,
    /// Stages it waits for.
    pub blocked_by: Vec<String>,
    /// How it stands.
    pub standing: Standing,
}

/// All stages of a run, those of filled sheets where they are filled, and how the whole stands.
#[derive(Debug, Default)]
pub struct Judged {
    /// Stages in the order of the sheet.
    pub stages: Vec<StageRun>,
    /// What is still to be taken, in the order of the sheet.
    pub to_take: Vec<String>,
    /// How the whole stands.
    pub standing: Standing,
}

/// Verdicts of checks after waiving, by check and entry.
pub type Verdicts = Vec<Vec<CheckVerdict>>;

/// Judges a run and all filled in it. `blocked_by` are stages around it that have not passed.
pub fn judge(run: &Run, world: &World<'_>, verdicts: &BTreeMap<String, Verdicts>, blocked_by: &[String]) -> Judged {
    let plan = &run.plan;
    let mut judged = Judged::default();
    let outside = contents(run, world, verdicts, None, blocked_by);
    judged.standing.join(outside.standing);
    let mut inner: BTreeMap<Option<usize>, Vec<StageRun>> = BTreeMap::new();
    let mut waiting: BTreeMap<Option<usize>, Vec<String>> = BTreeMap::new();
    let mut fills: BTreeMap<usize, Standing> = outside.fills;
    waiting.insert(None, outside.waiting_for);
    inner.insert(None, outside.stages);
    let mut settled: Vec<Option<(Standing, StageVerdict, Vec<String>)>> = vec![None; plan.stages.len()];
    // Stages in an order in which all before one are settled; circles were refused when the sheet was checked.
    for _ in 0..plan.stages.len() {
        for at in 0..plan.stages.len() {
            let stage = &plan.stages[at];
            if settled[at].is_some() || stage.after.iter().any(|&before| settled[before].is_none()) {
                continue;
            }
            let mut blockers: Vec<String> = stage
                .after
                .iter()
                .filter(|&&before| !matches!(settled[before], Some((_, StageVerdict::Passed, _))))
                .map(|&before| format!("{}{}", title_prefix(run), plan.stages[before].name))
                .collect();
            for fill in &stage.after_fills {
                let passed = fills.get(fill).is_some_and(|standing| standing.passed());
                if !passed && let Some(fill) = plan.fills.get(*fill) {
                    blockers.push(format!("{}{}", run.prefix, fill.name));
                }
            }
            let mut around = blocked_by.to_vec();
            around.extend(blockers);
            let contents = contents(run, world, verdicts, Some(at), &around);
            fills.extend(contents.fills);
            let mut standing = contents.standing;
            standing.blocked |= !around.is_empty();
            standing.empty |= !standing.asks;
            let verdict = verdict(standing);
            judged.standing.join(standing);
            inner.insert(Some(at), contents.stages);
            waiting.insert(Some(at), contents.waiting_for);
            settled[at] = Some((standing, verdict, around));
        }
    }
    add_new(&mut judged.to_take, waiting.get(&None).into_iter().flatten());
    judged.stages.extend(inner.remove(&None).into_iter().flatten());
    for (at, stage) in plan.stages.iter().enumerate() {
        let Some((standing, verdict, blocked_by)) = settled[at].take() else { continue };
        let waiting_for = waiting.remove(&Some(at)).unwrap_or_default();
        add_new(&mut judged.to_take, &waiting_for);
        judged.stages.push(StageRun {
            name: format!("{}{}", title_prefix(run), stage.name),
            verdict,
            waiting_for,
            blocked_by,
            standing,
        });
        judged.stages.extend(inner.remove(&Some(at)).into_iter().flatten());
    }
    judged
}

/// `riser_b: ` before the stages of a filled sheet.
pub fn title_prefix(run: &Run) -> String {
    match run.prefix.strip_suffix('.') {
        Some(name) => format!("{name}: "),
        None => String::new(),
    }
}

/// The full name of a stage. What stands in none belongs to the stage around the filling, or bears the filling's name.
pub fn stage_name(run: &Run, stage: Option<usize>) -> String {
    match stage.and_then(|stage| run.plan.stages.get(stage)) {
        Some(stage) => format!("{}{}", title_prefix(run), stage.name),
        None if !run.around.is_empty() => run.around.clone(),
        None => title_prefix(run).trim_end_matches(": ").to_string(),
    }
}

fn verdict(standing: Standing) -> StageVerdict {
    if standing.failed {
        StageVerdict::Failed
    } else if standing.blocked {
        StageVerdict::Blocked
    } else if standing.waiting || standing.broken {
        StageVerdict::Waiting
    } else if standing.empty {
        StageVerdict::Empty
    } else {
        StageVerdict::Passed
    }
}

/// What stands in one stage, or outside any.
#[derive(Default)]
struct Contents {
    standing: Standing,
    waiting_for: Vec<String>,
    stages: Vec<StageRun>,
    fills: BTreeMap<usize, Standing>,
}

fn contents(
    run: &Run,
    world: &World<'_>,
    verdicts: &BTreeMap<String, Verdicts>,
    stage: Option<usize>,
    blocked_by: &[String],
) -> Contents {
    let plan = &run.plan;
    let mut contents = Contents::default();
    for (slot, block) in plan.slots.iter().zip(&run.slots).filter(|(slot, _)| slot.stage == stage) {
        match block.mark(0) {
            Mark::Broken => contents.standing.broken = true,
            Mark::Pending => {
                // What a cell asked for is to be taken, unless it may stay away.
                if let SlotSource::Formula(node) = &slot.source {
                    let roots = trace::roots(run, node, None, world);
                    let wanted: Vec<String> = roots.into_iter().filter(|root| !is_optional(run, root)).collect();
                    contents.standing.waiting |= !wanted.is_empty();
                    add_new(&mut contents.waiting_for, &wanted);
                }
                if let SlotSource::Given(given) = &slot.source
                    && !given.optional
                {
                    contents.standing.waiting = true;
                    let at = plan.slots.iter().position(|other| std::ptr::eq(other, slot));
                    let roots = at.and_then(|at| run.outer_roots.get(&at)).filter(|roots| !roots.is_empty());
                    match roots {
                        Some(roots) => add_new(&mut contents.waiting_for, roots),
                        None if given.values.is_empty() => {
                            add_new(&mut contents.waiting_for, [&format!("{}{}", run.prefix, slot.name)]);
                        }
                        None => {}
                    }
                }
            }
            Mark::Known | Mark::LeftOut => {}
        }
    }
    for (at, (table, values)) in plan.tables.iter().zip(&run.tables).enumerate() {
        if table.stage != stage || table.used {
            continue;
        }
        if values.pending && (table.open || run.empty_tables.contains(&at)) && !table.traits.optional {
            contents.standing.waiting = true;
            add_new(&mut contents.waiting_for, [&format!("{}{}", run.prefix, table.name)]);
        }
        contents.standing.broken |=
            values.columns.iter().any(|column| (0..column.len()).any(|row| column.mark(row) == Mark::Broken));
    }
    let own = verdicts.get(&run.prefix);
    for (at, (check, outcome)) in plan.checks.iter().zip(&run.checks).enumerate() {
        if check.stage != stage {
            continue;
        }
        for (row, entry) in outcome.entries.iter().enumerate() {
            let verdict = own.and_then(|own| own.get(at)).and_then(|rows| rows.get(row)).copied();
            let label = format!("{}{}", title_prefix(run), check.label);
            contents.standing.asks |= check.require && entry.verdict != CheckVerdict::NotAsked;
            add_check(&mut contents, (&label, check.require), verdict.unwrap_or(entry.verdict), entry);
        }
    }
    for (confirm, answer) in plan.confirmations.iter().zip(&run.answers).filter(|(confirm, _)| confirm.stage == stage) {
        contents.standing.asks = true;
        match answer.answer {
            Some(true) => {}
            Some(false) => contents.standing.failed = true,
            None => {
                contents.standing.waiting = true;
                add_new(&mut contents.waiting_for, [&format!("{}{}", run.prefix, confirm.label)]);
            }
        }
    }
    for (at, (fill, outcome)) in plan.fills.iter().zip(&run.fills).enumerate() {
        if fill.stage == stage {
            add_fill(&mut contents, (run, world), at, (fill, outcome), verdicts, blocked_by);
        }
    }
    contents
}

/// Whether nothing waits for a value of this name by itself: an input, a table, a cell of a table's column.
fn is_optional(run: &Run, name: &str) -> bool {
    let optional = |run: &Run| {
        name.strip_prefix(&run.prefix).is_some_and(|own| {
            let cell = own.split_once("[\"").zip(own.rsplit_once("\"]."));
            run.plan.slots.iter().any(|slot| match &slot.source {
                SlotSource::Given(given) => given.optional && slot.name == own,
                SlotSource::Formula(_) => false,
            }) || run.plan.tables.iter().any(|table| {
                let of_column = |name: &str| table.columns.iter().any(|one| one.optional && one.name == name);
                table.traits.optional && table.name == own
                    || cell.is_some_and(|((of, _), (_, column))| table.name == of && of_column(column))
            })
        })
    };
    optional(run) || run.children().any(|child| is_optional(child, name))
}

fn add_check(contents: &mut Contents, (label, require): (&str, bool), verdict: CheckVerdict, entry: &Entry) {
    match verdict {
        CheckVerdict::Failed => contents.standing.failed |= require,
        CheckVerdict::Waived => contents.standing.waived = true,
        CheckVerdict::Close if require && entry.guarded => {
            contents.standing.waiting = true;
            let row = entry.key.as_ref().map_or_else(String::new, |row| format!(" ({row})"));
            add_new(&mut contents.waiting_for, [&format!("better readings for: {label}{row}")]);
        }
        CheckVerdict::Broken => contents.standing.broken = true,
        CheckVerdict::Pending if require => {
            contents.standing.waiting = true;
            add_new(&mut contents.waiting_for, &entry.waiting_for);
        }
        _ => {}
    }
}

fn add_fill(
    contents: &mut Contents,
    (run, world): (&Run, &World<'_>),
    at: usize,
    (fill, outcome): (&FillPlan, &FillRun),
    verdicts: &BTreeMap<String, Verdicts>,
    blocked_by: &[String],
) {
    let mut standing = Standing::default();
    let mut add = |child: &Run, contents: &mut Contents| {
        let judged = judge(child, world, verdicts, blocked_by);
        standing.join(judged.standing);
        add_new(&mut contents.waiting_for, &judged.to_take);
        contents.stages.extend(judged.stages);
    };
    match outcome {
        FillRun::One(child) => add(child, contents),
        FillRun::Each(children) => {
            for (_, child) in children {
                add(child, contents);
            }
            // Nothing has been filled yet: its table has no rows.
            let rows = fill.each.and_then(|table| run.tables.get(table));
            if children.is_empty() && rows.is_none_or(|rows| rows.pending) {
                standing.waiting = true;
                let table = fill.each.and_then(|table| run.plan.tables.get(table));
                if let Some(table) = table {
                    add_new(&mut contents.waiting_for, [&format!("{}{}", run.prefix, table.name)]);
                }
            }
        }
    }
    contents.standing.join(standing);
    contents.fills.insert(at, standing);
}

fn add_new<'s>(list: &mut Vec<String>, more: impl IntoIterator<Item = &'s String>) {
    for one in more {
        if !list.contains(one) {
            list.push(one.clone());
        }
    }
}
