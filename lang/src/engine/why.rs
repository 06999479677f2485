//! How a value came about: its formula, and the values it was made of, down to inputs and readings.

use std::collections::BTreeSet;

use super::run::{FillRun, Run};
use super::settings::World;
use super::shown;
use crate::diagnostic::{Diagnostic, names as codes};
use crate::outcome::Role;
use crate::plan::{ColumnSource, Node, Op};
use crate::source::Span;
use crate::suggest::did_you_mean;

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
}

/// Explains a cell by its full name: `drift`, `riser_b.drift`, `indoor["Exam 1"].superheat`, `tube_1.bore`.
pub fn why(run: &Run, world: &World<'_>, name: &str) -> Result<Why, Diagnostic> {
    let mut teller = Teller { world, told: BTreeSet::new() };
    teller.find(run, name).ok_or_else(|| {
        let names = names(run);
        let near = did_you_mean(name, names.iter().map(String::as_str)).map(str::to_string);
        let mut diagnostic =
            Diagnostic::error(&codes::UNKNOWN_NAME, format!("the sheet has no value `{name}`"), Span::default(), "");
        diagnostic.labels.clear();
        diagnostic.mend = near.map(|near| format!("did you mean `{near}`?"));
        diagnostic
    })
}

/// Names that can be asked about.
pub fn names(run: &Run) -> Vec<String> {
    let mut names: Vec<String> = run.plan.slots.iter().map(|slot| format!("{}{}", run.prefix, slot.name)).collect();
    for (at, table) in run.plan.tables.iter().enumerate().filter(|(_, table)| !table.used) {
        for column in &table.columns {
            for key in run.keys(at).iter().take(1) {
                names.push(format!("{}{}[\"{key}\"].{}", run.prefix, table.name, column.name));
            }
        }
    }
    for child in run.children() {
        names.extend(self::names(child));
    }
    names
}

struct Teller<'a, 'w> {
    world: &'a World<'w>,
    told: BTreeSet<String>,
}

impl Teller<'_, '_> {
    fn find(&mut self, run: &Run, name: &str) -> Option<Why> {
        if let Some(own) = name.strip_prefix(&run.prefix) {
            if let Some(slot) = run.plan.slots.iter().position(|slot| slot.name == own) {
                return Some(self.slot(run, slot, None));
            }
            // A part of a record: `tube_1.bore`.
            if let Some((record, field)) = own.rsplit_once('.')
                && let Some(slot) = run.plan.slots.iter().position(|slot| slot.name == record)
                && let crate::kinds::Kind::Record(kind) = &run.plan.slots[slot].typing.kind
                && let Some(at) = kind.fields.iter().position(|one| one.name == field)
            {
                return Some(self.slot(run, slot, Some(at)));
            }
            for (at, table) in run.plan.tables.iter().enumerate() {
                let Some(rest) = own.strip_prefix(&format!("{}[\"", table.name)) else { continue };
                let Some((key, column)) = rest.split_once("\"].") else { continue };
                let row = run.keys(at).iter().position(|one| one == key)?;
                let column = table.columns.iter().position(|one| one.name == column)?;
                return Some(self.cell(run, at, column, row));
            }
        }
        run.children().find_map(|child| self.find(child, name))
    }

    fn slot(&mut self, run: &Run, slot: usize, field: Option<usize>) -> Why {
        let plan = &run.plan.slots[slot];
        let mut name = format!("{}{}", run.prefix, plan.name);
        let mut block = run.slots.get(slot).cloned().unwrap_or_else(|| super::block::Block::pending(1));
        let mut typing = plan.typing.clone();
        if let (Some(at), crate::kinds::Kind::Record(record)) = (field, &plan.typing.kind)
            && let Some(one) = record.fields.get(at)
        {
            name = format!("{name}.{}", one.name);
            block = block.field(at);
            typing = crate::plan::Typing { kind: one.kind.clone(), wish: one.wish.clone(), ..typing };
        }
        let stated = run.stated.get(&slot).unwrap_or(&plan.stated);
        let mut about: Vec<String> = vec![
            match plan.role {
                Role::Input => "input",
                Role::Reading => "reading",
                Role::Cell => "",
            }
            .to_string(),
        ];
        about.extend(stated.uncertainty.clone());
        about.extend(stated.by.as_ref().map(|by| format!("by {by}")));
        about.extend(stated.at.as_ref().map(|at| format!("at {at}")));
        about.extend(stated.note.as_ref().map(|note| format!("\"{note}\"")));
        about.retain(|part| !part.is_empty());
        let seen_above = !self.told.insert(name.clone());
        let mut parts = Vec::new();
        if !seen_above {
            match &plan.source {
                crate::plan::SlotSource::Formula(node) => self.parts(run, node, None, &mut parts),
                crate::plan::SlotSource::Given(given) => {
                    for node in &given.values {
                        self.parts(run, node, None, &mut parts);
                    }
                }
            }
        }
        Why {
            value: shown_or_word(run, &block, 0, &typing),
            formula: plan.formula.clone(),
            about: about.join(", "),
            parts,
            seen_above,
            name,
        }
    }

    fn cell(&mut self, run: &Run, table: usize, column: usize, row: usize) -> Why {
        let table_plan = &run.plan.tables[table];
        let plan = &table_plan.columns[column];
        let name = format!("{}{}[\"{}\"].{}", run.prefix, table_plan.name, run.key(table, row), plan.name);
        let seen_above = !self.told.insert(name.clone());
        let block = run.tables[table].columns.get(column).cloned().unwrap_or_else(|| super::block::Block::pending(1));
        let mut parts = Vec::new();
        let mut about = Vec::new();
        match &plan.source {
            ColumnSource::Formula(node) => {
                if !seen_above {
                    self.parts(run, node, Some((table, row)), &mut parts);
                }
            }
            ColumnSource::Rows { measured } => {
                about.push(if *measured { "reading" } else { "input" }.to_string());
                about.extend(plan.uncertainty.clone());
                about.extend(plan.by.and_then(|by| run.plan.instruments.get(by)).map(|by| format!("by {}", by.name)));
                about.extend(table_plan.at_text.as_ref().map(|at| format!("at {at}")));
                about.extend(table_plan.from.as_ref().map(|(path, ..)| format!("from \"{path}\"")));
            }
        }
        Why {
            value: shown_or_word(run, &block, row, &plan.typing),
            formula: plan.formula.clone(),
            about: about.join(", "),
            parts,
            seen_above,
            name,
        }
    }

    /// Everything a formula mentions, once each, in the order of writing.
    fn parts(&mut self, run: &Run, node: &Node, row: Option<(usize, usize)>, parts: &mut Vec<Why>) {
        let mut mentioned: Vec<Op> = Vec::new();
        let mut key = |op: &Op| {
            let text = format!("{op:?}");
            let known = mentioned.iter().any(|one| format!("{one:?}") == text);
            if !known {
                mentioned.push(op.clone());
            }
            !known
        };
        let mut ops = Vec::new();
        node.walk(&mut |node| {
            if matches!(node.op, Op::Slot(_) | Op::Row(_) | Op::Column { .. } | Op::Filled { .. }) && key(&node.op) {
                ops.push(node.op.clone());
            }
        });
        let _ = self.world;
        for op in ops {
            match op {
                Op::Slot(slot) => parts.push(self.slot(run, slot, None)),
                Op::Row(column) => {
                    if let Some((table, row)) = row {
                        parts.push(self.cell(run, table, column, row));
                    }
                }
                Op::Column { table, column } => parts.push(self.column(run, table, column)),
                Op::Filled { fill, slot } => {
                    if let Some(FillRun::One(child)) = run.fills.get(fill) {
                        parts.push(self.slot(child, slot, None));
                    }
                }
                _ => {}
            }
        }
    }

    /// A whole column, told in one line.
    fn column(&mut self, run: &Run, table: usize, column: usize) -> Why {
        let table_plan = &run.plan.tables[table];
        let plan = &table_plan.columns[column];
        let rows = run.tables[table].rows;
        let block = run.tables[table].columns.get(column);
        let mut shown: Vec<String> = (0..rows.min(6))
            .filter_map(|row| block.map(|block| shown_or_word(run, block, row, &plan.typing)))
            .collect();
        if rows > 6 {
            shown.push("…".into());
        }
        Why {
            name: format!("{}{}.{}", run.prefix, table_plan.name, plan.name),
            value: shown.join(", "),
            formula: plan.formula.clone(),
            about: format!("{rows} rows"),
            parts: Vec::new(),
            seen_above: false,
        }
    }
}

fn shown_or_word(run: &Run, block: &super::block::Block, row: usize, typing: &crate::plan::Typing) -> String {
    use super::block::Mark;
    match block.mark(row) {
        Mark::Pending => "not known yet".into(),
        Mark::Broken => match block.states.fault(row) {
            Some(fault) => format!("broken: {}", fault.message),
            None => "broken".into(),
        },
        Mark::LeftOut => "left out".into(),
        Mark::Known => match &typing.kind {
            crate::kinds::Kind::Record(record) => format!("the result of `{}`", record.of),
            _ => shown::value(block, row, typing, run.system, run.atmosphere.number_at(0))
                .map_or_else(|| "not known yet".into(), |shown| shown.text),
        },
    }
}
