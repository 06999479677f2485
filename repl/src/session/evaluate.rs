//! An expression worked out beside the sheet: it stands behind the sheet's text as a cell of its own for the moment.

use dewline_lang::diagnostic::{Diagnostic, Severity};
use dewline_lang::host::Host;
use dewline_lang::job::{self, Run, Settings, Why};
use dewline_lang::library::Library;
use dewline_lang::outcome::{CellOutcome, Sort};
use dewline_lang::source::{Sources, Span};
use dewline_lang::syntax::tree::StatementKind;
use dewline_lang::syntax::{Class, words};
use dewline_lang::units::UnitSystem;

use super::edit::Quote;
use super::quote::Quoted;
use super::sheet::Sheet;
use super::work::Filled;

/// What an expression came to.
pub struct Evaluated {
    /// The texts that messages point into.
    pub sources: Sources,
    /// What is wrong with it, with places in what was typed.
    pub diagnostics: Vec<Diagnostic>,
    /// The answer: one part with an empty name, or a field each; empty if there are errors.
    pub parts: Vec<Part>,
    /// Cautions of the functions used.
    pub cautions: Vec<String>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
    /// What a value not known waits for.
    pub waits_for: Vec<String>,
}

/// The answer or a field of it.
pub struct Part {
    /// The field; empty for the answer itself.
    pub field: String,
    /// Its value.
    pub cell: CellOutcome,
}

/// What stands round an expression.
pub struct Around<'a> {
    /// Functions.
    pub library: &'a Library,
    /// Files.
    pub host: &'a dyn Host,
    /// The sheet.
    pub sheet: &'a Sheet,
    /// What `last` stands for.
    pub last: Option<&'a str>,
    /// The unit system, if the sheet sets none.
    pub system: Option<UnitSystem>,
}

impl Around<'_> {
    /// Works an expression out.
    pub fn evaluate(&self, typed: &str) -> Evaluated {
        // A sheet with mistakes in it computes nothing; its units and its site still hold.
        let base = if self.sheet.errors() == 0 { self.sheet.work.text.clone() } else { self.heads() };
        let name = fresh("answer", &base);
        let mut text = base;
        if !text.is_empty() && !text.ends_with('\n') {
            text.push('\n');
        }
        if let (Some(last), true) = (self.last, mentions_last(typed) && !self.has("last")) {
            text.push_str(&format!("last = {last}\n"));
        }
        text.push_str(&format!("{name} = "));
        let start = text.len();
        text.push_str(typed);
        let end = text.len();
        text.push('\n');
        if self.system == Some(UnitSystem::Ip) && !self.says_units() {
            text.push_str("units IP\n");
        }
        let quotes = [Quote { part: start..end, typed: 0 }];
        let quoted = Quoted { typed, quotes: &quotes };
        let host = Filled::new(self.host, &self.sheet.work.fields);
        let checked = job::check(self.library, &host, &self.sheet.name, &text);
        let (sources, diagnostics) = (checked.sources, checked.diagnostics);
        let Some(job) = checked.job else { return refused(&quoted, &sources, &diagnostics) };
        let run = job.run(self.library, &host, &Settings::default());
        if run.diagnostics.iter().any(|one| quoted.blames(one)) {
            return refused(&quoted, &run.sources, &run.diagnostics);
        }
        if run.outcome.cells.iter().any(|cell| field_of(cell, &name).is_some() && cell.broken) {
            return refused(&quoted, &run.sources, &what_broke(&run, &name));
        }
        answered(run, &name)
    }

    /// `units` and `site` of a sheet that cannot be used as a whole.
    fn heads(&self) -> String {
        let wanted = self.sheet.statements().filter(|statement| {
            matches!(
                statement.kind,
                StatementKind::Units(_) | StatementKind::SiteAltitude(_) | StatementKind::SiteAtmosphere(_)
            )
        });
        wanted.map(|statement| format!("{}\n", self.slice(statement.span))).collect()
    }

    fn slice(&self, span: Span) -> &str {
        self.sheet.work.text.get(span.range()).unwrap_or("")
    }

    fn says_units(&self) -> bool {
        self.sheet.statements().any(|statement| matches!(statement.kind, StatementKind::Units(_)))
    }

    fn has(&self, name: &str) -> bool {
        super::identity::find(
            &self.sheet.tree,
            &self.sheet.work.text,
            &super::identity::Identity::Name(name.to_string()),
        )
        .is_some()
    }
}

fn answered(run: Run, name: &str) -> Evaluated {
    let mut evaluated = Evaluated {
        sources: run.sources.clone(),
        diagnostics: Vec::new(),
        parts: Vec::new(),
        cautions: run.outcome.cautions.clone(),
        assumptions: run.outcome.assumptions.clone(),
        waits_for: Vec::new(),
    };
    for cell in &run.outcome.cells {
        let Some(field) = field_of(cell, name) else { continue };
        if cell.pending && evaluated.waits_for.is_empty() {
            evaluated.waits_for = run.why(name).map(|why| not_taken(&why, &run)).unwrap_or_default();
        }
        evaluated.parts.push(Part { field: field.to_string(), cell: cell.clone() });
    }
    evaluated
}

/// The field of the answer that a cell is; empty for the answer itself.
fn field_of<'c>(cell: &'c CellOutcome, name: &str) -> Option<&'c str> {
    match cell.name.strip_prefix(name)? {
        "" => Some(""),
        rest => rest.strip_prefix('.'),
    }
}

/// The errors of the values that a broken answer is made of: they were told where they arose, and are its own too.
fn what_broke(run: &Run, name: &str) -> Vec<Diagnostic> {
    let mut names: Vec<String> = Vec::new();
    let why = run.why(name);
    let mut parts: Vec<&Why> = why.iter().collect();
    while let Some(one) = parts.pop() {
        names.push(one.name.clone());
        parts.extend(&one.parts);
    }
    let own = |cell: &str| names.iter().any(|name| name == cell || name.starts_with(&format!("{cell}[")));
    let errors = run.outcome.errors.iter().filter(|error| own(&error.cell));
    let messages: Vec<&str> = errors.map(|error| error.message.as_str()).collect();
    let told = run.diagnostics.iter().filter(|one| messages.contains(&one.message.as_str()));
    let told: Vec<Diagnostic> = told.cloned().collect();
    if told.is_empty() { run.diagnostics.clone() } else { told }
}

/// The inputs, readings and rows at the bottom of a value that is not known.
fn not_taken(why: &Why, run: &Run) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    let mut waiting = vec![why];
    while let Some(one) = waiting.pop() {
        let given = one.parts.is_empty() && one.formula.is_empty();
        let cell = run.outcome.cells.iter().find(|cell| cell.name == one.name);
        let known = cell.map_or(one.value != "not known yet", |cell| !cell.pending);
        if given && !known && !found.contains(&one.name) {
            found.push(one.name.clone());
        }
        waiting.extend(one.parts.iter().rev());
    }
    found
}

fn refused(quoted: &Quoted<'_>, sources: &Sources, diagnostics: &[Diagnostic]) -> Evaluated {
    let errors: Vec<Diagnostic> = diagnostics.iter().filter(|one| one.severity == Severity::Error).cloned().collect();
    let mine: Vec<Diagnostic> = errors.iter().filter(|one| quoted.blames(one)).cloned().collect();
    let (sources, diagnostics) = quoted.moved(sources, if mine.is_empty() { &errors } else { &mine });
    Evaluated {
        sources,
        diagnostics,
        parts: Vec::new(),
        cautions: Vec::new(),
        assumptions: Vec::new(),
        waits_for: Vec::new(),
    }
}

/// A name that the text does not hold.
fn fresh(name: &str, text: &str) -> String {
    let mut name = name.to_string();
    while text.contains(&name) {
        name.push('_');
    }
    name
}

/// Whether a text names `last` as a value; `last(…)` is a function.
pub fn mentions_last(typed: &str) -> bool {
    places_of_last(typed).next().is_some()
}

fn places_of_last(typed: &str) -> impl Iterator<Item = std::ops::Range<usize>> {
    let list = words(typed);
    let mut found = Vec::new();
    let mut before = "";
    for (at, word) in list.iter().enumerate() {
        let text = typed.get(word.range.clone()).unwrap_or("");
        let defined = at == 0 && list.get(1).and_then(|next| typed.get(next.range.clone())) == Some("=");
        if word.class == Class::Name && text == "last" && before != "." && !defined {
            found.push(word.range.clone());
        }
        before = text;
    }
    found.into_iter()
}

/// The text with `last` written out, so that a sheet that is saved stands by itself.
pub fn without_last(typed: &str, last: &str) -> String {
    let mut text = typed.to_string();
    let places: Vec<_> = places_of_last(typed).collect();
    for place in places.into_iter().rev() {
        text.replace_range(place, last);
    }
    text
}

/// An answer as a text that reads back to it: a literal, or for a record the expression itself.
pub fn written_out(parts: &[Part], typed: &str) -> Option<String> {
    let [Part { field, cell }] = parts else { return Some(format!("({typed})")) };
    if !field.is_empty() {
        return Some(format!("({typed})"));
    }
    let shown = cell.shown.as_ref()?;
    let number = |number: f64, unit: &str| {
        // Fifteen digits: the sixteenth is the conversion's, not the answer's.
        let number: f64 = format!("{number:.14e}").parse().unwrap_or(number);
        let text = format!("{number} {unit}");
        let text = text.trim_end();
        if number < 0.0 { format!("({text})") } else { text.to_string() }
    };
    match cell.kind {
        Sort::Text => Some(format!("\"{}\"", shown.text.replace('"', "\"\"").replace(['{', '}'], ""))),
        Sort::Flag | Sort::Time | Sort::Refrigerant | Sort::Gas => Some(shown.text.clone()),
        Sort::FromZero => shown.number.map(|value| format!("absolute({})", number(value, &shown.unit))),
        Sort::Number if shown.unit.is_empty() => cell.si.map(|si| number(si, "")),
        _ => match shown.number {
            Some(value) => Some(number(value, &shown.unit)),
            // A quantity in pieces: its base units say the same.
            None => cell.si.map(|si| number(si, &cell.dimension)),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn last_is_a_value_where_it_is_one() {
        assert_eq!(without_last("a = last + last(t.x) + t.last", "3 psi"), "a = 3 psi + last(t.x) + t.last");
        assert!(!mentions_last("last = 3") && !mentions_last("\"last\"") && mentions_last("2 * last"));
    }
}
