//! The cycle above critical pressure: evaporating at a dew temperature, cooled as a gas that never condenses.

use uom::si::f64::{AvailableEnergy, Pressure, Ratio, TemperatureInterval, ThermodynamicTemperature};
use uom::si::ratio::ratio;

use crate::refrigerant::{PropertyError, Refrigerant};
use crate::seam::quantity;

/// What a cycle is asked by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// Dew temperature in the evaporator.
    pub evaporating: ThermodynamicTemperature,
    /// In the gas cooler, absolute.
    pub discharge: Pressure,
    /// Of the gas that leaves the gas cooler.
    pub outlet: ThermodynamicTemperature,
    /// Of the vapour that the compressor draws.
    pub superheat: TemperatureInterval,
    /// Work without loss over work.
    pub efficiency: Ratio,
}

/// The points of a cycle and what follows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GasCoolerCycle {
    /// In the evaporator, absolute.
    pub suction: Pressure,
    /// Of the gas that the compressor gives.
    pub discharge_temperature: ThermodynamicTemperature,
    /// Heat taken up by each mass in the evaporator.
    pub cooling_effect: AvailableEnergy,
    /// Work put into each mass by the compressor.
    pub work: AvailableEnergy,
    /// Share of the mass that is vapour after the valve; none where it is all liquid.
    pub after_valve: Option<Ratio>,
}

impl GasCoolerCycle {
    /// Without losses of pressure in pipes and coils, without exchange of heat between the two sides.
    pub fn new(r: Refrigerant, at: &Conditions) -> Result<GasCoolerCycle, PropertyError> {
        let suction = r.dew_pressure(at.evaporating)?;
        let drawn = if at.superheat.value > 0.0 {
            r.state(suction, quantity(at.evaporating.value + at.superheat.value))?.1
        } else {
            r.saturated_vapor_at_pressure(suction)?
        };
        let cooled = r.state(at.discharge, at.outlet)?.1.enthalpy;
        let without_loss = r.state_with_entropy(at.discharge, drawn.entropy)?;
        let work = (without_loss.enthalpy - drawn.enthalpy) / at.efficiency;
        let hot = r.state_with_enthalpy(at.discharge, drawn.enthalpy + work)?;
        Ok(GasCoolerCycle {
            suction,
            discharge_temperature: hot.temperature,
            cooling_effect: drawn.enthalpy - cooled,
            work,
            after_valve: r.state_with_enthalpy(suction, cooled)?.quality,
        })
    }

    /// Cooling over work; heating over work is one more.
    pub fn performance(&self) -> f64 {
        (self.cooling_effect / self.work).get::<ratio>()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{Conditions, GasCoolerCycle};
    use crate::refrigerant::Refrigerant;
    use crate::seam::quantity;

    /// Reference: CoolProp 8.0.0, R-744: evaporating °C, bar, outlet °C, superheat, efficiency; discharge temperature °C, effect
    /// and work in kJ/kg, share of vapour after the valve.
    #[test]
    fn carbon_dioxide_against_another_implementation() {
        for (asked, expected) in [
            ([-10.0, 90.0, 35.0, 5.0, 0.7], [105.886665, 143.316353, 78.037411, 0.4737635]),
            ([0.0, 100.0, 40.0, 10.0, 0.65], [110.874639, 134.333220, 72.755812, 0.4895866]),
            ([5.0, 80.0, 33.5, 5.0, 0.7], [70.900354, 125.538996, 40.152328, 0.4615327]),
            ([-30.0, 120.0, 15.0, 5.0, 0.6], [197.755977, 214.453866, 180.008300, 0.3118036]),
        ] {
            let [evaporating, bar, outlet, superheat, efficiency] = asked;
            let at = Conditions {
                evaporating: quantity(evaporating + 273.15),
                discharge: quantity(bar * 1e5),
                outlet: quantity(outlet + 273.15),
                superheat: quantity(superheat),
                efficiency: quantity(efficiency),
            };
            let found = GasCoolerCycle::new(Refrigerant::find("R-744").unwrap(), &at).unwrap();
            let [hot, effect, work, vapor] = expected;
            assert!((found.discharge_temperature.value - 273.15 - hot).abs() < 1e-3, "{asked:?}: {found:?}");
            assert!((found.cooling_effect.value / 1e3 - effect).abs() < 1e-3, "{asked:?}: {found:?}");
            assert!((found.work.value / 1e3 - work).abs() < 1e-3, "{asked:?}: {found:?}");
            assert!((found.after_valve.unwrap().value - vapor).abs() < 1e-5, "{asked:?}: {found:?}");
        }
    }
}
