//! The declarations of the circuit functions.

use dewline_lang::library::{Accepts, Arguments, Basic, Body, Failure, Function, OfNumbers, Returns, parameter};
use uom::si::f64::{Pressure, TemperatureInterval, ThermodynamicTemperature};

use super::coil_declared;
use super::superheat::{difference, subcooling as below_bubble, superheat as above_dew};
use crate::cautions::SETTLED;
use crate::helmholtz::envelope::Line;
use crate::parameters::{pipe_temperature, refrigerant_pressure};
use crate::refrigerant::{PropertyError, Refrigerant};
use crate::refusal::{refrigerant, refused};
use crate::seam::{all, quantity};

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    let mut all = vec![superheat(), discharge_superheat(), subcooling(), compression_ratio(), saturation_offset()];
    all.extend(coil_declared::functions());
    all
}

fn superheat() -> Function {
    from_saturation(
        "superheat",
        "how far the vapor in a suction or gas line is above its dew temperature",
        "suction_pressure",
        over_dew,
    )
    .equation("T_line − T_dew(p)")
    .example("superheat(R-32, 120 psig, 50 degF) as F° to 0.1", "10.4 F°")
    .example("superheat(saturation = 40 degF, line_temperature = 52 degF) as F°", "12 F°")
    .charted()
}

fn discharge_superheat() -> Function {
    from_saturation(
        "discharge_superheat",
        "how far the vapor leaving the compressor is above its dew temperature",
        "discharge_pressure",
        over_dew,
    )
    .equation("T_discharge − T_dew(p)")
    .example("discharge_superheat(saturation = 44 degC, line_temperature = 90 degC) as C°", "46 C°")
    .charted()
}

fn subcooling() -> Function {
    from_saturation(
        "subcooling",
        "how far the liquid in a liquid line is below its bubble temperature",
        "liquid_pressure",
        under_bubble,
    )
    .equation("T_bubble(p) − T_line")
    .example("subcooling(R-410A, 350 psig, 95 degF) as F° to 0.1", "11.7 F°")
    .charted()
}

/// A function of a pressure or of a saturation temperature read off a display, and of a line's temperature.
fn from_saturation(
    name: &'static str,
    gives: &'static str,
    pressure: &'static str,
    body: fn(&Arguments<'_>) -> Result<OfNumbers, Failure>,
) -> Function {
    let groups: &'static [&'static str] = match pressure {
        "suction_pressure" => &["suction_pressure", "saturation"],
        "discharge_pressure" => &["discharge_pressure", "saturation"],
        _ => &["liquid_pressure", "saturation"],
    };
    Function::new(name, "circuit", gives, Returns::unit("C°"), Body::Prepared(body))
        .takes(parameter("refrigerant", Accepts::One(Basic::Refrigerant), "needed with a pressure").optional())
        .takes(
            parameter(
                pressure,
                Accepts::unit("kPaa"),
                "where the temperature is taken, or corrected for the line's drop",
            )
            .within("1 kPaa", "20000 kPaa")
            .optional(),
        )
        .takes(pipe_temperature("line_temperature", "of the pipe, insulated"))
        .takes(pipe_temperature("saturation", "as a display shows it, in place of the pressure").optional())
        .one_of(groups)
        .source("definition; saturation by the refrigerant's published equation of state")
        .valid(
            "below the critical point; pressure and temperature of one place; a saturation read off a display is known \
             to its last digit only",
        )
        .caution(SETTLED)
}

/// Places of the parameters.
const PRESSURE: usize = 1;
const LINE: usize = 2;

fn over_dew(arguments: &Arguments<'_>) -> Result<OfNumbers, Failure> {
    from_line(arguments, Line::Dew, above_dew, difference)
}

fn under_bubble(arguments: &Arguments<'_>) -> Result<OfNumbers, Failure> {
    from_line(arguments, Line::Bubble, below_bubble, |line, saturation| difference(saturation, line))
}

/// By the refrigerant and its pressure, or by a line's and a saturation temperature where that is given.
fn from_line(
    arguments: &Arguments<'_>,
    of: Line,
    by_pressure: fn(Refrigerant, Pressure, ThermodynamicTemperature) -> Result<TemperatureInterval, PropertyError>,
    by_saturation: fn(ThermodynamicTemperature, ThermodynamicTemperature) -> TemperatureInterval,
) -> Result<OfNumbers, Failure> {
    // Superheat grows with the line's temperature, subcooling falls with it.
    let sign = if of == Line::Dew { 1.0 } else { -1.0 };
    if arguments.maybe_number("saturation").is_some() {
        let value = move |numbers: &[f64]| {
            let [_, _, line, saturation] = all(numbers)?;
            Ok(by_saturation(quantity(line), quantity(saturation)).value)
        };
        return Ok(OfNumbers::new(value).sloped(move |_, by| Some(if by == LINE { sign } else { -sign })));
    }
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let value = move |numbers: &[f64]| {
        let [_, pressure, line, _] = all(numbers)?;
        by_pressure(r, quantity(pressure), quantity(line))
            .map(|found| found.value)
            .map_err(|error| refused(r.designation(), error))
    };
    let slope = move |numbers: &[f64], by| match by {
        LINE => Some(sign),
        _ => r.saturation_temperature_slope(of, quantity(*numbers.get(PRESSURE)?)).map(|slope| -sign * slope),
    };
    Ok(OfNumbers::new(value).sloped(slope))
}

fn compression_ratio() -> Function {
    Function::new(
        "compression_ratio",
        "circuit",
        "discharge pressure over suction pressure, both absolute",
        Returns::One(Basic::Number),
        Body::Numbers(|pressures| {
            let [suction, discharge] = all(pressures)?;
            if discharge < suction {
                return Err(Failure::of("discharge", "the discharge pressure is below the suction pressure: swapped?"));
            }
            Ok(discharge / suction)
        }),
    )
    .takes(refrigerant_pressure("suction", "suction pressure"))
    .takes(refrigerant_pressure("discharge", "discharge pressure"))
    .equation("p_discharge / p_suction, absolute")
    .source("definition")
    .valid("readings at the compressor; 2 to 5 is usual (common practice, no source)")
    .example("round(compression_ratio(933.18 kPaa, 2733.76 kPaa), 0.0001)", "2.9295")
    .caution(SETTLED)
}

fn saturation_offset() -> Function {
    Function::new(
        "saturation_offset",
        "circuit",
        "how far a saturation temperature is above its target",
        Returns::unit("C°"),
        Body::Numbers(|temperatures| {
            let [target, actual] = all(temperatures)?;
            Ok(actual - target)
        }),
    )
    .takes(pipe_temperature("target", "the saturation temperature that the system aims at"))
    .takes(pipe_temperature("actual", "the saturation temperature as read"))
    .equation("T_actual − T_target")
    .source("definition; ±2 K after 15 min is common practice, no source")
    .valid("settled running")
    .example("saturation_offset(8 degC, 9.5 degC) as C°", "1.5 C°")
    .caution(SETTLED)
}
