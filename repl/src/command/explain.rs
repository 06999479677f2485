//! `dewline explain`: more about a message.

use clap::Args;
use dewline_lang::diagnostic::Code;
use dewline_lang::suggest::did_you_mean;

use crate::console::Console;
use crate::problem::{Problem, Stop};
use crate::words::{hang, wrap};

#[derive(Debug, Args)]
pub struct Arguments {
    /// The code, such as D0101; all of them if not given
    code: Option<String>,
}

pub fn explain(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let text = match &arguments.code {
        None => all(),
        Some(id) => about(Code::find(id.trim()).ok_or_else(|| unknown(id))?),
    };
    console.out.write_all(text.as_bytes())?;
    Ok(0)
}

fn all() -> String {
    let mut out = String::new();
    for (index, family) in Code::families().iter().enumerate() {
        out.push_str(&format!("{}{}\n", if index > 0 { "\n" } else { "" }, family.about));
        for code in family.codes {
            hang(&mut out, &format!("  {}  ", code.id), code.title);
        }
    }
    out
}

/// All about one message.
pub fn about(code: &Code) -> String {
    let mut out = format!("{}: {}\n\n", code.id, code.title);
    for line in code.explanation.lines() {
        // Examples are set off by blanks and keep their shape.
        if line.starts_with("  ") {
            out.push_str(&format!("{line}\n"));
        } else {
            for wrapped in wrap(line, 78) {
                out.push_str(&format!("{wrapped}\n"));
            }
        }
    }
    out
}

fn unknown(id: &str) -> Problem {
    let problem = Problem::new(format!("there is no message \"{id}\""));
    let near = did_you_mean(&id.to_uppercase(), Code::all().map(|code| code.id));
    problem.with_mend(match near {
        Some(near) => format!("did you mean {near}? All of them: dewline explain"),
        None => "all of them: dewline explain".to_string(),
    })
}
