//! The declaration of the cycle above critical pressure.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Returns, Value, field, maybe_field, parameter,
};
use uom::si::f64::Pressure;

use super::declared::{EOS, efficiency, temperature};
use super::gas_cooler::{Conditions, GasCoolerCycle};
use crate::cautions::SETTLED;
use crate::parameters::{of_refrigerant, refrigerant_pressure, temperature_difference};
use crate::refusal::{refrigerant, refused};
use crate::seam::{given, part, said_pressure};

pub(super) fn gas_cooler_cycle() -> Function {
    let fields = vec![
        field("suction", Basic::Unit("kPaa"), "pressure in the evaporator"),
        field("ratio", Basic::Number, "compression ratio"),
        field("discharge_temperature", Basic::Unit("degC"), "of the gas that the compressor gives"),
        field("cooling_effect", Basic::Unit("kJ/kg"), "heat taken up by each mass"),
        field("work", Basic::Unit("kJ/kg"), "work put into each mass"),
        field("cooling_performance", Basic::Number, "cooling over work"),
        field("heating_performance", Basic::Number, "heating over work"),
        maybe_field("after_valve", Basic::Unit("%"), "share of the mass that is vapor after the valve"),
    ];
    Function::new(
        "gas_cooler_cycle",
        "cycle",
        "points and performance of a cycle above critical pressure, as R-744 runs in warm air",
        Returns::Record(fields),
        Body::Values(answer),
    )
    .takes(of_refrigerant())
    .takes(temperature("evaporating", "dew temperature in the evaporator"))
    .takes(refrigerant_pressure("discharge", "pressure in the gas cooler, above critical"))
    .takes(
        parameter("outlet", Accepts::unit("degC"), "of the gas leaving the gas cooler").within("-40 degC", "120 degC"),
    )
    .takes(temperature_difference("superheat", "of the vapor that the compressor draws"))
    .takes(efficiency("efficiency", "work without loss over work").or("0.7"))
    .equation("h2 = h1 + (h2s − h1)/η, h4 = h3(p, t outlet); cooling (h1 − h4)/(h2 − h1), heating one more")
    .source(EOS)
    .valid("one stage; no losses of pressure, no heat lost by the compressor, no heat exchanger between the two sides")
    .example("gas_cooler_cycle(R-744, -10 degC, 90 bara, 35 degC, 5 C°).discharge_temperature as degC to 1", "106 degC")
    .example("round(gas_cooler_cycle(R-744, -10 degC, 90 bara, 35 degC, 5 C°).cooling_performance, 0.01)", "1.84")
    .caution(SETTLED)
}

fn answer(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let discharge: Pressure = given(arguments, "discharge")?;
    let critical = r.critical_point().pressure;
    if discharge <= critical {
        return Err(Failure::of(
            "discharge",
            format!(
                "{} condenses up to {}, and {} is below that: ask `vapor_cycle`",
                r.designation(),
                said_pressure(critical.value),
                said_pressure(discharge.value)
            ),
        ));
    }
    let at = Conditions {
        evaporating: given(arguments, "evaporating")?,
        discharge,
        outlet: given(arguments, "outlet")?,
        superheat: given(arguments, "superheat")?,
        efficiency: given(arguments, "efficiency")?,
    };
    let found = GasCoolerCycle::new(r, &at).map_err(|error| refused(r.designation(), error))?;
    let liquid = || Failure::new(format!("{} is all liquid after the valve", r.designation()));
    Ok(Value::Record(vec![
        part(found.suction.value),
        part(discharge.value / found.suction.value),
        part(found.discharge_temperature.value),
        part(found.cooling_effect.value),
        part(found.work.value),
        part(found.performance()),
        part(found.performance() + 1.0),
        found.after_valve.map(|share| share.value.into()).ok_or_else(liquid),
    ]))
}
