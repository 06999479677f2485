//! The declaration of `standing_test`.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Field, Function, Returns, Value, field, maybe_field, parameter,
};
use uom::si::molar_mass::kilogram_per_mole;

use super::declared::{NITROGEN, gas, gas_name, volume};
use super::purge_declared::gas_parameter;
use super::standing::{Bounds, Reading, Standing, Verdict, judge};
use crate::helmholtz::GAS_CONSTANT;
use crate::refusal::{refrigerant, refused};
use crate::seam::{part, quantity};

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
    .equation(
        "residual = p − p(ρ of the baseline, T); holds if |residual| + U ≤ limit, loses if −residual − U > limit, else \
         indistinguishable; U² = U_p² + (∂p/∂T·U_T)²",
    )
    .source("real gas: Span and others, J. Phys. Chem. Ref. Data 29 (2000) 1361; decision: JCGM 106:2012; settling: common practice")
    .valid("one gauge throughout, cylinder shut and disconnected, temperature of the gas itself; a steady barometer")
    .example(NIGHT, "holds")
    .caution(NITROGEN)
    .caution("The gauge never replaces soap or a detector at each joint, at test pressure.")
    .caution("Likely, not certain: part names are given only on two signs that share no sensor.")
}

fn fields() -> Vec<Field> {
    vec![
        field("verdict", Basic::Text, "`holds`, `loses`, `gains`, `indistinguishable`, `settling`, `evening out`, …"),
        field("next", Basic::Text, "what to do next"),
        maybe_field("residual", Basic::Unit("kPa"), "last reading less what it should be; below nought lost"),
        maybe_field("uncertainty", Basic::Unit("kPa"), "its expanded uncertainty"),
        maybe_field("rate", Basic::Unit("kPa/h or psi/h"), "slope of what is left after correction"),
        maybe_field(
            "missed_leak",
            Basic::Unit("Pa·m3/s or Pa·m3/s"),
            "the leak that it would have missed, of the volume given",
        ),
        maybe_field(
            "missed_per_year",
            Basic::Unit("g/year or oz/year"),
            "as much gas of the refrigerant in a year at 20 °C",
        ),
    ]
}

fn stood(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let readings: Vec<Reading> = arguments
        .numbers("times")?
        .iter()
        .zip(arguments.numbers("pressures")?)
        .zip(arguments.numbers("temperatures")?)
        .map(|((time, p), t)| Reading { time: *time, pressure: quantity(*p), temperature: quantity(*t) })
        .collect();
    if readings.windows(2).any(|pair| matches!(pair, [a, b] if b.time <= a.time)) {
        return Err(Failure::of("times", "the times of a test must rise from reading to reading"));
    }
    let bounds = Bounds {
        limit: arguments.number("limit")?,
        pressure: arguments.number("pressure_uncertainty")?,
        temperature: arguments.number("temperature_uncertainty")?,
        settle: arguments.number("settle")?,
    };
    let found = judge(gas(arguments)?, &readings, &bounds).map_err(|error| refused(gas_name(arguments), error))?;
    let missed = missed(arguments, &found);
    let known = |value: f64| match found.verdict {
        Verdict::Settling => Err(Failure::new("there are no two readings after the gas has settled")),
        _ => part(value),
    };
    Ok(Value::Record(vec![
        part(found.verdict.name()),
        part(found.verdict.next()),
        known(found.residual),
        known(found.uncertainty),
        known(found.rate),
        missed.clone().map(Value::from),
        missed.and_then(|leak| per_year(arguments, leak)).map(Value::from),
    ]))
}

/// The throughput that would have changed the pressure by no more than its uncertainty.
fn missed(arguments: &Arguments<'_>, found: &Standing) -> Result<f64, Failure> {
    let volume = arguments.maybe_number("volume").ok_or_else(|| Failure::new("the leak missed needs `volume`"))?;
    if found.span <= 0.0 {
        return Err(Failure::new("there are no two readings after the gas has settled"));
    }
    Ok(found.uncertainty * volume / found.span)
}

/// The same throughput of refrigerant vapor: m = Q·M/(R·T).
fn per_year(arguments: &Arguments<'_>, leak: f64) -> Result<f64, Failure> {
    let name =
        arguments.text("refrigerant").map_err(|_| Failure::new("the leak missed in a year needs `refrigerant`"))?;
    let molar_mass = refrigerant(name)?.molar_mass().get::<kilogram_per_mole>();
    Ok(leak * molar_mass / (GAS_CONSTANT * 293.15))
}
