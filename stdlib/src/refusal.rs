//! What the property library refuses, in the words of the trade and in both unit systems.

use dewline_lang::library::Failure;
use uom::si::f64::{Pressure, ThermodynamicTemperature};

use crate::refrigerant::{Limit, NameError, Phase, PropertyError, Refrigerant, Value};
use crate::seam::{said_pressure, said_temperature};

/// The refrigerant of a designation, or why there is none.
pub fn refrigerant(designation: &str) -> Result<Refrigerant, Failure> {
    Refrigerant::find(designation).map_err(no_refrigerant)
}

/// Why a designation leads to no refrigerant.
pub fn no_refrigerant(error: NameError) -> Failure {
    let failure = Failure::new(error.to_string());
    match error {
        NameError::Unknown { alike, .. } if !alike.is_empty() => {
            failure.with_mend(format!("did you mean {}?", alike.join(" or ")))
        }
        _ => failure,
    }
}

/// Why a property has no value, for the fluid of this name.
pub fn refused(fluid: &str, error: PropertyError) -> Failure {
    match error {
        PropertyError::OutOfRange { limit, at, asked } => {
            let (at, asked) = (said(at), said(asked));
            Failure::new(match limit {
                Limit::Critical | Limit::EndOfBubbleLine | Limit::EndOfDewLine => {
                    format!("{fluid} does not boil or condense above {at}; asked at {asked}")
                }
                Limit::Lowest => format!("the equation for {fluid} begins at {at}; asked at {asked}"),
                Limit::HighestTemperature | Limit::HighestPressure => {
                    format!("the equation for {fluid} ends at {at}; asked at {asked}")
                }
            })
        }
        PropertyError::InsideDome { asked, pressure, bubble, dew } => Failure::new(format!(
            "{fluid} is liquid and vapor together there: at {} it boils from {} to {}, asked at {}; pressure and \
             temperature do not settle such a state",
            said_pressure(pressure),
            said_temperature(bubble),
            said_temperature(dew),
            said_temperature(asked),
        ))
        .with_mend("ask `saturated_liquid` or `saturated_vapor`, or check both readings"),
        PropertyError::NotPositive(value) => Failure::new(format!("{} is not above true zero", said(value))),
        PropertyError::NoState(first, second) => Failure::new(format!(
            "{fluid}: no state within the equation's limits has {} and {}",
            said(first),
            said(second)
        )),
        PropertyError::NotPublished(what) => Failure::new(format!("{fluid}: {what}")),
    }
}

/// That a refrigerant is of another phase than a line, or a reading, is said to be.
pub fn other_phase(r: Refrigerant, found: Phase, wanted: Phase, p: Pressure, t: ThermodynamicTemperature) -> String {
    format!(
        "{} at {} and {} is {}, not {}",
        r.designation(),
        said_temperature(t.value),
        said_pressure(p.value),
        found.name(),
        wanted.name()
    )
}

fn said(value: Value) -> String {
    const BTU_LB: f64 = 2_326.0;
    const LB_FT3: f64 = 16.018_463_373_960_14;
    match value {
        Value::Temperature(kelvin) => said_temperature(kelvin),
        Value::Pressure(pascal) => said_pressure(pascal),
        Value::Density(density) => format!("{density:.1} kg/m³ ({:.2} lb/ft³)", density / LB_FT3),
        Value::Enthalpy(h) => format!("{:.1} kJ/kg ({:.1} Btu/lb)", h / 1e3, h / BTU_LB),
        Value::Entropy(s) => format!("{:.3} kJ/(kg·K) ({:.3} Btu/(lb·°F))", s / 1e3, s / (1.8 * BTU_LB)),
    }
}
