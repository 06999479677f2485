//! Well-kinded expressions, one after another: each is put together of earlier ones, and what the oracle refuses is
//! thrown away. They are given as texts.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

use super::expression::{FUNCTIONS, UNITS};
use super::{Expression, Operator, Value};

/// Expressions that further ones are put together of.
const POOL: usize = 400;
/// Characters of one expression.
const LENGTH: usize = 600;
/// Levels of operations; each may open two brackets, of which a sheet may have 32 inside one another.
const LEVELS: usize = 14;
/// Numbers at the ends of what can be held.
const EXTREMES: &[f64] = &[1e-300, 5e-324, 1e300, 1.7e308, 1e-9, 1e16, 0.1, 1.0];

/// Expressions without end.
pub struct WellKinded {
    random: ChaCha8Rng,
    pool: Vec<(Expression, Value)>,
}

impl WellKinded {
    /// The sequence of this seed.
    pub fn new(seed: u64) -> WellKinded {
        WellKinded { random: ChaCha8Rng::seed_from_u64(seed), pool: Vec::new() }
    }

    fn below(&mut self, most: usize) -> usize {
        (self.random.next_u64() % most.max(1) as u64) as usize
    }

    /// A literal that can be held; one that cannot is refused before running.
    fn leaf(&mut self) -> Expression {
        loop {
            let leaf = self.any_leaf();
            if leaf.value().is_ok_and(|value| value.number.is_ok_and(f64::is_finite)) {
                return leaf;
            }
        }
    }

    fn any_leaf(&mut self) -> Expression {
        let at = self.below(UNITS.len());
        let unit = UNITS[at];
        let number = match self.below(8) {
            0 if unit.may_be_nought() => 0.0,
            1 if unit.may_be_nought() => {
                let at = self.below(EXTREMES.len());
                EXTREMES[at]
            }
            // The deepest vacuum is some 29.9 inHgv.
            _ if unit.is_vacuum() => self.below(230) as f64 / 8.0,
            2 => 10.0_f64.powi(self.below(12) as i32 - 6) * (1 + self.below(999)) as f64,
            _ => (1 + self.below(4_000)) as f64 / 8.0,
        };
        Expression::Leaf(number, unit)
    }

    fn part(&mut self) -> Box<Expression> {
        let at = self.below(self.pool.len());
        match self.pool.get(at) {
            Some((expression, _)) => Box::new(expression.clone()),
            None => Box::new(self.leaf()),
        }
    }

    fn made(&mut self) -> Expression {
        const OPERATORS: [Operator; 6] =
            [Operator::Plus, Operator::Minus, Operator::Times, Operator::Over, Operator::Greater, Operator::Lesser];
        match self.below(20) {
            0..=2 => self.leaf(),
            3 => Expression::Negated(self.part()),
            4 | 5 => Expression::Absolute(self.part()),
            6 => {
                let exponent = [None, Some(2), Some(3), Some(-1), Some(-2), Some(0)][self.below(6)];
                Expression::Power(self.part(), exponent)
            }
            7 => {
                let at = self.below(FUNCTIONS.len());
                Expression::Function(FUNCTIONS[at], self.part())
            }
            8 | 9 => Expression::Choice(Box::new([*self.part(), *self.part(), *self.part(), *self.part()])),
            _ => {
                let operator = OPERATORS[self.below(6)];
                Expression::Pair(operator, self.part(), self.part())
            }
        }
    }
}

impl Iterator for WellKinded {
    type Item = (String, Value);

    fn next(&mut self) -> Option<(String, Value)> {
        loop {
            let expression = self.made();
            let Ok(value) = expression.value() else { continue };
            // Two readings of a vacuum have no order that the language would write.
            let unordered = matches!(expression, Expression::Choice(_)) && expression.has_vacuum();
            if unordered || expression.levels() > LEVELS {
                continue;
            }
            let text = expression.text();
            if text.len() > LENGTH {
                continue;
            }
            // What is wrong once is wrong for ever above: most of the pool has values.
            if value.number.is_ok() || self.below(20) == 0 {
                match self.pool.len() {
                    0..POOL => self.pool.push((expression, value)),
                    _ => {
                        let at = self.below(POOL);
                        self.pool[at] = (expression, value);
                    }
                }
            }
            return Some((text, value));
        }
    }
}
