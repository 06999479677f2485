//! Single values of a stage: what was given and read, then what was computed from it.

use dewline_lang::outcome::{CellOutcome, Outcome, Role};

use super::provenance_of;
use crate::paint::Paint;
use crate::report::summary;
use crate::words::{PAGE, hang_painted, left, plain, width};

/// Columns that a note needs beside a long value; with fewer it stands under it.
const LEAST_NOTE: usize = 24;

/// Both lists of one stage.
pub(super) fn values(out: &mut String, outcome: &Outcome, stage: &str, paint: Paint) {
    let cells = || outcome.cells.iter().filter(|cell| cell.stage == stage);
    let (given, computed): (Vec<_>, Vec<_>) = cells().partition(|cell| cell.role != Role::Cell);
    listed(out, "Given and read", &given, paint);
    listed(out, "Computed", &computed, paint);
}

fn listed(out: &mut String, title: &str, cells: &[&CellOutcome], paint: Paint) {
    if cells.is_empty() {
        return;
    }
    out.push_str(&format!("  {title}\n"));
    let lines: Vec<(String, String, String)> = cells
        .iter()
        .map(|cell| {
            let from = provenance_of(cell);
            (plain(&cell.name).into_owned(), plain(&summary::value(cell)).into_owned(), from)
        })
        .collect();
    let names = lines.iter().map(|line| width(&line.0)).max().unwrap_or(0).min(30);
    let values = lines.iter().map(|line| width(&line.1)).max().unwrap_or(0).min(26);
    for ((name, value, from), cell) in lines.iter().zip(cells) {
        let shown = if from.is_empty() { value.clone() } else { left(value, values) };
        let painted = match (cell.broken, summary::is_wanted(cell)) {
            (true, _) => paint.bad(&shown),
            (_, true) => paint.wait(&shown),
            _ => shown.clone(),
        };
        let name = left(name, names);
        let indent = 4 + width(&name) + 2;
        if from.is_empty() {
            let text = if cell.broken || summary::is_wanted(cell) { painted } else { shown };
            // A text value may be longer than the line.
            if width(value) > PAGE.saturating_sub(indent) {
                hang_painted(out, &format!("    {name}  "), indent, value);
            } else {
                out.push_str(&format!("    {name}  {text}\n"));
            }
        } else if width(&shown) > values && indent + width(&shown) + 2 + LEAST_NOTE > PAGE {
            hang_painted(out, &format!("    {name}  "), indent, value);
            hang_painted(out, &" ".repeat(indent), indent, from);
        } else {
            let lead = format!("    {name}  {painted}  ");
            hang_painted(out, &lead, indent + width(&shown) + 2, from);
        }
    }
}
