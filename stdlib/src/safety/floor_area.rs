//! Charge and floor area of flammable refrigerants in rooms without ventilation.
//!
//! IEC 60335-2-40 and EN 378-1, from memory: check the edition in force.

use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Mass, MassDensity};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// Whose rule, for a safety group.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rule {
    /// Volumes in m3 that the lower flammability limit is multiplied by.
    pub steps: [f64; 3],
    /// A charge is bounded by 0.75·LFL·h·A too.
    pub capped: bool,
}

impl Rule {
    /// IEC 60335-2-40, edition 6 (2018).
    pub const IEC_6: Rule = Rule { steps: [6.0, 52.0, 260.0], capped: true };
    /// EN 378-1 for A2L: the steps of A2 and A3 times 1.5.
    pub const EN_378: Rule = Rule { steps: [6.0, 39.0, 195.0], capped: false };
    /// A2 and A3, by IEC 60335-2-40 edition 5 and by EN 378-1.
    pub const A2_OR_A3: Rule = Rule { steps: [4.0, 26.0, 130.0], capped: false };

    /// The rule of an edition for a safety group.
    pub fn named(edition: &str, group: &str) -> Option<Rule> {
        match (edition, group) {
            ("IEC 60335-2-40 ed. 6", "A2L") => Some(Rule::IEC_6),
            ("EN 378-1:2016", "A2L") => Some(Rule::EN_378),
            ("IEC 60335-2-40 ed. 5" | "EN 378-1:2016", "A2" | "A3") => Some(Rule::A2_OR_A3),
            _ => None,
        }
    }
}

/// The three steps of charge: below the first no area is asked for, above the second this rule does not hold.
pub fn charge_steps(flammability: MassDensity, rule: Rule) -> [Mass; 3] {
    rule.steps.map(|volume| Mass::new::<kilogram>(volume * flammability.get::<kilogram_per_cubic_meter>()))
}

/// The most that a room may take: 2.5·LFL^1.25·h·√A, where the rule caps it also 0.75·LFL·h·A; kg, m and m2.
pub fn most_charge(flammability: MassDensity, height: Length, area: Area, rule: Rule) -> Mass {
    let (lfl, h, a) = parts(flammability, height, area);
    let root = 2.5 * libm::pow(lfl, 1.25) * h * a.sqrt();
    Mass::new::<kilogram>(if rule.capped { root.min(0.75 * lfl * h * a) } else { root })
}

/// The least floor area for a charge.
pub fn least_area(flammability: MassDensity, height: Length, charge: Mass, rule: Rule) -> Area {
    let (lfl, h, _) = parts(flammability, height, Area::default());
    let m = charge.get::<kilogram>();
    let root = m / (2.5 * libm::pow(lfl, 1.25) * h);
    let by_root = root * root;
    Area::new::<square_meter>(if rule.capped { by_root.max(m / (0.75 * lfl * h)) } else { by_root })
}

fn parts(flammability: MassDensity, height: Length, area: Area) -> (f64, f64, f64) {
    (flammability.get::<kilogram_per_cubic_meter>(), height.get::<meter>(), area.get::<square_meter>())
}

#[cfg(test)]
mod tests {
    use super::{Rule, charge_steps, least_area, most_charge};
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
        let steps = |value, rule| charge_steps(lfl(value), rule).map(|m| m.get::<kilogram>());
        for (found, expected) in steps(0.307, Rule::IEC_6).iter().zip([1.842, 15.964, 79.82]) {
            assert!((found - expected).abs() < 1e-9);
        }
        for (found, expected) in steps(0.297, Rule::EN_378).iter().zip([1.782, 11.583, 57.915]) {
            assert!((found - expected).abs() < 1e-9);
        }
        let most = |h, a| {
            let (height, area) = (Length::new::<meter>(h), Area::new::<square_meter>(a));
            most_charge(lfl(0.307), height, area, Rule::IEC_6).get::<kilogram>()
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
            let found = least_area(lfl(0.297), height, Mass::new::<kilogram>(3.0), Rule::IEC_6).get::<square_meter>();
            assert!((found - area).abs() < 6e-4, "{h}: {found}");
        }
    }

    #[test]
    fn the_least_area_takes_the_charge_and_no_more() {
        for rule in [Rule::IEC_6, Rule::EN_378] {
            for kilograms in [2.0, 5.0, 9.0] {
                let (charge, height) = (Mass::new::<kilogram>(kilograms), Length::new::<meter>(1.8));
                let area = least_area(lfl(0.307), height, charge, rule);
                let most = most_charge(lfl(0.307), height, area, rule);
                assert!((most.value / charge.value - 1.0).abs() < 1e-12);
            }
        }
    }
}
