//! The declarations of what is measured on a motor at rest.

use dewline_lang::library::{Accepts, Body, Failure, Function, Parameter, Returns, parameter};
use uom::si::f64::ThermodynamicTemperature;

use super::motor::{insulation_at as at_temperature, winding_unbalance};
use crate::circuit::superheat::difference;
use crate::seam::{all, given};

const AT_REST: &str = "No insulation test under vacuum. Drive and board disconnected for insulation tests. Stored charge: \
                       wait, then measure < 50 V.";

/// The functions of motors at rest.
pub(super) fn functions() -> Vec<Function> {
    vec![winding_balance(), insulation_at(), insulation_least()]
}

fn winding(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("ohm"), about).within("0 ohm", "100000 ohm")
}

fn winding_balance() -> Function {
    Function::new(
        "winding_balance",
        "electrical",
        "unbalance of three windings, leads taken off",
        Returns::unit("%"),
        Body::Numbers(|numbers| {
            let [a, b, c, lead] = all(numbers)?;
            winding_unbalance([a, b, c], lead)
                .ok_or_else(|| Failure::new("a winding reads no more than its leads: a short, or the wrong `lead`?"))
        }),
    )
    .takes(winding("a", "first winding"))
    .takes(winding("b", "second winding"))
    .takes(winding("c", "third winding"))
    .takes(winding("lead", "resistance of the test leads").or("0 ohm"))
    .equation("max |R − mean| / mean")
    .source("common practice, no source; 3 % is a usual limit")
    .valid("motor cold and off; below 1 Ω a meter with four wires is needed")
    .example("winding_balance(1.34 ohm, 1.34 ohm, 1.40 ohm, lead = 0.1 ohm) as % to 0.01", "3.17 %")
    .caution(AT_REST)
}

fn insulation_at() -> Function {
    Function::new(
        "insulation_at",
        "electrical",
        "insulation resistance as it would be at another temperature",
        Returns::unit("Mohm or Mohm"),
        Body::Values(|arguments| {
            let (t, to): (ThermodynamicTemperature, ThermodynamicTemperature) =
                (given(arguments, "temperature")?, given(arguments, "to")?);
            Ok(at_temperature(given(arguments, "resistance")?, difference(to, t)).value.into())
        }),
    )
    .takes(parameter("resistance", Accepts::unit("Mohm"), "as measured").within("0 Mohm", "1000000 Mohm"))
    .takes(
        parameter("temperature", Accepts::unit("degC"), "of the winding when measured").within("-40 degC", "150 degC"),
    )
    .takes(
        parameter("to", Accepts::unit("degC"), "temperature to compare at")
            .within("-40 degC", "150 degC")
            .or("40 degC"),
    )
    .equation("R·0.5^((to − t)/10 K)")
    .source("halving with every 10 K: common practice, no source")
    .valid("dry windings above the dew point")
    .example("insulation_at(80 Mohm, 20 degC) as Mohm", "20 Mohm")
    .caution(AT_REST)
}

fn insulation_least() -> Function {
    Function::new(
        "insulation_least",
        "electrical",
        "least insulation resistance at 40 °C before a motor may be started",
        Returns::unit("Mohm or Mohm"),
        Body::Values(|arguments| {
            let volts = arguments.number("rated")?;
            // IEEE 43: random-wound motors below 1 kV, or the older rule of a megohm and one for each kilovolt.
            let newer = arguments.text("edition")? == "2000 and later";
            Ok(if newer { 5e6 } else { (volts / 1e3 + 1.0) * 1e6 }.into())
        }),
    )
    .takes(parameter("rated", Accepts::unit("V"), "rated voltage").within("0 V", "1000 V"))
    .takes(parameter("edition", Accepts::Choice(&["2000 and later", "1974"]), "edition of IEEE 43"))
    .equation("2000 and later: 5 MΩ; 1974: (kV + 1) MΩ")
    .source("IEEE 43, seen second-hand: check the standard")
    .valid("random-wound motors below 1 kV; hermetic motors in refrigerant read lower: the unit's own document comes first")
    .example("insulation_least(460 V, \"1974\") as Mohm", "1.46 Mohm")
    .caution(AT_REST)
}
