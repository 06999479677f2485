//! The declarations of the safety functions: guarded always, with their caution, never called a pass.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, parameter,
};
use uom::si::f64::{Mass, MassDensity};

use super::floor_area::{Rule, charge_steps, least_area, most_charge};
use super::limits::flammability_limit as lower_limit;
use super::rooms_declared;
use crate::parameters::of_refrigerant;
use crate::refrigerant::Refrigerant;
use crate::refusal::refrigerant;
use crate::seam::{given, maybe, part};

const NOT_A_PERMIT: &str = "Arithmetic against the edition named, not a permit. Local code, the equipment listing and a \
                            licensed practitioner decide. Beyond the limit means stop; within it does not mean safe.";

const AREA_EDITIONS: &[&str] = &[Rule::NAMES[0], Rule::NAMES[1], "as stated"];

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    let mut all = rooms_declared::functions();
    all.extend([flammability_limit(), a2l_charge_bounds(), a2l_floor_area(), a2l_most_charge()]);
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

fn flammability(r: Refrigerant) -> Result<MassDensity, Failure> {
    lower_limit(r).ok_or_else(|| {
        let message = match r.safety_group() {
            Some("A1" | "B1") => format!("{} does not burn: it has no lower flammability limit", r.designation()),
            _ => format!("no lower flammability limit of {} is built in", r.designation()),
        };
        Failure::of("refrigerant", message)
    })
}

/// What a call of a floor-area rule goes by.
struct Ruled {
    flammability: MassDensity,
    rule: Rule,
    edition: String,
}

/// The rule of a call for a refrigerant of group A2L, which the floor-area rule is for.
fn ruled(arguments: &Arguments<'_>) -> Result<Ruled, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    if r.safety_group() != Some("A2L") {
        let group = r.safety_group().unwrap_or("unknown");
        return Err(Failure::of(
            "refrigerant",
            format!("{} is of group {group}: this rule is for A2L only", r.designation()),
        ));
    }
    let source = arguments.text("source")?.trim();
    let sourced = |what: &'static str| {
        Failure::of(what, format!("`{what}` needs its source")).with_mend("add `source = \"standard and edition\"`")
    };
    let own: Option<MassDensity> = maybe(arguments, "stated_flammability");
    let flammability = match own {
        Some(_) if source.is_empty() => return Err(sourced("stated_flammability")),
        Some(own) => own,
        None => flammability(r)?,
    };
    let name = arguments.text("edition")?;
    let steps = ["step_1", "step_2", "step_3"].map(|name| arguments.maybe_number(name));
    let (rule, mut edition) = match (Rule::named(name), steps) {
        (Some(rule), [None, None, None]) => (rule, name.to_string()),
        (Some(_), _) => {
            return Err(Failure::of("step_1", format!("stated steps and those of {name} would be mixed"))
                .with_mend("write `edition = \"as stated\"`"));
        }
        (None, [Some(first), Some(second), Some(third)]) if first < second && second < third => {
            if source.is_empty() {
                return Err(sourced("step_1"));
            }
            (Rule { steps: [first, second, third], capped: arguments.flag("capped")? }, source.to_string())
        }
        (None, _) => {
            return Err(Failure::of("edition", "an edition as stated needs its three steps, and they must rise")
                .with_mend("add `step_1 = … m3, step_2 = … m3, step_3 = … m3, source = \"…\"`"));
        }
    };
    if own.is_some() && Rule::named(name).is_some() {
        edition = format!("{edition}; flammability: {source}");
    }
    Ok(Ruled { flammability, rule, edition })
}

fn area_edition() -> Parameter {
    parameter("edition", Accepts::Choice(AREA_EDITIONS), "standard and edition; never mix them")
}

/// Optional ones come last, so that the others can be given by their order.
fn of_stated(function: Function) -> Function {
    let step = |name, about| parameter(name, Accepts::unit("m3"), about).within("0.1 m3", "10000 m3").optional();
    function
        .takes(
            parameter("stated_flammability", Accepts::unit("kg/m3"), "lower flammability limit of your own table")
                .within("0.001 kg/m3", "10 kg/m3")
                .optional(),
        )
        .takes(step("step_1", "with `edition = \"as stated\"`: m1 over the flammability limit"))
        .takes(step("step_2", "m2 over it"))
        .takes(step("step_3", "m3 over it"))
        .takes(
            parameter("capped", Accepts::One(Basic::Flag), "as stated: 0.75·LFL·h·A bounds the charge too").or("true"),
        )
        .takes(parameter("source", Accepts::One(Basic::Text), "standard and edition of what is stated").or("\"\""))
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
        field("flammability", Basic::Unit("kg/m3 or lb/ft3"), "lower flammability limit that was used"),
        field("edition", Basic::Text, "standard and edition"),
    ];
    let function = guarded(
        "a2l_charge_bounds",
        "the three steps of charge of an A2L refrigerant",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let Ruled { flammability, rule, edition } = ruled(arguments)?;
            let mut parts: Vec<Result<Value, Failure>> =
                charge_steps(flammability, rule).iter().map(|step| part(step.value)).collect();
            parts.extend([part(flammability.value), part(edition)]);
            Ok(Value::Record(parts))
        }),
    )
    .takes(of_refrigerant())
    .takes(area_edition());
    of_stated(function)
        .equation("IEC ed. 6: 6, 52, 260 m3 · LFL; EN 378-1: 6, 39, 195 m3 · LFL")
        .source("IEC 60335-2-40 ed. 6 (2018) and EN 378-1:2016, from memory: check the edition in force")
        .valid("group A2L")
        .example("a2l_charge_bounds(R-32, \"IEC 60335-2-40 ed. 6\").m2 as kg to 0.01", "15.96 kg")
}

fn a2l_floor_area() -> Function {
    let fields = vec![
        field("area", Basic::Unit("m2 or ft2"), "least floor area"),
        field("flammability", Basic::Unit("kg/m3 or lb/ft3"), "lower flammability limit that was used"),
        field("edition", Basic::Text, "standard and edition"),
    ];
    let function = guarded(
        "a2l_floor_area",
        "least floor area of a room without ventilation for a charge of an A2L refrigerant",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let Ruled { flammability, rule, edition } = ruled(arguments)?;
            let mass: Mass = given(arguments, "mass")?;
            let [first, second, _] = charge_steps(flammability, rule);
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
            let area = least_area(flammability, given(arguments, "release_height")?, mass, rule);
            Ok(Value::Record(vec![part(area.value), part(flammability.value), part(edition)]))
        }),
    )
    .takes(of_refrigerant())
    .takes(charge())
    .takes(height())
    .takes(area_edition());
    of_stated(function)
        .equation("A = (m/(2.5·LFL^1.25·h))², by IEC ed. 6 not less than m/(0.75·LFL·h); kg, m, m2")
        .source(
            "IEC 60335-2-40 ed. 6 (2018) and EN 378-1:2016, from memory: check the edition in force, or state your own",
        )
        .valid("m1 < m ≤ m2, room without ventilation; whole-system charge counts")
        .example("a2l_floor_area(R-454B, 3 kg, 1.8 m, \"IEC 60335-2-40 ed. 6\").area as m2 to 0.001", "9.245 m2")
}

fn a2l_most_charge() -> Function {
    let fields = vec![
        field("most", Basic::Unit("kg or lb"), "most charge"),
        field("flammability", Basic::Unit("kg/m3 or lb/ft3"), "lower flammability limit that was used"),
        field("edition", Basic::Text, "standard and edition"),
    ];
    let function = guarded(
        "a2l_most_charge",
        "most charge of an A2L refrigerant for a floor area, up to m2",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let Ruled { flammability, rule, edition } = ruled(arguments)?;
            let most = most_charge(flammability, given(arguments, "release_height")?, given(arguments, "area")?, rule);
            let [_, second, _] = charge_steps(flammability, rule);
            let most = if most < second { most } else { second };
            Ok(Value::Record(vec![part(most.value), part(flammability.value), part(edition)]))
        }),
    )
    .takes(of_refrigerant())
    .takes(parameter("area", Accepts::unit("m2"), "floor of the room").within("0.1 m2", "100000 m2"))
    .takes(height())
    .takes(area_edition());
    of_stated(function)
        .equation("m = 2.5·LFL^1.25·h·√A, by IEC ed. 6 not more than 0.75·LFL·h·A; m2 at most")
        .source(
            "IEC 60335-2-40 ed. 6 (2018) and EN 378-1:2016, from memory: check the edition in force, or state your own",
        )
        .valid("room without ventilation")
        .example("a2l_most_charge(R-32, 20 m2, 1.8 m, \"IEC 60335-2-40 ed. 6\").most as kg to 0.001", "4.599 kg")
}
