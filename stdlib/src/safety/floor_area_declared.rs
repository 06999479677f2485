//! The declarations of charge by floor area: steps of charge, least area, most charge.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, parameter,
};
use uom::si::f64::{Mass, MassDensity};

use super::declared::{charge, flammability, guarded};
use super::floor_area::{Rule, charge_steps, least_area, most_charge};
use crate::parameters::of_refrigerant;
use crate::refusal::refrigerant;
use crate::seam::{given, maybe, part};

const AS_STATED: &str = "as stated";

/// Refrigerants that one set of rules is for.
struct Class {
    groups: &'static [&'static str],
    /// As a refusal says it.
    named: &'static str,
    editions: &'static [&'static str],
}

const A2L: Class =
    Class { groups: &["A2L"], named: "A2L", editions: &["IEC 60335-2-40 ed. 6", "EN 378-1:2016", AS_STATED] };

const A2_OR_A3: Class = Class {
    groups: &["A2", "A3"],
    named: "A2 and A3",
    editions: &["IEC 60335-2-40 ed. 5", "EN 378-1:2016", AS_STATED],
};

const OF_A3: &str = "IEC 60335-2-40 ed. 5 and EN 378-1:2016, from memory: later editions allow other charges on conditions; \
                     check the edition in force, or state your own";
const LISTING_OF_A3: &str = "A2 and A3 burn and explode: whether a system with joints made on site may hold them at all is for \
                             its listing and local code to say, not for this figure.";

/// The functions of charge by floor area.
pub(super) fn functions() -> Vec<Function> {
    vec![
        a2l_charge_bounds(),
        a2l_floor_area(),
        a2l_most_charge(),
        a3_charge_bounds(),
        a3_floor_area(),
        a3_most_charge(),
    ]
}

/// What a call of a floor-area rule goes by.
struct Ruled {
    flammability: MassDensity,
    rule: Rule,
    edition: String,
}

/// The rule of a call for a refrigerant of a group that the rules of the class are for.
fn ruled(arguments: &Arguments<'_>, class: &Class) -> Result<Ruled, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let group = r.safety_group().unwrap_or("unknown");
    if !class.groups.contains(&group) {
        let message = format!("{} is of group {group}: this rule is for {} only", r.designation(), class.named);
        return Err(Failure::of("refrigerant", message));
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
    let (rule, mut edition) = match (Rule::named(name, group), steps) {
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
    if own.is_some() && Rule::named(name, group).is_some() {
        edition = format!("{edition}; flammability: {source}");
    }
    Ok(Ruled { flammability, rule, edition })
}

fn area_edition(class: &Class) -> Parameter {
    parameter("edition", Accepts::Choice(class.editions), "standard and edition; never mix them")
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

fn edition_field() -> dewline_lang::library::Field {
    field("edition", Basic::Text, "standard and edition")
}

fn flammability_field() -> dewline_lang::library::Field {
    field("flammability", Basic::Unit("kg/m3 or lb/ft3"), "lower flammability limit that was used")
}

fn charge_bounds(name: &'static str, gives: &'static str, class: &Class, body: Body) -> Function {
    let fields = vec![
        field("m1", Basic::Unit("kg or lb"), "below: no floor area is asked for"),
        field("m2", Basic::Unit("kg or lb"), "above: the floor-area rule does not hold"),
        field("m3", Basic::Unit("kg or lb"), "above: not in occupied rooms by this rule"),
        flammability_field(),
        edition_field(),
    ];
    let function = guarded(name, gives, Returns::Record(fields), body).takes(of_refrigerant());
    of_stated(function.takes(area_edition(class)))
}

fn bounds(arguments: &Arguments<'_>, class: &Class) -> Result<Value, Failure> {
    let Ruled { flammability, rule, edition } = ruled(arguments, class)?;
    let mut parts: Vec<Result<Value, Failure>> =
        charge_steps(flammability, rule).iter().map(|step| part(step.value)).collect();
    parts.extend([part(flammability.value), part(edition)]);
    Ok(Value::Record(parts))
}

fn a2l_charge_bounds() -> Function {
    let gives = "the three steps of charge of an A2L refrigerant";
    charge_bounds("a2l_charge_bounds", gives, &A2L, Body::Values(|arguments| bounds(arguments, &A2L)))
        .equation("IEC ed. 6: 6, 52, 260 m3 · LFL; EN 378-1: 6, 39, 195 m3 · LFL")
        .source("IEC 60335-2-40 ed. 6 (2018) and EN 378-1:2016, from memory: check the edition in force")
        .valid("group A2L")
        .example("a2l_charge_bounds(R-32, \"IEC 60335-2-40 ed. 6\").m2 as kg to 0.01", "15.96 kg")
}

fn a3_charge_bounds() -> Function {
    let gives = "the three steps of charge of an A2 or A3 refrigerant, such as propane";
    charge_bounds("a3_charge_bounds", gives, &A2_OR_A3, Body::Values(|arguments| bounds(arguments, &A2_OR_A3)))
        .equation("4, 26, 130 m3 · LFL")
        .source(OF_A3)
        .valid("groups A2 and A3")
        .example("a3_charge_bounds(R-290, \"IEC 60335-2-40 ed. 5\").m1 as kg to 0.001", "0.152 kg")
        .caution(LISTING_OF_A3)
}

fn floor_area(name: &'static str, gives: &'static str, class: &Class, body: Body) -> Function {
    let fields =
        vec![field("area", Basic::Unit("m2 or ft2"), "least floor area"), flammability_field(), edition_field()];
    let function = guarded(name, gives, Returns::Record(fields), body)
        .takes(of_refrigerant())
        .takes(charge())
        .takes(height())
        .takes(area_edition(class));
    of_stated(function).valid("m1 < m ≤ m2, room without ventilation; whole-system charge counts")
}

fn area(arguments: &Arguments<'_>, class: &Class) -> Result<Value, Failure> {
    let Ruled { flammability, rule, edition } = ruled(arguments, class)?;
    let mass: Mass = given(arguments, "mass")?;
    let [first, second, _] = charge_steps(flammability, rule);
    let kilograms = mass.value;
    if mass > second {
        let message =
            format!("{kilograms:.1} kg are above m2 = {:.1} kg: the floor-area rule does not hold", second.value);
        return Err(Failure::of("mass", message).with_mend("ventilation, detection or less charge: see the standard"));
    }
    if mass <= first {
        let message = format!("{kilograms:.2} kg are not above m1 = {:.2} kg: no floor area is asked for", first.value);
        return Err(Failure::of("mass", message));
    }
    let area = least_area(flammability, given(arguments, "release_height")?, mass, rule);
    Ok(Value::Record(vec![part(area.value), part(flammability.value), part(edition)]))
}

fn a2l_floor_area() -> Function {
    let gives = "least floor area of a room without ventilation for a charge of an A2L refrigerant";
    floor_area("a2l_floor_area", gives, &A2L, Body::Values(|arguments| area(arguments, &A2L)))
        .equation("A = (m/(2.5·LFL^1.25·h))², by IEC ed. 6 not less than m/(0.75·LFL·h); kg, m, m2")
        .source(
            "IEC 60335-2-40 ed. 6 (2018) and EN 378-1:2016, from memory: check the edition in force, or state your own",
        )
        .example("a2l_floor_area(R-454B, 3 kg, 1.8 m, \"IEC 60335-2-40 ed. 6\").area as m2 to 0.001", "9.245 m2")
}

fn a3_floor_area() -> Function {
    let gives = "least floor area of a room without ventilation for a charge of an A2 or A3 refrigerant";
    floor_area("a3_floor_area", gives, &A2_OR_A3, Body::Values(|arguments| area(arguments, &A2_OR_A3)))
        .equation("A = (m/(2.5·LFL^1.25·h))²; kg, m, m2")
        .source(OF_A3)
        .example("a3_floor_area(R-290, 0.3 kg, 1.8 m, \"IEC 60335-2-40 ed. 5\").area as m2 to 0.1", "15.8 m2")
        .caution(LISTING_OF_A3)
}

fn most_by_area(name: &'static str, gives: &'static str, class: &Class, body: Body) -> Function {
    let fields = vec![field("most", Basic::Unit("kg or lb"), "most charge"), flammability_field(), edition_field()];
    let function = guarded(name, gives, Returns::Record(fields), body)
        .takes(of_refrigerant())
        .takes(parameter("area", Accepts::unit("m2"), "floor of the room").within("0.1 m2", "100000 m2"))
        .takes(height())
        .takes(area_edition(class));
    of_stated(function).valid("room without ventilation")
}

fn most(arguments: &Arguments<'_>, class: &Class) -> Result<Value, Failure> {
    let Ruled { flammability, rule, edition } = ruled(arguments, class)?;
    let most = most_charge(flammability, given(arguments, "release_height")?, given(arguments, "area")?, rule);
    let [_, second, _] = charge_steps(flammability, rule);
    let most = if most < second { most } else { second };
    Ok(Value::Record(vec![part(most.value), part(flammability.value), part(edition)]))
}

fn a2l_most_charge() -> Function {
    let gives = "most charge of an A2L refrigerant for a floor area, up to m2";
    most_by_area("a2l_most_charge", gives, &A2L, Body::Values(|arguments| most(arguments, &A2L)))
        .equation("m = 2.5·LFL^1.25·h·√A, by IEC ed. 6 not more than 0.75·LFL·h·A; m2 at most")
        .source(
            "IEC 60335-2-40 ed. 6 (2018) and EN 378-1:2016, from memory: check the edition in force, or state your own",
        )
        .example("a2l_most_charge(R-32, 20 m2, 1.8 m, \"IEC 60335-2-40 ed. 6\").most as kg to 0.001", "4.599 kg")
}

fn a3_most_charge() -> Function {
    let gives = "most charge of an A2 or A3 refrigerant for a floor area, up to m2";
    most_by_area("a3_most_charge", gives, &A2_OR_A3, Body::Values(|arguments| most(arguments, &A2_OR_A3)))
        .equation("m = 2.5·LFL^1.25·h·√A; m2 at most")
        .source(OF_A3)
        .example("a3_most_charge(R-290, 20 m2, 1.8 m, \"IEC 60335-2-40 ed. 5\").most as kg to 0.001", "0.338 kg")
        .caution(LISTING_OF_A3)
}
