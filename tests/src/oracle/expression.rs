//! Random small expressions, written as a sheet would and computed by the oracle.

use proptest::prelude::*;

use super::{Dimension, NUMBER, PRESSURE, Refused, Stance, TEMPERATURE, Value};

/// A unit that leaves are written in: SI = (number + offset) × factor.
#[derive(Debug, Clone, Copy)]
pub struct LeafUnit {
    text: &'static str,
    dimension: Dimension,
    stance: Stance,
    offset: f64,
    factor: f64,
}

const fn unit(text: &'static str, dimension: Dimension, stance: Stance, offset: f64, factor: f64) -> LeafUnit {
    LeafUnit { text, dimension, stance, offset, factor }
}

/// Pascals in a psi: pound, standard gravity and inch are exact (NIST SP 811).
const PSI: f64 = 6_894.757_293_168_361;

const UNITS: &[LeafUnit] = &[
    unit("", NUMBER, Stance::Plain, 0.0, 1.0),
    unit("ft", [1, 0, 0, 0], Stance::Plain, 0.0, 0.3048),
    unit("s", [0, 0, 1, 0], Stance::Plain, 0.0, 1.0),
    unit("kg", [0, 1, 0, 0], Stance::Plain, 0.0, 1.0),
    unit("m3", [3, 0, 0, 0], Stance::Plain, 0.0, 1.0),
    unit("J", [2, 1, -2, 0], Stance::Plain, 0.0, 1.0),
    unit("degF", TEMPERATURE, Stance::Point, 459.67, 1.0 / 1.8),
    unit("degC", TEMPERATURE, Stance::Point, 273.15, 1.0),
    unit("C°", TEMPERATURE, Stance::Difference, 0.0, 1.0),
    unit("F°", TEMPERATURE, Stance::Difference, 0.0, 1.0 / 1.8),
    unit("K", TEMPERATURE, Stance::Open, 0.0, 1.0),
    // Without a site the atmosphere is 101.325 kPa.
    unit("psig", PRESSURE, Stance::Point, 101_325.0 / PSI, PSI),
    unit("kPaa", PRESSURE, Stance::Point, 0.0, 1_000.0),
    unit("psi", PRESSURE, Stance::Difference, 0.0, PSI),
    unit("kPa", PRESSURE, Stance::Difference, 0.0, 1_000.0),
    unit("Pa", PRESSURE, Stance::Open, 0.0, 1.0),
];

/// An expression.
#[derive(Debug, Clone)]
pub enum Expression {
    /// A literal.
    Leaf(f64, LeafUnit),
    /// `(a) + (b)` or `-`.
    Sum(Box<Expression>, Box<Expression>, bool),
    /// `(a) * (b)` or `/`.
    Product(Box<Expression>, Box<Expression>, bool),
    /// `-(a)`
    Negated(Box<Expression>),
    /// `absolute(a)`
    Absolute(Box<Expression>),
}

impl Expression {
    /// As a sheet writes it, every operand in brackets.
    pub fn text(&self) -> String {
        match self {
            Expression::Leaf(number, unit) => format!("{number:?} {}", unit.text).trim().to_string(),
            Expression::Sum(left, right, minus) => {
                format!("({}) {} ({})", left.text(), if *minus { "-" } else { "+" }, right.text())
            }
            Expression::Product(left, right, over) => {
                format!("({}) {} ({})", left.text(), if *over { "/" } else { "*" }, right.text())
            }
            Expression::Negated(inner) => format!("-({})", inner.text()),
            Expression::Absolute(inner) => format!("absolute({})", inner.text()),
        }
    }

    /// What the oracle makes of it. A refusal of kinds anywhere counts before a refusal of numbers, since the language
    /// settles all kinds first.
    pub fn value(&self) -> Result<Value, Refused> {
        let both = |left: &Expression, right: &Expression| match (left.value(), right.value()) {
            (Ok(left), Ok(right)) => Ok((left, right)),
            (Err(Refused::Kind), _) | (_, Err(Refused::Kind)) => Err(Refused::Kind),
            _ => Err(Refused::Number),
        };
        match self {
            Expression::Leaf(number, unit) => Ok(Value {
                dimension: unit.dimension,
                stance: unit.stance,
                from_zero: unit.stance == Stance::Open,
                si: (number + unit.offset) * unit.factor,
            }),
            Expression::Sum(left, right, minus) => {
                let (left, right) = both(left, right)?;
                left.plus(right, if *minus { -1.0 } else { 1.0 })
            }
            Expression::Product(left, right, over) => {
                let (left, right) = both(left, right)?;
                left.times(right, if *over { -1 } else { 1 })
            }
            Expression::Negated(inner) => inner.value()?.negated(),
            Expression::Absolute(inner) => inner.value()?.absolute(),
        }
    }

    /// Whether any part is refused because of its numbers: the kinds above such a part cannot be told by the oracle.
    pub fn breaks_below(&self) -> bool {
        let here = self.value() == Err(Refused::Number);
        here || match self {
            Expression::Leaf(..) => false,
            Expression::Sum(left, right, _) | Expression::Product(left, right, _) => {
                left.breaks_below() || right.breaks_below()
            }
            Expression::Negated(inner) | Expression::Absolute(inner) => inner.breaks_below(),
        }
    }
}

/// Any expression up to a few operators deep.
pub fn expressions() -> impl Strategy<Value = Expression> {
    let leaf =
        (1u32..4_000, 0..UNITS.len()).prop_map(|(number, at)| Expression::Leaf(f64::from(number) / 8.0, UNITS[at]));
    leaf.prop_recursive(4, 12, 2, |inner| {
        let pair = (inner.clone(), inner.clone(), any::<bool>());
        prop_oneof![
            4 => pair.clone().prop_map(|(left, right, minus)| Expression::Sum(Box::new(left), Box::new(right), minus)),
            3 => pair.prop_map(|(left, right, over)| Expression::Product(Box::new(left), Box::new(right), over)),
            1 => inner.clone().prop_map(|inner| Expression::Negated(Box::new(inner))),
            1 => inner.prop_map(|inner| Expression::Absolute(Box::new(inner))),
        ]
    })
}
