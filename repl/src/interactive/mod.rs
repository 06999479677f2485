//! `dewline` and `dewline job.dew`: a session at a terminal, or lines from a pipe.

mod folder;
mod helper;
mod journal;
mod script;
mod state;
mod terminal;

use crate::command::commands;
use crate::console::Console;
use crate::problem::{Problem, Stop};
use crate::session::Session;
use dewline_lang::suggest::did_you_mean;

/// Works line by line, on a sheet if one is named.
pub fn interactive(sheet: Option<&str>, console: &mut Console<'_>) -> Result<u8, Stop> {
    let at_terminal = console.in_terminal && console.out_terminal;
    let mut session = Session::new(dewline_stdlib::library(), Box::new(folder::Folder), console.out_paint)?;
    if let Some(path) = sheet {
        let reply = session.open_first(path).map_err(|problem| perhaps_a_command(path, problem))?;
        // A script asks for what it wants to see.
        if at_terminal {
            console.out.write_all(reply.out.as_bytes())?;
            console.out.flush()?;
        }
        console.say(&reply.said);
    }
    if at_terminal { terminal::run(session, console) } else { script::run(session, console) }
}

/// A word that names no file may have been meant as a command.
fn perhaps_a_command(path: &str, problem: Problem) -> Problem {
    let commands = commands();
    match did_you_mean(path, commands.iter().map(String::as_str)) {
        Some(near) if !path.contains(['.', '/', '\\']) => {
            Problem::new(format!("there is neither a command nor a sheet \"{path}\""))
                .with_mend(format!("did you mean: dewline {near}?"))
        }
        _ => problem,
    }
}
