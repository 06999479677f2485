//! The declarations of the cycle functions.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, maybe_field, parameter,
};
use uom::si::f64::{Power, Ratio, TemperatureInterval, ThermodynamicTemperature};
use uom::si::ratio::ratio;

use super::balance_declared;
use super::drawn::drawn;
use super::gas_cooler_declared;
use super::vapor::{Conditions, Cycle, carnot};
use crate::cautions::SETTLED;
use crate::parameters::{of_refrigerant, temperature_difference};
use crate::refusal::{refrigerant, refused};
use crate::seam::{given, maybe, part};

pub(super) const EOS: &str = "states by the refrigerant's published equation of state";
/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    let mut all = vec![vapor_cycle(), line_flow(), expected_discharge()];
    all.extend(balance_declared::functions());
    all.push(gas_cooler_declared::gas_cooler_cycle());
    all
}

/// Refrigerant, the two temperatures and the superheat, which all of them take.
fn between(name: &'static str, gives: &'static str, returns: Returns, body: Body) -> Function {
    Function::new(name, "cycle", gives, returns, body)
        .takes(of_refrigerant())
        .takes(temperature("evaporating", "dew temperature in the evaporator"))
        .takes(temperature("condensing", "bubble temperature in the condenser"))
        .takes(temperature_difference("superheat", "of the vapor that the compressor draws"))
        .source(EOS)
}

pub(super) fn temperature(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("degC"), about).within("-80 degC", "120 degC")
}

pub(super) fn efficiency(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::One(Basic::Number), about).within("0.1", "1")
}

fn capacity() -> Parameter {
    parameter("capacity", Accepts::unit("kW"), "cooling capacity").within("0.001 kW", "100000 kW")
}

/// The cycle of a call that takes `evaporating`, `condensing`, `superheat` and perhaps `subcooling`, for what does not hang
/// on the compressor.
pub(crate) fn of(arguments: &Arguments<'_>) -> Result<Cycle, Failure> {
    cycle(arguments, 1.0)
}

/// The cycle of a call, with an efficiency of the compressor.
pub(super) fn cycle(arguments: &Arguments<'_>, efficiency: f64) -> Result<Cycle, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    Cycle::new(r, &conditions(arguments, efficiency)?).map_err(|error| refused(r.designation(), error))
}

/// Evaporating and condensing temperature, the one surely below the other.
pub(crate) fn saturation(
    arguments: &Arguments<'_>,
) -> Result<(ThermodynamicTemperature, ThermodynamicTemperature), Failure> {
    let (evaporating, condensing) = (given(arguments, "evaporating")?, given(arguments, "condensing")?);
    if condensing <= evaporating {
        return Err(Failure::of("condensing", "the condensing temperature is not above the evaporating one: swapped?"));
    }
    Ok((evaporating, condensing))
}

/// What it is asked by.
pub(super) fn conditions(arguments: &Arguments<'_>, efficiency: f64) -> Result<Conditions, Failure> {
    let (evaporating, condensing) = saturation(arguments)?;
    let subcooling: TemperatureInterval = maybe(arguments, "subcooling").unwrap_or_default();
    let superheat = given(arguments, "superheat")?;
    Ok(Conditions { evaporating, condensing, superheat, subcooling, efficiency: Ratio::new::<ratio>(efficiency) })
}

fn vapor_cycle() -> Function {
    let fields = vec![
        field("suction", Basic::Unit("kPaa"), "pressure in the evaporator"),
        field("discharge", Basic::Unit("kPaa"), "pressure in the condenser"),
        field("ratio", Basic::Number, "compression ratio"),
        field("discharge_temperature", Basic::Unit("degC"), "of the vapor that the compressor gives"),
        field("discharge_superheat", Basic::Unit("C°"), "its superheat"),
        field("cooling_effect", Basic::Unit("kJ/kg"), "heat taken up by each mass"),
        field("work", Basic::Unit("kJ/kg"), "work put into each mass"),
        field("cooling_performance", Basic::Number, "cooling over work"),
        field("heating_performance", Basic::Number, "heating over work"),
        field("carnot_share", Basic::Unit("%"), "cooling over work, as a share of the best possible"),
        maybe_field("mass_flow", Basic::Unit("kg/h or lb/h"), "for the capacity given"),
        maybe_field("power", Basic::Unit("kW or kW"), "of the compressor, for the capacity given"),
    ];
    between(
        "vapor_cycle",
        "points and performance of a vapor-compression cycle",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let found = cycle(arguments, arguments.number("efficiency")?)?;
            let performance = found.performance();
            let best = carnot(given(arguments, "evaporating")?, given(arguments, "condensing")?);
            let capacity: Option<Power> = maybe(arguments, "capacity");
            let needs = || Failure::new("this needs `capacity`");
            Ok(Value::Record(vec![
                part(found.suction.value),
                part(found.discharge.value),
                part(found.discharge.value / found.suction.value),
                part(found.discharge_temperature.value),
                part(found.discharge_superheat.value),
                part(found.cooling_effect().value),
                part(found.work().value),
                part(performance),
                part(performance + 1.0),
                part(performance / best),
                capacity.map(|q| (q / found.cooling_effect()).value.into()).ok_or_else(needs),
                capacity.map(|q| (q / performance).value.into()).ok_or_else(needs),
            ]))
        }),
    )
    .takes(temperature_difference("subcooling", "of the liquid before the valve"))
    .takes(efficiency("efficiency", "work without loss over work").or("0.7"))
    .takes(capacity().optional())
    .equation("h2 = h1 + (h2s − h1)/η, h4 = h3; cooling (h1 − h4)/(h2 − h1), heating one more")
    .valid("no losses of pressure, no heat lost by the compressor, no injection")
    .example("vapor_cycle(R-32, 5 degC, 45 degC, 8 C°, 5 C°).discharge_temperature as degC to 1", "99 degC")
    .example("round(vapor_cycle(R-32, 5 degC, 45 degC, 8 C°, 5 C°).cooling_performance, 0.01)", "3.85")
    .caution(SETTLED)
    .draws(drawn)
}

fn line_flow() -> Function {
    between(
        "line_flow",
        "flow of refrigerant that goes with a cooling capacity",
        Returns::unit("kg/h or lb/h"),
        Body::Values(|arguments| {
            let capacity: Power = given(arguments, "capacity")?;
            Ok((capacity / of(arguments)?.cooling_effect()).value.into())
        }),
    )
    .takes(temperature_difference("subcooling", "of the liquid before the valve"))
    .takes(capacity())
    .equation("q/(h1 − h3)")
    .valid("capacity at these conditions, not at another rating point")
    .example("line_flow(R-32, 5 degC, 45 degC, 8 C°, 5 C°, capacity = 10 kW) as g/s to 0.1", "39.9 g/s")
}

fn expected_discharge() -> Function {
    let fields = vec![
        field("lowest", Basic::Unit("degC"), "temperature with the better compressor"),
        field("highest", Basic::Unit("degC"), "temperature with the poorer one"),
        field("least_superheat", Basic::Unit("C°"), "superheat with the better compressor"),
        field("most_superheat", Basic::Unit("C°"), "superheat with the poorer one"),
    ];
    between(
        "expected_discharge",
        "range of discharge temperature and superheat to expect, by refrigerant and conditions",
        Returns::Record(fields),
        Body::Values(|arguments| {
            if arguments.flag("injection")? {
                return Err(Failure::of("injection", "with liquid or vapor injected the discharge cannot be expected so"));
            }
            let (poor, good) = (arguments.number("least_efficiency")?, arguments.number("most_efficiency")?);
            if poor > good {
                return Err(Failure::of("least_efficiency", "the least efficiency is above the most: swapped?"));
            }
            let (cool, hot) = (cycle(arguments, good)?, cycle(arguments, poor)?);
            Ok(Value::Record(vec![
                part(cool.discharge_temperature.value),
                part(hot.discharge_temperature.value),
                part(cool.discharge_superheat.value),
                part(hot.discharge_superheat.value),
            ]))
        }),
    )
    .takes(efficiency("least_efficiency", "of the poorer compressor").or("0.6"))
    .takes(efficiency("most_efficiency", "of the better compressor").or("0.8"))
    .takes(parameter("injection", Accepts::One(Basic::Flag), "true: liquid or vapor is injected").or("false"))
    .equation("h2 = h1 + (h2s − h1)/η")
    .valid(
        "settled running; vapor hotter than its equation's range is told to 1.2 times its upper temperature in kelvin and to \
         226.8 °C at most, there within 1.2 % in heat capacity of tables and equations that go farther; heat lost lowers it. \
         One fixed limit for all refrigerants is wrong: R-32 runs 30 K above R-134a",
    )
    .example("expected_discharge(R-32, 8 degC, 44 degC, 5 C°).most_superheat as C° to 1", "52 C°")
    .caution(SETTLED)
}
