//! What of a run hangs on doubtful values, and in which order it is worked out again.

use std::cell::Cell;
use std::collections::BTreeSet;

use super::{Again, AgainFill, Hangs};
use crate::engine::block::{Block, Data};
use crate::engine::doubt::Part;
use crate::engine::evaluate::TableValues;
use crate::engine::run::{FillRun, Run};
use crate::plan::{ColumnSource, FillBinding, Node, Op, SlotSource, Step};

impl Again {
    pub(super) fn within(
        run: &Run,
        site_moves: bool,
        slots: &BTreeSet<usize>,
        columns: &BTreeSet<(usize, usize)>,
    ) -> Again {
        let plan = &run.plan;
        let mut again = Again {
            plan: plan.clone(),
            slots: run.slots.iter().map(exact).collect(),
            tables: run.tables.iter().map(exact_table).collect(),
            fill_values: run.fill_values.iter().map(|values| values.iter().map(exact).collect()).collect(),
            fills: Vec::new(),
            atmosphere: exact(&run.atmosphere),
            system: run.system,
            site_moves,
            steps: Vec::new(),
            checks: Vec::new(),
            set: run.set.clone(),
            moved_slots: Vec::new(),
            moved_columns: Vec::new(),
            hangs: Hangs {
                slots: vec![false; plan.slots.len()],
                columns: plan.tables.iter().map(|table| vec![false; table.columns.len()]).collect(),
                fills: Vec::new(),
                atmosphere: site_moves,
            },
        };
        for step in &plan.steps {
            again.ready(run, step, slots, columns);
        }
        again
    }

    fn ready(&mut self, run: &Run, step: &Step, handed: &BTreeSet<usize>, handed_columns: &BTreeSet<(usize, usize)>) {
        let plan = self.plan.clone();
        match *step {
            Step::Slot(slot) => {
                let hangs = match &plan.slots[slot].source {
                    SlotSource::Formula(node) => self.hangs(node, None),
                    SlotSource::Given(given) => {
                        let is_set = run.set.contains(&slot);
                        if handed.contains(&slot) && !is_set {
                            self.hangs.slots[slot] = true;
                            return;
                        }
                        let values = if is_set || run.filled.contains(&slot) { &[] } else { given.values.as_slice() };
                        let by_formula = values.iter().any(|node| self.hangs(node, None));
                        let work = Cell::new(0);
                        let of_formula: BTreeSet<u32> = values
                            .iter()
                            .filter(|_| by_formula)
                            .flat_map(|node| run.sight(&work).eval(node).states.doubt_at(0).to_vec())
                            .map(|(cause, _)| cause)
                            .collect();
                        let own = run.slots[slot].states.doubt_at(0).iter().copied();
                        let own: Vec<Part> = own.filter(|(cause, _)| !of_formula.contains(cause)).collect();
                        if let (Some(value), false) = (run.slots[slot].number_at(0), own.is_empty()) {
                            self.moved_slots.push((slot, value, own));
                            self.hangs.slots[slot] = true;
                        }
                        by_formula
                    }
                };
                if hangs {
                    self.hangs.slots[slot] = true;
                    self.steps.push(*step);
                }
            }
            Step::Rows(table) => {
                for column in 0..plan.tables[table].columns.len() {
                    let block = run.tables[table].columns.get(column);
                    if handed_columns.contains(&(table, column)) {
                        self.hangs.columns[table][column] = true;
                    } else if let Some(block) = block.filter(|block| block.states.doubt().is_some())
                        && matches!(plan.tables[table].columns[column].source, ColumnSource::Rows { .. })
                    {
                        self.moved_columns.push((table, column, block.clone()));
                        self.hangs.columns[table][column] = true;
                    }
                }
            }
            Step::Column(table, column) => {
                if let ColumnSource::Formula(node) = &plan.tables[table].columns[column].source
                    && self.hangs(node, Some(table))
                {
                    self.hangs.columns[table][column] = true;
                    self.steps.push(*step);
                }
            }
            Step::Fill(fill) => self.ready_fill(run, fill, *step),
            Step::Check(check) => {
                let judged = &plan.checks[check];
                let mut parts = std::iter::once(&judged.condition).chain(&judged.asked);
                if parts.any(|node| self.hangs(node, judged.each)) {
                    self.checks.push(check);
                }
            }
            Step::Confirm(_) | Step::Note(_) | Step::Chart(_) => {}
        }
    }

    fn ready_fill(&mut self, run: &Run, fill: usize, step: Step) {
        let plan = self.plan.clone();
        let fill_plan = &plan.fills[fill];
        let (mut slots, mut columns) = (BTreeSet::new(), BTreeSet::new());
        for binding in &fill_plan.bindings {
            match binding {
                FillBinding::Value { slot, node, .. } if self.hangs(node, fill_plan.each) => {
                    slots.insert(*slot);
                }
                FillBinding::Value { .. } => {}
                FillBinding::Table { table, with, columns: from, .. } => {
                    for (at, column) in from.iter().enumerate() {
                        if column.is_some_and(|column| self.column_hangs(*with, column)) {
                            columns.insert((*table, at));
                        }
                    }
                }
            }
        }
        let child = |child: &Run| Again::within(child, self.site_moves, &slots, &columns);
        let (children, each): (Vec<Again>, bool) = match run.fills.get(fill) {
            Some(FillRun::One(one)) => (vec![child(one)], false),
            Some(FillRun::Each(all)) => (all.iter().map(|(_, one)| child(one)).collect(), true),
            None => (Vec::new(), false),
        };
        let mut hangs = vec![false; fill_plan.plan.slots.len()];
        for child in &children {
            for (slot, own) in hangs.iter_mut().zip(&child.hangs.slots) {
                *slot |= own;
            }
        }
        if children.iter().any(Again::moves) {
            self.steps.push(step);
        }
        self.hangs.fills.push(hangs);
        self.fills.push(AgainFill { children, each });
    }

    fn moves(&self) -> bool {
        self.hangs.slots.iter().any(|hangs| *hangs)
            || self.hangs.columns.iter().flatten().any(|hangs| *hangs)
            || !self.checks.is_empty()
            || self.fills.iter().any(|fill| fill.children.iter().any(Again::moves))
    }

    /// Whether a formula hangs on anything doubtful.
    pub(super) fn hangs(&self, node: &Node, of_table: Option<usize>) -> bool {
        let mut hangs = false;
        node.walk(&mut |node| {
            hangs |= match &node.op {
                Op::Slot(slot) => self.hangs.slots.get(*slot).copied().unwrap_or(false),
                Op::Row(column) => of_table.is_some_and(|table| self.column_hangs(table, *column)),
                Op::Column { table, column } => self.column_hangs(*table, *column),
                Op::Filled { fill, slot } => {
                    self.hangs.fills.get(*fill).and_then(|slots| slots.get(*slot)).copied().unwrap_or(false)
                }
                Op::Look(look) => self.column_hangs(look.table, 0),
                Op::ToAbsolute(_) | Op::ToGauge(_) => self.hangs.atmosphere,
                // A function may look at the site without being handed it.
                Op::Call(_) => self.hangs.atmosphere,
                Op::Routine(routine, _) => self.plan.routines.get(*routine).is_some_and(|routine| {
                    let parts = routine
                        .cells
                        .iter()
                        .chain([&routine.result])
                        .chain(routine.defaults.iter().map(|(_, node)| node));
                    parts.into_iter().any(|part| self.hangs(part, of_table))
                }),
                _ => false,
            };
        });
        hangs
    }

    pub(super) fn column_hangs(&self, table: usize, column: usize) -> bool {
        self.hangs.columns.get(table).and_then(|columns| columns.get(column)).copied().unwrap_or(false)
    }
}

/// The same values without doubt.
fn exact(block: &Block) -> Block {
    let mut block = block.clone();
    block.states = block.states.with_doubt(None);
    if let Data::Record(fields) = &mut block.data {
        fields.iter_mut().for_each(|field| *field = exact(field));
    }
    block
}

fn exact_table(table: &TableValues) -> TableValues {
    TableValues { rows: table.rows, pending: table.pending, columns: table.columns.iter().map(exact).collect() }
}
