//! Single values of a stage: what was given and read, then what was computed from it.

use dewline_lang::outcome::{CellOutcome, Outcome, Role};
use dewline_lang::units;

use super::provenance;
use crate::paint::Paint;
use crate::words::{hang_painted, left, plain, width};

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
            let stated = &cell.stated;
            let from = provenance(stated.by.as_deref(), stated.at.as_deref(), stated.note.as_deref());
            (plain(&cell.name).into_owned(), value(cell), from)
        })
        .collect();
    let names = lines.iter().map(|line| width(&line.0)).max().unwrap_or(0).min(30);
    let values = lines.iter().map(|line| width(&line.1)).max().unwrap_or(0).min(26);
    for ((name, value, from), cell) in lines.iter().zip(cells) {
        let shown = if from.is_empty() { value.clone() } else { left(value, values) };
        let painted = match (cell.broken, cell.pending) {
            (true, _) => paint.bad(&shown),
            (_, true) => paint.wait(&shown),
            _ => shown.clone(),
        };
        let name = left(name, names);
        if from.is_empty() {
            let indent = 4 + width(&name) + 2;
            let text = if cell.broken || cell.pending { painted } else { shown };
            // A text value may be longer than the line.
            if width(value) > 80 - indent {
                hang_painted(out, &format!("    {name}  "), indent, value);
            } else {
                out.push_str(&format!("    {name}  {text}\n"));
            }
        } else {
            let lead = format!("    {name}  {painted}  ");
            hang_painted(out, &lead, 4 + width(&name) + 2 + width(&shown) + 2, from);
        }
    }
}

/// The value with its ± as stated, or the word for why there is none.
fn value(cell: &CellOutcome) -> String {
    let known = match &cell.shown {
        _ if cell.broken => return "BROKEN".to_string(),
        Some(shown) => plain(&shown.text).into_owned(),
        None if cell.role != Role::Cell && cell.pending => return "? TO TAKE".to_string(),
        None if cell.pending => return "waits".to_string(),
        None => "-".to_string(),
    };
    match (&cell.stated.uncertainty, carried(cell)) {
        (Some(uncertainty), _) => format!("{known} {}", with_sign(&plain(uncertainty))),
        (None, Some(carried)) => format!("{known} ± {carried}"),
        (None, None) => known,
    }
}

/// The expanded uncertainty as carried through the formulas, in the shown unit, to two figures.
fn carried(cell: &CellOutcome) -> Option<String> {
    let unit = &cell.shown.as_ref()?.unit;
    let factor = if unit.is_empty() { 1.0 } else { units::parse(unit).ok()?.meaning.factor() };
    let rounded: f64 = format!("{:.1e}", cell.uncertainty?.expanded / factor).parse().ok()?;
    Some(units::show::number(rounded))
}

fn with_sign(uncertainty: &str) -> String {
    if uncertainty.starts_with(['±', '+']) { uncertainty.to_string() } else { format!("± {uncertainty}") }
}
