//! The flow in a line: given itself, or by the cooling capacity that hangs on it.

use dewline_lang::library::{Accepts, Arguments, Failure, Function, Parameter, parameter};
use uom::si::f64::{MassRate, Power};

use crate::cycle;
use crate::parameters::{pipe_temperature, temperature_difference};
use crate::seam::{given, maybe};

/// The flow itself.
pub fn mass_flow() -> Parameter {
    parameter("mass_flow", Accepts::unit("kg/h"), "flow of refrigerant; or give `capacity`")
        .within("0.001 kg/h", "1000000 kg/h")
        .optional()
}

/// What it is found by without.
pub fn or_capacity(function: Function) -> Function {
    function
        .takes(
            parameter("capacity", Accepts::unit("kW"), "cooling capacity that hangs on the line")
                .within("0.001 kW", "100000 kW")
                .optional(),
        )
        .takes(pipe_temperature("evaporating", "with `capacity`: dew temperature in the coils").optional())
        .takes(pipe_temperature("condensing", "with `capacity`: bubble temperature in the condenser").optional())
        .takes(temperature_difference("superheat", "with `capacity`: of the vapor that the coils give").optional())
        .takes(temperature_difference("subcooling", "with `capacity`: of the liquid before the valves").optional())
        .one_of(&["mass_flow", "capacity"])
}

/// The flow of a call.
pub fn of(arguments: &Arguments<'_>) -> Result<MassRate, Failure> {
    let capacity: Power = match maybe(arguments, "mass_flow") {
        Some(flow) => return Ok(flow),
        None => given(arguments, "capacity")?,
    };
    let lacking: Vec<&str> = ["evaporating", "condensing", "superheat", "subcooling"]
        .into_iter()
        .filter(|name| arguments.maybe_number(name).is_none())
        .collect();
    if !lacking.is_empty() {
        return Err(Failure::of("capacity", format!("with a capacity it also needs `{}`", lacking.join("`, `"))));
    }
    Ok(capacity / cycle::of(arguments)?.cooling_effect())
}
