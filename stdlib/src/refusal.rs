//! What the property library refuses, in the words of the trade and in both unit systems.

use dewline_lang::library::Failure;

use crate::refrigerant::{Limit, NameError, PropertyError, Refrigerant, Value};
use crate::seam::{said_pressure, said_temperature};

/// The refrigerant of a designation, or why there is none.
pub fn refrigerant(designation: &str) -> Result<Refrigerant, Failure> {
    Refrigerant::find(designation).map_err(no_refrigerant)
}

/// Why a designation leads to no refrigerant.
pub fn no_refrigerant(error: NameError) -> Failure {
    match error {
        NameError::Unknown { asked, alike } => {
            let failure = Failure::new(format!("no refrigerant is designated {asked}"));
            if alike.is_empty() { failure } else { failure.with_mend(format!("did you mean {}?", alike.join(" or "))) }
        }
        other => Failure::new(other.to_string()),
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
        other => Failure::new(format!("{fluid}: {other}")),
    }
}

fn said(value: Value) -> String {
    match value {
        Value::Temperature(kelvin) => said_temperature(kelvin),
        Value::Pressure(pascal) => said_pressure(pascal),
        other => other.to_string(),
    }
}
