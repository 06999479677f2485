//! `dewline check`: names and kinds only.

use clap::Args;
use dewline_lang::job;

use crate::console::Console;
use crate::draw::draw;
use crate::host::FolderHost;
use crate::problem::{Problem, Stop};
use crate::words::{hang, plain};

#[derive(Debug, Args)]
pub struct Arguments {
    /// Sheets; `-` is standard input
    #[arg(required = true, value_name = "SHEET")]
    sheets: Vec<String>,
}

pub fn check(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let library = dewline_stdlib::library();
    let mut code = 0;
    for sheet in &arguments.sheets {
        let (host, document) = match FolderHost::open(sheet, &mut console.input) {
            Ok(opened) => opened,
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
                let open: Vec<String> =
                    job.open_inputs().into_iter().filter(|one| one.is_open).map(|one| one.name).collect();
                if !open.is_empty() {
                    let mut said = String::new();
                    hang(&mut said, "  still open: ", &open.join(", "));
                    console.out.write_all(said.as_bytes())?;
                }
            }
        }
        console.out.flush()?;
    }
    Ok(code)
}
