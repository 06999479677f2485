//! The rules of points, differences and open values, apart from any sheet.

use super::kind::{Kind, Quantity, Stance};
use crate::units::Dimension;

/// Why two kinds do not go together, in words, with what may be meant.
#[derive(Debug, Clone, PartialEq)]
pub struct Refusal {
    /// One line.
    pub message: String,
    /// How to say what may be meant.
    pub mend: Option<String>,
}

impl Refusal {
    pub(super) fn new(message: impl Into<String>, mend: impl Into<String>) -> Refusal {
        Refusal { message: message.into(), mend: Some(mend.into()) }
    }

    pub(super) fn bare(message: impl Into<String>) -> Refusal {
        Refusal { message: message.into(), mend: None }
    }
}

/// The kind of a sum.
pub fn add(left: &Kind, right: &Kind) -> Result<Kind, Refusal> {
    use Stance::{Difference, Open, Plain, Point};
    match (left, right) {
        (Kind::Unknown, _) | (_, Kind::Unknown) => Ok(Kind::Unknown),
        (Kind::Number, Kind::Number) => Ok(Kind::Number),
        (Kind::Time, Kind::Quantity(duration)) if duration.dimension == Dimension::TIME => Ok(Kind::Time),
        (Kind::Quantity(duration), Kind::Time) if duration.dimension == Dimension::TIME => Ok(Kind::Time),
        (Kind::Quantity(a), Kind::Quantity(b)) if a.dimension == b.dimension => {
            let stance = match (a.stance, b.stance) {
                (Plain { from_zero: x }, Plain { from_zero: y }) => Plain { from_zero: x || y },
                (Point, Point) => return Err(two_points(*a)),
                (Point, Difference | Open) | (Difference, Point) => Point,
                (Open, Point) => return Err(open_and_point(*a, "+")),
                (Open, Open | Difference) | (Difference, Open) => Open,
                (Difference, Difference) => Difference,
                _ => return Ok(Kind::Unknown),
            };
            Ok(Kind::Quantity(Quantity { dimension: a.dimension, stance }))
        }
        _ => Err(unlike("add", left, right)),
    }
}

/// The kind of a difference.
pub fn subtract(left: &Kind, right: &Kind) -> Result<Kind, Refusal> {
    use Stance::{Difference, Open, Plain, Point};
    match (left, right) {
        (Kind::Unknown, _) | (_, Kind::Unknown) => Ok(Kind::Unknown),
        (Kind::Number, Kind::Number) => Ok(Kind::Number),
        (Kind::Time, Kind::Time) => {
            Ok(Kind::Quantity(Quantity { dimension: Dimension::TIME, stance: Plain { from_zero: false } }))
        }
        (Kind::Time, Kind::Quantity(duration)) if duration.dimension == Dimension::TIME => Ok(Kind::Time),
        (Kind::Quantity(a), Kind::Quantity(b)) if a.dimension == b.dimension => {
            let stance = match (a.stance, b.stance) {
                (Plain { from_zero: x }, Plain { from_zero: y }) => Plain { from_zero: x && !y },
                (Point, Point) | (Open, Open) | (Difference, Difference | Open) => Difference,
                (Point, Difference) => Point,
                (Open, Difference) => Open,
                (Point, Open) | (Open, Point) => return Err(open_and_point(*a, "-")),
                (Difference, Point) => return Err(difference_minus_point(*a)),
                _ => return Ok(Kind::Unknown),
            };
            Ok(Kind::Quantity(Quantity { dimension: a.dimension, stance }))
        }
        _ => Err(unlike("subtract", left, right)),
    }
}

/// The kind of a product.
pub fn multiply(left: &Kind, right: &Kind) -> Result<Kind, Refusal> {
    scale(left, right, "multiply", Dimension::times)
}

/// The kind of a quotient.
pub fn divide(left: &Kind, right: &Kind) -> Result<Kind, Refusal> {
    scale(left, right, "divide", Dimension::over)
}

/// The kind of a power with a fraction as exponent.
pub fn power(base: &Kind, numerator: i32, denominator: i32) -> Result<Kind, Refusal> {
    match base {
        Kind::Unknown => Ok(Kind::Unknown),
        Kind::Number => Ok(Kind::Number),
        Kind::Quantity(quantity) if quantity.stance == Stance::Point => Err(scaled_point(*quantity, "raise")),
        Kind::Quantity(quantity) => match quantity.dimension.power(numerator, denominator) {
            Some(dimension) => Ok(Kind::computed(dimension, quantity.from_zero())),
            None => Err(Refusal::bare("this power has exponents that no unit has")),
        },
        other => Err(Refusal::bare(format!("{} cannot be raised to a power", other.words()))),
    }
}

/// The kind with the opposite sign.
pub fn negate(kind: &Kind) -> Result<Kind, Refusal> {
    match kind {
        Kind::Unknown | Kind::Number => Ok(kind.clone()),
        Kind::Quantity(quantity) if quantity.stance == Stance::Point => {
            Err(scaled_point(*quantity, "change the sign of"))
        }
        // The negative of a value from true zero lies below true zero; it can only be meant as a difference.
        Kind::Quantity(quantity) if quantity.stance == Stance::Open => {
            Ok(Kind::Quantity(Quantity { stance: Stance::Difference, ..*quantity }))
        }
        Kind::Quantity(_) => Ok(kind.clone()),
        other => Err(Refusal::bare(format!("{} has no sign to change", other.words()))),
    }
}

/// The one kind that two branches, two sides of a comparison or two ends of a range share.
pub fn unify(left: &Kind, right: &Kind) -> Result<Kind, Refusal> {
    match (left, right) {
        (Kind::Unknown, other) | (other, Kind::Unknown) => Ok(other.clone()),
        (Kind::Text(a), Kind::Text(b)) => {
            Ok(Kind::Text(a.as_ref().zip(b.as_ref()).map(|(a, b)| super::words::either(a, b))))
        }
        (Kind::Quantity(a), Kind::Quantity(b)) if a.dimension == b.dimension => {
            use Stance::{Difference, Open, Plain, Point};
            let stance = match (a.stance, b.stance) {
                (Plain { from_zero: x }, Plain { from_zero: y }) => Plain { from_zero: x || y },
                (x, y) if x == y => x,
                (Open, other) | (other, Open) => other,
                (Point, Difference) | (Difference, Point) => return Err(point_with_difference(*a)),
                _ => return Ok(Kind::Unknown),
            };
            Ok(Kind::Quantity(Quantity { dimension: a.dimension, stance }))
        }
        (a, b) if a == b => Ok(a.clone()),
        _ => Err(unlike("compare", left, right)),
    }
}

/// Whether a value of one kind may stand where another is wanted, as after `:` or `as` or for a parameter.
pub fn fits(given: &Kind, wanted: &Kind) -> Result<(), Refusal> {
    match (given, wanted) {
        (Kind::Unknown, _) | (_, Kind::Unknown) | (Kind::Text(_), Kind::Text(None)) => Ok(()),
        (Kind::Text(Some(have)), Kind::Text(Some(want))) if have.iter().all(|one| want.contains(one)) => Ok(()),
        (Kind::Quantity(have), Kind::Quantity(want)) if have.dimension == want.dimension => {
            match (have.stance, want.stance) {
                (Stance::Plain { .. }, _) | (Stance::Open, _) => Ok(()),
                (x, y) if x == y => Ok(()),
                (Stance::Point, Stance::Difference) => Err(point_as_difference(*have)),
                (Stance::Difference, Stance::Point) => Err(difference_as_point(*have)),
                (Stance::Point, _) => Err(Refusal::new(
                    "a point on a scale stands where a value from true zero is wanted",
                    "write `absolute(…)` around it",
                )),
                _ => Err(Refusal::new(
                    "a difference stands where a value from true zero is wanted",
                    "use the absolute value, such as `absolute(…)` of a point",
                )),
            }
        }
        (a, b) if a == b => Ok(()),
        (Kind::Number, Kind::Quantity(want)) => Err(Refusal::new(
            format!("a plain number stands where {} is wanted", want.words()),
            "write its unit after the number",
        )),
        _ => {
            let message = format!("{} stands where {} is wanted", given.words(), wanted.words());
            Err(Refusal { message, mend: confusion(given, wanted) })
        }
    }
}

fn scale(
    left: &Kind,
    right: &Kind,
    verb: &str,
    combine: fn(Dimension, Dimension) -> Option<Dimension>,
) -> Result<Kind, Refusal> {
    for side in [left, right] {
        match side {
            Kind::Quantity(quantity) if quantity.stance == Stance::Point => return Err(scaled_point(*quantity, verb)),
            Kind::Number | Kind::Quantity(_) | Kind::Unknown => {}
            other => return Err(Refusal::bare(format!("{} cannot be used to {verb}", other.words()))),
        }
    }
    let (Some(a), Some(b)) = (left.dimension(), right.dimension()) else { return Ok(Kind::Unknown) };
    let marked = [left, right].iter().any(|kind| kind.quantity().is_some_and(Quantity::from_zero));
    match combine(a, b) {
        Some(dimension) => Ok(Kind::computed(dimension, marked)),
        None => Err(Refusal::bare("this product has exponents that no unit has")),
    }
}

fn two_points(of: Quantity) -> Refusal {
    if of.dimension == Dimension::TEMPERATURE {
        Refusal::new(
            "two temperatures cannot be added: 40 °F + 10 °F is not 50 °F of anything",
            "if one of them is a difference, write it in `F°` or `C°`; for a mean use `mean(a, b)`",
        )
    } else {
        Refusal::new(
            "two pressures cannot be added: each is a point on a scale",
            "a gauge reading as an absolute pressure is `… as psia`; a difference is written in `psi`, `kPa` or `bar`; a \
             mean is `mean(a, b)`",
        )
    }
}

fn open_and_point(of: Quantity, sign: &str) -> Refusal {
    let (point, absolute, difference) =
        if of.dimension == Dimension::TEMPERATURE { ("degF", "K", "F°") } else { ("psig", "Pa", "psi") };
    Refusal::new(
        format!("`{sign}` of a point ({point}) and a value from true zero ({absolute}) can mean two things"),
        format!(
            "for a distance between two points write the other `as {point}` too; for a difference write it in `{difference}`"
        ),
    )
}

fn difference_minus_point(of: Quantity) -> Refusal {
    let difference = if of.dimension == Dimension::TEMPERATURE { "F°" } else { "psi" };
    Refusal::new(
        "a point cannot be taken away from a difference",
        format!(
            "put the point first, or, if both are meant as points, give the first a point unit instead of `{difference}`"
        ),
    )
}

fn point_with_difference(of: Quantity) -> Refusal {
    let (what, point, difference) = names(of);
    Refusal::new(
        format!("a {what} ({point}) and a {what} difference ({difference}) are put side by side"),
        format!("write both in a point unit such as `{point}`, or both as differences in `{difference}`"),
    )
}

fn point_as_difference(of: Quantity) -> Refusal {
    let (what, point, difference) = names(of);
    Refusal::new(
        format!("a {what} ({point}) stands where a {what} difference ({difference}) is wanted"),
        format!("subtract two {what}s, or write the difference in `{difference}`"),
    )
}

fn difference_as_point(of: Quantity) -> Refusal {
    let (what, point, difference) = names(of);
    let mend = if of.dimension == Dimension::TEMPERATURE {
        "a reading of a thermometer is `degF` or `degC`; `F°` and `C°` are differences".to_string()
    } else {
        "say which: `psig` is read on a gauge, `psia` is absolute; bare `psi` is a difference".to_string()
    };
    Refusal::new(format!("a {what} difference ({difference}) stands where a {what} ({point}) is wanted"), mend)
}

fn scaled_point(of: Quantity, verb: &str) -> Refusal {
    if of.dimension == Dimension::TEMPERATURE {
        Refusal::new(
            format!("you cannot {verb} a temperature on a scale such as degF: its zero is not true zero"),
            "write `absolute(…)` around it for kelvin, or subtract another temperature for a difference",
        )
    } else {
        Refusal::new(
            format!("you cannot {verb} a pressure point such as psig"),
            "write `absolute(…)` around it for absolute pressure, or subtract another pressure for a difference",
        )
    }
}

fn unlike(verb: &str, left: &Kind, right: &Kind) -> Refusal {
    let message = match verb {
        "compare" => format!("{} and {} are put side by side", left.words(), right.words()),
        _ => format!("you cannot {verb} {} and {}", left.words(), right.words()),
    };
    let number_with_quantity =
        matches!((left, right), (Kind::Number, Kind::Quantity(_)) | (Kind::Quantity(_), Kind::Number));
    if number_with_quantity {
        Refusal::new(message, "give the plain number a unit, such as `0 psi`")
    } else {
        Refusal { message, mend: confusion(left, right) }
    }
}

/// What is often confused: mass with force, an amount with a rate.
fn confusion(left: &Kind, right: &Kind) -> Option<String> {
    let (a, b) = (left.quantity()?.dimension, right.quantity()?.dimension);
    let force = Dimension::whole([1, 1, -2, 0, 0, 0]);
    let energy = Dimension::whole([2, 1, -2, 0, 0, 0]);
    let is_mass_on_area = |dimension: Dimension| dimension == Dimension::whole([-2, 1, 0, 0, 0, 0]);
    if b == Dimension::PRESSURE && is_mass_on_area(a) || a == Dimension::PRESSURE && is_mass_on_area(b) {
        return Some("`lb` and `kg` are masses; a pressure is a force on an area: write `lbf` or `N`".into());
    }
    let is = |one, other| (a == one && b == other) || (a == other && b == one);
    if is(Dimension::MASS, force) {
        return Some(
            "`lb`, `oz` and `kg` are masses, `lbf` and `N` are forces: write both in units of the same".into(),
        );
    }
    if a.over(Dimension::TIME) == Some(b) || b.over(Dimension::TIME) == Some(a) {
        return Some(if a == energy || b == energy {
            "`Btu` and `kWh` are energies, `Btu/h`, `ton` and `kW` are powers: multiply the power by a time".into()
        } else {
            "one of them is per time: multiply it by a duration, or divide the other by one".into()
        });
    }
    None
}

fn names(of: Quantity) -> (&'static str, &'static str, &'static str) {
    if of.dimension == Dimension::TEMPERATURE { ("temperature", "degF", "F°") } else { ("pressure", "psig", "psi") }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn pressure(stance: Stance) -> Kind {
        Kind::Quantity(Quantity { dimension: Dimension::PRESSURE, stance })
    }

    #[test]
    fn sums_follow_the_table() {
        use Stance::{Difference, Open, Point};
        let rows = [
            (Point, Difference, Some(Point)),
            (Point, Open, Some(Point)),
            (Difference, Point, Some(Point)),
            (Difference, Difference, Some(Difference)),
            (Open, Open, Some(Open)),
            (Open, Difference, Some(Open)),
            (Difference, Open, Some(Open)),
            (Open, Point, None),
            (Point, Point, None),
        ];
        for (left, right, wanted) in rows {
            let sum = add(&pressure(left), &pressure(right)).ok();
            assert_eq!(sum, wanted.map(pressure), "{left:?} + {right:?}");
        }
    }

    #[test]
    fn differences_follow_the_table() {
        use Stance::{Difference, Open, Point};
        let rows = [
            (Point, Point, Some(Difference)),
            (Open, Open, Some(Difference)),
            (Difference, Difference, Some(Difference)),
            (Difference, Open, Some(Difference)),
            (Point, Difference, Some(Point)),
            (Open, Difference, Some(Open)),
            (Point, Open, None),
            (Difference, Point, None),
            (Open, Point, None),
        ];
        for (left, right, wanted) in rows {
            let difference = subtract(&pressure(left), &pressure(right)).ok();
            assert_eq!(difference, wanted.map(pressure), "{left:?} - {right:?}");
        }
    }

    #[test]
    fn a_mark_survives_until_a_pressure_comes_out() {
        let temperature = Kind::Quantity(Quantity { dimension: Dimension::TEMPERATURE, stance: Stance::Open });
        let density = Kind::computed(Dimension::whole([-3, 1, 0, 0, 0, 0]), false);
        let marked = multiply(&density, &temperature).unwrap();
        let heat = Kind::computed(Dimension::whole([2, 0, -2, 0, -1, 0]), false);
        assert_eq!(multiply(&marked, &heat).unwrap(), pressure(Stance::Open));
        let head = Kind::computed(Dimension::whole([2, 0, -2, 0, 0, 0]), false);
        assert_eq!(multiply(&density, &head).unwrap(), pressure(Stance::Difference));
    }
}
