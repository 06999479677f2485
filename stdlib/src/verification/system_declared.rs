//! The declaration of `system_reading`.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, maybe_field, parameter,
};
use uom::si::f64::{Ratio, TemperatureInterval, ThermodynamicTemperature};
use uom::si::ratio::ratio;

use super::declared::{flag_at, maybe_numbers, taken};
use super::system::{BOUNDS, Bounds, Rest, Running, judge};
use super::words;
use crate::cautions::SETTLED;
use crate::cycle::vapor::{Conditions, Cycle};
use crate::refrigerant::Refrigerant;
use crate::refusal::{refrigerant, refused};
use crate::seam::{given, part, quantity};

const EXAMPLE: &str = r#"table indoor
  tag   | calling | opening | since | liquid | gas
  text  | flag    | %       | min   | degC   | degC
  "U01" | true    | 38      | 34    | 9.4    | 13.6
  "U02" | true    | 44      | 34    | 9.6    | 14.1
  "U03" | true    | 31      | 34    | 9.2    | 13.0
end
answer = system_reading(R-32, 8 degC, 44 degC, 32 degC, 38.5 degC, true, target_evaporating = 8 degC, discharge = 90 degC, calling = indoor.calling, opening = indoor.opening, since_change = indoor.since, liquid_pipe = indoor.liquid, gas_pipe = indoor.gas).verdict"#;

/// What a running system says as a whole.
pub(super) fn system_reading() -> Function {
    let temperature = |name, about| parameter(name, Accepts::unit("degC"), about).within("-60 degC", "200 degC");
    let column = |name, unit, about| parameter(name, Accepts::column(unit), about).with_gaps().optional();
    let flag = |name, about, default| parameter(name, Accepts::One(Basic::Flag), about).or(default);
    let fields = vec![
        field(
            "verdict",
            Basic::Text,
            "`healthy`, `short of liquid`, `overfilled`, `gas that does not condense`, `outdoor airflow`, `suction side`, `stop`, `not settled`, `undecided`",
        ),
        field("signs", Basic::Text, "signs that are sure, in words"),
        field("next", Basic::Text, "what to do or read next"),
        field("subcooling", Basic::Unit("C°"), "at the outdoor unit, by pressure"),
        maybe_field("least_discharge", Basic::Unit("degC"), "below it, by its uncertainty, liquid returns"),
        maybe_field("most_discharge", Basic::Unit("degC"), "above it, by its uncertainty, vapor comes back too hot"),
        field("missed", Basic::Text, "the smallest fault that would have been seen"),
    ];
    Function::new(
        "system_reading",
        "verification",
        "what a system in cooling says as a whole, before any valve is named",
        Returns::Record(fields),
        Body::Values(read),
    )
    .takes(parameter("refrigerant", Accepts::One(Basic::Refrigerant), "refrigerant"))
    .takes(temperature("evaporating", "dew temperature of the suction pressure"))
    .takes(temperature("condensing", "bubble temperature of the discharge pressure"))
    .takes(temperature("ambient", "air on the outdoor coil"))
    .takes(temperature("liquid_line", "liquid leaving the outdoor coil"))
    .takes(parameter("settled", Accepts::One(Basic::Flag), "by `settled`: saturation and discharge"))
    .takes(temperature("target_evaporating", "what the outdoor unit aims at").optional())
    .takes(temperature("discharge", "of the vapor that the compressor gives").optional())
    .takes(parameter("calling", Accepts::column_of(Basic::Flag), "true: the indoor unit calls").optional())
    .takes(column("opening", "%", "commanded opening of each unit's valve").within("0 %", "100 %"))
    .takes(column("since_change", "min", "since anything was changed at it").within("0 min", "100000 min"))
    .takes(column("liquid_pipe", "degC", "of each unit").within("-60 degC", "150 degC"))
    .takes(column("gas_pipe", "degC", "of each unit").within("-60 degC", "150 degC"))
    .takes(kelvin("superheat", "5 C°", "wanted at the compressor"))
    .takes(flag("injection", "true: liquid or vapor is injected; then the discharge says nothing", "false"))
    .takes(flag("pressures_checked", "true: both pressures compared with a gauge of your own", "false"))
    .takes(flag("ambient_by_hand", "true: ambient by a probe of your own", "false"))
    .takes(
        parameter("rest", Accepts::Choice(&["unknown", "gas that does not condense", "none seen"]), "what `noncondensable` said")
            .or("\"unknown\""),
    )
    .takes(kelvin("uncertainty", "1 C°", "expanded uncertainty of a saturation temperature against a sensor"))
    .takes(kelvin("discharge_uncertainty", "3 C°", "of the discharge against what is expected"))
    .takes(kelvin("little_subcooling", "3 C°", "below it liquid is short, before the uncertainty"))
    .takes(kelvin("much_subcooling", "10 C°", "above it there is too much, before the uncertainty"))
    .takes(kelvin("approach", "18 C°", "condensing above ambient that is too much, before the uncertainty"))
    .equation(
        "signs beyond their limits by their uncertainty; discharge against the cycle at no superheat and η 0.8, and at the \
         superheat wanted and η 0.6; short of liquid on little subcooling, units wanting, and suction or discharge",
    )
    .source("common practice, no source; discharge by the refrigerant's published equation of state")
    .valid("settled cooling, no defrost or oil return; three calling units or more for the units' sign")
    .example(EXAMPLE, "healthy")
    .caution(SETTLED)
}

fn kelvin(name: &'static str, default: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("C°"), about).within("0 C°", "60 C°").or(default)
}

fn read(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let (evaporating, condensing): (ThermodynamicTemperature, ThermodynamicTemperature) =
        (given(arguments, "evaporating")?, given(arguments, "condensing")?);
    if condensing <= evaporating {
        return Err(Failure::of("condensing", "the condensing temperature is not above the evaporating one: swapped?"));
    }
    let (least, most) = if arguments.flag("injection")? {
        (None, None)
    } else {
        let subcooling: TemperatureInterval = quantity(0.0);
        let at = |superheat: f64, efficiency: f64| {
            let at = Conditions {
                evaporating,
                condensing,
                superheat: quantity(superheat),
                subcooling,
                efficiency: Ratio::new::<ratio>(efficiency),
            };
            discharge(r, &at)
        };
        (Some(at(0.0, 0.8)?), Some(at(arguments.number("superheat")?, 0.6)?))
    };
    let running = Running {
        evaporating: evaporating.value,
        target_evaporating: arguments.maybe_number("target_evaporating"),
        condensing: condensing.value,
        ambient: arguments.number("ambient")?,
        ambient_by_hand: arguments.flag("ambient_by_hand")?,
        liquid_line: arguments.number("liquid_line")?,
        discharge: arguments.maybe_number("discharge"),
        least_discharge: least,
        most_discharge: most,
        wanting: wanting(arguments),
        pressures_checked: arguments.flag("pressures_checked")?,
        rest: match arguments.text("rest")? {
            "gas that does not condense" => Rest::Gas,
            "none seen" => Rest::None,
            _ => Rest::Unknown,
        },
    };
    let bounds = Bounds {
        saturation: arguments.number("uncertainty")?,
        discharge: arguments.number("discharge_uncertainty")?,
        little_subcooling: arguments.number("little_subcooling")?,
        much_subcooling: arguments.number("much_subcooling")?,
        approach: arguments.number("approach")?,
        ..BOUNDS
    };
    let (verdict, signs) = judge(&running, arguments.flag("settled")?, &bounds);
    let lacks = || Failure::new("with injection the discharge cannot be expected");
    Ok(Value::Record(vec![
        part(verdict.name()),
        part(words::signs(&signs)),
        part(words::next(verdict, &running, &signs)),
        part(running.condensing - running.liquid_line),
        least.map(Value::from).ok_or_else(lacks),
        most.map(Value::from).ok_or_else(lacks),
        part(missed(&bounds)),
    ]))
}

fn discharge(r: Refrigerant, at: &Conditions) -> Result<f64, Failure> {
    Ok(Cycle::new(r, at).map_err(|error| refused(r.designation(), error))?.discharge_temperature.value)
}

/// Share of the calling, settled units that starve or are wide open; nothing with fewer than three of them.
fn wanting(arguments: &Arguments<'_>) -> Option<f64> {
    const SETTLED_AFTER: f64 = 600.0;
    let of = |name: &'static str| maybe_numbers(arguments, name);
    let [opening, since, liquid, gas] = ["opening", "since_change", "liquid_pipe", "gas_pipe"].map(of);
    let rows = opening.map_or(0, <[f64]>::len);
    let (mut running, mut wanting) = (0.0, 0.0);
    for row in 0..rows {
        if flag_at(arguments, "calling", row) != Some(true) || taken(since, row).is_some_and(|s| s < SETTLED_AFTER) {
            continue;
        }
        let Some(opening) = taken(opening, row) else { continue };
        running += 1.0;
        let superheat = taken(gas, row).zip(taken(liquid, row)).map(|(gas, liquid)| gas - liquid);
        if opening >= super::valve::LIMITS.wide || superheat.is_some_and(|sh| sh > super::valve::LIMITS.starving) {
            wanting += 1.0;
        }
    }
    (running >= 3.0).then(|| wanting / running)
}

fn missed(bounds: &Bounds) -> String {
    format!(
        "subcooling from {:.1} to {:.1} K, condensing up to {:.1} K above ambient, and a discharge within {:.1} K of what is \
         expected hide a fault",
        bounds.little_subcooling - bounds.saturation,
        bounds.much_subcooling + bounds.saturation,
        bounds.approach + bounds.saturation,
        bounds.discharge
    )
}
