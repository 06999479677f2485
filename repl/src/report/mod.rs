//! An outcome as a person or a program reads it.

mod chart;
mod csv;
mod html;
mod json;
mod lists;
mod markdown;
mod once;
mod outside;
pub(crate) mod parts;
mod rows;
#[cfg(test)]
mod sample;
pub(crate) mod size;
mod sources;
mod summary;
mod text;
mod total;
mod unusable;
mod xlsx;

use std::io::{self, Write};
use std::path::Path;

use dewline_lang::outcome::{Offers, Outcome};

use crate::paint::Paint;
use crate::problem::Problem;

pub use csv::write_folder;
pub use unusable::unusable;

/// How an outcome is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Format {
    /// For reading at 80 columns.
    Text,
    /// For a document.
    Markdown,
    /// One page for a browser and for paper.
    Html,
    /// For programs; `repl/schema/outcome-1.schema.json` describes it.
    Json,
    /// For spreadsheets and programs.
    Csv,
    /// A workbook.
    Xlsx,
}

/// The formats there are, for messages.
pub const FORMATS: &str = "text, markdown, html, json, csv, xlsx";

impl Format {
    /// The format of this name.
    pub fn named(name: &str) -> Result<Format, String> {
        match name.to_lowercase().as_str() {
            "text" => Ok(Format::Text),
            "markdown" => Ok(Format::Markdown),
            "html" => Ok(Format::Html),
            "json" => Ok(Format::Json),
            "csv" => Ok(Format::Csv),
            "xlsx" => Ok(Format::Xlsx),
            _ => Err(format!("there is no format \"{name}\"; the formats are {FORMATS}")),
        }
    }

    /// The format that the ending of a file's name asks for.
    pub fn of_ending(path: &str) -> Result<Format, Problem> {
        let ending = Path::new(path).extension().map(|ending| ending.to_string_lossy().to_lowercase());
        match ending.as_deref() {
            None | Some("txt" | "text") => Ok(Format::Text),
            Some("md" | "markdown") => Ok(Format::Markdown),
            Some("html" | "htm") => Ok(Format::Html),
            Some("json") => Ok(Format::Json),
            Some("csv") => Ok(Format::Csv),
            Some("xlsx") => Ok(Format::Xlsx),
            Some(other) => Err(Problem::new(format!("a report ending in .{other} cannot be written"))
                .with_mend(format!("the formats are {FORMATS}; name one with --format"))),
        }
    }
}

/// How a report looks.
#[derive(Debug, Clone, Copy)]
pub struct Look {
    /// In which format.
    pub format: Format,
    /// The verdict and what does not hold, nothing else.
    pub quiet: bool,
    /// Colours, for the text format.
    pub paint: Paint,
    /// Errors are drawn on the same terminal, so the report need not list them again.
    pub errors_seen: bool,
    /// Several outcomes follow one another.
    pub many: bool,
}

/// What some formats want beside an outcome.
#[derive(Clone, Copy)]
pub struct Beside<'a> {
    /// Charts that the run can offer, worked out when asked for.
    pub offers: &'a dyn Fn() -> Offers,
    /// The digest of the record that the run left behind, if it did.
    pub digest: Option<&'a str>,
}

impl Beside<'_> {
    /// Nothing beside it.
    pub const NOTHING: Beside<'static> = Beside { offers: &Offers::default, digest: None };
}

/// Writes outcomes one after another, so that a thousand runs need not be held.
pub struct Reporter<'a> {
    out: &'a mut dyn Write,
    look: Look,
    written: usize,
    total: total::Total,
    /// A workbook is written at the end, all of it.
    book: Option<xlsx::Book>,
}

impl<'a> Reporter<'a> {
    /// Begins.
    pub fn new(out: &'a mut dyn Write, look: Look) -> Reporter<'a> {
        Reporter { out, look, written: 0, total: total::Total::default(), book: None }
    }

    /// Writes one outcome; `run` names the row of settings it belongs to, if any.
    pub fn add(&mut self, run: &str, outcome: &Outcome, beside: &Beside<'_>) -> io::Result<()> {
        let first = self.written == 0;
        self.written += 1;
        if self.look.many {
            self.total.add(run, outcome);
        }
        match self.look.format {
            Format::Text => {
                let gap = if first { "" } else { "\n" };
                let text = text::report(outcome, run, &self.look);
                self.out.write_all(format!("{gap}{text}").as_bytes())
            }
            Format::Markdown => {
                let gap = if first { "" } else { "\n---\n\n" };
                self.out.write_all(
                    format!("{gap}{}", markdown::report(outcome, run, self.look.quiet, beside.digest)).as_bytes(),
                )
            }
            Format::Html => {
                let begin = if first { html::begin(&outcome.sheet.title) } else { String::new() };
                let report = html::report(outcome, run, self.written, self.look.quiet, beside);
                self.out.write_all(format!("{begin}{report}\n").as_bytes())
            }
            Format::Json => {
                let gap = match (self.look.many, first) {
                    (false, _) => "",
                    (true, true) => "[\n",
                    (true, false) => ",\n",
                };
                self.out.write_all(gap.as_bytes())?;
                json::write(self.out, outcome)
            }
            Format::Xlsx => {
                let run = self.look.many.then_some(run);
                self.book.get_or_insert_with(xlsx::Book::new).add(run, outcome, beside.digest)
            }
            Format::Csv => csv::write_cells(self.out, self.look.many.then_some(run), outcome, first),
        }?;
        self.out.flush()
    }

    /// Ends, with what all runs came to where a person reads it.
    pub fn finish(self) -> io::Result<()> {
        if let Some(title) = self.total.title() {
            let lines = self.total.lines();
            let text = match self.look.format {
                Format::Text => text::total(&title, &lines, self.look.paint),
                Format::Markdown => markdown::total(&title, &lines),
                Format::Html => html::total(&title, &lines),
                Format::Json | Format::Csv | Format::Xlsx => String::new(),
            };
            self.out.write_all(text.as_bytes())?;
        }
        if self.look.format == Format::Xlsx {
            self.out.write_all(&self.book.unwrap_or_else(xlsx::Book::new).finish()?)?;
        }
        if self.look.format == Format::Html {
            let begin = if self.written == 0 { html::begin("No runs") } else { String::new() };
            self.out.write_all(format!("{begin}{}", html::end()).as_bytes())?;
        }
        if self.look.format == Format::Json {
            let end = match (self.look.many, self.written) {
                (false, _) => "\n",
                (true, 0) => "[]\n",
                (true, _) => "\n]\n",
            };
            self.out.write_all(end.as_bytes())?;
        }
        self.out.flush()
    }
}

/// What stands outside any stage first, then the stages; a filled sheet may bring values of stages not listed.
fn stages_in_order(outcome: &Outcome) -> Vec<&str> {
    let mut order = vec![""];
    order.extend(outcome.stages.iter().map(|stage| stage.name.as_str()));
    let cells = outcome.cells.iter().map(|cell| cell.stage.as_str());
    let tables = outcome.tables.iter().map(|table| table.stage.as_str());
    let checks = outcome.checks.iter().map(|check| check.stage.as_str());
    for stage in cells.chain(tables).chain(checks) {
        if !order.contains(&stage) {
            order.push(stage);
        }
    }
    order
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn written(format: Format, quiet: bool, many: bool) -> String {
        let mut out = Vec::new();
        let look = Look { format, quiet, paint: Paint::new(false), errors_seen: false, many };
        let mut reporter = Reporter::new(&mut out, look);
        for _ in 0..1 + usize::from(many) {
            reporter.add(if many { "runs.csv line 2" } else { "" }, &sample::outcome(), &Beside::NOTHING).unwrap();
        }
        reporter.finish().unwrap();
        String::from_utf8(out).unwrap()
    }

    #[test]
    fn the_text_stays_on_the_page_and_sends_nothing_to_the_terminal() {
        let text = written(Format::Text, false, false);
        println!("{text}");
        assert!(text.lines().all(|line| crate::words::width(line) <= crate::words::PAGE), "{text}");
        assert!(!text.contains('\u{1b}') && !text.lines().any(|line| line.ends_with(' ')), "{text}");
    }

    #[test]
    fn the_top_says_what_failed_by_how_much_and_what_is_to_take() {
        let text = written(Format::Text, false, false);
        let top: String = text.lines().take(24).collect::<Vec<_>>().join("\n");
        for said in [
            "FAILED  1 of 3 checks does not hold.",
            "2 things are still to be taken",
            "superheat in range: indoor Exam 2",
            "superheat = 3.8 F°, must be within 5 F° .. 15 F°, outside by",
            "WAITING",
            "BLOCKED",
            "[ ] end_pressure",
        ] {
            assert!(top.contains(said), "{said}: {top}");
        }
    }

    #[test]
    fn quiet_says_the_verdict_and_what_does_not_hold() {
        let text = written(Format::Text, true, false);
        assert!(text.contains("outside by") && !text.contains("start_pressure"), "{text}");
    }

    #[test]
    fn several_outcomes_are_one_json_list_and_one_csv_table() {
        let list: serde_json::Value = serde_json::from_str(&written(Format::Json, false, true)).unwrap();
        assert_eq!(list.as_array().unwrap().len(), 2);
        assert!(serde_json::from_str::<serde_json::Value>(&written(Format::Json, false, false)).unwrap().is_object());
        let table = written(Format::Csv, false, true);
        assert!(table.starts_with("run,sheet,verdict,") && table.matches("verdict").count() == 1, "{table}");
        assert_eq!(table.lines().count(), 9);
    }
}
