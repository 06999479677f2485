//! Calls of functions from numbers to a number, for columns of millions of rows: nothing is allocated for a row.

use std::borrow::Cow;
use std::sync::Arc;

use super::block::{Block, Data, Mark, States};
use super::call_doubt;
use super::calls::{Ready, fault_of, not_finite, out_of_range};
use super::doubt::{self, Doubt};
use crate::library::{Failure, OfNumbers};
use crate::plan::Call;
use crate::source::Span;

/// A function of nothing but numbers, over all rows.
pub fn plain(
    call: &Call,
    ready: &[Ready],
    states: States,
    length: usize,
    span: Span,
    function: fn(&[f64]) -> Result<f64, Failure>,
) -> Block {
    Rows::new(call, ready, states, length, span).fill(0..length, function, |_, _| None).block()
}

/// A function that first looks at what is no number, over all rows; `prepare` is asked again at each row where that
/// is another than in the row before.
pub fn prepared(
    call: &Call,
    ready: &[Ready],
    states: States,
    length: usize,
    span: Span,
    prepare: impl Fn(usize) -> Result<OfNumbers, Failure>,
) -> Block {
    let varied: Vec<&Block> = ready.iter().filter_map(varied).collect();
    let mut rows = Rows::new(call, ready, states, length, span);
    let mut from = 0;
    while from < length {
        if rows.states.mark(from) != Mark::Known {
            from += 1;
            continue;
        }
        let differs = |at: &usize| !varied.iter().all(|block| alike(block, from, *at));
        let to = if varied.is_empty() { length } else { (from + 1..length).find(differs).unwrap_or(length) };
        match prepare(from) {
            Ok(function) => {
                let slope = |numbers: &[f64], by| function.slope(numbers, by);
                rows = rows.fill(from..to, |numbers| function.value(numbers), slope);
            }
            // What is wrong may lie in this row's numbers only.
            Err(failure) => {
                rows.fail(from, &failure);
                from += 1;
                continue;
            }
        }
        from = to;
    }
    rows.block()
}

/// An argument that is no number and goes by row.
fn varied(value: &Ready) -> Option<&Block> {
    match value {
        Ready::Value(block) if block.len() > 1 && !matches!(block.data, Data::Numbers(_)) => Some(block),
        _ => None,
    }
}

fn alike(block: &Block, one: usize, other: usize) -> bool {
    block.text_at(one) == block.text_at(other)
        && block.flag_at(one) == block.flag_at(other)
        && block.moment_at(one) == block.moment_at(other)
}

struct Part<'a> {
    block: &'a Block,
    numbers: Cow<'a, [f64]>,
    range: (f64, f64),
}

/// The rows of a result as they are worked out.
struct Rows<'a> {
    call: &'a Call,
    /// A number a row, or one for all, with its range; nothing where an argument is absent or no number.
    parts: Vec<Option<Part<'a>>>,
    states: States,
    values: Vec<f64>,
    /// What contributes to the doubt of each, if any argument is in doubt.
    doubts: Option<Vec<Vec<doubt::Part>>>,
    span: Span,
}

impl<'a> Rows<'a> {
    fn new(call: &'a Call, ready: &'a [Ready], states: States, length: usize, span: Span) -> Self {
        const ANY: (f64, f64) = (f64::NEG_INFINITY, f64::INFINITY);
        let part = |(value, range): (&'a Ready, &Option<(f64, f64)>)| match value {
            Ready::Value(block @ Block { data: Data::Numbers(_), .. }) => {
                Some(Part { block, numbers: block.as_numbers(), range: range.unwrap_or(ANY) })
            }
            _ => None,
        };
        let parts: Vec<Option<Part<'_>>> = ready.iter().zip(&call.ranges).map(part).collect();
        let doubtful = parts.iter().flatten().any(|part| part.block.states.doubt().is_some());
        let doubts = doubtful.then(|| vec![Vec::new(); length]);
        Self { call, parts, states, values: vec![0.0; length], doubts, span }
    }

    fn fill(
        mut self,
        rows: std::ops::Range<usize>,
        function: impl Fn(&[f64]) -> Result<f64, Failure>,
        slope: impl Fn(&[f64], usize) -> Option<f64>,
    ) -> Self {
        let mut arguments = vec![0.0; self.parts.len()];
        for at in rows {
            if self.states.mark(at) != Mark::Known {
                continue;
            }
            let mut outside = None;
            for (index, part) in self.parts.iter().enumerate() {
                let Some(Part { numbers, range: (low, high), .. }) = part else { continue };
                let number = numbers.get(if numbers.len() == 1 { 0 } else { at }).copied().unwrap_or(0.0);
                if !(number >= *low && number <= *high) {
                    outside = Some(index);
                }
                arguments[index] = number;
            }
            let result = match outside {
                Some(index) => Err(out_of_range(&self.call.function, index, arguments[index])),
                None => function(&arguments),
            };
            match result {
                Ok(number) if number.is_finite() => {
                    self.values[at] = number;
                    self.doubt(at, &arguments, &function, &slope);
                }
                Ok(_) => {
                    let fault = not_finite(&self.call.function, self.span);
                    self.states.break_at(at, Arc::new(fault), self.values.len());
                }
                Err(failure) => self.fail(at, &failure),
            }
        }
        self
    }

    /// The doubt of one row, by its slopes.
    fn doubt(
        &mut self,
        at: usize,
        arguments: &[f64],
        function: &impl Fn(&[f64]) -> Result<f64, Failure>,
        slope: &impl Fn(&[f64], usize) -> Option<f64>,
    ) {
        let Some(doubts) = &mut self.doubts else { return };
        let by = |part: &'_ Option<Part<'a>>| part.as_ref().map_or(&[][..], |part| part.block.states.doubt_at(at));
        let given: Vec<&[doubt::Part]> = self.parts.iter().map(by).collect();
        let asked = |moved: &[f64]| {
            let outside = self.parts.iter().zip(moved).position(|(part, number)| {
                part.as_ref().is_some_and(|part| !(*number >= part.range.0 && *number <= part.range.1))
            });
            outside.map_or(Ok(()), |index| Err(out_of_range(&self.call.function, index, moved[index])))?;
            function(moved)
        };
        let exact = |by| slope(arguments, by);
        doubts[at] = call_doubt::of_numbers(arguments, &given, self.values[at], asked, exact);
    }

    fn fail(&mut self, at: usize, failure: &Failure) {
        let fault = fault_of(self.call, failure, self.span);
        self.states.break_at(at, Arc::new(fault), self.values.len());
    }

    fn block(self) -> Block {
        let doubt = self.doubts.map(|rows| {
            let mut doubt = Doubt::with_room(rows.len());
            rows.into_iter().for_each(|parts| doubt.push(parts));
            Box::new(doubt)
        });
        Block { data: Data::Numbers(self.values), states: self.states.with_doubt(doubt) }
    }
}
