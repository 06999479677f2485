//! Completion: what may stand where the cursor is, by what stands before it.

use dewline_lang::library::{Accepts, Basic, Function, Parameter};
use dewline_lang::outcome::Sort;
use dewline_lang::syntax::{Class, FORMS};
use dewline_lang::units;

use super::cursor::{Call, Cursor};
use super::names::refrigerants;
use crate::session::{Mode, SAYINGS, Session};

/// What can be put in place of the word being typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Candidate {
    /// As put there.
    pub text: String,
    /// As listed.
    pub shown: String,
}

impl Candidate {
    /// A word that stands by itself.
    pub fn plain(text: &str) -> Candidate {
        Candidate { text: text.to_string(), shown: text.to_string() }
    }

    /// A word that something follows.
    pub fn word(text: &str) -> Candidate {
        Candidate { text: format!("{text} "), shown: text.to_string() }
    }

    /// A function, with its bracket.
    pub fn call(name: &str) -> Candidate {
        Candidate { text: format!("{name}("), shown: format!("{name}(") }
    }
}

impl Session {
    /// Where what can be completed begins, and with what.
    pub fn complete(&self, line: &str, position: usize) -> (usize, Vec<Candidate>) {
        // Of several lines the one with the cursor matters, save for brackets left open above it.
        let cursor = Cursor::at(line, position);
        let (start, begun, all) = self.candidates(&cursor);
        let mut found: Vec<Candidate> = Vec::new();
        for one in all.into_iter().filter(|one| one.text.starts_with(begun)) {
            if !found.iter().any(|known| known.shown == one.shown) {
                found.push(one);
            }
        }
        if found.is_empty() && !begun.is_empty() {
            // Capitals and small letters apart.
            let small = begun.to_lowercase();
            let (_, _, all) = self.candidates(&cursor);
            found = all.into_iter().filter(|one| one.text.to_lowercase().starts_with(&small)).collect();
            found.dedup();
        }
        (start, found)
    }

    fn candidates<'c>(&self, cursor: &Cursor<'c>) -> (usize, &'c str, Vec<Candidate>) {
        let plain = |names: Vec<String>| names.iter().map(|name| Candidate::plain(name)).collect::<Vec<_>>();
        if let Some((lead, begun, start)) = cursor.open_text() {
            return (start, begun, self.texts(lead, begun));
        }
        if let Some((start, begun, found)) = self.behind_a_saying(cursor) {
            return (start, begun, found);
        }
        if let Mode::Taking(_) = &self.mode {
            let found = self.units_at(cursor).map(plain).unwrap_or_default();
            return (cursor.start, cursor.begun, found);
        }
        if let Mode::Asking(_) = &self.mode {
            return (cursor.start, cursor.begun, vec![Candidate::plain("yes"), Candidate::plain("no")]);
        }
        let found = match cursor.back(0) {
            _ if cursor.begun.starts_with("R-") => plain(refrigerants()),
            Some((dot, ".")) if dot.range.end == cursor.start => plain(self.fields_of(base_before(cursor))),
            Some((open, "[")) if open.range.end == cursor.start => {
                plain(self.keys_of(cursor.back(1).map_or("", |(_, table)| table)))
            }
            None => self.beginnings(),
            _ => match self.units_at(cursor) {
                Some(found) => plain(found),
                None => self.inside(cursor),
            },
        };
        (cursor.start, cursor.begun, found)
    }

    /// An argument of a call, or any other part of an expression.
    fn inside(&self, cursor: &Cursor<'_>) -> Vec<Candidate> {
        let mut found = Vec::new();
        if let Some(call) = cursor.call()
            && let Some(function) = self.library.function(call.function)
        {
            found.extend(self.argument(function, &call));
        }
        let behind_value = matches!(
            cursor.back(0).map(|(word, _)| word.class),
            Some(Class::Name | Class::Close | Class::Unit | Class::Refrigerant)
        );
        if behind_value && found.is_empty() {
            let links = ["as", "within", "and", "or", "where", "then", "else", "by", "at", "to"];
            return links.iter().map(|word| Candidate::word(word)).collect();
        }
        found.extend(self.values());
        found
    }

    fn argument(&self, function: &Function, call: &Call<'_>) -> Vec<Candidate> {
        let current = match call.name {
            Some(name) => function.parameters.iter().find(|parameter| parameter.name == name),
            None => function.parameters.get(call.unnamed),
        };
        let mut found: Vec<Candidate> = Vec::new();
        if let Some(parameter) = current {
            found.extend(values_of(parameter, self.library.gases()));
        }
        if call.empty {
            let given = |parameter: &&Parameter| !call.named.contains(&parameter.name);
            found.extend(function.parameters.iter().skip(call.unnamed).filter(given).map(|parameter| Candidate {
                text: format!("{} = ", parameter.name),
                shown: format!("{} =", parameter.name),
            }));
        }
        found
    }

    /// What stands behind a plain word.
    fn behind_a_saying<'c>(&self, cursor: &Cursor<'c>) -> Option<(usize, &'c str, Vec<Candidate>)> {
        if !matches!(self.mode, Mode::Lines) {
            return None;
        }
        let line = cursor.before.trim_start();
        let (word, rest) = line.split_once(' ')?;
        let rest = rest.trim_start();
        let start = cursor.before.len() - rest.len();
        let plain = |names: Vec<String>| names.iter().map(|name| Candidate::plain(name)).collect::<Vec<_>>();
        let found = match word {
            "open" | "save" => plain(self.desk.list(rest)),
            "pt" if !rest.contains(' ') => plain(refrigerants()),
            "why" | "cells" => plain(self.full_names()),
            "text" | "remove" => plain(self.own_values()),
            "take" => plain(self.sheet.outcome().map(|outcome| outcome.to_take.clone()).unwrap_or_default()),
            "units" if !rest.contains('=') => {
                let mut names = vec!["IP".to_string(), "SI".to_string()];
                names.extend(units::all().iter().map(|group| group.name.to_string()));
                names.extend(units::all().iter().flat_map(|group| group.units).map(|entry| entry.text.to_string()));
                plain(names)
            }
            "help" => {
                let functions = self.library.functions().map(|function| function.name.to_string());
                let general = dewline_lang::kinds::GENERAL.iter().map(|one| one.name.to_string());
                let sayings = SAYINGS.iter().map(|saying| saying.word.to_string());
                let forms = FORMS.iter().map(|(form, _)| (*form).to_string());
                plain(sayings.chain(functions).chain(general).chain(forms).chain(self.own_values()).collect())
            }
            _ => return None,
        };
        (crate::session::vocabulary::said(line).is_some()).then_some((start, rest, found))
    }

    /// Inside quotes: files, labels, stages, keys, choices.
    fn texts(&self, lead: &str, begun: &str) -> Vec<Candidate> {
        let closed = |names: Vec<String>| -> Vec<Candidate> {
            names.iter().map(|name| Candidate { text: format!("{name}\""), shown: name.clone() }).collect()
        };
        let outcome = self.sheet.outcome();
        match lead {
            "from" | "use" | "fill" | "open" | "save" => {
                let folder = self.sheet.name.rfind('/').map_or("", |at| &self.sheet.name[..=at]);
                let listed = self.desk.list(&format!("{folder}{begun}"));
                let names = listed.iter().map(|name| name.strip_prefix(folder).unwrap_or(name));
                let of = |name: &str| match name.ends_with('/') {
                    true => Candidate::plain(name),
                    false => Candidate { text: format!("{name}\""), shown: name.to_string() },
                };
                names.map(of).collect()
            }
            "after" | "stage" => closed(
                outcome
                    .map(|outcome| outcome.stages.iter().map(|stage| stage.name.clone()).collect())
                    .unwrap_or_default(),
            ),
            "confirm" => closed(
                outcome
                    .map(|outcome| outcome.confirmations.iter().map(|one| one.label.clone()).collect())
                    .unwrap_or_default(),
            ),
            "require" | "advise" | "waive" => closed(
                outcome.map(|outcome| outcome.checks.iter().map(|one| one.label.clone()).collect()).unwrap_or_default(),
            ),
            "[" | "==" => {
                let texts = outcome.into_iter().flat_map(|outcome| &outcome.tables);
                let columns = texts.flat_map(|table| table.columns.first()).filter(|column| column.kind == Sort::Text);
                closed(columns.flat_map(|column| column.text.clone()).collect())
            }
            _ => Vec::new(),
        }
    }
}

/// Values that a parameter takes, where they can be listed.
fn values_of(parameter: &Parameter, gases: &[&str]) -> Vec<Candidate> {
    let of_basic = |basic: &Basic| match basic {
        Basic::Refrigerant => refrigerants(),
        Basic::Gas => gases.iter().map(|gas| (*gas).to_string()).collect(),
        Basic::Flag => vec!["true".to_string(), "false".to_string()],
        _ => Vec::new(),
    };
    let texts = match &parameter.accepts {
        Accepts::One(basic) => of_basic(basic),
        Accepts::AnyOf(several) => several.iter().flat_map(of_basic).collect(),
        Accepts::Choice(choices) => choices.iter().map(|choice| format!("\"{choice}\"")).collect(),
        _ => Vec::new(),
    };
    texts.iter().map(|text| Candidate::plain(text)).collect()
}

/// The value whose field is asked: `indoor`, `indoor["F-01"]`, `riser.inner`.
fn base_before<'c>(cursor: &Cursor<'c>) -> &'c str {
    let Some((dot, _)) = cursor.back(0) else { return "" };
    let end = dot.range.start;
    let mut start = end;
    let mut depth = 0_usize;
    for word in cursor.words.iter().rev().skip(1) {
        match word.class {
            Class::Close => depth += 1,
            Class::Open if depth > 0 => depth -= 1,
            _ if depth > 0 => {}
            // A table may be called like a statement: `units.`
            Class::Name | Class::Keyword => {}
            Class::Mark if cursor.text(word) == "." => {}
            _ => break,
        }
        if word.range.end != start {
            break;
        }
        start = word.range.start;
    }
    cursor.before.get(start..end).unwrap_or("")
}
