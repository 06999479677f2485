//! `dewline check`: names and kinds only.

use clap::Args;
use dewline_lang::job;

use crate::console::Console;
use crate::draw::draw;
use crate::host::{Allowed, FolderHost};
use crate::problem::{Problem, Stop};
use crate::words::{hang, plain};

#[derive(Debug, Args)]
pub struct Arguments {
    /// Sheets; `-` is standard input
    #[arg(required = true, value_name = "SHEET")]
    sheets: Vec<String>,
    /// Lets sheets use files of this folder too (repeatable)
    #[arg(long, value_name = "FOLDER")]
    allow: Vec<String>,
}

pub fn check(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let library = dewline_stdlib::library();
    let allowed = Allowed::read(&arguments.allow)?;
    let mut code = 0;
    for sheet in &arguments.sheets {
        let (host, document) = match FolderHost::open(sheet, &mut console.input) {
            Ok((host, document)) => (host.allowing(&allowed), document),
            Err(problem) => {
                console.say(&Problem::from(problem).text());
                code = 2;
                continue;
            }
        };
        let checked = job::check(&library, &host, &document.name, &document.text);
        if !checked.diagnostics.is_empty() {
            console.say(&draw(&checked.sources, &checked.diagnostics, console.err_paint));
        }
        let name = plain(&document.name);
        match &checked.job {
            None => {
                code = 2;
                writeln!(console.out, "{name}: {}", console.out_paint.bad("UNUSABLE"))?;
            }
            Some(job) => {
                writeln!(console.out, "{name}: {}", console.out_paint.good("usable"))?;
                let open: Vec<_> = job.open_inputs().into_iter().filter(|one| one.is_open).collect();
                // A line each: the words of a confirmation may hold commas themselves.
                let mut said = String::from(if open.is_empty() { "" } else { "  still open\n" });
                for one in &open {
                    hang(&mut said, "    ", &one.name);
                }
                console.out.write_all(said.as_bytes())?;
            }
        }
        console.out.flush()?;
    }
    Ok(code)
}
