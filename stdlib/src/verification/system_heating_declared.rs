//! The declaration of `system_reading_heating`.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Returns, Value, maybe_field, parameter,
};
use uom::si::f64::{TemperatureInterval, ThermodynamicTemperature};

use super::system::Verdict;
use super::system::heating::{BOUNDS, Bounds, Running, judge};
use super::system_parameters::{
    SOURCE, calling, column, discharge, expected_field, fields, kelvin, of_checks, of_circuit, pipes, rest,
    settled_rows, since_change, temperature,
};
use crate::cautions::SETTLED;
use crate::circuit::superheat::difference;
use crate::cycle::saturation;
use crate::numeric::middle::middle;
use crate::rows::{maybe_numbers, taken};
use crate::seam::{given, maybe, part, quantity, said_difference, said_differences};

const EXAMPLE: &str = r#"table indoor
  tag   | calling | since | liquid
  text  | flag    | min   | degC
  "U01" | true    | 34    | 45.1
  "U02" | true    | 34    | 45.4
  "U03" | true    | 34    | 44.2
  "U04" | true    | 34    | 37.0
end
answer = system_reading_heating(R-32, -12 degC, 45 degC, 7 degC, true, discharge = 108 degC, suction_line = 4 degC, outdoor_opening = 100 %, calling = indoor.calling, since_change = indoor.since, liquid_pipe = indoor.liquid).verdict"#;

/// What a system in heating says as a whole.
pub(super) fn system_reading_heating() -> Function {
    let subcooling = maybe_field("subcooling", Basic::Unit("C°"), "the middle one of the calling, settled coils");
    let function = Function::new(
        "system_reading_heating",
        "verification",
        "what a system in heating says as a whole, before any valve is named",
        Returns::Record(fields(Verdict::WORDS, subcooling)),
        Body::Values(read),
    );
    let function = of_circuit(function)
        .takes(parameter("settled", Accepts::One(Basic::Flag), "by `settled`: saturation and discharge"))
        .takes(temperature("target_condensing", "what the outdoor unit aims at").optional())
        .takes(temperature("discharge", "of the vapor that the compressor gives").optional())
        .takes(temperature("suction_line", "of the vapor between outdoor coil and compressor").optional())
        .takes(
            parameter("outdoor_opening", Accepts::unit("%"), "commanded opening of the outdoor unit's expansion valve")
                .within("0 %", "100 %")
                .optional(),
        );
    let function = function
        .takes(calling())
        .takes(since_change())
        .takes(pipes("liquid_pipe"))
        .takes(column("line_drop", "C°", "fall of saturation temperature to each coil").within("0 C°", "20 C°"));
    of_checks(function)
        .takes(kelvin("little_subcooling", "3 C°", "of a coil, below it liquid is short, before the uncertainty"))
        .takes(kelvin("much_subcooling", "14 C°", "of a coil, above it there is too much, before the uncertainty"))
        .takes(kelvin("below_ambient", "14 C°", "evaporating below ambient that is too much, before the uncertainty"))
        .takes(kelvin("much_superheat", "11 C°", "of the suction line, above it liquid is short, before the uncertainty"))
        .equation(
            "coils: subcooling = condensing − line_drop − liquid pipe, little at 30 % of them, much at 60 %; outdoors: \
             evaporating far below ambient or a hot suction line, with the outdoor valve wide open or a discharge above the \
             cycle's. Both, which share no sensor: short of liquid (little) or liquid held back (much); much alone: gas or \
             overfilled, which a gauge and the rest test tell apart",
        )
        .source(SOURCE)
        .valid(
            "settled heating, a while after a defrost; three calling units or more. A controller that holds condensing and \
             subcooling hides gas and small shortages",
        )
        .example(EXAMPLE, "short of liquid")
        .caution(SETTLED)
}

fn read(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let (evaporating, condensing) = saturation(arguments)?;
    let running = Running {
        evaporating,
        condensing,
        target_condensing: maybe(arguments, "target_condensing"),
        ambient: given(arguments, "ambient")?,
        ambient_by_hand: arguments.flag("ambient_by_hand")?,
        suction_line: maybe(arguments, "suction_line"),
        outdoor_opening: maybe(arguments, "outdoor_opening"),
        discharge: discharge(arguments)?,
        subcoolings: subcoolings(arguments, condensing),
        pressures_checked: arguments.flag("pressures_checked")?,
        rest: rest(arguments)?,
    };
    let bounds = Bounds {
        saturation: given(arguments, "uncertainty")?,
        discharge: given(arguments, "discharge_uncertainty")?,
        little_subcooling: given(arguments, "little_subcooling")?,
        much_subcooling: given(arguments, "much_subcooling")?,
        below_ambient: given(arguments, "below_ambient")?,
        much_superheat: given(arguments, "much_superheat")?,
        ..BOUNDS
    };
    let (verdict, signs) = judge(&running, arguments.flag("settled")?, &bounds);
    let all: Vec<f64> = running.subcoolings.iter().map(|subcooling| subcooling.value).collect();
    Ok(Value::Record(vec![
        part(verdict.name()),
        part(signs.said()),
        part(signs.next(verdict, &running)),
        middle(all).map(Value::from).ok_or_else(|| Failure::new("no liquid pipe of a calling unit was read")),
        expected_field(running.discharge.least),
        expected_field(running.discharge.most),
        part(missed(&bounds)),
    ]))
}

/// Of each calling, settled coil.
fn subcoolings(arguments: &Arguments<'_>, condensing: ThermodynamicTemperature) -> Vec<TemperatureInterval> {
    let of = |name: &'static str| maybe_numbers(arguments, name);
    let [liquid, drop] = ["liquid_pipe", "line_drop"].map(of);
    settled_rows(arguments, liquid.map_or(0, <[f64]>::len))
        .filter_map(|row| {
            let drop: TemperatureInterval = quantity(taken(drop, row).unwrap_or(0.0));
            Some(difference(condensing - drop, quantity(taken(liquid, row)?)))
        })
        .collect()
}

fn missed(bounds: &Bounds) -> String {
    let u = bounds.saturation;
    format!(
        "subcooling from {}, evaporating down to {} below ambient, and a discharge within {} of what is expected hide a fault",
        said_differences(bounds.little_subcooling - u, bounds.much_subcooling + u),
        said_difference(bounds.below_ambient + u),
        said_difference(bounds.discharge)
    )
}
