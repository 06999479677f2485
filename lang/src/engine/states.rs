//! What is known of the values of a block: which are known, why others are not, and how well numbers are.

use std::sync::Arc;

use super::doubt::{Doubt, Part};
use super::fault::Fault;
use crate::limits;

/// What is known of one value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mark {
    /// It is known.
    Known,
    /// It waits for something not taken yet.
    Pending,
    /// It cannot be computed.
    Broken,
    /// Its row is not meant.
    LeftOut,
}

/// What is known of all values of a block: whether, why not, and how well.
#[derive(Debug, Clone, Default)]
pub struct States {
    /// One each, or empty if all are known.
    marks: Vec<Mark>,
    /// Why broken ones are, by row.
    faults: Vec<(usize, Arc<Fault>)>,
    /// How well numbers are known; nothing if they are exact.
    doubt: Option<Box<Doubt>>,
}

impl States {
    /// All known.
    pub fn known() -> States {
        States::default()
    }

    /// All alike.
    pub fn all(mark: Mark, length: usize) -> States {
        if mark == Mark::Known { States::default() } else { States { marks: vec![mark; length], ..States::default() } }
    }

    /// Whether every value is known.
    pub fn all_known(&self) -> bool {
        self.marks.is_empty()
    }

    /// Whether every value is known and exact.
    pub fn is_exact(&self) -> bool {
        self.marks.is_empty() && self.doubt.is_none()
    }

    /// How well values are known; nothing if all are exact.
    pub fn doubt(&self) -> Option<&Doubt> {
        self.doubt.as_deref()
    }

    /// What contributes to the doubt of one value.
    pub fn doubt_at(&self, at: usize) -> &[Part] {
        self.doubt.as_deref().map_or(&[], |doubt| doubt.row(at))
    }

    /// The same with another doubt.
    pub fn with_doubt(mut self, doubt: Option<Box<Doubt>>) -> States {
        self.doubt = doubt;
        self
    }

    /// The mark of one value; of a uniform block the same for all.
    pub fn mark(&self, at: usize) -> Mark {
        match self.marks.as_slice() {
            [] => Mark::Known,
            [only] => *only,
            marks => marks.get(at).copied().unwrap_or(Mark::Known),
        }
    }

    /// Why a value is broken.
    pub fn fault(&self, at: usize) -> Option<&Arc<Fault>> {
        let at = if self.marks.len() == 1 { 0 } else { at };
        self.faults.binary_search_by_key(&at, |(row, _)| *row).ok().map(|found| &self.faults[found].1)
    }

    /// Marks one value of a block of this length.
    pub fn set(&mut self, at: usize, mark: Mark, length: usize) {
        if self.marks.is_empty() {
            if mark == Mark::Known {
                return;
            }
            self.marks = vec![Mark::Known; length];
        }
        if let Some(slot) = self.marks.get_mut(at) {
            *slot = mark;
        }
    }

    /// Breaks one value of a block of this length. What is left out stays so; the first fault stays.
    pub fn break_at(&mut self, at: usize, fault: Arc<Fault>, length: usize) {
        if matches!(self.mark(at), Mark::LeftOut | Mark::Broken) {
            return;
        }
        self.set(at, Mark::Broken, length);
        match self.faults.binary_search_by_key(&at, |(row, _)| *row) {
            Ok(_) => {}
            Err(place) => {
                let fault = self.after_many(&fault);
                self.faults.insert(place, (at, fault));
            }
        }
    }

    /// A fault; one that shares its words with others where there are too many to hold each of them.
    fn after_many(&self, fault: &Arc<Fault>) -> Arc<Fault> {
        let Some((_, last)) = self.faults.last().filter(|_| self.faults.len() >= limits::FAULTS) else {
            return fault.clone();
        };
        let shared = fault.shared();
        if **last == shared { last.clone() } else { Arc::new(shared) }
    }

    /// The states of a value computed from two. Its doubt hangs on how it is computed: there is none here.
    pub fn merge(&self, other: &States, length: usize) -> States {
        if self.marks.is_empty() && other.marks.is_empty() {
            return States::default();
        }
        let mut merged = States::default();
        for at in 0..length {
            let (a, b) = (self.mark(at), other.mark(at));
            match a.max(b) {
                Mark::Known => {}
                Mark::Broken => {
                    let from = if a == Mark::Broken { self } else { other };
                    match from.fault(at) {
                        Some(fault) => merged.break_at(at, fault.clone(), length),
                        None => merged.set(at, Mark::Broken, length),
                    }
                }
                mark => merged.set(at, mark, length),
            }
        }
        merged
    }

    /// The states of some rows.
    pub fn slice(&self, start: usize, length: usize) -> States {
        let doubt = self.doubt.as_ref().map(|doubt| Box::new(doubt.slice(start, length)));
        let marks = match self.marks.len() {
            0 => States::default(),
            1 => States { marks: self.marks.clone(), faults: self.faults.clone(), doubt: None },
            _ => {
                let marks: Vec<Mark> = self.marks.get(start..start + length).unwrap_or(&[]).to_vec();
                let from = self.faults.partition_point(|(row, _)| *row < start);
                let faults = self.faults[from..]
                    .iter()
                    .take_while(|(row, _)| *row < start + length)
                    .map(|(row, fault)| (row - start, fault.clone()))
                    .collect();
                if marks.iter().all(|mark| *mark == Mark::Known) {
                    States::default()
                } else {
                    States { marks, faults, doubt: None }
                }
            }
        };
        marks.with_doubt(doubt)
    }

    /// Appends the states of further rows; `before` and `more` are the lengths of both.
    pub fn append(&mut self, other: &States, before: usize, more: usize) {
        self.doubt = Doubt::append(self.doubt.take(), before, other.doubt(), more);
        if self.marks.is_empty() && other.marks.is_empty() {
            return;
        }
        if self.marks.is_empty() {
            self.marks = vec![Mark::Known; before];
        }
        self.marks.extend((0..more).map(|at| other.mark(at)));
        for at in 0..more {
            if let Some(fault) = other.fault(at) {
                let fault = self.after_many(fault);
                self.faults.push((before + at, fault));
            }
        }
    }
}
