//! The vapour-compression cycle: evaporating at a dew temperature, condensing at a bubble temperature.

use uom::si::f64::{AvailableEnergy, Pressure, Ratio, TemperatureInterval, ThermodynamicTemperature};
use uom::si::ratio::ratio;

use crate::refrigerant::{PropertyError, Refrigerant};
use crate::seam::quantity;

/// What a cycle is asked by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// Dew temperature in the evaporator.
    pub evaporating: ThermodynamicTemperature,
    /// Bubble temperature in the condenser.
    pub condensing: ThermodynamicTemperature,
    /// Of the vapour that the compressor draws.
    pub superheat: TemperatureInterval,
    /// Of the liquid before the valve.
    pub subcooling: TemperatureInterval,
    /// Work without loss over work.
    pub efficiency: Ratio,
}

/// The four points of a cycle and what follows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cycle {
    /// In the evaporator, absolute.
    pub suction: Pressure,
    /// In the condenser, absolute.
    pub discharge: Pressure,
    /// Vapour drawn by the compressor.
    pub drawn: AvailableEnergy,
    /// Vapour that it gives.
    pub given: AvailableEnergy,
    /// Liquid before the valve, and after it.
    pub liquid: AvailableEnergy,
    /// Of the vapour that the compressor gives.
    pub discharge_temperature: ThermodynamicTemperature,
    /// Its superheat.
    pub discharge_superheat: TemperatureInterval,
}

impl Cycle {
    /// Without losses of pressure in pipes and coils.
    pub fn new(r: Refrigerant, at: &Conditions) -> Result<Cycle, PropertyError> {
        let (suction, discharge) = (r.dew_pressure(at.evaporating)?, r.bubble_pressure(at.condensing)?);
        let drawn = if at.superheat.value > 0.0 {
            r.state(suction, quantity(at.evaporating.value + at.superheat.value))?.1
        } else {
            r.saturated_vapor_at_pressure(suction)?
        };
        let liquid = if at.subcooling.value > 0.0 {
            r.state(discharge, quantity(at.condensing.value - at.subcooling.value))?.1
        } else {
            r.saturated_liquid_at_pressure(discharge)?
        };
        let without_loss = r.state_with_entropy(discharge, drawn.entropy)?;
        let given = drawn.enthalpy + (without_loss.enthalpy - drawn.enthalpy) / at.efficiency;
        let hot = r.state_with_enthalpy(discharge, given)?;
        let dew = r.dew_temperature(discharge)?;
        Ok(Cycle {
            suction,
            discharge,
            drawn: drawn.enthalpy,
            given,
            liquid: liquid.enthalpy,
            discharge_temperature: hot.temperature,
            discharge_superheat: quantity(hot.temperature.value - dew.value),
        })
    }

    /// Heat taken up by each mass in the evaporator.
    pub fn cooling_effect(&self) -> AvailableEnergy {
        self.drawn - self.liquid
    }

    /// Work put into each mass by the compressor.
    pub fn work(&self) -> AvailableEnergy {
        self.given - self.drawn
    }

    /// Cooling over work; heating over work is one more.
    pub fn performance(&self) -> f64 {
        (self.cooling_effect() / self.work()).get::<ratio>()
    }
}

/// The best that any machine could do in cooling between two temperatures.
pub fn carnot(evaporating: ThermodynamicTemperature, condensing: ThermodynamicTemperature) -> f64 {
    evaporating.value / (condensing.value - evaporating.value)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{Conditions, Cycle, carnot};
    use crate::refrigerant::Refrigerant;
    use crate::seam::quantity;
    use uom::si::available_energy::kilojoule_per_kilogram;
    use uom::si::f64::Ratio;
    use uom::si::ratio::ratio;
    use uom::si::thermodynamic_temperature::degree_celsius;

    fn cycle(name: &str, evaporating: f64, condensing: f64, superheat: f64, subcooling: f64, efficiency: f64) -> Cycle {
        let at = Conditions {
            evaporating: quantity(evaporating + 273.15),
            condensing: quantity(condensing + 273.15),
            superheat: quantity(superheat),
            subcooling: quantity(subcooling),
            efficiency: Ratio::new::<ratio>(efficiency),
        };
        Cycle::new(Refrigerant::find(name).unwrap(), &at).unwrap()
    }

    /// ASHRAE Handbook—Fundamentals (2021), chapter 29, table 8: −6.7/30 °C, no superheat, no subcooling, no loss. Pure
    /// fluids: 1 % on energies, 0.5 K on the discharge temperature.
    #[test]
    fn the_handbook_cycle() {
        for (name, effect, performance, hot) in
            [("R-32", 258.6, 5.924, 59.7), ("R-22", 165.9, 6.105, 47.8), ("R-134a", 153.0, 6.063, 34.8)]
        {
            let found = cycle(name, -6.7, 30.0, 0.0, 0.0, 1.0);
            assert!((found.cooling_effect().get::<kilojoule_per_kilogram>() / effect - 1.0).abs() < 0.01, "{name}");
            assert!((found.performance() / performance - 1.0).abs() < 0.01, "{name}: {}", found.performance());
            assert!((found.discharge_temperature.get::<degree_celsius>() - hot).abs() < 0.5, "{name}");
        }
    }

    /// Reference: CoolProp 8.0.0. R-134a of a textbook (Çengel & Boles, example 11-1) and a heat pump at 5/45 °C.
    #[test]
    fn cycles_against_another_implementation() {
        for (name, superheat, subcooling, efficiency, hot, performance) in [
            ("R-410A", 8.0, 5.0, 1.0, 69.99, 5.380),
            ("R-410A", 8.0, 5.0, 0.7, 80.42, 3.766),
            ("R-32", 8.0, 5.0, 1.0, 83.67, 5.502),
            ("R-32", 8.0, 5.0, 0.7, 98.93, 3.852),
        ] {
            let found = cycle(name, 5.0, 45.0, superheat, subcooling, efficiency);
            assert!((found.discharge_temperature.get::<degree_celsius>() - hot).abs() < 0.2, "{name} {found:?}");
            assert!((found.performance() / performance - 1.0).abs() < 0.003, "{name} {}", found.performance());
        }
        let flow = 10.0 / cycle("R-32", 5.0, 45.0, 8.0, 5.0, 0.7).cooling_effect().get::<kilojoule_per_kilogram>();
        assert!((flow * 1e3 - 39.88).abs() < 0.02, "{flow}");
        assert!((carnot(quantity(278.15), quantity(318.15)) - 6.954).abs() < 6e-4);
    }

    /// Discharge superheat hangs on the refrigerant: 5/45 °C, 5 K, 0.7. Reference: CoolProp 8.0.0, whole kelvin. Blends with
    /// a glide are left out: there 45 °C may be either end of it.
    #[test]
    fn discharge_superheat_of_refrigerants() {
        for (name, kelvin) in [("R-410A", 32.0), ("R-32", 50.0), ("R-22", 36.0), ("R-134a", 19.0)] {
            let found = cycle(name, 5.0, 45.0, 5.0, 0.0, 0.7).discharge_superheat.value;
            assert!((found - kelvin).abs() < 0.6, "{name}: {found} K, expected {kelvin}");
        }
    }
}
