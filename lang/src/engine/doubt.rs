//! How well values are known: for each, by how much it moves when one cause of doubt moves by its standard uncertainty.
//!
//! These are first-order contributions (JCGM 100, 5.1): sensitivity times standard uncertainty, with their signs, so
//! that causes which two values share cancel or add up as they should. They are carried forward beside the values.

use super::origins::LOST;

/// A cause of doubt by its number, and what it contributes, in the unit the value is held in.
pub type Part = (u32, f64);

/// Contributions to each value of a block, sorted by cause. As with values, one stands for any number of rows.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Doubt {
    ends: Vec<usize>,
    parts: Vec<Part>,
}

impl Doubt {
    /// Of one value.
    pub fn one(parts: Vec<Part>) -> Doubt {
        Doubt { ends: vec![parts.len()], parts }
    }

    /// Of no values yet.
    pub fn with_room(rows: usize) -> Doubt {
        Doubt { ends: Vec::with_capacity(rows), parts: Vec::new() }
    }

    /// Of values whose doubt was given up.
    pub fn lost(rows: usize) -> Doubt {
        let mut doubt = Doubt::with_room(rows);
        (0..rows).for_each(|_| doubt.push([(LOST, 0.0)]));
        doubt
    }

    /// How many contributions to all values together.
    pub fn parts(&self) -> usize {
        self.parts.len()
    }

    /// How many values.
    pub fn len(&self) -> usize {
        self.ends.len()
    }

    /// Contributions to one value.
    pub fn row(&self, at: usize) -> &[Part] {
        let at = if self.ends.len() == 1 { 0 } else { at };
        let Some(&end) = self.ends.get(at) else { return &[] };
        let start = at.checked_sub(1).map_or(0, |before| self.ends[before]);
        &self.parts[start..end]
    }

    /// Adds a value.
    pub fn push(&mut self, row: impl IntoIterator<Item = Part>) {
        self.parts.extend(row);
        self.ends.push(self.parts.len());
    }

    /// Adds a value whose contributions are those of two others, each times a factor.
    pub fn push_sum(&mut self, (a, p): (&[Part], f64), (b, q): (&[Part], f64)) {
        add(a, p, b, q, &mut self.parts);
        self.ends.push(self.parts.len());
    }

    /// Some values.
    pub fn slice(&self, start: usize, length: usize) -> Doubt {
        if self.ends.len() == 1 {
            return self.clone();
        }
        let mut some = Doubt::with_room(length);
        for at in start..start + length {
            some.push(self.row(at).iter().copied());
        }
        some
    }

    /// Appends the doubt of further values, where either may have none.
    pub fn append(own: Option<Box<Doubt>>, before: usize, more: Option<&Doubt>, added: usize) -> Option<Box<Doubt>> {
        if own.is_none() && more.is_none() {
            return None;
        }
        let mut own = own.unwrap_or_else(|| {
            let mut none = Doubt::with_room(before + added);
            (0..before).for_each(|_| none.push([]));
            Box::new(none)
        });
        for at in 0..added {
            own.push(more.map_or(&[][..], |more| more.row(at)).iter().copied());
        }
        Some(own)
    }

    /// Contributions to a sum of many values, each times a factor.
    pub fn linear<'a>(terms: impl Iterator<Item = (&'a [Part], f64)>) -> Option<Box<Doubt>> {
        let mut all: Vec<Part> = Vec::new();
        let mut any = false;
        for (parts, factor) in terms {
            any |= !parts.is_empty();
            all.extend(parts.iter().map(|&(cause, part)| (cause, part * factor)));
        }
        if !any {
            return None;
        }
        // A stable sort keeps the order of the rows, so that sums have the same bits everywhere.
        all.sort_by_key(|(cause, _)| *cause);
        let mut sums: Vec<Part> = Vec::with_capacity(all.len());
        let mut size = 0.0;
        for (cause, part) in all {
            match sums.last_mut() {
                Some(last) if last.0 == cause => {
                    size += part.abs();
                    last.1 = settled(last.1 + part, size);
                }
                _ => {
                    size = part.abs();
                    sums.push((cause, part));
                }
            }
        }
        Some(Box::new(Doubt::one(sums)))
    }
}

/// The contributions of `a` times `p` and of `b` times `q`, joined.
fn add(a: &[Part], p: f64, b: &[Part], q: f64, into: &mut Vec<Part>) {
    let (mut left, mut right) = (a.iter().peekable(), b.iter().peekable());
    into.reserve(a.len().max(b.len()));
    loop {
        match (left.peek(), right.peek()) {
            (Some(&&(x, part)), Some(&&(y, other))) if x == y => {
                let (part, other) = (part * p, other * q);
                into.push((x, settled(part + other, part.abs() + other.abs())));
                left.next();
                right.next();
            }
            (Some(&&(x, part)), Some(&&(y, _))) if x < y => {
                into.push((x, part * p));
                left.next();
            }
            (Some(&&(x, part)), None) => {
                into.push((x, part * p));
                left.next();
            }
            (_, Some(&&(y, other))) => {
                into.push((y, other * q));
                right.next();
            }
            (None, None) => return,
        }
    }
}

/// What two contributions leave when they cancel to the last bits is nothing.
fn settled(sum: f64, size: f64) -> f64 {
    if sum.abs() <= 1e-14 * size { 0.0 } else { sum }
}

/// The standard uncertainty that contributions of independent causes make: the root of the sum of their squares.
pub fn standard(parts: &[Part]) -> f64 {
    let greatest = parts.iter().fold(0.0_f64, |most, (_, part)| most.max(part.abs()));
    if greatest == 0.0 || !greatest.is_finite() {
        return greatest;
    }
    let sum: f64 = parts.iter().map(|(_, part)| (part / greatest) * (part / greatest)).sum();
    greatest * sum.sqrt()
}

/// Says of contributions that they are not all there is.
pub fn lost(parts: &mut Vec<Part>) {
    if parts.last().is_none_or(|(cause, _)| *cause != LOST) {
        parts.push((LOST, 0.0));
    }
}

#[cfg(test)]
mod tests {
    use super::{Doubt, standard};

    #[test]
    fn shared_causes_cancel_and_others_add_up() {
        let (a, b) = ([(1, 3.0), (4, 1.0)], [(1, 3.0), (2, 2.0)]);
        let mut difference = Doubt::with_room(1);
        difference.push_sum((&a, 1.0), (&b, -1.0));
        assert_eq!(difference.row(0), [(1, 0.0), (2, -2.0), (4, 1.0)]);
        assert_eq!(standard(difference.row(0)), 5.0_f64.sqrt());
    }

    #[test]
    fn rows_are_sliced_and_joined() {
        let own = Doubt::append(None, 2, Some(&Doubt::one(vec![(7, 0.5)])), 1);
        let rows: Vec<usize> = own.iter().flat_map(|own| (0..3).map(|at| own.row(at).len())).collect();
        assert_eq!(rows, [0, 0, 1]);
        assert!(own.is_some_and(|own| own.slice(1, 2).row(1) == [(7, 0.5)]));
    }
}
