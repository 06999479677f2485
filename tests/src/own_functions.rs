//! What a crate outside the project does to add functions of its own: build [`Function`]s, put them into a [`Library`].

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Library, Returns, Value, field, maybe_field, parameter,
};

/// Adds a fan shop's own functions to a library.
pub fn add_to(library: &mut Library) {
    library.add(driven_speed());
    library.add(filter_state());
    library.add(mean_of_best());
}

/// The library of the trade with the fan shop's functions.
pub fn library() -> Library {
    let mut library = dewline_stdlib::library();
    add_to(&mut library);
    library
}

/// Numbers in, number out: the quick form, for formulas over a million rows.
fn driven_speed() -> Function {
    Function::new(
        "driven_speed",
        "fan shop",
        "speed of a fan driven by a belt",
        Returns::unit("1/min"),
        Body::Numbers(|numbers| match numbers {
            [motor, driver, driven] => Ok(motor * driver / driven),
            _ => Err(Failure::new("three numbers are needed")),
        }),
    )
    .takes(parameter("motor", Accepts::unit("1/min"), "speed of the motor").within("1 1/min", "4000 1/min"))
    .takes(parameter("driver", Accepts::unit("in"), "pitch diameter on the motor").within("1 in", "60 in"))
    .takes(parameter("driven", Accepts::unit("in"), "pitch diameter on the fan").within("1 in", "60 in"))
    .equation("driven speed = motor speed × driver / driven")
    .source("geometry")
    .valid("belt without slip")
    .example("driven_speed(1750 1/min, 4 in, 8 in) as 1/min", "875 1/min")
    .caution("Lock the disconnect before a hand goes near a belt.")
}

/// A choice, a default, and a record with a field that may be absent.
fn filter_state() -> Function {
    let fields = vec![
        field("share", Basic::Number, "drop as a share of the allowed one"),
        field("verdict", Basic::OneOf(&["clean", "loaded", "change"]), "the state of the filter"),
        maybe_field("left", Basic::Unit("inH2O"), "what is left before it must be changed"),
    ];
    Function::new(
        "filter_state",
        "fan shop",
        "how far a filter is loaded",
        Returns::Record(fields),
        Body::Values(judge_filter),
    )
    .takes(parameter("drop", Accepts::unit("inH2O"), "pressure drop as measured").within("0 inH2O", "10 inH2O"))
    .takes(parameter("allowed", Accepts::unit("inH2O"), "drop at which it is changed").or("1 inH2O"))
    .takes(parameter("grade", Accepts::Choice(&["coarse", "fine"]), "grade of the filter").or("\"coarse\""))
    .equation("share = drop / allowed; a fine filter is loaded from one half on, a coarse one from three quarters on")
    .source("common practice, no source")
    .valid("at the design airflow")
    .example("filter_state(0.5 inH2O).share", "0.5")
}

fn judge_filter(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let (drop, allowed) = (arguments.number("drop")?, arguments.number("allowed")?);
    if allowed <= 0.0 {
        return Err(Failure::of("allowed", "the allowed drop must be above zero"));
    }
    let loaded_from = if arguments.text("grade")? == "fine" { 0.5 } else { 0.75 };
    let share = drop / allowed;
    let verdict = if share >= 1.0 {
        "change"
    } else if share >= loaded_from {
        "loaded"
    } else {
        "clean"
    };
    let left = if share < 1.0 {
        Ok(Value::from(allowed - drop))
    } else {
        Err(Failure::new("nothing is left: the filter is past its allowed drop"))
    };
    Ok(Value::Record(vec![Ok(share.into()), Ok(verdict.into()), left]))
}

/// A column of any kind, and a result of the same kind.
fn mean_of_best() -> Function {
    Function::new(
        "mean_of_best",
        "fan shop",
        "mean of the two greatest values of a column",
        Returns::Like('a'),
        Body::Values(|arguments| {
            let mut values = arguments.numbers("values")?.to_vec();
            values.sort_by(|left, right| right.total_cmp(left));
            match values.as_slice() {
                [first, second, ..] => Ok((0.5 * (first + second)).into()),
                _ => Err(Failure::of("values", format!("two values are needed; there are {}", values.len()))),
            }
        }),
    )
    .takes(parameter("values", Accepts::Column(Box::new(Accepts::Variable('a'))), "the column"))
    .equation("(greatest + second greatest) / 2")
    .source("arithmetic")
    .valid("two values and more")
    .example("table t\n  x\n  ft\n  3\n  5\n  4\nend\nanswer = mean_of_best(t.x)", "4.5 ft")
}
