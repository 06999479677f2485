//! The declarations of the air functions.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, maybe_field, parameter,
};
use uom::si::f64::{Power, Pressure, TemperatureInterval, ThermodynamicTemperature, VolumeRate};

use super::coil::{heat_capacity, taken};
use super::moist::{MoistAir, Moisture, NoAir};
use super::{atmosphere, coil_declared};
use crate::cautions::SETTLED;
use crate::seam::{all, given, maybe, part, quantity, said_temperature};

pub(super) const CHAPTER: &str =
    "ASHRAE Handbook—Fundamentals (2021), chapter 1; vapor pressure of water by IAPWS R7-97 and R14-08";
/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    let mut all = vec![
        standard_atmosphere(),
        standard_temperature(),
        moist_air(),
        coil_capacity(),
        sensible_capacity(),
        airflow_for(),
    ];
    all.extend(coil_declared::functions());
    all
}

fn standard_atmosphere() -> Function {
    Function::new(
        "standard_atmosphere",
        "air",
        "pressure of the standard atmosphere at an altitude",
        Returns::unit("kPaa or psia"),
        Body::Numbers(|numbers| {
            let [altitude] = all(numbers)?;
            Ok(atmosphere::standard_atmosphere(quantity(altitude)).value)
        }),
    )
    .takes(altitude())
    .equation("p = 101.325 kPa · (1 − 2.25577e-5 · Z)^5.2559, Z in metres")
    .source("ASHRAE Handbook—Fundamentals (2021), chapter 1, equation 3")
    .valid("−5000 to 11 000 m; the weather moves the real pressure by some 3 %, so a barometer is better")
    .example("standard_atmosphere(1500 m) as kPaa to 0.01", "84.56 kPaa")
}

fn standard_temperature() -> Function {
    Function::new(
        "standard_temperature",
        "air",
        "temperature of the standard atmosphere at an altitude",
        Returns::unit("degC"),
        Body::Numbers(|numbers| {
            let [altitude] = all(numbers)?;
            Ok(atmosphere::standard_temperature(quantity(altitude)).value)
        }),
    )
    .takes(altitude())
    .equation("t = 15 °C − 6.5 K/km · Z")
    .source("ASHRAE Handbook—Fundamentals (2021), chapter 1, equation 4; the same in ISO 2533 and the US Standard Atmosphere 1976")
    .valid("−5000 to 11 000 m; a convention to compare by, not the weather")
    .example("standard_temperature(2000 m) as degC to 0.1", "2.0 degC")
}

fn altitude() -> Parameter {
    parameter("altitude", Accepts::unit("m"), "height above sea level").within("-5000 m", "11000 m")
}

pub(super) fn air_temperature(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("degC"), about).within("-60 degC", "90 degC")
}

pub(super) fn site() -> Parameter {
    parameter("atmosphere", Accepts::unit("kPaa"), "pressure of the air")
        .within("20 kPaa", "120 kPaa")
        .or_site_atmosphere()
}

pub(super) fn pressure(arguments: &Arguments<'_>) -> Pressure {
    maybe(arguments, "atmosphere").unwrap_or_else(|| quantity(arguments.context.atmosphere))
}

pub(super) fn air(dry: ThermodynamicTemperature, moisture: Moisture, p: Pressure) -> Result<MoistAir, Failure> {
    MoistAir::new(dry, moisture, p).map_err(|reason| {
        let dry = said_temperature(dry.value);
        match reason {
            NoAir::AboveDryBulb => {
                Failure::new(format!("wet bulb or dew point is above the dry bulb of {dry}: swapped?"))
            }
            NoAir::DrierThanDry => Failure::new(format!(
                "the wet bulb is too far below the dry bulb of {dry}: even dry air would read more"
            ))
            .with_mend("is the wick wet, and wetted with clean water?"),
            NoAir::Boiling => Failure::new(format!("no such air: water boils at {dry} and this pressure")),
        }
    })
}

fn moist_air() -> Function {
    let fields = vec![
        field("humidity_ratio", Basic::Unit("g/kg or grain/lb"), "water for each mass of dry air"),
        field(
            "enthalpy",
            Basic::Unit("kJ/kg"),
            "of dry air, from 0 °C; inch–pound tables count from 0 °F: 7.69 Btu/lb more",
        ),
        field("volume", Basic::Unit("m3/kg"), "volume for each mass of dry air"),
        field("density", Basic::Unit("kg/m3"), "mass of air and water in a volume"),
        maybe_field("wet_bulb", Basic::Unit("degC"), "wet bulb"),
        maybe_field("dew_point", Basic::Unit("degC"), "dew point, frost point below 0 °C"),
        maybe_field("relative_humidity", Basic::Unit("%"), "relative humidity"),
    ];
    Function::new(
        "moist_air",
        "air",
        "state of moist air at the site's atmosphere",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let moisture = match (maybe(arguments, "wet_bulb"), maybe(arguments, "relative_humidity")) {
                (Some(wet), _) => Moisture::WetBulb(wet),
                (None, Some(share)) => Moisture::Relative(share),
                (None, None) => Moisture::DewPoint(given(arguments, "dew_point")?),
            };
            let air = air(given(arguments, "dry_bulb")?, moisture, pressure(arguments))?;
            let dry = || Failure::new("air without moisture has none");
            Ok(Value::Record(vec![
                part(air.humidity_ratio.value),
                part(air.enthalpy().value),
                part(air.specific_volume().value),
                part(air.density().value),
                air.wet_bulb().map(|t| t.value.into()).ok_or_else(dry),
                air.dew_point().map(|t| t.value.into()).ok_or_else(dry),
                air.relative_humidity().map(|share| share.value.into()).ok_or_else(dry),
            ]))
        }),
    )
    .takes(air_temperature("dry_bulb", "dry bulb"))
    .takes(air_temperature("wet_bulb", "wet bulb").optional())
    .takes(parameter("relative_humidity", Accepts::unit("%"), "relative humidity").within("0 %", "100 %").optional())
    .takes(air_temperature("dew_point", "dew point").optional())
    .takes(site())
    .one_of(&["wet_bulb", "relative_humidity", "dew_point"])
    .equation("W = 0.621945·p_w/(p − p_w); h = 1.006·t + W·(2501 + 1.86·t); v = 287.042·T·(1 + 1.607858·W)/p")
    .source(CHAPTER)
    .valid("perfect gases: humidity and volume within 0.5 %, enthalpy within 1 % of the real-gas tables")
    .example("moist_air(40 degC, wet_bulb = 20 degC).dew_point as degC to 0.1", "7.4 degC")
    .example(
        "moist_air(80 degF, wet_bulb = 67 degF, atmosphere = 14.696 psia).volume as ft3/lb to 0.01",
        "13.85 ft3/lb",
    )
}

fn coil_capacity() -> Function {
    let fields = vec![
        field("total", Basic::Unit("kW or Btu/h"), "heat taken from the air; below nought given to it"),
        field("sensible", Basic::Unit("kW or Btu/h"), "the part that changes its temperature"),
        field("latent", Basic::Unit("kW or Btu/h"), "the part that takes water out"),
        maybe_field("sensible_ratio", Basic::Number, "sensible over total"),
        field("condensate", Basic::Unit("kg/h or lb/h"), "water condensed"),
        field("dry_air", Basic::Unit("kg/h or lb/h"), "flow of dry air"),
    ];
    Function::new(
        "coil_capacity",
        "air",
        "heat and water that a coil takes from the air, by dry and wet bulbs before and after it",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let p = pressure(arguments);
            let entering =
                air(given(arguments, "dry_bulb_in")?, Moisture::WetBulb(given(arguments, "wet_bulb_in")?), p)?;
            let leaving =
                air(given(arguments, "dry_bulb_out")?, Moisture::WetBulb(given(arguments, "wet_bulb_out")?), p)?;
            let found = taken(given(arguments, "flow")?, &entering, &leaving);
            let share = found.sensible.value / found.total.value;
            Ok(Value::Record(vec![
                part(found.total.value),
                part(found.sensible.value),
                part((found.total - found.sensible).value),
                if share.is_finite() { part(share) } else { Err(Failure::new("the coil does nothing")) },
                part(found.condensate.value),
                part(found.dry_air.value),
            ]))
        }),
    )
    .takes(parameter("flow", Accepts::unit("m3/h"), "air flow where it enters").within("1 m3/h", "1000000 m3/h"))
    .takes(air_temperature("dry_bulb_in", "dry bulb before the coil"))
    .takes(air_temperature("wet_bulb_in", "wet bulb before the coil"))
    .takes(air_temperature("dry_bulb_out", "dry bulb after the coil"))
    .takes(air_temperature("wet_bulb_out", "wet bulb after the coil"))
    .takes(site())
    .equation("q = V/v·(h_in − h_out), sensible V/v·c_p·(t_in − t_out), water V/v·(W_in − W_out)")
    .source(CHAPTER)
    .valid("density from the state and the site, so right at altitude; one probe on both sides, or probes compared")
    .example(
        "coil_capacity(1200 cfm, 80 degF, 67 degF, 58 degF, 56.5 degF, atmosphere = 14.696 psia).total as ton to 0.01",
        "3.18 ton",
    )
    .caution(SETTLED)
}

fn sensible_capacity() -> Function {
    let function = Function::new(
        "sensible_capacity",
        "air",
        "heat that changes the temperature of air by a difference",
        Returns::unit("kW or Btu/h"),
        Body::Values(|arguments| {
            let (air, flow): (MoistAir, VolumeRate) = (where_measured(arguments)?, given(arguments, "flow")?);
            let difference: TemperatureInterval = given(arguments, "difference")?;
            Ok((flow / air.specific_volume() * heat_capacity(&air) * difference).value.into())
        }),
    )
    .takes(parameter("flow", Accepts::unit("m3/h"), "air flow").within("0 m3/h", "1000000 m3/h"));
    at_dry_bulb(function).equation("q = V/v·c_p·Δt, c_p = 1.006 + 1.86·W kJ/(kg·K)").example(
        "sensible_capacity(1200 cfm, 22 F°, dry_bulb = 70 degF, atmosphere = 14.696 psia) as Btu/h to 100",
        "28600 Btu/h",
    )
}

fn airflow_for() -> Function {
    let function = Function::new(
        "airflow_for",
        "air",
        "air flow that carries a sensible capacity at a difference of temperature",
        Returns::unit("m3/h or cfm"),
        Body::Values(|arguments| {
            let (air, capacity): (MoistAir, Power) = (where_measured(arguments)?, given(arguments, "capacity")?);
            let difference: TemperatureInterval = given(arguments, "difference")?;
            Ok((capacity * air.specific_volume() / (heat_capacity(&air) * difference)).value.into())
        }),
    )
    .takes(parameter("capacity", Accepts::unit("kW"), "sensible capacity").within("0 kW", "100000 kW"));
    at_dry_bulb(function)
        .equation("V = q·v/(c_p·Δt)")
        .example("airflow_for(10 kW, 11 C°, dry_bulb = 20 degC, atmosphere = 101.325 kPaa) as L/s to 1", "749 L/s")
}

fn at_dry_bulb(function: Function) -> Function {
    function
        .takes(
            parameter("difference", Accepts::unit("C°"), "change of the air's temperature").within("0.1 C°", "80 C°"),
        )
        .takes(air_temperature("dry_bulb", "dry bulb where the flow is measured"))
        .takes(parameter("relative_humidity", Accepts::unit("%"), "there").within("0 %", "100 %").or("50 %"))
        .takes(site())
        .source(CHAPTER)
        .valid("density from the state and the site, never a sea-level constant")
}

fn where_measured(arguments: &Arguments<'_>) -> Result<MoistAir, Failure> {
    let humidity = Moisture::Relative(given(arguments, "relative_humidity")?);
    air(given(arguments, "dry_bulb")?, humidity, pressure(arguments))
}
