//! Names that a sheet, the library and the language have.

use dewline_lang::kinds::GENERAL;
use dewline_lang::outcome::Outcome;
use dewline_lang::syntax::FORMS;
use dewline_lang::syntax::tree::{Define, StatementKind};
use dewline_stdlib::refrigerant::catalogue;

use super::complete::Candidate;
use crate::session::{SAYINGS, Session};

impl Session {
    /// Values of the sheet: cells, tables, filled sheets.
    pub(super) fn own_values(&self) -> Vec<String> {
        let mut names: Vec<String> = Vec::new();
        let mut add = |name: &str| {
            if !names.iter().any(|known| known == name) {
                names.push(name.to_string());
            }
        };
        for statement in self.sheet.statements() {
            match &statement.kind {
                StatementKind::Input(given) | StatementKind::Reading(given) => add(&given.name.text),
                StatementKind::Cell(cell) => add(&cell.name.text),
                StatementKind::Table(table) => add(&table.name.text),
                StatementKind::Fill(fill) => add(&fill.name.text),
                _ => {}
            }
        }
        names
    }

    /// Definitions of the sheet.
    pub(super) fn defines(&self) -> impl Iterator<Item = &Define> {
        self.sheet.statements().filter_map(|statement| match &statement.kind {
            StatementKind::Define(define) => Some(define),
            _ => None,
        })
    }

    /// All that can stand in an expression.
    pub(super) fn values(&self) -> Vec<Candidate> {
        let mut all: Vec<Candidate> = self.own_values().iter().map(|name| Candidate::plain(name)).collect();
        all.extend(self.defines().map(|define| Candidate::call(&define.name.text)));
        all.extend(self.library.functions().map(|function| Candidate::call(function.name)));
        all.extend(GENERAL.iter().map(|general| Candidate::call(general.name)));
        all.extend(self.library.gases().iter().map(|gas| Candidate::plain(gas)));
        let words = ["pi", "last", "true", "false", "if", "then", "else", "and", "or", "not", "as", "within", "where"];
        all.extend(words.iter().map(|word| Candidate::plain(word)));
        all.push(Candidate::call("solve"));
        all
    }

    /// What can begin a line.
    pub(in crate::session) fn beginnings(&self) -> Vec<Candidate> {
        let mut all: Vec<Candidate> = self.own_values().iter().map(|name| Candidate::plain(name)).collect();
        all.extend(SAYINGS.iter().map(|saying| Candidate::word(saying.word)));
        all.extend(FORMS.iter().map(|(word, _)| Candidate::word(word)));
        all.extend(self.values());
        all
    }

    /// Names with their fields and columns, as `why` takes them.
    pub(super) fn full_names(&self) -> Vec<String> {
        let Some(outcome) = self.sheet.outcome() else { return self.own_values() };
        let mut names: Vec<String> = outcome.cells.iter().map(|cell| cell.name.clone()).collect();
        for table in &outcome.tables {
            names.extend(table.columns.iter().map(|column| format!("{}.{}", table.name, column.name)));
        }
        names
    }

    /// What can stand behind `name.`.
    pub(super) fn fields_of(&self, base: &str) -> Vec<String> {
        let Some(outcome) = self.sheet.outcome() else { return Vec::new() };
        let table = base.split('[').next().unwrap_or(base);
        let mut fields: Vec<String> = Vec::new();
        let mut add = |field: &str| {
            let first = field.split('.').next().unwrap_or(field).to_string();
            if !fields.contains(&first) {
                fields.push(first);
            }
        };
        for one in outcome.tables.iter().filter(|one| one.name == table) {
            one.columns.iter().for_each(|column| add(&column.name));
        }
        let lead = format!("{base}.");
        outcome.cells.iter().filter_map(|cell| cell.name.strip_prefix(&lead)).for_each(&mut add);
        outcome.tables.iter().filter_map(|one| one.name.strip_prefix(&lead)).for_each(&mut add);
        fields
    }

    /// Keys of a table's rows, in quotes where they are texts.
    pub(super) fn keys_of(&self, table: &str) -> Vec<String> {
        let of = |outcome: &Outcome| {
            let table = outcome.tables.iter().find(|one| one.name == table)?;
            let first = table.columns.first()?;
            let text = first.kind == dewline_lang::outcome::Sort::Text;
            let keys = first.text.iter().filter(|key| !key.is_empty());
            Some(
                keys.map(|key| match text {
                    true => format!("\"{}\"]", key.replace('"', "\"\"")),
                    false => format!("{}]", format!("{key} {}", first.unit).trim_end()),
                })
                .collect(),
            )
        };
        self.sheet.outcome().and_then(of).unwrap_or_default()
    }
}

/// Designations of refrigerants.
pub fn refrigerants() -> Vec<String> {
    catalogue::all().iter().map(|one| one.designation.to_string()).collect()
}
