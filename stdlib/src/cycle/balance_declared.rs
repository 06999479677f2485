//! The declarations of the refrigerant's own capacity, and of how it agrees with the air's.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, maybe_field, parameter,
};
use uom::si::f64::{MassDensity, MassRate, Power, ThermodynamicTemperature, Volume, VolumeRate};

use super::declared::{EOS, cycle, temperature};
use crate::cautions::SETTLED;
use crate::parameters::{of_refrigerant, temperature_difference};
use crate::refusal::{refrigerant, refused};
use crate::seam::{given, part, quantity};

/// The functions of balances.
pub(super) fn functions() -> Vec<Function> {
    vec![refrigerant_capacity(), heat_balance(), carnot_performance(), volumetric_efficiency()]
}

fn refrigerant_capacity() -> Function {
    let fields = vec![
        field("capacity", Basic::Unit("kW or Btu/h"), "cooling capacity"),
        field("mass_flow", Basic::Unit("kg/h or lb/h"), "flow of refrigerant"),
        field("density", Basic::Unit("kg/m3"), "of the vapor drawn"),
    ];
    Function::new(
        "refrigerant_capacity",
        "cycle",
        "cooling capacity by the compressor's displacement and the state of the refrigerant",
        Returns::Record(fields),
        Body::Values(by_displacement),
    )
    .takes(of_refrigerant())
    .takes(
        parameter("displacement", Accepts::unit("cm3"), "of a turn, from the unit's own document")
            .within("0.1 cm3", "100000 cm3"),
    )
    .takes(parameter("speed", Accepts::unit("1/min"), "turns in a time").within("60 1/min", "15000 1/min"))
    .takes(share("volumetric", "volumetric efficiency: flow drawn over displacement"))
    .takes(temperature("evaporating", "dew temperature in the evaporator"))
    .takes(temperature("condensing", "bubble temperature in the condenser"))
    .takes(temperature_difference("superheat", "of the vapor that the compressor draws"))
    .takes(temperature_difference("subcooling", "of the liquid before the valve"))
    .equation("q = η_v·V·n·ρ1·(h1 − h3)")
    .source(EOS)
    .valid("no injection; as sure as the volumetric efficiency: 0.85 to 0.95 is common practice, no source")
    .example(
        "refrigerant_capacity(R-32, 42 cm3, 3600 1/min, 0.9, 5 degC, 45 degC, 8 C°, 5 C°).capacity as kW to 0.1",
        "13.9 kW",
    )
    .caution(SETTLED)
}

fn share(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::One(Basic::Number), about).within("0.3", "1")
}

fn by_displacement(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let found = cycle(arguments, 1.0)?;
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let evaporating: ThermodynamicTemperature = given(arguments, "evaporating")?;
    let superheat = arguments.number("superheat")?;
    let refuse = |error| refused(r.designation(), error);
    let density: MassDensity = if superheat > 0.0 {
        r.state(found.suction, quantity(evaporating.value + superheat)).map_err(refuse)?.1.density
    } else {
        r.saturated_vapor_at_pressure(found.suction).map_err(refuse)?.density
    };
    let displacement: Volume = given(arguments, "displacement")?;
    // A speed in 1/min is a frequency; a turn is counted as one.
    let drawn: VolumeRate = quantity(displacement.value * arguments.number("speed")? * arguments.number("volumetric")?);
    let flow: MassRate = drawn * density;
    let capacity: Power = flow * found.cooling_effect();
    Ok(Value::Record(vec![part(capacity.value), part(flow.value), part(density.value)]))
}

fn heat_balance() -> Function {
    let fields = vec![
        field("verdict", Basic::OneOf(&["agree", "disagree", "indistinguishable"]), "whether the two agree"),
        field("apart", Basic::Unit("%"), "air side less refrigerant side, as a share of their mean"),
        field("expected", Basic::Unit("kW or Btu/h"), "what the air should carry by the refrigerant side"),
        maybe_field("performance", Basic::Number, "heat on the air's side over power"),
        field("missed", Basic::Unit("%"), "the smallest disagreement that would surely have been called"),
    ];
    let power = |name, about| parameter(name, Accepts::unit("kW"), about).within("0 kW", "100000 kW");
    Function::new(
        "heat_balance",
        "cycle",
        "whether the air's side and the refrigerant's side of a system agree",
        Returns::Record(fields),
        Body::Values(balanced),
    )
    .takes(power("air", "heat taken from (cooling) or given to (heating) the air, by `coil_capacity`"))
    .takes(power("refrigerant", "cooling capacity by `refrigerant_capacity`"))
    .takes(power("power", "that the compressor takes"))
    .takes(parameter("mode", Accepts::Choice(&["cooling", "heating"]), "on which side the air is").or("\"cooling\""))
    .takes(parameter("within", Accepts::unit("%"), "how far apart they may be").within("1 %", "50 %").or("15 %"))
    .takes(
        parameter("uncertainty", Accepts::unit("%"), "expanded uncertainty of the two together")
            .within("0 %", "50 %")
            .or("10 %"),
    )
    .equation("cooling: air = refrigerant; heating: air = refrigerant + power; decided with the uncertainty")
    .source("first law; 15 %: common practice, no source; decision: JCGM 106:2012")
    .valid("steady, all units' air counted, heat lost by the compressor and lines within the uncertainty")
    .example("heat_balance(13.6 kW, 14.2 kW, 3.8 kW).verdict", "agree")
    .caution(SETTLED)
}

fn balanced(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let [air, refrigerant, power, within, uncertainty] = ["air", "refrigerant", "power", "within", "uncertainty"]
        .map(|name| arguments.maybe_number(name).unwrap_or(0.0));
    let expected = if arguments.text("mode")? == "heating" { refrigerant + power } else { refrigerant };
    let mean = f64::midpoint(air, expected);
    if mean <= 0.0 {
        return Err(Failure::of("air", "neither side carries any heat: there is nothing to compare"));
    }
    let apart = (air - expected) / mean;
    let verdict = match apart.abs() {
        apart if apart + uncertainty <= within => "agree",
        apart if apart - uncertainty > within => "disagree",
        _ => "indistinguishable",
    };
    let performance = if power > 0.0 { part(air / power) } else { Err(Failure::new("no power was given")) };
    Ok(Value::Record(vec![part(verdict), part(apart), part(expected), performance, part(within + uncertainty)]))
}

fn carnot_performance() -> Function {
    Function::new(
        "carnot_performance",
        "cycle",
        "the best that any machine could do in cooling between two temperatures",
        Returns::One(Basic::Number),
        Body::Values(|arguments| {
            let (cold, hot): (ThermodynamicTemperature, ThermodynamicTemperature) =
                (given(arguments, "evaporating")?, given(arguments, "condensing")?);
            if hot <= cold {
                return Err(Failure::of("condensing", "it is not above the evaporating temperature: swapped?"));
            }
            Ok(super::vapor::carnot(cold, hot).into())
        }),
    )
    .takes(temperature("evaporating", "the cold side"))
    .takes(temperature("condensing", "the hot side"))
    .equation("T_cold/(T_hot − T_cold), kelvin; heating one more")
    .source("second law")
    .valid("any two temperatures")
    .example("round(carnot_performance(5 degC, 45 degC), 0.001)", "6.954")
}

fn volumetric_efficiency() -> Function {
    let number = |name, about| parameter(name, Accepts::One(Basic::Number), about);
    Function::new(
        "volumetric_efficiency",
        "cycle",
        "share of its displacement that a compressor with clearance draws",
        Returns::One(Basic::Number),
        Body::Numbers(|numbers| {
            let [clearance, ratio, exponent] = crate::seam::all(numbers)?;
            let drawn = 1.0 + clearance - clearance * libm::pow(ratio, 1.0 / exponent);
            if drawn <= 0.0 {
                return Err(Failure::of("ratio", "at this ratio the gas of the clearance fills the whole stroke"));
            }
            Ok(drawn)
        }),
    )
    .takes(number("clearance", "clearance over displacement").within("0", "0.2"))
    .takes(number("ratio", "compression ratio, absolute: `compression_ratio`").within("1", "20"))
    .takes(number("exponent", "of the expansion in the clearance").within("1", "1.67"))
    .equation("1 + c − c·r^(1/n)")
    .source("textbook of thermodynamics; no leaks, no heating of the suction gas")
    .valid("piston compressors; others have no clearance of note: take a figure of the unit's own document")
    .example("round(volumetric_efficiency(0.04, 3, 1.15), 0.00001)", "0.93602")
}
