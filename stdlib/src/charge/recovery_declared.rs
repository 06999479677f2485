//! The declarations of what a rule asks of a charge in service: how far to recover, how often to look for leaks.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Returns, Value, field, maybe_field, parameter,
};
use uom::si::f64::Mass;
use uom::si::mass::kilogram;

use super::recovery::{Class, Level, Made, class, level, months_between};
use crate::parameters::of_refrigerant;
use crate::refusal::{refrigerant, refused};
use crate::seam::{given, part};

const RECOVERY: &str = "Cylinder rated for this refrigerant and group, never by the 0.8 rule of another; scale under it; \
                        never mix.";
const BUILT_IN: &str = "40 CFR 82.156 table 1, from memory";
const AS_STATED: &str = "as stated";
const EVERY_SO_OFTEN: &str = "at least every so often";
const BELOW_TABLE: &str = "below the table";

/// The functions of rules in service.
pub(super) fn functions() -> Vec<Function> {
    vec![recovery_level(), leak_check_interval()]
}

fn recovery_level() -> Function {
    let fields = vec![
        field("level", Basic::Unit("kPaa"), "absolute pressure to recover to and hold"),
        field("class", Basic::OneOf(Class::WORDS), "class by the pressure at 104 °F"),
        maybe_field("pressure_at_104_degF", Basic::Unit("kPaa"), "bubble pressure at 104 °F (40 °C)"),
        field("edition", Basic::Text, "whose table; yours if `stated` is given"),
    ];
    Function::new(
        "recovery_level",
        "charge",
        "level to recover to before a system is opened",
        Returns::Record(fields),
        Body::Values(recovered_to),
    )
    .takes(of_refrigerant())
    .takes(parameter("charge", Accepts::unit("kg"), "normal charge of the system").within("0.01 kg", "100000 kg"))
    .takes(
        parameter("made", Accepts::Choice(&["before 1993-11-15", "from 1993-11-15"]), "when the recovery machine was made")
            .or("\"from 1993-11-15\""),
    )
    .takes(
        parameter("stated", Accepts::unit("kPaa"), "level of your own table, instead of the one built in")
            .within("0.1 kPaa", "150 kPaa")
            .optional(),
    )
    .takes(parameter("source", Accepts::One(Basic::Text), "where the stated level stands").or("\"\""))
    .takes(parameter("atmosphere", Accepts::unit("kPaa"), "of the site").within("50 kPaa", "110 kPaa").or_site_atmosphere())
    .equation("class by p_bubble(104 °F): above 355 psia very high, from 170 high, from 45 medium, below low; then the table")
    .source(
        "40 CFR 82.152 and 82.156: 170 to 355 psia and the newer machines' column seen second-hand; 355 and 45 psia, 15 inHg \
         and the older machines' column from memory: check the edition in force, or give `stated`",
    )
    .valid("appliances opened for service; small appliances and leaking systems have rules of their own")
    .example("recovery_level(R-410A, 40 lb).class", "high pressure")
    .example("recovery_level(R-32, 22 kg).class", "very high pressure")
    .caution(RECOVERY)
}

fn recovered_to(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let (pressure, class) = class(r).map_err(|error| refused(r.designation(), error))?;
    let made = if arguments.text("made")? == "before 1993-11-15" { Made::Before } else { Made::After };
    let source = arguments.text("source")?;
    let (level, edition) = match arguments.maybe_number("stated") {
        Some(_) if source.trim().is_empty() => {
            return Err(Failure::of("stated", "a stated level needs its source").with_mend("add `source = \"…\"`"));
        }
        Some(stated) => (stated, format!("{AS_STATED}: {source}")),
        None => {
            let level = match level(class, given(arguments, "charge")?, made) {
                Level::Vacuum(below) => arguments.number("atmosphere")? - below.value,
                Level::Absolute(p) => p.value,
            };
            (level, BUILT_IN.to_string())
        }
    };
    if level <= 0.0 {
        return Err(Failure::of("atmosphere", "the table's vacuum is more than the site's atmosphere")
            .with_mend("give the rule's level as an absolute pressure: `stated`, with its `source`"));
    }
    let pressure =
        pressure.ok_or_else(|| Failure::new(format!("{} is above its critical point at 104 °F", r.designation())));
    Ok(Value::Record(vec![part(level), part(class.name()), pressure.map(|p| p.value.into()), part(edition)]))
}

fn leak_check_interval() -> Function {
    let fields = vec![
        maybe_field("months", Basic::Number, "longest time between two looks, in months"),
        field("verdict", Basic::OneOf(&[EVERY_SO_OFTEN, BELOW_TABLE]), "whether the table asks for looks at all"),
        field("edition", Basic::Text, "whose table"),
    ];
    Function::new(
        "leak_check_interval",
        "charge",
        "longest time between looks at tightness by carbon dioxide equivalent",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let mass: Mass = given(arguments, "equivalent")?;
            let months = months_between(mass.get::<kilogram>() / 1e3, arguments.flag("detector")?);
            Ok(Value::Record(vec![
                months.map(Value::from).ok_or_else(|| Failure::new("it is below the table's first step")),
                part(if months.is_some() { EVERY_SO_OFTEN } else { BELOW_TABLE }),
                part("Regulation (EU) 517/2014, article 4, from memory"),
            ]))
        }),
    )
    .takes(parameter("equivalent", Accepts::unit("kg"), "carbon dioxide that warms as much as the charge: `co2_equivalent`").within("0 kg", "1e9 kg"))
    .takes(parameter("detector", Accepts::One(Basic::Flag), "true: a leak detection system is fitted").or("false"))
    .equation("from 5 t 12 months, from 50 t 6, from 500 t 3; doubled with a detector")
    .source("Regulation (EU) 517/2014, from memory: check the edition in force; 2024/573 counts unsaturated refrigerants by mass")
    .valid("where that regulation holds; otherwise write the steps of your rule into the sheet with `if`")
    .example("leak_check_interval(16.85 tonne).months", "12")
    .caution("Arithmetic against the edition named, not a permit: local code decides.")
}
