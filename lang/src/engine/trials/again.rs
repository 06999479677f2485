//! A run made ready to be run again with other readings: only what hangs on a doubtful one is worked out anew.

mod ready;

use std::cell::Cell;
use std::collections::BTreeSet;
use std::sync::Arc;

use crate::engine::block::{Block, Data};
use crate::engine::doubt::Part;
use crate::engine::evaluate::{Sight, TableValues};
use crate::engine::folds::reduce;
use crate::engine::run::{FillRun, Run, formula, sight_of};
use crate::engine::{rows, site};
use crate::plan::{ColumnSource, Datum, FillBinding, FoldKind, Node, Plan, SitePlan, SlotSource, Step};
use crate::units::UnitSystem;

/// A run that can be run again.
#[derive(Clone)]
pub struct Again {
    plan: Arc<Plan>,
    slots: Vec<Block>,
    tables: Vec<TableValues>,
    fill_values: Vec<Vec<Block>>,
    fills: Vec<AgainFill>,
    atmosphere: Block,
    system: Option<UnitSystem>,
    /// The atmosphere is in doubt.
    site_moves: bool,
    steps: Vec<Step>,
    /// Checks that hang on doubtful values.
    checks: Vec<usize>,
    /// Values set from outside: nothing fills them.
    set: BTreeSet<usize>,
    /// Given values that move by themselves: slot, value, contributions.
    moved_slots: Vec<(usize, f64, Vec<Part>)>,
    /// Given columns likewise: table, column, values, contributions.
    moved_columns: Vec<(usize, usize, Block)>,
    hangs: Hangs,
}

/// A filled sheet that can be run again.
#[derive(Clone)]
struct AgainFill {
    children: Vec<Again>,
    each: bool,
}

/// What hangs on doubtful values.
#[derive(Clone, Default)]
struct Hangs {
    slots: Vec<bool>,
    columns: Vec<Vec<bool>>,
    fills: Vec<Vec<bool>>,
    atmosphere: bool,
}

/// Filling and row, from the outermost run on: the way down to a filled sheet.
pub type Way = Vec<(usize, usize)>;

/// A value to be watched: the runs to go down to it, and which it is there.
#[derive(Debug, Clone)]
pub struct Watched {
    /// The way to its run.
    pub way: Way,
    /// The slot, or the column and row.
    pub place: Place,
    /// The field of a record.
    pub field: Option<usize>,
}

/// What a check, or a row of one, comes to in a trial.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Judgement {
    /// It holds, or does not.
    Decided(bool),
    /// This row is not asked about.
    NotAsked,
    /// It is broken, or waits.
    Open,
}

/// Where a value stands in its run.
#[derive(Debug, Clone, Copy)]
pub enum Place {
    /// A single value.
    Slot(usize),
    /// One row of a column.
    Cell {
        /// Table.
        table: usize,
        /// Column.
        column: usize,
        /// Row.
        row: usize,
    },
}

impl Again {
    /// Makes a run ready. `site_moves` and `handed` say what comes in doubt from the sheet around it.
    pub fn of(run: &Run) -> Again {
        Again::within(run, run.atmosphere.states.doubt().is_some(), &BTreeSet::new(), &BTreeSet::new())
    }

    fn sight<'a>(&'a self, work: &'a Cell<u64>) -> Sight<'a> {
        sight_of(&self.plan, &self.slots, &self.tables, &self.fill_values, (&self.atmosphere, self.system), work)
    }

    /// Runs again with these draws, one for each cause.
    pub fn run(&mut self, draws: &[f64]) {
        let work = Cell::new(0);
        self.move_given(draws);
        if self.site_moves {
            self.atmosphere = match self.plan.site {
                SitePlan::Altitude(slot) => {
                    site::standard_atmosphere(self.slots[slot].clone(), self.plan.slots[slot].span)
                }
                SitePlan::Atmosphere(slot) => self.slots[slot].clone(),
                SitePlan::Unstated => self.atmosphere.clone(),
            };
        }
        self.steps(draws, &work);
    }

    fn move_given(&mut self, draws: &[f64]) {
        let moved = |parts: &[Part]| -> f64 {
            parts.iter().filter_map(|&(cause, part)| Some(part * draws.get(cause as usize)?)).sum()
        };
        for (slot, value, parts) in &self.moved_slots {
            self.slots[*slot] = Block::number(value + moved(parts));
        }
        for (table, column, base) in &self.moved_columns {
            let block = &mut self.tables[*table].columns[*column];
            if let (Data::Numbers(values), Data::Numbers(given)) = (&mut block.data, &base.data) {
                for (at, (value, given)) in values.iter_mut().zip(given).enumerate() {
                    *value = given + moved(base.states.doubt_at(at));
                }
            }
        }
    }

    fn steps(&mut self, draws: &[f64], work: &Cell<u64>) {
        let plan = self.plan.clone();
        for at in 0..self.steps.len() {
            match self.steps[at] {
                Step::Slot(slot) => {
                    let slot_plan = &plan.slots[slot];
                    let value = match &slot_plan.source {
                        SlotSource::Formula(node) => self.sight(work).eval(node).row(0),
                        SlotSource::Given(given) => self.given_by_formula(slot, &given.values, draws, work),
                    };
                    self.slots[slot] = match slot_plan.typing.datum {
                        Datum::Gauge => rows::check_gauge(value, &self.atmosphere, slot_plan.span),
                        Datum::Absolute => value,
                    };
                }
                Step::Column(table, column) => {
                    let column_plan = &plan.tables[table].columns[column];
                    let ColumnSource::Formula(node) = &column_plan.source else { continue };
                    if self.tables[table].pending {
                        continue;
                    }
                    let block = formula(&self.sight(work), node, table, self.tables[table].rows);
                    self.tables[table].columns[column] = match column_plan.typing.datum {
                        Datum::Gauge => rows::check_gauge(block, &self.atmosphere, column_plan.span),
                        Datum::Absolute => block,
                    };
                }
                Step::Fill(fill) => self.fill(fill, draws, work),
                _ => {}
            }
        }
    }

    /// An input that the sheet computes from doubtful values, moved by its own doubt too.
    fn given_by_formula(&self, slot: usize, nodes: &[Node], draws: &[f64], work: &Cell<u64>) -> Block {
        let blocks: Vec<Block> = nodes.iter().map(|node| self.sight(work).eval(node)).collect();
        let numbers: Vec<f64> = blocks.iter().filter_map(|block| block.number_at(0)).collect();
        if numbers.len() < blocks.len() || blocks.is_empty() {
            return blocks.into_iter().next().unwrap_or_else(|| Block::pending(1));
        }
        let mean = reduce(FoldKind::Mean, &numbers, self.plan.slots[slot].span);
        let own = self.moved_slots.iter().find(|(one, ..)| *one == slot);
        match (own, mean.number_at(0)) {
            (Some((_, _, parts)), Some(value)) => {
                let moved = parts.iter().filter_map(|&(cause, part)| Some(part * draws.get(cause as usize)?));
                Block::number(value + moved.sum::<f64>())
            }
            _ => mean,
        }
    }

    fn fill(&mut self, fill: usize, draws: &[f64], work: &Cell<u64>) {
        let plan = self.plan.clone();
        let fill_plan = &plan.fills[fill];
        let mut children = std::mem::take(&mut self.fills[fill].children);
        for (row, child) in children.iter_mut().enumerate() {
            child.atmosphere = self.atmosphere.clone();
            child.move_given(draws);
            for binding in &fill_plan.bindings {
                match binding {
                    FillBinding::Value { slot, node, .. }
                        if !child.set.contains(slot) && self.hangs(node, fill_plan.each) =>
                    {
                        let window = fill_plan.each.map(|table| (table, row, 1));
                        child.slots[*slot] = self.sight(work).with(window, Vec::new()).eval(node).row(0);
                    }
                    FillBinding::Value { .. } => {}
                    FillBinding::Table { table, with, columns, data, .. } => {
                        if columns.iter().flatten().any(|column| self.column_hangs(*with, *column)) {
                            let from = &self.tables[*with];
                            let handed = rows::handed(from, columns, data, &self.atmosphere, fill_plan.span);
                            for (at, block) in handed.columns.into_iter().enumerate() {
                                if child.column_hangs(*table, at) {
                                    child.tables[*table].columns[at] = block;
                                }
                            }
                        }
                    }
                }
            }
            child.steps(draws, work);
        }
        for slot in 0..fill_plan.plan.slots.len() {
            if !self.hangs.fills[fill][slot] {
                continue;
            }
            self.fill_values[fill][slot] = match children.as_slice() {
                [one] if !self.fills[fill].each => one.slots[slot].clone(),
                all => Block::gather(all.iter().map(|child| child.slots[slot].clone()).collect()),
            };
        }
        self.fills[fill].children = children;
    }

    /// The values that hang on doubtful ones, each with the run it stands in: single values, or rows of columns.
    pub fn watched<'r>(&self, run: &'r Run, cells: bool) -> Vec<(Watched, &'r Run)> {
        let mut found = Vec::new();
        self.each_run(run, &mut Way::new(), &mut |again, run, way| again.watch(run, cells, way, &mut found));
        found
    }

    /// The checks that hang on doubtful values: the way to their run, their number there, and that run.
    pub fn watched_checks<'r>(&self, run: &'r Run) -> Vec<(Way, usize, &'r Run)> {
        let mut found = Vec::new();
        self.each_run(run, &mut Way::new(), &mut |again, run, way| {
            found.extend(again.checks.iter().map(|&check| (way.clone(), check, run)));
        });
        found
    }

    /// This run and all filled in it, in order.
    fn each_run<'r>(&self, run: &'r Run, way: &mut Way, visit: &mut dyn FnMut(&Again, &'r Run, &Way)) {
        visit(self, run, way);
        for (fill, again) in self.fills.iter().enumerate() {
            let runs = run.fills.get(fill).into_iter().flat_map(FillRun::runs);
            for (row, (child, run)) in again.children.iter().zip(runs).enumerate() {
                way.push((fill, row));
                child.each_run(run, way, visit);
                way.pop();
            }
        }
    }

    fn watch<'r>(&self, run: &'r Run, cells: bool, way: &Way, found: &mut Vec<(Watched, &'r Run)>) {
        let mut add = |place: Place, block: &Block, at: usize| {
            let known = |block: &Block| block.number_at(at).is_some();
            match &block.data {
                Data::Record(fields) => {
                    for (field, block) in fields.iter().enumerate().filter(|(_, field)| known(field)) {
                        if matches!(block.data, Data::Numbers(_)) && block.states.doubt().is_some() {
                            found.push((Watched { way: way.clone(), place, field: Some(field) }, run));
                        }
                    }
                }
                _ if known(block) => found.push((Watched { way: way.clone(), place, field: None }, run)),
                _ => {}
            }
        };
        if cells {
            for (table, columns) in self.hangs.columns.iter().enumerate() {
                for column in columns.iter().enumerate().filter(|(_, hangs)| **hangs).map(|(column, _)| column) {
                    let computed = matches!(self.plan.tables[table].columns[column].source, ColumnSource::Formula(_));
                    let Some(block) = run.tables[table].columns.get(column).filter(|_| computed) else { continue };
                    (0..block.len()).for_each(|row| add(Place::Cell { table, column, row }, block, row));
                }
            }
        } else {
            // Readings are drawn, not computed: there is nothing to compare.
            let computed = |slot: &usize| self.steps.contains(&Step::Slot(*slot));
            for slot in (0..self.slots.len()).filter(computed) {
                add(Place::Slot(slot), &run.slots[slot], 0);
            }
        }
    }

    /// The run that a way leads to.
    fn at(&self, way: &Way) -> Option<&Again> {
        way.iter().try_fold(self, |again, &(fill, row)| again.fills.get(fill)?.children.get(row))
    }

    /// What a check comes to now, row by row.
    pub fn judge(&self, way: &Way, check: usize, work: &Cell<u64>) -> Vec<Judgement> {
        let Some(again) = self.at(way) else { return Vec::new() };
        let plan = &again.plan.checks[check];
        let sight = again.sight(work);
        let rows = plan.each.map_or(1, |table| again.tables[table].rows);
        let value = |node: &Node| match plan.each {
            None => sight.eval(node),
            Some(table) => formula(&sight, node, table, rows),
        };
        let (condition, asked) = (value(&plan.condition), plan.asked.as_ref().map(value));
        let flag = |block: &Block, row: usize| block.is_known(row).then(|| block.flag_at(row)).flatten();
        let one = |row: usize| match asked.as_ref().map_or(Some(true), |asked| flag(asked, row)) {
            Some(false) => Judgement::NotAsked,
            Some(true) => flag(&condition, row).map_or(Judgement::Open, Judgement::Decided),
            None => Judgement::Open,
        };
        (0..rows).map(one).collect()
    }

    /// A watched value now, as held; not a number while it is broken.
    pub fn value(&self, watched: &Watched) -> f64 {
        let Some(again) = self.at(&watched.way) else { return f64::NAN };
        let (block, at) = match watched.place {
            Place::Slot(slot) => (&again.slots[slot], 0),
            Place::Cell { table, column, row } => (&again.tables[table].columns[column], row),
        };
        let number = match (watched.field, &block.data) {
            (Some(field), Data::Record(fields)) if block.is_known(at) => {
                fields.get(field).and_then(|field| field.number_at(at))
            }
            (Some(_), _) => None,
            (None, _) => block.number_at(at),
        };
        number.unwrap_or(f64::NAN)
    }

    /// The site's atmosphere now.
    pub fn atmosphere(&self) -> f64 {
        self.atmosphere.number_at(0).unwrap_or(f64::NAN)
    }
}
