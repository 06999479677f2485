//! The declarations of the vacuum functions.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, parameter,
};
use uom::si::f64::{Length, Pressure, Time, Volume};

use super::hold_declared::hold_test;
use super::leak_declared::leak_in_service;
use super::tubing::{self, Pull};
use crate::numeric::line::Line;
use crate::pipe::pick;
use crate::seam::{all, given, part, quantity, said_pressure, said_temperature};
use crate::water;

/// Printed with evacuation.
pub const UNDER_VACUUM: &str = "No compressor, shell heater or insulation test under vacuum.";

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    vec![
        hold_test(),
        rise_rate(),
        water_boiling_pressure(),
        water_boiling_temperature(),
        driest_provable(),
        leak_throughput(),
        leak_in_service(),
        dilution_factor(),
        pull_time(),
        equalising_time(),
        flow_regime(),
    ]
}

/// 600 micron in half an hour on a straight line.
const RISE: &str = r#"table hold
  time | pressure
  min  | micron
  0    | 300
  10   | 500
  20   | 700
  30   | 900
end
answer = rise_rate(hold.time, hold.pressure).rate as micron/min"#;

fn rise_rate() -> Function {
    let fields = vec![
        field("rate", Basic::Unit("micron/min"), "slope of the line through the readings"),
        field(
            "uncertainty",
            Basic::Unit("micron/min"),
            "expanded uncertainty of the rate from the scatter, coverage 2",
        ),
        field("scatter", Basic::Unit("Pa or micron difference"), "standard deviation of the readings from the line"),
        field("readings", Basic::Number, "how many readings"),
    ];
    Function::new(
        "rise_rate",
        "vacuum",
        "how fast pressure rises in a system shut off from the pump",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let (times, pressures) = (arguments.numbers("times")?, arguments.numbers("pressures")?);
            let line = Line::through(times, pressures).ok_or_else(|| {
                Failure::of("times", "a rate with its uncertainty needs three readings or more at different times")
            })?;
            Ok(Value::Record(vec![
                part(line.slope),
                part(2.0 * line.slope_uncertainty),
                part(line.scatter),
                part(times.len().min(pressures.len()) as f64),
            ]))
        }),
    )
    .takes(times())
    .takes(
        parameter("pressures", Accepts::column("Pa absolute"), "readings of a vacuum gauge")
            .within("0.001 Pa absolute", "200000 Pa absolute"),
    )
    .equation("least squares: Σ(t − t̄)(p − p̄)/Σ(t − t̄)²")
    .source("JCGM 100:2008 (GUM), H.3")
    .valid("a straight rise; a curve that bends has no one rate: see `hold_test`")
    .example(RISE, "20 micron/min")
    .caution(UNDER_VACUUM)
}

/// Times of readings, as durations from any beginning.
pub(super) fn times() -> Parameter {
    parameter("times", Accepts::column("min"), "when, from any beginning").within("-1 year", "10 year")
}

fn water_boiling_pressure() -> Function {
    Function::new(
        "water_boiling_pressure",
        "vacuum",
        "pressure at which water boils, or ice sublimes, at a temperature",
        Returns::unit("Pa absolute or micron"),
        Body::Numbers(|numbers| {
            let [t] = all(numbers)?;
            let found = water::vapor_pressure(quantity(t)).ok_or_else(|| {
                Failure::of("temperature", format!("water has no vapor pressure at {}", said_temperature(t)))
            })?;
            Ok(found.value)
        }),
    )
    .takes(parameter("temperature", Accepts::unit("degC"), "of the coldest spot").within("-100 degC", "370 degC"))
    .equation("saturation pressure of water from 0.01 °C up, sublimation pressure of ice below")
    .source("IAPWS R7-97 (2012), region 4; IAPWS R14-08 (2011)")
    .valid("pure water; at the coldest pipe it is the most that ice can push a gauge to: the driest that can be proven")
    .example("water_boiling_pressure(20 degC) as micron to 1", "17546 micron")
    .example("water_boiling_pressure(-24.48 degC) as micron to 1", "500 micron")
}

const PROVABLE: &str = "can be proven";
const NOT_PROVABLE: &str = "cannot prove dry at this temperature";

fn driest_provable() -> Function {
    let fields = vec![
        field(
            "pressure",
            Basic::Unit("Pa absolute or micron"),
            "the most that water or ice at the coldest pipe can push a gauge to",
        ),
        field("verdict", Basic::OneOf(&[PROVABLE, NOT_PROVABLE]), "whether the limit proves anything"),
        field("least_temperature", Basic::Unit("degC"), "coldest pipe at which the limit could be proven"),
    ];
    Function::new(
        "driest_provable",
        "vacuum",
        "whether a limit proves anything about dryness with so cold a pipe",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let coldest = arguments.number("coldest")?;
            let found = water::vapor_pressure(quantity(coldest)).ok_or_else(|| {
                Failure::of("coldest", format!("water has no vapor pressure at {}", said_temperature(coldest)))
            })?;
            let wanted: Pressure =
                given::<uom::si::pressure::Dimension>(arguments, "limit")? * arguments.number("times")?;
            let least = water::boiling_temperature(wanted)
                .ok_or_else(|| Failure::of("limit", "no ice has so little vapor pressure: no temperature helps"))?;
            let verdict = if found >= wanted { PROVABLE } else { NOT_PROVABLE };
            Ok(Value::Record(vec![part(found.value), part(verdict), part(least.value)]))
        }),
    )
    .takes(parameter("coldest", Accepts::unit("degC"), "temperature of the coldest pipe").within("-60 degC", "80 degC"))
    .takes(
        parameter("limit", Accepts::unit("Pa absolute"), "level to stay under")
            .within("1 Pa absolute", "10000 Pa absolute")
            .or("500 micron"),
    )
    .takes(
        parameter(
            "times",
            Accepts::One(Basic::Number),
            "how many times the limit ice must stand at; gauges read water up to twice too high",
        )
        .within("1", "10")
        .or("4"),
    )
    .equation("p_water(coldest) ≥ times · limit")
    .source(
        "IAPWS R7-97 (2012), region 4; IAPWS R14-08 (2011); four times: common practice, no source, as in `hold_test`",
    )
    .valid("below −24.5 °C ice cannot push a gauge past 500 micron; below 2 °C warm the lines or do it another day")
    .example("driest_provable(-5 degC).verdict", "can be proven")
    .example("driest_provable(-12 degC).verdict", "cannot prove dry at this temperature")
    .caution(UNDER_VACUUM)
}

fn water_boiling_temperature() -> Function {
    Function::new(
        "water_boiling_temperature",
        "vacuum",
        "temperature at which water boils, or ice sublimes, at a pressure",
        Returns::unit("degC"),
        Body::Numbers(|numbers| {
            let [p] = all(numbers)?;
            let found = water::boiling_temperature(quantity(p))
                .ok_or_else(|| Failure::of("pressure", format!("water does not boil at {}", said_pressure(p))))?;
            Ok(found.value)
        }),
    )
    .takes(
        parameter("pressure", Accepts::unit("kPaa"), "absolute; `micron` readings serve")
            .within("1e-6 kPaa", "21000 kPaa"),
    )
    .equation("inverse of `water_boiling_pressure`")
    .source("IAPWS R7-97 (2012), region 4; IAPWS R14-08 (2011)")
    .valid("pure water")
    .example("water_boiling_temperature(5000 micron) as degC to 0.1", "1.2 degC")
}

fn leak_throughput() -> Function {
    Function::new(
        "leak_throughput",
        "vacuum",
        "gas that comes in: volume times rate of rise",
        Returns::unit("Pa·m3/s or Pa·m3/s"),
        Body::Numbers(|numbers| {
            let [volume, rate] = all(numbers)?;
            Ok(volume * rate)
        }),
    )
    .takes(volume())
    .takes(
        parameter("rate", Accepts::unit("micron/min"), "straight part of the rise")
            .within("-1000000 micron/min", "1000000 micron/min"),
    )
    .equation("Q = V·dp/dt")
    .source("definition")
    .valid("a straight rise at one temperature; a rate alone says nothing without its volume")
    .example("leak_throughput(50 L, 20 micron/min) as Pa·m3/s to 0.000001", "0.002222 Pa·m3/s")
    .caution(UNDER_VACUUM)
}

fn dilution_factor() -> Function {
    Function::new(
        "dilution_factor",
        "vacuum",
        "share of the first gas that is left after pulling and breaking the vacuum",
        Returns::One(Basic::Number),
        Body::Numbers(|numbers| {
            let [broken, pulled, cycles] = all(numbers)?;
            if pulled >= broken {
                return Err(Failure::of("pulled_to", "each pull must go below the pressure it is broken to"));
            }
            Ok(libm::pow(pulled / broken, cycles))
        }),
    )
    .takes(
        parameter("broken_to", Accepts::unit("kPaa"), "pressure that dry nitrogen brings it to")
            .within("1 kPaa", "5000 kPaa"),
    )
    .takes(
        parameter("pulled_to", Accepts::unit("Pa absolute"), "pressure of each pull")
            .within("0.1 Pa absolute", "200000 Pa absolute"),
    )
    .takes(parameter("cycles", Accepts::One(Basic::Number), "how many pulls").within("1", "20"))
    .equation("(p_pulled / p_broken)^cycles, absolute")
    .source("mass balance of a well mixed gas")
    .valid("gas that mixes; it thins gas and takes no liquid water or ice away by itself")
    .example("dilution_factor(101.325 kPaa, 1500 micron, 3) * 1e9 > 7.68", "true")
    .caution(UNDER_VACUUM)
}

fn pull_time() -> Function {
    Function::new(
        "pull_time",
        "vacuum",
        "how long a pump takes through its hoses from one pressure to a lower one",
        Returns::unit("min"),
        Body::Values(pulled),
    )
    .takes(volume())
    .takes(parameter("pump_speed", Accepts::unit("L/s"), "free-air speed of the pump").within("0.01 L/s", "100 L/s"))
    .takes(parameter("hose_bore", Accepts::unit("mm"), "narrowest bore of the hose").within("1 mm", "100 mm"))
    .takes(parameter("hose_length", Accepts::unit("m"), "length of the hose").within("0.05 m", "100 m"))
    .takes(parameter("from", Accepts::unit("kPaa"), "pressure at the beginning").within("0.001 kPaa", "5000 kPaa"))
    .takes(
        parameter("down_to", Accepts::unit("Pa absolute"), "pressure to reach")
            .within("0.1 Pa absolute", "100000 Pa absolute"),
    )
    .takes(parameter("hoses", Accepts::One(Basic::Number), "hoses side by side").within("1", "4").or("1"))
    .takes(
        parameter("ultimate", Accepts::unit("Pa absolute"), "pressure that the pump reaches shut off")
            .within("0.001 Pa absolute", "1000 Pa absolute")
            .or("0.001 Pa absolute"),
    )
    .takes(parameter("ideal", Accepts::One(Basic::Flag), "true: the textbook figure without hoses").or("false"))
    .equation("dp/dt = −q/V; q through C = 135·d⁴·p̄/L + 12.1·d³/L (L/s; cm, mbar) in series with the pump")
    .source("vacuum textbooks, air at 20 °C, from memory")
    .valid("dry gas; water and outgassing take longer. Compare real pulls with it as advice only")
    .example("pull_time(50 L, 5 cfm, 9.53 mm, 1.5 m, 101.325 kPaa, 500 micron) as min to 0.1", "4.9 min")
    .example("pull_time(50 L, 5 cfm, 9.53 mm, 1.5 m, 101.325 kPaa, 500 micron, ideal = true) as min to 0.1", "2.6 min")
    .caution(UNDER_VACUUM)
}

fn pulled(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let pull = Pull {
        volume: given(arguments, "volume")?,
        speed: given(arguments, "pump_speed")?,
        hose: (given(arguments, "hose_bore")?, given(arguments, "hose_length")?),
        hoses: arguments.number("hoses")?,
        ultimate: given(arguments, "ultimate")?,
    };
    let (from, to): (Pressure, Pressure) = (given(arguments, "from")?, given(arguments, "down_to")?);
    if to >= from {
        return Err(Failure::of("down_to", "the pressure to reach is not below the one at the beginning"));
    }
    if to <= pull.ultimate {
        return Err(Failure::of("down_to", "the pump never reaches a pressure at or below its ultimate one"));
    }
    let time: Time = if arguments.flag("ideal")? { pull.ideal_time(from, to) } else { pull.time(from, to) };
    Ok(time.value.into())
}

fn equalising_time() -> Function {
    let function = Function::new(
        "equalising_time",
        "vacuum",
        "time constant with which the pressure beyond a pipe evens out",
        Returns::unit("min"),
        Body::Values(|arguments| {
            let bore = pick::tube(arguments)?.bore();
            let beyond: Volume = given(arguments, "volume_beyond")?;
            let (length, mean) = (given(arguments, "length")?, given(arguments, "pressure")?);
            Ok(tubing::equalising_time(bore, length, beyond, mean).value.into())
        }),
    )
    .takes(pick::od())
    .takes(parameter("length", Accepts::unit("m"), "length of the pipe").within("0.1 m", "1000 m"))
    .takes(parameter("volume_beyond", Accepts::unit("L"), "volume at its far end").within("0.01 L", "10000 L"))
    .takes(
        parameter("pressure", Accepts::unit("Pa absolute"), "mean pressure")
            .within("0.1 Pa absolute", "10000 Pa absolute"),
    );
    pick::temper_or_wall(function)
        .equation("τ = V/C, C = 135·d⁴·p̄/L + 12.1·d³/L (L/s; cm, mbar)")
        .source("vacuum textbooks, air at 20 °C, from memory")
        .valid("dry gas; after three time constants 5 % of the difference are left")
        .example("equalising_time(1/2 in, 60 m, 10 L, 500 micron) as min to 0.1", "6.6 min")
}

fn flow_regime() -> Function {
    let fields = vec![
        field("regime", Basic::OneOf(tubing::Regime::WORDS), "how the gas flows"),
        field("knudsen", Basic::Number, "mean free path over the bore"),
        field("free_path", Basic::Unit("mm or in"), "how far a molecule flies between two collisions"),
    ];
    Function::new(
        "flow_regime",
        "vacuum",
        "how air or nitrogen flows through a bore at a pressure",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let bore: Length = given(arguments, "bore")?;
            let free_path = tubing::mean_free_path(given(arguments, "pressure")?);
            let knudsen = (free_path / bore).value;
            Ok(Value::Record(vec![part(tubing::Regime::of(knudsen).name()), part(knudsen), part(free_path.value)]))
        }),
    )
    .takes(parameter("bore", Accepts::unit("mm"), "inside diameter").within("0.01 mm", "1000 mm"))
    .takes(
        parameter("pressure", Accepts::unit("Pa absolute"), "mean pressure, absolute")
            .within("0.001 Pa absolute", "200000 Pa absolute"),
    )
    .equation("Kn = λ/d, λ = 6.65e-3 Pa·m/p; viscous below 0.01, molecular above 0.5, transitional between")
    .source("kinetic theory, kT/(√2·π·d²·p) with d = 0.37 nm; the two limits by vacuum textbooks, from memory")
    .valid("air and nitrogen near 20 °C; other books put the upper limit at 1 and more")
    .example("flow_regime(9.53 mm, 500 micron).regime", "transitional")
}

/// The volume of the system.
pub(super) fn volume() -> Parameter {
    parameter("volume", Accepts::unit("L"), "volume of the system").within("0.001 L", "100000 L")
}
