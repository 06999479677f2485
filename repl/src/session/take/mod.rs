//! `take`: what is still to be taken is asked for, one thing after another in the order of the stages.

mod ask;
mod value;
mod write;

pub use self::ask::Ask;
pub use self::value::has_decimal_comma;

use std::collections::BTreeSet;

use self::ask::Target;
use super::edit::Edit;
use super::work::Work;
use super::{Mode, Reply, Session};
use crate::problem::Problem;
use crate::words::{count, hang, list};

/// Where the asking stands.
pub struct Taking {
    /// What is asked now.
    ask: Ask,
    /// Only this is asked for.
    only: Option<String>,
    /// Left for later.
    skipped: BTreeSet<String>,
    /// What cannot be written into the sheet, with the reason.
    elsewhere: Vec<(String, String)>,
    /// The stage told last.
    stage: Option<String>,
    /// How many were taken.
    taken: usize,
}

impl Taking {
    /// What stands before the answer.
    pub fn prompt(&self) -> String {
        self.ask.prompt.clone()
    }

    /// The unit that an answer is in if it says none.
    pub fn unit(&self) -> Option<&str> {
        self.ask.unit.as_deref()
    }
}

impl Session {
    /// Begins to ask.
    pub(super) fn take(&mut self, name: &str) -> Reply {
        let Some(outcome) = self.sheet.outcome() else {
            return Reply::refused("The sheet has errors; mend them first.\n");
        };
        let total = outcome.to_take.len();
        let only = (!name.is_empty()).then(|| name.trim_matches('"').to_string());
        if only.is_none() && total == 0 {
            return Reply::out("Nothing is to be taken.\n");
        }
        let start = Taking {
            ask: Ask::default(),
            only,
            skipped: BTreeSet::new(),
            elsewhere: Vec::new(),
            stage: None,
            taken: 0,
        };
        let lead = match &start.only {
            Some(_) => String::new(),
            None => format!("{} to take. `?` leaves one for later, Ctrl-C stops.\n", total),
        };
        let mut reply = self.ask_next(start);
        reply.out = if reply.refused { reply.out } else { format!("{lead}{}", reply.out) };
        reply
    }

    /// Asks for the next thing, or ends.
    fn ask_next(&mut self, mut taking: Taking) -> Reply {
        if let Some(only) = taking.only.clone() {
            if taking.taken > 0 || !taking.skipped.is_empty() {
                return self.end_taking(&taking, false);
            }
            return match self.ask_for(&only) {
                Ok(ask) => self.asked(taking, ask),
                Err(problem) => Reply::of(&Problem::new(problem)),
            };
        }
        let names = self.sheet.outcome().map(|outcome| outcome.to_take.clone()).unwrap_or_default();
        for name in names {
            if taking.skipped.contains(&name) || taking.elsewhere.iter().any(|(other, _)| *other == name) {
                continue;
            }
            match self.ask_for(&name) {
                Ok(ask) => return self.asked(taking, ask),
                Err(reason) => taking.elsewhere.push((name, reason)),
            }
        }
        self.end_taking(&taking, false)
    }

    fn asked(&mut self, mut taking: Taking, ask: Ask) -> Reply {
        let mut out = String::new();
        if taking.stage.as_ref() != Some(&ask.stage) && !ask.stage.is_empty() {
            out.push_str(&format!("{}\n", self.paint.strong(&ask.stage)));
        }
        taking.stage = Some(ask.stage.clone());
        hang(&mut out, "  ", &ask.about);
        taking.ask = ask;
        self.mode = Mode::Taking(Box::new(taking));
        Reply::out(out)
    }

    /// An answer to what was asked.
    pub(super) fn taken(&mut self, mut taking: Taking, line: &str) -> Reply {
        let line = line.trim();
        let rows_begun = matches!(taking.ask.target, Target::Rows { begun: true, .. });
        if matches!(line, "?" | "skip") || line.is_empty() && rows_begun {
            if rows_begun {
                taking.taken += 1;
            } else {
                taking.skipped.insert(taking.ask.name.clone());
            }
            return self.ask_next(taking);
        }
        if line.is_empty() {
            self.mode = Mode::Taking(Box::new(taking));
            return Reply::out("  Type the value, `?` to leave it for later; Ctrl-C stops.\n");
        }
        let changed = match &taking.ask.target {
            Target::File { path, .. } => self.read_anew(&path.clone()),
            _ => None,
        };
        if let Some(told) = &changed {
            // Its row may stand elsewhere now.
            match self.ask_for(&taking.ask.name) {
                Ok(ask) => taking.ask = ask,
                Err(why) => {
                    taking.elsewhere.push((taking.ask.name.clone(), why));
                    let mut next = self.ask_next(taking);
                    next.said.insert_str(0, told);
                    return next;
                }
            }
        }
        let trouble = self.run_errors();
        let mut reply = match self.written_answer(&taking.ask, line) {
            Ok(Change::Text(edit, typed)) => self.take_in(edit, &typed),
            Ok(Change::Work(work)) => self.take_fields(work),
            Err(reply) => reply,
        };
        reply.said.insert_str(0, &changed.unwrap_or_default());
        if !reply.refused && self.run_errors() > trouble {
            // A reading with which other things can no longer be computed is most likely a slip.
            self.go_back();
            reply.refused = true;
            reply.out.clear();
            let name = &taking.ask.name;
            hang(&mut reply.said, "", &format!("Not taken. If it is right, type it after Ctrl-C: {name} = {line}"));
        }
        if reply.refused {
            // The same is asked again.
            reply.said = reply.said.replace("Nothing was changed.\n", "");
            self.mode = Mode::Taking(Box::new(taking));
            return reply;
        }
        let next = match &mut taking.ask.target {
            Target::Rows { begun, .. } => {
                *begun = true;
                reply.out = String::new();
                self.mode = Mode::Taking(Box::new(taking));
                return reply;
            }
            _ => {
                taking.taken += 1;
                self.ask_next(taking)
            }
        };
        reply.out.push_str(&next.out);
        reply.said.push_str(&next.said);
        reply
    }

    fn run_errors(&self) -> usize {
        self.sheet.outcome().map_or(0, |outcome| outcome.errors.len())
    }

    /// Fields of data files filled in.
    pub(super) fn take_fields(&mut self, work: Work) -> Reply {
        let edit = Edit { text: work.text.clone(), quotes: Vec::new(), touched: Vec::new() };
        self.take_in_with(edit, work.fields, "")
    }

    /// Says what was done, and saves.
    pub(super) fn end_taking(&mut self, taking: &Taking, stopped: bool) -> Reply {
        self.mode = Mode::Lines;
        let mut out = String::new();
        for (name, reason) in &taking.elsewhere {
            hang(&mut out, &format!("  {name}: "), reason);
        }
        let left = self.sheet.outcome().map_or(0, |outcome| outcome.to_take.len());
        let stopped = if stopped { "Stopped. " } else { "" };
        let still = if left == 0 { "nothing is left to take".to_string() } else { format!("{left} still to take") };
        hang(&mut out, "", &format!("{stopped}{} taken, {still}.", count(taking.taken, "value", "values")));
        let mut reply = Reply::out(out);
        if taking.taken == 0 || !self.is_unsaved() {
            return reply;
        }
        match &self.path {
            Some(_) => {
                let saved = self.save("");
                reply.out.push_str(&saved.out);
                reply.said.push_str(&saved.said);
            }
            None => reply.out.push_str("`save job.dew` keeps them.\n"),
        }
        reply
    }
}

/// What an answer changes.
enum Change {
    /// The text of the sheet; what was typed, completed.
    Text(Edit, String),
    /// A field of a data file.
    Work(Work),
}

/// `a, b and c`, for messages.
fn some(names: &[String]) -> String {
    list(names, 8)
}
