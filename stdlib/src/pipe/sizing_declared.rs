//! The declarations of sizing: how long a line may be, how far its capacity may fall, how thick its insulation must be.

use dewline_lang::library::{Accepts, Arguments, Basic, Body, Failure, Function, Returns, Value, field, parameter};
use uom::si::f64::{Length, MassDensity, MassRate, Power, Pressure, TemperatureInterval, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;

use super::flow_declared::single_phase;
use super::friction::{self, flow};
use super::insulation::thickness;
use super::{LIQUID_FULL, carried, pick};
use crate::air::moist::{MoistAir, Moisture};
use crate::cycle;
use crate::numeric::bracket::root;
use crate::parameters::{of_refrigerant, pipe_temperature, refrigerant_pressure, temperature_difference};
use crate::refrigerant::Phase;
use crate::refusal::{refrigerant, refused};
use crate::seam::{given, maybe, part, quantity, said_temperature};

/// The functions of sizing.
pub(super) fn functions() -> Vec<Function> {
    vec![largest_length(), riser_turndown(), insulation_needed()]
}

fn largest_length() -> Function {
    let function = Function::new(
        "largest_length",
        "pipe",
        "longest equivalent length that costs no more saturation temperature than allowed",
        Returns::unit("m or ft"),
        Body::Values(longest),
    )
    .takes(of_refrigerant())
    .takes(parameter("phase", Accepts::Choice(&["liquid", "vapor"]), "what the line carries"))
    .takes(pick::od())
    .takes(carried::mass_flow())
    .takes(refrigerant_pressure("pressure", "at the inlet"))
    .takes(pipe_temperature("temperature", "at the inlet"))
    .takes(
        parameter("penalty", Accepts::unit("C°"), "saturation temperature that may be lost")
            .within("0.01 C°", "20 C°")
            .or("1 C°"),
    )
    .takes(
        parameter("rise", Accepts::unit("m"), "rise along the flow; a fall is below nought")
            .within("-500 m", "500 m")
            .or("0 m"),
    )
    .takes(
        parameter("viscosity", Accepts::unit("uPa·s"), "there; by its published correlation if not given")
            .within("1 uPa·s", "10000 uPa·s")
            .optional(),
    );
    carried::or_capacity(pick::temper_or_wall(function))
        .equation("L where T_sat(p) − T_sat(p − f·(L/D)·ρ·v²/2 − ρ·g·rise) = penalty")
        .source("as `line_drop`; 1 K for suction lines: ASHRAE Handbook—Refrigeration, chapter 1, from memory")
        .valid("one phase, density of the inlet; the unit's own limits of length come first")
        .example(
            "largest_length(R-410A, \"vapor\", 7/8 in, 0.06027 kg/s, 933.18 kPaa, 13 degC, penalty = 0.44 C°, viscosity = 12.5 uPa·s) as m to 1",
            "30 m",
        )
        .caution(LIQUID_FULL)
}

fn longest(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let refuse = |error| refused(r.designation(), error);
    let (p, t): (Pressure, ThermodynamicTemperature) =
        (given(arguments, "pressure")?, given(arguments, "temperature")?);
    let wanted = if arguments.text("phase")? == "liquid" { Phase::Liquid } else { Phase::Vapor };
    let state = single_phase(r, wanted, p, t)?;
    let viscosity = match maybe(arguments, "viscosity") {
        Some(viscosity) => viscosity,
        None => r.viscosity(p, t).map_err(|error| refuse(error).with_mend("give `viscosity =` from published data"))?,
    };
    let metre = Length::new::<meter>(1.0);
    let each = flow(&pick::tube(arguments)?, metre, carried::of(arguments)?, state.density, viscosity).friction;
    let saturation = |p: Pressure| match wanted {
        Phase::Liquid => r.bubble_temperature(p),
        _ => r.dew_temperature(p),
    };
    let here = saturation(p).map_err(refuse)?.value;
    let allowed = here - arguments.number("penalty")?;
    let range = if wanted == Phase::Liquid { r.bubble_range() } else { r.dew_range() };
    let least = range.lowest_pressure.value.max(p.value * 1e-3);
    let most =
        root(least, p.value, |left| Some(saturation(quantity(left)).ok()?.value - allowed)).ok_or_else(|| {
            let message = format!(
                "saturation of {} is known down to {} only: so much lower it cannot be followed",
                r.designation(),
                said_temperature(range.lowest_temperature.value)
            );
            Failure::of("penalty", message)
        })?;
    let friction = p.value - most - friction::static_head(state.density, given(arguments, "rise")?).value;
    if friction <= 0.0 {
        return Err(Failure::of("rise", "the rise alone costs more than is allowed: no length does"));
    }
    Ok((friction / each.value).into())
}

const OIL_RISES: &str = "oil rises down to this share";
const NO_OIL_RISES: &str = "no oil rises even at full capacity";

fn riser_turndown() -> Function {
    let fields = vec![
        field(
            "share",
            Basic::Unit("%"),
            "least share of the capacity at which oil still rises; above 100 % it never does",
        ),
        field("velocity", Basic::Unit("m/s or fpm"), "at full capacity"),
        field("least_velocity", Basic::Unit("m/s or fpm"), "that carries oil"),
        field("verdict", Basic::OneOf(&[OIL_RISES, NO_OIL_RISES]), "whether oil rises at all"),
    ];
    let function = Function::new(
        "riser_turndown",
        "pipe",
        "least share of a riser's capacity that still returns oil",
        Returns::Record(fields),
        Body::Values(turned_down),
    )
    .takes(of_refrigerant())
    .takes(pick::od())
    .takes(
        parameter("capacity_full", Accepts::unit("kW"), "cooling capacity that hangs on the riser")
            .within("0.01 kW", "100000 kW"),
    )
    .takes(pipe_temperature("evaporating", "dew temperature in the riser"))
    .takes(pipe_temperature("condensing", "bubble temperature in the condenser"))
    .takes(temperature_difference("superheat", "of the vapor in the riser"))
    .takes(temperature_difference("subcooling", "of the liquid before the valves"))
    .takes(
        parameter("oil_density", Accepts::unit("kg/m3"), "of the liquid film, rich in oil")
            .within("700 kg/m3", "1300 kg/m3")
            .or("950 kg/m3"),
    );
    pick::temper_or_wall(function)
        .equation("u_min/u, u_min = 0.7225·√(g·D·(ρ_L − ρ_g)/ρ_g), u = q/(h1 − h3)/(ρ_g·area)")
        .source("Jacobs, Scheideman, Kazem & Macken, ASHRAE Transactions 82(2) (1976) 318, from memory")
        .valid("vertical riser, one evaporating temperature; advice only: many systems run an oil-return cycle")
        .example("riser_turndown(R-410A, 7/8 in, 10 kW, 5 degC, 45 degC, 8 C°, 5 C°).share as % to 1", "29 %")
}

fn turned_down(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let refuse = |error| refused(r.designation(), error);
    let evaporating: ThermodynamicTemperature = given(arguments, "evaporating")?;
    let superheat: TemperatureInterval = given(arguments, "superheat")?;
    let cycle = cycle::of(arguments)?;
    let vapor = if superheat.value > 0.0 {
        r.state(cycle.suction, quantity(evaporating.value + superheat.value)).map_err(refuse)?.1
    } else {
        r.saturated_vapor_at_pressure(cycle.suction).map_err(refuse)?
    };
    let capacity: Power = given(arguments, "capacity_full")?;
    let mass_flow: MassRate = capacity / cycle.cooling_effect();
    let tube = pick::tube(arguments)?;
    let velocity = mass_flow / (vapor.density * tube.bore_area());
    let oil: MassDensity =
        maybe(arguments, "oil_density").unwrap_or_else(|| MassDensity::new::<kilogram_per_cubic_meter>(950.0));
    let least = friction::oil_return_velocity(tube.bore(), vapor.density, oil);
    let share = least.value / velocity.value;
    let verdict = if share <= 1.0 { OIL_RISES } else { NO_OIL_RISES };
    Ok(Value::Record(vec![part(share), part(velocity.value), part(least.value), part(verdict)]))
}

fn insulation_needed() -> Function {
    Function::new(
        "insulation_needed",
        "pipe",
        "thickness of insulation at which its surface stays above the dew point",
        Returns::unit("mm or in"),
        Body::Values(|arguments| {
            let (line, air): (ThermodynamicTemperature, ThermodynamicTemperature) =
                (given(arguments, "line_temperature")?, given(arguments, "air")?);
            let atmosphere: Pressure = quantity(arguments.context.atmosphere);
            let moist = MoistAir::new(air, Moisture::Relative(given(arguments, "relative_humidity")?), atmosphere);
            let dew = moist.ok().and_then(|air| air.dew_point()).ok_or_else(|| {
                Failure::of("relative_humidity", "there is no such air, or it has no dew point")
            })?;
            let (od, k, h) =
                (given(arguments, "od")?, given(arguments, "conductivity")?, given(arguments, "film")?);
            match thickness(od, k, h, line, air, dew) {
                None => Ok(0.0.into()),
                Some(Some(layer)) => Ok(layer.value.into()),
                Some(None) => Err(Failure::of(
                    "relative_humidity",
                    format!("half a metre would not keep it dry: the dew point is {}", said_temperature(dew.value)),
                )
                .with_mend("dry the air, or keep the line out of it")),
            }
        }),
    )
    .takes(pick::od())
    .takes(parameter("conductivity", Accepts::unit("W/(m·K)"), "of the insulation, at its mean temperature").within("0.01 W/(m·K)", "1 W/(m·K)"))
    .takes(pipe_temperature("line_temperature", "of the pipe at its coldest"))
    .takes(parameter("air", Accepts::unit("degC"), "temperature of the air about it").within("-40 degC", "80 degC"))
    .takes(parameter("relative_humidity", Accepts::unit("%"), "of that air, at its most").within("1 %", "100 %"))
    .takes(parameter("film", Accepts::unit("W/(m2·K)"), "heat transfer at the surface, radiation with it").within("1 W/(m2·K)", "50 W/(m2·K)").or("8 W/(m2·K)"))
    .equation("k·(T_dew − T_line)/ln(r2/r1) = r2·h·(T_air − T_dew)")
    .source("conduction through a cylinder; form of ISO 12241, from memory; dew point by ASHRAE Fundamentals, chapter 1")
    .valid("still air, dry insulation, seams closed; nought where the pipe is above the dew point. No thickness for energy")
    .example("insulation_needed(22.2 mm, 0.036 W/(m·K), 5 degC, 27 degC, 75 %) as mm to 0.1", "11.5 mm")
}
