//! The declarations of what gas in cylinders and systems is.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, parameter,
};
use uom::si::f64::{Mass, Pressure, ThermodynamicTemperature, Volume};

use super::declared::{COMMAND, NITROGEN, gas, gas_name, room_temperature, volume};
use super::purge::oxygen_in_room;
use super::purge_declared::gas_parameter;
use super::stored::{as_tnt, at_15_c_and_1_bar, burst_energy, held};
use crate::refusal::refused;
use crate::seam::{given, maybe, part, quantity, said_pressure};

const SPAN: &str = "Span, Lemmon, Jacobsen, Wagner & Yokozeki, J. Phys. Chem. Ref. Data 29 (2000) 1361";

/// The functions of stored gas.
pub(super) fn functions() -> Vec<Function> {
    vec![
        cylinder(),
        gas_needed(),
        nitrogen_usable(),
        volume_by_fill(),
        volume_check(),
        stored_energy(),
        oxygen_after_release(),
    ]
}

fn pressure(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("kPaa"), about).within("10 kPaa", "35000 kPaa")
}

fn water_volume(about: &'static str) -> Parameter {
    parameter("cylinder_volume", Accepts::unit("L"), about).within("0.1 L", "1000 L")
}

/// Mass in a volume, with refusals in words.
fn mass(arguments: &Arguments<'_>, volume: Volume, p: Pressure, t: ThermodynamicTemperature) -> Result<Mass, Failure> {
    held(gas(arguments)?, volume, p, t).map_err(|error| refused(gas_name(arguments), error))
}

/// A mass of gas and what it takes at 15 °C and 1 bar.
fn amount(arguments: &Arguments<'_>, mass: Mass) -> Result<Value, Failure> {
    let free = at_15_c_and_1_bar(gas(arguments)?, mass).map_err(|error| refused(gas_name(arguments), error))?;
    Ok(Value::Record(vec![part(mass.value), part(free.value)]))
}

fn amounts() -> Returns {
    Returns::Record(vec![
        field("mass", Basic::Unit("kg"), "mass of gas"),
        field("free_gas", Basic::Unit("m3 or ft3"), "what it takes at 15 °C and 1 bar"),
    ])
}

fn cylinder() -> Function {
    Function::new(
        "cylinder",
        "nitrogen",
        "gas held in a cylinder",
        amounts(),
        Body::Values(|arguments| {
            let (volume, p) = (given(arguments, "cylinder_volume")?, given(arguments, "pressure")?);
            let mass = mass(arguments, volume, p, given(arguments, "temperature")?)?;
            amount(arguments, mass)
        }),
    )
    .takes(water_volume("water volume stamped on the cylinder"))
    .takes(pressure("pressure", "pressure in it"))
    .takes(room_temperature())
    .takes(gas_parameter())
    .equation("m = V·ρ(p, T), real gas: an ideal gas would be 5 % too much at 200 bar")
    .source(SPAN)
    .valid("nitrogen, or helium as a trace gas")
    .example("cylinder(50 L, 20000 kPaa, 15 degC).mass as kg to 0.001", "11.159 kg")
    .caution(NITROGEN)
}

fn gas_needed() -> Function {
    Function::new(
        "gas_needed",
        "nitrogen",
        "gas to bring a system from the site's atmosphere to a test pressure",
        amounts(),
        Body::Values(|arguments| {
            let (volume, t) = (given(arguments, "volume")?, given(arguments, "temperature")?);
            let full = mass(arguments, volume, given(arguments, "test_pressure")?, t)?;
            let empty = mass(arguments, volume, quantity(arguments.context.atmosphere), t)?;
            amount(arguments, full - empty)
        }),
    )
    .takes(volume())
    .takes(pressure("test_pressure", "pressure of the test"))
    .takes(room_temperature())
    .takes(gas_parameter())
    .equation("m = V·(ρ(p_test, T) − ρ(p_atmosphere, T))")
    .source(SPAN)
    .valid("a system full of nitrogen at the site's atmosphere to begin with")
    .example("gas_needed(25 L, 40 barg, 20 degC).mass as kg to 0.001", "1.156 kg")
    .caution(NITROGEN)
}

fn nitrogen_usable() -> Function {
    Function::new(
        "nitrogen_usable",
        "nitrogen",
        "gas that a cylinder can give above a test pressure and 5 bar over it",
        amounts(),
        Body::Values(|arguments| {
            let (volume, t) = (given(arguments, "cylinder_volume")?, given(arguments, "temperature")?);
            let (p, test): (Pressure, Pressure) = (given(arguments, "pressure")?, given(arguments, "test_pressure")?);
            let least = test + quantity(5e5);
            if p <= least {
                let (held, least) = (said_pressure(p.value), said_pressure(least.value));
                let message = format!("at {held} it gives nothing: it must stay above {least}, 5 bar over the test");
                return Err(Failure::of("pressure", message).with_mend("take a fuller cylinder"));
            }
            let usable = mass(arguments, volume, p, t)? - mass(arguments, volume, least, t)?;
            amount(arguments, usable)
        }),
    )
    .takes(water_volume("water volume stamped on the cylinder"))
    .takes(pressure("pressure", "pressure in it"))
    .takes(pressure("test_pressure", "pressure of the test"))
    .takes(room_temperature())
    .takes(gas_parameter())
    .equation("m = V·(ρ(p, T) − ρ(p_test + 5 bar, T))")
    .source(SPAN)
    .valid("at one temperature; 5 bar for the regulator are common practice, no source")
    .example("nitrogen_usable(50 L, 200 barg, 40 barg, 15 degC).mass as kg to 0.01", "8.50 kg")
    .caution(NITROGEN)
}

fn volume_by_fill() -> Function {
    Function::new(
        "volume_by_fill",
        "nitrogen",
        "volume of a system by the gas that went into it",
        Returns::unit("L or ft3"),
        Body::Values(|arguments| {
            let one: Volume = quantity(1.0);
            let t = given(arguments, "temperature")?;
            let full = mass(arguments, one, given(arguments, "end_pressure")?, t)?;
            let empty = mass(arguments, one, given(arguments, "start_pressure")?, t)?;
            let each = (full - empty).value;
            if each <= 0.0 {
                return Err(Failure::of("end_pressure", "the pressure did not rise: nothing was filled"));
            }
            Ok((taken_from_cylinder(arguments)?.value / each).into())
        }),
    )
    .takes(weight("weight_before", "of the cylinder before filling").optional())
    .takes(weight("weight_after", "of the cylinder after filling").optional())
    .takes(pressure("start_pressure", "in the system before"))
    .takes(pressure("end_pressure", "in the system after"))
    .takes(room_temperature())
    .takes(gas_parameter())
    .takes(water_volume("in place of the weights: water volume stamped on the cylinder, with the four that follow").optional())
    .takes(pressure("cylinder_before", "in the cylinder before filling, by its own gauge").optional())
    .takes(pressure("cylinder_after", "in it after filling").optional())
    .takes(cylinder_temperature("warmth_before", "of the cylinder's gas when it was read before").optional())
    .takes(cylinder_temperature("warmth_after", "when it was read after: filling cools it, so wait").optional())
    .one_of(&["weight_before", "cylinder_volume"])
    .equation("V = m/(ρ(p_end, T) − ρ(p_start, T)); m by scale, or V_cylinder·(ρ(p, T) before − ρ(p, T) after), real gas")
    .source(SPAN)
    .valid(
        "by scale 10 g are 0.2 L at 41.5 bar gauge; by the gauge of a 50 L cylinder 1 bar is 1 L, and 10 K of cold that \
         are not told are 8 L too much: prefer the scale",
    )
    .example("volume_by_fill(70.000 kg, 68.844 kg, 0 barg, 40 barg, 20 degC) as L to 0.1", "25.0 L")
    .example(
        "volume_by_fill(start_pressure = 0 barg, end_pressure = 41.5 barg, temperature = 20 degC, cylinder_volume = 50 L, \
         cylinder_before = 200 bara, cylinder_after = 163.7 barg, warmth_before = 20 degC, warmth_after = 20 degC) as L to 1",
        "36 L",
    )
    .caution(NITROGEN)
}

/// What the cylinder gave: by the scale, or by its gauge, its water volume and its temperatures.
fn taken_from_cylinder(arguments: &Arguments<'_>) -> Result<Mass, Failure> {
    const BY_SCALE: &str = "give `weight_before` and `weight_after`";
    const BY_GAUGE: &str =
        "give `cylinder_volume`, `cylinder_before`, `cylinder_after`, `warmth_before` and `warmth_after`";
    const OF_GAUGE: [&str; 4] = ["cylinder_before", "cylinder_after", "warmth_before", "warmth_after"];
    let is_given = |name: &&'static str| arguments.maybe_number(name).is_some();
    if let Some(before) = maybe(arguments, "weight_before") {
        let before: Mass = before;
        if let Some(name) = OF_GAUGE.into_iter().find(is_given) {
            return Err(Failure::of(name, "the scale's way and the gauge's would be mixed").with_mend(BY_SCALE));
        }
        let after: Mass = maybe(arguments, "weight_after")
            .ok_or_else(|| Failure::of("weight_before", "the weight after filling is not given").with_mend(BY_SCALE))?;
        if before <= after {
            return Err(Failure::of("weight_after", "the cylinder did not get lighter: weights swapped?"));
        }
        return Ok(before - after);
    }
    if is_given(&"weight_after") {
        return Err(Failure::of("weight_after", "the scale's way and the gauge's would be mixed").with_mend(BY_GAUGE));
    }
    if let Some(name) = OF_GAUGE.into_iter().find(|name| !is_given(name)) {
        let message = format!("by the cylinder's gauge `{name}` is needed too");
        return Err(Failure::of("cylinder_volume", message).with_mend(BY_GAUGE));
    }
    let volume = given(arguments, "cylinder_volume")?;
    let before = mass(arguments, volume, given(arguments, "cylinder_before")?, given(arguments, "warmth_before")?)?;
    let after = mass(arguments, volume, given(arguments, "cylinder_after")?, given(arguments, "warmth_after")?)?;
    if before <= after {
        return Err(Failure::of("cylinder_after", "by these readings the cylinder lost no gas")
            .with_mend("are they swapped, or are the two temperatures those of the cylinder when each was read?"));
    }
    Ok(before - after)
}

fn cylinder_temperature(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("degC"), about).within("-40 degC", "65 degC")
}

fn weight(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("kg"), about).within("0.1 kg", "500 kg")
}

/// What a filling can say of the volume drawn.
const REACHED: &[&str] = &["all volume reached", "volume missing", "more than drawn", "undecided"];

fn volume_check() -> Function {
    Function::new(
        "volume_check",
        "nitrogen",
        "whether all of the drawn volume was filled",
        Returns::Record(vec![
            field("verdict", Basic::OneOf(REACHED), "whether all of it was reached"),
            field("missing", Basic::Unit("L or ft3"), "drawn less filled"),
        ]),
        Body::Values(|arguments| {
            let (drawn, filled) = (arguments.number("drawn")?, arguments.number("filled")?);
            let (uncertainty, smallest) = (arguments.number("uncertainty")?, arguments.number("smallest_branch")?);
            let missing = drawn - filled;
            let verdict = match missing {
                _ if 2.0 * uncertainty > smallest => "undecided",
                missing if missing > uncertainty => "volume missing",
                missing if missing < -uncertainty => "more than drawn",
                _ => "all volume reached",
            };
            Ok(Value::Record(vec![part(verdict), part(missing)]))
        }),
    )
    .takes(parameter("drawn", Accepts::unit("L"), "volume by the line sheet, coils with it").within("0.1 L", "100000 L"))
    .takes(parameter("filled", Accepts::unit("L"), "volume by `volume_by_fill`").within("0.1 L", "100000 L"))
    .takes(parameter("uncertainty", Accepts::unit("L"), "expanded uncertainty of the difference").within("0.001 L", "10000 L"))
    .takes(
        parameter("smallest_branch", Accepts::unit("L"), "volume of the smallest branch that could be cut off")
            .within("0.01 L", "10000 L"),
    )
    .equation("missing = drawn − filled, against its uncertainty and the smallest branch")
    .source("mass balance; the rule is common practice, no source")
    .valid(
        "finds what is cut off at both ends, or beyond shut valves where one port was used; one shut valve among open ones \
         filled through both mains it does not find: that needs `open_branch`",
    )
    .example("volume_check(40 L, 36 L, uncertainty = 0.5 L, smallest_branch = 2 L).verdict", "volume missing")
    .caution(COMMAND)
}

fn stored_energy() -> Function {
    let fields = vec![
        field("energy", Basic::Unit("kJ or kJ"), "energy set free if it bursts"),
        field("tnt", Basic::Unit("g or g"), "the TNT that sets free as much"),
    ];
    Function::new(
        "stored_energy",
        "nitrogen",
        "energy of gas under test pressure",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let atmosphere = maybe(arguments, "atmosphere").unwrap_or_else(|| quantity(arguments.context.atmosphere));
            let energy = burst_energy(given(arguments, "volume")?, given(arguments, "pressure")?, atmosphere);
            Ok(Value::Record(vec![part(energy.value), part(as_tnt(energy).value)]))
        }),
    )
    .takes(volume())
    .takes(pressure("pressure", "of the test"))
    .takes(
        parameter("atmosphere", Accepts::unit("kPaa"), "around it").within("20 kPaa", "120 kPaa").or_site_atmosphere(),
    )
    .equation("2.5·p·V·(1 − (p_a/p)^0.286), p absolute; 4.267 MJ/kg of TNT")
    .source("ASME PCC-2, article 501, seen second-hand")
    .valid("gas; it gives no safe distance: people away, steps, nothing tightened under pressure")
    .example("stored_energy(25 L, 41.5 barg).energy as kJ to 1", "174 kJ")
    .caution(
        "The energy stored is that of an explosive. Raise in steps, people away, never tighten under pressure, \
              outdoor service valves shut, unrated parts off.",
    )
}

fn oxygen_after_release() -> Function {
    let fields = vec![
        field("mixed", Basic::Unit("%"), "share of oxygen if the gas mixes with the room's air"),
        field("displaced", Basic::Unit("%"), "share if it pushes the air out unmixed"),
        field("safe", Basic::Flag, "false: below 19.5 % in either way"),
    ];
    Function::new(
        "oxygen_after_release",
        "nitrogen",
        "oxygen left in a room after gas was let out into it",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let (mixed, displaced) = oxygen_in_room(given(arguments, "room_volume")?, given(arguments, "gas_volume")?);
            Ok(Value::Record(vec![part(mixed), part(displaced), part(mixed.min(displaced) >= 0.195)]))
        }),
    )
    .takes(parameter("room_volume", Accepts::unit("m3"), "air in the room").within("0.5 m3", "100000 m3"))
    .takes(parameter("gas_volume", Accepts::unit("m3"), "gas let out, as free gas").within("0 m3", "10000 m3"))
    .equation("20.95 %·e^(−V_gas/V_room); 20.95 %·(1 − V_gas/V_room)")
    .source("mass balance; 19.5 %: 29 CFR 1910.146, seen second-hand")
    .valid("no ventilation reckoned with; an oxygen meter decides, not this figure")
    .example("oxygen_after_release(25 m3, 9.5 m3).displaced as % to 0.1", "13.0 %")
    .caution(NITROGEN)
    .caution("Arithmetic, not a permit. Local code and a licensed practitioner decide.")
    .safety()
}
