//! What a pending value waits for: the inputs, readings, rows and tables not taken yet, found by walking back.

use std::collections::BTreeSet;

use super::block::Mark;
use super::run::{FillRun, Run};
use super::settings::World;
use crate::plan::{ColumnSource, Node, Op, SitePlan, SlotSource};

/// How many things to wait for are named at most.
const MOST: usize = 200;

/// Names of everything not taken that a formula waits for, each once, in the order it is met.
pub fn roots(run: &Run, node: &Node, row: Option<(usize, usize)>, world: &World<'_>) -> Vec<String> {
    let mut tracer = Tracer { run, world, found: Vec::new(), seen: BTreeSet::new(), asked: None };
    tracer.node(node, row);
    tracer.found
}

struct Tracer<'a, 'w> {
    run: &'a Run,
    world: &'a World<'w>,
    found: Vec<String>,
    seen: BTreeSet<(usize, usize, usize)>,
    /// Rows of a table that a fold asks about.
    asked: Option<(usize, Vec<bool>)>,
}

impl Tracer<'_, '_> {
    fn node(&mut self, node: &Node, row: Option<(usize, usize)>) {
        if self.found.len() >= MOST {
            return;
        }
        match &node.op {
            Op::Slot(slot) => self.slot(*slot),
            Op::Row(column) => {
                if let Some((table, row)) = row {
                    self.cell(table, *column, row);
                }
            }
            Op::Column { table, column } => {
                let Some(values) = self.run.tables.get(*table) else { return };
                if values.pending {
                    self.push(format!("{}{}", self.run.prefix, self.run.plan.tables[*table].name));
                    return;
                }
                for at in 0..values.rows {
                    let asked = match &self.asked {
                        Some((of, rows)) if of == table => rows.get(at).copied().unwrap_or(true),
                        _ => true,
                    };
                    if asked {
                        self.cell(*table, *column, at);
                    }
                }
            }
            Op::Filled { fill, slot } => match self.run.fills.get(*fill) {
                Some(FillRun::One(child)) => self.child(child, *slot),
                Some(FillRun::Each(children)) => {
                    for (_, child) in children {
                        self.child(child, *slot);
                    }
                }
                None => {}
            },
            Op::ToAbsolute(inner) | Op::ToGauge(inner) => {
                if self.run.atmosphere.mark(0) == Mark::Pending {
                    let slot = match self.run.plan.site {
                        SitePlan::Altitude(_) => "site altitude",
                        _ => "site atmosphere",
                    };
                    self.push(slot.to_string());
                }
                self.node(inner, row);
            }
            Op::If(condition, yes, no) => {
                let window = row.map(|(table, row)| (table, row, 1));
                let known = self.run.sight(&self.world.work).with(window, Vec::new()).eval(condition).flag_at(0);
                match known {
                    Some(true) => self.node(yes, row),
                    Some(false) => self.node(no, row),
                    None => self.node(condition, row),
                }
            }
            Op::Fold(fold) => {
                let Some(values) = self.run.tables.get(fold.table) else { return };
                let rows = values.rows;
                let window = row.map(|(table, row)| (table, row, 1));
                let before = self.asked.take();
                if let Some(filter) = &fold.filter {
                    let block = self.run.sight(&self.world.work).with(window, Vec::new()).eval(filter).spread(rows);
                    self.node(filter, row);
                    let asked = (0..rows).map(|at| block.flag_at(at) != Some(false)).collect();
                    self.asked = Some((fold.table, asked));
                }
                self.node(&fold.over, row);
                if let Some(weight) = &fold.weight {
                    self.node(weight, row);
                }
                self.asked = before;
            }
            Op::Look(look) => {
                let window = row.map(|(table, row)| (table, row, 1));
                let key = self.run.sight(&self.world.work).with(window, Vec::new()).eval(&look.key);
                let wanted = key.text_at(0).map(|text| text.to_string());
                let rows = self.run.tables.get(look.table).map_or(0, |values| values.rows);
                let before = self.asked.take();
                if let Some(wanted) = wanted {
                    let asked = (0..rows).map(|at| self.run.key(look.table, at) == wanted).collect();
                    self.asked = Some((look.table, asked));
                }
                self.node(&look.key, row);
                self.node(&look.column, row);
                self.asked = before;
            }
            Op::Taken(_) => {}
            Op::Call(call) => {
                // Rows not taken yet reach a function as gaps where it lets them through: then it does not wait for them.
                let has_rows = call.table.and_then(|at| self.run.tables.get(at)).is_some_and(|table| !table.pending);
                for (parameter, given) in call.function.parameters.iter().zip(&call.arguments) {
                    if !(parameter.gaps && has_rows) {
                        given.parts(&mut |part| self.node(part, row));
                    }
                }
            }
            _ => {
                let mut parts = Vec::new();
                node.parts(&mut |part| parts.push(part.clone()));
                for part in parts {
                    self.node(&part, row);
                }
            }
        }
    }

    fn slot(&mut self, slot: usize) {
        let run = self.run;
        if run.slots.get(slot).is_none_or(|block| block.mark(0) != Mark::Pending)
            || !self.seen.insert((usize::MAX, slot, 0))
        {
            return;
        }
        let Some(plan) = run.plan.slots.get(slot) else { return };
        match (&plan.source, run.outer_roots.get(&slot)) {
            (SlotSource::Given(_), Some(roots)) if !roots.is_empty() => {
                for root in roots {
                    self.push(root.clone());
                }
            }
            (SlotSource::Given(given), _) => {
                let from_values = given.values.clone();
                if from_values.is_empty() {
                    self.push(format!("{}{}", run.prefix, plan.name));
                }
                for node in &from_values {
                    self.node(node, None);
                }
            }
            (SlotSource::Formula(node), _) => self.node(node, None),
        }
    }

    fn cell(&mut self, table: usize, column: usize, row: usize) {
        let run = self.run;
        let Some(values) = run.tables.get(table) else { return };
        let pending = values.columns.get(column).is_some_and(|block| block.mark(row) == Mark::Pending);
        if !pending || !self.seen.insert((table, column, row)) {
            return;
        }
        let Some(plan) = run.plan.tables.get(table).and_then(|table| table.columns.get(column)) else { return };
        match &plan.source {
            ColumnSource::Rows { .. } => {
                let name =
                    format!("{}{}[\"{}\"].{}", run.prefix, run.plan.tables[table].name, run.key(table, row), plan.name);
                self.push(name);
            }
            ColumnSource::Formula(node) => self.node(node, Some((table, row))),
        }
    }

    fn child(&mut self, child: &Run, slot: usize) {
        let mut inner = Tracer { run: child, world: self.world, found: Vec::new(), seen: BTreeSet::new(), asked: None };
        inner.slot(slot);
        for root in inner.found {
            self.push(root);
        }
    }

    fn push(&mut self, name: String) {
        if !self.found.contains(&name) {
            self.found.push(name);
        }
    }
}
