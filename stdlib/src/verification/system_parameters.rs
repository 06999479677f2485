//! What `system_reading` and `system_reading_heating` are both told, and what both take from it.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Failure, Field, Function, Parameter, Value, field, maybe_field, parameter,
};
use uom::si::f64::ThermodynamicTemperature;

use super::system::{Discharge, Rest, expected};
use crate::cycle::saturation;
use crate::parameters::{of_refrigerant, temperature_difference};
use crate::refusal::{refrigerant, refused};
use crate::rows::{flag_at, maybe_numbers, taken};
use crate::seam::{given, maybe, part};

pub(super) const SOURCE: &str = "common practice, no source; discharge by the refrigerant's published equation of state; \
                                 verdicts by cause and strength of the signal: simulation, SIMULATIONS.md";

/// Since anything was changed at a unit until it counts, s.
const SETTLED_AFTER: f64 = 600.0;

/// The rows, of so many, of units that call and have settled.
pub(super) fn settled_rows(arguments: &Arguments<'_>, rows: usize) -> impl Iterator<Item = usize> {
    let since = maybe_numbers(arguments, "since_change");
    let calls = move |row: &usize| flag_at(arguments, "calling", *row) == Some(true);
    let has_settled = move |row: &usize| taken(since, *row).is_none_or(|since| since >= SETTLED_AFTER);
    (0..rows).filter(calls).filter(has_settled)
}

pub(super) fn temperature(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("degC"), about).within("-60 degC", "200 degC")
}

pub(super) fn kelvin(name: &'static str, default: &'static str, about: &'static str) -> Parameter {
    temperature_difference(name, about).or(default)
}

/// A column of the units that may be left out.
pub(super) fn column(name: &'static str, unit: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::column(unit), about).with_gaps().optional()
}

/// Refrigerant and saturation.
pub(super) fn of_circuit(function: Function) -> Function {
    function
        .takes(of_refrigerant())
        .takes(temperature("evaporating", "dew temperature of the suction pressure"))
        .takes(temperature("condensing", "bubble temperature of the discharge pressure"))
        .takes(temperature("ambient", "air on the outdoor coil"))
}

/// Which units call.
pub(super) fn calling() -> Parameter {
    parameter("calling", Accepts::column_of(Basic::Flag), "true: the indoor unit calls").optional()
}

/// Since when.
pub(super) fn since_change() -> Parameter {
    column("since_change", "min", "since anything was changed at it").within("0 min", "100000 min")
}

/// Pipe sensors of the units.
pub(super) fn pipes(name: &'static str) -> Parameter {
    column(name, "degC", "of each unit").within("-60 degC", "150 degC")
}

/// What was checked by hand, and how well readings are known.
pub(super) fn of_checks(function: Function) -> Function {
    let flag = |name, about| parameter(name, Accepts::One(Basic::Flag), about).or("false");
    function
        .takes(kelvin("superheat", "5 C°", "wanted at the compressor"))
        .takes(flag("injection", "true: liquid or vapor is injected; then the discharge says nothing"))
        .takes(flag("pressures_checked", "true: both pressures compared with a gauge of your own"))
        .takes(flag("ambient_by_hand", "true: ambient by a probe of your own"))
        .takes(
            parameter(
                "rest",
                Accepts::Choice(&["unknown", "gas that does not condense", "none seen"]),
                "what `noncondensable` said",
            )
            .or("\"unknown\""),
        )
        .takes(kelvin("uncertainty", "1 C°", "expanded uncertainty of a saturation temperature against a sensor"))
        .takes(kelvin("discharge_uncertainty", "3 C°", "of the discharge against what is expected"))
}

/// What both give; subcooling is another in each.
pub(super) fn fields(verdicts: &'static [&'static str], subcooling: Field) -> Vec<Field> {
    vec![
        field("verdict", Basic::OneOf(verdicts), "what the system looks like"),
        field("signs", Basic::Text, "signs that are sure, in words"),
        field("next", Basic::Text, "what to do or read next"),
        subcooling,
        maybe_field("least_discharge", Basic::Unit("degC"), "below it, by its uncertainty, liquid returns"),
        maybe_field("most_discharge", Basic::Unit("degC"), "above it, by its uncertainty, vapor comes back too hot"),
        field("missed", Basic::Text, "the smallest fault that would have been seen"),
    ]
}

/// The discharge as read, and what to expect of it unless something is injected.
pub(super) fn discharge(arguments: &Arguments<'_>) -> Result<Discharge, Failure> {
    let read = maybe(arguments, "discharge");
    if arguments.flag("injection")? {
        return Ok(Discharge { read, ..Discharge::default() });
    }
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let (evaporating, condensing) = saturation(arguments)?;
    let (least, most) = expected(r, evaporating, condensing, given(arguments, "superheat")?)
        .map_err(|error| refused(r.designation(), error))?;
    Ok(Discharge { read, least: Some(least), most: Some(most) })
}

/// An end of what is expected as a field.
pub(super) fn expected_field(t: Option<ThermodynamicTemperature>) -> Result<Value, Failure> {
    match t {
        Some(t) => part(t.value),
        None => Err(Failure::new("with injection the discharge cannot be expected")),
    }
}

/// What the rest test said.
pub(super) fn rest(arguments: &Arguments<'_>) -> Result<Rest, Failure> {
    Ok(match arguments.text("rest")? {
        "gas that does not condense" => Rest::Gas,
        "none seen" => Rest::None,
        _ => Rest::Unknown,
    })
}
