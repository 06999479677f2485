//! The declarations of what is read before a running system is judged: settled, at rest, single responses.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, maybe_field, parameter,
};

use super::response::{self, Reading};
use super::rest::{self, Allowed, Sensor};
use super::settled;
use super::system_declared::system_reading;
use super::system_heating_declared::system_reading_heating;
use super::valve_declared::{one_valve_reading, valve_reading};
use crate::cautions::SETTLED;
use crate::rows::{flag_at, maybe_numbers, taken};
use crate::seam::{part, quantity, said_difference, texts};

const NO_SWAPS: &str = "At rest all sensors agree, so a swapped sensor cannot be found at rest: run `response_map`.";

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    vec![
        settled_function(),
        at_rest_agreement(),
        response_map(),
        system_reading(),
        system_reading_heating(),
        valve_reading(),
        one_valve_reading(),
    ]
}

fn temperatures(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::column("degC"), about).within("-90 degC", "200 degC").with_gaps()
}

fn difference(name: &'static str, default: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("C°"), about).within("0.01 C°", "50 C°").or(default)
}

/// What `settled` can say.
const MOVES: &[&str] = &["settled", "still moving", "too short to tell", "interrupted"];

fn settled_function() -> Function {
    let fields = vec![
        field("settled", Basic::Flag, "true: the last window moves by less than allowed"),
        field("verdict", Basic::OneOf(MOVES), "whether it has settled"),
        maybe_field("since", Basic::Unit("min"), "when it settled, in the time of the readings"),
        maybe_field("slope", Basic::Unit("C°/h or F°/h"), "least-squares slope over the last window"),
        maybe_field("slope_uncertainty", Basic::Unit("C°/h or F°/h"), "its expanded uncertainty, coverage 2"),
        maybe_field("moved", Basic::Unit("C°"), "slope times window and spread about the slope, together"),
    ];
    Function::new(
        "settled",
        "verification",
        "whether a temperature has settled, and since when",
        Returns::Record(fields),
        Body::Values(has_settled),
    )
    .takes(parameter("times", Accepts::column("min"), "when, from any beginning").within("-1 year", "10 year"))
    .takes(parameter("temperatures", Accepts::column("degC"), "readings, or saturation temperatures of readings").within("-90 degC", "200 degC"))
    .takes(difference("within", "0.5 C°", "how far it may move: 0.5 K for a saturation temperature, 2 K for a discharge"))
    .takes(parameter("over", Accepts::unit("min"), "the window").within("1 min", "1440 min").or("10 min"))
    .takes(texts("state", "what the unit did: rows that do not say `run` interrupt").with_gaps().optional())
    .equation("|slope|·window + spread about the line < within; readings before a defrost, an oil return or a start do not count")
    .source("common practice, no source")
    .valid("times that rise, three readings or more in the window")
    .example(
        r#"table log
  time | suction
  min  | degC
  0    | 11.0
  5    | 8.6
  10   | 8.1
  15   | 8.0
  20   | 8.1
end
answer = settled(log.time, log.suction).verdict"#,
        "settled",
    )
    .caution(SETTLED)
}

fn has_settled(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let (times, values) = (arguments.numbers("times")?, arguments.numbers("temperatures")?);
    if times.windows(2).any(|pair| matches!(pair, [a, b] if b <= a)) {
        return Err(Failure::of("times", "the times must rise from reading to reading"));
    }
    let states = arguments.texts("state").ok();
    let runs = |row: usize| {
        let said = states.and_then(|states| states.get(row)).copied().flatten().map_or("", str::trim);
        said.is_empty() || said == "run"
    };
    // Only what was read since the last interruption counts.
    let first = (0..times.len()).rev().find(|row| !runs(*row)).map_or(0, |row| row + 1);
    let readings: Vec<(f64, f64)> = times.iter().copied().zip(values.iter().copied()).skip(first).collect();
    let found = settled::judge(&readings, arguments.number("within")?, arguments.number("over")?);
    let verdict = match (found.settled, found.told, first) {
        (true, ..) => "settled",
        (false, true, _) => "still moving",
        (false, false, 0) => "too short to tell",
        (false, false, _) => "interrupted",
    };
    let known = |value: f64| {
        if found.told { part(value) } else { Err(Failure::new("the readings do not span the window")) }
    };
    Ok(Value::Record(vec![
        part(found.settled),
        part(verdict),
        found.since.map(Value::from).ok_or_else(|| Failure::new("it has not settled")),
        known(found.slope),
        known(2.0 * found.slope_uncertainty),
        known(found.moved),
    ]))
}

fn at_rest_agreement() -> Function {
    let fields = vec![
        field("verdict", Basic::OneOf(rest::Verdict::WORDS), "whether it agrees"),
        maybe_field("difference", Basic::Unit("C°"), "reading less what it was compared with"),
        maybe_field("reference", Basic::Unit("degC"), "median of its room, or the probe held to it"),
        field("missed", Basic::Unit("C°"), "the smallest error that would have been named"),
        field("next", Basic::Text, "what to do next"),
    ];
    Function::new(
        "at_rest_agreement",
        "verification",
        "whether each sensor agrees with those of its room while the equipment rests",
        Returns::Rows(fields),
        Body::Values(agree),
    )
    .takes(temperatures("reading", "what each sensor reads"))
    .takes(texts("room", "room or place whose sensors should agree"))
    .takes(parameter("hours_off", Accepts::column("h"), "how long the equipment has been off").within("0 h", "10000 h"))
    .takes(temperatures("hand", "what a probe held to the sensor reads").optional())
    .takes(
        parameter(
            "sun",
            Accepts::column_of(Basic::Flag),
            "true: in the sun, or otherwise not at its room's temperature",
        )
        .with_gaps()
        .optional(),
    )
    .takes(difference("within", "1.5 C°", "allowed off the median of the room"))
    .takes(difference("within_hand", "2 C°", "allowed off the probe"))
    .takes(difference("uncertainty", "0.5 C°", "expanded uncertainty of a difference of two sensors"))
    .takes(
        parameter("rest", Accepts::unit("h"), "rest until pipes are at their room's temperature")
            .within("0 h", "100 h")
            .or("2 h"),
    )
    .equation("agrees if |reading − reference| + U ≤ allowed, off if |…| − U > allowed, else indistinguishable")
    .source("common practice, no source; decision: JCGM 106:2012")
    .valid("three sensors a room or a probe; out of the sun; fans off long enough. It cannot see a swap")
    .example(
        r#"table rest
  sensor | room | reading | off
  text   | text | degC    | h
  "U1"   | "A"  | 24.1    | 8
  "U2"   | "A"  | 24.3    | 8
  "U3"   | "A"  | 23.9    | 8
  "U4"   | "A"  | 29.0    | 8
  found = at_rest_agreement(rest.reading, rest.room, rest.off)
end
answer = rest["U4"].found.verdict"#,
        "off",
    )
    .caution(NO_SWAPS)
}

fn agree(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let readings = arguments.numbers("reading")?;
    let (rooms, off) = (arguments.texts("room")?, arguments.numbers("hours_off")?);
    let hand = maybe_numbers(arguments, "hand");
    let allowed = Allowed {
        room: arguments.number("within")?,
        hand: arguments.number("within_hand")?,
        uncertainty: arguments.number("uncertainty")?,
        rest: arguments.number("rest")?,
    };
    if allowed.uncertainty >= allowed.room.min(allowed.hand) {
        let (unsure, least) = (allowed.uncertainty, allowed.room.min(allowed.hand));
        let [unsure, least] = [unsure, least].map(|kelvin| said_difference(quantity(kelvin)));
        let message =
            format!("an uncertainty of {unsure} leaves nothing of the {least} allowed: none could ever agree");
        return Err(Failure::of("uncertainty", message));
    }
    let sensors: Vec<Sensor<'_>> = (0..readings.len())
        .map(|row| Sensor {
            room: rooms.get(row).copied().flatten().unwrap_or(""),
            reading: taken(Some(readings), row),
            hand: taken(hand, row),
            off: off.get(row).copied().unwrap_or(0.0),
            sun: flag_at(arguments, "sun", row).unwrap_or(false),
        })
        .collect();
    let rows = rest::judge(&sensors, &allowed).into_iter().zip(&sensors).map(|(one, sensor)| {
        let limit = if sensor.hand.is_some() { allowed.hand } else { allowed.room };
        let known = |value: Option<f64>| value.map(Value::from).ok_or_else(|| Failure::new("it was not compared"));
        Ok(Value::Record(vec![
            part(one.verdict.name()),
            known(one.difference),
            known(one.reference),
            part(limit + allowed.uncertainty),
            part(one.verdict.next()),
        ]))
    });
    Ok(Value::Column(rows.collect()))
}

fn response_map() -> Function {
    let fields = vec![
        field("verdict", Basic::OneOf(response::Verdict::WORDS), "which channel moved"),
        maybe_field("moved", Basic::Text, "what moved instead, or besides"),
        maybe_field("change", Basic::Unit("C°"), "after less before, of the row's channel"),
        field("next", Basic::Text, "what to do next"),
    ];
    Function::new(
        "response_map",
        "verification",
        "which channel moved for each thing acted on: crossed pairs, silent ones, more than one",
        Returns::Rows(fields),
        Body::Values(mapped),
    )
    .takes(texts("acted_on", "what was acted on: a unit run alone, a sensor warmed by hand"))
    .takes(texts("channel", "channel that was read, called like the thing it should belong to"))
    .takes(temperatures("before", "before acting"))
    .takes(temperatures("after", "after acting"))
    .takes(difference("least", "2 C°", "change that counts as an answer"))
    .takes(difference("uncertainty", "0.5 C°", "expanded uncertainty of a change"))
    .equation("a channel answers if |after − before| − U ≥ least; judged for all rows of one thing acted on together")
    .source("common practice, no source")
    .valid("a row for each thing acted on and each channel read; all others at rest")
    .example(
        r#"table steps
  row | acted_on | channel | before | after
  number | text | text | degC   | degC
  1   | "U02"    | "U02"   | 24.9   | 25.0
  2   | "U02"    | "U08"   | 24.3   | 11.2
  3   | "U08"    | "U02"   | 25.0   | 10.9
  4   | "U08"    | "U08"   | 24.1   | 24.3
  found = response_map(steps.acted_on, steps.channel, steps.before, steps.after)
end
answer = steps[1].found.verdict"#,
        "crossed",
    )
    .caution(SETTLED)
}

fn mapped(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let (acted_on, channels) = (arguments.texts("acted_on")?, arguments.texts("channel")?);
    let (before, after) = (arguments.numbers("before")?, arguments.numbers("after")?);
    let readings: Vec<Reading<'_>> = (0..acted_on.len())
        .map(|row| Reading {
            acted_on: acted_on.get(row).copied().flatten().map_or("", str::trim),
            channel: channels.get(row).copied().flatten().map_or("", str::trim),
            before: taken(Some(before), row),
            after: taken(Some(after), row),
        })
        .collect();
    let verdicts = response::judge(&readings, arguments.number("least")?, arguments.number("uncertainty")?);
    let rows = readings.iter().map(|reading| {
        let verdict = verdicts.get(reading.acted_on).ok_or_else(|| Failure::new("nothing was acted on in this row"))?;
        let change = match (reading.before, reading.after) {
            (Some(before), Some(after)) => part(after - before),
            _ => Err(Failure::new("it was not read before and after")),
        };
        let moved = verdict.moved().map(Value::from).ok_or_else(|| Failure::new("nothing else moved"));
        Ok(Value::Record(vec![part(verdict.name()), moved, change, part(verdict.next())]))
    });
    Ok(Value::Column(rows.collect()))
}
