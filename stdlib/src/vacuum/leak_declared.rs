//! The declaration of `leak_in_service`.

use dewline_lang::library::{Accepts, Arguments, Basic, Body, Failure, Function, Returns, Value, field, parameter};
use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::pressure::pascal;

use super::leak::{Through, ratios, seeking_gas};
use crate::helmholtz::GAS_CONSTANT;
use crate::parameters::refrigerant_pressure;
use crate::refusal::{refrigerant, refused};
use crate::seam::{given, maybe, part, quantity};

/// What a leak would lose.
pub(super) fn leak_in_service() -> Function {
    let fields = vec![
        field("low", Basic::Unit("g/year or oz/year"), "if flow is molecular, as through the finest holes"),
        field("high", Basic::Unit("kg/year or lb/year"), "if flow is viscous, as through anything a gauge sees"),
    ];
    Function::new(
        "leak_in_service",
        "vacuum",
        "what a leak seen with a gas would lose of a refrigerant in service: two bounds, never one figure",
        Returns::Record(fields),
        Body::Values(leaked),
    )
    .takes(
        parameter("rate_seen", Accepts::unit("Pa·m3/s"), "throughput seen, by `leak_throughput`")
            .within("0 Pa·m3/s", "1000 Pa·m3/s"),
    )
    .takes(parameter("gas_seen", Accepts::One(Basic::Gas), "`air` into a vacuum, `nitrogen` or `helium` out of a test"))
    .takes(refrigerant_pressure("from", "pressure that it came from"))
    .takes(parameter("into", Accepts::unit("Pa absolute"), "pressure that it went to").within("0.001 Pa absolute", "10000000 Pa absolute"))
    .takes(parameter("refrigerant", Accepts::One(Basic::Refrigerant), "of the job"))
    .takes(refrigerant_pressure("service_pressure", "of the vapor in service, where the leak is"))
    .takes(parameter("temperature", Accepts::unit("degC"), "of the gas").within("-40 degC", "80 degC").or("20 degC"))
    .takes(
        parameter("viscosity", Accepts::unit("uPa·s"), "of the refrigerant's vapor; by its published correlation if not given")
            .within("1 uPa·s", "100 uPa·s")
            .optional(),
    )
    .equation("molecular Q ∝ (p1 − p2)/√M, viscous Q ∝ (p1² − p2²)/µ; mass Q·M/(R·T)")
    .source("vacuum textbooks, from memory; viscosities of helium, nitrogen and air at 25 °C by an open property library")
    .valid("one hole and vapor behind it; liquid behind it loses more. The bounds are apart by tens: nothing between is known")
    .example(
        "leak_in_service(2.222e-4 Pa·m3/s, air, 101.325 kPaa, 66.7 Pa absolute, R-32, 2794.78 kPaa).low as kg/year to 0.1",
        "3.0 kg/year",
    )
    .caution("Arithmetic on a hole, not a permit to leave it: a leak that is seen is mended.")
}

fn leaked(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let name = arguments.text("gas_seen")?;
    let (molar_mass, viscosity) = seeking_gas(name).ok_or_else(|| {
        Failure::of("gas_seen", format!("leaks are seen with air, nitrogen or helium, not with {name}"))
    })?;
    let seen = Through { molar_mass, viscosity, from: given(arguments, "from")?, to: given(arguments, "into")? };
    if seen.from <= seen.to {
        return Err(Failure::of("into", "the gas would have flowed the other way: pressures swapped?"));
    }
    let t: ThermodynamicTemperature = given(arguments, "temperature")?;
    let thin: Pressure = Pressure::new::<pascal>(2e4);
    let viscosity = match maybe(arguments, "viscosity") {
        Some(viscosity) => viscosity,
        None => r.viscosity(thin, t).map_err(|error| {
            refused(r.designation(), error).with_mend("give `viscosity =` of the vapor from published data")
        })?,
    };
    let service = Through {
        molar_mass: r.molar_mass(),
        viscosity,
        from: given(arguments, "service_pressure")?,
        to: quantity(arguments.context.atmosphere),
    };
    if service.from <= service.to {
        return Err(Failure::of("service_pressure", "at or below the atmosphere nothing leaks out: air leaks in"));
    }
    let (molecular, viscous) = ratios(&seen, &service);
    let each = arguments.number("rate_seen")? * service.molar_mass.value / (GAS_CONSTANT * t.value);
    Ok(Value::Record(vec![part(each * molecular.min(viscous)), part(each * viscous.max(molecular))]))
}
