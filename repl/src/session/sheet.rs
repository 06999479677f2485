//! The sheet as it stands: its text read, checked and run.

use dewline_lang::diagnostic::{Diagnostic, Severity};
use dewline_lang::host::Host;
use dewline_lang::job::{self, Job, Run, Settings};
use dewline_lang::library::Library;
use dewline_lang::outcome::Outcome;
use dewline_lang::source::{FileId, Sources};
use dewline_lang::syntax::{self, tree};

use super::work::{Filled, Seen, Work};

/// A sheet with all that came of it.
pub struct Sheet {
    /// The name it is shown under.
    pub name: String,
    /// Its text, and what was filled into its data files.
    pub work: Work,
    /// What was met in its data files.
    pub seen: Seen,
    /// Its statements.
    pub tree: tree::Sheet,
    /// Every text that a message may point into.
    pub sources: Sources,
    /// What checking found.
    pub diagnostics: Vec<Diagnostic>,
    /// What can be run; missing if there are errors.
    pub job: Option<Job>,
    /// What came out.
    pub run: Option<Run>,
}

impl Sheet {
    /// Reads, checks and runs a text.
    pub fn of(library: &Library, host: &dyn Host, name: &str, work: Work) -> Sheet {
        let files = Filled::new(host, &work.fields);
        let checked = job::check(library, &files, name, &work.text);
        let tree = syntax::parse(FileId::default(), &work.text).sheet;
        let run = checked.job.as_ref().map(|job| job.run(library, &files, &Settings::default()));
        let sources = run.as_ref().map_or(checked.sources, |run| run.sources.clone());
        let (diagnostics, job) = (checked.diagnostics, checked.job);
        let seen = files.into_seen();
        Sheet { name: name.to_string(), work, seen, tree, sources, diagnostics, job, run }
    }

    /// What came out.
    pub fn outcome(&self) -> Option<&Outcome> {
        self.run.as_ref().map(|run| &run.outcome)
    }

    /// What went wrong while running.
    pub fn run_diagnostics(&self) -> &[Diagnostic] {
        self.run.as_ref().map_or(&[], |run| &run.diagnostics)
    }

    /// Mistakes because of which nothing can be computed.
    pub fn errors(&self) -> usize {
        self.diagnostics.iter().filter(|one| one.severity == Severity::Error).count()
    }

    /// All statements, those of stages after the stage they stand in.
    pub fn statements(&self) -> impl Iterator<Item = &tree::Statement> {
        all(&self.tree)
    }
}

/// All statements of a tree, those of stages after the stage they stand in.
pub fn all(tree: &tree::Sheet) -> impl Iterator<Item = &tree::Statement> {
    tree.statements.iter().flat_map(|statement| {
        let inner: &[tree::Statement] = match &statement.kind {
            tree::StatementKind::Stage(stage) => &stage.statements,
            _ => &[],
        };
        std::iter::once(statement).chain(inner)
    })
}
