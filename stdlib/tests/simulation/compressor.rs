//! The compressor, by the published equation of state of R-32.

use dewline_stdlib::refrigerant::Refrigerant;
use dewline_stdlib::verification::system::Discharge;
use uom::si::available_energy::joule_per_kilogram;
use uom::si::f64::{AvailableEnergy, ThermodynamicTemperature};
use uom::si::thermodynamic_temperature::kelvin;

/// J/(kg·K) of R-32 vapour near 8 °C and 1 MPa; J/kg of its evaporation: CoolProp 8.0.0.
pub const HEAT: f64 = 1_300.0;
pub const EVAPORATION: f64 = 300_000.0;

pub fn at(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<kelvin>(value)
}

/// Just below the end of the equation of R-32, K; a compressor has long been stopped there.
const HOTTEST: f64 = 434.0;

/// Discharge temperature for an enthalpy drawn above that of saturated vapour, J/kg.
pub fn compressed(evaporating: f64, condensing: f64, extra: f64, efficiency: f64) -> f64 {
    let r = Refrigerant::find("R-32").unwrap();
    let (low, high) = (r.dew_pressure(at(evaporating)).unwrap(), r.bubble_pressure(at(condensing)).unwrap());
    let drawn =
        r.saturated_vapor_at_pressure(low).unwrap().enthalpy + AvailableEnergy::new::<joule_per_kilogram>(extra);
    let entropy = r.state_with_enthalpy(low, drawn).unwrap().entropy;
    let Ok(ideal) = r.state_with_entropy(high, entropy).map(|state| state.enthalpy) else { return HOTTEST };
    r.state_with_enthalpy(high, drawn + (ideal - drawn) / efficiency).map_or(HOTTEST, |state| state.temperature.value)
}

/// A discharge as read, with what is to be expected between the saturation temperatures at 5 K of superheat.
pub fn discharge(evaporating: f64, condensing: f64, read: f64) -> Discharge {
    Discharge {
        read: Some(at(read)),
        least: Some(at(compressed(evaporating, condensing, 0.0, 0.8))),
        most: Some(at(compressed(evaporating, condensing, HEAT * 5.0, 0.6))),
    }
}
