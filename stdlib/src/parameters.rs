//! Parameters that several subjects take alike.

use dewline_lang::library::{Accepts, Basic, Parameter, parameter};

/// The refrigerant.
pub fn of_refrigerant() -> Parameter {
    parameter("refrigerant", Accepts::One(Basic::Refrigerant), "refrigerant")
}

/// A temperature of a pipe or of what runs in it.
pub fn pipe_temperature(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("degC"), about).within("-80 degC", "160 degC")
}

/// A temperature of what is stored or at rest.
pub fn rest_temperature(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("degC"), about).within("-60 degC", "120 degC")
}

/// A pressure of a refrigerant.
pub fn refrigerant_pressure(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("kPaa"), about).within("1 kPaa", "20000 kPaa")
}

/// A superheat, a subcooling or their like.
pub fn temperature_difference(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("C°"), about).within("0 C°", "60 C°")
}
