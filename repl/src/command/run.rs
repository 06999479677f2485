//! `dewline run`: computes sheets and reports.

use std::path::{Path, PathBuf};

use clap::Args;
use dewline_lang::job::Trials;

use super::inputs::Inputs;
use super::runs::{Asked, each};
use crate::console::Console;
use crate::host::{Allowed, workbook};
use crate::output::NewFile;
use crate::paint::Paint;
use crate::problem::{Problem, Stop};
use crate::record::{Key, Recorder};
use crate::report::{Format, Look, Reporter, write_folder};
use crate::settings;

#[derive(Debug, Args)]
pub struct Arguments {
    /// Sheets; `-` is standard input
    #[arg(required = true, value_name = "SHEET")]
    sheets: Vec<String>,
    /// Sets an input, a reading or an open table
    #[arg(long = "set", value_name = "NAME=VALUE", value_parser = settings::split)]
    set: Vec<(String, String)>,
    /// Sets what a file says: an object of names and values (.json), or one run a row (.csv or .xlsx)
    #[arg(long, value_name = "FILE")]
    set_from: Option<String>,
    /// text, markdown, html, json, csv or xlsx; if not given, what the ending of --out says, else text
    #[arg(long, value_parser = Format::named)]
    format: Option<Format>,
    /// Writes the report to this file; for csv a folder (ending in /) takes all tables
    #[arg(long, value_name = "FILE")]
    out: Option<String>,
    /// Writes a record of the run to this file, to be run again by `dewline audit`; of several runs a folder takes a
    /// record each
    #[arg(long, value_name = "FILE")]
    record: Option<String>,
    /// Signs the record with this private key; `dewline record keys NAME` makes one
    #[arg(long, value_name = "KEY", requires = "record")]
    sign: Option<String>,
    /// Lets sheets use files of this folder too (repeatable)
    #[arg(long, value_name = "FOLDER")]
    allow: Vec<String>,
    /// The verdict and what does not hold, nothing else
    #[arg(long)]
    quiet: bool,
    /// Runs the job again so many times with readings drawn from what is stated of them, and compares
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u32).range(100..=10_000_000))]
    trials: Option<u32>,
    /// What the draws of --trials begin with: the same number gives the same trials
    #[arg(long, value_name = "NUMBER", default_value_t = 1, requires = "trials")]
    seed: u64,
}

impl Arguments {
    /// The trials asked for, on as many threads as there are processors.
    fn trials(&self) -> Option<Trials> {
        let threads = std::thread::available_parallelism().map_or(1, usize::from);
        Some(Trials { count: self.trials? as usize, seed: self.seed, threads })
    }
}

pub fn run(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let inputs = named(arguments);
    let target = target(arguments, &inputs)?;
    let runs = settings::runs(arguments.set_from.as_deref(), &arguments.set)?;
    let format = match (&arguments.format, &target) {
        (Some(format), _) => *format,
        (None, Target::Folder(_)) => Format::Csv,
        (None, Target::File(path)) => Format::of_ending(path)?,
        (None, Target::Output) => Format::Text,
    };
    if format == Format::Xlsx && matches!(target, Target::Output) && console.out_terminal {
        let problem = Problem::new("a workbook is no text: a terminal cannot show it");
        return Err(problem.with_mend("name a file: --out report.xlsx").into());
    }
    let many = arguments.sheets.len() * runs.len() > 1;
    let recorder = recorder(arguments, many, &inputs)?;
    let mut look = Look {
        format,
        quiet: arguments.quiet,
        paint: console.out_paint,
        many,
        errors_seen: console.out_terminal && console.err_terminal,
    };
    let asked =
        Asked { inputs: &inputs, recorder, trials: arguments.trials(), allowed: Allowed::read(&arguments.allow)? };
    match target {
        Target::Output => {
            // The reporter holds the output while messages go to the other stream.
            let mut out = std::mem::replace(&mut console.out, Box::new(std::io::sink()));
            let mut reporter = Reporter::new(&mut *out, look);
            let code = each(&arguments.sheets, &runs, asked, console, &mut |run, outcome, beside| {
                Ok(reporter.add(run, outcome, beside)?)
            });
            let ended = match code {
                Ok(_) => reporter.finish(),
                Err(_) => Ok(()),
            };
            console.out = out;
            ended?;
            code
        }
        Target::File(path) => {
            look.paint = Paint::new(false);
            look.errors_seen = false;
            let mut file = NewFile::begin(Path::new(&path))?;
            let mut reporter = Reporter::new(&mut file, look);
            let code = each(&arguments.sheets, &runs, asked, console, &mut |run, outcome, beside| {
                Ok(reporter.add(run, outcome, beside)?)
            })?;
            reporter.finish()?;
            // Which files a sheet reads is known only now.
            inputs.spare("--out", Path::new(&path))?;
            file.finish()?;
            Ok(code)
        }
        Target::Folder(folder) => {
            let mut number = 0;
            each(&arguments.sheets, &runs, asked, console, &mut |_, outcome, _| {
                number += 1;
                let folder = if many { folder.join(number.to_string()) } else { folder.clone() };
                Ok(write_folder(&folder, outcome, &|place| inputs.spare("--out", place))?)
            })
        }
    }
}

/// What writes records, if any are asked for.
fn recorder(arguments: &Arguments, many: bool, inputs: &Inputs) -> Result<Option<Recorder>, Problem> {
    let Some(place) = &arguments.record else { return Ok(None) };
    inputs.spare("--record", Path::new(place))?;
    if arguments.out.as_ref().is_some_and(|out| out == place || same_file(Path::new(out), Path::new(place))) {
        return Err(Problem::new(format!("the report and the record cannot both be written to \"{place}\""))
            .with_mend("give the record a name of its own"));
    }
    let key = arguments.sign.as_deref().map(Key::read).transpose()?;
    Recorder::new(place, many, key).map(Some)
}

/// The files that the command line itself names; those that a sheet names are known once it is read.
fn named(arguments: &Arguments) -> Inputs {
    let inputs = Inputs::default();
    let values = arguments.set.iter().map(|(_, value)| value.trim_matches('"'));
    let values = values.map(|value| workbook(value).map_or(value, |(file, _)| file));
    for path in arguments.sheets.iter().chain(&arguments.set_from).map(String::as_str).chain(values) {
        inputs.name(path);
    }
    inputs
}

/// Where the report goes.
enum Target {
    Output,
    File(String),
    Folder(PathBuf),
}

fn target(arguments: &Arguments, inputs: &Inputs) -> Result<Target, Problem> {
    let Some(out) = arguments.out.as_deref().filter(|&out| out != "-") else { return Ok(Target::Output) };
    let folder = out.ends_with('/') || Path::new(out).is_dir();
    if folder && matches!(arguments.format, None | Some(Format::Csv)) {
        return Ok(Target::Folder(PathBuf::from(out)));
    }
    inputs.spare("--out", Path::new(out))?;
    Ok(Target::File(out.to_string()))
}

fn same_file(one: &Path, other: &Path) -> bool {
    matches!((one.canonicalize(), other.canonicalize()), (Ok(one), Ok(other)) if one == other)
}
