//! The declarations of the charge functions.

use dewline_lang::library::{Accepts, Arguments, Body, Failure, Function, Returns, Value, parameter};
use uom::si::f64::{MassDensity, Pressure, ThermodynamicTemperature};

use super::lines_declared::lines_charge;
use super::{liquid_declared, recovery_declared, weighing_declared, weights_declared};
use crate::parameters::{of_refrigerant, rest_temperature};
use crate::pipe::LIQUID_FULL;
use crate::pipe::pick;
use crate::refrigerant::{Phase, PropertyError, Refrigerant, State};
use crate::refusal::{other_phase, refrigerant, refused};
use crate::seam::{given, maybe};

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    let mut all = vec![line_charge(), lines_charge()];
    all.extend(weights_declared::functions());
    all.extend(weighing_declared::functions());
    all.extend(liquid_declared::functions());
    all.extend(recovery_declared::functions());
    all
}

fn line_charge() -> Function {
    let function = Function::new(
        "line_charge",
        "charge",
        "refrigerant that a line holds when full of liquid, or of vapor",
        Returns::unit("kg"),
        Body::Values(charge_of_line),
    )
    .takes(of_refrigerant())
    .takes(pick::od())
    .takes(parameter("length", Accepts::unit("m"), "length of the line one way, as laid").within("0 m", "10000 m"))
    .takes(temperature("liquid_temperature", "of the liquid that fills the line"))
    .takes(temperature("vapor_temperature", "of the vapor that fills the line"))
    .takes(
        parameter("pressure", Accepts::unit("kPaa"), "of subcooled liquid or superheated vapor; without it saturated")
            .within("1 kPaa", "20000 kPaa")
            .optional(),
    )
    .one_of(&["liquid_temperature", "vapor_temperature"]);
    pick::temper_or_wall(function)
        .equation("π/4·bore²·length·ρ, ρ of saturated liquid on the bubble line or saturated vapor on the dew line")
        .source("geometry of ASTM B280; density by the refrigerant's published equation of state")
        .valid(
            "a line full of one phase. A gas line counts too: it can hold half of what the liquid line does in heating. \
             Reckon both pipes in both modes and take the greater",
        )
        .example(
            "line_charge(R-32, 3/8 in, 1 m, liquid_temperature = 40 degC, temper = \"annealed\") as kg to 0.0001",
            "0.0438 kg",
        )
        .caution(LIQUID_FULL)
}

fn temperature(name: &'static str, about: &'static str) -> dewline_lang::library::Parameter {
    rest_temperature(name, about).optional()
}

fn charge_of_line(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let volume = pick::tube(arguments)?.volume(given(arguments, "length")?);
    let pressure = maybe(arguments, "pressure");
    let density = match maybe(arguments, "liquid_temperature") {
        Some(t) => density(r, Phase::Liquid, t, pressure, Refrigerant::saturated_liquid_at_temperature)?,
        None => {
            let t = given(arguments, "vapor_temperature")?;
            density(r, Phase::Vapor, t, pressure, Refrigerant::saturated_vapor_at_temperature)?
        }
    };
    Ok((volume * density).value.into())
}

fn density(
    r: Refrigerant,
    wanted: Phase,
    t: ThermodynamicTemperature,
    pressure: Option<Pressure>,
    saturated: fn(&Refrigerant, ThermodynamicTemperature) -> Result<State, PropertyError>,
) -> Result<MassDensity, Failure> {
    let refuse = |error| refused(r.designation(), error);
    let Some(pressure) = pressure else {
        return Ok(saturated(&r, t).map_err(refuse)?.density);
    };
    let (phase, state) = r.state(pressure, t).map_err(refuse)?;
    if phase != wanted {
        let message = other_phase(r, phase, wanted, pressure, t);
        return Err(Failure::of("pressure", message)
            .with_mend(format!("leave `pressure` out for saturated {}, or check both readings", wanted.name())));
    }
    Ok(state.density)
}
