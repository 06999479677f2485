//! The way in: check a sheet, run it, ask why, calculate one expression.

use std::sync::Arc;

use crate::diagnostic::{Diagnostic, Severity, words};
use crate::engine::{self, World};
use crate::host::{Host, NoFiles};
use crate::library::Library;
use crate::outcome::{FileOutcome, Offers, Outcome};
use crate::plan::{Plan, SitePlan};
use crate::source::{FileId, Sources, Span};
use crate::syntax;
use crate::units::UnitSystem;
use crate::{kinds, limits, names};

pub use crate::engine::{Budget, Contribution, Open, Setting, Settings, Trials, Why};

/// A sheet that has been checked.
#[derive(Debug)]
pub struct Checked {
    /// All texts read.
    pub sources: Sources,
    /// Errors and advice.
    pub diagnostics: Vec<Diagnostic>,
    /// What can be run; missing if there are errors.
    pub job: Option<Job>,
}

/// A sheet without errors, ready to run.
#[derive(Debug, Clone)]
pub struct Job {
    plan: Arc<Plan>,
    sources: Sources,
}

/// Checks a sheet and all it uses and fills: names and kinds; nothing is computed.
pub fn check(library: &Library, host: &dyn Host, name: &str, text: &str) -> Checked {
    let mut sources = Sources::default();
    let mut diagnostics = Vec::new();
    let files = names::read_files(host, &mut sources, name, text, &mut diagnostics);
    let (plan, mut more) = kinds::compile(&files, &sources, library);
    let mut left_out = most(&mut diagnostics) + most(&mut more);
    // What could not be read is judged no further: one mistake, one message.
    let unread: Vec<Span> = diagnostics.iter().map(Diagnostic::span).collect();
    more.retain(|later| !unread.iter().any(|place| place.holds(later.span())));
    diagnostics.append(&mut more);
    diagnostics.sort_by_key(|diagnostic| diagnostic.span());
    diagnostics.dedup();
    left_out += most(&mut diagnostics);
    if let (Some(last), true) = (diagnostics.last(), left_out > 0) {
        let message = format!("and {left_out} more mistakes further down");
        let rest = Diagnostic::error(&words::MORE_MISTAKES, message, last.span(), "the last one shown");
        diagnostics.push(rest.with_mend("mend these first; often one mistake makes many"));
    }
    let errors = diagnostics.iter().any(|diagnostic| diagnostic.severity == Severity::Error);
    let job = (!errors).then(|| Job { plan, sources: sources.clone() });
    Checked { sources, diagnostics, job }
}

/// Keeps the first messages, by place, as many as are ever shown; says how many were more.
fn most(diagnostics: &mut Vec<Diagnostic>) -> usize {
    diagnostics.sort_by_key(Diagnostic::span);
    let more = diagnostics.len().saturating_sub(limits::ERRORS);
    diagnostics.truncate(limits::ERRORS);
    more
}

impl Job {
    /// Everything that can be set from outside, in the order of the sheet.
    pub fn open_inputs(&self) -> Vec<Open> {
        engine::settable(&self.plan)
    }

    /// The plan.
    pub fn plan(&self) -> &Arc<Plan> {
        &self.plan
    }

    /// Runs the sheet with values set from outside.
    pub fn run(&self, library: &Library, host: &dyn Host, settings: &Settings) -> Run {
        let mut sources = self.sources.clone();
        let world = World::new(library, host, settings, &mut sources).guarded(self.plan.guarded);
        let run = engine::run(&self.plan, &world);
        world.report_unused(&self.plan);
        let mut outcome = engine::outcome(&run, &world, &sources);
        // Behind the sheets stand the values that were set.
        let sheets = self.sources.iter().map(|(_, source)| source.name.clone());
        outcome.files.splice(0..0, sheets.map(|name| FileOutcome { name, sha256: String::new() }));
        let origins = world.origins.into_inner();
        Run { sources, diagnostics: outcome.diagnostics.clone(), outcome, run, origins }
    }
}

/// A sheet that has been run.
pub struct Run {
    /// All texts read, those of values set from outside too.
    pub sources: Sources,
    /// What broke, and settings that could not be used.
    pub diagnostics: Vec<Diagnostic>,
    /// What came out.
    pub outcome: Outcome,
    run: engine::Run,
    origins: engine::Origins,
}

/// The air around the job, from which gauges count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Site {
    /// Its pressure in pascal; `None` while the sheet does not know it.
    pub atmosphere: Option<f64>,
    /// The sheet states it; otherwise the standard atmosphere at sea level is taken.
    pub stated: bool,
}

impl Run {
    /// Where the job stands.
    pub fn site(&self) -> Site {
        Site { atmosphere: self.run.atmosphere.number_at(0), stated: !matches!(self.run.plan.site, SitePlan::Unstated) }
    }

    /// Charts that a report can offer beside those that the sheet asks for.
    pub fn offers(&self) -> Offers {
        engine::offers(&self.run)
    }

    /// How a cell came by its value.
    pub fn why(&self, cell: &str) -> Result<Why, Diagnostic> {
        engine::why(&self.run, &self.origins, cell)
    }
}

impl Run {
    /// Runs the job again and again with readings drawn from what is stated of them (JCGM 101); the outcome then tells
    /// what came of it. `progress` is told how many more trials are done. Results do not depend on how many threads work.
    pub fn trials(&mut self, trials: Trials, progress: &(dyn Fn(usize) + Sync)) {
        self.outcome.trials = Some(engine::trials(&self.run, &self.origins, trials, progress));
    }

    /// The correlation of two single values through the causes of doubt that they share, between -1 and 1; nothing if
    /// either is exact or no such value.
    pub fn correlation(&self, one: &str, other: &str) -> Option<f64> {
        engine::correlation(&self.run, one, other)
    }
}

/// What one expression comes to.
#[derive(Debug)]
pub struct Calculated {
    /// The expression as a source.
    pub sources: Sources,
    /// What is wrong with it.
    pub diagnostics: Vec<Diagnostic>,
    /// Answers: one with an empty name, or a field each; empty if there are errors.
    pub answers: Vec<(String, String)>,
    /// Cautions of the functions used.
    pub cautions: Vec<String>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}

/// Calculates one expression, at a site by its altitude or atmosphere (`1280 ft`, `12.93 psia`). The answer is in the unit
/// system of the units typed.
pub fn calculate(library: &Library, expression: &str, site: Option<&str>) -> Calculated {
    // A second line would be a statement of its own: what is pasted here is one expression, or nothing.
    if let Some(refused) = several_lines(expression, site) {
        return refused;
    }
    let statement = site.map(|site| {
        let unit = site.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '_' | ' '));
        let is_length =
            crate::units::parse(unit.trim()).is_ok_and(|unit| unit.dimension == crate::units::Dimension::LENGTH);
        if is_length { format!("site altitude = {site}\n") } else { format!("site atmosphere = {site}\n") }
    });
    let system = syntax::typed_system(expression).or_else(|| site.and_then(syntax::typed_system));
    let units = if system == Some(UnitSystem::Ip) { "units IP\n" } else { "" };
    let text = format!("{ANSWER} = {expression}\n{units}{}", statement.unwrap_or_default());
    let mut checked = check(library, &NoFiles, "calc", &text);
    as_typed(&mut checked.sources, &mut checked.diagnostics, expression);
    let mut calculated = Calculated {
        sources: checked.sources,
        diagnostics: checked.diagnostics,
        answers: Vec::new(),
        cautions: Vec::new(),
        assumptions: Vec::new(),
    };
    let Some(job) = checked.job else { return calculated };
    let mut run = job.run(library, &NoFiles, &Settings::default());
    as_typed(&mut run.sources, &mut run.diagnostics, expression);
    calculated.sources = run.sources;
    calculated.diagnostics.extend(run.diagnostics);
    calculated.cautions = run.outcome.cautions;
    calculated.assumptions = run.outcome.assumptions;
    for cell in run.outcome.cells {
        let Some(field) = cell.name.strip_prefix(ANSWER) else { continue };
        let shown = match (cell.shown, cell.pending) {
            (Some(shown), _) => shown.text,
            (None, false) => "(absent)".to_string(),
            (None, true) => "(not known)".to_string(),
        };
        calculated.answers.push((field.trim_start_matches('.').to_string(), shown));
    }
    if calculated.diagnostics.iter().any(|diagnostic| diagnostic.severity == Severity::Error) {
        calculated.answers.clear();
    }
    calculated
}

/// What is wrong with an expression or a site of several lines that do not make one.
fn several_lines(expression: &str, site: Option<&str>) -> Option<Calculated> {
    let mut sources = Sources::default();
    let mut diagnostics = Vec::new();
    if expression.contains('\n') {
        diagnostics = syntax::parse_expression(sources.add("calc", expression), expression).1;
    }
    if let Some(site) = site.filter(|site| site.contains('\n') && diagnostics.is_empty()) {
        diagnostics = syntax::parse_literal(sources.add("--site", site), site).1;
    }
    let (answers, cautions, assumptions) = (Vec::new(), Vec::new(), Vec::new());
    (!diagnostics.is_empty()).then_some(Calculated { sources, diagnostics, answers, cautions, assumptions })
}

/// Makes messages show the expression alone, as it was typed.
fn as_typed(sources: &mut Sources, diagnostics: &mut [Diagnostic], expression: &str) {
    let start = ANSWER.len() + " = ".len();
    let typed = Span::new(FileId::default(), start, start + expression.len());
    let alone = sources.add("calc", expression);
    for diagnostic in diagnostics {
        *diagnostic = diagnostic.clone().moved(typed, alone, 0);
    }
}

/// The name of the one cell of a calculation.
const ANSWER: &str = "answer";
