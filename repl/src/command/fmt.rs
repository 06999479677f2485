//! `dewline fmt`: lays sheets out.

use std::path::Path;

use clap::Args;
use dewline_lang::source::Sources;
use dewline_lang::syntax;

use crate::console::Console;
use crate::draw::draw;
use crate::host::FolderHost;
use crate::output::write_file;
use crate::problem::{Problem, Stop};
use crate::words::plain;

#[derive(Debug, Args)]
pub struct Arguments {
    /// Sheets, rewritten in place; `-` is laid out from standard input to standard output
    #[arg(required = true, value_name = "SHEET")]
    sheets: Vec<String>,
    /// Changes nothing; names the sheets that would change, exit code 1 if there is one
    #[arg(long)]
    check: bool,
}

pub fn fmt(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let mut code = 0;
    for sheet in &arguments.sheets {
        code = super::worse(code, one(sheet, arguments.check, console)?);
    }
    Ok(code)
}

fn one(sheet: &str, check: bool, console: &mut Console<'_>) -> Result<u8, Stop> {
    let (_, document) = match FolderHost::open(sheet, &mut console.input) {
        Ok(opened) => opened,
        Err(problem) => {
            console.say(&Problem::from(problem).text());
            return Ok(2);
        }
    };
    let laid_out = match syntax::format(&document.text) {
        Ok(laid_out) => laid_out,
        Err(diagnostics) => {
            let mut sources = Sources::default();
            sources.add(document.name, document.text);
            console.say(&draw(&sources, &diagnostics, console.err_paint));
            return Ok(2);
        }
    };
    let changed = laid_out != document.text;
    if check {
        if changed {
            writeln!(console.out, "{} would change", plain(&document.name))?;
        }
        return Ok(u8::from(changed));
    }
    if sheet == "-" {
        console.out.write_all(laid_out.as_bytes())?;
    } else if changed {
        write_file(Path::new(sheet), laid_out.as_bytes())?;
        writeln!(console.out, "{} laid out", plain(&document.name))?;
    }
    Ok(0)
}
