//! Kinds as the author of a random sheet thinks of them.

use dewline_lang::library::Basic;
use dewline_lang::units::{self, Stance, Unit};

/// A kind: a unit stands for all units of its kind.
pub type Kind = Basic;

/// What most cells are of.
pub const COMMON: &[Kind] = &[
    Basic::Number,
    Basic::Unit("degF"),
    Basic::Unit("F°"),
    Basic::Unit("psig"),
    Basic::Unit("psi"),
    Basic::Unit("kPaa"),
    Basic::Unit("micron"),
    Basic::Unit("K"),
    Basic::Unit("K absolute"),
    Basic::Unit("ft"),
    Basic::Unit("lb"),
    Basic::Unit("min"),
    Basic::Unit("kW"),
    Basic::Unit("m2"),
    Basic::Unit("kg/h"),
    Basic::Flag,
    Basic::Text,
    Basic::Refrigerant,
    Basic::Time,
];

/// The unit that a kind is written in; `mm or in` names two.
pub fn first(unit: &'static str) -> &'static str {
    unit.split(" or ").next().unwrap_or(unit)
}

/// The unit of a kind, if it is a quantity.
pub fn unit(kind: Kind) -> Option<Unit> {
    match kind {
        Basic::Unit(text) => units::parse(first(text)).ok(),
        _ => None,
    }
}

/// How a kind stands to its zero.
pub fn stance(kind: Kind) -> Option<Stance> {
    unit(kind).map(|unit| unit.meaning.stance())
}

/// Whether one may stand for the other.
pub fn alike(one: Kind, other: Kind) -> bool {
    match (unit(one), unit(other)) {
        (Some(one), Some(other)) => one.dimension == other.dimension && one.meaning.stance() == other.meaning.stance(),
        (None, None) => one == other,
        _ => false,
    }
}

/// Units of the catalogue of the same kind.
pub fn others(kind: Kind) -> Vec<&'static str> {
    let Some(wanted) = unit(kind) else { return Vec::new() };
    let all = units::all().iter().flat_map(|group| group.units).map(|entry| entry.text);
    let same = |text: &&'static str| {
        units::parse(text)
            .is_ok_and(|unit| unit.dimension == wanted.dimension && unit.meaning.stance() == wanted.meaning.stance())
    };
    all.filter(same).collect()
}

/// The difference that goes with a point.
pub fn difference(kind: Kind) -> Option<Kind> {
    let unit = unit(kind)?;
    let is = |text: &str| units::parse(text).is_ok_and(|one| one.dimension == unit.dimension);
    if is("degC") {
        Some(Basic::Unit("C°"))
    } else if is("kPaa") {
        Some(Basic::Unit("kPa"))
    } else {
        None
    }
}

/// The point that goes with a difference.
pub fn point(kind: Kind) -> Option<Kind> {
    match difference(kind)? {
        Basic::Unit("C°") => Some(Basic::Unit("degC")),
        _ => Some(Basic::Unit("kPaa")),
    }
}
