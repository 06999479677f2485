//! The given rows of a table that are there already: in the sheet, or in the sheet that fills it.

use std::sync::Arc;

use super::block::{Block, Data};
use super::evaluate::{Sight, TableValues};
use super::fault::Fault;
use crate::kinds::Kind;
use crate::moment::Moment;
use crate::plan::{Datum, TablePlan};
use crate::source::Span;

/// Rows written in the sheet.
pub fn from_sheet(sight: &Sight<'_>, table: &TablePlan) -> TableValues {
    let columns = (0..table.given)
        .map(|column| {
            let kind = table.columns.get(column).map_or(&Kind::Unknown, |column| &column.typing.kind);
            let rows = table
                .rows
                .iter()
                .map(|(_, nodes)| nodes.get(column).map_or_else(|| Block::pending(1), |node| sight.eval(node)));
            typed(Block::gather(rows.collect()), kind)
        })
        .collect();
    TableValues { rows: table.rows.len(), pending: table.open, columns }
}

/// A column of which nothing is known still has the sort of its kind.
pub fn typed(block: Block, kind: &Kind) -> Block {
    let Data::Nothing(length) = block.data else { return block };
    let data = match kind {
        Kind::Number | Kind::Quantity(_) => Data::Numbers(vec![0.0; length]),
        Kind::Text(_) | Kind::Refrigerant | Kind::Gas => Data::Texts(vec![Arc::from(""); length]),
        Kind::Flag => Data::Flags(vec![false; length]),
        Kind::Time => Data::Moments(vec![Moment { seconds: 0.0, offset: None, whole_day: false }; length]),
        Kind::Record(_) | Kind::Unknown => Data::Nothing(length),
    };
    Block { data, states: block.states }
}

/// A table handed over from the sheet that fills this one. Of an optional column that is not there nothing is known.
pub fn handed(
    table: &TableValues,
    columns: &[Option<usize>],
    data: &[(Datum, Datum)],
    atmosphere: &Block,
    span: Span,
) -> TableValues {
    let columns = columns
        .iter()
        .zip(data)
        .map(|(column, &(from, to))| {
            let block = column
                .and_then(|column| table.columns.get(column))
                .cloned()
                .unwrap_or_else(|| Block::pending(table.rows));
            super::evaluate::held(block, from, to, atmosphere, span)
        })
        .collect();
    TableValues { rows: table.rows, pending: table.pending, columns }
}

/// Breaks values outside the absolute scale once the atmosphere is known.
pub fn check_gauge(block: Block, atmosphere: &Block, span: Span) -> Block {
    let Some(site) = atmosphere.number_at(0) else { return block };
    super::arithmetic::break_where(
        block,
        |gauge| gauge + site <= 0.0,
        |_| {
            Fault::new(
                &crate::diagnostic::running::BELOW_ZERO,
                "this gauge pressure lies at or below absolute zero at this site",
                span,
            )
            .with_mend("mend the number or the site's atmosphere")
        },
    )
}
