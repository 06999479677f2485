//! The declarations of the air functions.

use dewline_lang::library::{Accepts, Body, Function, Returns, parameter};

use super::atmosphere;
use crate::seam::{all, quantity};

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    vec![standard_atmosphere()]
}

fn standard_atmosphere() -> Function {
    Function::new(
        "standard_atmosphere",
        "air",
        "pressure of the standard atmosphere at an altitude",
        Returns::unit("kPaa"),
        Body::Numbers(|numbers| {
            let [altitude] = all(numbers)?;
            Ok(atmosphere::standard_atmosphere(quantity(altitude)).value)
        }),
    )
    .takes(parameter("altitude", Accepts::unit("m"), "height above sea level").within("-5000 m", "11000 m"))
    .equation("p = 101.325 kPa · (1 − 2.25577e-5 · Z)^5.2559, Z in metres")
    .source("ASHRAE Handbook—Fundamentals (2021), chapter 1, equation 3")
    .valid("−5000 to 11 000 m; the weather moves the real pressure by some 3 %, so a barometer is better")
    .example("standard_atmosphere(1500 m) as kPaa to 0.01", "84.56 kPaa")
}
