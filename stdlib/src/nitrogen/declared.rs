//! The declarations of the nitrogen functions.

use dewline_lang::library::{
    Accepts, Argument, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, parameter,
};
use uom::si::f64::{Pressure, ThermodynamicTemperature};

use super::standing_declared::standing_test;
use super::test_gas::test_gas;
use super::trapped::{Zone, ideal_pressure, trapped_pressure as at_constant_density, zoned_pressure};
use super::{gas_declared, pressures_declared, purge_declared};
use crate::parameters::rest_temperature;
use crate::refrigerant::Gas;
use crate::refusal::refused;
use crate::seam::{given, maybe, quantity};

/// Printed with purges, tests and gases.
pub const NITROGEN: &str = "Nitrogen shuts out air without warning: ventilate, watch oxygen. Regulator and relief, \
                            cylinder upright. Never oxygen, air or acetylene.";

/// Printed with what rests on a valve being open.
pub const COMMAND: &str = "A command sent is not a valve open. Power on before charge shuts valves in many systems; a good \
                           vacuum or held pressure then proves only the part reached.";

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    let mut all = vec![trapped_pressure(), standing_test()];
    all.extend(purge_declared::functions());
    all.extend(gas_declared::functions());
    all.extend(pressures_declared::functions());
    all
}

/// The gas of the call, nitrogen unless said.
pub(super) fn gas(arguments: &Arguments<'_>) -> Result<Gas, Failure> {
    test_gas(gas_name(arguments))
}

/// Its name.
pub(super) fn gas_name<'a>(arguments: &Arguments<'a>) -> &'a str {
    arguments.text("gas").unwrap_or("nitrogen")
}

/// The volume of a system.
pub(super) fn volume() -> Parameter {
    parameter("volume", Accepts::unit("L"), "volume of the system").within("0.001 L", "100000 L")
}

/// The temperature of a gas, 20 °C unless said.
pub(super) fn room_temperature() -> Parameter {
    rest_temperature("temperature", "of the gas").or("20 degC")
}

fn trapped_pressure() -> Function {
    Function::new(
        "trapped_pressure",
        "nitrogen",
        "what the pressure of gas shut into a system becomes when its temperature changes and nothing leaks",
        Returns::unit("kPaa"),
        Body::Values(trapped),
    )
    .takes(parameter("gas", Accepts::One(Basic::Gas), "`nitrogen`"))
    .takes(parameter("start_pressure", Accepts::unit("kPaa"), "at the start").within("50 kPaa", "30000 kPaa"))
    .takes(rest_temperature("start_temperature", "of the gas at the start"))
    .takes(rest_temperature("end_temperature", "of the gas at the end"))
    .takes(
        parameter(
            "ideal",
            Accepts::One(Basic::Flag),
            "true: the hand rule, pressure in proportion to absolute temperature",
        )
        .or("false"),
    )
    .takes(
        parameter(
            "zone_share",
            Accepts::Column(Box::new(Accepts::One(Basic::Number))),
            "share of the volume of each zone",
        )
        .within("0", "1")
        .optional(),
    )
    .takes(zone("zone_start", "temperature of each zone at the start"))
    .takes(zone("zone_end", "temperature of each zone at the end"))
    .takes(atmosphere("start_atmosphere", "barometer at the start, where it differs from the site's"))
    .takes(atmosphere("end_atmosphere", "barometer at the end, where it differs from the site's"))
    .equation("density stays: ρ(p2, T2) = ρ(p1, T1); with zones Σ share·ρ stays; ideal: p2 = p1·T2/T1, all absolute")
    .source("Span, Lemmon, Jacobsen, Wagner & Yokozeki, J. Phys. Chem. Ref. Data 29 (2000) 1361")
    .valid(
        "nitrogen (helium as a trace gas) from −60 to 120 °C; the temperature must be that of the gas, not of one wall",
    )
    .example("trapped_pressure(nitrogen, 550 psig, 70 degF, 60 degF) as psig to 0.01", "538.34 psig")
    .example("trapped_pressure(nitrogen, 550 psig, 70 degF, 60 degF, ideal = true) as psig to 0.01", "539.34 psig")
    .caution(NITROGEN)
}

fn trapped(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let name = arguments.text("gas")?;
    let gas = test_gas(name)?;
    let site: Pressure = quantity(arguments.context.atmosphere);
    // A gauge follows the barometer: its readings were turned into absolute ones with the site's atmosphere.
    let at_start = maybe(arguments, "start_atmosphere").unwrap_or(site);
    let at_end = maybe(arguments, "end_atmosphere").unwrap_or(site);
    let start = given::<uom::si::pressure::Dimension>(arguments, "start_pressure")? + at_start - site;
    let (from, to) = (given(arguments, "start_temperature")?, given(arguments, "end_temperature")?);
    let zones = zones(arguments)?;
    let end = if arguments.flag("ideal")? {
        if !zones.is_empty() {
            return Err(Failure::of("ideal", "zones are reckoned with the real gas only: leave `ideal` out"));
        }
        Ok(ideal_pressure(start, from, to))
    } else if zones.is_empty() {
        at_constant_density(gas, start, from, to)
    } else {
        zoned_pressure(gas, start, &zones)
    };
    let end = end.map_err(|error| refused(name, error))?;
    Ok((end + site - at_end).value.into())
}

fn zones(arguments: &Arguments<'_>) -> Result<Vec<Zone>, Failure> {
    let given = ["zone_share", "zone_start", "zone_end"].map(|name| !matches!(arguments.get(name), Argument::Absent));
    match given {
        [false, false, false] => return Ok(Vec::new()),
        [true, true, true] => {}
        _ => return Err(Failure::new("zones need `zone_share`, `zone_start` and `zone_end` together")),
    }
    let shares = arguments.numbers("zone_share")?;
    let total: f64 = shares.iter().sum();
    if (total - 1.0).abs() > 0.005 {
        return Err(Failure::of("zone_share", format!("the shares of the zones add up to {total:.3}, not to 1")));
    }
    let temperatures = arguments.numbers("zone_start")?.iter().zip(arguments.numbers("zone_end")?);
    let temperature = |kelvin: f64| -> ThermodynamicTemperature { quantity(kelvin) };
    Ok(shares
        .iter()
        .zip(temperatures)
        .map(|(share, (start, end))| Zone { share: share / total, start: temperature(*start), end: temperature(*end) })
        .collect())
}

pub(super) fn zone(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::column("degC"), about).within("-60 degC", "120 degC").optional()
}

fn atmosphere(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("kPaa"), about).within("20 kPaa", "120 kPaa").optional()
}
