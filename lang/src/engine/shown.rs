//! How values are shown: in the unit asked for, else in that of the sheet's unit system.

use super::block::Block;
use crate::kinds::{Kind, Quantity, Stance, algebra};
use crate::outcome::Shown;
use crate::plan::{Datum, Typing, Wish};
use crate::syntax::tree::UnitSystem;
use crate::units::{self, Unit, show};

/// The unit, or falling units, a value is shown in, and its rounding step.
pub fn wish(typing: &Typing, system: Option<UnitSystem>) -> Wish {
    match &typing.wish {
        Some(wish) if !wish.weak => return wish.clone(),
        _ => {}
    }
    let declared = typing.wish.as_ref();
    let of_system = match (declared.map(|wish| wish.units.as_slice()), system.unwrap_or(UnitSystem::Si)) {
        (Some([si, _]), UnitSystem::Si) => Some(si),
        (Some([_, ip]), UnitSystem::Ip) => Some(ip),
        _ => None,
    };
    if let Some(unit) = of_system {
        return Wish::unit(unit.clone());
    }
    match &typing.kind {
        Kind::Quantity(quantity) => {
            let unit = default_unit(*quantity, system);
            match declared {
                // The function's own unit reads better than base units.
                Some(wish) if is_base(&unit) => wish.clone(),
                _ => Wish::unit(unit),
            }
        }
        _ => declared.cloned().unwrap_or(Wish { units: Vec::new(), step: None, weak: false }),
    }
}

/// Whether a value is turned from gauge to absolute, or the other way, only to be shown.
pub fn needs_atmosphere(typing: &Typing, system: Option<UnitSystem>) -> bool {
    let points = match &typing.kind {
        Kind::Record(record) => {
            return record.fields.iter().any(|field| {
                let typing = Typing { wish: field.wish.clone(), ..Typing::of(field.kind.clone()) };
                needs_atmosphere(&typing, system)
            });
        }
        kind => kind.is_pressure_point(),
    };
    points && wish(typing, system).units.iter().any(|unit| unit.needs_atmosphere() != (typing.datum == Datum::Gauge))
}

/// How a distance between two values shown so is shown: points in `psig` lie so many `psi` apart, amounts in `lb oz` so
/// many `oz`.
pub fn distance_wish(typing: &Typing, system: Option<UnitSystem>) -> Option<Wish> {
    let wish = wish(typing, system);
    let unit = wish.units.last()?;
    match unit.meaning.stance() {
        units::Stance::Point if units::in_differences(unit) == *unit => units::difference(unit),
        // Behind a ± and beside its value no word need say what a distance in `micron` is.
        _ => Some(units::in_differences(unit)),
    }
    .map(Wish::unit)
}

/// What a distance between two values of a kind is, and how it is shown.
pub fn distance(typing: &Typing, system: Option<UnitSystem>) -> Typing {
    let kind = algebra::subtract(&typing.kind, &typing.kind).unwrap_or(Kind::Number);
    Typing { wish: distance_wish(typing, system), ..Typing::of(kind) }
}

fn default_unit(quantity: Quantity, system: Option<UnitSystem>) -> Unit {
    let stance = match quantity.stance {
        Stance::Plain => units::Stance::Plain,
        Stance::Point => units::Stance::Point,
        Stance::Difference | Stance::Unsaid => units::Stance::Difference,
        Stance::FromZero => units::Stance::FromZero,
    };
    units::default_unit(quantity.dimension, stance, system.unwrap_or(UnitSystem::Si))
}

fn is_base(unit: &Unit) -> bool {
    unit.text == unit.dimension.text()
}

/// One value as shown; `None` if it is not known, or needs an atmosphere that is not.
pub fn value(
    block: &Block,
    at: usize,
    typing: &Typing,
    system: Option<UnitSystem>,
    atmosphere: Option<f64>,
) -> Option<Shown> {
    if !block.is_known(at) {
        return None;
    }
    let plain = |text: String| Some(Shown { number: None, unit: String::new(), text });
    match &typing.kind {
        Kind::Number | Kind::Quantity(_) => {
            let si = block.number_at(at)?;
            let wish = wish(typing, system);
            let Some(unit) = wish.units.first() else {
                let text = wish.step.map_or_else(|| show::number(si), |step| show::number_to(si, step));
                return Some(Shown { number: Some(si), unit: String::new(), text });
            };
            if wish.units.len() > 1 {
                let text = show::pieces(si, &wish.units, wish.step)?;
                return Some(Shown { number: None, unit: String::new(), text });
            }
            let number = in_unit(si, typing.datum, unit, atmosphere)?;
            if !number.is_finite() {
                return self::si(block, at, typing.datum, atmosphere).map(|si| in_base_units(si, &typing.kind));
            }
            let digits = wish.step.map_or_else(|| show::number(number), |step| show::number_to(number, step));
            let text =
                if unit.text.is_empty() || unit.text == "1" { digits } else { format!("{digits} {}", unit.text) };
            Some(Shown { number: Some(number), unit: unit.text.clone(), text })
        }
        Kind::Flag => plain(if block.flag_at(at)? { "true".into() } else { "false".into() }),
        Kind::Time => plain(block.moment_at(at)?.to_string()),
        Kind::Text(_) | Kind::Refrigerant | Kind::Gas => plain(block.text_at(at)?.to_string()),
        Kind::Record(_) | Kind::Unknown => None,
    }
}

/// A number whose unit cannot hold it, as one near the largest that can be held, in units that can.
pub fn in_base_units(si: f64, kind: &Kind) -> Shown {
    let unit = kind.dimension().map(|dimension| dimension.text()).unwrap_or_default();
    let text = format!("{} {unit}", show::number(si)).trim_end().to_string();
    Shown { number: Some(si), unit, text }
}

/// A held number in a unit. Gauge values in gauge units need no atmosphere.
pub fn in_unit(value: f64, datum: Datum, unit: &Unit, atmosphere: Option<f64>) -> Option<f64> {
    match (datum, unit.needs_atmosphere()) {
        (Datum::Gauge, true) => Some(unit.from_si(value, 0.0)),
        (Datum::Gauge, false) => Some(unit.from_si(value + atmosphere?, 0.0)),
        (Datum::Absolute, true) => Some(unit.from_si(value, atmosphere?)),
        (Datum::Absolute, false) => Some(unit.from_si(value, 0.0)),
    }
}

/// A number as shown, for messages.
pub fn number(si: f64, typing: &Typing, system: Option<UnitSystem>, atmosphere: Option<f64>) -> String {
    value(&Block::number(si), 0, typing, system, atmosphere).map_or_else(|| show::number(si), |shown| shown.text)
}

/// A number held absolute (where it is held at all), for the outcome.
pub fn si(block: &Block, at: usize, datum: Datum, atmosphere: Option<f64>) -> Option<f64> {
    let value = block.number_at(at)?;
    match datum {
        Datum::Absolute => Some(value),
        Datum::Gauge => Some(value + atmosphere?),
    }
}
