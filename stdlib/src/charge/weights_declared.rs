//! The declarations of what is weighed.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, parameter,
};

use super::warming::{Report, potential};
use crate::parameters::of_refrigerant;
use crate::pipe::LIQUID_FULL;
use crate::refusal::refrigerant;
use crate::seam::{all, part};

/// s
const DAY: f64 = 86_400.0;
/// Days.
const YEAR: f64 = 365.0;

/// The functions of weights.
pub(super) fn functions() -> Vec<Function> {
    vec![factor_charge(), charge_balance(), cylinders_needed(), co2_equivalent(), annual_leak_rate()]
}

/// A mass of refrigerant.
pub(super) fn mass(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("kg"), about).within("0 kg", "100000 kg")
}

fn factor_charge() -> Function {
    Function::new(
        "factor_charge",
        "charge",
        "charge of a line by a factor typed in from the unit's own document",
        Returns::unit("kg or lb"),
        Body::Numbers(|numbers| {
            let [length, factor] = all(numbers)?;
            Ok(length * factor)
        }),
    )
    .takes(parameter("length", Accepts::unit("m"), "length of liquid line one way, as laid").within("0 m", "10000 m"))
    .takes(
        parameter("factor", Accepts::unit("kg/m"), "charge for each length, from the document")
            .within("0 kg/m", "10 kg/m"),
    )
    .equation("length · factor")
    .source("the unit's own document")
    .valid("the factor's own line size; length as laid, never the equivalent length")
    .example("factor_charge(85 ft, 0.6 oz/ft) as oz", "51 oz")
    .caution(LIQUID_FULL)
}

fn charge_balance() -> Function {
    Function::new(
        "charge_balance",
        "charge",
        "mass given from a cylinder on a scale",
        Returns::unit("kg or lb"),
        Body::Numbers(|numbers| {
            let [start, end] = all(numbers)?;
            if end > start {
                return Err(Failure::of(
                    "end_weight",
                    "the cylinder got heavier: weights swapped, or refrigerant recovered?",
                ));
            }
            Ok(start - end)
        }),
    )
    .takes(mass("start_weight", "of the cylinder before"))
    .takes(mass("end_weight", "of the cylinder after"))
    .equation("start − end")
    .source("mass balance")
    .valid("same hoses, emptied, on one scale")
    .example("charge_balance(31.4 lb, 24.1 lb) as lb to 0.1", "7.3 lb")
    .caution(LIQUID_FULL)
}

fn cylinders_needed() -> Function {
    Function::new(
        "cylinders_needed",
        "charge",
        "whole cylinders that hold a mass",
        Returns::One(Basic::Number),
        Body::Numbers(|numbers| {
            let [mass, net] = all(numbers)?;
            // 24 lb in cylinders of 8 lb are three, though the last bit may say a little more.
            Ok((mass / net - 1e-9).ceil().max(0.0))
        }),
    )
    .takes(mass("mass", "to be charged"))
    .takes(parameter("net", Accepts::unit("kg"), "net content of one").within("0.05 kg", "2000 kg"))
    .equation("mass / net, rounded up")
    .source("definition")
    .valid("content that can be drawn: some stays in the cylinder")
    .example("cylinders_needed(52 lb, 25 lb)", "3")
}

fn co2_equivalent() -> Function {
    let fields = vec![
        field("potential", Basic::Number, "warming potential over 100 years, mass of carbon dioxide for each mass"),
        field("equivalent", Basic::Unit("kg or kg"), "mass of carbon dioxide that warms as much"),
    ];
    Function::new(
        "co2_equivalent",
        "charge",
        "carbon dioxide that warms as much as a charge",
        Returns::Record(fields),
        Body::Values(warming),
    )
    .takes(of_refrigerant())
    .takes(mass("mass", "charge"))
    .takes(parameter(
        "basis",
        Accepts::Choice(&["AR4", "AR5", "AR6"]),
        "report of the IPCC; the rule that you serve names it",
    ))
    .equation("mass · Σ share by mass · potential of the component")
    .source("IPCC AR4 (2007), AR5 (2013), AR6 (2021) by public tables; R-1234ze(E), and R-290 of AR6, from memory")
    .valid("components with a figure built in: R-22, 23, 32, 125, 134a, 143a, 152a, 227ea, 290, 744, 1234yf, 1234ze(E)")
    .example("co2_equivalent(R-32, 8 kg, basis = \"AR4\").equivalent as tonne", "5.4 tonne")
}

fn warming(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let report = match arguments.text("basis")? {
        "AR4" => Report::Ar4,
        "AR5" => Report::Ar5,
        _ => Report::Ar6,
    };
    let found = potential(r.composition(), report).map_err(|component| {
        let whole = if r.is_pure() { String::new() } else { format!(", so none of {}", r.designation()) };
        let message = format!("no warming potential of {component} is built in{whole}");
        Failure::of("refrigerant", message).with_mend("multiply the mass by the figure of the rule that you serve")
    })?;
    Ok(Value::Record(vec![part(found), part(found * arguments.number("mass")?)]))
}

fn annual_leak_rate() -> Function {
    Function::new(
        "annual_leak_rate",
        "charge",
        "leak rate of a year by what was added",
        Returns::unit("%"),
        Body::Numbers(|numbers| {
            let [added, full, period] = all(numbers)?;
            let days = period / DAY;
            Ok(added / full * YEAR / days.min(YEAR))
        }),
    )
    .takes(mass("added", "refrigerant added"))
    .takes(parameter("full_charge", Accepts::unit("kg"), "full charge").within("0.01 kg", "100000 kg"))
    .takes(parameter("period", Accepts::unit("day"), "since the last addition").within("1 day", "3650 day"))
    .equation("added/full · 365/min(days, 365)")
    .source("40 CFR 82.152, annualizing method, seen second-hand")
    .valid("trigger rates by use and edition are the rule's: compare with those in force")
    .example("annual_leak_rate(1.8 kg, 22 kg, 90 day) as % to 0.1", "33.2 %")
}
