//! The declarations of `valve_reading`, for the units of a table, and `one_valve_reading`, for one beside its peers.

use dewline_lang::library::{
    Accepts, Argument, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, parameter,
};

use uom::si::f64::TemperatureInterval;
use uom::si::ratio::percent;

use super::system::Verdict as Whole;
use super::valve::{Judged, Limits, Mode, Plant, System, Unit, judge};
use super::valve_parameters::{documented, fields, of_system, of_unit, settings};
use crate::rows::{flag_at, maybe_numbers, taken};
use crate::seam::{given, part, quantity, said_difference, said_differences, texts};

const TABLE: &str = r#"table indoor
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

const BESIDE_PEERS: &str = r#"table others
  tag   | calling | opening | since | liquid | gas  | air_in | air_out
  text  | flag    | %       | min   | degC   | degC | degC   | degC
  "U01" | true    | 38      | 34    | 9.4    | 13.6 | 25.1   | 14.6
  "U02" | true    | 44      | 34    | 9.6    | 14.1 | 25.6   | 15.0
  "U03" | true    | 31      | 34    | 9.2    | 13.0 | 24.8   | 14.2
  "U05" | true    | 47      | 34    | 9.7    | 14.6 | 25.3   | 14.9
end
answer = one_valve_reading("cooling", "healthy", 8 degC, true, 100 %, 41 min, 8.6 degC, 24.9 degC, 25.9 degC, 23.4 degC, peers_calling = others.calling, peers_opening = others.opening, peers_since_change = others.since, peers_liquid_pipe = others.liquid, peers_gas_pipe = others.gas, peers_air_in = others.air_in, peers_air_out = others.air_out).verdict"#;

/// What each unit's expansion valve does, as far as its coil tells.
pub(super) fn valve_reading() -> Function {
    let function = Function::new(
        "valve_reading",
        "verification",
        "what each unit's expansion valve does, told from its coil and its peers",
        Returns::Rows(fields()),
        Body::Values(of_table),
    );
    let function = of_unit(of_system(function), column, flags);
    documented(settings(function)).example(TABLE, "starving")
}

/// The same of one unit, with the other units' readings beside it.
pub(super) fn one_valve_reading() -> Function {
    let function = Function::new(
        "one_valve_reading",
        "verification",
        "what one unit's expansion valve does, told from its coil beside the other units of its system",
        Returns::Record(fields()),
        Body::Values(of_one),
    );
    let function = of_unit(
        of_system(function),
        |name, unit, about| parameter(name, Accepts::unit(unit), about),
        |name, about| parameter(name, Accepts::One(Basic::Flag), about),
    );
    let pipe = |name, about| column(name, "degC", about).within("-60 degC", "150 degC").optional();
    let function = function
        .takes(flags("peers_calling", "the other units: which call").optional())
        .takes(column("peers_opening", "%", "their commanded openings").within("0 %", "100 %").optional())
        .takes(
            column("peers_since_change", "min", "since anything was changed").within("0 min", "100000 min").optional(),
        )
        .takes(pipe("peers_liquid_pipe", "their liquid pipes"))
        .takes(pipe("peers_gas_pipe", "their gas pipes"))
        .takes(pipe("peers_air_in", "their air on"))
        .takes(pipe("peers_air_out", "their air off"))
        .takes(parameter("tag", Accepts::One(Basic::Text), "of the unit, if it stands among them").optional())
        .takes(texts("peers_tag", "their tags: the row of `tag` is the unit itself and no peer").optional());
    documented(settings(function)).example(BESIDE_PEERS, "starving")
}

fn column(name: &'static str, unit: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::column(unit), about).with_gaps()
}

fn flags(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::column_of(Basic::Flag), about).with_gaps()
}

fn of_table(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let plant = plant(arguments)?;
    let limits = limits(arguments, &plant)?;
    let rows = arguments.numbers("liquid_pipe")?.len();
    let units: Vec<Unit> = (0..rows)
        .map(|row| unit(|name| taken(maybe_numbers(arguments, name), row), |name| flag_at(arguments, name, row)))
        .collect();
    let judged = judge(&units, &plant, &limits);
    Ok(Value::Column(judged.iter().zip(&units).map(|(one, unit)| Ok(said(one, unit, &plant, &limits))).collect()))
}

fn of_one(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let plant = plant(arguments)?;
    let limits = limits(arguments, &plant)?;
    let own = unit(|name| arguments.maybe_number(name), |name| arguments.flag(name).ok());
    let units: Vec<Unit> = std::iter::once(own).chain(peers(arguments)?).collect();
    let judged = judge(&units, &plant, &limits);
    let first = judged.first().ok_or_else(|| Failure::new("there is no unit"))?;
    Ok(said(first, &own, &plant, &limits))
}

const AIR_OUT: &str = "peers_air_out";

/// The other units; what is known of each reading is under its own name with `peers_` before it.
fn peers(arguments: &Arguments<'_>) -> Result<Vec<Unit>, Failure> {
    const NAMES: [(&str, &str); 6] = [
        ("opening", "peers_opening"),
        ("since_change", "peers_since_change"),
        ("liquid_pipe", "peers_liquid_pipe"),
        ("gas_pipe", "peers_gas_pipe"),
        ("air_in", "peers_air_in"),
        ("air_out", AIR_OUT),
    ];
    let columns = NAMES.map(|(name, of_peers)| (name, maybe_numbers(arguments, of_peers)));
    let Some(rows) = columns.iter().find_map(|(_, column)| *column).map(<[f64]>::len) else { return Ok(Vec::new()) };
    // A peer whose state is not known would count as one that rests, and be no peer at all.
    let lacking = NAMES.iter().zip(&columns).filter(|((_, name), (_, column))| column.is_none() && *name != AIR_OUT);
    let calls = matches!(arguments.get("peers_calling"), Argument::Column(_));
    let lacking: Vec<&str> = lacking.map(|((_, name), _)| *name).chain((!calls).then_some("peers_calling")).collect();
    if !lacking.is_empty() {
        return Err(Failure::new(format!("of the peers it also needs `{}`", lacking.join("`, `"))));
    }
    let tag = arguments.text("tag").ok().map(str::trim);
    let tags = arguments.texts("peers_tag").ok();
    if tag.is_some() != tags.is_some() {
        return Err(Failure::new("`tag` and `peers_tag` go together: they tell which row is the unit itself"));
    }
    let is_itself =
        |row: usize| tag.is_some() && tags.and_then(|tags| tags.get(row)).copied().flatten().map(str::trim) == tag;
    let peer = |row: usize| {
        let number =
            |name: &str| columns.iter().find(|(own, _)| *own == name).and_then(|(_, column)| taken(*column, row));
        let flag = |name: &str| if name == "calling" { flag_at(arguments, "peers_calling", row) } else { None };
        unit(number, flag)
    };
    Ok((0..rows).filter(|row| !is_itself(*row)).map(peer).collect())
}

fn unit(number: impl Fn(&'static str) -> Option<f64>, flag: impl Fn(&'static str) -> Option<bool>) -> Unit {
    let temperature = |name| number(name).map(quantity);
    let other_way = flag("other_way").unwrap_or(false);
    Unit {
        // Beside the others it counts neither as one that calls nor as one that rests.
        calling: !other_way && flag("calling").unwrap_or(false),
        other_way,
        opening: number("opening").map(quantity),
        since_change: number("since_change").map(quantity),
        liquid: temperature("liquid_pipe"),
        gas: temperature("gas_pipe"),
        air_in: temperature("air_in"),
        air_out: temperature("air_out"),
        fan: flag("fan"),
        answered: flag("answered"),
        resistance: flag("resistance"),
        hand_gas: temperature("hand_gas"),
        room_rises: flag("room_rises"),
        line_drop: quantity(number("line_drop").unwrap_or(0.0)),
    }
}

fn plant(arguments: &Arguments<'_>) -> Result<Plant, Failure> {
    Ok(Plant {
        mode: if arguments.text("mode")? == "heating" { Mode::Heating } else { Mode::Cooling },
        system: system(arguments.text("system")?.trim())?,
        saturation: given(arguments, "saturation")?,
        glide: given(arguments, "glide")?,
        mapped: arguments.flag("mapped")?,
        pipes: given(arguments, "pipe_uncertainty")?,
        air: given(arguments, "air_uncertainty")?,
        settle: given(arguments, "settle")?,
    })
}

/// What was said of the system; a word that no reading says would pass for a system that is not healthy.
fn system(said: &str) -> Result<System, Failure> {
    match Whole::ALL.into_iter().find(|verdict| verdict.name() == said) {
        Some(Whole::Healthy) => Ok(System::Healthy),
        Some(Whole::SuctionSide) => Ok(System::SuctionSide),
        Some(_) => Ok(System::First),
        None => {
            let all: Vec<String> = Whole::ALL.iter().map(|verdict| format!("\"{}\"", verdict.name())).collect();
            Err(Failure::of("system", format!("\"{said}\" is no verdict on a system"))
                .with_mend(format!("it is one of {}", all.join(", "))))
        }
    }
}

fn limits(arguments: &Arguments<'_>, plant: &Plant) -> Result<Limits, Failure> {
    let limits = Limits {
        flooding: given(arguments, "flooding")?,
        starving: given(arguments, "starving")?,
        wide: given(arguments, "wide")?,
        low: given(arguments, "low")?,
        ..Limits::usual(plant.mode)
    };
    let refuse = |words| Err(Failure::of("pipe_uncertainty", words));
    match plant.mode {
        Mode::Cooling if limits.flooding + 2.0 * plant.pipes >= limits.starving => {
            refuse("with this uncertainty a flooding coil cannot be told from a starving one")
        }
        Mode::Heating if limits.uncondensed + 2.0 * plant.pipes >= limits.full => {
            refuse("with this uncertainty a coil full of liquid cannot be told from one that gas passes")
        }
        _ => Ok(limits),
    }
}

/// A judgement as a record.
fn said(one: &Judged, unit: &Unit, plant: &Plant, limits: &Limits) -> Value {
    let lacks = |words: &str| Failure::new(words);
    let known = |kelvin: Option<TemperatureInterval>, words| match kelvin {
        Some(kelvin) => part(kelvin.value),
        None => Err(lacks(words)),
    };
    let excess = known(one.excess, "a pipe was not read");
    let (superheat, subcooling) = match plant.mode {
        Mode::Cooling => (excess, Err(lacks("it is in cooling"))),
        Mode::Heating => (Err(lacks("it is in heating")), excess),
    };
    Value::Record(vec![
        part(one.verdict.name()),
        part(one.verdict.names_valve()),
        part(signs(one, unit, plant.mode)),
        part(one.verdict.next()),
        superheat,
        subcooling,
        known(one.air, "the air was not read on both sides"),
        part(missed(plant, limits)),
    ])
}

fn signs(one: &Judged, unit: &Unit, mode: Mode) -> String {
    let excess = if mode == Mode::Cooling { "superheat" } else { "subcooling" };
    let air = if mode == Mode::Cooling { "air drop" } else { "air rise" };
    let parts = [
        one.excess.map(|by| format!("{excess} {}", said_difference(by))),
        one.air.map(|by| format!("{air} {}", said_difference(by))),
        unit.opening.map(|share| format!("opening {:.0} %", share.get::<percent>())),
    ];
    let said: Vec<String> = parts.into_iter().flatten().collect();
    if said.is_empty() { "nothing was read".to_string() } else { said.join("; ") }
}

fn missed(plant: &Plant, limits: &Limits) -> String {
    let between = |low: TemperatureInterval, high: TemperatureInterval| {
        format!("from {}", said_differences(low - plant.pipes, high + plant.pipes))
    };
    let excess = match plant.mode {
        Mode::Cooling => format!("superheat {}", between(limits.flooding, limits.starving)),
        Mode::Heating => format!("subcooling {}", between(limits.uncondensed, limits.full)),
    };
    format!("{excess}, or a change of the air above half of its peers', hides a fault")
}
