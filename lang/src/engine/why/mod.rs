//! How a value came about: its formula, and the values it was made of, down to inputs and readings.

mod find;
mod mentions;

use std::collections::BTreeSet;

use self::mentions::{Mention, mentions};
use super::block::{Block, Mark};
use super::budget::{self, Budget};
use super::origins::Origins;
use super::run::{FillRun, Run};
use super::{rounding, shown};
use crate::diagnostic::{Diagnostic, counted};
use crate::kinds::{Kind, RecordField};
use crate::outcome::Role;
use crate::plan::{ColumnSource, FillBinding, Node, SitePlan, SlotSource, Typing};

/// Values told under one another, as many as fit a page beside their lines; what lies deeper is told when it is asked
/// for by its own name.
const DEPTH: usize = 16;
/// Rows of a whole column that are told.
const ROWS: usize = 6;

/// A value with what it was made of.
#[derive(Debug, Clone)]
pub struct Why {
    /// Its name.
    pub name: String,
    /// As shown; a word if it is not known.
    pub value: String,
    /// Its formula as written; empty for what is given.
    pub formula: String,
    /// Where it comes from: role, instrument, uncertainty, time, note.
    pub about: String,
    /// What it was made of.
    pub parts: Vec<Why>,
    /// It has been told already, further up.
    pub seen_above: bool,
    /// Of the value asked for, and of it alone: what makes up its uncertainty.
    pub budget: Option<Budget>,
}

/// Explains a value by its full name: `drift`, `riser_b.drift`, `indoor["Exam 1"].superheat`, `tube_1.bore`, or a whole
/// column `indoor.superheat`.
pub fn why(run: &Run, origins: &Origins, name: &str) -> Result<Why, Diagnostic> {
    let mut teller = Teller { origins, told: BTreeSet::new(), depth: 0 };
    let here = Place { run, above: None };
    find::find(&mut teller, &here, name.trim()).unwrap_or_else(|| Err(find::unknown(run, name.trim())))
}

/// A run, and where it was filled from.
#[derive(Clone, Copy)]
struct Place<'r> {
    run: &'r Run,
    above: Option<Above<'r>>,
}

impl<'r> Place<'r> {
    fn outermost(&self) -> Place<'r> {
        self.above.map_or(*self, |above| above.place.outermost())
    }
}

/// The filling that a run belongs to.
#[derive(Clone, Copy)]
struct Above<'r> {
    place: &'r Place<'r>,
    fill: usize,
    /// The row, if it is filled for each.
    row: Option<usize>,
}

/// Which rows a formula is told for.
#[derive(Clone, Copy)]
enum Rows {
    /// It stands outside any table.
    Outside,
    /// One row.
    One { table: usize, row: usize },
    /// All of them.
    All { table: usize },
}

/// Tells values, each in full only once.
struct Teller<'o> {
    origins: &'o Origins,
    told: BTreeSet<String>,
    depth: usize,
}

impl Teller<'_> {
    /// Tells the parts of a value unless that has been done further up. The flag says that it has.
    fn once(&mut self, name: &str, about: &mut String, parts: impl FnOnce(&mut Self) -> Vec<Why>) -> (Vec<Why>, bool) {
        if !self.told.insert(name.to_string()) {
            return (Vec::new(), true);
        }
        if self.depth == DEPTH {
            self.told.remove(name);
            let more = format!("for what it is made of, ask for {name}");
            *about = if about.is_empty() { more } else { format!("{about}; {more}") };
            return (Vec::new(), false);
        }
        self.depth += 1;
        let parts = parts(self);
        self.depth -= 1;
        (parts, false)
    }

    /// A single value, or a field of it.
    fn slot(&mut self, place: &Place<'_>, slot: usize, field: Option<usize>) -> Why {
        let run = place.run;
        let plan = &run.plan.slots[slot];
        let block = run.slots.get(slot).cloned().unwrap_or_else(|| Block::pending(1));
        let (suffix, block, typing) = part_of(block, &plan.typing, field);
        let name = format!("{}{}{suffix}", run.prefix, plan.name);
        let stated = run.stated.get(&slot).unwrap_or(&plan.stated);
        let role = match plan.role {
            Role::Input => Some("input".to_string()),
            Role::Reading => Some("reading".to_string()),
            Role::Cell => None,
        };
        let is_set = run.set.contains(&slot);
        let filled = place.above.filter(|_| !is_set).and_then(|above| bound(&above, slot));
        let about = [
            role,
            is_set.then(|| "set from outside".to_string()),
            filled.map(|_| "filled in".to_string()),
            stated.uncertainty.clone(),
            stated.by.as_ref().map(|by| format!("by {by}")),
            stated.at.as_ref().map(|at| format!("at {at}")),
            stated.note.as_ref().map(|note| format!("\"{note}\"")),
        ];
        let mut about = about.into_iter().flatten().collect::<Vec<_>>().join(", ");
        let (parts, seen_above) = self.once(&name, &mut about, |teller| match (&plan.source, filled) {
            _ if is_set => Vec::new(),
            (_, Some((above, node, _))) => {
                let table = above.place.run.plan.fills.get(above.fill).and_then(|fill| fill.each);
                let rows = match (table, above.row) {
                    (Some(table), Some(row)) => Rows::One { table, row },
                    _ => Rows::Outside,
                };
                teller.parts(above.place, [node], rows)
            }
            (SlotSource::Formula(node), None) => teller.parts(place, [node], Rows::Outside),
            (SlotSource::Given(given), None) => teller.parts(place, &given.values, Rows::Outside),
        });
        let value = self.value(run, &block, 0, &typing);
        let budget = self.budget(run, &block, 0, &typing);
        let formula = filled.map_or_else(|| run.written(slot), |(_, _, formula)| formula).to_string();
        Why { name, value, formula, about, parts, seen_above, budget }
    }

    /// One row of a column, or a field of it.
    fn cell(&mut self, place: &Place<'_>, table: usize, column: usize, row: usize, field: Option<usize>) -> Why {
        let run = place.run;
        let table_plan = &run.plan.tables[table];
        let plan = &table_plan.columns[column];
        let block = run.tables[table].columns.get(column).cloned().unwrap_or_else(|| Block::pending(1));
        let (suffix, block, typing) = part_of(block, &plan.typing, field);
        let name = format!("{}{}[\"{}\"].{}{suffix}", run.prefix, table_plan.name, run.key(table, row), plan.name);
        let mut about = given_in(run, table, column).join(", ");
        let (parts, seen_above) = self.once(&name, &mut about, |teller| match &plan.source {
            ColumnSource::Formula(node) => teller.parts(place, [node], Rows::One { table, row }),
            ColumnSource::Rows { .. } => Vec::new(),
        });
        let value = self.value(run, &block, row, &typing);
        let budget = self.budget(run, &block, row, &typing);
        Why { name, value, formula: plan.formula.clone(), about, parts, seen_above, budget }
    }

    /// A value with its uncertainty where it has one.
    fn value(&self, run: &Run, block: &Block, row: usize, typing: &Typing) -> String {
        let known = block.number_at(row).and_then(|_| self.origins.uncertainty(block.states.doubt_at(row)));
        let site = run.atmosphere.number_at(0);
        known
            .and_then(|known| rounding::together(block, row, typing, run.system, site, &known))
            .unwrap_or_else(|| shown_or_word(run, block, row, typing))
    }

    /// The budget of the value asked for.
    fn budget(&self, run: &Run, block: &Block, row: usize, typing: &Typing) -> Option<Budget> {
        let _ = block.number_at(row).filter(|_| self.depth == 0)?;
        budget::of(self.origins, block.states.doubt_at(row), typing, run.system)
    }

    /// A whole column, its first rows in one line.
    fn column(&mut self, place: &Place<'_>, table: usize, column: usize, field: Option<usize>) -> Why {
        let run = place.run;
        let table_plan = &run.plan.tables[table];
        let plan = &table_plan.columns[column];
        let block = run.tables[table].columns.get(column).cloned().unwrap_or_else(|| Block::pending(1));
        let (suffix, block, typing) = part_of(block, &plan.typing, field);
        let name = format!("{}{}.{}{suffix}", run.prefix, table_plan.name, plan.name);
        let rows = run.tables[table].rows;
        let mut about = given_in(run, table, column);
        about.push(counted(rows, "row"));
        let mut about = about.join(", ");
        let (parts, seen_above) = self.once(&name, &mut about, |teller| match &plan.source {
            ColumnSource::Formula(node) => teller.parts(place, [node], Rows::All { table }),
            ColumnSource::Rows { .. } => Vec::new(),
        });
        Why {
            name,
            value: rows_shown(run, &block, rows, &typing),
            formula: plan.formula.clone(),
            about,
            parts,
            seen_above,
            budget: None,
        }
    }

    /// A value of a sheet filled for each row, over all rows.
    fn filled_column(&mut self, place: &Place<'_>, fill: usize, slot: usize) -> Option<Why> {
        let run = place.run;
        let plan = run.plan.fills.get(fill)?;
        let slot_plan = plan.plan.slots.get(slot)?;
        let block = run.fill_values.get(fill)?.get(slot)?;
        let above = Above { place, fill, row: None };
        let own = || run.fills.get(fill)?.runs().next().map(|child| child.written(slot));
        let formula = bound(&above, slot).map(|(.., formula)| formula).or_else(own).unwrap_or_default();
        Some(Why {
            name: format!("{}{}.{}", run.prefix, plan.name, slot_plan.name),
            value: rows_shown(run, block, block.len(), &slot_plan.typing),
            formula: formula.to_string(),
            about: counted(block.len(), "row"),
            parts: Vec::new(),
            seen_above: false,
            budget: None,
        })
    }

    /// Everything that formulas mention, once each, in the order of writing.
    fn parts<'n>(&mut self, place: &Place<'_>, nodes: impl IntoIterator<Item = &'n Node>, rows: Rows) -> Vec<Why> {
        let mut found = Vec::new();
        for node in nodes {
            mentions(place.run, node, &mut found);
        }
        found.into_iter().filter_map(|mention| self.mentioned(place, mention, rows)).collect()
    }

    fn mentioned(&mut self, place: &Place<'_>, mention: Mention, rows: Rows) -> Option<Why> {
        match (mention, rows) {
            (Mention::Slot(slot), _) => Some(self.slot(place, slot, None)),
            (Mention::Row(column), Rows::One { table, row }) => Some(self.cell(place, table, column, row, None)),
            (Mention::Row(column), Rows::All { table }) => Some(self.column(place, table, column, None)),
            (Mention::Row(_), Rows::Outside) => None,
            (Mention::Column { table, column }, _) => Some(self.column(place, table, column, None)),
            (Mention::Cell { table, column, row }, _) => Some(self.cell(place, table, column, row, None)),
            (Mention::Filled { fill, slot }, _) => match (place.run.fills.get(fill)?, rows) {
                (FillRun::One(child), _) => {
                    let above = Some(Above { place, fill, row: None });
                    Some(self.slot(&Place { run: child, above }, slot, None))
                }
                (FillRun::Each(children), Rows::One { row, .. }) => {
                    let above = Some(Above { place, fill, row: Some(row) });
                    Some(self.slot(&Place { run: &children.get(row)?.1, above }, slot, None))
                }
                (FillRun::Each(_), _) => self.filled_column(place, fill, slot),
            },
            (Mention::Site, _) => {
                let outermost = place.outermost();
                match outermost.run.plan.site {
                    SitePlan::Altitude(slot) | SitePlan::Atmosphere(slot) => Some(self.slot(&outermost, slot, None)),
                    SitePlan::Unstated => None,
                }
            }
        }
    }
}

/// What a filled sheet's input is filled with, and how that is written.
fn bound<'r>(above: &Above<'r>, slot: usize) -> Option<(Above<'r>, &'r Node, &'r str)> {
    let fill = above.place.run.plan.fills.get(above.fill)?;
    fill.bindings.iter().find_map(|binding| match binding {
        FillBinding::Value { slot: one, node, formula, .. } if *one == slot => Some((*above, node, formula.as_str())),
        _ => None,
    })
}

/// Where a given column comes from; nothing for a computed one.
fn given_in(run: &Run, table: usize, column: usize) -> Vec<String> {
    let table = &run.plan.tables[table];
    let plan = &table.columns[column];
    let ColumnSource::Rows { measured } = plan.source else { return Vec::new() };
    let mut about = vec![if measured { "reading" } else { "input" }.to_string()];
    about.extend(plan.uncertainty.clone());
    about.extend(plan.by.and_then(|by| run.plan.instruments.get(by)).map(|by| format!("by {}", by.name)));
    about.extend(table.at_text.as_ref().map(|at| format!("at {at}")));
    about.extend(table.from.as_ref().map(|(path, ..)| format!("from \"{path}\"")));
    about
}

/// A field of a record with what stands behind its name; without a field the whole.
fn part_of(block: Block, typing: &Typing, field: Option<usize>) -> (String, Block, Typing) {
    match (field, &typing.kind) {
        (Some(at), Kind::Record(record)) if at < record.fields.len() => {
            let RecordField { name, kind, wish } = &record.fields[at];
            let typing = Typing { wish: wish.clone(), ..Typing::of(kind.clone()) };
            (format!(".{name}"), block.field(at), typing)
        }
        _ => (String::new(), block, typing.clone()),
    }
}

/// The first rows of a column in one line.
fn rows_shown(run: &Run, block: &Block, rows: usize, typing: &Typing) -> String {
    let mut shown: Vec<String> = (0..rows.min(ROWS)).map(|row| shown_or_word(run, block, row, typing)).collect();
    if rows > ROWS {
        shown.push("…".into());
    }
    if shown.is_empty() { "no rows".into() } else { shown.join(", ") }
}

fn shown_or_word(run: &Run, block: &Block, row: usize, typing: &Typing) -> String {
    match block.mark(row) {
        Mark::Pending => "not known yet".into(),
        Mark::Broken => match block.states.fault(row) {
            Some(fault) => format!("broken: {}", fault.message),
            None => "broken".into(),
        },
        Mark::LeftOut => "left out".into(),
        Mark::Known => match &typing.kind {
            Kind::Record(record) => format!("the result of `{}`", record.of),
            _ => shown::value(block, row, typing, run.system, run.atmosphere.number_at(0))
                .map_or_else(|| "not known yet".into(), |shown| shown.text),
        },
    }
}
