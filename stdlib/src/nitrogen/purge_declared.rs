//! The declarations of purge and branch functions.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, maybe_field, parameter,
};
use uom::si::f64::{Pressure, Time, Volume, VolumeRate};

use super::branch;
use super::declared::{COMMAND, NITROGEN, gas, gas_name, room_temperature, volume};
use super::purge::{Flame, after_cycles, flame, sweep_times};
use super::stored::held;
use crate::refusal::refused;
use crate::seam::{given, maybe, part};

/// The functions of purging.
pub(super) fn functions() -> Vec<Function> {
    vec![sweep_purge(), dilution_purge(), open_branch(), valve_state()]
}

fn residual() -> Parameter {
    parameter("residual", Accepts::unit("%"), "share of oxygen to reach").within("0.0001 %", "20 %").or("0.1 %")
}

fn sweep_purge() -> Function {
    let fields = vec![
        field("shortest", Basic::Unit("min"), "if the gas goes through as a plug: one volume"),
        field("longest", Basic::Unit("min"), "if it mixes all the way: plan with this"),
        field("gas", Basic::Unit("L or ft3"), "gas used in the longest time, as the meter counts it"),
        field("volumes", Basic::Number, "changes of volume in the longest time"),
        maybe_field("flame", Basic::OneOf(Flame::WORDS), "how the flame stood to the flow"),
        maybe_field("enough", Basic::Flag, "true: the flame was `covered`"),
    ];
    Function::new(
        "sweep_purge",
        "nitrogen",
        "how long a steady flow of nitrogen takes to drive the oxygen out of a pipe",
        Returns::Record(fields),
        Body::Values(swept),
    )
    .takes(volume())
    .takes(
        parameter("flow", Accepts::unit("L/min"), "flow by a tube meter, at the meter's own pressure")
            .within("0.05 L/min", "2000 L/min"),
    )
    .takes(residual())
    .takes(since_flow("time_flame", "from flow started to flame lit"))
    .takes(since_flow("time_cool", "from flow started until the joint was cool, below some 200 °C"))
    .takes(since_flow("time_flow", "from flow started to flow ended"))
    .equation(
        "plug: t = V/q; mixed: t = V/q·ln(20.95 %/residual). The flame is covered if it was lit after the longest time and \
         the flow went on until the joint was cool; lit between shortest and longest it may have met air",
    )
    .source("mass balance; residuals of 1 % (acceptable) and 0.1 % (clean bore) are common practice, no source")
    .valid("an open end to vent from; an open hose at the inlet draws air in: seal it. Headers and branches mix")
    .example("sweep_purge(4.682 L, 5 ft3/h, residual = 0.0191 %).longest as min to 0.1", "13.9 min")
    .example("sweep_purge(4.682 L, 5 ft3/h, time_flame = 15 min, time_cool = 40 min, time_flow = 30 min).flame", "flow ended on a hot joint")
    .caution(NITROGEN)
}

fn since_flow(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("min"), about).within("0 min", "10000 min").optional()
}

fn swept(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let (volume, flow): (Volume, VolumeRate) = (given(arguments, "volume")?, given(arguments, "flow")?);
    let residual = arguments.number("residual")?;
    let (shortest, longest): (Time, Time) = sweep_times(volume, flow, residual);
    let (lit, cool, ended) =
        (maybe(arguments, "time_flame"), maybe(arguments, "time_cool"), maybe(arguments, "time_flow"));
    if lit.zip(cool).is_some_and(|(lit, cool): (Time, Time)| cool < lit) {
        return Err(Failure::of(
            "time_cool",
            "the joint is cool before the flame is lit: all times count from the flow's start",
        ));
    }
    let found = lit.map(|lit| flame((shortest, longest), lit, cool, ended));
    let needs = || Failure::new("it needs `time_flame`");
    Ok(Value::Record(vec![
        part(shortest.value),
        part(longest.value),
        part((flow * longest).value),
        part(longest.value / shortest.value),
        found.map(|flame| Value::from(flame.name())).ok_or_else(needs),
        found.map(|flame| Value::from(flame == Flame::Covered)).ok_or_else(needs),
    ]))
}

fn dilution_purge() -> Function {
    let fields = vec![
        field("oxygen", Basic::Unit("%"), "share of oxygen that is left"),
        field("gas", Basic::Unit("kg"), "nitrogen used"),
    ];
    Function::new(
        "dilution_purge",
        "nitrogen",
        "oxygen left, and nitrogen used, after filling and letting down some times",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let (high, low): (Pressure, Pressure) = (given(arguments, "filled_to")?, given(arguments, "let_down_to")?);
            if high <= low {
                return Err(Failure::of("filled_to", "it is not filled above the pressure that it is let down to"));
            }
            let (gas, cycles) = (gas(arguments)?, arguments.number("cycles")?);
            let (volume, t) = (given(arguments, "volume")?, given(arguments, "temperature")?);
            let refuse = |error| refused(gas_name(arguments), error);
            let used = held(gas, volume, high, t).map_err(refuse)? - held(gas, volume, low, t).map_err(refuse)?;
            Ok(Value::Record(vec![part(after_cycles(high, low, cycles)), part(cycles * used.value)]))
        }),
    )
    .takes(volume())
    .takes(parameter("filled_to", Accepts::unit("kPaa"), "pressure of each fill").within("50 kPaa", "5000 kPaa"))
    .takes(
        parameter("let_down_to", Accepts::unit("kPaa"), "pressure of each letting down").within("50 kPaa", "5000 kPaa"),
    )
    .takes(parameter("cycles", Accepts::One(Basic::Number), "how many times").within("1", "30"))
    .takes(gas_parameter())
    .takes(room_temperature())
    .equation("20.95 %·(p_low/p_high)^n, absolute; n·V·(ρ(p_high) − ρ(p_low))")
    .source("mass balance; density by Span and others, J. Phys. Chem. Ref. Data 29 (2000) 1361")
    .valid("gas that mixes; dead ends must breathe in each cycle, so shut valves defeat it")
    .example("dilution_purge(25 L, 401.325 kPaa, 101.325 kPaa, 3).oxygen as % to 0.001", "0.337 %")
    .caution(NITROGEN)
}

/// The gas, nitrogen unless said.
pub(super) fn gas_parameter() -> Parameter {
    parameter("gas", Accepts::One(Basic::Gas), "`nitrogen`").optional()
}

fn open_branch() -> Function {
    let flow = |name, about| parameter(name, Accepts::unit("L/min"), about).within("0 L/min", "2000 L/min");
    Function::new(
        "open_branch",
        "nitrogen",
        "whether a branch passes gas, by what goes in and what comes out",
        Returns::One(Basic::OneOf(branch::Branch::WORDS)),
        Body::Values(|arguments| {
            let (inlet, outlet) = (arguments.number("inlet_flow")?, arguments.number("outlet_flow")?);
            let resolution = arguments.number("resolution")?;
            Ok(branch::by_flow(inlet, outlet, resolution, arguments.flag("other_outlets_capped")?).name().into())
        }),
    )
    .takes(flow("inlet_flow", "flow into the pipes"))
    .takes(flow("outlet_flow", "flow out of this branch"))
    .takes(parameter("other_outlets_capped", Accepts::One(Basic::Flag), "true: every other end is capped"))
    .takes(flow("resolution", "least flow that the meters can tell").or("0.5 L/min"))
    .equation("open: outlet ≥ 70 % of inlet and > 3·resolution; blocked: outlet < 10 %; else undecided")
    .source("common practice, no source")
    .valid("steady flow; undecided counts as blocked: cap the other ends and read again")
    .example("open_branch(10 L/min, 8 L/min, true)", "open")
    .example("open_branch(10 L/min, 0 L/min, true)", "blocked")
    .caution(NITROGEN)
    .caution(COMMAND)
}

fn valve_state() -> Function {
    let flag = |name, about| parameter(name, Accepts::One(Basic::Flag), about);
    Function::new(
        "valve_state",
        "nitrogen",
        "what an expansion valve is before charging; `unknown` counts as shut",
        Returns::One(Basic::OneOf(branch::Valve::WORDS)),
        Body::Values(|arguments| {
            let delivered_open = arguments.text("delivered")? == "open";
            let [powered, held, confirmed] =
                ["powered_ever", "held_open", "confirmed"].map(|name| arguments.flag(name));
            Ok(branch::valve(powered?, held?, confirmed?, delivered_open).name().into())
        }),
    )
    .takes(flag("powered_ever", "true: the unit has had power since it left the factory"))
    .takes(flag("held_open", "true: a service mode holds its valve open now"))
    .takes(flag("confirmed", "true: flow through it was measured"))
    .takes(parameter("delivered", Accepts::Choice(&["open", "shut"]), "as delivered, from the unit's own document"))
    .equation("never powered: as delivered; powered and not held: shut; held and confirmed by flow: open; else unknown")
    .source("common practice, no source")
    .valid("pulse-driven valves that run to their closed stop when power comes on")
    .example("valve_state(powered_ever = true, held_open = true, confirmed = false, delivered = \"open\")", "unknown")
    .caution(COMMAND)
}
