//! The corpus: sheets that say in their own comments what must come of them.
//!
//! ```text
//! #: set end_pressure = 540 psig      given from outside, as with --set
//! a = 5 psi + 3 ft
//! #! 5-16 D0301 message               an error of the line above, at these columns
//! #= b 12 psi                         a value, a verdict, a thing to take
//! ```
//!
//! Expectation lines (`#!`, `#=`) are taken out before the sheet is read, so they never change what they
//! describe. All errors and the whole outcome are written down: what is missing fails, and so does what is extra.

mod collect;
mod describe;
mod expectation;

pub use collect::{Case, collect};
pub use describe::outcome;
pub use expectation::{Expectations, split};

use dewline_lang::job::{self, Settings};
use dewline_lang::library::Library;

/// Runs one case and writes down what came of it, in the form of [`Expectations`].
pub fn observe(library: &Library, case: &Case) -> Expectations {
    let path = case.path.to_string_lossy();
    let (host, document) = dewline::FolderHost::open(&path, &mut std::io::empty())
        .unwrap_or_else(|problem| panic!("{path}: {}", problem.message));
    let checked = job::check(library, &host, &document.name, &case.sheet);
    let mut seen = Expectations::default();
    describe::errors(&mut seen, &checked.sources, &checked.diagnostics);
    let Some(job) = checked.job else { return seen };
    let run = job.run(library, &host, &Settings::from(case.settings.clone()));
    describe::errors(&mut seen, &run.sources, &run.diagnostics);
    describe::outcome(&mut seen, &run.outcome);
    seen
}
