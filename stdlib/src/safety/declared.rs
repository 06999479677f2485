//! The declarations of the safety functions: guarded always, with their caution, never called a pass.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, parameter,
};
use uom::si::f64::{Mass, MassDensity};

use super::floor_area::{self, charge_steps, least_area, most_charge};
use super::limits::flammability_limit as lower_limit;
use super::rooms_declared;
use crate::refrigerant::Refrigerant;
use crate::refusal::refrigerant;
use crate::seam::{given, part};

const NOT_A_PERMIT: &str = "Arithmetic against the edition named, not a permit. Local code, the equipment listing and a \
                            licensed practitioner decide. Beyond the limit means stop; within it does not mean safe.";

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    let mut all = rooms_declared::functions();
    all.extend([flammability_limit(), a2l_charge_bounds(), a2l_floor_area(), a2l_most_charge()]);
    all
}

pub(super) fn guarded(name: &'static str, gives: &'static str, returns: Returns, body: Body) -> Function {
    Function::new(name, "safety", gives, returns, body).caution(NOT_A_PERMIT).safety()
}

pub(super) fn of_refrigerant() -> Parameter {
    parameter("refrigerant", Accepts::One(Basic::Refrigerant), "refrigerant")
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

fn flammability(r: Refrigerant) -> Result<MassDensity, Failure> {
    lower_limit(r).ok_or_else(|| {
        let message = match r.safety_group() {
            Some("A1" | "B1") => format!("{} does not burn: it has no lower flammability limit", r.designation()),
            _ => format!("no lower flammability limit of {} is built in", r.designation()),
        };
        Failure::of("refrigerant", message)
    })
}

/// The flammability of a refrigerant of group A2L, which the floor-area rule is for.
fn mildly_flammable(arguments: &Arguments<'_>) -> Result<MassDensity, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let limit = flammability(r)?;
    match r.safety_group() {
        Some("A2L") => Ok(limit),
        group => Err(Failure::of(
            "refrigerant",
            format!("{} is of group {}: this rule is for A2L only", r.designation(), group.unwrap_or("unknown")),
        )),
    }
}

fn area_edition() -> Parameter {
    parameter("edition", Accepts::Choice(floor_area::Edition::NAMES), "standard and edition; never mix them")
}

fn height() -> Parameter {
    parameter("release_height", Accepts::unit("m"), "floor 0.6, window 1.0, wall 1.8, ceiling 2.2 m")
        .within("0.6 m", "2.2 m")
}

fn a2l_charge_bounds() -> Function {
    let fields = vec![
        field("m1", Basic::Unit("kg or lb"), "below: no floor area is asked for"),
        field("m2", Basic::Unit("kg or lb"), "above: the floor-area rule does not hold"),
        field("m3", Basic::Unit("kg or lb"), "above: not in occupied rooms by this rule"),
    ];
    guarded(
        "a2l_charge_bounds",
        "the three steps of charge of an A2L refrigerant",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let limit = mildly_flammable(arguments)?;
            let steps = charge_steps(limit, floor_area::Edition::named(arguments.text("edition")?));
            Ok(Value::Record(steps.iter().map(|step| part(step.value)).collect()))
        }),
    )
    .takes(of_refrigerant())
    .takes(area_edition())
    .equation("IEC ed. 6: 6, 52, 260 m3 · LFL; EN 378-1: 6, 39, 195 m3 · LFL")
    .source("IEC 60335-2-40 ed. 6 (2018) and EN 378-1:2016, from memory: check the edition in force")
    .valid("group A2L")
    .example("a2l_charge_bounds(R-32, \"IEC 60335-2-40 ed. 6\").m2 as kg to 0.01", "15.96 kg")
}

fn a2l_floor_area() -> Function {
    guarded(
        "a2l_floor_area",
        "least floor area of a room without ventilation for a charge of an A2L refrigerant",
        Returns::unit("m2 or ft2"),
        Body::Values(|arguments| {
            let limit = mildly_flammable(arguments)?;
            let edition = floor_area::Edition::named(arguments.text("edition")?);
            let mass: Mass = given(arguments, "mass")?;
            let [first, second, _] = charge_steps(limit, edition);
            let kilograms = mass.value;
            if mass > second {
                let message = format!(
                    "{kilograms:.1} kg are above m2 = {:.1} kg: the floor-area rule does not hold",
                    second.value
                );
                return Err(
                    Failure::of("mass", message).with_mend("ventilation, detection or less charge: see the standard")
                );
            }
            if mass <= first {
                let message =
                    format!("{kilograms:.2} kg are not above m1 = {:.2} kg: no floor area is asked for", first.value);
                return Err(Failure::of("mass", message));
            }
            Ok(least_area(limit, given(arguments, "release_height")?, mass, edition).value.into())
        }),
    )
    .takes(of_refrigerant())
    .takes(charge())
    .takes(height())
    .takes(area_edition())
    .equation("A = (m/(2.5·LFL^1.25·h))², by IEC ed. 6 not less than m/(0.75·LFL·h); kg, m, m2")
    .source("IEC 60335-2-40 ed. 6 (2018) and EN 378-1:2016, from memory: check the edition in force")
    .valid("m1 < m ≤ m2, room without ventilation; whole-system charge counts")
    .example("a2l_floor_area(R-454B, 3 kg, 1.8 m, \"IEC 60335-2-40 ed. 6\") as m2 to 0.001", "9.245 m2")
}

fn a2l_most_charge() -> Function {
    guarded(
        "a2l_most_charge",
        "most charge of an A2L refrigerant for a floor area, up to m2",
        Returns::unit("kg or lb"),
        Body::Values(|arguments| {
            let limit = mildly_flammable(arguments)?;
            let edition = floor_area::Edition::named(arguments.text("edition")?);
            let most = most_charge(limit, given(arguments, "release_height")?, given(arguments, "area")?, edition);
            let [_, second, _] = charge_steps(limit, edition);
            Ok((if most < second { most } else { second }).value.into())
        }),
    )
    .takes(of_refrigerant())
    .takes(parameter("area", Accepts::unit("m2"), "floor of the room").within("0.1 m2", "100000 m2"))
    .takes(height())
    .takes(area_edition())
    .equation("m = 2.5·LFL^1.25·h·√A, by IEC ed. 6 not more than 0.75·LFL·h·A; m2 at most")
    .source("IEC 60335-2-40 ed. 6 (2018) and EN 378-1:2016, from memory: check the edition in force")
    .valid("room without ventilation")
    .example("a2l_most_charge(R-32, 20 m2, 1.8 m, \"IEC 60335-2-40 ed. 6\") as kg to 0.001", "4.599 kg")
}
