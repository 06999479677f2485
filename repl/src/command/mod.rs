//! The command line: one file a command.

mod audit;
mod calc;
mod check;
mod columns;
pub(crate) mod explain;
mod fmt;
mod forms;
pub(crate) mod functions;
mod inputs;
pub(crate) mod pt;
mod record;
pub(crate) mod refrigerants;
mod run;
mod runs;
pub(crate) mod units;
pub(crate) mod why;

use std::ffi::OsString;

use clap::error::ErrorKind;
use clap::{CommandFactory, Parser, Subcommand};

use crate::console::Console;
use crate::interactive::interactive;
use crate::problem::Stop;

/// Unit-checked job sheets for refrigeration and air-conditioning.
#[derive(Debug, Parser)]
#[command(name = "dewline", version, about, args_conflicts_with_subcommands = true, max_term_width = 80)]
struct Arguments {
    /// A sheet to work on line by line; without one, and without a command, begin with an empty one
    sheet: Option<String>,
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Compute sheets and report
    Run(run::Arguments),
    /// Compute one expression
    Calc(calc::Arguments),
    /// Check names and kinds of sheets; nothing is computed
    Check(check::Arguments),
    /// Show how a cell came by its value, down to the readings
    Why(why::Arguments),
    /// Run records again and compare
    Audit(audit::Arguments),
    /// Make keys for signing records
    Record(record::Arguments),
    /// Lay sheets out
    Fmt(fmt::Arguments),
    /// Print the two table lines that fit a CSV or XLSX file
    Columns(columns::Arguments),
    /// List units, or look one up
    Units(units::Arguments),
    /// List functions, or show all about one
    Functions(functions::Arguments),
    /// Print a pressure–temperature chart at the site
    Pt(pt::Arguments),
    /// List refrigerants, or show what is known of one
    Refrigerants(refrigerants::Arguments),
    /// List the forms of the library
    Forms,
    /// Print a form, so that you can make it your own
    Show(forms::Arguments),
    /// Say more about a message
    Explain(explain::Arguments),
}

/// Runs one command line, the program's name first, and gives the exit code: 2 something could not be used, 1 a check
/// failed or an audit found a difference, 3 something is still to be taken, 0 otherwise.
pub fn run(arguments: impl IntoIterator<Item = OsString>, console: &mut Console<'_>) -> u8 {
    let arguments = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments,
        Err(error) => return misread(&error, console),
    };
    let done = match arguments.command {
        None => interactive(arguments.sheet.as_deref(), console),
        Some(Command::Run(arguments)) => run::run(&arguments, console),
        Some(Command::Calc(arguments)) => calc::calc(&arguments, console),
        Some(Command::Check(arguments)) => check::check(&arguments, console),
        Some(Command::Why(arguments)) => why::why(&arguments, console),
        Some(Command::Audit(arguments)) => audit::audit(&arguments, console),
        Some(Command::Record(arguments)) => record::record(&arguments, console),
        Some(Command::Fmt(arguments)) => fmt::fmt(&arguments, console),
        Some(Command::Columns(arguments)) => columns::columns(&arguments, console),
        Some(Command::Units(arguments)) => units::units(&arguments, console),
        Some(Command::Functions(arguments)) => functions::functions(&arguments, console),
        Some(Command::Pt(arguments)) => pt::pt(&arguments, console),
        Some(Command::Refrigerants(arguments)) => refrigerants::refrigerants(&arguments, console),
        Some(Command::Forms) => forms::forms(console),
        Some(Command::Show(arguments)) => forms::show(&arguments, console),
        Some(Command::Explain(arguments)) => explain::explain(&arguments, console),
    };
    match done.and_then(|code| console.out.flush().map(|()| code).map_err(Stop::from)) {
        Ok(code) => code,
        Err(Stop::OutputClosed) => 0,
        Err(Stop::Problem(problem)) => {
            // What was already computed comes before the message.
            let _ = console.out.flush();
            console.say(&problem.text());
            2
        }
    }
}

/// The commands, for one who mistyped one.
pub fn commands() -> Vec<String> {
    Arguments::command().get_subcommands().map(|one| one.get_name().to_string()).collect()
}

/// Help and version go to standard output; everything else is a mistake on the command line.
fn misread(error: &clap::Error, console: &mut Console<'_>) -> u8 {
    let wanted = matches!(error.kind(), ErrorKind::DisplayHelp | ErrorKind::DisplayVersion);
    let paint = if wanted { console.out_paint } else { console.err_paint };
    let text = if paint.is_on() { error.render().ansi().to_string() } else { error.render().to_string() };
    if wanted {
        let _ = console.out.write_all(text.as_bytes()).and_then(|()| console.out.flush());
        0
    } else {
        console.say(&text);
        2
    }
}

/// Of two exit codes the one that counts: 2 before 1 before 3 before 0.
fn worse(one: u8, other: u8) -> u8 {
    let weight = |code| [0, 3, 1, 2].iter().position(|&known| known == code).unwrap_or(3);
    if weight(other) > weight(one) { other } else { one }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_command_line_is_well_formed() {
        Arguments::command().debug_assert();
    }

    #[test]
    fn unusable_counts_before_failed_before_incomplete() {
        assert_eq!([worse(3, 1), worse(1, 3), worse(1, 2), worse(0, 3), worse(2, 0)], [1, 1, 2, 3, 2]);
    }
}
