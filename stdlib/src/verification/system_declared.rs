//! The declaration of `system_reading`.

use dewline_lang::library::{Accepts, Arguments, Basic, Body, Failure, Function, Returns, Value, field, parameter};
use uom::si::f64::{Ratio, TemperatureInterval};

use super::system::cooling::{BOUNDS, Bounds, Running, judge};
use super::system::{ENOUGH, Verdict};
use super::system_parameters::{
    SOURCE, calling, column, discharge, expected_field, fields, kelvin, of_checks, of_circuit, pipes, rest,
    settled_rows, since_change, temperature,
};
use super::valve::{Limits, Mode};
use crate::cautions::SETTLED;
use crate::circuit::superheat::difference;
use crate::cycle::saturation;
use crate::rows::{maybe_numbers, taken};
use crate::seam::{given, maybe, part, quantity, said_difference, said_differences};

/// In cooling no liquid is held back in the indoor coils.
const VERDICTS: &[&str] = &[
    Verdict::Healthy.name(),
    Verdict::Short.name(),
    Verdict::Overfilled.name(),
    Verdict::Gas.name(),
    Verdict::OutdoorAirflow.name(),
    Verdict::SuctionSide.name(),
    Verdict::Stop.name(),
    Verdict::NotSettled.name(),
    Verdict::Undecided.name(),
];

const EXAMPLE: &str = r#"table indoor
  tag   | calling | opening | since | liquid | gas
  text  | flag    | %       | min   | degC   | degC
  "U01" | true    | 38      | 34    | 9.4    | 13.6
  "U02" | true    | 44      | 34    | 9.6    | 14.1
  "U03" | true    | 31      | 34    | 9.2    | 13.0
end
answer = system_reading(R-32, 8 degC, 44 degC, 32 degC, 38.5 degC, true, target_evaporating = 8 degC, discharge = 90 degC, calling = indoor.calling, opening = indoor.opening, since_change = indoor.since, liquid_pipe = indoor.liquid, gas_pipe = indoor.gas).verdict"#;

/// What a system in cooling says as a whole.
pub(super) fn system_reading() -> Function {
    let subcooling = field("subcooling", Basic::Unit("C°"), "at the outdoor unit, by pressure");
    let function = Function::new(
        "system_reading",
        "verification",
        "what a system in cooling says as a whole, before any valve is named",
        Returns::Record(fields(VERDICTS, subcooling)),
        Body::Values(read),
    );
    let function = of_circuit(function)
        .takes(temperature("liquid_line", "liquid leaving the outdoor coil"))
        .takes(parameter("settled", Accepts::One(Basic::Flag), "by `settled`: saturation and discharge"))
        .takes(temperature("target_evaporating", "what the outdoor unit aims at").optional())
        .takes(temperature("discharge", "of the vapor that the compressor gives").optional())
        .takes(calling())
        .takes(column("opening", "%", "commanded opening of each unit's valve").within("0 %", "100 %"))
        .takes(since_change())
        .takes(pipes("liquid_pipe"))
        .takes(pipes("gas_pipe"));
    of_checks(function)
        .takes(kelvin("little_subcooling", "3 C°", "below it liquid is short, before the uncertainty"))
        .takes(kelvin("much_subcooling", "10 C°", "above it there is too much, before the uncertainty"))
        .takes(kelvin("approach", "18 C°", "condensing above ambient that is too much, before the uncertainty"))
        .equation(
            "signs beyond their limits by their uncertainty; discharge against the cycle at no superheat and η 0.8, and at \
             the superheat wanted and η 0.6; short of liquid on little subcooling, units wanting, and suction or discharge",
        )
        .source(SOURCE)
        .valid("settled cooling, no defrost or oil return; three calling units or more for the units' sign")
        .example(EXAMPLE, "healthy")
        .caution(SETTLED)
}

fn read(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let (evaporating, condensing) = saturation(arguments)?;
    let running = Running {
        evaporating,
        target_evaporating: maybe(arguments, "target_evaporating"),
        condensing,
        ambient: given(arguments, "ambient")?,
        ambient_by_hand: arguments.flag("ambient_by_hand")?,
        liquid_line: given(arguments, "liquid_line")?,
        discharge: discharge(arguments)?,
        wanting: wanting(arguments),
        pressures_checked: arguments.flag("pressures_checked")?,
        rest: rest(arguments)?,
    };
    let bounds = Bounds {
        saturation: given(arguments, "uncertainty")?,
        discharge: given(arguments, "discharge_uncertainty")?,
        little_subcooling: given(arguments, "little_subcooling")?,
        much_subcooling: given(arguments, "much_subcooling")?,
        approach: given(arguments, "approach")?,
        ..BOUNDS
    };
    let (verdict, signs) = judge(&running, arguments.flag("settled")?, &bounds);
    Ok(Value::Record(vec![
        part(verdict.name()),
        part(signs.said()),
        part(signs.next(verdict, &running)),
        part(difference(running.condensing, running.liquid_line).value),
        expected_field(running.discharge.least),
        expected_field(running.discharge.most),
        part(missed(&bounds)),
    ]))
}

/// Share of the calling, settled units that starve or are wide open; nothing with fewer than three of them.
fn wanting(arguments: &Arguments<'_>) -> Option<Ratio> {
    let limits = Limits::usual(Mode::Cooling);
    let of = |name: &'static str| maybe_numbers(arguments, name);
    let [opening, liquid, gas] = ["opening", "liquid_pipe", "gas_pipe"].map(of);
    let (mut running, mut wanting) = (0.0, 0.0);
    for row in settled_rows(arguments, opening.map_or(0, <[f64]>::len)) {
        let Some(opening) = taken(opening, row).map(quantity) else { continue };
        running += 1.0;
        let superheat: Option<TemperatureInterval> =
            taken(gas, row).zip(taken(liquid, row)).map(|(gas, liquid)| difference(quantity(gas), quantity(liquid)));
        if opening >= limits.wide || superheat.is_some_and(|superheat| superheat > limits.starving) {
            wanting += 1.0;
        }
    }
    (running >= ENOUGH as f64).then(|| quantity(wanting / running))
}

fn missed(bounds: &Bounds) -> String {
    let u = bounds.saturation;
    format!(
        "subcooling from {}, condensing up to {} above ambient, and a discharge within {} of what is expected hide a fault",
        said_differences(bounds.little_subcooling - u, bounds.much_subcooling + u),
        said_difference(bounds.approach + u),
        said_difference(bounds.discharge)
    )
}
