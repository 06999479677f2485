//! What a leak seen with one gas at one pressure would lose of a refrigerant in service.

use uom::si::f64::{DynamicViscosity, MolarMass, Pressure};
use uom::si::pressure::pascal;

/// A gas that goes through a hole from one pressure to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Through {
    /// Mass of a mole.
    pub molar_mass: MolarMass,
    /// Viscosity.
    pub viscosity: DynamicViscosity,
    /// On the side it comes from, absolute.
    pub from: Pressure,
    /// On the side it goes to, absolute.
    pub to: Pressure,
}

/// How many times the throughput seen the same hole lets through in service: molecular and viscous flow, which bound it.
///
/// Molecular Q ∝ (p1 − p2)·√(1/M), viscous Q ∝ (p1² − p2²)/µ: vacuum textbooks, from memory.
pub fn ratios(seen: &Through, service: &Through) -> (f64, f64) {
    let molecular = |gas: &Through| (gas.from - gas.to).get::<pascal>() / gas.molar_mass.value.sqrt();
    let viscous = |gas: &Through| {
        let (from, to) = (gas.from.get::<pascal>(), gas.to.get::<pascal>());
        (from * from - to * to) / gas.viscosity.value
    };
    (molecular(service) / molecular(seen), viscous(service) / viscous(seen))
}

/// Molar mass and viscosity at 25 °C of a gas that leaks are sought with: viscosities by CoolProp 8.0.0.
pub fn seeking_gas(name: &str) -> Option<(MolarMass, DynamicViscosity)> {
    use uom::si::dynamic_viscosity::micropascal_second;
    use uom::si::molar_mass::gram_per_mole;
    let (mass, viscosity) = match name {
        "helium" => (4.002_6, 19.85),
        "nitrogen" => (28.013_48, 17.80),
        "air" => (28.965_4, 18.45),
        _ => return None,
    };
    Some((MolarMass::new::<gram_per_mole>(mass), DynamicViscosity::new::<micropascal_second>(viscosity)))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{Through, ratios, seeking_gas};
    use uom::si::dynamic_viscosity::micropascal_second;
    use uom::si::f64::{DynamicViscosity, MolarMass, Pressure};
    use uom::si::molar_mass::gram_per_mole;
    use uom::si::pressure::bar;

    fn gas(mass: f64, viscosity: f64, from: f64, to: f64) -> Through {
        Through {
            molar_mass: MolarMass::new::<gram_per_mole>(mass),
            viscosity: DynamicViscosity::new::<micropascal_second>(viscosity),
            from: Pressure::new::<bar>(from),
            to: Pressure::new::<bar>(to),
        }
    }

    /// From helium at the same pressures, viscosities by CoolProp 8.0.0, worked by hand.
    #[test]
    fn helium_to_others() {
        let helium = gas(4.002_6, 19.85, 10.0, 1.0);
        for (mass, viscosity, viscous, molecular) in [
            (28.013, 17.80, 1.115, 0.378),
            (28.965, 18.45, 1.076, 0.372),
            (102.03, 11.82, 1.679, 0.198),
            (52.024, 13.36, 1.485, 0.277),
            (120.02, 12.96, 1.531, 0.183),
        ] {
            let found = ratios(&helium, &gas(mass, viscosity, 10.0, 1.0));
            assert!((found.0 - molecular).abs() < 1e-3 && (found.1 - viscous).abs() < 2e-3, "{found:?}");
        }
        let (molecular, _) = ratios(&helium, &gas(18.015, 9.9, 10.0, 1.0));
        assert!((molecular - 0.471).abs() < 1e-3, "water vapour: {molecular}");
        // A leak found at 10 bar, in service at 27.3 bar, out to the atmosphere: 7.52 times in viscous flow.
        let (_, step) = ratios(&gas(28.0, 17.8, 10.0, 1.01325), &gas(28.0, 17.8, 27.3, 1.01325));
        assert!((step - 7.52).abs() < 0.01, "{step}");
        assert!(seeking_gas("oxygen").is_none());
    }
}
