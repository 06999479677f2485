//! `dewline why`: how a cell came by its value.

use clap::Args;
use dewline_lang::job::{self, Budget, Settings, Why};
use dewline_lang::units;

use crate::console::Console;
use crate::draw::draw;
use crate::host::{Allowed, FolderHost};
use crate::problem::Stop;
use crate::settings;
use crate::words::{PAGE, left, plain, right, width, wrap};

#[derive(Debug, Args)]
pub struct Arguments {
    /// The sheet; `-` is standard input
    sheet: String,
    /// The cell, such as drift, hold.rate or 'indoor["Exam 1"].superheat'
    cell: String,
    /// Sets an input, a reading or an open table
    #[arg(long = "set", value_name = "NAME=VALUE", value_parser = settings::split)]
    set: Vec<(String, String)>,
    /// Sets what an object of names and values in a file says
    #[arg(long, value_name = "FILE")]
    set_from: Option<String>,
    /// Lets the sheet use files of this folder too (repeatable)
    #[arg(long, value_name = "FOLDER")]
    allow: Vec<String>,
}

pub fn why(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let runs = settings::runs(arguments.set_from.as_deref(), &arguments.set)?;
    let library = dewline_stdlib::library();
    let (host, document) = FolderHost::open(&arguments.sheet, &mut console.input)?;
    let host = host.allowing(&Allowed::read(&arguments.allow)?);
    let checked = job::check(&library, &host, &document.name, &document.text);
    if !checked.diagnostics.is_empty() {
        console.say(&draw(&checked.sources, &checked.diagnostics, console.err_paint));
    }
    let Some(job) = checked.job else { return Ok(2) };
    let mut code = 0;
    for settings in &runs {
        let run = job.run(&library, &host, &Settings { values: settings.values.clone() });
        if !run.diagnostics.is_empty() {
            console.say(&draw(&run.sources, &run.diagnostics, console.err_paint));
        }
        if settings::refused(&run.diagnostics) {
            code = 2;
            continue;
        }
        match run.why(&arguments.cell) {
            Ok(why) => {
                console.out.write_all(tree(&why).as_bytes())?;
                if let Some(budget) = &why.budget {
                    console.out.write_all(told(budget).as_bytes())?;
                }
            }
            Err(error) => {
                console.say(&draw(&run.sources, &[error], console.err_paint));
                code = 2;
            }
        }
    }
    Ok(code)
}

/// The tree, each part under what it goes into: name and value, then the formula, then its own parts.
pub fn tree(why: &Why) -> String {
    let mut out = String::new();
    // Parts still to be written, the next last: how far in, the bars of those above, whether the last of its kin.
    let mut waiting = vec![(why, String::new(), true, true)];
    while let Some((one, bars, last, first)) = waiting.pop() {
        let (lead, below) = match (first, last) {
            (true, _) => (String::new(), String::new()),
            (_, true) => (format!("{bars}└─ "), format!("{bars}   ")),
            (_, false) => (format!("{bars}├─ "), format!("{bars}│  ")),
        };
        let value = if one.value.is_empty() { "not known".to_string() } else { plain(&one.value).into_owned() };
        let mut line = format!("{} = {value}", plain(&one.name));
        if !one.about.is_empty() {
            line.push_str(&format!("   ({})", plain(&one.about)));
        }
        if one.seen_above && !one.formula.is_empty() {
            line.push_str("   (told above)");
        }
        let has_parts = !one.parts.is_empty();
        let under = format!("{below}{}", if has_parts { "│  " } else { "   " });
        put(&mut out, &lead, &under, &line);
        if !one.formula.is_empty() && !one.seen_above {
            put(&mut out, &under, &under, &format!("= {}", plain(&one.formula)));
        }
        if has_parts {
            let count = one.parts.len();
            for (index, part) in one.parts.iter().enumerate().rev() {
                waiting.push((part, below.clone(), index + 1 == count, false));
            }
        }
    }
    out
}

/// The budget of the value asked for: the total, then what each reading contributes, then each instrument in all.
fn told(budget: &Budget) -> String {
    let freedom =
        budget.freedom.map_or_else(String::new, |freedom| format!(", {} degrees of freedom", number(freedom, 3)));
    let mut out = format!(
        "\nUncertainty: U = {} (k = {}{freedom}), standard uncertainty {}\n",
        budget.expanded,
        number(budget.k, 3),
        budget.standard
    );
    let shown = budget.contributions.iter().take(CONTRIBUTIONS);
    let mut rows = vec![["from", "", "u", "times", "gives", "share"].map(str::to_string).to_vec()];
    rows.extend(shown.map(|one| {
        let texts = [&one.name, &one.about, &one.standard, &one.sensitivity, &one.contribution];
        texts.map(|text| plain(text).into_owned()).into_iter().chain([per_cent(one.share)]).collect()
    }));
    columns(&mut out, &rows, 2);
    if budget.contributions.len() > CONTRIBUTIONS {
        let rest = budget.contributions.len() - CONTRIBUTIONS;
        let share: f64 = budget.contributions[CONTRIBUTIONS..].iter().map(|one| one.share).sum();
        out.push_str(&format!("  and {rest} smaller ones, {} together\n", per_cent(share)));
    }
    if !budget.instruments.is_empty() {
        out.push_str("By instrument:\n");
        let rows: Vec<Vec<String>> = budget
            .instruments
            .iter()
            .map(|(name, part, share)| vec![plain(name).into_owned(), part.clone(), per_cent(*share)])
            .collect();
        columns(&mut out, &rows, 1);
    }
    if budget.incomplete {
        out.push_str("Not all doubt could be carried to it: a function refuses beside its arguments, or there is too much of it.\n");
    }
    out
}

/// Contributions that are told one by one.
const CONTRIBUTIONS: usize = 12;

/// Rows under one another; the first columns to the left, the others to the right.
fn columns(out: &mut String, rows: &[Vec<String>], to_the_left: usize) {
    let count = rows.first().map_or(0, Vec::len);
    let widths: Vec<usize> =
        (0..count).map(|column| rows.iter().map(|row| width(&row[column])).max().unwrap_or(0)).collect();
    for row in rows {
        let fields =
            row.iter().zip(&widths).enumerate().map(|(at, (field, &columns))| {
                if at < to_the_left { left(field, columns) } else { right(field, columns) }
            });
        out.push_str(format!("  {}", fields.collect::<Vec<_>>().join("  ")).trim_end());
        out.push('\n');
    }
}

fn per_cent(share: f64) -> String {
    if share > 0.0 && share < 0.001 { "< 0.1 %".to_string() } else { format!("{:.1} %", share * 100.0) }
}

fn number(value: f64, figures: usize) -> String {
    units::show::number(format!("{value:.*e}", figures - 1).parse().unwrap_or(value))
}

/// A text after a lead, its further lines after another.
fn put(out: &mut String, lead: &str, further: &str, text: &str) {
    for (index, line) in wrap(text, PAGE.saturating_sub(width(further))).iter().enumerate() {
        let before = if index == 0 { lead } else { further };
        out.push_str(format!("{before}{line}").trim_end());
        out.push('\n');
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(name: &str, value: &str, formula: &str, about: &str, parts: Vec<Why>) -> Why {
        let text = str::to_string;
        Why {
            name: text(name),
            value: text(value),
            formula: text(formula),
            about: text(about),
            parts,
            seen_above: false,
            budget: None,
        }
    }

    #[test]
    fn each_part_stands_under_what_it_goes_into() {
        let expected = part(
            "expected",
            "558.0 psig",
            "trapped(start)",
            "",
            vec![part("start", "550.0 psig", "", "reading by test_gauge", vec![])],
        );
        let end = part("end", "556.0 psig", "", "reading", vec![]);
        let drift = part("drift", "-2.0 psi", "end - expected", "", vec![end, expected]);
        let drawn = "drift = -2.0 psi\n\
                     │  = end - expected\n\
                     ├─ end = 556.0 psig (reading)\n\
                     └─ expected = 558.0 psig\n   \
                        │  = trapped(start)\n   \
                        └─ start = 550.0 psig (reading by test_gauge)\n";
        assert_eq!(tree(&drift), drawn);
    }
}
