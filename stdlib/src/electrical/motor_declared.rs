//! The declarations of what is measured on a motor at rest.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, parameter,
};
use uom::si::f64::{ElectricalResistance, ThermodynamicTemperature};

use super::declared::LIVE_PARTS;
use super::motor::{insulation_at as at_temperature, winding_temperature, winding_unbalance};
use crate::circuit::superheat::difference;
use crate::seam::{all, given, part, said_temperature};

const AT_REST: &str = "No insulation test under vacuum. Drive and board disconnected for insulation tests. Stored charge: \
                       wait, then measure < 50 V.";

/// The functions of motors at rest.
pub(super) fn functions() -> Vec<Function> {
    vec![winding_balance(), winding_rise(), unbalance_heating(), insulation_at(), insulation_least()]
}

fn winding(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("ohm"), about).within("0 ohm", "100000 ohm")
}

fn winding_balance() -> Function {
    Function::new(
        "winding_balance",
        "electrical",
        "unbalance of three windings, leads taken off",
        Returns::unit("%"),
        Body::Numbers(|numbers| {
            let [a, b, c, lead] = all(numbers)?;
            winding_unbalance([a, b, c], lead)
                .ok_or_else(|| Failure::new("a winding reads no more than its leads: a short, or the wrong `lead`?"))
        }),
    )
    .takes(winding("a", "first winding"))
    .takes(winding("b", "second winding"))
    .takes(winding("c", "third winding"))
    .takes(winding("lead", "resistance of the test leads").or("0 ohm"))
    .equation("max |R − mean| / mean")
    .source("common practice, no source; 3 % is a usual limit")
    .valid("motor cold and off; below 1 Ω a meter with four wires is needed")
    .example("winding_balance(1.34 ohm, 1.34 ohm, 1.40 ohm, lead = 0.1 ohm) as % to 0.01", "3.17 %")
    .caution(AT_REST)
}

fn winding_rise() -> Function {
    let fields = vec![
        field("temperature", Basic::Unit("degC"), "mean temperature of the winding"),
        field("rise", Basic::Unit("C°"), "of the winding over the air round the motor"),
    ];
    let temperature = |name, about| parameter(name, Accepts::unit("degC"), about).within("-40 degC", "80 degC");
    Function::new(
        "winding_rise",
        "electrical",
        "how hot a winding became, by its resistance cold and hot",
        Returns::Record(fields),
        Body::Values(risen),
    )
    .takes(winding("cold", "of the winding, all of it at `cold_temperature`"))
    .takes(winding("hot", "of the same winding at once after the run"))
    .takes(temperature("cold_temperature", "of the winding when it was measured cold: off for many hours"))
    .takes(temperature("air", "round the motor at the end of the run"))
    .takes(winding("lead", "resistance of the test leads").or("0 ohm"))
    .takes(
        parameter("metal_constant", Accepts::unit("K"), "copper 234.5, aluminum 225; IEC 60034-1 takes 235 for copper")
            .within("200 K", "260 K")
            .or("234.5 K"),
    )
    .equation("t = (R_hot/R_cold)·(k + t_cold) − k; rise = t − t_air")
    .source("method of resistance of IEC 60034-1, seen second-hand; 234.5 K is 1/0.00393 K less 20 °C")
    .valid("the mean of the winding: its hottest spot is some 5 to 15 K hotter (common practice, no source)")
    .example("winding_rise(2.00 ohm, 2.50 ohm, 20 degC, 25 degC).rise as C° to 0.1", "58.6 C°")
    .caution(AT_REST)
}

fn risen(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let lead: ElectricalResistance = given(arguments, "lead")?;
    let bare = |name: &'static str| -> Result<ElectricalResistance, Failure> {
        let read: ElectricalResistance = given(arguments, name)?;
        if read <= lead {
            return Err(Failure::of(name, "the winding reads no more than its leads: a short, or the wrong `lead`?"));
        }
        Ok(read - lead)
    };
    let (cold, hot) = (bare("cold")?, bare("hot")?);
    let t = winding_temperature(hot, cold, given(arguments, "cold_temperature")?, given(arguments, "metal_constant")?);
    if !(210.0..=570.0).contains(&t.value) {
        let message = format!("by these resistances the winding would be at {}", said_temperature(t.value));
        return Err(Failure::of("hot", message).with_mend("one winding, the same two terminals, the same meter?"));
    }
    let air = given(arguments, "air")?;
    Ok(Value::Record(vec![part(t.value), part(difference(t, air).value)]))
}

fn unbalance_heating() -> Function {
    Function::new(
        "unbalance_heating",
        "electrical",
        "share by which a motor's windings get hotter over the air at a voltage unbalance",
        Returns::unit("%"),
        Body::Numbers(|numbers| {
            let [unbalance] = all(numbers)?;
            let percent = unbalance * 100.0;
            Ok(2.0 * percent * percent / 100.0)
        }),
    )
    .takes(parameter("unbalance", Accepts::unit("%"), "voltage unbalance").within("0 %", "5 %"))
    .equation("2·(unbalance in %)², in % of the rise")
    .source("rule of thumb beside NEMA MG 1, from memory")
    .valid("up to 5 %, above which a motor shall not run; motors on the mains, not behind a drive")
    .example("unbalance_heating(3.5 %) as % to 0.1", "24.5 %")
    .caution(LIVE_PARTS)
}

fn insulation_at() -> Function {
    Function::new(
        "insulation_at",
        "electrical",
        "insulation resistance as it would be at another temperature",
        Returns::unit("Mohm or Mohm"),
        Body::Values(|arguments| {
            let (t, to): (ThermodynamicTemperature, ThermodynamicTemperature) =
                (given(arguments, "temperature")?, given(arguments, "to")?);
            Ok(at_temperature(given(arguments, "resistance")?, difference(to, t)).value.into())
        }),
    )
    .takes(parameter("resistance", Accepts::unit("Mohm"), "as measured").within("0 Mohm", "1000000 Mohm"))
    .takes(
        parameter("temperature", Accepts::unit("degC"), "of the winding when measured").within("-40 degC", "150 degC"),
    )
    .takes(
        parameter("to", Accepts::unit("degC"), "temperature to compare at")
            .within("-40 degC", "150 degC")
            .or("40 degC"),
    )
    .equation("R·0.5^((to − t)/10 K)")
    .source("halving with every 10 K: common practice, no source")
    .valid("dry windings above the dew point")
    .example("insulation_at(80 Mohm, 20 degC) as Mohm", "20 Mohm")
    .caution(AT_REST)
}

fn insulation_least() -> Function {
    Function::new(
        "insulation_least",
        "electrical",
        "least insulation resistance at 40 °C before a motor may be started",
        Returns::unit("Mohm or Mohm"),
        Body::Values(|arguments| {
            let volts = arguments.number("rated")?;
            // IEEE 43: random-wound motors below 1 kV, or the older rule of a megohm and one for each kilovolt.
            let newer = arguments.text("edition")? == "2000 and later";
            Ok(if newer { 5e6 } else { (volts / 1e3 + 1.0) * 1e6 }.into())
        }),
    )
    .takes(parameter("rated", Accepts::unit("V"), "rated voltage").within("0 V", "1000 V"))
    .takes(parameter("edition", Accepts::Choice(&["2000 and later", "1974"]), "edition of IEEE 43"))
    .equation("2000 and later: 5 MΩ; 1974: (kV + 1) MΩ")
    .source("IEEE 43, seen second-hand: check the standard")
    .valid("random-wound motors below 1 kV; hermetic motors in refrigerant read lower: the unit's own document comes first")
    .example("insulation_least(460 V, \"1974\") as Mohm", "1.46 Mohm")
    .caution(AT_REST)
}
