//! The declarations of states by heat, which may be of two phases, and of viscosity.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Field, Function, Returns, Value, field, parameter,
};

use super::declared::{of_refrigerant, pressure, temperature};
use super::{MixedState, Phase, PropertyError, Refrigerant};
use crate::refusal::{refrigerant, refused};
use crate::seam::{given, part};

/// The functions of this part of the subject.
pub fn functions() -> Vec<Function> {
    vec![state_ph(), state_ps(), viscosity()]
}

fn state_ph() -> Function {
    of_refrigerant(
        "state_ph",
        "the state of liquid, vapor or both by pressure and enthalpy, as after an expansion valve",
        Returns::Record(fields()),
        Body::Values(|arguments| {
            state(arguments, |r| {
                r.state_with_enthalpy(given_or(arguments, "pressure")?, given_or(arguments, "enthalpy")?)
            })
        }),
    )
    .takes(pressure())
    .takes(parameter("enthalpy", Accepts::unit("kJ/kg"), "enthalpy; 200 kJ/kg for saturated liquid at 0 °C"))
    .equation("h(p, T) = h, or between the lines both phases in equilibrium with h as a whole")
    .valid(
        "within the equation's limits of temperature and pressure, vapor to 1.2 times the upper temperature in kelvin and to \
         226.8 °C at most",
    )
    .example("state_ph(R-32, 813.1 kPaa, 300 kJ/kg).quality as % to 0.1", "31.7 %")
}

fn state_ps() -> Function {
    of_refrigerant(
        "state_ps",
        "the state of liquid, vapor or both by pressure and entropy, as after a compression without loss",
        Returns::Record(fields()),
        Body::Values(|arguments| {
            state(arguments, |r| {
                r.state_with_entropy(given_or(arguments, "pressure")?, given_or(arguments, "entropy")?)
            })
        }),
    )
    .takes(pressure())
    .takes(parameter("entropy", Accepts::unit("kJ/(kg·K)"), "entropy; 1 kJ/(kg·K) for saturated liquid at 0 °C"))
    .equation("s(p, T) = s, or between the lines both phases in equilibrium with s as a whole")
    .valid(
        "within the equation's limits of temperature and pressure, vapor to 1.2 times the upper temperature in kelvin and to \
         226.8 °C at most",
    )
    .example("state_ps(R-32, 2478.3 kPaa, 2.1543 kJ/(kg·K)).temperature as degC to 0.1", "70.6 degC")
}

fn viscosity() -> Function {
    of_refrigerant(
        "viscosity",
        "dynamic viscosity of liquid or vapor by pressure and temperature",
        Returns::unit("uPa·s"),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            let (p, t) = (given(arguments, "pressure")?, given(arguments, "temperature")?);
            let found = r.viscosity(p, t).map_err(|error| refused(r.designation(), error))?;
            Ok(found.value.into())
        }),
    )
    .takes(pressure())
    .takes(temperature())
    .equation(
        "the correlation published for the refrigerant, at the density of its equation of state; of a blend without one, \
         those of its components: ln(1 + Δη⁺) mixes by mole fractions at equal residual entropy, the dilute gas by Wilke",
    )
    .source(
        "Geller 2000 (R-404A, R-407C, R-410A, R-507A); Bell & Laesecke 2016 (R-22, R-32, R-124, R-152a, R-245fa, \
         R-1234yf, R-1234ze(E)); Huber et al. 2003 (R-134a), Huber & Laesecke 2006 (R-125), Vogel et al. 1998–2000 \
         (R-290, R-600, R-600a), Fenghour et al. 1995 (R-717), Tanaka & Sotani 1996 (R-123), Laesecke & Muzny 2017 \
         (R-744, from memory), Shan et al. 2000 (R-23, from memory); extended corresponding states: Klein et al. 1997 \
         (R-143a), Huber et al. 2003 (R-1270, R-142b, R-218, R-227ea, R-236ea, R-236fa, R-C318); estimated blends after Yang et al. 2021",
    )
    .valid(
        "the refrigerants named in the source, and blends of them: those are estimates, within 8 % of measured blends as \
         liquid above 0 °C and as vapor, within 19 % as colder liquid; others have no published correlation",
    )
    .example("viscosity(R-134a, 101.325 kPaa, 25 degC) as uPa·s to 0.01", "11.82 uPa·s")
}

fn fields() -> Vec<Field> {
    vec![
        field("phase", Basic::OneOf(Phase::WORDS), "in which phase it is"),
        field("quality", Basic::Number, "share of the mass that is vapor; only of two phases"),
        field("pressure", Basic::Unit("kPaa"), "pressure"),
        field("temperature", Basic::Unit("degC"), "temperature"),
        field("density", Basic::Unit("kg/m3"), "density of the whole"),
        field("enthalpy", Basic::Unit("kJ/kg"), "enthalpy of the whole; 200 kJ/kg for saturated liquid at 0 °C"),
        field("entropy", Basic::Unit("kJ/(kg·K)"), "entropy of the whole; 1 kJ/(kg·K) for saturated liquid at 0 °C"),
    ]
}

/// An argument that is missing cannot be told by a property error; the declaration demands it.
fn given_or<D: uom::si::Dimension + ?Sized>(
    arguments: &Arguments<'_>,
    name: &'static str,
) -> Result<uom::si::Quantity<D, uom::si::SI<f64>, f64>, PropertyError> {
    given(arguments, name).map_err(|_| PropertyError::NotPublished(format!("no {name} is given")))
}

fn state(
    arguments: &Arguments<'_>,
    of: impl Fn(&Refrigerant) -> Result<MixedState, PropertyError>,
) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let state = of(&r).map_err(|error| refused(r.designation(), error))?;
    let one_phase =
        || Failure::new(format!("{} is all {} there: it has no quality", r.designation(), state.phase.name()));
    Ok(Value::Record(vec![
        part(state.phase.name()),
        state.quality.map(|quality| quality.value.into()).ok_or_else(one_phase),
        part(state.pressure.value),
        part(state.temperature.value),
        part(state.density.value),
        part(state.enthalpy.value),
        part(state.entropy.value),
    ]))
}
