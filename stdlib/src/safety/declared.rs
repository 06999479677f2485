//! The declarations of the safety functions: guarded always, with their caution, never called a pass.

use dewline_lang::library::{Accepts, Body, Failure, Function, Parameter, Returns, parameter};
use uom::si::f64::MassDensity;

use super::limits::flammability_limit as lower_limit;
use super::{floor_area_declared, rooms_declared};
use crate::parameters::of_refrigerant;
use crate::refrigerant::Refrigerant;
use crate::refusal::refrigerant;

const NOT_A_PERMIT: &str = "Arithmetic against the edition named, not a permit. Local code, the equipment listing and a \
                            licensed practitioner decide. Beyond the limit means stop; within it does not mean safe.";

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    let mut all = rooms_declared::functions();
    all.push(flammability_limit());
    all.extend(floor_area_declared::functions());
    all
}

pub(super) fn guarded(name: &'static str, gives: &'static str, returns: Returns, body: Body) -> Function {
    Function::new(name, "safety", gives, returns, body).caution(NOT_A_PERMIT).safety()
}

pub(super) fn charge() -> Parameter {
    parameter("mass", Accepts::unit("kg"), "charge of the whole system, not of a branch").within("0 kg", "100000 kg")
}

fn flammability_limit() -> Function {
    guarded(
        "flammability_limit",
        "lower flammability limit",
        Returns::unit("kg/m3 or lb/ft3"),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            Ok(flammability(r)?.value.into())
        }),
    )
    .takes(of_refrigerant())
    .equation("table")
    .source("EN 378-1:2016+A1:2020 by a transcription; some from memory")
    .valid("at 23 °C and 101.3 kPa")
    .example("flammability_limit(R-32) as kg/m3", "0.307 kg/m3")
}

pub(super) fn flammability(r: Refrigerant) -> Result<MassDensity, Failure> {
    lower_limit(r).ok_or_else(|| {
        let message = match r.safety_group() {
            Some("A1" | "B1") => format!("{} does not burn: it has no lower flammability limit", r.designation()),
            _ => format!("no lower flammability limit of {} is built in", r.designation()),
        };
        Failure::of("refrigerant", message)
    })
}
