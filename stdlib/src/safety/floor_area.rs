//! Charge and floor area of mildly flammable refrigerants in rooms without ventilation.
//!
//! IEC 60335-2-40 and EN 378-1, from memory: check the edition in force.

use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Mass, MassDensity};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// Whose steps, for A2L refrigerants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edition {
    /// IEC 60335-2-40, edition 6 (2018).
    Iec6,
    /// EN 378-1: the steps of A2 times 1.5.
    En378,
}

impl Edition {
    /// As sheets name them.
    pub const NAMES: &'static [&'static str] = &["IEC 60335-2-40 ed. 6", "EN 378-1:2016"];

    /// The edition of a name of [`Self::NAMES`].
    pub fn named(name: &str) -> Edition {
        if name == "EN 378-1:2016" { Edition::En378 } else { Edition::Iec6 }
    }

    /// Volumes in m3 that the lower flammability limit is multiplied by.
    fn steps(self) -> [f64; 3] {
        match self {
            Edition::Iec6 => [6.0, 52.0, 260.0],
            Edition::En378 => [6.0, 39.0, 195.0],
        }
    }
}

/// The three steps of charge: below the first no area is asked for, above the second this rule does not hold.
pub fn charge_steps(flammability: MassDensity, edition: Edition) -> [Mass; 3] {
    edition.steps().map(|volume| Mass::new::<kilogram>(volume * flammability.get::<kilogram_per_cubic_meter>()))
}

/// The most that a room may take: 2.5·LFL^1.25·h·√A, by edition 6 also 0.75·LFL·h·A; kg, m and m2.
pub fn most_charge(flammability: MassDensity, height: Length, area: Area, edition: Edition) -> Mass {
    let (lfl, h, a) = parts(flammability, height, area);
    let root = 2.5 * libm::pow(lfl, 1.25) * h * a.sqrt();
    Mass::new::<kilogram>(match edition {
        Edition::Iec6 => root.min(0.75 * lfl * h * a),
        Edition::En378 => root,
    })
}

/// The least floor area for a charge.
pub fn least_area(flammability: MassDensity, height: Length, charge: Mass, edition: Edition) -> Area {
    let (lfl, h, _) = parts(flammability, height, Area::default());
    let m = charge.get::<kilogram>();
    let root = m / (2.5 * libm::pow(lfl, 1.25) * h);
    let by_root = root * root;
    Area::new::<square_meter>(match edition {
        Edition::Iec6 => by_root.max(m / (0.75 * lfl * h)),
        Edition::En378 => by_root,
    })
}

fn parts(flammability: MassDensity, height: Length, area: Area) -> (f64, f64, f64) {
    (flammability.get::<kilogram_per_cubic_meter>(), height.get::<meter>(), area.get::<square_meter>())
}

#[cfg(test)]
mod tests {
    use super::{Edition, charge_steps, least_area, most_charge};
    use uom::si::area::square_meter;
    use uom::si::f64::{Area, Length, Mass, MassDensity};
    use uom::si::length::meter;
    use uom::si::mass::kilogram;
    use uom::si::mass_density::kilogram_per_cubic_meter;

    fn lfl(value: f64) -> MassDensity {
        MassDensity::new::<kilogram_per_cubic_meter>(value)
    }

    /// Worked by hand from the formulas: R-32 (0.307 kg/m3) and R-454B (0.297 kg/m3).
    #[test]
    fn worked_cases() {
        let steps = |value, edition| charge_steps(lfl(value), edition).map(|m| m.get::<kilogram>());
        for (found, expected) in steps(0.307, Edition::Iec6).iter().zip([1.842, 15.964, 79.82]) {
            assert!((found - expected).abs() < 1e-9);
        }
        for (found, expected) in steps(0.297, Edition::En378).iter().zip([1.782, 11.583, 57.915]) {
            assert!((found - expected).abs() < 1e-9);
        }
        let most = |h, a| {
            let (height, area) = (Length::new::<meter>(h), Area::new::<square_meter>(a));
            most_charge(lfl(0.307), height, area, Edition::Iec6).get::<kilogram>()
        };
        for (h, a, m) in [
            (0.6, 20.0, 1.533),
            (1.0, 20.0, 2.555),
            (1.8, 20.0, 4.599),
            (2.2, 20.0, 5.621),
            (0.6, 1.0, 0.138),
            (0.6, 10.0, 1.084),
        ] {
            assert!((most(h, a) - m).abs() < 6e-4, "{h} {a}: {}", most(h, a));
        }
        for (h, area) in [(1.8, 9.245), (2.2, 6.189)] {
            let height = Length::new::<meter>(h);
            let found = least_area(lfl(0.297), height, Mass::new::<kilogram>(3.0), Edition::Iec6).get::<square_meter>();
            assert!((found - area).abs() < 6e-4, "{h}: {found}");
        }
    }

    #[test]
    fn the_least_area_takes_the_charge_and_no_more() {
        for edition in [Edition::Iec6, Edition::En378] {
            for kilograms in [2.0, 5.0, 9.0] {
                let (charge, height) = (Mass::new::<kilogram>(kilograms), Length::new::<meter>(1.8));
                let area = least_area(lfl(0.307), height, charge, edition);
                let most = most_charge(lfl(0.307), height, area, edition);
                assert!((most.value / charge.value - 1.0).abs() < 1e-12);
            }
        }
    }
}
