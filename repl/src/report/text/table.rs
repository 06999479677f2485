//! Tables fitted to the page: columns in blocks that repeat the first column, rows that ask for a look marked by a word.

use dewline_lang::outcome::{ChartOutcome, ColumnOutcome, Outcome, Sort, TableOutcome};

use super::provenance;
use crate::paint::Paint;
use crate::report::once::Printed;
use crate::report::{outside, rows};
use crate::words::{PAGE, count, hang, left, plain, right, width};

/// Rows shown of a chart.
const CHART: usize = 16;
/// Columns of a text in a table; a longer one is cut, and told below.
const TEXT: usize = 24;

/// A column made ready: heading lines, unit, fields.
struct Shown {
    heading: Vec<String>,
    fields: Vec<String>,
    columns: usize,
    to_the_right: bool,
}

/// One table.
pub(super) fn table(
    out: &mut String,
    outcome: &Outcome,
    (table, printed): (&TableOutcome, &Printed<'_>),
    paint: Paint,
) {
    let from = table.from.as_ref().map(outside::from);
    let about = provenance(None, table.at.as_deref(), from.as_deref());
    let about = if about.is_empty() { String::new() } else { format!(" ({about})") };
    hang(out, "  Table ", &format!("{}{about}", table.name));
    let rows = table.columns.iter().map(|column| column.text.len()).max().unwrap_or(0);
    if table.pending || rows == 0 {
        out.push_str(if table.pending { "    ? TO TAKE: its rows\n" } else { "    no rows\n" });
        return;
    }
    let marks = rows::marks(outcome, table, rows);
    let chosen = rows::chosen(&marks);
    let marked = marks.iter().any(|mark| !mark.is_empty());
    if let Some(elsewhere) = printed.elsewhere(&count(rows, "row", "rows")) {
        hang(out, "    ", &elsewhere);
        if !marked && !printed.has_fields() {
            measured_by(out, table);
            return;
        }
    }
    let mut columns: Vec<Shown> = printed.columns.iter().map(|column| ready(column, &chosen)).collect();
    if marked {
        let fields: Vec<String> =
            chosen.iter().map(|&row| marks.get(row).map_or(String::new(), |&mark| mark.to_string())).collect();
        // Beside the key, so that it stands in the first block.
        columns.insert(columns.len().min(1), shown(vec!["check".to_string(), String::new()], fields, false));
    }
    draw(out, &columns, &gaps(&chosen), paint);
    if chosen.len() < rows {
        out.push_str(&format!("    {} of {rows} rows; all of them: --format csv --out FOLDER/\n", chosen.len()));
    }
    measured_by(out, table);
    long_texts(out, &printed.columns, &chosen);
}

/// One chart as the table of its points.
pub(super) fn chart(out: &mut String, chart: &ChartOutcome, paint: Paint) {
    hang(out, "  Chart ", &format!("{} ({})", chart.title, chart.style));
    let rows = chart.columns.iter().map(|column| column.text.len()).max().unwrap_or(0);
    if rows == 0 {
        out.push_str("    no points yet\n");
        return;
    }
    let shown_rows = rows.min(CHART);
    // Evenly from the first to the last.
    let chosen: Vec<usize> = match shown_rows {
        1 => vec![0],
        count => (0..count).map(|index| index * (rows - 1) / (count - 1)).collect(),
    };
    let mut columns: Vec<Shown> = rows::points(chart).iter().map(|column| ready(column, &chosen)).collect();
    if let [_, up] = chart.columns.as_slice()
        && let Some(bars) = bars(up, &chosen)
    {
        columns.push(bars);
    }
    draw(out, &columns, &vec![false; chosen.len()], paint);
    if chosen.len() < rows {
        out.push_str(&format!("    {} of {rows} points\n", chosen.len()));
    }
}

/// Where rows were left out: at the first gap and at the last, since those between stand alone each.
fn gaps(chosen: &[usize]) -> Vec<bool> {
    let alone = |pair: &[usize]| matches!(pair, [before, after] if *after != before + 1);
    let first = chosen.windows(2).position(alone);
    let last = chosen.windows(2).rposition(alone);
    (0..chosen.len()).map(|index| index > 0 && [first, last].contains(&Some(index - 1))).collect()
}

/// Instruments and ± of measured columns; computed ones have their ± in each row.
fn measured_by(out: &mut String, table: &TableOutcome) {
    for column in &table.columns {
        if let Some(about) = rows::measured_by(column) {
            hang(out, &format!("    {}: ", plain(&column.name)), &about);
        }
    }
}

/// The whole of texts that were cut, each once, after the keys of its rows.
fn long_texts(out: &mut String, columns: &[&ColumnOutcome], rows: &[usize]) {
    let Some((key, rest)) = columns.split_first() else { return };
    let text =
        |column: &ColumnOutcome, row: usize| plain(rows::field(column, row).unwrap_or_else(|word| word)).into_owned();
    let is_cut = |text: &str| width(text) > TEXT;
    // A key that was cut is told in whole, too: what stands before a text is what stands in the table.
    for long in rows.iter().map(|&row| text(key, row)).filter(|text| is_cut(text)) {
        hang(out, &format!("    {} is ", cut(&long)), &long);
    }
    for column in rest {
        let mut told: Vec<(String, Vec<String>)> = Vec::new();
        for (row, long) in rows.iter().map(|&row| (row, text(column, row))).filter(|(_, text)| is_cut(text)) {
            let of = cut(&text(key, row));
            match told.iter_mut().find(|(known, _)| *known == long) {
                Some((_, keys)) => keys.push(of),
                None => told.push((long, vec![of])),
            }
        }
        for (long, keys) in told {
            hang(out, "    ", &format!("{} of {}: {long}", plain(&column.name), keys.join(", ")));
        }
    }
}

fn ready(column: &ColumnOutcome, rows: &[usize]) -> Shown {
    let field = |&row: &usize| rows::field(column, row).map_or_else(str::to_string, |text| cut(&plain(text)));
    let fields = aligned(rows.iter().map(field).collect());
    let numeric = !matches!(column.kind, Sort::Text | Sort::Flag | Sort::Time | Sort::Refrigerant | Sort::Gas);
    let widest = fields.iter().map(|field| width(field)).max().unwrap_or(0);
    let mut heading = heading(&plain(&column.name), widest.max(width(&column.unit)).max(8));
    heading.push(plain(&column.unit).into_owned());
    shown(heading, fields, numeric)
}

/// Values with their ± under one another.
fn aligned(fields: Vec<String>) -> Vec<String> {
    let parts = |field: &str| field.split_once(" ± ").map(|(value, doubt)| (width(value), width(doubt)));
    let widest = fields.iter().filter_map(|field| parts(field));
    let (values, doubts) = widest.fold((0, 0), |(value, doubt), one| (value.max(one.0), doubt.max(one.1)));
    let align = |field: String| match field.split_once(" ± ") {
        Some((value, doubt)) => format!("{} ± {}", right(value, values), left(doubt, doubts)),
        None => field,
    };
    fields.into_iter().map(align).collect()
}

fn shown(heading: Vec<String>, fields: Vec<String>, to_the_right: bool) -> Shown {
    let columns = heading.iter().chain(&fields).map(|text| width(text)).max().unwrap_or(0);
    Shown { heading, fields, columns, to_the_right }
}

/// A long name broken after `_` and `.` so that it is hardly wider than what stands under it.
fn heading(name: &str, columns: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for piece in name.split_inclusive(['_', '.']) {
        if !line.is_empty() && width(&line) + width(piece) > columns {
            lines.push(std::mem::take(&mut line));
        }
        line.push_str(piece);
    }
    lines.push(line);
    lines
}

fn cut(text: &str) -> String {
    if width(text) <= TEXT {
        return text.to_string();
    }
    let mut out = String::new();
    for letter in text.chars() {
        if width(&out) + 2 > TEXT {
            break;
        }
        out.push(letter);
    }
    out + "…"
}

/// A bar for each value of the only column, the longest 24 signs; none if a value is below zero.
fn bars(column: &ColumnOutcome, rows: &[usize]) -> Option<Shown> {
    let values: Vec<Option<f64>> = rows.iter().map(|&row| column.text.get(row)?.parse().ok()).collect();
    let greatest = values.iter().flatten().copied().fold(0.0, f64::max);
    if greatest <= 0.0 || values.iter().flatten().any(|&value| value < 0.0) {
        return None;
    }
    let bar = |value: Option<f64>| "=".repeat(value.map_or(0, |value| (value / greatest * 24.0).round() as usize));
    Some(shown(vec![String::new()], values.into_iter().map(bar).collect(), false))
}

/// Draws columns in blocks that fit the page; the first column stands in each. Before a row with a gap dots are drawn.
fn draw(out: &mut String, columns: &[Shown], gaps: &[bool], paint: Paint) {
    let Some((key, rest)) = columns.split_first() else { return };
    let mut rest = rest;
    loop {
        let mut taken = 0;
        let mut used = 4 + key.columns;
        while let Some(next) = rest.get(taken)
            && (taken == 0 || used + 2 + next.columns <= PAGE)
        {
            used += 2 + next.columns;
            taken += 1;
        }
        let block: Vec<&Shown> = std::iter::once(key).chain(&rest[..taken]).collect();
        draw_block(out, &block, gaps, paint);
        rest = &rest[taken..];
        if rest.is_empty() {
            return;
        }
        out.push('\n');
    }
}

fn draw_block(out: &mut String, block: &[&Shown], gaps: &[bool], paint: Paint) {
    let height = block.iter().map(|column| column.heading.len()).max().unwrap_or(0);
    let unitless = block.iter().all(|column| column.heading.last().is_none_or(String::is_empty));
    for line in 0..height - usize::from(unitless && height > 0) {
        let fields = block.iter().map(|column| {
            // Headings stand on the rows: shorter ones begin lower.
            let above = height - column.heading.len();
            line.checked_sub(above).and_then(|at| column.heading.get(at)).map_or("", String::as_str)
        });
        put_line(out, block, fields, paint, false);
    }
    for (index, &gap) in gaps.iter().enumerate() {
        let fields = block.iter().map(|column| column.fields.get(index).map_or("", String::as_str));
        if gap {
            out.push_str("    ...\n");
        }
        put_line(out, block, fields, paint, true);
    }
}

fn put_line<'a>(
    out: &mut String,
    block: &[&Shown],
    fields: impl Iterator<Item = &'a str>,
    paint: Paint,
    painted: bool,
) {
    let mut line = String::from("    ");
    let mut plain_end = line.len();
    for (index, (column, field)) in block.iter().zip(fields).enumerate() {
        if index > 0 {
            line.push_str("  ");
        }
        let aligned = if column.to_the_right { right(field, column.columns) } else { left(field, column.columns) };
        let word = match field {
            "FAILED" | "BROKEN" | "broken" if painted => paint.bad(&aligned),
            "WAITING" | "CLOSE" | "WAIVED" | "?" | "waits" if painted => paint.wait(&aligned),
            _ => aligned,
        };
        line.push_str(&word);
        if !field.is_empty() {
            plain_end = line.len();
        }
    }
    line.truncate(plain_end);
    out.push_str(line.trim_end());
    out.push('\n');
}
