//! `dewline audit`: records run again and compared.

use std::path::PathBuf;

use clap::Args;
use dewline_lang::limits::STACK_BYTES;
use rayon::prelude::*;

use super::worse;
use crate::audit::{Auditor, Printer, Report, Style, records};
use crate::console::Console;
use crate::host::Allowed;
use crate::problem::{Problem, Stop};
use crate::progress::Progress;
use crate::record::Trusted;

/// Records audited at once before what was found is printed: enough to keep every thread busy, few enough to hold.
const AT_ONCE: usize = 256;

#[derive(Debug, Args)]
#[command(after_help = "Results: same, differs, tampered (changed after it was made), not trusted (with --trust), \
                        cannot run.\nExit codes: 0 all are the same, 1 a difference or tampering, 2 a record could \
                        not be used.")]
pub struct Arguments {
    /// Records, or folders of records
    #[arg(required = true, value_name = "RECORD")]
    records: Vec<String>,
    /// Compares with the sheets in this folder as they are now, and says what changed
    #[arg(long, value_name = "FOLDER")]
    sources: Option<String>,
    /// Lets those sheets use files of this folder too (repeatable)
    #[arg(long, value_name = "FOLDER", requires = "sources")]
    allow: Vec<String>,
    /// How far the numbers of an older library may lie apart, relative to the larger, such as 1e-6
    #[arg(long, value_name = "NUMBER", value_parser = tolerance)]
    tolerance: Option<f64>,
    /// A public key whose signature counts (repeatable); a record that none of them signed is not trusted
    #[arg(long, value_name = "KEY")]
    trust: Vec<String>,
    /// text, or jsonl: a line of JSON a record
    #[arg(long, value_parser = Style::named, default_value = "text")]
    format: Style,
    /// How many records to audit at once; as many as there are processors if not given
    #[arg(long, value_name = "NUMBER")]
    threads: Option<usize>,
    /// Says nothing of records that are the same
    #[arg(long)]
    quiet: bool,
}

pub fn audit(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let mut auditor = Auditor::new()?;
    auditor.trusted = Trusted::read(&arguments.trust)?;
    auditor.sources.clone_from(&arguments.sources);
    auditor.allowed = Allowed::read(&arguments.allow)?;
    auditor.tolerance = arguments.tolerance;
    let paths = records(&arguments.records)?;
    let threads = rayon::ThreadPoolBuilder::new()
        .num_threads(arguments.threads.unwrap_or(0))
        .stack_size(STACK_BYTES)
        .build()
        .map_err(|error| Problem::new(format!("no threads can be had: {error}")))?;
    let brief = arguments.quiet || paths.len() > 1;
    let mut printer = Printer::new(arguments.format, brief, console.out_paint);
    let mut progress = Progress::new("records", paths.len(), console.err_terminal);
    let mut code = 0;
    for some in paths.chunks(AT_ONCE) {
        let reports: Vec<Report> =
            threads.install(|| some.par_iter().map(|path: &PathBuf| auditor.audit(path)).collect());
        for report in &reports {
            code = worse(code, report.result.exit_code());
            let mut done = Ok(());
            progress.aside(|| done = printer.report(&mut *console.out, report));
            done?;
        }
        progress.step(reports.len());
    }
    drop(progress);
    if paths.len() > 1 {
        match arguments.format {
            Style::Text => console.out.write_all(printer.summary().as_bytes())?,
            // Lines of JSON are for other programs; the summary is for whoever started them.
            Style::JsonLines => console.say(&printer.summary()),
        }
    }
    Ok(code)
}

fn tolerance(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(number) if (0.0..1.0).contains(&number) => Ok(number),
        _ => Err("write a number from 0 to less than 1, such as 1e-6".to_string()),
    }
}
