//! Which unit system a unit belongs to.

use super::{Dimension, Unit, UnitSystem, default_unit};

/// The system that a unit speaks for; none where both systems measure in the same units (volts, minutes, numbers) and
/// for deep vacuum, which is read in micron beside °F and °C alike.
pub fn system_of(unit: &Unit) -> Option<UnitSystem> {
    if is_customary(&unit.ucum) {
        return Some(UnitSystem::Ip);
    }
    let stance = unit.meaning.stance();
    let default = |system| default_unit(unit.dimension, stance, system);
    let shared = default(UnitSystem::Ip) == default(UnitSystem::Si);
    let vacuum = unit.dimension == Dimension::PRESSURE && unit.ucum.contains("[Hg]");
    (!shared && !vacuum).then_some(UnitSystem::Si)
}

/// The unified code writes US customary units in brackets: `[ft_i]`, `[psi]`. A column of mercury (`mm[Hg]`) has its
/// bracket behind a prefix, and parts in a million belong to nobody.
fn is_customary(ucum: &str) -> bool {
    let opens = |(at, _): (usize, &str)| !ucum[..at].ends_with(|letter: char| letter.is_alphabetic());
    ucum != "[ppm]" && ucum.match_indices('[').any(opens)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::units::parse;

    #[test]
    fn units_of_the_trade_speak_for_their_system() {
        for text in ["psig", "psi", "degF", "F°", "in", "ft3", "lb", "oz/ft", "Btu/h", "cfm", "ton", "inHgv", "hp"] {
            assert_eq!(system_of(&parse(text).unwrap()), Some(UnitSystem::Ip), "{text}");
        }
        for text in ["kPag", "bar", "degC", "C°", "mm", "m3/h", "kg", "kW", "kPaa", "W/(m·K)"] {
            assert_eq!(system_of(&parse(text).unwrap()), Some(UnitSystem::Si), "{text}");
        }
        for text in ["V", "A", "min", "%", "ppm", "micron", "micron difference", "Torr", "Hz"] {
            assert_eq!(system_of(&parse(text).unwrap()), None, "{text}");
        }
    }
}
