//! The rules of points, differences and values from zero, apart from any sheet.

use super::factors::Factors;
use super::kind::{Kind, Quantity, Stance};
use crate::units::{self, Dimension};

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

/// A kind with the pressures and temperatures that have gone into it.
pub type Made = (Kind, Factors);

/// The kind of a sum.
pub fn add(left: &Kind, right: &Kind) -> Result<Kind, Refusal> {
    use Stance::{Difference, FromZero, Plain, Point};
    match (left, right) {
        (Kind::Unknown, _) | (_, Kind::Unknown) => Ok(Kind::Unknown),
        (Kind::Number, Kind::Number) => Ok(Kind::Number),
        (Kind::Time, Kind::Quantity(duration)) if duration.dimension == Dimension::TIME => Ok(Kind::Time),
        (Kind::Quantity(duration), Kind::Time) if duration.dimension == Dimension::TIME => Ok(Kind::Time),
        (Kind::Quantity(a), Kind::Quantity(b)) if a.dimension == b.dimension => {
            let stance = match (a.stance, b.stance) {
                (Plain, Plain) => Plain,
                (Point, Point) => return Err(two_points(*a)),
                (Point, Difference) | (Difference, Point) => Point,
                (FromZero, Point) | (Point, FromZero) => return Err(from_zero_and_point(*a)),
                (FromZero, FromZero | Difference) | (Difference, FromZero) => FromZero,
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
    use Stance::{Difference, FromZero, Plain, Point};
    match (left, right) {
        (Kind::Unknown, _) | (_, Kind::Unknown) => Ok(Kind::Unknown),
        (Kind::Number, Kind::Number) => Ok(Kind::Number),
        (Kind::Time, Kind::Time) => Ok(Kind::plain(Dimension::TIME)),
        (Kind::Time, Kind::Quantity(duration)) if duration.dimension == Dimension::TIME => Ok(Kind::Time),
        (Kind::Quantity(a), Kind::Quantity(b)) if a.dimension == b.dimension => {
            let stance = match (a.stance, b.stance) {
                (Plain, Plain) => Plain,
                (Point | FromZero, Point | FromZero) | (Difference, Difference) => Difference,
                (Point, Difference) => Point,
                (FromZero, Difference) => FromZero,
                (Difference, FromZero) => return Err(difference_minus_from_zero(*a)),
                (Difference, Point) => return Err(difference_minus_point(*a)),
                _ => return Ok(Kind::Unknown),
            };
            Ok(Kind::Quantity(Quantity { dimension: a.dimension, stance }))
        }
        _ => Err(unlike("subtract", left, right)),
    }
}

/// The kind of a product.
pub fn multiply(left: &Made, right: &Made) -> Result<Made, Refusal> {
    scale(left, right, "multiply", Dimension::times)
}

/// The kind of a quotient.
pub fn divide(left: &Made, right: &Made) -> Result<Made, Refusal> {
    let alike = match (&left.0, &right.0) {
        (Kind::Quantity(a), Kind::Quantity(b)) => a == b && matches!(a.stance, Stance::Difference | Stance::FromZero),
        _ => false,
    };
    // How many times one goes into the other says nothing of pressures or temperatures any more.
    if alike { Ok((Kind::Number, Factors::NONE)) } else { scale(left, right, "divide", Dimension::over) }
}

/// The kind of a power with a fraction as exponent.
pub fn power(base: &Made, numerator: i32, denominator: i32) -> Result<Made, Refusal> {
    match &base.0 {
        Kind::Unknown => Ok((Kind::Unknown, Factors::NONE)),
        Kind::Number => Ok((Kind::Number, base.1)),
        Kind::Quantity(quantity) if quantity.stance == Stance::Point => Err(scaled_point(*quantity, "raise")),
        Kind::Quantity(quantity) => match quantity.dimension.power(numerator, denominator) {
            Some(dimension) => {
                let factors = Factors::of(&base.0, base.1);
                Ok((Kind::computed(dimension, factors), factors))
            }
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
        Kind::Quantity(quantity) if quantity.stance == Stance::FromZero => Err(Refusal::new(
            "the opposite of a value from true zero would lie below it",
            "to take it away from another write `absolute(…) - absolute(…)`",
        )),
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
            use Stance::{Difference, FromZero, Point};
            let stance = match (a.stance, b.stance) {
                (x, y) if x == y => x,
                (FromZero, Point) | (Point, FromZero) => Point,
                (Point | FromZero, Difference) | (Difference, Point | FromZero) => {
                    return Err(point_with_difference(*a));
                }
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
                (x, y) if x == y => Ok(()),
                // A size from zero is that point; of an unsaid product the place says what it is.
                (Stance::FromZero, Stance::Point) | (Stance::Unsaid, _) => Ok(()),
                (Stance::Point | Stance::FromZero, Stance::Difference) => Err(point_as_difference(*have)),
                (Stance::Difference, Stance::Point) => Err(difference_as_point(*have)),
                _ => Err(Refusal::new(
                    format!("{} stands where {} is wanted", have.words(), want.words()),
                    "use the value from true zero: `absolute(…)` of a point",
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
    left: &Made,
    right: &Made,
    verb: &str,
    combine: fn(Dimension, Dimension) -> Option<Dimension>,
) -> Result<Made, Refusal> {
    for (side, _) in [left, right] {
        match side {
            Kind::Quantity(quantity) if quantity.stance == Stance::Point => return Err(scaled_point(*quantity, verb)),
            Kind::Number | Kind::Quantity(_) | Kind::Unknown => {}
            other => return Err(Refusal::bare(format!("{} cannot be used to {verb}", other.words()))),
        }
    }
    let (Some(a), Some(b)) = (left.0.dimension(), right.0.dimension()) else {
        return Ok((Kind::Unknown, Factors::NONE));
    };
    let factors = Factors::of(&left.0, left.1).times(Factors::of(&right.0, right.1));
    match combine(a, b) {
        Some(dimension) => Ok((Kind::computed(dimension, factors), factors)),
        None => Err(Refusal::bare("this product has exponents that no unit has")),
    }
}

/// What an unsaid product must be told, in words.
pub fn unsaid(of: Quantity) -> Refusal {
    let (what, point, difference) = names(of);
    let absolute = if of.dimension == Dimension::TEMPERATURE { "K absolute" } else { "psia" };
    Refusal::new(
        format!("nothing says whether this product is a {what} from true zero or a {what} difference"),
        format!(
            "say it: `(…) as {absolute}` for a {what}, also shown in `{point}`; `(…) as {difference}` for a difference"
        ),
    )
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

fn from_zero_and_point(of: Quantity) -> Refusal {
    let (what, point, difference) = names(of);
    Refusal::new(
        format!("a {what} counted from true zero and a point ({point}) have no sum"),
        format!("to add what both hold write `absolute(…) + absolute(…)`; a difference is written in `{difference}`"),
    )
}

fn difference_minus_from_zero(of: Quantity) -> Refusal {
    let (what, _, _) = names(of);
    Refusal::new(
        format!("a {what} counted from true zero cannot be taken away from a {what} difference"),
        "put the greater first; for a distance between two points write `absolute(…) - absolute(…)`",
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
        "a reading of a thermometer is `degF` or `degC`, from true zero `K absolute`; `F°`, `C°` and `K` are differences"
    } else {
        "say which: `psig` or `kPa gauge` is read on a gauge, `psia` or `kPa absolute` counts from true zero; bare `psi` \
         and `kPa` are differences"
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
        Refusal::new(message, format!("give the plain number a unit, such as `{}`", a_unit_of(left, right)))
    } else {
        Refusal { message, mend: confusion(left, right) }
    }
}

/// A unit for the number beside a quantity.
fn a_unit_of(left: &Kind, right: &Kind) -> String {
    let Some(quantity) = left.quantity().or(right.quantity()) else { return "0 %".to_string() };
    let stance = match quantity.stance {
        Stance::Plain => units::Stance::Plain,
        Stance::Point => units::Stance::Point,
        Stance::FromZero => units::Stance::FromZero,
        Stance::Difference | Stance::Unsaid => units::Stance::Difference,
    };
    format!("0 {}", units::default_unit(quantity.dimension, stance, units::UnitSystem::Ip).text)
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

    fn temperature(stance: Stance) -> Kind {
        Kind::Quantity(Quantity { dimension: Dimension::TEMPERATURE, stance })
    }

    fn made(kind: Kind) -> Made {
        (kind, Factors::NONE)
    }

    #[test]
    fn sums_follow_the_table() {
        use Stance::{Difference, FromZero, Point};
        let rows = [
            (Point, Difference, Some(Point)),
            (Point, FromZero, None),
            (Difference, Point, Some(Point)),
            (Difference, Difference, Some(Difference)),
            (FromZero, FromZero, Some(FromZero)),
            (FromZero, Difference, Some(FromZero)),
            (Difference, FromZero, Some(FromZero)),
            (FromZero, Point, None),
            (Point, Point, None),
        ];
        for (left, right, wanted) in rows {
            let sum = add(&pressure(left), &pressure(right)).ok();
            assert_eq!(sum, wanted.map(pressure), "{left:?} + {right:?}");
        }
    }

    #[test]
    fn differences_follow_the_table() {
        use Stance::{Difference, FromZero, Point};
        let rows = [
            (Point, Point, Some(Difference)),
            (FromZero, FromZero, Some(Difference)),
            (FromZero, Point, Some(Difference)),
            (Point, FromZero, Some(Difference)),
            (Difference, Difference, Some(Difference)),
            (Difference, FromZero, None),
            (Point, Difference, Some(Point)),
            (FromZero, Difference, Some(FromZero)),
            (Difference, Point, None),
        ];
        for (left, right, wanted) in rows {
            let difference = subtract(&pressure(left), &pressure(right)).ok();
            assert_eq!(difference, wanted.map(pressure), "{left:?} - {right:?}");
        }
    }

    #[test]
    fn sides_and_places_follow_the_table() {
        use Stance::{Difference, FromZero, Point, Unsaid};
        for (one, other, wanted) in [
            (Point, FromZero, Some(Point)),
            (FromZero, Point, Some(Point)),
            (FromZero, FromZero, Some(FromZero)),
            (FromZero, Difference, None),
            (Difference, Point, None),
        ] {
            assert_eq!(unify(&pressure(one), &pressure(other)).ok(), wanted.map(pressure), "{one:?} {other:?}");
        }
        for (have, want, fit) in [
            (FromZero, Point, true),
            (FromZero, Difference, false),
            (Point, Difference, false),
            (Difference, Point, false),
            (Unsaid, Point, true),
            (Unsaid, Difference, true),
        ] {
            assert_eq!(fits(&pressure(have), &pressure(want)).is_ok(), fit, "{have:?} for {want:?}");
        }
    }

    #[test]
    fn what_a_product_is_hangs_on_its_factors() {
        use Stance::{Difference, FromZero, Unsaid};
        let (p, t) = (made(pressure(FromZero)), made(temperature(FromZero)));
        let (dp, dt) = (made(pressure(Difference)), made(temperature(Difference)));
        let density = made(Kind::plain(Dimension::whole([-3, 1, 0, 0, 0, 0])));
        let gas = made(Kind::plain(Dimension::whole([2, 0, -2, 0, -1, 0])));
        let head = made(Kind::plain(Dimension::whole([2, 0, -2, 0, 0, 0])));
        let chain = |over: [&Made; 2], under: &Made| divide(&multiply(over[0], over[1]).unwrap(), under).unwrap().0;
        // Gay-Lussac's law, written in either order.
        assert_eq!(chain([&p, &t], &t), pressure(FromZero));
        let ratio = divide(&t, &t).unwrap();
        assert_eq!(ratio, (Kind::Number, Factors::NONE));
        assert_eq!(multiply(&p, &ratio).unwrap().0, pressure(FromZero));
        // The drift of a difference stays one.
        assert_eq!(chain([&dp, &t], &t), pressure(Difference));
        // A difference of another dimension among the factors: nobody can tell.
        assert_eq!(chain([&p, &dt], &t), pressure(Unsaid));
        let share = divide(&dt, &t).unwrap();
        assert_eq!(multiply(&p, &share).unwrap().0, pressure(Unsaid));
        // The law of gases, and a column of liquid.
        assert_eq!(multiply(&multiply(&density, &gas).unwrap(), &t).unwrap().0, pressure(Unsaid));
        assert_eq!(multiply(&density, &head).unwrap().0, pressure(Difference));
        // A root of squares.
        assert_eq!(power(&power(&p, 2, 1).unwrap(), 1, 2).unwrap().0, pressure(FromZero));
        assert_eq!(power(&power(&dp, 2, 1).unwrap(), 1, 2).unwrap().0, pressure(Difference));
    }

    #[test]
    fn heat_above_zero_less_heat_above_zero_makes_a_difference() {
        let capacity = made(Kind::plain(Dimension::whole([2, 1, -2, 0, -1, 0])));
        let heat = multiply(&capacity, &made(temperature(Stance::FromZero))).unwrap();
        let lost = (heat.0.clone(), heat.1.minus(heat.1));
        assert_eq!(divide(&lost, &capacity).unwrap().0, temperature(Stance::Difference));
        let gained = (heat.0.clone(), heat.1.plus(Factors::NONE));
        assert_eq!(divide(&gained, &capacity).unwrap().0, temperature(Stance::FromZero));
        let odd = (heat.0.clone(), Factors::NONE.minus(heat.1));
        assert_eq!(divide(&odd, &capacity).unwrap().0, temperature(Stance::Unsaid));
    }
}
