//! The declarations of flow in lines.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Field, Function, Parameter, Returns, Value, field, maybe_field, parameter,
};
use uom::si::f64::{Length, MassDensity, Pressure, ThermodynamicTemperature};
use uom::si::mass_density::kilogram_per_cubic_meter;

use super::fittings::{Fittings, equivalent_length as of_fittings};
use super::friction::{self, flow};
use super::strength::{allowable_stress, working_pressure};
use super::tube::Temper;
use super::{LIQUID_FULL, carried, pick};
use crate::parameters::{of_refrigerant, pipe_temperature, refrigerant_pressure};
use crate::refrigerant::{Phase, Refrigerant, State};
use crate::refusal::{other_phase, refrigerant, refused};
use crate::seam::{all, given, maybe, part, said_length, said_temperature};

const EOS: &str = "density and saturation by the refrigerant's published equation of state";

/// The functions of flow in lines.
pub(super) fn functions() -> Vec<Function> {
    vec![
        friction_factor(),
        equivalent_length(),
        line_drop(),
        static_head(),
        liquid_margin(),
        oil_return_velocity(),
        tube_working_pressure(),
    ]
}

fn rise() -> Parameter {
    parameter("rise", Accepts::unit("m"), "rise along the flow; a fall is below nought").within("-500 m", "500 m")
}

fn friction_factor() -> Function {
    Function::new(
        "friction_factor",
        "pipe",
        "Darcy friction factor of a pipe",
        Returns::One(Basic::Number),
        Body::Numbers(|numbers| {
            let [reynolds, roughness] = all(numbers)?;
            Ok(friction::friction_factor(reynolds, roughness))
        }),
    )
    .takes(parameter("reynolds", Accepts::One(Basic::Number), "Reynolds number").within("1", "1e8"))
    .takes(parameter("relative_roughness", Accepts::One(Basic::Number), "roughness over bore").within("0", "0.05"))
    .equation("64/Re below 2300; 1/√f = −2·log10(ε/(3.7·D) + 2.51/(Re·√f)) above")
    .source("C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133")
    .valid("full round pipe; between 2300 and 4000 the flow itself is not settled. Four times Fanning's factor")
    .example("round(friction_factor(1e5, 1e-4), 1e-7)", "0.0185139")
}

fn equivalent_length() -> Function {
    let count = |name, about| parameter(name, Accepts::One(Basic::Number), about).within("0", "1000").or("0");
    Function::new(
        "equivalent_length",
        "pipe",
        "length of a line with its fittings as straight pipe",
        Returns::unit("m or ft"),
        Body::Values(|arguments| {
            let od: Length = given(arguments, "od")?;
            let length: Length = given(arguments, "length")?;
            let fittings = Fittings {
                elbows: arguments.number("elbows")?,
                long_elbows: arguments.number("long_elbows")?,
                half_elbows: arguments.number("elbows_45")?,
                tees: arguments.number("tees")?,
            };
            let more = of_fittings(od, &fittings).ok_or_else(|| {
                let said = said_length(od.value);
                Failure::of("od", format!("the table of fittings goes from 3/8 to 2 in; asked at {said}"))
            })?;
            Ok((length + more).value.into())
        }),
    )
    .takes(pick::od())
    .takes(parameter("length", Accepts::unit("m"), "length as laid").within("0 m", "10000 m"))
    .takes(count("elbows", "90° elbows"))
    .takes(count("long_elbows", "90° elbows of long radius"))
    .takes(count("elbows_45", "45° elbows"))
    .takes(count("tees", "tees passed through the branch"))
    .equation("length + Σ count · feet of each fitting, straight between sizes")
    .source("ASHRAE Handbook—Refrigeration, chapter 1, from memory: check the table")
    .valid("copper fittings from 3/8 to 2 in; for friction only, never for charge")
    .example("equivalent_length(3/8 in, 100 ft, elbows = 4, tees = 1) as ft to 0.1", "108.3 ft")
}

fn line_drop() -> Function {
    let fields: Vec<Field> = vec![
        field("velocity", Basic::Unit("m/s or fpm"), "mean velocity"),
        field("reynolds", Basic::Number, "Reynolds number"),
        field("friction", Basic::Unit("kPa"), "loss by friction"),
        field("head", Basic::Unit("kPa"), "loss by the rise"),
        field("drop", Basic::Unit("kPa"), "both together"),
        maybe_field("penalty", Basic::Unit("C°"), "fall of the saturation temperature that goes with it"),
    ];
    let function = Function::new(
        "line_drop",
        "pipe",
        "velocity, loss of pressure and of saturation temperature in a line",
        Returns::Record(fields),
        Body::Values(dropped),
    )
    .takes(of_refrigerant())
    .takes(parameter("phase", Accepts::Choice(&["liquid", "vapor"]), "what the line carries"))
    .takes(pick::od())
    .takes(parameter("length", Accepts::unit("m"), "equivalent length").within("0 m", "10000 m"))
    .takes(carried::mass_flow())
    .takes(refrigerant_pressure("pressure", "at the inlet"))
    .takes(pipe_temperature("temperature", "at the inlet"))
    .takes(rise().or("0 m"))
    .takes(
        parameter(
            "viscosity",
            Accepts::unit("uPa·s"),
            "of the refrigerant there; by its published correlation if not given",
        )
        .within("1 uPa·s", "10000 uPa·s")
        .optional(),
    );
    carried::or_capacity(pick::temper_or_wall(function))
        .equation("Δp = f·(L/D)·ρ·v²/2 + ρ·g·rise; f by Colebrook, ε = 1.5 µm; flow = capacity/(h1 − h3); penalty T_sat(p) − T_sat(p − Δp)")
        .source("Darcy and Weisbach; Colebrook (1939); roughness of drawn tube: Moody (1944), from memory")
        .valid("one phase, density of the inlet: up to a loss of a tenth of the pressure")
        .example(
            "line_drop(R-410A, \"vapor\", 7/8 in, 30 m, 0.06027 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s).friction as kPa to 0.1",
            "12.5 kPa",
        )
        .example(
            "line_drop(R-410A, \"vapor\", 7/8 in, 30 m, pressure = 933.18 kPaa, temperature = 13 degC, viscosity = 12.5 uPa·s, capacity = 10 kW, evaporating = 5 degC, condensing = 45 degC, superheat = 8 C°, subcooling = 5 C°).friction as kPa to 0.1",
            "12.5 kPa",
        )
        .caution(LIQUID_FULL)
}

fn dropped(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let (p, t): (Pressure, ThermodynamicTemperature) =
        (given(arguments, "pressure")?, given(arguments, "temperature")?);
    let wanted = if arguments.text("phase")? == "liquid" { Phase::Liquid } else { Phase::Vapor };
    let state = single_phase(r, wanted, p, t)?;
    let tube = pick::tube(arguments)?;
    let (length, mass_flow) = (given(arguments, "length")?, carried::of(arguments)?);
    let viscosity = match maybe(arguments, "viscosity") {
        Some(viscosity) => viscosity,
        None => r
            .viscosity(p, t)
            .map_err(|error| refused(r.designation(), error).with_mend("give `viscosity =` from published data"))?,
    };
    let found = flow(&tube, length, mass_flow, state.density, viscosity);
    let head = friction::static_head(state.density, given(arguments, "rise")?);
    let drop = found.friction + head;
    if drop >= p {
        return Err(Failure::new("the line would lose all of its pressure: it cannot carry this flow so far"));
    }
    let saturation = |p: Pressure| match wanted {
        Phase::Liquid => r.bubble_temperature(p),
        _ => r.dew_temperature(p),
    };
    let penalty = match (saturation(p), saturation(p - drop)) {
        (Ok(before), Ok(after)) => part(before.value - after.value),
        (Err(error), _) | (_, Err(error)) => Err(refused(r.designation(), error)),
    };
    Ok(Value::Record(vec![
        part(found.velocity.value),
        part(found.reynolds.value),
        part(found.friction.value),
        part(head.value),
        part(drop.value),
        penalty,
    ]))
}

/// The state of a line that carries one phase, or what it carries instead.
pub(super) fn single_phase(
    r: Refrigerant,
    wanted: Phase,
    p: Pressure,
    t: ThermodynamicTemperature,
) -> Result<State, Failure> {
    let (phase, state) = r.state(p, t).map_err(|error| refused(r.designation(), error))?;
    if phase == wanted {
        return Ok(state);
    }
    Err(Failure::of("temperature", other_phase(r, phase, wanted, p, t)).with_mend("check both readings"))
}

fn static_head() -> Function {
    Function::new(
        "static_head",
        "pipe",
        "pressure that a rise of liquid costs; a fall gains it",
        Returns::unit("kPa"),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            let liquid = r
                .saturated_liquid_at_temperature(given(arguments, "liquid_temperature")?)
                .map_err(|error| refused(r.designation(), error))?;
            Ok(friction::static_head(liquid.density, given(arguments, "rise")?).value.into())
        }),
    )
    .takes(of_refrigerant())
    .takes(rise())
    .takes(pipe_temperature("liquid_temperature", "of the liquid"))
    .equation("ρ·g·rise, ρ of saturated liquid")
    .source(EOS)
    .valid("a line full of liquid")
    .example("static_head(R-32, 1 m, 40 degC) as kPa to 0.01", "8.76 kPa")
    .caution(LIQUID_FULL)
}

fn liquid_margin() -> Function {
    let fields = vec![
        field("left", Basic::Unit("C°"), "subcooling left at the valve; below nought it flashes"),
        field("flashes", Basic::Flag, "whether gas forms on the way"),
        field("pressure", Basic::Unit("kPaa"), "pressure left at the valve"),
    ];
    Function::new(
        "liquid_margin",
        "pipe",
        "subcooling that is left after a liquid line's rise and friction",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            let refuse = |error| refused(r.designation(), error);
            let t: ThermodynamicTemperature = given(arguments, "liquid_temperature")?;
            let liquid = r.saturated_liquid_at_temperature(t).map_err(refuse)?;
            let head = friction::static_head(liquid.density, given(arguments, "rise")?);
            let friction: Pressure = given(arguments, "friction")?;
            let left: Pressure = given::<uom::si::pressure::Dimension>(arguments, "pressure")? - head - friction;
            if left.value <= 0.0 {
                return Err(Failure::of("rise", "rise and friction take more than all of the pressure"));
            }
            let margin = r.bubble_temperature(left).map_err(refuse)?.value - t.value;
            Ok(Value::Record(vec![part(margin), part(margin < 0.0), part(left.value)]))
        }),
    )
    .takes(of_refrigerant())
    .takes(refrigerant_pressure("pressure", "where the liquid leaves the condenser"))
    .takes(pipe_temperature("liquid_temperature", "of the liquid"))
    .takes(rise())
    .takes(
        parameter("friction", Accepts::unit("kPa"), "loss by friction, by `line_drop`")
            .within("0 kPa", "5000 kPa")
            .or("0 kPa"),
    )
    .equation("T_bubble(p − ρ·g·rise − Δp) − T")
    .source(EOS)
    .valid("heat gained or lost on the way not reckoned with")
    .example("liquid_margin(R-32, 2794.78 kPaa, 40 degC, 0 m).left as C° to 0.1", "5.0 C°")
    .caution(LIQUID_FULL)
}

fn oil_return_velocity() -> Function {
    let function = Function::new(
        "oil_return_velocity",
        "pipe",
        "least velocity of vapor that carries oil up a riser",
        Returns::unit("m/s or fpm"),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            let (p, t) = (given(arguments, "pressure")?, given(arguments, "temperature")?);
            let vapor = single_phase(r, Phase::Vapor, p, t)?;
            let oil: MassDensity =
                maybe(arguments, "oil_density").unwrap_or_else(|| MassDensity::new::<kilogram_per_cubic_meter>(950.0));
            let bore = pick::tube(arguments)?.bore();
            Ok(friction::oil_return_velocity(bore, vapor.density, oil).value.into())
        }),
    )
    .takes(of_refrigerant())
    .takes(pick::od())
    .takes(refrigerant_pressure("pressure", "of the vapor"))
    .takes(pipe_temperature("temperature", "of the vapor"))
    .takes(
        parameter("oil_density", Accepts::unit("kg/m3"), "of the liquid film, rich in oil")
            .within("700 kg/m3", "1300 kg/m3")
            .or("950 kg/m3"),
    );
    pick::temper_or_wall(function)
        .equation("u = 0.7225·√(g·D·(ρ_L − ρ_g)/ρ_g)")
        .source("Jacobs, Scheideman, Kazem & Macken, ASHRAE Transactions 82(2) (1976) 318, from memory")
        .valid("vertical risers; many systems run an oil-return cycle, so advice only. Against the capacity that hangs on it: `riser_turndown`")
        .example("oil_return_velocity(R-410A, 7/8 in, 933.18 kPaa, 13 degC) as m/s to 0.01", "1.66 m/s")
}

fn tube_working_pressure() -> Function {
    let function = Function::new(
        "tube_working_pressure",
        "pipe",
        "pressure above the atmosphere that a copper tube may work at",
        Returns::unit("kPa or psi"),
        Body::Values(|arguments| {
            let tube = pick::tube(arguments)?;
            let t: ThermodynamicTemperature = given(arguments, "temperature")?;
            let brazed = arguments.flag("brazed")?;
            let drawn = arguments.text("temper")? == "drawn" && !brazed;
            let temper = if drawn { Temper::Drawn } else { Temper::Annealed };
            let stress = allowable_stress(temper, t).ok_or_else(|| {
                let asked = said_temperature(t.value);
                Failure::of(
                    "temperature",
                    format!("the stress of copper is tabled to 200 °F (93.3 °C); asked at {asked}"),
                )
            })?;
            Ok(working_pressure(tube.od, tube.wall, given(arguments, "thinner")?, stress).value.into())
        }),
    )
    .takes(pick::od())
    .takes(pipe_temperature("temperature", "of the tube at work; a gas pipe in heating is at 150 to 200 °F"))
    .takes(parameter("brazed", Accepts::One(Basic::Flag), "true: brazed anywhere, and so annealed there").or("true"))
    .takes(
        parameter("thinner", Accepts::unit("%"), "how much thinner the wall may be").within("0 %", "30 %").or("10 %"),
    );
    pick::temper_or_wall(function)
        .equation("P = 2·S·t/(D − 0.8·t), S annealed 6000, 5100, 4900 psi at 100, 150, 200 °F, drawn 10 300 psi")
        .source("Copper Development Association tube handbook, in the form of ASME B31")
        .valid("straight tube; another listed basis may govern: below the test pressure look for that, do not reject")
        .example("tube_working_pressure(3/4 in, 100 degF) as psi to 1", "522 psi")
}
