//! A run made ready to be run again with other readings: only what hangs on a doubtful one is worked out anew.

use std::cell::Cell;
use std::collections::BTreeSet;
use std::sync::Arc;

use crate::engine::block::{Block, Data};
use crate::engine::doubt::Part;
use crate::engine::evaluate::{Sight, TableValues};
use crate::engine::folds::reduce;
use crate::engine::run::{FillRun, Run, formula, sight_of};
use crate::engine::{rows, site};
use crate::plan::{ColumnSource, Datum, FillBinding, FoldKind, Node, Op, Plan, SitePlan, SlotSource, Step};
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

    fn within(run: &Run, site_moves: bool, slots: &BTreeSet<usize>, columns: &BTreeSet<(usize, usize)>) -> Again {
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
    fn hangs(&self, node: &Node, of_table: Option<usize>) -> bool {
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

    fn column_hangs(&self, table: usize, column: usize) -> bool {
        self.hangs.columns.get(table).and_then(|columns| columns.get(column)).copied().unwrap_or(false)
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
