//! The unit a value is shown in when nothing else says: no annotation, no `as`, no literal.
//!
//! The trade's own choice where there is one. A pressure from true zero is shown on the absolute scale that reads the
//! same (`psia`, `kPaa`): it is met as an operand of a gas law far more often than as a vacuum, and vacuum readings
//! bring `micron` with their literals.

use super::{Dimension, Meaning, Stance, Unit, compound};

/// Which system a sheet shows its values in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitSystem {
    /// Inch–pound.
    Ip,
    /// International system.
    Si,
}

/// The unit for a dimension and stance; base units if the trade has none.
pub fn default_unit(dimension: Dimension, stance: Stance, system: UnitSystem) -> Unit {
    let texts = if dimension == Dimension::TEMPERATURE {
        Some(match stance {
            Stance::Point => ["degF", "degC"],
            Stance::FromZero => ["degR absolute", "K absolute"],
            Stance::Difference | Stance::Plain => ["F°", "C°"],
        })
    } else if dimension == Dimension::PRESSURE {
        Some(match stance {
            Stance::Point => ["psig", "kPag"],
            Stance::FromZero => ["psia", "kPaa"],
            Stance::Difference | Stance::Plain => ["psi", "kPa"],
        })
    } else {
        PLAIN.iter().find(|(exponents, _)| Dimension::whole(*exponents) == dimension).map(|(_, texts)| *texts)
    };
    let text = texts.map(|[ip, si]| match system {
        UnitSystem::Ip => ip,
        UnitSystem::Si => si,
    });
    text.and_then(|text| compound::parse(text).ok()).unwrap_or_else(|| base_units(dimension))
}

/// Exponents of m, kg, s, A, K, mol; then the inch–pound unit and the SI one.
const PLAIN: &[([i16; 6], [&str; 2])] = &[
    ([1, 0, 0, 0, 0, 0], ["ft", "m"]),
    ([2, 0, 0, 0, 0, 0], ["ft2", "m2"]),
    ([3, 0, 0, 0, 0, 0], ["ft3", "m3"]),
    ([0, 1, 0, 0, 0, 0], ["lb", "kg"]),
    ([0, 0, 1, 0, 0, 0], ["min", "min"]),
    ([0, 0, 0, 1, 0, 0], ["A", "A"]),
    ([0, 0, 0, 0, 0, 1], ["mol", "mol"]),
    ([0, 0, -1, 0, 0, 0], ["Hz", "Hz"]),
    // Motion and flow.
    ([1, 0, -1, 0, 0, 0], ["fpm", "m/s"]),
    ([3, 0, -1, 0, 0, 0], ["cfm", "m3/h"]),
    ([0, 1, -1, 0, 0, 0], ["lb/h", "kg/h"]),
    ([-2, 1, -1, 0, 0, 0], ["lb/(h·ft2)", "kg/(s·m2)"]),
    // Mass in space.
    ([-3, 1, 0, 0, 0, 0], ["lb/ft3", "kg/m3"]),
    ([3, -1, 0, 0, 0, 0], ["ft3/lb", "m3/kg"]),
    ([-1, 1, 0, 0, 0, 0], ["oz/ft", "kg/m"]),
    ([0, 1, 0, 0, 0, -1], ["g/mol", "g/mol"]),
    // Forces and what hangs on pressure.
    ([1, 1, -2, 0, 0, 0], ["lbf", "N"]),
    ([-2, 1, -2, 0, 0, 0], ["psi/ft", "kPa/m"]),
    ([-1, 1, -3, 0, 0, 0], ["micron/min", "Pa/min"]),
    ([2, 1, -3, 0, 0, 0], ["Btu/h", "kW"]),
    ([-1, 1, -1, 0, 0, 0], ["cP", "cP"]),
    // Heat.
    ([2, 1, -2, 0, 0, 0], ["Btu", "kJ"]),
    ([2, 0, -2, 0, 0, 0], ["Btu/lb", "kJ/kg"]),
    ([2, 0, -2, 0, -1, 0], ["Btu/(lb·degF)", "kJ/(kg·K)"]),
    ([2, 1, -2, 0, -1, 0], ["Btu/degF", "kJ/K"]),
    ([2, 1, -3, 0, -1, 0], ["Btu/(h·degF)", "W/K"]),
    ([0, 1, -3, 0, 0, 0], ["Btu/(h·ft2)", "W/m2"]),
    ([0, 1, -3, 0, -1, 0], ["Btu/(h·ft2·degF)", "W/(m2·K)"]),
    ([1, 1, -3, 0, -1, 0], ["Btu/(h·ft·degF)", "W/(m·K)"]),
    ([0, 0, -1, 0, 1, 0], ["degF/min", "degC/min"]),
    // Electricity.
    ([2, 1, -3, -1, 0, 0], ["V", "V"]),
    ([2, 1, -3, -2, 0, 0], ["ohm", "ohm"]),
    ([-2, -1, 4, 2, 0, 0], ["uF", "uF"]),
];

/// Powers of m, kg, s, A, K, mol. It cannot be typed where an exponent is a fraction, only shown.
fn base_units(dimension: Dimension) -> Unit {
    let text = dimension.text();
    let meaning =
        if dimension.has_points() { Meaning::Difference { factor: 1.0 } } else { Meaning::Plain { factor: 1.0 } };
    compound::parse(&text).unwrap_or_else(|_| {
        let ucum = if dimension.is_number() { "1".to_string() } else { text.replace('·', ".") };
        Unit { text, dimension, meaning, ucum, said: false }
    })
}

#[cfg(test)]
mod tests {
    use super::{PLAIN, UnitSystem, default_unit};
    use crate::units::{Dimension, Stance};

    #[test]
    fn every_default_is_of_the_dimension_it_stands_for() {
        for (exponents, texts) in PLAIN {
            let dimension = Dimension::whole(*exponents);
            for (system, text) in [UnitSystem::Ip, UnitSystem::Si].into_iter().zip(texts) {
                let unit = default_unit(dimension, Stance::Plain, system);
                assert_eq!((unit.dimension, unit.text.as_str()), (dimension, *text));
            }
        }
    }

    #[test]
    fn temperature_and_pressure_have_one_for_each_stance() {
        for stance in [Stance::Point, Stance::Difference, Stance::FromZero] {
            for dimension in [Dimension::TEMPERATURE, Dimension::PRESSURE] {
                for system in [UnitSystem::Ip, UnitSystem::Si] {
                    let unit = default_unit(dimension, stance, system);
                    assert_eq!(unit.dimension, dimension);
                    let expected = if stance == Stance::FromZero { Stance::Point } else { stance };
                    assert_eq!(unit.meaning.stance(), expected, "{}", unit.text);
                }
            }
        }
    }

    #[test]
    fn what_the_trade_has_no_unit_for_is_shown_in_base_units() {
        let odd = Dimension::whole([7, 0, -1, 0, 0, 0]);
        assert_eq!(default_unit(odd, Stance::Plain, UnitSystem::Ip).text, "m7/s");
        let root = Dimension::LENGTH.power(1, 2).unwrap_or_default();
        assert_eq!(default_unit(root, Stance::Plain, UnitSystem::Si).text, "m^(1/2)");
        assert_eq!(default_unit(Dimension::NUMBER, Stance::Plain, UnitSystem::Si).text, "1");
    }
}
