//! When two numbers, or two texts with numbers in them, count as the same.

use std::cell::{Cell, RefCell};

/// Compares numbers, and counts those that differ within the tolerance.
#[derive(Debug)]
pub(super) struct Closeness {
    tolerance: Option<f64>,
    within: Cell<usize>,
    largest: RefCell<Option<f64>>,
}

impl Closeness {
    pub(super) fn new(tolerance: Option<f64>) -> Closeness {
        Closeness { tolerance, within: Cell::new(0), largest: RefCell::new(None) }
    }

    /// Numbers are compared bit for bit, or within the tolerance.
    pub(super) fn is_strict(&self) -> bool {
        self.tolerance.is_none()
    }

    /// How many numbers differed within the tolerance, and the largest relative difference of all that differed.
    pub(super) fn into_parts(self) -> (usize, Option<f64>) {
        (self.within.get(), self.largest.into_inner())
    }

    /// Two numbers. The sign of a zero is no difference: the canonical form does not write it.
    pub(super) fn numbers(&self, a: f64, b: f64) -> bool {
        if a == b {
            return true;
        }
        let apart = (a - b).abs() / a.abs().max(b.abs());
        let largest = self.largest.borrow().map_or(apart, |largest| largest.max(apart));
        *self.largest.borrow_mut() = Some(largest);
        let within = self.tolerance.is_some_and(|tolerance| apart <= tolerance);
        if within {
            self.within.set(self.within.get() + 1);
        }
        within
    }

    /// Two texts: the same words, and numbers within the tolerance or one step of their last digit apart, since a number
    /// on the edge is rounded either way.
    pub(super) fn texts(&self, a: &str, b: &str) -> bool {
        if a == b {
            return true;
        }
        let Some(tolerance) = self.tolerance else { return false };
        let (a, b) = (pieces(a), pieces(b));
        a.len() == b.len()
            && a.iter().zip(&b).all(|(a, b)| match (a, b) {
                (Piece::Words(a), Piece::Words(b)) => a == b,
                (Piece::Number(x, step_x), Piece::Number(y, step_y)) => {
                    let step = step_x.max(*step_y) * (1.0 + 1e-9);
                    (x - y).abs() <= tolerance * x.abs().max(y.abs()) + step
                }
                _ => false,
            })
    }
}

enum Piece<'a> {
    Words(&'a str),
    /// A number and the step of its last digit.
    Number(f64, f64),
}

/// Words and numbers of a text, in order. A digit inside a word, as in a unit or a name, belongs to the word.
fn pieces(text: &str) -> Vec<Piece<'_>> {
    let mut found = Vec::new();
    for word in text.split_inclusive([' ', '(', ')', ',', ';', '=', '|', '/']) {
        let bare = word.trim_end_matches([' ', '(', ')', ',', ';', '=', '|', '/', '.', ':']);
        match bare.parse::<f64>() {
            Ok(number) if number.is_finite() => {
                let mantissa = bare.split(['e', 'E']).next().unwrap_or(bare);
                let exponent = bare.split(['e', 'E']).nth(1).and_then(|text| text.parse::<i32>().ok()).unwrap_or(0);
                let digits = mantissa.split_once('.').map_or(0, |(_, decimals)| decimals.len() as i32);
                found.push(Piece::Number(number, libm_step(exponent - digits)));
                found.push(Piece::Words(&word[bare.len()..]));
            }
            _ => found.push(Piece::Words(word)),
        }
    }
    found
}

/// Ten to a whole power, read from its text: no platform's arithmetic decides what counts as the same.
fn libm_step(power: i32) -> f64 {
    format!("1e{power}").parse().unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::Closeness;

    #[test]
    fn without_a_tolerance_only_the_same_bits_are_the_same() {
        let strict = Closeness::new(None);
        assert!(strict.numbers(0.1, 0.1) && !strict.numbers(0.1, 0.1 + 1e-17 + f64::EPSILON));
        assert!(!strict.texts("1.0 psi", "1.1 psi"));
        assert!(strict.into_parts().1.is_some());
    }

    #[test]
    fn a_tolerance_is_relative_and_bears_one_step_of_rounding() {
        let loose = Closeness::new(Some(1e-6));
        assert!(loose.numbers(300.0, 300.000_1) && !loose.numbers(300.0, 300.1));
        assert!(loose.texts("drop = 538.305 psig", "drop = 538.306 psig"));
        assert!(!loose.texts("drop = 538.305 psig", "drop = 538.405 psig"));
        assert!(!loose.texts("drop = 538.305 psig", "fall = 538.305 psig"));
        assert!(!loose.texts("R-32 5 psi", "R-410A 5 psi"));
        assert_eq!(loose.into_parts().0, 1);
    }
}
