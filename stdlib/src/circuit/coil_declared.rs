//! The declarations of what coil sensors and a system at rest say.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, parameter,
};
use uom::si::f64::{Pressure, TemperatureInterval, ThermodynamicTemperature};

use super::superheat::mean_saturation;
use crate::cautions::SETTLED;
use crate::circuit::superheat::difference;
use crate::parameters::{of_refrigerant, pipe_temperature, refrigerant_pressure, rest_temperature};
use crate::refusal::{refrigerant, refused};
use crate::seam::{all, given, part};

/// The functions of coils and of rest.
pub(super) fn functions() -> Vec<Function> {
    vec![
        coil_superheat(),
        coil_subcooling(),
        condenser_approach(),
        evaporator_difference(),
        oil_superheat(),
        noncondensable(),
    ]
}

fn allowance(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("C°"), about).within("0 C°", "20 C°").or("0 C°")
}

fn coil_superheat() -> Function {
    Function::new(
        "coil_superheat",
        "circuit",
        "superheat of a coil by its two pipe sensors, in cooling",
        Returns::unit("C°"),
        Body::Numbers(|numbers| {
            let [liquid, gas, glide, drop] = all(numbers)?;
            Ok(gas - liquid - glide + drop)
        }),
    )
    .takes(pipe_temperature("liquid_pipe", "sensor where the coil begins to boil"))
    .takes(pipe_temperature("gas_pipe", "sensor where the coil ends"))
    .takes(allowance("glide_inside", "of a blend from the coil's inlet to its dew line"))
    .takes(allowance("coil_drop", "fall of saturation temperature by the coil's loss of pressure"))
    .equation("T_gas − T_liquid − glide + drop")
    .source("common practice, no source")
    .valid(
        "not the same number as `superheat`, and never compared with it; blends with a glide above 2 K need a pressure",
    )
    .example("coil_superheat(9.4 degC, 13.6 degC) as C° to 0.1", "4.2 C°")
    .caution(SETTLED)
    .charted()
}

fn condenser_approach() -> Function {
    let function = Function::new(
        "condenser_approach",
        "circuit",
        "how far condensing is above the air that comes onto the condenser",
        Returns::unit("C°"),
        Body::Values(|arguments| Ok(over_air(arguments)?.value.into())),
    );
    by_mean_saturation(function)
        .equation("T_condensing − T_air, T_condensing the mean of bubble and dew at the pressure")
        .valid("pressure taken at the condenser; 8 to 17 K are usual (common practice, no source)")
        .example("condenser_approach(R-134a, 1016.59 kPaa, 28 degC) as C° to 0.1", "12.0 C°")
}

fn evaporator_difference() -> Function {
    let function = Function::new(
        "evaporator_difference",
        "circuit",
        "how far evaporating is below the air that comes onto the evaporator",
        Returns::unit("C°"),
        Body::Values(|arguments| Ok((-over_air(arguments)?).value.into())),
    );
    by_mean_saturation(function)
        .equation("T_air − T_evaporating, T_evaporating the mean of bubble and dew at the pressure")
        .valid(
            "pressure taken at the evaporator; 17 to 22 K are usual for comfort cooling (common practice, no source)",
        )
        .example("evaporator_difference(R-134a, 349.66 kPaa, 25 degC) as C° to 0.1", "20.0 C°")
}

fn by_mean_saturation(function: Function) -> Function {
    function
        .takes(of_refrigerant())
        .takes(refrigerant_pressure("pressure", "in the coil"))
        .takes(rest_temperature("air", "dry bulb of the air onto the coil"))
        .source("definition; saturation by the refrigerant's published equation of state; the mean is common practice, no source")
        .caution(SETTLED)
}

fn over_air(arguments: &Arguments<'_>) -> Result<TemperatureInterval, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let saturation =
        mean_saturation(r, given(arguments, "pressure")?).map_err(|error| refused(r.designation(), error))?;
    Ok(difference(saturation, given(arguments, "air")?))
}

fn coil_subcooling() -> Function {
    Function::new(
        "coil_subcooling",
        "circuit",
        "subcooling of a coil by its liquid-pipe sensor, in heating",
        Returns::unit("C°"),
        Body::Numbers(|numbers| {
            let [condensing, liquid, drop] = all(numbers)?;
            Ok(condensing - drop - liquid)
        }),
    )
    .takes(pipe_temperature("condensing", "condensing temperature at the outdoor unit (bubble line)"))
    .takes(pipe_temperature("liquid_pipe", "sensor where the liquid leaves the coil"))
    .takes(allowance("gas_line_drop", "fall of saturation temperature from the outdoor unit to the coil"))
    .equation("T_condensing − drop − T_liquid")
    .source("common practice, no source; 5 to 15 K is usual")
    .valid("settled heating; below 2 K at a small opening gas passes, above 20 K with cold air the valve is shut")
    .example("coil_subcooling(46 degC, 37 degC) as C°", "9 C°")
    .caution(SETTLED)
    .charted()
}

fn oil_superheat() -> Function {
    Function::new(
        "oil_superheat",
        "circuit",
        "how far a compressor's shell is above saturation before start",
        Returns::unit("C°"),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            let dew = r.dew_temperature(given(arguments, "rest_pressure")?);
            let shell: ThermodynamicTemperature = given(arguments, "shell")?;
            Ok((shell.value - dew.map_err(|error| refused(r.designation(), error))?.value).into())
        }),
    )
    .takes(of_refrigerant())
    .takes(parameter("rest_pressure", Accepts::unit("kPaa"), "after hours off").within("1 kPaa", "10000 kPaa"))
    .takes(pipe_temperature("shell", "of the shell at the oil, insulated"))
    .equation("T_shell − T_dew(p)")
    .source("definition; no start below 10 K is common practice, no source")
    .valid("equalised; below it refrigerant is dissolved in the oil")
    .example("oil_superheat(R-32, 1474.57 kPaa, 35 degC) as C° to 0.1", "15.0 C°")
}

/// What a rest test can say.
const RESTED: &[&str] = &["gas that does not condense", "none seen", "no liquid left", "undecided"];

fn noncondensable() -> Function {
    let fields = vec![
        field("verdict", Basic::OneOf(RESTED), "what the pressure at rest says"),
        field("excess", Basic::Unit("kPa"), "pressure above that of the refrigerant at the mean temperature"),
        field("excess_temperature", Basic::Unit("C°"), "the same as a difference of saturation temperature"),
    ];
    Function::new(
        "noncondensable",
        "circuit",
        "whether gas that does not condense is in an isolated condenser at rest",
        Returns::Record(fields),
        Body::Values(rested),
    )
    .takes(of_refrigerant())
    .takes(parameter("pressure", Accepts::unit("kPaa"), "of the isolated coil").within("1 kPaa", "10000 kPaa"))
    .takes(pipe_temperature("coldest", "of the coil's coldest part"))
    .takes(pipe_temperature("hottest", "of its hottest part"))
    .takes(
        parameter(
            "uncertainty",
            Accepts::unit("C°"),
            "expanded uncertainty of pressure and thermometers together, as kelvin",
        )
        .within("0.1 C°", "10 C°")
        .or("1 C°"),
    )
    .equation("p − p_bubble(t): gas if T_bubble(p) > hottest + 2·U; no liquid if T_bubble(p) < coldest − 2·U")
    .source("Dalton's law; the rule is common practice, no source")
    .valid("coil isolated, hours off, liquid present, out of the sun")
    .example("noncondensable(R-410A, 1700 kPaa, 23.5 degC, 24.5 degC).verdict", "undecided")
    .caution(SETTLED)
}

fn rested(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let refuse = |error| refused(r.designation(), error);
    let (coldest, hottest): (ThermodynamicTemperature, ThermodynamicTemperature) =
        (given(arguments, "coldest")?, given(arguments, "hottest")?);
    if hottest < coldest {
        return Err(Failure::of("hottest", "the hottest part is colder than the coldest: swapped?"));
    }
    let p: Pressure = given(arguments, "pressure")?;
    let boiling = r.bubble_temperature(p).map_err(refuse)?;
    let mean: ThermodynamicTemperature = crate::seam::quantity((coldest.value + hottest.value) / 2.0);
    let excess = p - r.bubble_pressure(mean).map_err(refuse)?;
    let apart = 2.0 * arguments.number("uncertainty")?;
    let verdict = match boiling.value {
        t if t > hottest.value + apart => "gas that does not condense",
        t if t < coldest.value - apart => "no liquid left",
        t if t > hottest.value || t < coldest.value => "undecided",
        _ => "none seen",
    };
    Ok(Value::Record(vec![part(verdict), part(excess.value), part(boiling.value - mean.value)]))
}
