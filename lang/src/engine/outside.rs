//! What came from outside of the sheet: values set, inputs of forms given otherwise than by default, names of the
//! library that the job's own hide.

use std::cell::Cell;
use std::collections::{BTreeMap, BTreeSet};

use super::block::{Block, Data};
use super::run::{FillRun, Run};
use super::settings::World;
use super::shown;
use crate::outcome::{OtherwiseOutcome, Outcome, ReplacedOutcome, SetOutcome};
use crate::plan::{Plan, SlotSource, Typing, Wish};

/// Adds all of it to an outcome.
pub fn tell(run: &Run, world: &World<'_>, outcome: &mut Outcome) {
    let mut limits = BTreeSet::new();
    let mut plans = BTreeMap::new();
    limits_by_name(run, &mut plans, &mut limits);
    let set = world.set_values().into_iter().map(|(setting, sheet)| SetOutcome {
        limit: limits.contains(&setting.name),
        name: setting.name,
        sheet,
        value: setting.text,
        from: setting.from,
    });
    outcome.set = set.collect();
    for one in &outcome.set {
        for cell in outcome.cells.iter_mut().filter(|cell| cell.name == one.name) {
            cell.set = Some(one.from.clone());
        }
    }
    otherwise(run, &mut plans, outcome);
    replaced(run, outcome);
}

/// Limits of each plan, worked out once: a form may be filled for each row of a table.
type Limits = BTreeMap<*const Plan, BTreeSet<usize>>;

fn limits_of<'a>(run: &Run, plans: &'a mut Limits) -> &'a BTreeSet<usize> {
    plans.entry(std::sync::Arc::as_ptr(&run.plan)).or_insert_with(|| run.plan.limits())
}

fn limits_by_name(run: &Run, plans: &mut Limits, names: &mut BTreeSet<String>) {
    let slots = limits_of(run, plans).iter().filter_map(|slot| run.plan.slots.get(*slot));
    names.extend(slots.map(|slot| format!("{}{}", run.prefix, slot.name)));
    run.children().for_each(|child| limits_by_name(child, plans, names));
}

/// Inputs with a default that what fills the form gives otherwise.
fn otherwise(run: &Run, plans: &mut Limits, outcome: &mut Outcome) {
    for (fill, filled) in run.plan.fills.iter().zip(&run.fills) {
        match filled {
            FillRun::One(child) => {
                let found = of_form(child, plans);
                outcome.otherwise.extend(found.into_iter().map(|(_, one)| one));
                otherwise(child, plans, outcome);
            }
            FillRun::Each(children) => {
                let mut rows: BTreeMap<usize, Vec<OtherwiseOutcome>> = BTreeMap::new();
                for (_, child) in children {
                    for (slot, one) in of_form(child, plans) {
                        rows.entry(slot).or_default().push(one);
                    }
                }
                for (slot, mut rows_of_slot) in rows {
                    let alike = rows_of_slot.windows(2).all(|pair| pair[0].value == pair[1].value);
                    // The same in every row is said once.
                    if alike
                        && rows_of_slot.len() == children.len()
                        && let (Some(one), Some(slot)) = (rows_of_slot.first_mut(), fill.plan.slots.get(slot))
                    {
                        one.name = format!("{}{}.{}", run.prefix, fill.name, slot.name);
                        rows_of_slot.truncate(1);
                    }
                    outcome.otherwise.extend(rows_of_slot);
                }
                children.iter().for_each(|(_, child)| otherwise(child, plans, outcome));
            }
        }
    }
}

fn of_form(child: &Run, plans: &mut Limits) -> Vec<(usize, OtherwiseOutcome)> {
    let limits = limits_of(child, plans).clone();
    let work = Cell::new(0);
    let site = child.atmosphere.number_at(0);
    let mut found = Vec::new();
    for slot in child.filled.iter().copied().filter(|slot| !child.set.contains(slot)) {
        let (Some(plan), Some(value)) = (child.plan.slots.get(slot), child.slots.get(slot)) else { continue };
        let SlotSource::Given(given) = &plan.source else { continue };
        let [default] = given.values.as_slice() else { continue };
        let default = child.sight(&work).eval(default);
        if !value.is_known(0) || !default.is_known(0) || are_equal(&default, value) {
            continue;
        }
        let wish = child.wishes.slots.get(&slot);
        let show = |block: &Block, wish: Option<&Wish>| {
            let typing = Typing { wish: wish.cloned().or_else(|| plan.typing.wish.clone()), ..plan.typing.clone() };
            shown::value(block, 0, &typing, child.system, site).map_or_else(String::new, |shown| shown.text)
        };
        found.push((
            slot,
            OtherwiseOutcome {
                name: format!("{}{}", child.prefix, plan.name),
                form: child.plan.path.clone(),
                default: show(&default, wish),
                value: show(value, wish),
                limit: limits.contains(&slot),
            },
        ));
    }
    found
}

fn are_equal(one: &Block, other: &Block) -> bool {
    match (one.number_at(0), other.number_at(0)) {
        (Some(a), Some(b)) => super::arithmetic::stands(crate::plan::Order::Equal, a, b),
        _ => match (&one.data, &other.data) {
            (Data::Texts(a), Data::Texts(b)) => a == b,
            (Data::Flags(a), Data::Flags(b)) => a == b,
            (Data::Moments(a), Data::Moments(b)) => a == b,
            _ => false,
        },
    }
}

fn replaced(run: &Run, outcome: &mut Outcome) {
    for (what, name) in &run.plan.hides {
        let one = ReplacedOutcome { what, name: name.clone(), by: run.plan.path.clone() };
        if !outcome.replaced.contains(&one) {
            outcome.replaced.push(one);
        }
    }
    run.children().for_each(|child| replaced(child, outcome));
}
