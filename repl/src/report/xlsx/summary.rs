//! The first sheet: verdict, stages, what does not hold, what is still to take, and what it all rests on.

use dewline_lang::outcome::{JobVerdict, Outcome};

use super::sheet::{Field, Sheet, Style};
use super::tables::style_of;
use crate::report::summary::{job_word, judged, label_of, sentence, stage_reason, stage_word, trials};
use crate::report::{outside, sources};

/// Where a table stands: its name, and the sheet with whether it holds all rows; nothing: it has no sheet.
type Place = (String, Option<(String, bool)>);

/// Adds what one outcome comes to.
pub(super) fn add(sheet: &mut Sheet, run: Option<&str>, outcome: &Outcome, digest: Option<&str>, tables: &[Place]) {
    let mut page = Page { sheet };
    page.line(Style::Title, &[&outcome.sheet.title]);
    page.pair("sheet", &outcome.sheet.path);
    page.pair("run", run.unwrap_or_default());
    let tone = match outcome.verdict {
        JobVerdict::Unusable | JobVerdict::Failed => Style::Bad,
        JobVerdict::Incomplete | JobVerdict::PassedWithWaivers => Style::Look,
        JobVerdict::Computed | JobVerdict::Passed => Style::Plain,
    };
    page.line(tone, &["verdict", job_word(outcome.verdict), &sentence(outcome)]);
    page.pair("digest of the record", digest.unwrap_or_default());
    page.pair("SHA-256 of the sheet's text", &outcome.sheet.sha256);
    page.stages(outcome);
    page.not_in_order(outcome);
    page.list("Still to take", outcome.to_take.iter().cloned());
    page.list(
        "Errors",
        outcome.errors.iter().map(|error| {
            let row = error.row.as_deref().unwrap_or_default();
            let parts = [error.code, &error.cell, row, &error.message, &error.place];
            parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join("; ")
        }),
    );
    page.list("Advice", outcome.advice.iter().cloned());
    for (title, lines) in outside::lists(outcome) {
        page.list(title, lines.into_iter());
    }
    page.list("Notes", outcome.notes.iter().filter_map(|note| note.text.clone()));
    page.list("Trials", outcome.trials.iter().map(trials));
    page.tables(tables);
    page.instruments(outcome);
    page.list("Assumptions", outcome.assumptions.iter().cloned());
    page.list("Cautions", outcome.cautions.iter().cloned());
    page.sources(outcome);
    page.list(outside::FILES, outside::files(outcome).into_iter());
    page.sheet.gap();
}

struct Page<'a> {
    sheet: &'a mut Sheet,
}

impl Page<'_> {
    fn line(&mut self, style: Style, texts: &[&str]) {
        self.sheet.add(texts.iter().map(|text| (Field::text(text), style)).collect());
    }

    /// A name and its text; nothing for an empty one.
    fn pair(&mut self, name: &str, text: &str) {
        if !text.is_empty() {
            self.line(Style::Plain, &[name, text]);
        }
    }

    fn heading(&mut self, words: &str, columns: &[&str]) {
        self.sheet.gap();
        self.line(Style::Heading, &[words]);
        if !columns.is_empty() {
            self.line(Style::Head, columns);
        }
    }

    fn list(&mut self, title: &str, items: impl Iterator<Item = String>) {
        for (at, item) in items.enumerate() {
            if at == 0 {
                self.heading(title, &[]);
            }
            self.line(Style::Plain, &[&item]);
        }
    }

    fn stages(&mut self, outcome: &Outcome) {
        if outcome.stages.is_empty() {
            return;
        }
        self.heading("Stages", &["stage", "verdict", "why"]);
        for stage in &outcome.stages {
            let word = stage_word(stage);
            let style = match word {
                "passed" => Style::Plain,
                "FAILED" | "BROKEN" => Style::Bad,
                _ => Style::Look,
            };
            self.line(style, &[&stage.name, word, &stage_reason(outcome, stage)]);
        }
    }

    fn not_in_order(&mut self, outcome: &Outcome) {
        let asking: Vec<_> = outcome
            .checks
            .iter()
            .filter(|check| check.level == "require" && crate::report::summary::asks_for_a_look(check.verdict))
            .collect();
        if asking.is_empty() {
            return;
        }
        self.heading("Not in order", &["check", "verdict", "judged", "stage"]);
        for check in asking {
            let word = crate::report::summary::check_word(check.verdict);
            let texts = [&label_of(check), word, &judged(check), &check.stage];
            self.line(style_of(check.verdict), &texts);
        }
    }

    fn tables(&mut self, tables: &[Place]) {
        if tables.is_empty() {
            return;
        }
        self.heading("Tables", &["table", "sheet"]);
        for (name, place) in tables {
            let said = match place {
                None => "too many for one workbook: --format csv --out FOLDER/".to_string(),
                Some((sheet, true)) => sheet.clone(),
                Some((sheet, false)) => format!("{sheet}; more rows than a sheet holds: --format csv --out FOLDER/"),
            };
            self.line(Style::Plain, &[name, &said]);
        }
    }

    fn instruments(&mut self, outcome: &Outcome) {
        if outcome.instruments.is_empty() {
            return;
        }
        self.heading("Instruments", &["name", "what it is", "accuracy", "repeats", "serial", "calibrated", "due"]);
        for one in &outcome.instruments {
            let part = |part: &Option<String>| part.clone().unwrap_or_default();
            let parts = [&one.accuracy, &one.repeats, &one.serial, &one.calibrated, &one.due].map(part);
            let texts: Vec<&str> =
                [&one.name, &one.description].into_iter().chain(&parts).map(String::as_str).collect();
            self.line(Style::Plain, &texts);
        }
    }

    fn sources(&mut self, outcome: &Outcome) {
        let refrigerants = sources::of_refrigerants(outcome);
        if outcome.functions.is_empty() && refrigerants.is_empty() {
            return;
        }
        self.heading("Sources", &["of", "source", "equation", "holds"]);
        for one in &outcome.functions {
            self.line(Style::Plain, &[&one.name, &one.source, &one.equation, &one.validity]);
        }
        for (name, source) in &refrigerants {
            self.line(Style::Plain, &[name, source]);
        }
    }
}
