//! The declarations of liquid shut in.

use dewline_lang::library::{Accepts, Basic, Body, Failure, Function, Returns, Value, field, parameter};
use uom::si::f64::{Mass, ThermodynamicTemperature, Volume};

use super::liquid::{density, full_at, recovery_fill as most_in, shut_in};
use crate::parameters::{of_refrigerant, rest_temperature};
use crate::pipe::LIQUID_FULL;
use crate::refusal::{refrigerant, refused};
use crate::seam::{given, part, quantity, said_temperature};

const RECOVERY: &str = "Cylinder rated for this refrigerant and group, never by the 0.8 rule of another; scale under it; \
                        never mix.";
const EOS: &str = "density of liquid by the refrigerant's published equation of state";

/// The functions of liquid shut in.
pub(super) fn functions() -> Vec<Function> {
    vec![liquid_full(), trapped_liquid(), recovery_fill()]
}

fn liquid_full() -> Function {
    Function::new(
        "liquid_full",
        "charge",
        "temperature at which a closed volume is full of liquid",
        Returns::unit("degC"),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            let (mass, volume): (Mass, Volume) = (given(arguments, "mass")?, given(arguments, "volume")?);
            let held = density(mass, volume);
            let found = full_at(r, held).ok_or_else(|| {
                let coldest = r.saturated_liquid_at_temperature(r.bubble_range().lowest_temperature);
                if coldest.is_ok_and(|liquid| held > liquid.density) {
                    let message =
                        format!("so much {} does not go into this volume, however cold it is", r.designation());
                    return Failure::of("mass", message).with_mend("check both figures; never fill by them");
                }
                let message = "of this density does not become liquid-full below its critical point";
                Failure::new(format!("{} {message}", r.designation()))
            })?;
            Ok(found.value.into())
        }),
    )
    .takes(of_refrigerant())
    .takes(parameter("mass", Accepts::unit("kg"), "in it").within("0.001 kg", "100000 kg"))
    .takes(parameter("volume", Accepts::unit("L"), "of it").within("0.001 L", "100000 L"))
    .equation("ρ_bubble(T) = m/V")
    .source(EOS)
    .valid("a closed volume; above this temperature the pressure rises by some 6 bar for each kelvin")
    .example("liquid_full(R-32, 16.61 kg, 21.6 L) as degC to 0.1", "60.6 degC")
    .caution(LIQUID_FULL)
}

fn trapped_liquid() -> Function {
    Function::new(
        "trapped_liquid",
        "charge",
        "pressure of liquid shut in full at one temperature and warmed to another",
        Returns::unit("kPaa"),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            let (start, end): (ThermodynamicTemperature, ThermodynamicTemperature) =
                (given(arguments, "start_temperature")?, given(arguments, "end_temperature")?);
            if end <= start {
                let (start, end) = (said_temperature(start.value), said_temperature(end.value));
                let message = format!("from {start} to {end} it does not get warmer, and is not shut in full");
                return Err(Failure::of("end_temperature", message));
            }
            Ok(shut_in(r, start, end).map_err(|error| refused(r.designation(), error))?.value.into())
        }),
    )
    .takes(of_refrigerant())
    .takes(rest_temperature("start_temperature", "when it was shut in full"))
    .takes(rest_temperature("end_temperature", "later"))
    .equation("ρ(p, T2) = ρ_bubble(T1)")
    .source(EOS)
    .valid("rigid pipe without any vapor in it: the worst case")
    .example("trapped_liquid(R-32, 20 degC, 25 degC) as bara to 1", "51 bara")
    .caution(LIQUID_FULL)
}

const BY_HOTTEST: &str = "95 % full at the hottest";
const BY_VOLUME: &str = "80 % of the volume at 25 °C";

fn recovery_fill() -> Function {
    let fields = vec![
        field("most", Basic::Unit("kg or lb"), "refrigerant at most"),
        field("gross", Basic::Unit("kg or lb"), "weight at which to stop, cylinder with it"),
        field("rule", Basic::OneOf(&[BY_HOTTEST, BY_VOLUME]), "which rule governs"),
    ];
    Function::new(
        "recovery_fill",
        "charge",
        "refrigerant that a recovery cylinder may hold at most",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let r = refrigerant(arguments.text("refrigerant")?)?;
            // Cylinders are stamped with the mass of water that they hold, at a kilogram a litre.
            let volume: Volume = quantity(arguments.number("water_capacity")? / 1e3);
            let fill =
                most_in(r, volume, given(arguments, "hottest")?).map_err(|error| refused(r.designation(), error))?;
            let rule = if fill.by_hottest { BY_HOTTEST } else { BY_VOLUME };
            Ok(Value::Record(vec![
                part(fill.most.value),
                part(fill.most.value + arguments.number("tare")?),
                part(rule),
            ]))
        }),
    )
    .takes(of_refrigerant())
    .takes(parameter("water_capacity", Accepts::unit("kg"), "stamped on the cylinder").within("0.5 kg", "2000 kg"))
    .takes(parameter("tare", Accepts::unit("kg"), "stamped on the cylinder").within("0.5 kg", "2000 kg"))
    .takes(rest_temperature("hottest", "that the cylinder may get").or("54.4 degC"))
    .equation("least of 0.8·V·ρ(25 °C) and 0.95·V·ρ(hottest), V = water capacity / 1 kg/L; what is stamped goes first")
    .source("AHRI Guideline K (nonflammable refrigerants only), seen second-hand; 0.95: common practice, no source")
    .valid("a clean cylinder of this refrigerant; flammable ones need cylinders and rules of their own")
    .example("recovery_fill(R-410A, 47.6 lb, 27.5 lb).rule", "95 % full at the hottest")
    .caution(RECOVERY)
    .caution(LIQUID_FULL)
}
