//! Which statement of a sheet a typed one takes the place of.

use dewline_lang::source::Span;
use dewline_lang::syntax::tree::{self, Check, StatementKind, WaivedRows};

use super::sheet::all;

/// What makes two statements the same one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Identity {
    /// The title.
    Title,
    /// The unit system.
    Units,
    /// How close checks are decided.
    Decide,
    /// The site.
    Site,
    /// Whatever has this name.
    Name(String),
    /// A check, by its label, or its condition as written.
    Check(String),
    /// A confirmation.
    Confirm(String),
    /// A waiver, with its row.
    Waive(String, Option<String>),
    /// A stage.
    Stage(String),
    /// A chart.
    Chart(String),
    /// A used sheet, by its path.
    Use(String),
}

/// What makes a statement itself; notes are nothing but themselves.
pub fn identity(kind: &StatementKind, text: &str) -> Option<Identity> {
    Some(match kind {
        StatementKind::Title(_) => Identity::Title,
        StatementKind::Units(_) => Identity::Units,
        StatementKind::DecideGuarded(_) => Identity::Decide,
        StatementKind::SiteAltitude(_) | StatementKind::SiteAtmosphere(_) => Identity::Site,
        StatementKind::Input(given) | StatementKind::Reading(given) => Identity::Name(given.name.text.clone()),
        StatementKind::Cell(cell) => Identity::Name(cell.name.text.clone()),
        StatementKind::Table(table) => Identity::Name(table.name.text.clone()),
        StatementKind::Instrument(one) => Identity::Name(one.name.text.clone()),
        StatementKind::Fill(fill) => Identity::Name(fill.name.text.clone()),
        // A definition is called with brackets and collides with no value.
        StatementKind::Define(define) => Identity::Name(format!("{}()", define.name.text)),
        StatementKind::Check(check) => of_check(check, text),
        StatementKind::Confirm(confirm) => Identity::Confirm(confirm.label.text.clone()),
        StatementKind::Waive(waive) => {
            let rows = waive.rows.as_ref().map(|rows| match rows {
                WaivedRows::One(key) => key.text.clone(),
                WaivedRows::All => String::new(),
            });
            Identity::Waive(waive.label.text.clone(), rows)
        }
        StatementKind::Stage(stage) => Identity::Stage(stage.name.text.clone()),
        StatementKind::Chart(chart) => Identity::Chart(chart.title.text.clone()),
        StatementKind::Use(used) => Identity::Use(used.path.text.clone()),
        StatementKind::Note(_) | StatementKind::Unreadable => return None,
    })
}

fn of_check(check: &Check, text: &str) -> Identity {
    Identity::Check(match &check.label {
        Some(label) => label.text.clone(),
        None => text.get(check.condition.span.range()).unwrap_or("").to_string(),
    })
}

/// The place of the statement that is the same one, in its stage or table.
pub fn find(sheet: &tree::Sheet, text: &str, wanted: &Identity) -> Option<Span> {
    for statement in all(sheet) {
        if identity(&statement.kind, text).as_ref() == Some(wanted) {
            return Some(statement.span);
        }
        if let StatementKind::Table(table) = &statement.kind
            && let Some(check) = table.checks.iter().find(|check| of_check(check, text) == *wanted)
        {
            return Some(check.span);
        }
    }
    None
}
