//! The report for a document, in Markdown with tables.

use std::fmt::Write;

use dewline_lang::outcome::{CellOutcome, CheckVerdict, ColumnOutcome, Outcome, Role, Sort};

use super::once::Printed;
use super::summary::{
    self, check_word, groups, job_word, judged, label_of, sentence, stage_reason, stage_word, value, word_at,
};
use super::{outside, rows, sources};
use crate::words::{count, plain};

/// The report on one outcome; `run` names the row of settings it belongs to, if any.
pub(super) fn report(outcome: &Outcome, run: &str, quiet: bool, digest: Option<&str>) -> String {
    let mut out = String::new();
    put(&mut out, &format!("# {}\n", safe(&outcome.sheet.title)));
    let with = if run.is_empty() { String::new() } else { format!(", with {}", safe(run)) };
    put(&mut out, &format!("{}{with}\n", safe(&outcome.sheet.path)));
    put(&mut out, &format!("**{}.** {}\n", job_word(outcome.verdict), safe(&sentence(outcome))));
    if !quiet && !outcome.stages.is_empty() {
        let rows = outcome.stages.iter().enumerate().map(|(index, stage)| {
            vec![
                (index + 1).to_string(),
                safe(&stage.name),
                stage_word(stage).to_string(),
                safe(&stage_reason(outcome, stage)),
            ]
        });
        grid(&mut out, &["#", "Stage", "Verdict", "Why"], &[true, false, false, false], rows);
    }
    not_in_order(&mut out, outcome);
    list(&mut out, "Still to take", if quiet { &[] } else { &outcome.to_take });
    errors(&mut out, outcome);
    if quiet {
        return out;
    }
    list(&mut out, "Advice", &outcome.advice);
    for (title, lines) in outside::lists(outcome) {
        list(&mut out, title, &lines);
    }
    let mut stages = vec![""];
    stages.extend(outcome.stages.iter().map(|stage| stage.name.as_str()));
    for stage in stages {
        section(&mut out, outcome, stage);
    }
    trials(&mut out, outcome);
    instruments(&mut out, outcome);
    list(&mut out, "Assumptions", &outcome.assumptions);
    list(&mut out, "Cautions", &outcome.cautions);
    let mut sources: Vec<String> =
        outcome.functions.iter().map(|one| format!("{}, {}: {}", one.name, one.gives, one.source)).collect();
    sources
        .extend(sources::of_refrigerants(outcome).iter().map(|(name, source)| format!("{name}, properties: {source}")));
    list(&mut out, "Sources", &sources);
    list(&mut out, outside::FILES, &outside::files(outcome));
    let digests =
        [("digest of the record", digest), ("SHA-256 of the sheet's text", Some(outcome.sheet.sha256.as_str()))];
    let known = digests.into_iter().filter_map(|(name, digest)| Some(format!("{name}: {}", digest?)));
    list(&mut out, "Record", &known.collect::<Vec<_>>());
    out
}

/// What all runs came to.
pub(super) fn total(title: &str, lines: &[String]) -> String {
    let mut out = String::from("\n---\n\n");
    list(&mut out, title, lines);
    out
}

fn trials(out: &mut String, outcome: &Outcome) {
    let Some(trials) = &outcome.trials else { return };
    put(out, &format!("## Trials\n\n{}\n", safe(&summary::trials(trials))));
    let chances = summary::chances(outcome);
    if !chances.is_empty() {
        let rows = chances.iter().map(|chance| {
            let broken = if chance.broken > 0 { chance.broken.to_string() } else { String::new() };
            let fields =
                [chance.label.as_str(), word_at(chance.level, chance.verdict), &chance.holds, &chance.first, &broken];
            fields.map(safe).to_vec()
        });
        let heads = ["Check", "Verdict", "Holds in", "To first order", "Not judged in"];
        grid(out, &heads, &[false, false, true, true, true], rows);
    }
    if trials.values.is_empty() {
        return;
    }
    let [told, rest] = summary::trial_values(trials);
    let rows = told.iter().map(|value| {
        let verdict = summary::trial_word(value);
        let [mean, doubt, interval] = summary::trial_shown(value, trials.count);
        let fields = [&value.name, &mean, &doubt, &interval, &value.shown_first];
        fields.map(|field| safe(field)).into_iter().chain([verdict.to_string()]).collect()
    });
    let heads = ["Value", "Mean", "u", "95 % of the trials", "To first order", ""];
    grid(out, &heads, &[false, true, true, true, true, false], rows);
    if !rest.is_empty() {
        let rows = count(rest.len(), "further value of rows does not differ", "further values of rows do not differ");
        put(out, &format!("{rows}; csv and xlsx list all of them.\n"));
    }
}

fn instruments(out: &mut String, outcome: &Outcome) {
    if outcome.instruments.is_empty() {
        return;
    }
    put(out, "## Instruments\n");
    let rows = outcome.instruments.iter().map(|one| {
        let part = |part: &Option<String>| safe(part.as_deref().unwrap_or_default());
        let parts = [&one.accuracy, &one.repeats, &one.serial, &one.calibrated, &one.due].map(part);
        [safe(&one.name), safe(&one.description)].into_iter().chain(parts).collect()
    });
    let heads = ["Name", "What it is", "Accuracy", "Repeats", "Serial", "Calibrated", "Due"];
    grid(out, &heads, &[false; 7], rows);
}

fn not_in_order(out: &mut String, outcome: &Outcome) {
    let look = [CheckVerdict::Failed, CheckVerdict::Close, CheckVerdict::Broken, CheckVerdict::Waived];
    let rows: Vec<Vec<String>> = outcome
        .checks
        .iter()
        .filter(|check| check.level == "require" && look.contains(&check.verdict))
        .map(|check| {
            let cells = [check.stage.as_str(), &label_of(check), check_word(check.verdict), &judged(check)];
            cells.map(safe).to_vec()
        })
        .collect();
    if !rows.is_empty() {
        put(out, "## Not in order\n");
        grid(out, &["Stage", "Check", "Verdict", "Judged"], &[false; 4], rows.into_iter());
    }
}

fn errors(out: &mut String, outcome: &Outcome) {
    if outcome.errors.is_empty() {
        return;
    }
    put(out, "## Errors\n");
    let rows = outcome.errors.iter().map(|error| {
        let row = error.row.as_deref().unwrap_or("");
        [error.code, &error.cell, row, &error.message, &error.place].map(safe).to_vec()
    });
    grid(out, &["Code", "Cell", "Row", "Message", "Place"], &[false; 5], rows);
}

fn section(out: &mut String, outcome: &Outcome, stage: &str) {
    let mut body = String::new();
    let cells: Vec<&CellOutcome> = outcome.cells.iter().filter(|cell| cell.stage == stage).collect();
    if !cells.is_empty() {
        let rows = cells.into_iter().map(cell_row);
        grid(&mut body, &["Value", "", "Kind of value", "From"], &[false, true, false, false], rows);
    }
    for table in outcome.tables.iter().filter(|table| table.stage == stage) {
        put(&mut body, &format!("### Table {}\n", safe(&table.name)));
        if let Some(file) = &table.from {
            put(&mut body, &format!("{}\n", safe(&outside::from(file))));
        }
        let rows = table.columns.iter().map(|column| column.text.len()).max().unwrap_or(0);
        let marks = rows::marks(outcome, table, rows);
        let printed = Printed::once(outcome, table);
        if let Some(elsewhere) = printed.elsewhere(&count(rows, "row", "rows")) {
            put(&mut body, &format!("{}\n", safe(&elsewhere)));
        }
        if printed.has_fields() || marks.iter().any(|mark| !mark.is_empty()) {
            columns(&mut body, &printed.columns, &rows::chosen(&marks), &marks);
        }
        let measured = |column: &ColumnOutcome| Some(format!("{}: {}", column.name, rows::measured_by(column)?));
        let measured: Vec<String> = table.columns.iter().filter_map(measured).collect();
        if !measured.is_empty() {
            put(&mut body, &format!("{}\n", safe(&measured.join("; "))));
        }
    }
    for chart in outcome.charts.iter().filter(|chart| chart.stage == stage) {
        put(&mut body, &format!("### Chart: {}\n", safe(&chart.title)));
        let rows = chart.columns.iter().map(|column| column.text.len()).max().unwrap_or(0);
        let marks = vec![""; rows];
        columns(&mut body, &rows::points(chart).iter().collect::<Vec<_>>(), &rows::chosen(&marks), &marks);
    }
    checks(&mut body, outcome, stage);
    for note in outcome.notes.iter().filter(|note| note.stage == stage) {
        put(&mut body, &format!("> {}\n", safe(note.text.as_deref().unwrap_or("(waits for values not taken yet)"))));
    }
    if body.is_empty() {
        return;
    }
    let name = if stage.is_empty() { "For the whole job" } else { stage };
    let verdict = outcome.stages.iter().find(|one| one.name == stage).map(stage_word);
    put(out, &format!("## {}{}\n", safe(name), verdict.map(|word| format!(" - {word}")).unwrap_or_default()));
    out.push_str(&body);
}

fn cell_row(cell: &CellOutcome) -> Vec<String> {
    let value = value(cell);
    let role = match cell.role {
        Role::Input => "input",
        Role::Reading => "reading",
        Role::Cell => "computed",
    };
    let stated = &cell.stated;
    let mut from: Vec<&str> =
        [&stated.by, &stated.at, &stated.note].into_iter().flatten().map(String::as_str).collect();
    if !cell.formula.is_empty() {
        from.insert(0, &cell.formula);
    }
    if cell.set.is_some() {
        from.insert(0, "set from outside");
    }
    [cell.name.as_str(), &value, role, &from.join(", ")].map(safe).to_vec()
}

/// The chosen rows of some columns; with a last column where a check asks for a look.
fn columns(out: &mut String, columns: &[&ColumnOutcome], rows: &[usize], marks: &[&str]) {
    let marked = marks.iter().any(|mark| !mark.is_empty());
    let head = |column: &ColumnOutcome| match column.unit.as_str() {
        "" => safe(&column.name),
        unit => safe(&format!("{} [{unit}]", column.name)),
    };
    let mut heads: Vec<String> = columns.iter().copied().map(head).collect();
    let mut numeric: Vec<bool> = columns
        .iter()
        .map(|column| !matches!(column.kind, Sort::Text | Sort::Flag | Sort::Time | Sort::Refrigerant | Sort::Gas))
        .collect();
    if marked {
        heads.push("check".to_string());
        numeric.push(false);
    }
    let field = |column: &ColumnOutcome, row: usize| rows::field(column, row).map_or_else(str::to_string, safe);
    let fields = rows.iter().map(|&row| {
        let mark = marks.get(row).filter(|_| marked).map(|mark| (*mark).to_string());
        columns.iter().map(|column| field(column, row)).chain(mark).collect()
    });
    let heads: Vec<&str> = heads.iter().map(String::as_str).collect();
    grid(out, &heads, &numeric, fields);
    if rows.len() < marks.len() {
        put(out, &format!("{} of {}.\n", rows.len(), count(marks.len(), "row", "rows")));
    }
}

fn checks(out: &mut String, outcome: &Outcome, stage: &str) {
    let mut rows: Vec<Vec<String>> = Vec::new();
    for group in groups(&outcome.checks).iter().filter(|group| group.stage == stage) {
        let judged = match group.entries.as_slice() {
            [only] => judged(only),
            _ => group.rows_in_words(),
        };
        rows.push([group.label, group.level, word_at(group.level, group.worst()), &judged].map(safe).to_vec());
    }
    for one in outcome.confirmations.iter().filter(|one| one.stage == stage) {
        let who: Vec<&str> = [&one.by, &one.at].into_iter().flatten().map(String::as_str).collect();
        rows.push([one.label.as_str(), "confirm", check_word(one.verdict), &who.join(", ")].map(safe).to_vec());
    }
    if !rows.is_empty() {
        grid(out, &["Check", "Level", "Verdict", "Judged"], &[false; 4], rows.into_iter());
    }
}

fn list(out: &mut String, title: &str, items: &[String]) {
    if items.is_empty() {
        return;
    }
    put(out, &format!("## {title}\n"));
    for item in items {
        let _ = writeln!(out, "- {}", safe(item));
    }
    out.push('\n');
}

/// A table; `numeric` columns stand to the right.
fn grid(out: &mut String, heads: &[&str], numeric: &[bool], rows: impl Iterator<Item = Vec<String>>) {
    let _ = writeln!(out, "| {} |", heads.join(" | "));
    let rules: Vec<&str> = numeric.iter().map(|&numeric| if numeric { "---:" } else { "---" }).collect();
    let _ = writeln!(out, "| {} |", rules.join(" | "));
    for row in rows {
        let _ = writeln!(out, "| {} |", row.join(" | "));
    }
    out.push('\n');
}

fn put(out: &mut String, paragraph: &str) {
    out.push_str(paragraph);
    out.push('\n');
}

/// The text with everything escaped that Markdown or HTML would take for a mark.
fn safe(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in plain(text).chars() {
        match letter {
            '-' | '+' | '=' if out.is_empty() => {
                out.push('\\');
                out.push(letter);
            }
            '\\' | '`' | '*' | '_' | '[' | ']' | '|' | '#' | '~' => {
                out.push('\\');
                out.push(letter);
            }
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '&' => out.push_str("&amp;"),
            letter => out.push(letter),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    #![allow(clippy::panic)]
    use super::*;
    use crate::report::sample;

    #[test]
    fn hostile_texts_stay_texts() {
        use pulldown_cmark::{Event, Options, Parser};
        let report = report(&sample::hostile(), "", false, None);
        let mut text = String::new();
        for event in
            Parser::new_ext(&report, Options::ENABLE_TABLES | Options::ENABLE_STRIKETHROUGH | Options::ENABLE_TASKLISTS)
        {
            match event {
                Event::Text(piece) => text.push_str(&piece),
                Event::Start(_) | Event::End(_) | Event::SoftBreak => {}
                other => panic!("{other:?} in\n{report}"),
            }
        }
        for hostile in sample::HOSTILE {
            let plain = plain(hostile);
            assert!(text.contains(plain.as_ref()), "{plain} is not in\n{text}");
        }
        assert!(!report.chars().any(|letter| crate::words::steers(letter) && letter != '\n'));
    }

    #[test]
    fn marks_in_texts_stay_texts() {
        assert_eq!(safe("a_b | <b> `x` & c"), "a\\_b \\| &lt;b&gt; \\`x\\` &amp; c");
    }
}
