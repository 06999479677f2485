//! The declaration of `hold_test`.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Field, Function, Returns, Value, field, maybe_field, parameter,
};
use uom::si::f64::ThermodynamicTemperature;

use super::declared::{UNDER_VACUUM, times, volume};
use super::hold::{GaugeAt, Hold, Reading, TooLittle, Verdict, judge};
use super::hold_drawn::drawn;
use crate::cautions::LIKELY;
use crate::parameters::rest_temperature;
use crate::rows::flag_at;
use crate::seam::{given, maybe, part};
use crate::water;

const DRY: &str = r#"table rise
  time | pressure
  min  | micron
  0    | 312
  5    | 341
  10   | 352
  20   | 358
  30   | 361
end
answer = hold_test(rise.time, rise.pressure, coldest = 58 degF, volume = 1.1 ft3).verdict"#;

/// What a vacuum hold says.
pub(super) fn hold_test() -> Function {
    Function::new(
        "hold_test",
        "vacuum",
        "what the rise of pressure after the pump is shut off says: leak, moisture, or nothing yet",
        Returns::Record(fields()),
        Body::Values(held),
    )
    .takes(times())
    .takes(
        parameter("pressures", Accepts::column("Pa absolute"), "readings of a vacuum gauge; `?` where it was not read")
            .within("0.001 Pa absolute", "200000 Pa absolute")
            .with_gaps(),
    )
    .takes(parameter("coldest", Accepts::unit("degC"), "temperature of the coldest pipe").within("-60 degC", "80 degC"))
    .takes(volume().optional())
    .takes(rest_temperature("warmest", "temperature of the warmest spot").optional())
    .takes(parameter("limit", Accepts::unit("Pa absolute"), "level to stay under").within("1 Pa absolute", "10000 Pa absolute").or("500 micron"))
    .takes(parameter("gauge_at", Accepts::Choice(&["far", "pump"]), "where the gauge sits").or("\"far\""))
    .takes(parameter("equalising", Accepts::unit("min"), "time that evening out may take").within("0 min", "600 min").or("10 min"))
    .takes(
        parameter("tau_longest", Accepts::unit("min"), "longest time constant of moisture that is reckoned with")
            .within("5 min", "1000 min")
            .or("60 min"),
    )
    .takes(parameter("noise", Accepts::unit("Pa"), "standard deviation of a reading").within("0.01 Pa", "100 Pa").or("3 micron difference"))
    .takes(
        parameter("earlier_rate", Accepts::unit("micron/min"), "slope of a hold before a nitrogen break")
            .within("-100000 micron/min", "100000 micron/min")
            .optional(),
    )
    .takes(
        parameter("earlier_uncertainty", Accepts::unit("micron/min"), "its expanded uncertainty, coverage 2")
            .within("0 micron/min", "100000 micron/min")
            .or("0 micron/min"),
    )
    .takes(parameter("standing", Accepts::One(Basic::Flag), "true: the standing pressure test was passed").or("false"))
    .takes(
        parameter("all_reached", Accepts::One(Basic::Flag), "false: units were powered and not every side is proven open")
            .or("true"),
    )
    .takes(
        parameter(
            "over",
            Accepts::column_of(Basic::Flag),
            "true: the gauge was over its range, so that the pressure was at least what stands there, or `top`",
        )
        .with_gaps()
        .optional(),
    )
    .takes(
        parameter("top", Accepts::unit("Pa absolute"), "upper end of the gauge's range: a reading there or above counts as over it")
            .within("10 Pa absolute", "200000 Pa absolute")
            .optional(),
    )
    .equation(
        "line, bend p∞ − Δ·e^(−t/τ) with τ up to the longest, root of time, bend on a slope, compared by their misses; \
         straight can be told from T > √(24·noise·τ_longest/slope); a row over the range bounds the shape from below",
    )
    .source("our own rule, tested by simulation (SIMULATIONS.md); vapor pressure by IAPWS R7-97 and R14-08")
    .valid(
        "four readings or more, better one a minute, at steady temperature, pump shut off at the core. From one curve a \
         leak cannot be told from slow moisture: *leak* needs an earlier hold with the same slope",
    )
    .example(DRY, "levels off")
    .caution(UNDER_VACUUM)
    .caution(LIKELY)
    .draws(drawn)
}

fn fields() -> Vec<Field> {
    vec![
        field("verdict", Basic::OneOf(Verdict::WORDS), "what the rise looks like"),
        field("why", Basic::Text, "why, in one sentence"),
        field("next", Basic::Text, "what to do or read next"),
        field("rate", Basic::Unit("micron/min"), "the steady part of the rise"),
        field("rate_uncertainty", Basic::Unit("micron/min"), "its expanded uncertainty, coverage 2"),
        maybe_field("plateau", Basic::Unit("Pa absolute or micron"), "where it levels off"),
        maybe_field("settling", Basic::Unit("min"), "time constant of the bend"),
        maybe_field("time_needed", Basic::Unit("min"), "how long a hold it takes to tell"),
        field(
            "water_pressure",
            Basic::Unit("Pa absolute or micron"),
            "vapor pressure of water or ice at the coldest pipe",
        ),
        field("missed_rate", Basic::Unit("micron/min"), "the smallest steady rise that it would have told"),
        maybe_field(
            "missed_leak",
            Basic::Unit("Pa·m3/s or Pa·m3/s"),
            "the leak that goes with it, of the volume given",
        ),
    ]
}

fn held(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let readings = readings(arguments)?;
    let hold = hold_of(arguments)?;
    let judged = judge(&readings, &hold).map_err(|reason| match reason {
        TooLittle::Readings => Failure::of("pressures", "a hold needs four readings or more to be judged"),
        TooLittle::Order => Failure::of("times", "the times of a hold must rise from reading to reading"),
    })?;
    let known = |value: Option<f64>, lacks: &str| value.map(Value::from).ok_or_else(|| Failure::new(lacks));
    let volume = arguments.maybe_number("volume");
    Ok(Value::Record(vec![
        part(judged.verdict.name()),
        part(judged.why),
        part(judged.next),
        part(judged.rate),
        part(2.0 * judged.rate_uncertainty),
        known(judged.plateau, "this hold does not level off"),
        known(judged.settling, "this hold does not bend"),
        known(judged.time_needed, "this hold is long enough, or not the time is the trouble"),
        part(hold.water_at_coldest),
        part(judged.missed),
        known(volume.map(|volume| volume * judged.missed), "without `volume` there is no leak to name"),
    ]))
}

/// The rows that have a reading, or were over the gauge's range.
pub(super) fn readings(arguments: &Arguments<'_>) -> Result<Vec<Reading>, Failure> {
    let (times, pressures) = (arguments.numbers("times")?, arguments.numbers("pressures")?);
    let top = arguments.maybe_number("top");
    let mut readings = Vec::with_capacity(times.len());
    for (row, (time, pressure)) in times.iter().zip(pressures).enumerate().filter(|(_, (time, _))| !time.is_nan()) {
        let read = (!pressure.is_nan()).then_some(*pressure);
        let over = flag_at(arguments, "over", row) == Some(true)
            || top.is_some_and(|top| read.is_some_and(|read| read >= top));
        match (over, read, top) {
            (true, None, None) => {
                return Err(Failure::of("over", "how much is at least there is not known")
                    .with_mend("give `top`, the upper end of the gauge's range, or write it into those rows"));
            }
            // Above the end of its range a gauge may show anything.
            (true, read, top) => {
                let bound = top.into_iter().chain(read).fold(f64::INFINITY, f64::min);
                readings.push(Reading { time: *time, pressure: bound, over });
            }
            (false, Some(read), _) => readings.push(Reading::from((*time, read))),
            (false, None, _) => {}
        }
    }
    Ok(readings)
}

pub(super) fn hold_of(arguments: &Arguments<'_>) -> Result<Hold, Failure> {
    let water = |t: ThermodynamicTemperature| water::vapor_pressure(t).map_or(f64::INFINITY, |p| p.value);
    let earlier_uncertainty = arguments.number("earlier_uncertainty")? / 2.0;
    Ok(Hold {
        water_at_coldest: water(given(arguments, "coldest")?),
        // Not said how warm it gets: then nothing follows from a high pressure.
        water_at_warmest: maybe(arguments, "warmest").map_or(f64::INFINITY, water),
        limit: arguments.number("limit")?,
        gauge_at: if arguments.text("gauge_at")? == "pump" { GaugeAt::Pump } else { GaugeAt::Far },
        equalising: arguments.number("equalising")?,
        longest: arguments.number("tau_longest")?,
        noise: arguments.number("noise")?,
        earlier: arguments.maybe_number("earlier_rate").map(|rate| (rate, earlier_uncertainty)),
        standing: arguments.flag("standing")?,
        all_reached: arguments.flag("all_reached")?,
    })
}
