//! Writes errors and outcomes down as lines.

use dewline_lang::diagnostic::{Diagnostic, Severity};
use dewline_lang::outcome::{CellOutcome, CheckOutcome, ColumnOutcome, Outcome};
use dewline_lang::source::{FileId, Sources};

use super::Expectations;

/// Each message under the line it points at; those placed in another file stand first, with its name.
pub fn errors(seen: &mut Expectations, sources: &Sources, diagnostics: &[Diagnostic]) {
    for diagnostic in diagnostics {
        let span = diagnostic.span();
        let (line, from) = sources.line_column(span.file, span.start);
        let (last_line, to) = sources.line_column(span.file, span.end);
        let columns = if last_line == line { format!("{from}-{to}") } else { format!("{from}-end") };
        let advice = if diagnostic.severity == Severity::Advice { "advice " } else { "" };
        let message = format!("{columns} {} {advice}{}", diagnostic.code.id, diagnostic.message.replace('\n', " "));
        let name = sources.get(span.file).map_or("", |source| &source.name);
        let (line, message) =
            if span.file == FileId(0) { (line, message) } else { (0, format!("{name}:{line}: {message}")) };
        seen.errors.entry(line).or_default().push(message);
    }
}

/// The whole outcome but cautions, which are the trade library's matter.
pub fn outcome(seen: &mut Expectations, outcome: &Outcome) {
    let lines = &mut seen.outcome;
    lines.extend(outcome.cells.iter().map(|one| format!("{} {}", one.name, cell(one))));
    for table in &outcome.tables {
        if table.pending {
            lines.push(format!("{} pending", table.name));
        }
        for one in &table.columns {
            lines.push(format!("{}.{} {}", table.name, one.name, column(one)).trim_end().to_string());
        }
    }
    lines.extend(outcome.checks.iter().map(check));
    for one in &outcome.confirmations {
        lines.push(format!("confirm \"{}\" {}", one.label, one.verdict.words()));
    }
    for stage in &outcome.stages {
        lines.push(format!("stage \"{}\" {}", stage.name, stage.verdict.words()));
    }
    for one in &outcome.set {
        let limit = if one.limit { " (limit)" } else { "" };
        let sheet = one.sheet.as_deref().unwrap_or("open");
        lines.push(format!("set {} = {} instead of {sheet} from {}{limit}", one.name, one.value, one.from));
    }
    for one in &outcome.otherwise {
        let limit = if one.limit { " (limit)" } else { "" };
        lines.push(format!("otherwise {} = {} instead of {} of {}{limit}", one.name, one.value, one.default, one.form));
    }
    lines.extend(outcome.replaced.iter().map(|one| format!("replaced {} {} by {}", one.what, one.name, one.by)));
    lines.extend(outcome.to_take.iter().map(|one| format!("to take: {one}")));
    lines.extend(outcome.assumptions.iter().map(|one| format!("assumes: {one}")));
    lines.extend(outcome.advice.iter().map(|one| format!("advice: {one}")));
    for note in &outcome.notes {
        lines.push(format!("note {}", note.text.as_deref().unwrap_or("pending")));
    }
    lines.push(format!("job {}", outcome.verdict.words()));
    // An empty text leaves a space at the end of its line, which the reader of a sheet takes away.
    for line in lines {
        line.truncate(line.trim_end().len());
    }
}

/// A value with its uncertainty where it has one.
fn cell(cell: &CellOutcome) -> String {
    match (&cell.shown, &cell.uncertainty) {
        (Some(_), Some(uncertainty)) if !uncertainty.text.is_empty() => return uncertainty.text.clone(),
        _ => {}
    }
    match &cell.shown {
        Some(shown) => shown.text.clone(),
        None if cell.broken => "broken".to_string(),
        None => "pending".to_string(),
    }
}

fn column(column: &ColumnOutcome) -> String {
    let values: Vec<&str> = column
        .text
        .iter()
        .enumerate()
        .map(|(row, text)| match text.as_str() {
            "" if column.broken.contains(&row) => "broken",
            "" => "?",
            text => text,
        })
        .collect();
    let spread = column.spread.as_ref().map_or_else(String::new, |spread| format!(" (U = {spread})"));
    format!("{} {}{spread}", values.join(" | "), column.unit).trim().to_string()
}

fn check(check: &CheckOutcome) -> String {
    let row = check.row.as_ref().map(|row| format!(" \"{row}\"")).unwrap_or_default();
    format!("check \"{}\"{row} {}", check.label, check.verdict.words())
}
