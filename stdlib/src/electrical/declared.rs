//! The declarations of the electrical functions.

use dewline_lang::library::{Accepts, Body, Failure, Function, Returns, parameter};

use super::unbalance::unbalance;
use crate::seam::all;

const LIVE_PARTS: &str = "Live parts: measure only if you are qualified for it, with instruments rated for the place; \
                          local code comes first.";

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    vec![voltage_unbalance(), current_unbalance()]
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
