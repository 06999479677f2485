//! Published limits of concentration and flammability.
//!
//! Where a figure is marked *from memory* it was recalled from the standard and not seen: check before relying on it.

use uom::si::f64::{Length, Mass, MassDensity, Volume};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::molar_mass::kilogram_per_mole;
use uom::si::pressure::pascal;
use uom::si::volume::cubic_meter;

use super::rooms::Limits;
use crate::air::atmosphere::standard_atmosphere;
use crate::helmholtz::GAS_CONSTANT;
use crate::refrigerant::Refrigerant;
use crate::said::said;

/// Whose limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edition {
    /// ASHRAE 34-2019, refrigerant concentration limit.
    Ashrae34Of2019,
    /// EN 378-1:2016+A1:2020, practical limit.
    En378Of2020,
}

impl Edition {
    /// As sheets name them.
    pub const NAMES: &'static [&'static str] = &["ASHRAE 34-2019", "EN 378-1:2016+A1:2020"];

    /// The edition of a name of [`Self::NAMES`].
    pub fn named(name: &str) -> Edition {
        if name == "ASHRAE 34-2019" { Edition::Ashrae34Of2019 } else { Edition::En378Of2020 }
    }
}

/// ASHRAE 34 refrigerant concentration limits: ppm by volume, and g/m3 at sea level., R-134a as
/// printed in a public mechanical code (table 1103.1); the others from memory. R-454B differs between editions and is
/// left out.
const ASHRAE_34: &[(&str, f64, f64)] = &[
    ("R-22", 59_000.0, 210.0),
    ("R-23", 41_000.0, 120.0),
    ("R-32", 36_000.0, 77.0),
    ("R-125", 75_000.0, 370.0),
    ("R-134a", 50_000.0, 210.0),
    ("R-404A", 130_000.0, 500.0),
    ("R-407C", 81_000.0, 290.0),
    ("R-410A", 140_000.0, 420.0),
    ("R-448A", 110_000.0, 390.0),
    ("R-449A", 100_000.0, 370.0),
    ("R-452B", 30_000.0, 77.0),
    ("R-507A", 130_000.0, 520.0),
    ("R-513A", 72_000.0, 320.0),
    ("R-1234yf", 16_000.0, 75.0),
    ("R-1234ze(E)", 16_000.0, 76.0),
    ("R-290", 5_300.0, 9.5),
    ("R-744", 30_000.0, 54.0),
];

/// EN 378-1 practical limits, kg/m3: a public transcription of its annexes C and E; R-22 and R-407C from memory.
const EN_378: &[(&str, f64)] = &[
    ("R-22", 0.3),
    ("R-32", 0.061),
    ("R-134a", 0.25),
    ("R-290", 0.008),
    ("R-404A", 0.52),
    ("R-407C", 0.31),
    ("R-410A", 0.44),
    ("R-454B", 0.059),
    ("R-507A", 0.53),
    ("R-744", 0.1),
    ("R-1234yf", 0.058),
    ("R-1234ze(E)", 0.061),
];

/// Lower flammability limits, kg/m3 at 23 °C and 101.3 kPa: EN 378-1 as transcribed; R-143a, R-452B, R-454A, R-454C,
/// R-455A, R-600a and R-717 from memory.
const LOWER_FLAMMABILITY: &[(&str, f64)] = &[
    ("R-32", 0.307),
    ("R-143a", 0.282),
    ("R-290", 0.038),
    ("R-452B", 0.310),
    ("R-454A", 0.278),
    ("R-454B", 0.297),
    ("R-454C", 0.293),
    ("R-455A", 0.431),
    ("R-600a", 0.043),
    ("R-717", 0.116),
    ("R-1234yf", 0.289),
    ("R-1234ze(E)", 0.303),
];

/// Oxygen deprivation limit of ASHRAE 34 by altitude, ppm (steps above 1000 m from memory).
fn oxygen_deprivation(altitude: Length) -> f64 {
    match altitude.get::<meter>() {
        z if z <= 1_000.0 => 140_000.0,
        z if z <= 1_500.0 => 112_000.0,
        _ => 69_100.0,
    }
}

/// What a limit comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Governs {
    /// The figure of the table, as a mass at the altitude.
    Table,
    /// The figure of a table that knows no altitude, above 1000 m, where oxygen is short sooner.
    TableWithoutAltitude,
    /// What leaves enough oxygen at the altitude.
    Oxygen,
}

said! {
    Governs {
        Governs::Table => "the tabled limit",
        Governs::TableWithoutAltitude => "the tabled limit, stated without altitude: oxygen is short sooner up here",
        Governs::Oxygen => "oxygen at this altitude",
    }
}

/// Greatest concentration allowed where people are, and what governs it; nothing if the edition has none built in.
///
/// By ASHRAE 34 the lesser of the tabled one and of what leaves enough oxygen at the altitude, as a mass at 25 °C.
pub fn concentration_limit(r: Refrigerant, altitude: Length, edition: Edition) -> Option<(MassDensity, Governs)> {
    let name = r.designation();
    match edition {
        Edition::En378Of2020 => {
            let (_, limit) = EN_378.iter().find(|(listed, _)| *listed == name)?;
            let high = altitude.get::<meter>() > 1_000.0;
            let governs = if high { Governs::TableWithoutAltitude } else { Governs::Table };
            Some((MassDensity::new::<kilogram_per_cubic_meter>(*limit), governs))
        }
        Edition::Ashrae34Of2019 => {
            let (_, ppm, grams) = ASHRAE_34.iter().find(|(listed, _, _)| *listed == name)?;
            let tabled = mass(r, *ppm, altitude).min(grams / 1e3);
            Some(with_oxygen(r, MassDensity::new::<kilogram_per_cubic_meter>(tabled), altitude))
        }
    }
}

/// What leaves enough oxygen at the altitude, by ASHRAE 34.
pub fn oxygen_limit(r: Refrigerant, altitude: Length) -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(mass(r, oxygen_deprivation(altitude), altitude))
}

/// The lesser of a limit and of what leaves enough oxygen at the altitude.
pub fn with_oxygen(r: Refrigerant, limit: MassDensity, altitude: Length) -> (MassDensity, Governs) {
    let oxygen = oxygen_limit(r, altitude);
    // At the step where both are the same figure the table governs.
    if oxygen.value < limit.value * (1.0 - 1e-9) { (oxygen, Governs::Oxygen) } else { (limit, Governs::Table) }
}

/// kg/m3 of so many ppm at 25 °C and the standard atmosphere of an altitude.
fn mass(r: Refrigerant, ppm: f64, altitude: Length) -> f64 {
    let pressure = standard_atmosphere(altitude).get::<pascal>();
    ppm * 1e-6 * r.molar_mass().get::<kilogram_per_mole>() * pressure / (GAS_CONSTANT * 298.15)
}

/// RCL, QLMV and QLAV of EN 378-1:2016+A1:2020, table C.3, kg/m3, by a public transcription.
const ALTERNATIVE: &[(&str, [f64; 3])] = &[
    ("R-32", [0.061, 0.063, 0.15]),
    ("R-410A", [0.39, 0.42, 0.42]),
    ("R-134a", [0.21, 0.28, 0.58]),
    ("R-1234yf", [0.058, 0.060, 0.14]),
    ("R-1234ze(E)", [0.061, 0.063, 0.15]),
    ("R-744", [0.072, 0.074, 0.18]),
];

/// The limits of the alternative rule of EN 378-1, C.3; nothing for refrigerants that were not seen in it.
pub fn alternative(r: Refrigerant) -> Option<Limits> {
    let (_, limits) = ALTERNATIVE.iter().find(|(listed, _)| *listed == r.designation())?;
    let [concentration, minimum, additional] = limits.map(MassDensity::new::<kilogram_per_cubic_meter>);
    Some(Limits { concentration, minimum, additional })
}

/// The greatest charge that the alternative rule of EN 378-1, C.3, is for: 150 kg, and 1.5 times 130 m3 of the lower
/// flammability limit for A2L. From memory.
pub fn alternative_cap(r: Refrigerant) -> Mass {
    let cap = Mass::new::<kilogram>(150.0);
    let burns = flammability_limit(r).filter(|_| r.safety_group() == Some("A2L"));
    burns.map_or(cap, |limit| cap.min(limit * Volume::new::<cubic_meter>(195.0)))
}

/// Lower flammability limit; nothing for what does not burn, or is not built in.
pub fn flammability_limit(r: Refrigerant) -> Option<MassDensity> {
    let (_, limit) = LOWER_FLAMMABILITY.iter().find(|(listed, _)| *listed == r.designation())?;
    Some(MassDensity::new::<kilogram_per_cubic_meter>(*limit))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{ASHRAE_34, EN_378, Edition, LOWER_FLAMMABILITY, concentration_limit, flammability_limit};
    use crate::refrigerant::Refrigerant;
    use uom::si::f64::Length;
    use uom::si::length::meter;

    fn grams(name: &str, metres: f64) -> f64 {
        let r = Refrigerant::find(name).unwrap();
        concentration_limit(r, Length::new::<meter>(metres), Edition::Ashrae34Of2019).unwrap().0.value * 1e3
    }

    /// ppm to mass at 25 °C and 101.325 kPa, worked by hand: within 2 % of the tables, which have two figures.
    #[test]
    fn the_table_is_consistent() {
        for (name, mass) in [("R-410A", 415.4), ("R-32", 76.6), ("R-134a", 208.5), ("R-22", 208.5), ("R-125", 367.9)] {
            assert!((grams(name, 0.0) / mass - 1.0).abs() < 1e-3, "{name}: {}", grams(name, 0.0));
        }
        for (name, _, tabled) in ASHRAE_34 {
            assert!((grams(name, 0.0) / tabled - 1.0).abs() < 0.055, "{name}: {} and {tabled}", grams(name, 0.0));
        }
    }

    /// R-410A at 1800 m: 165 g/m3, not 420.
    #[test]
    fn altitude_takes_oxygen() {
        assert!((grams("R-410A", 1_800.0) - 165.0).abs() < 1.0, "{}", grams("R-410A", 1_800.0));
        assert!(grams("R-410A", 1_200.0) < grams("R-410A", 900.0));
    }

    #[test]
    fn what_is_not_listed_has_no_number() {
        let find = |name: &str| Refrigerant::find(name).unwrap();
        let sea = Length::new::<meter>(0.0);
        assert_eq!(concentration_limit(find("R-454B"), sea, Edition::Ashrae34Of2019), None);
        assert_eq!(flammability_limit(find("R-410A")), None);
        for name in EN_378.iter().map(|(n, _)| n).chain(LOWER_FLAMMABILITY.iter().map(|(n, _)| n)) {
            assert_eq!(find(name).designation(), *name);
        }
    }
}
