//! Comparisons, conditions and choices on blocks, with `?` taken seriously: `false and ?` is false.

use std::cmp::Ordering;
use std::sync::Arc;

use super::arithmetic::{common_length, same, stands};
use super::block::{Block, Data, Mark, States};
use super::fault::Fault;
use crate::diagnostic::running as codes;
use crate::moment::Moment;
use crate::plan::Order;
use crate::source::Span;

/// Two blocks of numbers compared.
pub fn compare(order: Order, a: &Block, b: &Block) -> Block {
    let length = common_length(a, b);
    let (x, y) = (a.as_numbers(), b.as_numbers());
    let flags = (0..length).map(|at| stands(order, pick(&x, at), pick(&y, at))).collect();
    Block { data: Data::Flags(flags), states: a.states.merge(&b.states, length) }
}

/// Texts compared.
pub fn same_text(a: &Block, b: &Block) -> Block {
    let length = common_length(a, b);
    let flags = (0..length).map(|at| matches!((a.text_at(at), b.text_at(at)), (Some(x), Some(y)) if x == y)).collect();
    Block { data: Data::Flags(flags), states: a.states.merge(&b.states, length) }
}

/// Flags compared.
pub fn same_flag(a: &Block, b: &Block) -> Block {
    let length = common_length(a, b);
    let flags = (0..length).map(|at| a.flag_at(at) == b.flag_at(at)).collect();
    Block { data: Data::Flags(flags), states: a.states.merge(&b.states, length) }
}

/// Times compared; an offset on one side only breaks.
pub fn compare_times(order: Order, a: &Block, b: &Block, span: Span) -> Block {
    let length = common_length(a, b);
    let mut states = a.states.merge(&b.states, length);
    let mut flags = vec![false; length];
    for (at, flag) in flags.iter_mut().enumerate() {
        let (Some(x), Some(y)) = (a.moment_at(at), b.moment_at(at)) else { continue };
        match x.compare(y) {
            Ok(found) => {
                *flag = match order {
                    Order::Equal => found == Ordering::Equal,
                    Order::NotEqual => found != Ordering::Equal,
                    Order::Less => found == Ordering::Less,
                    Order::AtMost => found != Ordering::Greater,
                    Order::More => found == Ordering::Greater,
                    Order::AtLeast => found != Ordering::Less,
                }
            }
            Err(message) => states.break_at(at, Arc::new(Fault::new(&codes::TIME_OFFSETS, message, span)), length),
        }
    }
    Block { data: Data::Flags(flags), states }
}

/// `low <= value <= high`
pub fn within(value: &Block, low: &Block, high: &Block, span: Span) -> Block {
    let length = common_length(value, low).max(high.len());
    let length = if value.len() == 1 && low.len() == 1 { high.len() } else { length };
    let mut states = value.states.merge(&low.states, length).merge(&high.states, length);
    let mut flags = vec![false; length];
    let mut judge = |at: usize, judged: Result<Place, String>| {
        if states.mark(at) != Mark::Known {
            return;
        }
        let fault = match judged {
            Ok(Place { reversed: false, inside }) => {
                flags[at] = inside;
                return;
            }
            Ok(_) => Fault::new(&codes::RUN_ENDS_REVERSED, "the ends of this range are the wrong way round", span)
                .with_mend("the lesser end stands first"),
            Err(message) => Fault::new(&codes::TIME_OFFSETS, message, span),
        };
        states.break_at(at, Arc::new(fault), length);
    };
    if [value, low, high].iter().all(|block| matches!(block.data, Data::Moments(_))) {
        for at in 0..length {
            if let (Some(x), Some(a), Some(b)) = (value.moment_at(at), low.moment_at(at), high.moment_at(at)) {
                judge(at, place_in_time(x, a, b));
            }
        }
    } else {
        let (x, a, b) = (value.as_numbers(), low.as_numbers(), high.as_numbers());
        for at in 0..length {
            let (x, a, b) = (pick(&x, at), pick(&a, at), pick(&b, at));
            let inside = stands(Order::AtLeast, x, a) && stands(Order::AtMost, x, b);
            judge(at, Ok(Place { reversed: a > b && !same(a, b), inside }));
        }
    }
    Block { data: Data::Flags(flags), states }
}

/// Where a value stands to a range.
struct Place {
    /// The ends of the range are the wrong way round.
    reversed: bool,
    inside: bool,
}

fn place_in_time(x: Moment, low: Moment, high: Moment) -> Result<Place, String> {
    let inside = x.compare(low)?.is_ge() && x.compare(high)?.is_le();
    Ok(Place { reversed: high.compare(low)?.is_lt(), inside })
}

/// `|value - of| <= tolerance`
pub fn near(value: &Block, tolerance: &Block, of: &Block, span: Span) -> Block {
    let length = value.len().max(tolerance.len()).max(of.len());
    let length = if [value, tolerance, of].iter().any(|block| block.is_empty()) { 0 } else { length };
    let mut states = value.states.merge(&tolerance.states, length).merge(&of.states, length);
    let (x, t, y) = (value.as_numbers(), tolerance.as_numbers(), of.as_numbers());
    let mut flags = vec![false; length];
    for (at, flag) in flags.iter_mut().enumerate() {
        let (x, t, y) = (pick(&x, at), pick(&t, at), pick(&y, at));
        if t < 0.0 && states.mark(at) == Mark::Known {
            let fault = Fault::new(&codes::NEGATIVE_TOLERANCE, "what stands after `±` must be zero or more", span);
            states.break_at(at, Arc::new(fault), length);
        }
        // The difference of two large values carries their rounding: equality is judged against them, not against it.
        let slack = super::arithmetic::EQUAL * t.abs();
        *flag = (x - y).abs() <= t + slack;
    }
    Block { data: Data::Flags(flags), states }
}

/// `not a`
pub fn not(a: Block) -> Block {
    match a.data {
        Data::Flags(flags) => {
            Block { data: Data::Flags(flags.into_iter().map(|flag| !flag).collect()), states: a.states }
        }
        data => Block { data, states: a.states },
    }
}

/// `a and b` (`or` with `decisive` true): a side that decides is enough, whatever the other is.
pub fn combine(a: &Block, b: &Block, decisive: bool) -> Block {
    let length = common_length(a, b);
    let mut states = States::known();
    let mut flags = vec![!decisive; length];
    for (at, flag) in flags.iter_mut().enumerate() {
        let (x, y) = (a.flag_at(at), b.flag_at(at));
        if x == Some(decisive) {
            *flag = decisive;
        } else if a.mark(at) == Mark::Broken {
            break_like(&mut states, a, at, length);
        } else if y == Some(decisive) {
            *flag = decisive;
        } else if b.mark(at) == Mark::Broken {
            break_like(&mut states, b, at, length);
        } else {
            let mark = a.mark(at).max(b.mark(at));
            if mark != Mark::Known {
                states.set(at, mark, length);
            }
        }
    }
    Block { data: Data::Flags(flags), states }
}

/// Row by row the one or the other.
pub fn choose(condition: &Block, yes: Block, no: Block) -> Block {
    let length = if condition.len() == 1 { yes.len().max(no.len()) } else { condition.len() };
    if let (Data::Flags(flags), Data::Numbers(a), Data::Numbers(b)) = (&condition.data, &yes.data, &no.data)
        && [condition, &yes, &no].iter().all(|block| block.states.is_exact() && block.len() == length)
    {
        let values = flags.iter().zip(a.iter().zip(b)).map(|(&flag, (&a, &b))| if flag { a } else { b }).collect();
        return Block::numbers(values);
    }
    let rows = (0..length)
        .map(|at| match condition.flag_at(at) {
            Some(true) => yes.row(at),
            Some(false) => no.row(at),
            None => Block { data: Data::Nothing(1), states: condition.row(at).states },
        })
        .collect();
    Block::gather(rows)
}

fn break_like(states: &mut States, from: &Block, at: usize, length: usize) {
    match from.states.fault(at) {
        Some(fault) => states.break_at(at, fault.clone(), length),
        None => states.set(at, Mark::Broken, length),
    }
}

fn pick(values: &[f64], at: usize) -> f64 {
    match values {
        [only] => *only,
        values => values.get(at).copied().unwrap_or(0.0),
    }
}
