//! The declarations of the test pressure and its steps.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, parameter,
};
use uom::si::f64::Pressure;

use super::declared::NITROGEN;
use super::pressures::{Bounds, Governs, Route, final_pressure, least_asked, most, stops, tenths};
use crate::seam::{given, maybe, part, quantity};

const STEPS: &str =
    "Raise in steps, people away, never tighten under pressure, outdoor service valves shut, unrated parts off.";

/// The functions of the test pressure.
pub(super) fn functions() -> Vec<Function> {
    vec![test_pressure(), test_steps()]
}

fn point(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("kPaa"), about).within("150 kPaa", "30000 kPaa")
}

const AS_ASKED: &str = "as the route asks";
const LESS_THAN_ASKED: &str = "less than the route asks";

fn test_pressure() -> Function {
    let fields = vec![
        field("final", Basic::Unit("kPaa"), "pressure to test at"),
        field("governs", Basic::OneOf(Governs::WORDS), "what it is bounded by"),
        field("least_asked", Basic::Unit("kPaa"), "the least that the route asks for"),
        field("most", Basic::Unit("kPaa"), "the most that what stays connected may see at any time"),
        field("verdict", Basic::OneOf(&[AS_ASKED, LESS_THAN_ASKED]), "whether it is as high as the route asks"),
        field("route", Basic::OneOf(Route::NAMES), "whose rule: never mixed"),
    ];
    Function::new(
        "test_pressure",
        "nitrogen",
        "how high the pressure test goes, and what governs it",
        Returns::Record(fields),
        Body::Values(bounded),
    )
    .takes(point("design", "design pressure of the side; in a heat pump the high side's for every field pipe"))
    .takes(point("weakest", "rating of the weakest part that stays connected, after brazing"))
    .takes(parameter("route", Accepts::Choice(Route::NAMES), "whose rule; all of it, never mixed"))
    .takes(
        parameter("factor", Accepts::One(Basic::Number), "share of the design pressure aimed at; the route's least if not given")
            .within("1", "1.5")
            .optional(),
    )
    .takes(point("relief", "setting of the relief device on the charging line").optional())
    .takes(point("least_design", "least design pressure of any part that stays connected, if not the side's").optional())
    .takes(parameter("atmosphere", Accepts::unit("kPaa"), "of the site").within("50 kPaa", "110 kPaa").or_site_atmosphere())
    .equation("least of factor·design, rating of the weakest part, relief setting, 1.3·design of any part; all above the atmosphere")
    .source(
        "ASME B31.5, 538.4.2: 1.3 and relief by a public test plan; factors 1.0 (ASHRAE 15: the lower of design and relief) \
         and 1.1 (EN 378-2, ISO 5149-2, B31.5) from memory: check the edition in force",
    )
    .valid("pneumatic test of piping made on site; parts not rated for it are shut off")
    .example("test_pressure(4150 kPaa, 6000 kPaa, \"ASHRAE 15\").governs", "factor times design pressure")
    .example("test_pressure(41.01325 bara, 60 bara, \"EN 378-2\").final as barg to 0.01", "44.00 barg")
    .caution(NITROGEN)
    .caution(STEPS)
}

fn bounded(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    // By its declaration every pressure here is above any site's atmosphere.
    let atmosphere: Pressure = given(arguments, "atmosphere")?;
    let above = |p: Pressure| p - atmosphere;
    let name = arguments.text("route")?;
    let route = Route::named(name);
    let design = above(given(arguments, "design")?);
    let bounds = Bounds {
        design,
        factor: arguments.maybe_number("factor").unwrap_or_else(|| route.factor()),
        weakest: above(given(arguments, "weakest")?),
        relief: maybe(arguments, "relief").map(above),
        least_design: maybe(arguments, "least_design").map_or(design, above),
    };
    let (last, governs) = final_pressure(&bounds);
    let least = least_asked(route, &bounds);
    // 1.1 and 1.3 times a number of the same kind: the last bits do not count.
    let verdict = if last.value >= least.value * (1.0 - 1e-9) { AS_ASKED } else { LESS_THAN_ASKED };
    Ok(Value::Record(vec![
        part((last + atmosphere).value),
        part(governs.name()),
        part((least + atmosphere).value),
        part((most(&bounds) + atmosphere).value),
        part(verdict),
        part(name),
    ]))
}

fn test_steps() -> Function {
    let fields = vec![
        field("first", Basic::Unit("kPaa"), "first stop, for gross leaks"),
        field("second", Basic::Unit("kPaa"), "second stop"),
        field("final", Basic::Unit("kPaa"), "pressure to test at"),
        field("hold_at_stops", Basic::Unit("min"), "how long to hold at each stop"),
        field("least_hold", Basic::Unit("h"), "how long to hold at the final pressure at least"),
        field("better_hold", Basic::Unit("h"), "and better"),
        field("tenth", Basic::Unit("kPa"), "a step of guide specifications that ask for tenths"),
        field("tenths", Basic::Number, "how many of them from 690 kPa (100 psi) on"),
    ];
    Function::new(
        "test_steps",
        "nitrogen",
        "the stops on the way to the test pressure, and how long to hold",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let atmosphere = arguments.number("atmosphere")?;
            let last: Pressure = quantity(arguments.number("final_pressure")? - atmosphere);
            let [first, second] = stops(last).map(|stop| stop.value + atmosphere);
            let (tenth, tenths) = tenths(last);
            Ok(Value::Record(vec![
                part(first),
                part(second),
                part(last.value + atmosphere),
                part(5.0 * 60.0),
                part(3_600.0),
                part(24.0 * 3_600.0),
                part(tenth.value),
                part(tenths),
            ]))
        }),
    )
    .takes(point("final_pressure", "pressure to test at, by `test_pressure`"))
    .takes(
        parameter("atmosphere", Accepts::unit("kPaa"), "of the site")
            .within("50 kPaa", "110 kPaa")
            .or_site_atmosphere(),
    )
    .equation("0.5 MPa, 1.5 MPa, final pressure; or tenths of it from 690 kPa on")
    .source("stops: common practice, no source; tenths: a US federal guide specification")
    .valid("any test with dry nitrogen; soap or a detector at every joint at the final pressure")
    .example("test_steps(601.325 psia).tenths", "9")
    .caution(NITROGEN)
    .caution(STEPS)
}
