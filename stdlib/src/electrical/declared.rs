//! The declarations of the electrical functions.

use dewline_lang::library::{Accepts, Basic, Body, Failure, Function, Parameter, Returns, Value, field, parameter};

use super::unbalance::unbalance;
use super::{motor_declared, supply};
use crate::seam::{all, given, part};

/// Printed with what is measured under voltage.
pub(super) const LIVE_PARTS: &str = "Live parts: measure only if you are qualified for it, with instruments rated for the place; \
                          local code comes first.";

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    let mut all = vec![
        voltage_unbalance(),
        current_unbalance(),
        motor_derating(),
        three_phase_power(),
        bus_voltage(),
        voltage_drop(),
    ];
    all.extend(motor_declared::functions());
    all
}

fn voltage_unbalance() -> Function {
    Function::new(
        "voltage_unbalance",
        "electrical",
        "greatest distance of three line-to-line voltages from their mean, as a share of it",
        Returns::unit("%"),
        Body::Numbers(|volts| of_three(volts, "voltages")),
    )
    .takes(parameter("a", Accepts::unit("V"), "first line-to-line voltage").within("0 V", "1000 V"))
    .takes(parameter("b", Accepts::unit("V"), "second line-to-line voltage").within("0 V", "1000 V"))
    .takes(parameter("c", Accepts::unit("V"), "third line-to-line voltage").within("0 V", "1000 V"))
    .equation("max |V − mean| / mean")
    .source("NEMA MG 1")
    .valid(
        "line-to-line voltages of a three-phase supply; up to 1 % needs no derating, above 5 % a motor shall not run",
    )
    .example("voltage_unbalance(460 V, 467 V, 450 V) as % to 0.01", "1.96 %")
    .caution(LIVE_PARTS)
}

fn current_unbalance() -> Function {
    Function::new(
        "current_unbalance",
        "electrical",
        "greatest distance of three line currents from their mean, as a share of it",
        Returns::unit("%"),
        Body::Numbers(|amperes| of_three(amperes, "currents")),
    )
    .takes(parameter("a", Accepts::unit("A"), "first line current").within("0 A", "10000 A"))
    .takes(parameter("b", Accepts::unit("A"), "second line current").within("0 A", "10000 A"))
    .takes(parameter("c", Accepts::unit("A"), "third line current").within("0 A", "10000 A"))
    .equation("max |I − mean| / mean")
    .source("same form as NEMA MG 1 for voltages; a limit of 10 % is common practice, no source")
    .valid("line currents under steady load; 6 to 10 times the voltage unbalance is to be expected")
    .example("current_unbalance(22.1 A, 24.0 A, 25.4 A) as % to 0.01", "7.27 %")
    .caution(LIVE_PARTS)
}

fn of_three(values: &[f64], what: &str) -> Result<f64, Failure> {
    unbalance(all(values)?).ok_or_else(|| Failure::new(format!("all three {what} are nought: is the supply off?")))
}

fn motor_derating() -> Function {
    Function::new(
        "motor_derating",
        "electrical",
        "share of its rating that a motor may be loaded to at a voltage unbalance",
        Returns::unit("%"),
        Body::Numbers(|numbers| {
            let [unbalance] = all(numbers)?;
            supply::motor_derating(unbalance).ok_or_else(|| {
                Failure::of(
                    "unbalance",
                    format!("a motor shall not run above 5 % of unbalance; asked at {:.2} %", unbalance * 100.0),
                )
            })
        }),
    )
    .takes(parameter("unbalance", Accepts::unit("%"), "voltage unbalance").within("0 %", "100 %"))
    .equation("straight between 1 % 1.00, 2 % 0.95, 3 % 0.89, 4 % 0.82, 5 % 0.75")
    .source("NEMA MG 1, 14.36, read off its figure from memory, ±0.01: check the standard")
    .valid("0 to 5 %; motors on the mains, not behind a drive")
    .example("motor_derating(2 %) as %", "95 %")
    .caution(LIVE_PARTS)
}

fn voltage(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("V"), about).within("0 V", "1000 V")
}

fn current() -> Parameter {
    parameter("current", Accepts::unit("A"), "line current").within("0 A", "10000 A")
}

fn three_phase_power() -> Function {
    Function::new(
        "three_phase_power",
        "electrical",
        "power of a balanced three-phase load",
        Returns::unit("kW or kW"),
        Body::Values(|arguments| {
            let power_factor = arguments.number("power_factor")?;
            Ok(supply::three_phase_power(given(arguments, "line")?, given(arguments, "current")?, power_factor)
                .value
                .into())
        }),
    )
    .takes(voltage("line", "line-to-line voltage"))
    .takes(current())
    .takes(parameter("power_factor", Accepts::One(Basic::Number), "power factor").within("0", "1"))
    .equation("√3·V·I·power factor")
    .source("definition")
    .valid("balanced sine-wave load")
    .example("three_phase_power(400 V, 20 A, 0.9) as kW to 0.001", "12.471 kW")
    .caution(LIVE_PARTS)
}

fn bus_voltage() -> Function {
    let fields = vec![
        field("peak", Basic::Unit("V"), "at no load"),
        field("loaded", Basic::Unit("V"), "mean of six pulses under load"),
    ];
    Function::new(
        "bus_voltage",
        "electrical",
        "voltage of the direct-current link behind a three-phase rectifier",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let (peak, loaded) = supply::bus_voltage(given(arguments, "line")?);
            Ok(Value::Record(vec![part(peak.value), part(loaded.value)]))
        }),
    )
    .takes(voltage("line", "line-to-line voltage"))
    .equation("√2·V at no load, 3·√2/π·V under load")
    .source("ideal six-pulse rectifier; ±10 % is common practice, no source")
    .valid("passive three-phase rectifiers; an active single-phase stage sets its own voltage")
    .example("bus_voltage(400 V).peak as V to 0.1", "565.7 V")
    .caution(LIVE_PARTS)
    .caution("Stored charge: wait, then measure below 50 V before touching the board.")
}

fn voltage_drop() -> Function {
    Function::new(
        "voltage_drop",
        "electrical",
        "voltage lost in a copper cable",
        Returns::unit("V"),
        Body::Values(|arguments| {
            let three = arguments.text("phases")? == "three";
            let (length, current) = (given(arguments, "length")?, given(arguments, "current")?);
            let (section, t) = (given(arguments, "section")?, given(arguments, "conductor_temperature")?);
            Ok(supply::voltage_drop(length, current, section, t, three).value.into())
        }),
    )
    .takes(parameter("length", Accepts::unit("m"), "length one way").within("0 m", "10000 m"))
    .takes(current())
    .takes(
        parameter("section", Accepts::unit("mm2"), "cross-section of a conductor; `cmil` serves")
            .within("0.1 mm2", "2000 mm2"),
    )
    .takes(parameter("phases", Accepts::Choice(&["one", "three"]), "how the load is fed"))
    .takes(
        parameter("conductor_temperature", Accepts::unit("degC"), "of the copper under load")
            .within("-40 degC", "120 degC")
            .or("70 degC"),
    )
    .equation("one phase 2·L·I·ρ/A, three phases √3·L·I·ρ/A; ρ = 1.7241e-8 Ω·m·(1 + 0.00393·(t − 20 °C))")
    .source("IEC 60028 for copper, from memory; 3 % on a branch and 5 % in all are the NEC's informational note")
    .valid("resistance only: reactance counts from about 50 mm2 up")
    .example("voltage_drop(30 m, 20 A, 4 mm2, \"one\", conductor_temperature = 20 degC) as V to 0.001", "5.172 V")
    .caution(LIVE_PARTS)
}
