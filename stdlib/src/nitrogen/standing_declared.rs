//! The declaration of `standing_test`.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Field, Function, Parameter, Returns, Value, field, maybe_field, parameter,
};
use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::molar_mass::kilogram_per_mole;
use uom::si::thermodynamic_temperature::degree_celsius;

use super::declared::{NITROGEN, gas, gas_name, volume, zone};
use super::purge_declared::gas_parameter;
use super::standing::{Bounds, Reading, Standing, Verdict, judge};
use super::standing_drawn::drawn;
use crate::cautions::LIKELY;
use crate::helmholtz::GAS_CONSTANT;
use crate::refusal::{refrigerant, refused};
use crate::seam::{maybe, part, quantity};
use crate::vacuum::leak::{Through, ratios, seeking_gas};

const NIGHT: &str = r#"table log
  time | pressure | gas
  h    | psig     | degF
  0    | 552.0    | 71
  1    | 550.0    | 70
  8    | 544.2    | 65
  16   | 538.3    | 60
end
answer = standing_test(log.time, log.pressure, log.gas, limit = 3 psi).verdict"#;

/// Whether a system holds.
pub(super) fn standing_test() -> Function {
    Function::new(
        "standing_test",
        "nitrogen",
        "whether a system under nitrogen lost more than temperature and the instruments explain",
        Returns::Record(fields()),
        Body::Values(stood),
    )
    .takes(parameter("times", Accepts::column("h"), "when, from any beginning").within("-1 year", "10 year"))
    .takes(parameter("pressures", Accepts::column("kPaa"), "readings of one gauge").within("50 kPaa", "30000 kPaa"))
    .takes(parameter("temperatures", Accepts::column("degC"), "of the gas, as a mean of its parts").within("-60 degC", "120 degC"))
    .takes(parameter("limit", Accepts::unit("kPa"), "greatest loss allowed").within("0.1 kPa", "1000 kPa"))
    .takes(
        parameter("pressure_uncertainty", Accepts::unit("kPa"), "expanded uncertainty of a difference on this gauge")
            .within("0.01 kPa", "1000 kPa")
            .or("5 kPa"),
    )
    .takes(
        parameter("temperature_uncertainty", Accepts::unit("C°"), "expanded uncertainty of the gas's change of temperature")
            .within("0 C°", "20 C°")
            .or("0.5 C°"),
    )
    .takes(parameter("settle", Accepts::unit("min"), "how long the gas settles after filling").within("0 min", "1440 min").or("30 min"))
    .takes(gas_parameter())
    .takes(volume().optional())
    .takes(parameter("refrigerant", Accepts::One(Basic::Refrigerant), "of the job, for the leak missed in a year").optional())
    .takes(
        parameter("service_pressure", Accepts::unit("kPaa"), "of its vapor in service; that of 45 °C if not given")
            .within("100 kPaa", "20000 kPaa")
            .optional(),
    )
    .takes(zone("second_temperatures", "of the gas in a second zone, such as a roof in the sun"))
    .takes(share("second_share", "of the volume in the second zone"))
    .takes(zone("third_temperatures", "of the gas in a third zone"))
    .takes(share("third_share", "of the volume in the third zone"))
    .takes(
        parameter("atmosphere", Accepts::column("kPaa"), "barometer at each reading, for a gauge that reads above it")
            .within("50 kPaa", "110 kPaa")
            .optional(),
    )
    .takes(
        parameter("cylinder", Accepts::column_of(Basic::Text), "`shut` at each reading after settling, or `open`")
            .with_gaps()
            .optional(),
    )
    .takes(
        parameter("gauge_range", Accepts::unit("kPa"), "range of a dial gauge: it reads best in its middle third")
            .within("10 kPa", "100000 kPa")
            .optional(),
    )
    .equation(
        "residual = p − p(ρ of the baseline, T); holds if |residual| + U ≤ limit, loses if −residual − U > limit, else \
         indistinguishable; U² = U_p² + (∂p/∂T·U_T)²",
    )
    .source("real gas: Span and others, J. Phys. Chem. Ref. Data 29 (2000) 1361; decision: JCGM 106:2012; settling: common practice")
    .valid(
        "one gauge throughout, cylinder shut and disconnected, temperature of the gas itself, of each zone where they \
         differ; a steady barometer, or `atmosphere` at each reading",
    )
    .example(NIGHT, "holds")
    .caution(NITROGEN)
    .caution("The gauge never replaces soap or a detector at each joint, at test pressure.")
    .caution(LIKELY)
    .draws(drawn)
}

/// With the cylinder open nothing is judged.
const CYLINDER_OPEN: &str = "cylinder open";

/// What a test can say: a verdict on the gas, or that the cylinder is open.
const VERDICTS: &[&str] = &{
    let mut words = [CYLINDER_OPEN; Verdict::WORDS.len() + 1];
    let mut at = 0;
    while at < Verdict::WORDS.len() {
        words[at] = Verdict::WORDS[at];
        at += 1;
    }
    words
};

fn fields() -> Vec<Field> {
    vec![
        field("verdict", Basic::OneOf(VERDICTS), "whether it holds"),
        field("next", Basic::Text, "what to do next"),
        maybe_field("residual", Basic::Unit("kPa"), "last reading less what it should be; below nought lost"),
        maybe_field("uncertainty", Basic::Unit("kPa"), "its expanded uncertainty"),
        maybe_field("rate", Basic::Unit("kPa/h or psi/h"), "slope of what is left after correction"),
        maybe_field(
            "missed_leak",
            Basic::Unit("Pa·m3/s or Pa·m3/s"),
            "the smallest leak of the test gas that it would surely have called: limit and twice the uncertainty",
        ),
        maybe_field(
            "missed_per_year",
            Basic::Unit("g/year or oz/year"),
            "what such a hole would lose of the refrigerant in service, the greater of two bounds",
        ),
        maybe_field("missed_per_year_least", Basic::Unit("g/year or oz/year"), "the lesser of them (molecular flow)"),
        maybe_field("hold_needed", Basic::Unit("h"), "how long a hold would tell a loss as fast as the limit allows"),
        maybe_field("steady_from", Basic::Unit("min"), "when the fall ended, after the first reading"),
        field("advice", Basic::Text, "about the gauge, or nothing"),
    ]
}

fn stood(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let readings = readings(arguments)?;
    if readings.windows(2).any(|pair| matches!(pair, [a, b] if b.time <= a.time)) {
        return Err(Failure::of("times", "the times of a test must rise from reading to reading"));
    }
    let bounds = bounds_of(arguments)?;
    let found = judge(gas(arguments)?, &readings, &bounds).map_err(|error| refused(gas_name(arguments), error))?;
    let open = cylinder_open(arguments, &readings, bounds.settle);
    let missed = missed(arguments, &found);
    let per_year = missed.clone().and_then(|leak| per_year(arguments, leak, &readings));
    let part_of_year = |which: fn((f64, f64)) -> f64| per_year.clone().map(which).map(Value::from);
    let known = |value: f64| match found.verdict {
        Verdict::Settling => Err(Failure::new("there are no two readings after the gas has settled")),
        _ => part(value),
    };
    Ok(Value::Record(vec![
        part(if open { CYLINDER_OPEN } else { found.verdict.name() }),
        part(if open { "shut and disconnect the cylinder, let it settle, start again" } else { found.verdict.next() }),
        known(found.residual),
        known(found.uncertainty),
        known(found.rate),
        missed.map(Value::from),
        part_of_year(|(_, most)| most),
        part_of_year(|(least, _)| least),
        found
            .hold_needed
            .map(Value::from)
            .ok_or_else(|| Failure::new("it was told, or a longer hold is not what lacks")),
        found.steady_from.map(Value::from).ok_or_else(|| Failure::new("the pressure did not level off")),
        part(gauge_advice(arguments, &readings)),
    ]))
}

/// The readings in the order of their rows.
pub(super) fn readings(arguments: &Arguments<'_>) -> Result<Vec<Reading>, Failure> {
    let rows = arguments.numbers("times")?.iter().zip(arguments.numbers("pressures")?);
    let readings = rows.zip(arguments.numbers("temperatures")?).enumerate().map(|(row, ((time, p), t))| Reading {
        time: *time,
        pressure: quantity(*p + over_site(arguments, row)),
        temperature: quantity(*t),
        others: ["second_temperatures", "third_temperatures"]
            .map(|name| arguments.numbers(name).ok().and_then(|column| column.get(row)).map(|t| quantity(*t))),
    });
    Ok(readings.collect())
}

pub(super) fn bounds_of(arguments: &Arguments<'_>) -> Result<Bounds, Failure> {
    Ok(Bounds {
        limit: arguments.number("limit")?,
        pressure: arguments.number("pressure_uncertainty")?,
        temperature: arguments.number("temperature_uncertainty")?,
        settle: arguments.number("settle")?,
        shares: shares(arguments)?,
    })
}

/// The throughput that would surely have been called a loss.
fn missed(arguments: &Arguments<'_>, found: &Standing) -> Result<f64, Failure> {
    let volume = arguments.maybe_number("volume").ok_or_else(|| Failure::new("the leak missed needs `volume`"))?;
    if found.span <= 0.0 {
        return Err(Failure::new("there are no two readings after the gas has settled"));
    }
    Ok(found.surely_seen * volume / found.span)
}

/// What a hole that lets through so much of the test gas loses of refrigerant vapor in service: molecular and viscous
/// flow, the lesser first; kg/s.
fn per_year(arguments: &Arguments<'_>, leak: f64, readings: &[Reading]) -> Result<(f64, f64), Failure> {
    let name =
        arguments.text("refrigerant").map_err(|_| Failure::new("the leak missed in a year needs `refrigerant`"))?;
    let r = refrigerant(name)?;
    let refuse = |error| refused(r.designation(), error);
    let service = match maybe(arguments, "service_pressure") {
        Some(p) => p,
        None => r.dew_pressure(ThermodynamicTemperature::new::<degree_celsius>(45.0)).map_err(refuse)?,
    };
    let atmosphere: Pressure = quantity(arguments.context.atmosphere);
    let (molar_mass, viscosity) =
        seeking_gas(gas_name(arguments)).ok_or_else(|| Failure::new("no viscosity of this test gas is built in"))?;
    let from = readings.last().map_or(atmosphere, |reading| reading.pressure);
    let thin: Pressure = quantity(2e4);
    let room = ThermodynamicTemperature::new::<degree_celsius>(20.0);
    let vapor = Through {
        molar_mass: r.molar_mass(),
        viscosity: r.viscosity(thin, room).map_err(refuse)?,
        from: service,
        to: atmosphere,
    };
    let (molecular, viscous) = ratios(&Through { molar_mass, viscosity, from, to: atmosphere }, &vapor);
    let mass = leak * r.molar_mass().get::<kilogram_per_mole>() / (GAS_CONSTANT * 293.15);
    Ok((mass * molecular.min(viscous), mass * molecular.max(viscous)))
}

fn share(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::One(Basic::Number), about).within("0", "1").optional()
}

/// Shares of the second and third zone; what is left is the first one's. A share of nought said in so many words leaves
/// the zone out; one that was forgotten beside its temperatures does not.
fn shares(arguments: &Arguments<'_>) -> Result<[f64; 2], Failure> {
    let of = |share: &'static str, temperatures: &'static str| -> Result<f64, Failure> {
        match (arguments.maybe_number(share), arguments.numbers(temperatures).is_ok()) {
            (Some(share), true) => Ok(share),
            (None | Some(0.0), false) => Ok(0.0),
            (None, true) => {
                Err(Failure::of(temperatures, format!("`{temperatures}` needs the share of its zone: `{share}`")))
            }
            (Some(_), false) => {
                Err(Failure::of(share, format!("`{share}` needs the temperatures of its zone: `{temperatures}`")))
            }
        }
    };
    let shares = [of("second_share", "second_temperatures")?, of("third_share", "third_temperatures")?];
    if shares.iter().sum::<f64>() >= 1.0 {
        return Err(Failure::of("second_share", "nothing of the volume is left for the first zone"));
    }
    Ok(shares)
}

/// How much the barometer stood above the site's atmosphere, by which the language turned gauge into absolute.
fn over_site(arguments: &Arguments<'_>, row: usize) -> f64 {
    let barometer = arguments.numbers("atmosphere").ok().and_then(|column| column.get(row));
    barometer.map_or(0.0, |p| p - arguments.context.atmosphere)
}

/// Whether the cylinder is said to be open after the gas has settled.
fn cylinder_open(arguments: &Arguments<'_>, readings: &[Reading], settle: f64) -> bool {
    let Ok(states) = arguments.texts("cylinder") else { return false };
    let start = readings.first().map_or(0.0, |reading| reading.time);
    readings
        .iter()
        .zip(states)
        .any(|(reading, state)| reading.time - start >= settle && state.is_some_and(|state| state.trim() == "open"))
}

/// A dial gauge reads best in its middle third: ASME B31.5, 538.4.2, by a public test plan.
fn gauge_advice(arguments: &Arguments<'_>, readings: &[Reading]) -> &'static str {
    let (Some(range), Some(last)) = (arguments.maybe_number("gauge_range"), readings.last()) else { return "" };
    match (last.pressure.value - arguments.context.atmosphere) / range {
        part if part > 2.0 / 3.0 => "the gauge reads in the upper third of its range: take one of a greater range",
        part if part < 1.0 / 3.0 => "the gauge reads in the lower third of its range: take one of a smaller range",
        _ => "",
    }
}
