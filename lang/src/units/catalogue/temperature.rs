//! Temperatures: points and differences. `absolute` behind `K` or `degR` makes a point of it.

use super::definitions::RANKINE;
use super::entry::{Entry, temperature};
use crate::units::Meaning;

pub const TEMPERATURES: &[Entry] = &[
    temperature(
        "degF",
        Meaning::Point { offset: 459.67, factor: RANKINE },
        "[degF]",
        "degree Fahrenheit, a temperature; a difference is `F°`",
    )
    .also(&["°F"])
    .any_case(),
    temperature(
        "degC",
        Meaning::Point { offset: 273.15, factor: 1.0 },
        "Cel",
        "degree Celsius, a temperature; a difference is `C°`",
    )
    .also(&["°C"])
    .any_case(),
    temperature("F°", Meaning::Difference { factor: RANKINE }, "[degR]{difference}", "Fahrenheit degree, a difference")
        .also(&["deltaF"])
        .any_case(),
    temperature("C°", Meaning::Difference { factor: 1.0 }, "K{difference}", "Celsius degree, a difference")
        .also(&["deltaC"])
        .any_case(),
    temperature(
        "K",
        Meaning::Difference { factor: 1.0 },
        "K",
        "kelvin, a difference; a temperature from true zero is `K absolute`",
    ),
    temperature(
        "degR",
        Meaning::Difference { factor: RANKINE },
        "[degR]",
        "degree Rankine, a difference; a temperature from true zero is `degR absolute`",
    )
    .also(&["°R"])
    .any_case(),
];
