//! How much an outcome holds, for what cannot hold any amount.

use dewline_lang::outcome::Outcome;

/// Values of all tables.
pub fn values(outcome: &Outcome) -> usize {
    outcome.tables.iter().flat_map(|table| &table.columns).map(|column| column.text.len()).sum()
}
