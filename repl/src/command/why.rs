//! `dewline why`: how a cell came by its value.

use clap::Args;
use dewline_lang::job::{self, Settings, Why};

use crate::console::Console;
use crate::draw::draw;
use crate::host::FolderHost;
use crate::problem::Stop;
use crate::settings;
use crate::words::{PAGE, plain, width, wrap};

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
}

pub fn why(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let runs = settings::runs(arguments.set_from.as_deref(), &arguments.set)?;
    let library = dewline_stdlib::library();
    let (host, document) = FolderHost::open(&arguments.sheet, &mut console.input)?;
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
            Ok(why) => console.out.write_all(tree(&why).as_bytes())?,
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
