//! Expressions, as a sheet writes them and as the oracle computes them.

use proptest::prelude::*;

use super::value::{Dimension, Fault, IllKinded, NUMBER, PRESSURE, Stance, TEMPERATURE, Value};

/// A unit that leaves are written in.
#[derive(Debug, Clone, Copy)]
pub struct LeafUnit {
    text: &'static str,
    dimension: Dimension,
    stance: Stance,
    scale: Scale,
}

/// How a number in a unit becomes one in SI.
#[derive(Debug, Clone, Copy)]
enum Scale {
    /// SI = number × factor
    Times(f64),
    /// SI = number / divisor, exactly as the definition has it
    Over(f64),
    /// SI = (number + offset) × factor
    From(f64, f64),
    /// SI = (number + offset) / divisor
    FromOver(f64, f64),
    /// number × factor above the atmosphere
    Gauge(f64),
    /// number × factor below the atmosphere
    Vacuum(f64),
}

const fn unit(text: &'static str, dimension: Dimension, stance: Stance, scale: Scale) -> LeafUnit {
    LeafUnit { text, dimension, stance, scale }
}

/// Pascals in a psi: pound, standard gravity and inch are exact (NIST SP 811).
const PSI: f64 = 0.453_592_37 * 9.806_65 / (0.0254 * 0.0254);

/// The units of leaves.
pub const UNITS: &[LeafUnit] = &[
    unit("", NUMBER, Stance::Plain, Scale::Times(1.0)),
    unit("ft", [1, 0, 0, 0], Stance::Plain, Scale::Times(0.3048)),
    unit("s", [0, 0, 1, 0], Stance::Plain, Scale::Times(1.0)),
    unit("kg", [0, 1, 0, 0], Stance::Plain, Scale::Times(1.0)),
    unit("mm", [1, 0, 0, 0], Stance::Plain, Scale::Over(1_000.0)),
    unit("m3", [3, 0, 0, 0], Stance::Plain, Scale::Times(1.0)),
    unit("J", [2, 1, -2, 0], Stance::Plain, Scale::Times(1.0)),
    unit("degF", TEMPERATURE, Stance::Point, Scale::FromOver(459.67, 1.8)),
    unit("degC", TEMPERATURE, Stance::Point, Scale::From(273.15, 1.0)),
    unit("C°", TEMPERATURE, Stance::Difference, Scale::Times(1.0)),
    unit("F°", TEMPERATURE, Stance::Difference, Scale::Over(1.8)),
    unit("K", TEMPERATURE, Stance::Difference, Scale::Times(1.0)),
    unit("K absolute", TEMPERATURE, Stance::Point, Scale::Times(1.0)),
    unit("psig", PRESSURE, Stance::Point, Scale::Gauge(PSI)),
    unit("barg", PRESSURE, Stance::Point, Scale::Gauge(100_000.0)),
    unit("inHgv", PRESSURE, Stance::Point, Scale::Vacuum(3_386.388_640_341)),
    unit("kPaa", PRESSURE, Stance::Point, Scale::Times(1_000.0)),
    unit("psi", PRESSURE, Stance::Difference, Scale::Times(PSI)),
    unit("kPa", PRESSURE, Stance::Difference, Scale::Times(1_000.0)),
    unit("Pa", PRESSURE, Stance::Difference, Scale::Times(1.0)),
    unit("hPa absolute", PRESSURE, Stance::Point, Scale::Times(100.0)),
];

impl LeafUnit {
    /// Whether a deeper reading is a lower pressure: then the language refuses an order of two.
    pub fn is_vacuum(self) -> bool {
        matches!(self.scale, Scale::Vacuum(_))
    }

    /// Numbers of this unit can be nought or less.
    pub fn may_be_nought(self) -> bool {
        matches!(self.stance, Stance::Plain | Stance::Difference)
    }

    fn value(self, number: f64) -> Value {
        let (gauge, si) = match self.scale {
            Scale::Times(factor) => (false, number * factor),
            Scale::Over(divisor) => (false, number / divisor),
            Scale::From(offset, factor) => (false, (number + offset) * factor),
            Scale::FromOver(offset, divisor) => (false, (number + offset) / divisor),
            Scale::Gauge(factor) => (true, number * factor),
            Scale::Vacuum(factor) => (true, -(number * factor)),
        };
        Value {
            dimension: self.dimension,
            stance: self.stance,
            gauge,
            shown: Some(gauge),
            literal: Some(si),
            ..Value::pure(si)
        }
    }
}

/// An operation on two values.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Operator {
    /// `a + b`
    Plus,
    /// `a - b`
    Minus,
    /// `a * b`
    Times,
    /// `a / b`
    Over,
    /// `max(a, b)`
    Greater,
    /// `min(a, b)`
    Lesser,
}

/// An expression.
#[derive(Debug, Clone)]
pub enum Expression {
    /// A literal.
    Leaf(f64, LeafUnit),
    /// An operation on two values.
    Pair(Operator, Box<Expression>, Box<Expression>),
    /// `-(a)`
    Negated(Box<Expression>),
    /// `absolute(a)`
    Absolute(Box<Expression>),
    /// `(a)^n`, and the square root for no exponent
    Power(Box<Expression>, Option<i8>),
    /// `exp(a)`, `ln(a)` and their like
    Function(&'static str, Box<Expression>),
    /// `if a < b then c else d`
    Choice(Box<[Expression; 4]>),
}

impl Expression {
    /// As a sheet writes it, every operand in brackets.
    pub fn text(&self) -> String {
        match self {
            Expression::Leaf(number, unit) => format!("{number:?} {}", unit.text).trim().to_string(),
            Expression::Pair(operator, a, b) => {
                let (a, b) = (a.text(), b.text());
                match operator {
                    Operator::Plus => format!("({a}) + ({b})"),
                    Operator::Minus => format!("({a}) - ({b})"),
                    Operator::Times => format!("({a}) * ({b})"),
                    Operator::Over => format!("({a}) / ({b})"),
                    Operator::Greater => format!("max({a}, {b})"),
                    Operator::Lesser => format!("min({a}, {b})"),
                }
            }
            Expression::Negated(inner) => format!("-({})", inner.text()),
            Expression::Absolute(inner) => format!("absolute({})", inner.text()),
            Expression::Power(inner, None) => format!("sqrt({})", inner.text()),
            Expression::Power(inner, Some(exponent)) => format!("({})^({exponent})", inner.text()),
            Expression::Function(name, inner) => format!("{name}({})", inner.text()),
            Expression::Choice(parts) => {
                let [a, b, yes, no] = parts.each_ref().map(Expression::text);
                format!("if ({a}) < ({b}) then {yes} else {no}")
            }
        }
    }

    /// What the oracle makes of it as a cell.
    pub fn value(&self) -> Result<Value, IllKinded> {
        self.made()?.said()
    }

    /// What it is where more may be multiplied to it.
    fn made(&self) -> Result<Value, IllKinded> {
        match self {
            Expression::Leaf(number, unit) => Ok(unit.value(*number)),
            Expression::Pair(operator, a, b) => {
                if let Operator::Times | Operator::Over = operator {
                    return a.made()?.times(b.made()?, *operator == Operator::Over);
                }
                let (a, b) = (a.value()?, b.value()?);
                match operator {
                    Operator::Times | Operator::Over => Err(IllKinded),
                    Operator::Plus | Operator::Minus => a.plus(b, *operator == Operator::Minus),
                    Operator::Greater | Operator::Lesser => a.chosen(b, *operator == Operator::Greater),
                }
            }
            Expression::Negated(inner) => inner.made()?.negated(),
            Expression::Absolute(inner) => inner.value()?.absolute(),
            Expression::Power(inner, exponent) => inner.made()?.power(*exponent),
            Expression::Function(name, inner) => {
                let keeps = matches!(*name, "abs" | "cbrt");
                inner.value()?.of_number(keeps, |number| function(name, number))
            }
            Expression::Choice(parts) => {
                let [a, b, yes, no] = parts.each_ref().map(Expression::value);
                a?.choosing(b?, yes?, no?)
            }
        }
    }

    /// Whether a vacuum reading is in it, in whatever it shows.
    pub fn has_vacuum(&self) -> bool {
        matches!(self, Expression::Leaf(_, unit) if unit.is_vacuum()) || self.parts().into_iter().any(Self::has_vacuum)
    }

    /// Operations inside one another.
    pub fn levels(&self) -> usize {
        self.parts().into_iter().map(|part| 1 + part.levels()).max().unwrap_or(0)
    }

    fn parts(&self) -> Vec<&Expression> {
        match self {
            Expression::Leaf(..) => Vec::new(),
            Expression::Pair(_, a, b) => vec![a, b],
            Expression::Negated(inner) | Expression::Absolute(inner) => vec![inner],
            Expression::Power(inner, _) | Expression::Function(_, inner) => vec![inner],
            Expression::Choice(parts) => parts.iter().collect(),
        }
    }
}

/// Names of functions of a number.
pub const FUNCTIONS: &[&str] = &["exp", "ln", "log10", "sin", "cos", "tan", "cbrt", "abs", "sign"];

/// They come from the same library of mathematics: what is held against each other is the language around them.
fn function(name: &str, x: f64) -> Result<f64, Fault> {
    match name {
        "ln" | "log10" if x <= 0.0 => Err(Fault::NotReal),
        "ln" => Ok(libm::log(x)),
        "log10" => Ok(libm::log10(x)),
        "exp" => Ok(libm::exp(x)),
        "sin" => Ok(libm::sin(x)),
        "cos" => Ok(libm::cos(x)),
        "tan" => Ok(libm::tan(x)),
        "cbrt" => Ok(libm::cbrt(x)),
        "abs" => Ok(x.abs()),
        "sign" if x == 0.0 => Ok(0.0),
        "sign" => Ok(if x > 0.0 { 1.0 } else { -1.0 }),
        other => unreachable!("no function {other}"),
    }
}

/// Any expression up to a few operators deep, most of them of kinds that do not go together.
pub fn expressions() -> impl Strategy<Value = Expression> {
    let leaf =
        (1u32..4_000, 0..UNITS.len()).prop_map(|(number, at)| Expression::Leaf(f64::from(number) / 8.0, UNITS[at]));
    // A vacuum of hundreds of inches is below absolute zero already as it is typed.
    let leaf = leaf.prop_filter("no vacuum", |leaf| !leaf.has_vacuum());
    leaf.prop_recursive(4, 12, 2, |inner| {
        let pair = (inner.clone(), inner.clone());
        let of = |operators: &'static [Operator]| (pair.clone(), prop::sample::select(operators));
        let sums = of(&[Operator::Plus, Operator::Minus]);
        let products = of(&[Operator::Times, Operator::Over]);
        let built = |((a, b), operator)| Expression::Pair(operator, Box::new(a), Box::new(b));
        prop_oneof![
            4 => sums.prop_map(built),
            3 => products.prop_map(built),
            1 => inner.clone().prop_map(|inner| Expression::Negated(Box::new(inner))),
            1 => inner.prop_map(|inner| Expression::Absolute(Box::new(inner))),
        ]
    })
}
