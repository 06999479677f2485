//! The values that a formula mentions.

use super::super::run::Run;
use crate::plan::{Node, Op};

/// A value mentioned in a formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mention {
    /// A single value.
    Slot(usize),
    /// This row's value in a column of the formula's own table.
    Row(usize),
    /// A whole column.
    Column { table: usize, column: usize },
    /// One row of a column, looked up by its key.
    Cell { table: usize, column: usize, row: usize },
    /// A value of a filled sheet.
    Filled { fill: usize, slot: usize },
    /// The site's atmosphere, between gauge and absolute.
    Site,
}

/// Adds all mentions of a formula, once each, in the order of writing. Formulas are bounded in depth.
pub fn mentions(run: &Run, node: &Node, found: &mut Vec<Mention>) {
    let mention = match &node.op {
        Op::Slot(slot) => Mention::Slot(*slot),
        Op::Row(column) => Mention::Row(*column),
        Op::Column { table, column } => Mention::Column { table: *table, column: *column },
        Op::Filled { fill, slot } => Mention::Filled { fill: *fill, slot: *slot },
        Op::Look(look) => match (&look.key.op, &look.column.op) {
            (Op::Text(key), Op::Column { table, column }) if *table == look.table => {
                match run.keys(*table).iter().position(|one| **one == **key) {
                    Some(row) => Mention::Cell { table: *table, column: *column, row },
                    None => Mention::Column { table: *table, column: *column },
                }
            }
            _ => return node.parts(&mut |part| mentions(run, part, found)),
        },
        Op::ToAbsolute(inner) | Op::ToGauge(inner) => {
            mentions(run, inner, found);
            Mention::Site
        }
        _ => return node.parts(&mut |part| mentions(run, part, found)),
    };
    if !found.contains(&mention) {
        found.push(mention);
    }
}
