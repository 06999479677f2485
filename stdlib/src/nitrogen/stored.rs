//! What gas under pressure is: mass in a cylinder or system, energy set free if it bursts.

use uom::si::energy::joule;
use uom::si::f64::{Energy, Mass, Pressure, ThermodynamicTemperature, Volume};
use uom::si::mass::kilogram;
use uom::si::pressure::{bar, pascal};
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::refrigerant::{Gas, PropertyError};

/// Mass of gas in a volume.
pub fn held(
    gas: Gas,
    volume: Volume,
    pressure: Pressure,
    temperature: ThermodynamicTemperature,
) -> Result<Mass, PropertyError> {
    Ok(gas.density(pressure, temperature)? * volume)
}

/// The volume that a mass of gas takes at 15 °C and 1 bar, the trade's way to count gas.
pub fn at_15_c_and_1_bar(gas: Gas, mass: Mass) -> Result<Volume, PropertyError> {
    let density = gas.density(Pressure::new::<bar>(1.0), ThermodynamicTemperature::new::<degree_celsius>(15.0))?;
    Ok(mass / density)
}

/// Energy set free when gas expands at once to the atmosphere: 2.5·p·V·(1 − (p_a/p)^0.286).
///
/// ASME PCC-2, article 501, seen second-hand.
pub fn burst_energy(volume: Volume, pressure: Pressure, atmosphere: Pressure) -> Energy {
    let share = 1.0 - libm::pow((atmosphere / pressure).value, 0.286);
    Energy::new::<joule>(2.5 * pressure.get::<pascal>() * volume.value * share.max(0.0))
}

/// The TNT that sets free as much, at 4.267 MJ/kg.
pub fn as_tnt(energy: Energy) -> Mass {
    Mass::new::<kilogram>(energy.get::<joule>() / 4.267e6)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{as_tnt, at_15_c_and_1_bar, burst_energy, held};
    use crate::refrigerant::Gas;
    use uom::si::energy::kilojoule;
    use uom::si::f64::{Pressure, ThermodynamicTemperature, Volume};
    use uom::si::mass::{gram, kilogram};
    use uom::si::pressure::{bar, pascal};
    use uom::si::thermodynamic_temperature::degree_celsius;
    use uom::si::volume::{cubic_meter, liter};

    fn celsius(t: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<degree_celsius>(t)
    }

    /// Reference: the equation of Span and others (2000) evaluated with CoolProp 8.0.0.
    #[test]
    fn cylinders() {
        for (litres, p, t, kilograms, cubic) in
            [(50.0, 200.0, 15.0, 11.159, 9.541), (47.0, 150.0, 20.0, 7.940, 6.788), (10.0, 200.0, 15.0, 2.232, 1.908)]
        {
            let mass = held(Gas::Nitrogen, Volume::new::<liter>(litres), Pressure::new::<bar>(p), celsius(t)).unwrap();
            assert!((mass.get::<kilogram>() - kilograms).abs() < 6e-4, "{litres} L");
            let free = at_15_c_and_1_bar(Gas::Nitrogen, mass).unwrap();
            assert!((free.get::<cubic_meter>() - cubic).abs() < 6e-4, "{litres} L");
        }
    }

    /// 25 and 60 L at 41.5 bar gauge: 174 and 419 kJ, 41 and 98 g of TNT. Worked by hand.
    #[test]
    fn energy_of_a_test() {
        let p = Pressure::new::<pascal>(4_150_000.0 + 101_325.0);
        for (litres, energy, tnt) in [(25.0, 174.0, 41.0), (60.0, 419.0, 98.0)] {
            let found = burst_energy(Volume::new::<liter>(litres), p, Pressure::new::<pascal>(101_325.0));
            assert!((found.get::<kilojoule>() - energy).abs() < 1.0, "{found:?}");
            assert!((as_tnt(found).get::<gram>() - tnt).abs() < 0.6);
        }
    }
}
