//! Which inputs are limits: what a check holds its value against, through formulas and into the forms that it is handed to.

use std::collections::{BTreeMap, BTreeSet};

use super::job::{ColumnSource, FillBinding, Plan, SlotSource};
use super::node::{Node, Op};
use crate::kinds::Kind;
use crate::outcome::Role;

impl Plan {
    /// The inputs of this plan that a check of it, or of a form that it fills, is judged by.
    pub fn limits(&self) -> BTreeSet<usize> {
        let mut search =
            Search { plan: self, limits: BTreeSet::new(), flags: BTreeSet::new(), stated: BTreeMap::new() };
        for check in &self.checks {
            if let Some(comparison) = &check.comparison {
                comparison.low.iter().chain(&comparison.high).for_each(|limit| search.of_limit(limit));
            }
            search.of_condition(&check.condition, check.each);
        }
        for fill in self.fills.iter().filter(|fill| !fill.bindings.is_empty()) {
            let inner = fill.plan.limits();
            for binding in &fill.bindings {
                if let FillBinding::Value { slot, node, .. } = binding
                    && inner.contains(slot)
                {
                    search.of_limit(node);
                }
            }
        }
        search.limits
    }
}

struct Search<'a> {
    plan: &'a Plan,
    limits: BTreeSet<usize>,
    /// Flags looked through: a single value, or a column of a table.
    flags: BTreeSet<(Option<usize>, usize)>,
    /// Single values of which it is known whether they are stated.
    stated: BTreeMap<usize, bool>,
}

impl Search<'_> {
    /// All inputs that a limit is made of.
    fn of_limit(&mut self, limit: &Node) {
        let mut seen = BTreeSet::new();
        let mut left = slots_in(limit);
        while let Some(slot) = left.pop() {
            let Some(plan) = self.plan.slots.get(slot).filter(|_| seen.insert(slot)) else { continue };
            match &plan.source {
                SlotSource::Formula(node) => left.extend(slots_in(node)),
                SlotSource::Given(_) if plan.role == Role::Input => {
                    self.limits.insert(slot);
                }
                SlotSource::Given(_) => {}
            }
        }
    }

    /// The limits in a condition, and in the flags that it is made of.
    fn of_condition(&mut self, condition: &Node, table: Option<usize>) {
        let mut flags = Vec::new();
        condition.walk(&mut |node| match &node.op {
            Op::Within(_, low, high) => {
                self.of_limit(low);
                self.of_limit(high);
            }
            Op::Near(_, tolerance, of) => {
                self.of_limit(tolerance);
                self.of_limit(of);
            }
            Op::Compare(_, one, other) | Op::CompareTimes(_, one, other) => {
                for side in [one, other] {
                    if self.is_stated(side) {
                        self.of_limit(side);
                    }
                }
            }
            Op::Slot(slot) => flags.push((None, *slot)),
            Op::Row(column) => flags.extend(table.map(|table| (Some(table), *column))),
            Op::Column { table, column } => flags.push((Some(*table), *column)),
            _ => {}
        });
        let plan = self.plan;
        for (table, at) in flags {
            let (typing, formula) = match table {
                None => match plan.slots.get(at).map(|slot| (&slot.typing, &slot.source)) {
                    Some((typing, SlotSource::Formula(formula))) => (typing, formula),
                    _ => continue,
                },
                Some(table) => match plan.tables.get(table).and_then(|table| table.columns.get(at)) {
                    Some(column) => match &column.source {
                        ColumnSource::Formula(formula) => (&column.typing, formula),
                        ColumnSource::Rows { .. } => continue,
                    },
                    None => continue,
                },
            };
            if typing.kind == Kind::Flag && self.flags.insert((table, at)) {
                self.of_condition(formula, table);
            }
        }
    }

    /// Whether a side of a comparison is made of inputs and written numbers only, so that it is what is asked for.
    fn is_stated(&mut self, side: &Node) -> bool {
        let (mut inputs, mut other) = (false, false);
        let mut slots = Vec::new();
        side.walk(&mut |node| match node.op {
            Op::Slot(slot) => slots.push(slot),
            Op::Row(_) | Op::Column { .. } | Op::Filled { .. } | Op::Local(_) | Op::Look(_) | Op::NotTaken => {
                other = true
            }
            _ => {}
        });
        for slot in slots {
            inputs = true;
            other = other || !self.is_stated_slot(slot);
        }
        inputs && !other
    }

    fn is_stated_slot(&mut self, slot: usize) -> bool {
        if let Some(known) = self.stated.get(&slot) {
            return *known;
        }
        let plan = self.plan;
        let stated = match plan.slots.get(slot).map(|slot| (slot.role, &slot.source)) {
            Some((role, SlotSource::Given(_))) => role == Role::Input,
            Some((_, SlotSource::Formula(formula))) => self.is_stated(formula),
            None => false,
        };
        self.stated.insert(slot, stated);
        stated
    }
}

fn slots_in(node: &Node) -> Vec<usize> {
    let mut slots = Vec::new();
    node.walk(&mut |node| {
        if let Op::Slot(slot) = node.op {
            slots.push(slot);
        }
    });
    slots
}
