//! The declarations of single answers about the air of a coil, and of mixed air.

use dewline_lang::library::{Accepts, Arguments, Body, Failure, Function, Returns, Value, field, parameter};
use uom::si::f64::{MassRate, VolumeRate};

use super::coil::{Taken, taken};
use super::declared::{CHAPTER, air, air_temperature, pressure, site};
use super::moist::{MoistAir, Moisture};
use crate::cautions::SETTLED;
use crate::seam::{given, part, quantity};

/// The functions of one answer, and of mixing.
pub(super) fn functions() -> Vec<Function> {
    vec![total_capacity(), sensible_ratio(), condensate_flow(), mixed_air()]
}

/// A function of air before and after a coil.
fn of_coil(
    name: &'static str,
    gives: &'static str,
    returns: Returns,
    body: fn(&Arguments<'_>) -> Result<Value, Failure>,
) -> Function {
    Function::new(name, "air", gives, returns, Body::Values(body))
        .takes(parameter("flow", Accepts::unit("m3/h"), "air flow where it enters").within("1 m3/h", "1000000 m3/h"))
        .takes(air_temperature("dry_bulb_in", "dry bulb before the coil"))
        .takes(air_temperature("wet_bulb_in", "wet bulb before the coil"))
        .takes(air_temperature("dry_bulb_out", "dry bulb after the coil"))
        .takes(air_temperature("wet_bulb_out", "wet bulb after the coil"))
        .takes(site())
        .source(CHAPTER)
        .valid("density from the state and the site, so right at altitude; one probe on both sides, or probes compared")
        .caution(SETTLED)
}

/// What the coil of a call takes from its air.
fn of_call(arguments: &Arguments<'_>) -> Result<Taken, Failure> {
    let p = pressure(arguments);
    let entering = air(given(arguments, "dry_bulb_in")?, Moisture::WetBulb(given(arguments, "wet_bulb_in")?), p)?;
    let leaving = air(given(arguments, "dry_bulb_out")?, Moisture::WetBulb(given(arguments, "wet_bulb_out")?), p)?;
    Ok(taken(given(arguments, "flow")?, &entering, &leaving))
}

fn total_capacity() -> Function {
    of_coil(
        "total_capacity",
        "heat that a coil takes from the air, its water with it; below nought given to it",
        Returns::unit("kW or Btu/h"),
        |arguments| Ok(of_call(arguments)?.total.value.into()),
    )
    .equation("q = V/v·(h_in − h_out)")
    .example(
        "total_capacity(1200 cfm, 80 degF, 67 degF, 58 degF, 56.5 degF, atmosphere = 14.696 psia) as ton to 0.01",
        "3.18 ton",
    )
}

fn sensible_ratio() -> Function {
    of_coil(
        "sensible_ratio",
        "share of a coil's heat that changes the air's temperature",
        Returns::One(dewline_lang::library::Basic::Number),
        |arguments| {
            let found = of_call(arguments)?;
            let share = found.sensible.value / found.total.value;
            if share.is_finite() {
                Ok(share.into())
            } else {
                Err(Failure::new("the coil does nothing: there is no share"))
            }
        },
    )
    .equation("c_p·(t_in − t_out)/(h_in − h_out)")
    .example(
        "round(sensible_ratio(1200 cfm, 80 degF, 67 degF, 58 degF, 56.5 degF, atmosphere = 14.696 psia), 0.01)",
        "0.73",
    )
}

fn condensate_flow() -> Function {
    of_coil("condensate_flow", "water that a coil takes out of the air", Returns::unit("kg/h or lb/h"), |arguments| {
        Ok(of_call(arguments)?.condensate.value.into())
    })
    .equation("V/v·(W_in − W_out); a kilogram is a litre")
    .example(
        "condensate_flow(1200 cfm, 80 degF, 67 degF, 58 degF, 56.5 degF, atmosphere = 14.696 psia) as kg/h to 0.1",
        "4.2 kg/h",
    )
}

fn mixed_air() -> Function {
    use dewline_lang::library::Basic;
    let fields = vec![
        field("dry_bulb", Basic::Unit("degC"), "dry bulb"),
        field("humidity_ratio", Basic::Unit("g/kg or grain/lb"), "water for each mass of dry air"),
        field("enthalpy", Basic::Unit("kJ/kg"), "of dry air, from 0 °C"),
        field("relative_humidity", Basic::Unit("%"), "relative humidity; at 100 % and below the dew point it fogs"),
        field("fog", Basic::Flag, "true: it would be more than saturated"),
        field("share", Basic::Unit("%"), "share of the first air in the mass of dry air"),
    ];
    let humidity = |name, about| parameter(name, Accepts::unit("%"), about).within("0 %", "100 %");
    let flow = |name, about| parameter(name, Accepts::unit("m3/h"), about).within("1 m3/h", "1000000 m3/h");
    Function::new(
        "mixed_air",
        "air",
        "two streams of air mixed, such as return and outdoor air",
        Returns::Record(fields),
        Body::Values(mixed),
    )
    .takes(flow("flow", "of the first air, where its state is"))
    .takes(air_temperature("dry_bulb", "of the first air"))
    .takes(humidity("relative_humidity", "of the first air"))
    .takes(flow("other_flow", "of the second air"))
    .takes(air_temperature("other_dry_bulb", "of the second air"))
    .takes(humidity("other_relative_humidity", "of the second air"))
    .takes(site())
    .equation("dry air, water and enthalpy add up; t from h and W")
    .source(CHAPTER)
    .valid("mixed well, no heat lost; perfect gases")
    .example("mixed_air(900 m3/h, 24 degC, 50 %, 100 m3/h, 0 degC, 80 %).dry_bulb as degC to 0.1", "21.4 degC")
}

fn mixed(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let p = pressure(arguments);
    let one =
        |flow: &'static str, dry: &'static str, humidity: &'static str| -> Result<(MassRate, MoistAir), Failure> {
            let state = air(given(arguments, dry)?, Moisture::Relative(given(arguments, humidity)?), p)?;
            let flow: VolumeRate = given(arguments, flow)?;
            Ok((flow / state.specific_volume(), state))
        };
    let (first_flow, first) = one("flow", "dry_bulb", "relative_humidity")?;
    let (second_flow, second) = one("other_flow", "other_dry_bulb", "other_relative_humidity")?;
    let share = first_flow.value / (first_flow + second_flow).value;
    let mix = |a: f64, b: f64| share * a + (1.0 - share) * b;
    let ratio = mix(first.humidity_ratio.value, second.humidity_ratio.value);
    let enthalpy = mix(first.enthalpy().value, second.enthalpy().value);
    // h = 1006·t + W·(2 501 000 + 1860·t), J/kg and °C.
    let celsius = (enthalpy - 2_501_000.0 * ratio) / (1_006.0 + 1_860.0 * ratio);
    let dry_bulb = quantity(celsius + 273.15);
    let state = MoistAir { dry_bulb, humidity_ratio: quantity(ratio), ..first };
    let saturated = state.relative_humidity().map_or(0.0, |share| share.value);
    Ok(Value::Record(vec![
        part(celsius + 273.15),
        part(ratio),
        part(enthalpy),
        part(saturated.min(1.0)),
        part(saturated > 1.0),
        part(share),
    ]))
}
