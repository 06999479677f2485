//! The declaration of `valve_reading`.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, maybe_field, parameter,
};

use super::declared::{flag_at, maybe_numbers, taken};
use super::valve::{Judged, LIMITS, Limits, Mode, Plant, System, Unit, judge};
use crate::cautions::SETTLED;
use crate::seam::part;

const LIKELY: &str = "Likely, not certain: part names are given only on two signs that share no sensor.";

const EXAMPLE: &str = r#"table indoor
  tag   | calling | opening | since | liquid | gas  | air_in | air_out
  text  | flag    | %       | min   | degC   | degC | degC   | degC
  "U01" | true    | 38      | 34    | 9.4    | 13.6 | 25.1   | 14.6
  "U02" | true    | 44      | 34    | 9.6    | 14.1 | 25.6   | 15.0
  "U03" | true    | 31      | 34    | 9.2    | 13.0 | 24.8   | 14.2
  "U04" | true    | 100     | 41    | 8.6    | 24.9 | 25.9   | 23.4
  "U05" | true    | 47      | 34    | 9.7    | 14.6 | 25.3   | 14.9
  found = valve_reading("cooling", "healthy", 8 degC, indoor.calling, indoor.opening, indoor.since, indoor.liquid, indoor.gas, indoor.air_in, indoor.air_out)
end
answer = indoor["U04"].found.verdict"#;

/// What each unit's expansion valve does, as far as its coil tells.
pub(super) fn valve_reading() -> Function {
    let column = |name, unit, about| parameter(name, Accepts::column(unit), about).with_gaps();
    let pipe = |name, about| column(name, "degC", about).within("-60 degC", "150 degC");
    let flags = |name, about| parameter(name, Accepts::column_of(Basic::Flag), about).with_gaps();
    Function::new(
        "valve_reading",
        "verification",
        "what each unit's expansion valve does, told from its coil and its peers",
        Returns::Rows(fields()),
        Body::Values(read),
    )
    .takes(parameter("mode", Accepts::Choice(&["cooling", "heating"]), "what the system does"))
    .takes(parameter("system", Accepts::One(Basic::Text), "verdict of `system_reading`: it goes before any valve"))
    .takes(
        parameter("saturation", Accepts::unit("degC"), "evaporating (cooling) or condensing (heating) temperature")
            .within("-60 degC", "100 degC"),
    )
    .takes(parameter("calling", Accepts::column_of(Basic::Flag), "true: the unit calls"))
    .takes(column("opening", "%", "commanded opening, of full travel").within("0 %", "100 %"))
    .takes(column("since_change", "min", "since mode, set point or fan was changed").within("0 min", "100000 min"))
    .takes(pipe("liquid_pipe", "sensor where liquid enters in cooling"))
    .takes(pipe("gas_pipe", "sensor where vapor leaves in cooling"))
    .takes(pipe("air_in", "air on"))
    .takes(pipe("air_out", "air off").optional())
    .takes(flags("fan", "true: its airflow was proven; false: known to be short").optional())
    .takes(flags("answered", "whether it answered a step of the opening").optional())
    .takes(flags("resistance", "whether the resistance of the valve's coils is right").optional())
    .takes(pipe("hand_gas", "a probe on the gas pipe").optional())
    .takes(flags("room_rises", "heating: the room of a resting unit gets warmer").optional())
    .takes(column("line_drop", "C°", "fall of saturation temperature to the coil, by `line_drop`").within("0 C°", "20 C°").optional())
    .takes(kelvin("glide", "0 C°", "of a blend from the coil's inlet to its dew line"))
    .takes(parameter("mapped", Accepts::One(Basic::Flag), "true: `response_map` found every unit its own").or("false"))
    .takes(kelvin("pipe_uncertainty", "1 C°", "expanded uncertainty of a difference of two pipe sensors"))
    .takes(kelvin("air_uncertainty", "1 C°", "expanded uncertainty of a difference of two air sensors"))
    .takes(parameter("settle", Accepts::unit("min"), "until a unit has settled").within("1 min", "600 min").or("10 min"))
    .takes(kelvin("flooding", "2 C°", "superheat below which a coil floods, before the uncertainty"))
    .takes(kelvin("starving", "11 C°", "superheat above which it starves, before the uncertainty"))
    .takes(parameter("wide", Accepts::unit("%"), "opening from which a controller is at its end").within("50 %", "100 %").or("85 %"))
    .takes(parameter("low", Accepts::unit("%"), "opening up to which it is at its low end").within("1 %", "40 %").or("15 %"))
    .equation(
        "signs: pipe pair against saturation; air pair against the peers'; commanded opening; answer to a step; coils; a probe. \
         A sign counts beyond its limit by its uncertainty; a valve is named on two that share no sensor",
    )
    .source(SOURCE)
    .valid(
        "settled, one mode for the system, peers that work; openings of different sizes are not compared. With three peers or \
         fewer, or without `air_out`, nothing is named but what else agrees",
    )
    .example(EXAMPLE, "starving")
    .caution(SETTLED)
    .caution(LIKELY)
}

const SOURCE: &str = "common practice, no source; how often a name is wrong: simulation, SIMULATIONS.md";

fn kelvin(name: &'static str, default: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("C°"), about).within("0 C°", "30 C°").or(default)
}

fn fields() -> Vec<dewline_lang::library::Field> {
    vec![
        field(
            "verdict",
            Basic::Text,
            "`healthy`, `idle`, `no flow`, `starving`, `passing or stuck open`, `leaking when idle`, `consistent with …`, …",
        ),
        field("named", Basic::Flag, "true: a valve or its branch is named"),
        field("signs", Basic::Text, "what was read, in words"),
        field("next", Basic::Text, "what to do or read next"),
        maybe_field("superheat", Basic::Unit("C°"), "of the coil in cooling"),
        maybe_field("subcooling", Basic::Unit("C°"), "of the coil in heating"),
        maybe_field("air_change", Basic::Unit("C°"), "of the air across the coil, above nought as it should be"),
        field("missed", Basic::Text, "the smallest fault that would have been seen"),
    ]
}

fn read(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let plant = plant(arguments)?;
    let limits = Limits {
        flooding: arguments.number("flooding")?,
        starving: arguments.number("starving")?,
        wide: arguments.number("wide")?,
        low: arguments.number("low")?,
        ..LIMITS
    };
    if limits.flooding + 2.0 * plant.pipes >= limits.starving {
        return Err(Failure::of(
            "pipe_uncertainty",
            "with this uncertainty a flooding coil cannot be told from a starving one",
        ));
    }
    let units = units(arguments)?;
    let rows = judge(&units, &plant, &limits).into_iter().zip(&units).map(|(one, unit)| {
        let lacks = |words: &str| Failure::new(words);
        let (superheat, subcooling) = match plant.mode {
            Mode::Cooling => (one.excess.ok_or_else(|| lacks("a pipe was not read")), Err(lacks("it is in cooling"))),
            Mode::Heating => (Err(lacks("it is in heating")), one.excess.ok_or_else(|| lacks("a pipe was not read"))),
        };
        Ok(Value::Record(vec![
            part(one.verdict.name()),
            part(one.verdict.names_valve()),
            part(signs(&one, unit, plant.mode)),
            part(one.verdict.next()),
            superheat.map(Value::from),
            subcooling.map(Value::from),
            one.air.map(Value::from).ok_or_else(|| lacks("the air was not read on both sides")),
            part(missed(&plant, &limits)),
        ]))
    });
    Ok(Value::Column(rows.collect()))
}

fn plant(arguments: &Arguments<'_>) -> Result<Plant, Failure> {
    Ok(Plant {
        mode: if arguments.text("mode")? == "heating" { Mode::Heating } else { Mode::Cooling },
        system: match arguments.text("system")?.trim() {
            "healthy" => System::Healthy,
            "suction side" => System::SuctionSide,
            _ => System::First,
        },
        saturation: arguments.number("saturation")?,
        glide: arguments.number("glide")?,
        mapped: arguments.flag("mapped")?,
        pipes: arguments.number("pipe_uncertainty")?,
        air: arguments.number("air_uncertainty")?,
        settle: arguments.number("settle")?,
    })
}

fn units(arguments: &Arguments<'_>) -> Result<Vec<Unit>, Failure> {
    let of = |name: &'static str| maybe_numbers(arguments, name);
    let [opening, since, liquid, gas, air_in, air_out, hand, drop] =
        ["opening", "since_change", "liquid_pipe", "gas_pipe", "air_in", "air_out", "hand_gas", "line_drop"].map(of);
    let rows = liquid.map_or(0, <[f64]>::len);
    Ok((0..rows)
        .map(|row| Unit {
            calling: flag_at(arguments, "calling", row).unwrap_or(false),
            opening: taken(opening, row),
            since_change: taken(since, row),
            liquid: taken(liquid, row),
            gas: taken(gas, row),
            air_in: taken(air_in, row),
            air_out: taken(air_out, row),
            fan: flag_at(arguments, "fan", row),
            answered: flag_at(arguments, "answered", row),
            resistance: flag_at(arguments, "resistance", row),
            hand_gas: taken(hand, row),
            room_rises: flag_at(arguments, "room_rises", row),
            line_drop: taken(drop, row).unwrap_or(0.0),
        })
        .collect())
}

fn signs(one: &Judged, unit: &Unit, mode: Mode) -> String {
    let excess = if mode == Mode::Cooling { "superheat" } else { "subcooling" };
    let air = if mode == Mode::Cooling { "air drop" } else { "air rise" };
    let parts = [
        one.excess.map(|kelvin| format!("{excess} {kelvin:.1} K")),
        one.air.map(|kelvin| format!("{air} {kelvin:.1} K")),
        unit.opening.map(|share| format!("opening {:.0} %", 100.0 * share)),
    ];
    let said: Vec<String> = parts.into_iter().flatten().collect();
    if said.is_empty() { "nothing was read".to_string() } else { said.join("; ") }
}

fn missed(plant: &Plant, limits: &Limits) -> String {
    match plant.mode {
        Mode::Cooling => format!(
            "superheat from {:.1} to {:.1} K, or an air drop above half of its peers', hides a fault",
            limits.flooding - plant.pipes,
            limits.starving + plant.pipes
        ),
        Mode::Heating => {
            format!("subcooling from {:.1} to {:.1} K hides a fault", 3.0 - plant.pipes, 19.0 + plant.pipes)
        }
    }
}
