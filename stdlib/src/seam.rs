//! Between the bare SI numbers of [`dewline_lang::library`] and the quantities of the physics.
//!
//! Declarations name kinds by a unit of the language; here a number becomes a quantity of the dimension that the
//! physics asks for in its signature. What comes back is taken out with `.value`, which `uom` keeps in SI base units.

use std::marker::PhantomData;

use dewline_lang::library::{Accepts, Arguments, Basic, Failure, Parameter, Value, parameter};
use uom::si::f64::TemperatureInterval;
use uom::si::{Dimension, Quantity, SI};

/// An SI number as the quantity that is asked for.
pub const fn quantity<D: Dimension + ?Sized>(value: f64) -> Quantity<D, SI<f64>, f64> {
    Quantity { dimension: PhantomData, units: PhantomData, value }
}

/// The argument of a parameter that always has a value.
pub fn given<D: Dimension + ?Sized>(
    arguments: &Arguments<'_>,
    parameter: &'static str,
) -> Result<Quantity<D, SI<f64>, f64>, Failure> {
    arguments.number(parameter).map(quantity)
}

/// The argument of an optional parameter.
pub fn maybe<D: Dimension + ?Sized>(
    arguments: &Arguments<'_>,
    parameter: &'static str,
) -> Option<Quantity<D, SI<f64>, f64>> {
    arguments.maybe_number(parameter).map(quantity)
}

/// A parameter that takes a column of texts.
pub fn texts(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::column_of(Basic::Text), about)
}

/// All arguments of a function of numbers.
pub fn all<const N: usize>(numbers: &[f64]) -> Result<[f64; N], Failure> {
    numbers.try_into().map_err(|_| Failure::new(format!("{N} arguments are needed, {} given", numbers.len())))
}

/// A number, quantity, text or flag as a field that is there.
pub fn part(value: impl Into<Value>) -> Result<Value, Failure> {
    Ok(value.into())
}

/// A temperature in both systems, for messages: `35.0 °C (95.0 °F)`.
pub fn said_temperature(kelvin: f64) -> String {
    format!("{:.1} °C ({:.1} °F)", kelvin - 273.15, kelvin * 1.8 - 459.67)
}

/// A difference of temperature in both systems, for messages: `16.3 K (29.3 F°)`.
pub fn said_difference(difference: TemperatureInterval) -> String {
    let kelvin = difference.value;
    format!("{kelvin:.1} K ({:.1} F°)", kelvin * 1.8)
}

/// A range of differences of temperature, in the same way: `1.0 to 12.0 K (1.8 to 21.6 F°)`.
pub fn said_differences(low: TemperatureInterval, high: TemperatureInterval) -> String {
    let (low, high) = (low.value, high.value);
    format!("{low:.1} to {high:.1} K ({:.1} to {:.1} F°)", low * 1.8, high * 1.8)
}

/// An absolute pressure in both systems, for messages: `101.3 kPa absolute (14.7 psia)`.
pub fn said_pressure(pascal: f64) -> String {
    const PSI: f64 = 6_894.757_293_168_361;
    format!("{:.1} kPa absolute ({:.1} psia)", pascal / 1e3, pascal / PSI)
}

/// A length in both systems, for messages: `9.53 mm (0.375 in)`.
pub fn said_length(metre: f64) -> String {
    format!("{:.2} mm ({:.3} in)", metre * 1e3, metre / 0.0254)
}
