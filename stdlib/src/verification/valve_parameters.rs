//! What `valve_reading` and `one_valve_reading` are both told, and what both say.

use dewline_lang::library::{Accepts, Basic, Field, Function, Parameter, field, maybe_field, parameter};

use super::valve::Verdict;
use crate::cautions::{LIKELY, SETTLED};

/// Makes a parameter of a quantity by its name, unit and description: of one unit, or of all units of a table.
pub(super) type OfQuantity = fn(&'static str, &'static str, &'static str) -> Parameter;
/// The same of a flag.
pub(super) type OfFlag = fn(&'static str, &'static str) -> Parameter;

/// What holds for the system.
pub(super) fn of_system(function: Function) -> Function {
    function
        .takes(parameter("mode", Accepts::Choice(&["cooling", "heating"]), "what the system does"))
        .takes(parameter(
            "system",
            Accepts::One(Basic::Text),
            "verdict of `system_reading`, in heating of `system_reading_heating`: it goes before any valve",
        ))
        .takes(
            parameter("saturation", Accepts::unit("degC"), "evaporating (cooling) or condensing (heating) temperature")
                .within("-60 degC", "100 degC"),
        )
}

/// What is read of a unit.
pub(super) fn of_unit(function: Function, quantity: OfQuantity, flag: OfFlag) -> Function {
    let pipe = |name, about| quantity(name, "degC", about).within("-60 degC", "150 degC");
    function
        .takes(flag("calling", "true: the unit calls"))
        .takes(quantity("opening", "%", "commanded opening, of full travel").within("0 %", "100 %"))
        .takes(
            quantity("since_change", "min", "since mode, set point or fan was changed").within("0 min", "100000 min"),
        )
        .takes(pipe("liquid_pipe", "sensor where liquid enters in cooling"))
        .takes(pipe("gas_pipe", "sensor where vapor leaves in cooling"))
        .takes(pipe("air_in", "air on"))
        .takes(pipe("air_out", "air off").optional())
        .takes(
            flag(
                "other_way",
                "true: it was told to run the other way than `mode`, in a system that cools and heats at once",
            )
            .optional(),
        )
        .takes(flag("fan", "true: its airflow was proven; false: known to be short").optional())
        .takes(flag("answered", "whether it answered a step of the opening").optional())
        .takes(flag("resistance", "whether the resistance of the valve's coils is right").optional())
        .takes(pipe("hand_gas", "a probe on the gas pipe").optional())
        .takes(flag("room_rises", "heating: the room of a resting unit gets warmer").optional())
        .takes(
            quantity("line_drop", "C°", "fall of saturation temperature between coil and outdoor unit, by `line_drop`")
                .within("0 C°", "20 C°")
                .optional(),
        )
}

/// Where signs begin, and how well readings are known.
pub(super) fn settings(function: Function) -> Function {
    let share = |name, about| parameter(name, Accepts::unit("%"), about);
    function
        .takes(kelvin("glide", "0 C°", "of a blend from the coil's inlet to its dew line"))
        .takes(
            parameter("mapped", Accepts::One(Basic::Flag), "true: `response_map` found every unit its own").or("false"),
        )
        .takes(kelvin("pipe_uncertainty", "1 C°", "expanded uncertainty of a difference of two pipe sensors"))
        .takes(kelvin("air_uncertainty", "1 C°", "expanded uncertainty of a difference of two air sensors"))
        .takes(
            parameter("settle", Accepts::unit("min"), "until a unit has settled")
                .within("1 min", "600 min")
                .or("10 min"),
        )
        .takes(kelvin("flooding", "2 C°", "superheat below which a coil floods, before the uncertainty"))
        .takes(kelvin("starving", "11 C°", "superheat above which it starves, before the uncertainty"))
        .takes(share("wide", "opening from which a controller is at its end").within("50 %", "100 %").or("85 %"))
        .takes(share("low", "opening up to which it is at its low end").within("1 %", "40 %").or("15 %"))
}

/// What both say of themselves.
pub(super) fn documented(function: Function) -> Function {
    function
        .equation(
            "signs: pipe pair against saturation; air pair against the peers'; commanded opening; answer to a step; coils; a \
             probe. A sign counts beyond its limit by its uncertainty; a valve is named on two that share no sensor",
        )
        .source("our own rule, tested by simulation (SIMULATIONS.md), which tells verdicts by cause and strength of the signal")
        .valid(
            "settled, one mode for the system, peers that work; openings of different sizes are not compared. With three \
             peers or fewer, or without `air_out`, nothing is named but what else agrees",
        )
        .caution(SETTLED)
        .caution(LIKELY)
}

/// What both give of a unit.
pub(super) fn fields() -> Vec<Field> {
    vec![
        field("verdict", Basic::OneOf(Verdict::WORDS), "what the unit looks like"),
        field("named", Basic::Flag, "true: a valve or its branch is named"),
        field("signs", Basic::Text, "what was read, in words"),
        field("next", Basic::Text, "what to do or read next"),
        maybe_field("superheat", Basic::Unit("C°"), "of the coil in cooling"),
        maybe_field("subcooling", Basic::Unit("C°"), "of the coil in heating"),
        maybe_field("air_change", Basic::Unit("C°"), "of the air across the coil, above nought as it should be"),
        field("missed", Basic::Text, "the smallest fault that would have been seen"),
    ]
}

fn kelvin(name: &'static str, default: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("C°"), about).within("0 C°", "30 C°").or(default)
}
