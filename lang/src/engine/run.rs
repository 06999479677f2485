//! One plan run: every step in its order, filled sheets inside.

use std::cell::Cell;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::block::Block;
use super::evaluate::{Sight, TableValues};
use super::judge::{CheckRun, judge};
use super::settings::World;
use super::{data_file, given, keys, readings, rows, shown, site, stages, text, trace};
use crate::diagnostic::{Diagnostic, names as name_codes, tables as table_codes};
use crate::limits;
use crate::outcome::Stated;
use crate::plan::{
    AnswerPlan, ColumnSource, Datum, FillBinding, Node, Plan, Said, SitePlan, SlotSource, Step, TablePlan, Wish,
};
use crate::source::Span;
use crate::units::UnitSystem;

/// How many rows of a column formula are worked out at once: small enough to stay in the nearest cache.
const PORTION: usize = 1024;

/// A plan with everything it came to.
#[derive(Debug)]
pub struct Run {
    /// The plan.
    pub plan: Arc<Plan>,
    /// What stands before its names: empty, or `name.` of the filling.
    pub prefix: String,
    /// Single values.
    pub slots: Vec<Block>,
    /// Tables.
    pub tables: Vec<TableValues>,
    /// Filled sheets.
    pub fills: Vec<FillRun>,
    /// Their values, by filling and slot.
    pub fill_values: Vec<Vec<Block>>,
    /// Checks.
    pub checks: Vec<CheckRun>,
    /// Answers to confirmations.
    pub answers: Vec<Said>,
    /// Notes as filled in.
    pub notes: Vec<Block>,
    /// Columns of charts.
    pub charts: Vec<Vec<Block>>,
    /// What was stated from outside, by slot: by `--set`, or by the sheet that fills this one.
    pub stated: BTreeMap<usize, Stated>,
    /// How what was filled in is shown, by slot and by table and column.
    pub wishes: Wishes,
    /// Values set from outside, which goes before whatever fills them.
    pub set: BTreeSet<usize>,
    /// Values that the sheet around this one fills in.
    pub filled: BTreeSet<usize>,
    /// Tables likewise.
    pub filled_tables: BTreeSet<usize>,
    /// Tables that have no rows though they may not be without.
    pub empty_tables: BTreeSet<usize>,
    /// Rows of tables that stood there twice and were taken out, counted as they were read.
    pub counted_once: BTreeMap<usize, Vec<usize>>,
    /// What a value filled in from outside waits for, by slot.
    pub outer_roots: BTreeMap<usize, Vec<String>>,
    /// The site's atmosphere.
    pub atmosphere: Block,
    /// Default units, those of the outermost sheet.
    pub system: Option<UnitSystem>,
    /// The stage around, to which belongs what stands in no stage of this sheet; empty if there is none.
    pub around: String,
}

/// A filled sheet run.
#[derive(Debug)]
pub enum FillRun {
    /// Filled once.
    One(Box<Run>),
    /// Filled for each row: the row's key and its run.
    Each(Vec<(String, Run)>),
}

/// Units that the sheet around shows what it fills in with.
#[derive(Debug, Default)]
pub struct Wishes {
    /// By slot.
    pub slots: BTreeMap<usize, Wish>,
    /// By table and column.
    pub columns: BTreeMap<(usize, usize), Wish>,
}

impl FillRun {
    /// The run, or one a row.
    pub fn runs(&self) -> Box<dyn Iterator<Item = &Run> + '_> {
        match self {
            FillRun::One(child) => Box::new(std::iter::once(&**child)),
            FillRun::Each(children) => Box::new(children.iter().map(|(_, child)| child)),
        }
    }
}

/// What a filled sheet is handed.
#[derive(Debug, Default)]
struct Handed {
    slots: BTreeMap<usize, Block>,
    tables: BTreeMap<usize, TableValues>,
    stated: BTreeMap<usize, Stated>,
    wishes: Wishes,
    roots: BTreeMap<usize, Vec<String>>,
    answers: Vec<AnswerPlan>,
    around: String,
    /// Tables whose keys are not those that their rows were read with.
    rekeyed: BTreeSet<usize>,
    /// The place of the filling.
    place: Span,
}

/// A formula for all rows of a table.
pub fn formula(sight: &Sight<'_>, node: &Node, table: usize, rows: usize) -> Block {
    let portion = if node.is_row_by_row() { PORTION } else { rows.max(1) };
    let part =
        |start: usize, length: usize| sight.with(Some((table, start, length)), Vec::new()).eval(node).spread(length);
    let mut block = part(0, rows.min(portion));
    block.reserve(rows);
    let mut start = portion;
    while start < rows {
        let length = portion.min(rows - start);
        block.append(part(start, length));
        start += length;
    }
    block
}

/// Runs the outermost plan.
pub fn run(plan: &Arc<Plan>, world: &World<'_>) -> Run {
    let atmosphere = site_atmosphere(plan, world);
    run_plan(plan, String::new(), Handed::default(), (&atmosphere, plan.system), world)
}

fn site_atmosphere(plan: &Arc<Plan>, world: &World<'_>) -> Block {
    let (slot, altitude) = match plan.site {
        SitePlan::Unstated => return Block::number(site::SEA_LEVEL),
        SitePlan::Altitude(slot) => (slot, true),
        SitePlan::Atmosphere(slot) => (slot, false),
    };
    let Some(slot_plan) = plan.slots.get(slot) else { return Block::number(site::SEA_LEVEL) };
    // The site is given by literals, so nothing needs to be known before it.
    let pending = Block::pending(1);
    let sight = sight_of(plan, &[], &[], &[], (&pending, plan.system), &world.work);
    let value = given::value(&sight, slot_plan, &slot_plan.name, world, None).0;
    if altitude { site::standard_atmosphere(value, slot_plan.span) } else { value }
}

/// What formulas of a plan can see.
pub fn sight_of<'a>(
    plan: &'a Plan,
    slots: &'a [Block],
    tables: &'a [TableValues],
    fills: &'a [Vec<Block>],
    (atmosphere, system): (&'a Block, Option<UnitSystem>),
    work: &'a Cell<u64>,
) -> Sight<'a> {
    Sight { plan, slots, tables, fills, system, atmosphere, work, window: None, locals: Vec::new() }
}

fn run_plan(
    plan: &Arc<Plan>,
    prefix: String,
    mut handed: Handed,
    (atmosphere, system): (&Block, Option<UnitSystem>),
    world: &World<'_>,
) -> Run {
    let mut run = Run {
        plan: plan.clone(),
        prefix,
        slots: plan.slots.iter().map(|_| Block::pending(1)).collect(),
        tables: plan.tables.iter().map(|_| TableValues { rows: 0, pending: true, columns: Vec::new() }).collect(),
        fills: Vec::new(),
        fill_values: Vec::new(),
        checks: Vec::new(),
        answers: Vec::new(),
        notes: Vec::new(),
        charts: Vec::new(),
        stated: std::mem::take(&mut handed.stated),
        wishes: std::mem::take(&mut handed.wishes),
        set: BTreeSet::new(),
        filled: handed.slots.keys().copied().collect(),
        filled_tables: handed.tables.keys().copied().collect(),
        empty_tables: BTreeSet::new(),
        counted_once: BTreeMap::new(),
        outer_roots: std::mem::take(&mut handed.roots),
        atmosphere: atmosphere.clone(),
        system,
        around: std::mem::take(&mut handed.around),
    };
    for step in &plan.steps {
        run.step(*step, &mut handed, world);
    }
    run
}

/// What a sheet has in the place of a table that was set from outside.
fn in_the_sheet(table: &TablePlan, filled: bool) -> Option<String> {
    match (&table.from, table.rows.len()) {
        _ if filled => Some("what fills it".to_string()),
        (Some((path, ..)), _) => Some(path.clone()),
        (None, 0) => None,
        (None, rows) => Some(format!("{} in the sheet", crate::diagnostic::counted(rows, "row"))),
    }
}

impl Run {
    /// What formulas of this plan can see now.
    pub fn sight<'a>(&'a self, work: &'a Cell<u64>) -> Sight<'a> {
        sight_of(&self.plan, &self.slots, &self.tables, &self.fill_values, (&self.atmosphere, self.system), work)
    }

    /// The formula of a single value as written; empty where something else was given.
    pub fn written(&self, slot: usize) -> &str {
        let given = self.set.contains(&slot) || self.filled.contains(&slot);
        self.plan.slots.get(slot).filter(|_| !given).map_or("", |slot| slot.formula.as_str())
    }

    fn step(&mut self, step: Step, handed: &mut Handed, world: &World<'_>) {
        let plan = self.plan.clone();
        match step {
            Step::Rows(table) => self.rows(table, handed, world),
            Step::Slot(slot) => {
                let Some(slot_plan) = plan.slots.get(slot) else { return };
                let value = match &slot_plan.source {
                    SlotSource::Formula(node) => self.sight(&world.work).eval(node).row(0),
                    SlotSource::Given(_) => {
                        let name = format!("{}{}", self.prefix, slot_plan.name);
                        let sight = self.sight(&world.work);
                        let (value, stated) = given::value(&sight, slot_plan, &name, world, handed.slots.remove(&slot));
                        if let Some(stated) = stated {
                            self.stated.insert(slot, stated);
                            self.set.insert(slot);
                        }
                        value
                    }
                };
                let value = if slot_plan.typing.datum == Datum::Gauge {
                    rows::check_gauge(value, &self.atmosphere, slot_plan.span)
                } else {
                    value
                };
                self.slots[slot] = world.keep(value, slot_plan.span);
            }
            Step::Column(table, column) => self.column(table, column, world),
            Step::Fill(fill) => self.fill(fill, &handed.answers, world),
            Step::Check(check) => {
                if let Some(check) = plan.checks.get(check) {
                    let outcome = judge(self, check, world);
                    self.checks.push(outcome);
                }
            }
            Step::Confirm(at) => {
                if let Some(confirm) = plan.confirmations.get(at) {
                    let name = format!("{}{}", self.prefix, confirm.label);
                    let outer = handed.answers.iter().find(|one| one.way.is_empty() && one.confirm == at);
                    let said = outer.map_or(&confirm.said, |outer| &outer.said);
                    // What is set from outside was said neither at that time nor by that person.
                    self.answers.push(match world.answer(&name, said.answer) {
                        Some(answer) => Said { answer: Some(answer), ..Said::default() },
                        None => said.clone(),
                    });
                }
            }
            Step::Note(note) => {
                if let Some(note) = plan.notes.get(note) {
                    let filled = text::fill(&self.sight(&world.work), &note.template, Span::default());
                    self.notes.push(filled);
                }
            }
            Step::Chart(chart) => {
                if let Some(chart) = plan.charts.get(chart) {
                    let count = self.tables.get(chart.table).map_or(0, |table| table.rows);
                    let sight = self.sight(&world.work);
                    let columns = chart.columns.iter().map(|(_, node, _)| sight.eval(node).spread(count)).collect();
                    self.charts.push(columns);
                }
            }
        }
    }

    fn rows(&mut self, table: usize, handed: &mut Handed, world: &World<'_>) {
        let plan = self.plan.clone();
        let Some(table_plan) = plan.tables.get(table) else { return };
        let name = format!("{}{}", self.prefix, table_plan.name);
        let filled = handed.tables.remove(&table);
        let instead = || in_the_sheet(table_plan, filled.is_some());
        let from_outside = if table_plan.used { None } else { world.table_setting(&name, instead) };
        let mut diagnostics = Vec::new();
        let mut read = |from: &str, path: &str, span: Span| {
            let (values, file) =
                data_file::rows(world.host, world.library, from, path, span, table_plan, &mut diagnostics);
            world.has_read(name.clone(), file);
            values
        };
        // What is set goes before what fills the table, as it does for a single value. What fills a table was held
        // against its own first column where it was read.
        let (mut values, held, place) = if let Some((path, span)) = from_outside {
            self.filled_tables.remove(&table);
            (read("", &path, span), true, Some(span))
        } else if let Some(values) = filled {
            (values, handed.rekeyed.contains(&table), Some(handed.place))
        } else if let Some((path, span, from)) = &table_plan.from {
            (read(from, path, *span), true, Some(*span))
        } else {
            let mut read = rows::from_sheet(&self.sight(&world.work), table_plan);
            // That no row stands there is an answer of the sheet itself; a form is still to be given its rows.
            read.pending &= !(table_plan.traits.may_be_empty && self.prefix.is_empty());
            (read, true, None)
        };
        let unread = !diagnostics.is_empty();
        world.diagnostics.borrow_mut().append(&mut diagnostics);
        if values.rows == 0 && !table_plan.traits.may_be_empty && !unread {
            values.pending = true;
            self.empty_tables.insert(table);
        }
        if held {
            self.hold_keys(table, &name, place, &mut values, world);
        }
        for (column, block) in table_plan.columns.iter().zip(&mut values.columns) {
            let given = std::mem::replace(block, Block::pending(0));
            *block = world.keep(given, column.span);
        }
        self.doubt_rows(table_plan, &name, &mut values, world);
        for (column, block) in table_plan.columns.iter().zip(&mut values.columns) {
            if column.typing.datum == Datum::Gauge {
                let checked = std::mem::replace(block, Block::pending(0));
                *block = rows::check_gauge(checked, &self.atmosphere, column.span);
            }
        }
        values.columns.resize_with(table_plan.columns.len(), || Block::pending(values.rows));
        self.tables[table] = values;
    }

    fn hold_keys(&mut self, table: usize, name: &str, from: Option<Span>, values: &mut TableValues, world: &World<'_>) {
        let plan = self.plan.clone();
        let Some((plan, first)) = plan.tables.get(table).zip(values.columns.first().cloned()) else { return };
        let site = self.atmosphere.number_at(0);
        let shown = |row: usize| {
            let typing = plan.columns.first().map(|column| &column.typing);
            let shown = typing.and_then(|typing| shown::value(&first, row, typing, self.system, site));
            shown.map_or_else(|| format!("{}", row + 1), |shown| shown.text)
        };
        let twice = keys::hold(&keys::Read { table: plan, name, from, shown: &shown }, values, world);
        if !twice.is_empty() {
            self.counted_once.insert(table, twice);
        }
    }

    /// Gives measured columns their doubt; one that was filled in keeps what it has.
    fn doubt_rows(&self, table: &TablePlan, name: &str, values: &mut TableValues, world: &World<'_>) {
        let site = self.atmosphere.number_at(0);
        for at in 0..values.columns.len() {
            let Some(column) = table.columns.get(at) else { break };
            let by = column.by.and_then(|by| self.plan.instruments.get(by));
            if (column.spread.is_none() && by.is_none()) || values.columns[at].states.doubt().is_some() {
                continue;
            }
            let block = std::mem::replace(&mut values.columns[at], Block::pending(0));
            let (first, typing) = match at {
                0 => (block.clone(), &column.typing),
                _ => (values.columns[0].clone(), &table.columns[0].typing),
            };
            let full = format!("{name}.{}", column.name);
            let key = |row| {
                shown::value(&first, row, typing, self.system, site)
                    .map_or_else(|| format!("{}", row + 1), |shown| shown.text)
            };
            let stated = readings::Stated {
                name: &full,
                typing: &column.typing,
                system: self.system,
                spread: column.spread.as_ref(),
                by,
            };
            values.columns[at] = world.keep_doubt(readings::column(world, stated, block, key));
        }
    }

    fn column(&mut self, table: usize, column: usize, world: &World<'_>) {
        let plan = self.plan.clone();
        let Some(column_plan) = plan.tables.get(table).and_then(|table| table.columns.get(column)) else { return };
        let ColumnSource::Formula(node) = &column_plan.source else { return };
        let Some(values) = self.tables.get(table) else { return };
        if values.pending {
            return;
        }
        let rows = values.rows;
        let mut block = self.formula(node, table, rows, world);
        if column_plan.typing.datum == Datum::Gauge {
            block = rows::check_gauge(block, &self.atmosphere, column_plan.span);
        }
        self.tables[table].columns[column] = world.keep(block, column_plan.span);
    }

    /// A formula for all rows of a table.
    pub fn formula(&self, node: &Node, table: usize, rows: usize, world: &World<'_>) -> Block {
        formula(&self.sight(&world.work), node, table, rows)
    }

    fn fill(&mut self, fill: usize, answers: &[AnswerPlan], world: &World<'_>) {
        let plan = self.plan.clone();
        let Some(fill_plan) = plan.fills.get(fill) else { return };
        let rows = match fill_plan.each {
            None => None,
            Some(table) => match self.tables.get(table) {
                Some(values) if !values.pending => Some((table, values.rows)),
                _ => Some((table, 0)),
            },
        };
        if let Some((_, rows)) = rows
            && rows.saturating_mul(fill_plan.plan.size.max(1)) > limits::FILLED_CELLS
        {
            world.report(Diagnostic::error(
                &name_codes::TOO_MANY_CELLS,
                format!("{rows} fillings make more than {} values", limits::FILLED_CELLS),
                fill_plan.span,
                "",
            ));
        }
        let (run, values) = match rows {
            None => {
                let handed = self.handed(fill, None, answers, world);
                let prefix = format!("{}{}.", self.prefix, fill_plan.name);
                let child = run_plan(&fill_plan.plan, prefix, handed, (&self.atmosphere, self.system), world);
                let values = child.slots.clone();
                (FillRun::One(Box::new(child)), values)
            }
            Some((table, rows)) => {
                let keys = self.keys(table);
                self.report_double_keys(&keys, fill_plan.span, world);
                let mut children = Vec::new();
                let allowed = rows.min(limits::FILLED_CELLS / fill_plan.plan.size.max(1));
                for row in 0..allowed {
                    let handed = self.handed(fill, Some((table, row)), answers, world);
                    let key = keys.get(row).cloned().unwrap_or_default();
                    let prefix = format!("{}{}[\"{key}\"].", self.prefix, fill_plan.name);
                    let child = run_plan(&fill_plan.plan, prefix, handed, (&self.atmosphere, self.system), world);
                    children.push((key, child));
                }
                let values = (0..fill_plan.plan.slots.len())
                    .map(|slot| Block::gather(children.iter().map(|(_, child)| child.slots[slot].clone()).collect()))
                    .collect();
                (FillRun::Each(children), values)
            }
        };
        self.fills.push(run);
        self.fill_values.push(values);
    }

    fn report_double_keys(&self, keys: &[String], span: Span, world: &World<'_>) {
        let mut seen = BTreeSet::new();
        if let Some(double) = keys.iter().find(|key| !seen.insert(key.as_str())) {
            world.report(
                Diagnostic::error(
                    &table_codes::DOUBLE_KEY,
                    format!("two rows have the key \"{double}\", so their fillings would have one name"),
                    span,
                    "",
                )
                .with_mend("give each row a key of its own"),
            );
        }
    }

    /// What one filling is handed.
    fn handed(&self, fill: usize, row: Option<(usize, usize)>, answers: &[AnswerPlan], world: &World<'_>) -> Handed {
        let mut handed = Handed::default();
        let Some(fill_plan) = self.plan.fills.get(fill) else { return handed };
        handed.place = fill_plan.span;
        handed.answers = answers.iter().chain(&self.plan.answers).filter_map(|one| one.inside(fill)).collect();
        handed.around = match fill_plan.stage {
            Some(stage) => stages::stage_name(self, Some(stage)),
            None => self.around.clone(),
        };
        for binding in &fill_plan.bindings {
            match binding {
                FillBinding::Value { slot, node, same_as, wish, .. } => {
                    handed.wishes.slots.extend(wish.clone().map(|wish| (*slot, wish)));
                    let window = row.map(|(table, row)| (table, row, 1));
                    let value = self.sight(&world.work).with(window, Vec::new()).eval(node).row(0);
                    if value.mark(0) == super::block::Mark::Pending {
                        handed.roots.insert(*slot, trace::roots(self, node, row, world));
                    }
                    if let Some(own) = same_as {
                        let stated =
                            self.stated.get(own).or_else(|| self.plan.slots.get(*own).map(|slot| &slot.stated));
                        handed.stated.extend(stated.map(|stated| (*slot, stated.clone())));
                    }
                    handed.slots.insert(*slot, value);
                }
                FillBinding::Table { table, with, columns, data, wishes } => {
                    let wished = wishes.iter().enumerate().filter_map(|(at, wish)| Some(((*table, at), wish.clone()?)));
                    handed.wishes.columns.extend(wished);
                    if let Some(values) = self.tables.get(*with) {
                        let values = rows::handed(values, columns, data, &self.atmosphere, fill_plan.span);
                        handed.tables.insert(*table, values);
                        let outer_repeats = self.plan.tables.get(*with).is_some_and(|with| with.traits.keys_repeat);
                        if outer_repeats || columns.first() != Some(&Some(0)) {
                            handed.rekeyed.insert(*table);
                        }
                    }
                }
            }
        }
        handed
    }

    /// Runs of all sheets filled in this one, in order.
    pub fn children(&self) -> impl Iterator<Item = &Run> {
        self.fills.iter().flat_map(FillRun::runs)
    }

    /// The keys of a table's rows, as names show them.
    pub fn keys(&self, table: usize) -> Vec<String> {
        let Some(values) = self.tables.get(table) else { return Vec::new() };
        (0..values.rows).map(|row| self.key(table, row)).collect()
    }

    /// The key of one row; its number where it has none.
    pub fn key(&self, table: usize, row: usize) -> String {
        let first = self.tables.get(table).and_then(|values| values.columns.first());
        let typing = self.plan.tables.get(table).and_then(|table| table.columns.first()).map(|column| &column.typing);
        first
            .zip(typing)
            .and_then(|(block, typing)| shown::value(block, row, typing, self.system, self.atmosphere.number_at(0)))
            .map_or_else(|| format!("{}", row + 1), |shown| shown.text)
    }
}
