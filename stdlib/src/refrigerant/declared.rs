//! The declarations of the refrigerant functions.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Field, Function, OfNumbers, Parameter, Returns, Value, field, parameter,
};
use uom::si::f64::{Pressure, ThermodynamicTemperature};

use super::{Phase, PropertyError, Refrigerant, State};
use crate::helmholtz::envelope::Line;
use crate::parameters;
use crate::refusal::{refrigerant, refused};
use crate::seam::{all, given, part, quantity};

const SOURCE: &str = "the refrigerant's published equation of state, blends by the multi-fluid mixture model with \
                      published parameters; `properties_source(…)` names the papers";
const SATURATED: &str = "from the lowest temperature of the equation to the critical point";

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    vec![
        dew_temperature(),
        bubble_temperature(),
        dew_pressure(),
        bubble_pressure(),
        glide(),
        saturated_liquid(),
        saturated_vapor(),
        latent_heat(),
        refrigerant_state(),
        critical_point(),
        molar_mass(),
        safety_group(),
        composition(),
        properties_source(),
    ]
    .into_iter()
    .chain(super::declared_states::functions())
    .collect()
}

pub(super) fn of_refrigerant(name: &'static str, gives: &'static str, returns: Returns, body: Body) -> Function {
    Function::new(name, "refrigerant", gives, returns, body).takes(parameters::of_refrigerant()).source(SOURCE)
}

pub(super) fn pressure() -> Parameter {
    parameter("pressure", Accepts::unit("kPaa"), "pressure").within("0.001 kPaa", "100000 kPaa")
}

pub(super) fn temperature() -> Parameter {
    parameter("temperature", Accepts::unit("degC"), "temperature").within("-200 degC", "500 degC")
}

fn dew_temperature() -> Function {
    of_refrigerant(
        "dew_temperature",
        "temperature at which vapor begins to condense at a pressure",
        Returns::unit("degC"),
        Body::Prepared(|arguments| at_pressure(arguments, Line::Dew, Refrigerant::dew_temperature)),
    )
    .takes(pressure())
    .equation("fugacities of vapor and first liquid are equal")
    .valid(SATURATED)
    .example("dew_temperature(R-32, 813.1 kPaa) as degC to 0.1", "0.0 degC")
}

fn bubble_temperature() -> Function {
    of_refrigerant(
        "bubble_temperature",
        "temperature at which liquid begins to boil at a pressure",
        Returns::unit("degC"),
        Body::Prepared(|arguments| at_pressure(arguments, Line::Bubble, Refrigerant::bubble_temperature)),
    )
    .takes(pressure())
    .equation("fugacities of liquid and first vapor are equal")
    .valid(SATURATED)
    .example("bubble_temperature(R-32, 3141.2 kPaa) as degC to 0.1", "50.0 degC")
}

fn dew_pressure() -> Function {
    of_refrigerant(
        "dew_pressure",
        "pressure at which vapor of a temperature begins to condense",
        Returns::unit("kPaa"),
        Body::Prepared(|arguments| at_temperature(arguments, Line::Dew, Refrigerant::dew_pressure)),
    )
    .takes(temperature())
    .equation("fugacities of vapor and first liquid are equal")
    .valid(SATURATED)
    .example("dew_pressure(R-32, 0 degC) as kPaa to 0.1", "813.1 kPaa")
}

fn bubble_pressure() -> Function {
    of_refrigerant(
        "bubble_pressure",
        "pressure at which liquid of a temperature begins to boil",
        Returns::unit("kPaa"),
        Body::Prepared(|arguments| at_temperature(arguments, Line::Bubble, Refrigerant::bubble_pressure)),
    )
    .takes(temperature())
    .equation("fugacities of liquid and first vapor are equal")
    .valid(SATURATED)
    .example("bubble_pressure(R-32, 50 degC) as kPaa to 1", "3141 kPaa")
}

fn glide() -> Function {
    of_refrigerant(
        "glide",
        "dew temperature less bubble temperature at one pressure",
        Returns::unit("C°"),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            let glide = r.glide(given(arguments, "pressure")?).map_err(|error| refused(r.designation(), error))?;
            Ok(glide.value.into())
        }),
    )
    .takes(pressure())
    .equation("T_dew(p) − T_bubble(p)")
    .valid("saturated; in an evaporator less, since what enters is part vapor already")
    .example("glide(R-32, 1000 kPaa) as C°", "0 C°")
}

fn saturated_liquid() -> Function {
    of_refrigerant(
        "saturated_liquid",
        "liquid on the bubble line, at a pressure or a temperature",
        Returns::Record(state_fields()),
        Body::Values(|arguments| liquid(arguments).map(record_of)),
    )
    .takes(at())
    .equation("the point of the bubble line")
    .valid(SATURATED)
    .example("saturated_liquid(R-32, 0 degC).density as kg/m3 to 0.1", "1055.3 kg/m3")
}

fn saturated_vapor() -> Function {
    of_refrigerant(
        "saturated_vapor",
        "vapor on the dew line, at a pressure or a temperature",
        Returns::Record(state_fields()),
        Body::Values(|arguments| vapor(arguments).map(record_of)),
    )
    .takes(at())
    .equation("the point of the dew line")
    .valid(SATURATED)
    .example("saturated_vapor(R-32, 0 degC).density as kg/m3 to 0.01", "22.09 kg/m3")
}

fn latent_heat() -> Function {
    of_refrigerant(
        "latent_heat",
        "enthalpy of vapor on the dew line less that of liquid on the bubble line",
        Returns::unit("kJ/kg"),
        Body::Values(|arguments| Ok((vapor(arguments)?.enthalpy - liquid(arguments)?.enthalpy).value.into())),
    )
    .takes(at())
    .equation("h_vapor − h_liquid, of a blend at the same pressure or temperature as asked")
    .valid(SATURATED)
    .example("latent_heat(R-32, 0 degC) as kJ/kg to 0.1", "315.3 kJ/kg")
}

/// What a single-phase state can be.
const SINGLE_PHASES: &[&str] = &[Phase::Liquid.name(), Phase::Vapor.name(), Phase::Supercritical.name()];

fn refrigerant_state() -> Function {
    let mut fields = vec![field("phase", Basic::OneOf(SINGLE_PHASES), "in which phase it is")];
    fields.extend(state_fields());
    of_refrigerant(
        "refrigerant_state",
        "a single-phase state by pressure and temperature",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            let (p, t) = (given(arguments, "pressure")?, given(arguments, "temperature")?);
            let (phase, state) = r.state(p, t).map_err(|error| refused(r.designation(), error))?;
            let mut parts = vec![part(phase.name())];
            parts.extend(state_parts(state));
            Ok(Value::Record(parts))
        }),
    )
    .takes(pressure())
    .takes(temperature())
    .equation("density from p(ρ, T), then the derivatives of the Helmholtz energy")
    .valid("liquid, vapor and supercritical within the equation's limits, vapor to 1.2 times its upper temperature in kelvin and to \
         226.8 °C at most; between the lines no state is settled")
    .example("refrigerant_state(R-32, 1000 kPaa, 5 degC).density as kg/m3 to 0.1", "1038.0 kg/m3")
    .example("refrigerant_state(R-32, 200 kPaa, 0 degC).phase", "vapor")
}

fn critical_point() -> Function {
    let fields = vec![
        field("temperature", Basic::Unit("degC"), "critical temperature"),
        field("pressure", Basic::Unit("kPaa"), "critical pressure"),
        field("density", Basic::Unit("kg/m3"), "critical density"),
    ];
    of_refrigerant(
        "critical_point",
        "where liquid and vapor become one",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let point = refrigerant(arguments.text("refrigerant")?)?.critical_point();
            Ok(Value::Record(vec![
                part(point.temperature.value),
                part(point.pressure.value),
                part(point.density.value),
            ]))
        }),
    )
    .equation("of the equation of state, or of the mixture model at the standard's composition")
    .valid("handbooks may give a blend's critical point by another model, a fraction of a kelvin apart")
    .example("critical_point(R-32).temperature as degC to 0.1", "78.1 degC")
}

fn molar_mass() -> Function {
    of_refrigerant(
        "molar_mass",
        "mass of a mole",
        Returns::unit("g/mol"),
        Body::Values(|arguments| Ok(refrigerant(arguments.text("refrigerant")?)?.molar_mass().value.into())),
    )
    .equation("1/M = Σ w_i/M_i for a blend of mass shares w_i")
    .valid("the standard's composition")
    .example("molar_mass(R-32) as g/mol to 0.001", "52.024 g/mol")
}

fn safety_group() -> Function {
    of_refrigerant(
        "safety_group",
        "safety group of ASHRAE 34",
        Returns::One(Basic::OneOf(&["A1", "A2L", "A2", "A3", "B1", "B2L", "B2", "B3"])),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            let none = || {
                Failure::new(format!("ASHRAE 34 assigns no safety group to {}, as far as known here", r.designation()))
            };
            r.safety_group().map(Value::from).ok_or_else(none)
        }),
    )
    .equation("table")
    .source(
        "ASHRAE 34; many from ASHRAE Handbook—Fundamentals (2021), chapter 29, others from memory: check the standard",
    )
    .valid("as listed; the edition in force governs")
    .example("safety_group(R-32)", "A2L")
}

fn composition() -> Function {
    of_refrigerant(
        "composition",
        "components and their shares of the mass",
        Returns::One(Basic::Text),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            let share = |(name, share): &(&str, f64)| {
                // The standard gives tenths of a percent.
                let tenths = (share * 1e3).round() / 10.0;
                if r.is_pure() { (*name).to_string() } else { format!("{name} {tenths} %") }
            };
            let parts: Vec<String> = r.composition().iter().map(share).collect();
            Ok(Value::from(parts.join(", ")))
        }),
    )
    .equation("table")
    .source("ASHRAE 34: the compositions designated to 2026, nominal")
    .valid("nominal; the standard's tolerances are not in it")
    .example("composition(R-454B)", "R-32 68.9 %, R-1234yf 31.1 %")
}

fn properties_source() -> Function {
    of_refrigerant(
        "properties_source",
        "the publications that a refrigerant's values rest on",
        Returns::One(Basic::Text),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            Ok(r.source().map_err(|error| refused(r.designation(), error))?.into())
        }),
    )
    .equation("list")
    .valid("what is built in")
    .example(
        "properties_source(R-32)",
        "R. Tillner-Roth; A. Yokozeki (1997), J. Phys. Chem. Ref. Data 26 1273-1328, doi:10.1063/1.556002",
    )
}

/// A pressure or a temperature.
fn at() -> Parameter {
    parameter("at", Accepts::AnyOf(vec![Basic::Unit("kPaa"), Basic::Unit("degC")]), "a pressure or a temperature")
}

fn state_fields() -> Vec<Field> {
    vec![
        field("pressure", Basic::Unit("kPaa"), "pressure"),
        field("temperature", Basic::Unit("degC"), "temperature"),
        field("density", Basic::Unit("kg/m3"), "density"),
        field("enthalpy", Basic::Unit("kJ/kg"), "enthalpy; 200 kJ/kg for saturated liquid at 0 °C"),
        field("entropy", Basic::Unit("kJ/(kg·K)"), "entropy; 1 kJ/(kg·K) for saturated liquid at 0 °C"),
        field("heat_capacity", Basic::Unit("kJ/(kg·K)"), "heat capacity at constant pressure"),
        field("sound_speed", Basic::Unit("m/s or ft/s"), "speed of sound"),
    ]
}

fn state_parts(state: State) -> Vec<Result<Value, Failure>> {
    vec![
        part(state.pressure.value),
        part(state.temperature.value),
        part(state.density.value),
        part(state.enthalpy.value),
        part(state.entropy.value),
        part(state.heat_capacity.value),
        part(state.sound_speed.value),
    ]
}

fn record_of(state: State) -> Value {
    Value::Record(state_parts(state))
}

fn at_pressure(
    arguments: &Arguments<'_>,
    line: Line,
    of: fn(&Refrigerant, Pressure) -> Result<ThermodynamicTemperature, PropertyError>,
) -> Result<OfNumbers, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let slope = move |numbers: &[f64], _| r.saturation_temperature_slope(line, quantity(*numbers.get(1)?));
    let value = move |numbers: &[f64]| {
        let [_, pressure] = all(numbers)?;
        of(&r, quantity(pressure)).map(|found| found.value).map_err(|error| refused(r.designation(), error))
    };
    Ok(OfNumbers::new(value).sloped(slope))
}

fn at_temperature(
    arguments: &Arguments<'_>,
    line: Line,
    of: fn(&Refrigerant, ThermodynamicTemperature) -> Result<Pressure, PropertyError>,
) -> Result<OfNumbers, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let slope = move |numbers: &[f64], _| r.saturation_pressure_slope(line, quantity(*numbers.get(1)?));
    let value = move |numbers: &[f64]| {
        let [_, temperature] = all(numbers)?;
        of(&r, quantity(temperature)).map(|found| found.value).map_err(|error| refused(r.designation(), error))
    };
    Ok(OfNumbers::new(value).sloped(slope))
}

fn liquid(arguments: &Arguments<'_>) -> Result<State, Failure> {
    saturated(arguments, Refrigerant::saturated_liquid_at_pressure, Refrigerant::saturated_liquid_at_temperature)
}

fn vapor(arguments: &Arguments<'_>) -> Result<State, Failure> {
    saturated(arguments, Refrigerant::saturated_vapor_at_pressure, Refrigerant::saturated_vapor_at_temperature)
}

fn saturated(
    arguments: &Arguments<'_>,
    by_pressure: fn(&Refrigerant, Pressure) -> Result<State, PropertyError>,
    by_temperature: fn(&Refrigerant, ThermodynamicTemperature) -> Result<State, PropertyError>,
) -> Result<State, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let state = if arguments.chosen("at") == 0 {
        by_pressure(&r, given(arguments, "at")?)
    } else {
        by_temperature(&r, given(arguments, "at")?)
    };
    state.map_err(|error| refused(r.designation(), error))
}
