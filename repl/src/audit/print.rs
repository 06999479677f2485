//! What an audit says: of each record that needs a word, and a summary.

use std::io::{self, Write};

use super::change::Change;
use super::{Finding, Report};
use crate::paint::Paint;
use crate::words::{PAGE, plain, wrap};

/// Changes of one record that the text tells; JSON lines tell more.
const TOLD: usize = 60;

/// How an audit is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Style {
    /// For reading.
    Text,
    /// A line of JSON a record; `repl/schema/audit-1.schema.json` describes it.
    JsonLines,
}

impl Style {
    /// The style of this name.
    pub fn named(name: &str) -> Result<Style, String> {
        match name.to_lowercase().as_str() {
            "text" => Ok(Style::Text),
            "jsonl" => Ok(Style::JsonLines),
            _ => Err(format!("there is no format \"{name}\"; the formats are text, jsonl")),
        }
    }
}

/// Writes reports one after another and counts them.
pub struct Printer {
    /// How.
    pub style: Style,
    /// Nothing but what does not stand.
    pub brief: bool,
    /// Colours.
    pub paint: Paint,
    counts: [usize; Finding::ALL.len()],
}

impl Printer {
    /// Begins.
    pub fn new(style: Style, brief: bool, paint: Paint) -> Printer {
        Printer { style, brief, paint, counts: [0; Finding::ALL.len()] }
    }

    /// Writes one.
    pub fn report(&mut self, out: &mut dyn Write, report: &Report) -> io::Result<()> {
        if let Some(at) = Finding::ALL.iter().position(|&finding| finding == report.result) {
            self.counts[at] += 1;
        }
        match self.style {
            Style::JsonLines => {
                serde_json::to_writer(&mut *out, report)?;
                out.write_all(b"\n")
            }
            Style::Text if self.brief && report.result == Finding::Same => Ok(()),
            Style::Text => out.write_all(self.text(report).as_bytes()),
        }
    }

    /// How many stand how.
    pub fn summary(&self) -> String {
        let total: usize = self.counts.iter().sum();
        let mut text = format!("{total:>8}  {}\n", if total == 1 { "record" } else { "records" });
        for (finding, &count) in Finding::ALL.iter().zip(&self.counts) {
            if count > 0 || *finding == Finding::Same {
                text.push_str(&format!("{count:>8}  {}\n", finding.words()));
            }
        }
        text
    }

    fn text(&self, report: &Report) -> String {
        let word = format!("{:<11}", report.result.words());
        let word = match report.result {
            Finding::Same => self.paint.good(&word),
            _ => self.paint.bad(&word),
        };
        let mut text = format!("{word} {}\n", plain(&report.record));
        if let Some(title) = &report.title {
            let verdict = report.verdict.as_deref().unwrap_or("not known");
            let when = report.run_at.as_deref().unwrap_or("at a time not known");
            say(&mut text, &format!("{title}: {verdict}, run {when}"));
        }
        for why in &report.why {
            say(&mut text, why);
        }
        let key = report.signature.key.as_deref().unwrap_or_default();
        match report.signature.state {
            "missing" => say(&mut text, "not signed"),
            "trusted" => say(&mut text, &format!("signed with the trusted key {key}")),
            "untrusted" => say(&mut text, &format!("signed with the key {key}, which is not among those to trust")),
            _ => {}
        }
        if !report.library.is_empty() {
            say(&mut text, &format!("made by another version: {}", report.library.join("; ")));
        }
        for file in &report.files {
            say(&mut text, &format!("\"{}\" {}", file.name, file.state));
        }
        if !report.files.is_empty() && report.changes.is_empty() {
            say(&mut text, "no value differs: only words, comments or layout do");
        }
        changes(&mut text, &report.changes, report.changes_left_out);
        if let (true, Some(largest)) = (report.within_tolerance > 0, report.largest_difference) {
            let count = report.within_tolerance;
            say(&mut text, &format!("{count} numbers differ within the tolerance, by {largest:.2e} at most"));
        } else if let (false, Some(largest)) = (report.library.is_empty(), report.largest_difference) {
            say(&mut text, &format!("numbers differ by {largest:.2e} of their size at most (--tolerance)"));
        }
        text
    }
}

/// A line under a record, wrapped.
fn say(text: &mut String, line: &str) {
    hang(text, "  ", line);
}

fn hang(text: &mut String, indent: &str, line: &str) {
    for (index, part) in wrap(&plain(line), PAGE - indent.len() - 2).iter().enumerate() {
        let more = if index == 0 { "" } else { "  " };
        text.push_str(&format!("{indent}{more}{part}\n"));
    }
}

/// Changes under the headings of their kinds. Rows of a table of which the same is to be told stand on one line.
fn changes(text: &mut String, changes: &[Change], left_out: usize) {
    let mut lines: Vec<(&Change, Vec<&str>)> = Vec::new();
    for change in changes {
        let row = change.row.as_deref();
        match lines.last_mut() {
            Some((first, rows)) if row.is_some() && first.row.is_some() && first.tells_like(change) => rows.extend(row),
            _ => lines.push((change, row.into_iter().collect())),
        }
    }
    let mut heading = "";
    for (change, rows) in lines.iter().take(TOLD) {
        if change.what.heading() != heading {
            heading = change.what.heading();
            text.push_str(&format!("  {heading}\n"));
        }
        let shown = |side: &Option<String>| side.clone().unwrap_or_else(|| "nothing".to_string());
        let row = match rows.as_slice() {
            [] => String::new(),
            [row] => format!(" ({row})"),
            [first, .., last] => format!(" ({} rows, {first} … {last})", rows.len()),
        };
        let cause = if change.by_library { "   by the library" } else { "" };
        hang(text, "    ", &format!("{}{row}: {} → {}{cause}", change.name, shown(&change.old), shown(&change.new)));
    }
    let told: usize = lines.iter().take(TOLD).map(|(_, rows)| rows.len().max(1)).sum();
    let more = changes.len() - told + left_out;
    if more > 0 {
        say(text, &format!("and {more} more (--format jsonl tells them)"));
    }
}
