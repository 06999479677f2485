//! Tables: rows that ask for a look marked by word, shape and ground; wide ones in blocks that repeat the key.

use dewline_lang::outcome::{ColumnOutcome, Outcome, Sort, TableOutcome};
use maud::{Markup, html};

use super::word::{self, Tone};
use crate::report::once::Printed;
use crate::report::text::provenance;
use crate::report::{outside, rows};
use crate::words::{count, width};

/// Letters of one block across; what a sheet of paper bears.
const ACROSS: usize = 104;
/// Letters from which on a field is broken wherever it must.
const LONG: usize = 28;

/// One table.
pub(super) fn table(outcome: &Outcome, table: &TableOutcome) -> Markup {
    let rows = table.columns.iter().map(|column| column.text.len()).max().unwrap_or(0);
    let from = table.from.as_ref().map(outside::from);
    let about = provenance(None, table.at.as_deref(), from.as_deref());
    let marks = rows::marks(outcome, table, rows);
    let chosen = rows::chosen(&marks);
    let marked = marks.iter().any(|mark| !mark.is_empty());
    let printed = Printed::once(outcome, table);
    let formulas: Vec<&ColumnOutcome> = table.columns.iter().filter(|column| !column.formula.is_empty()).collect();
    html! {
        h3 { "Table " span class="name" { (table.name) } }
        @if table.pending || rows == 0 {
            p {
                @if table.pending { (word::word("? TO TAKE", Tone::Wait)) " its rows" } @else { "no rows" }
                @if !about.is_empty() { " (" (about) ")" }
            }
        } @else {
            @if let Some(elsewhere) = printed.elsewhere(&count(rows, "row", "rows")) {
                p class="quiet" {
                    (elsewhere)
                    @if !printed.has_fields() && !marked && !about.is_empty() { " (" (about) ")" }
                }
            }
            @if printed.has_fields() || marked {
                @for (at, block) in blocks(&printed.columns, &chosen, marked).iter().enumerate() {
                    (drawn(table, &about, block, &chosen, &marks, at > 0))
                }
            }
            @if chosen.len() < rows && (printed.has_fields() || marked) {
                p class="quiet" { (chosen.len()) " of " (rows) " rows; csv and xlsx hold all of them" }
            }
            (measured_by(table))
            @if !formulas.is_empty() {
                details {
                    summary { "formulas" }
                    dl {
                        @for column in formulas {
                            dt class="name" { (column.name) }
                            dd { code { (column.formula) } }
                        }
                    }
                }
            }
        }
    }
}

fn drawn(
    table: &TableOutcome,
    about: &str,
    columns: &[&ColumnOutcome],
    chosen: &[usize],
    marks: &[&str],
    further: bool,
) -> Markup {
    let marked = marks.iter().any(|mark| !mark.is_empty());
    html! {
        div class="data" {
            table {
                caption class=[(!further && about.is_empty()).then_some("unseen")] {
                    (table.name)
                    @if further { ", further columns" } @else if !about.is_empty() { ", " (about) }
                }
                thead {
                    tr {
                        @for (at, column) in columns.iter().enumerate() {
                            th scope="col" class=[(at > 0 && is_number(column)).then_some("number")] {
                                (broken(&column.name))
                                @if !column.unit.is_empty() { span class="unit" { (column.unit) } }
                            }
                            @if at == 0 && marked { th scope="col" { "check" } }
                        }
                    }
                }
                tbody {
                    @for &row in chosen {
                        @let mark = marks.get(row).copied().unwrap_or_default();
                        @let tone = word::tone_of_word(mark);
                        tr class=[tone.row().filter(|_| !mark.is_empty())] {
                            @for (at, column) in columns.iter().enumerate() {
                                @let found = rows::field(column, row);
                                @let text = found.unwrap_or_else(|word| word);
                                @if at == 0 {
                                    th scope="row" class=(if width(text) > LONG { "long" } else { "short" }) { (text) }
                                    @if marked {
                                        td { @if !mark.is_empty() { (word::word(mark, tone)) } }
                                    }
                                } @else {
                                    td data-label=(label(column)) class=[class(column, text)] {
                                        @if found.is_ok() { (text) } @else { span class="word wait" { (text) } }
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn class(column: &ColumnOutcome, text: &str) -> Option<&'static str> {
    if width(text) > LONG { Some("long") } else { is_number(column).then_some("number") }
}

/// Name and unit before a value on a narrow screen; broken where [`broken`] breaks it.
fn label(column: &ColumnOutcome) -> String {
    let name = column.name.replace('_', "_\u{200b}").replace('.', ".\u{200b}");
    if column.unit.is_empty() { name } else { format!("{name}, {}", column.unit) }
}

fn is_number(column: &ColumnOutcome) -> bool {
    !matches!(column.kind, Sort::Text | Sort::Flag | Sort::Time | Sort::Refrigerant | Sort::Gas)
}

/// A long name may be broken after `_` and `.`.
fn broken(name: &str) -> Markup {
    html! {
        span class="name" {
            @for (at, piece) in name.split_inclusive(['_', '.']).enumerate() {
                @if at > 0 { wbr; }
                (piece)
            }
        }
    }
}

/// Columns in blocks that fit across, the first column in each.
fn blocks<'a>(columns: &[&'a ColumnOutcome], chosen: &[usize], marked: bool) -> Vec<Vec<&'a ColumnOutcome>> {
    let Some((&key, rest)) = columns.split_first() else { return Vec::new() };
    let wide = |column: &ColumnOutcome| {
        let fields = chosen.iter().map(|&row| rows::field(column, row).unwrap_or_else(|word| word));
        let fields = fields.map(|text| width(text).min(LONG)).max();
        let name = column.name.split_inclusive(['_', '.']).map(width).max().unwrap_or(0);
        fields.unwrap_or(0).max(name).max(width(&column.unit)) + 2
    };
    let mut blocks = vec![vec![key]];
    let beside = wide(key) + if marked { 12 } else { 0 };
    let mut used = beside;
    for &column in rest {
        if used + wide(column) > ACROSS && blocks.last().is_some_and(|block| block.len() > 1) {
            blocks.push(vec![key]);
            used = beside;
        }
        used += wide(column);
        if let Some(block) = blocks.last_mut() {
            block.push(column);
        }
    }
    blocks
}

/// Instruments and ± of measured columns.
fn measured_by(table: &TableOutcome) -> Markup {
    let measured = |column: &ColumnOutcome| Some(format!("{} {}", column.name, rows::measured_by(column)?));
    let said: Vec<String> = table.columns.iter().filter_map(measured).collect();
    html! { @if !said.is_empty() { p class="quiet" { "Measured: " (said.join("; ")) } } }
}
