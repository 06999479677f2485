//! The declarations of the sensor functions.

use dewline_lang::library::{
    Accepts, Argument, Arguments, Basic, Body, ColumnView, Failure, Function, Parameter, Returns, Value, parameter,
};
use uom::si::f64::{ElectricalResistance, ThermodynamicTemperature};

use super::lamps::{self, Coding};
use super::platinum;
use super::thermistor::{Steinhart, by_beta};
use crate::seam::{all, given, quantity, said_temperature};

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    vec![
        thermistor_temperature(),
        thermistor_by_points(),
        platinum_temperature(),
        platinum_tolerance(),
        scaled(),
        scaled_current(),
        scaled_voltage(),
        binary_number(),
        binary_lamps(),
    ]
}

fn resistance(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::unit("ohm"), about).within("0.001 ohm", "100000000 ohm")
}

/// A reading at the ends of what a coil, air or discharge sensor can see is a broken wire or a short.
fn plausible(kelvin: f64) -> Result<Value, Failure> {
    let celsius = kelvin - 273.15;
    if celsius < -60.0 {
        let message = format!("the sensor reads {}: an open circuit", said_temperature(kelvin));
        Err(Failure::of("resistance", message).with_mend("look at plug and wire; is it the curve of this sensor?"))
    } else if celsius > 180.0 {
        let message = format!("the sensor reads {}: a short circuit", said_temperature(kelvin));
        Err(Failure::of("resistance", message)
            .with_mend("look at plug and wire, and for water in it; is it the curve of this sensor?"))
    } else {
        Ok(kelvin.into())
    }
}

fn thermistor_temperature() -> Function {
    Function::new(
        "thermistor_temperature",
        "sensor",
        "temperature of a thermistor by its resistance at 25 °C and its beta",
        Returns::unit("degC"),
        Body::Values(|arguments| {
            let beta = arguments.number("beta")?;
            let t = by_beta(given(arguments, "resistance")?, given(arguments, "r25")?, beta);
            plausible(t.value)
        }),
    )
    .takes(resistance("resistance", "as measured, unplugged"))
    .takes(resistance("r25", "at 25 °C, from the unit's own document"))
    .takes(parameter("beta", Accepts::unit("K"), "from the same document").within("1000 K", "8000 K"))
    .takes(parameter("between", Accepts::Choice(&["25/50", "25/85"]), "the two temperatures that define beta, in °C"))
    .equation("1/T = 1/298.15 K + ln(R/R25)/beta")
    .source("definition of beta")
    .valid("±50 K round the two points that define beta; 1 to 2 K off at its ends. Open and short circuits are errors")
    .example("thermistor_temperature(20 kohm, 10 kohm, 3950 K, \"25/50\") as degC to 0.01", "10.18 degC")
}

fn thermistor_by_points() -> Function {
    let point = |r, t: &'static str| (r, t);
    let mut function = Function::new(
        "thermistor_by_points",
        "sensor",
        "temperature of a thermistor by three points of its table",
        Returns::unit("degC"),
        Body::Values(by_points),
    )
    .takes(resistance("resistance", "as measured, unplugged"));
    for (r, t) in [point("r1", "t1"), point("r2", "t2"), point("r3", "t3")] {
        function = function
            .takes(resistance(r, "of a point of the table"))
            .takes(parameter(t, Accepts::unit("degC"), "of the same point").within("-60 degC", "180 degC"));
    }
    function
        .equation("1/T = a + b·ln R + c·(ln R)³ through the three points")
        .source("J. S. Steinhart & S. R. Hart, Deep-Sea Research 15 (1968) 497, from memory")
        .valid("between the points and a little beyond")
        .example(
            "thermistor_by_points(15 kohm, 25 kohm, 5 degC, 10 kohm, 25 degC, 4 kohm, 45 degC) as degC to 0.01",
            "16.13 degC",
        )
}

fn by_points(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let point = |r, t| -> Result<(ElectricalResistance, ThermodynamicTemperature), Failure> {
        Ok((given(arguments, r)?, given(arguments, t)?))
    };
    let points = [point("r1", "t1")?, point("r2", "t2")?, point("r3", "t3")?];
    let curve = Steinhart::through(points)
        .ok_or_else(|| Failure::new("two of the points have the same resistance: three different ones are needed"))?;
    match curve.temperature(given(arguments, "resistance")?) {
        Some(t) => plausible(t.value),
        None => Err(Failure::of("resistance", "the curve through these points does not reach this resistance")),
    }
}

fn platinum_temperature() -> Function {
    Function::new(
        "platinum_temperature",
        "sensor",
        "temperature of a platinum resistance thermometer",
        Returns::unit("degC"),
        Body::Numbers(|numbers| {
            let [resistance, r0] = all(numbers)?;
            platinum::temperature(quantity(resistance), quantity(r0)).map(|t| t.value).ok_or_else(|| {
                Failure::of(
                    "resistance",
                    "outside −200 to 850 °C: an open or a short circuit, or a sensor of another `r0`",
                )
            })
        }),
    )
    .takes(resistance("resistance", "as measured, leads taken off"))
    .takes(resistance("r0", "at 0 °C").or("100 ohm"))
    .equation("R = R0·(1 + A·t + B·t² + C·(t − 100)·t³), C below 0 °C only")
    .source("IEC 60751")
    .valid("−200 to 850 °C")
    .example("platinum_temperature(108.5 ohm) as degC to 0.01", "21.82 degC")
}

fn platinum_tolerance() -> Function {
    Function::new(
        "platinum_tolerance",
        "sensor",
        "how far a platinum resistance thermometer of a class may be off, either way",
        Returns::unit("C°"),
        Body::Values(|arguments| {
            let t: ThermodynamicTemperature = given(arguments, "temperature")?;
            let (name, element) = (arguments.text("class")?, arguments.text("element")?);
            let class = platinum::Class::named(name);
            let (low, high) = class.range(element == "film");
            let celsius = t.value - 273.15;
            // A hair of a degree for °F that stand for a limit in °C.
            if celsius < low - 1e-6 || celsius > high + 1e-6 {
                let message = format!(
                    "class {name} of {element} holds from {} to {} only",
                    said_temperature(low + 273.15),
                    said_temperature(high + 273.15)
                );
                return Err(Failure::of("temperature", message));
            }
            Ok(class.tolerance(t).value.into())
        }),
    )
    .takes(parameter("temperature", Accepts::unit("degC"), "that it measures").within("-200 degC", "850 degC"))
    .takes(parameter("class", Accepts::Choice(platinum::Class::NAMES), "stamped on it or in its document"))
    .takes(parameter("element", Accepts::Choice(&["film", "wound wire"]), "most are film").or("\"film\""))
    .equation("AA 0.1 + 0.0017·|t|, A 0.15 + 0.002·|t|, B 0.3 + 0.005·|t|, C 0.6 + 0.01·|t|, in K with t in °C")
    .source("IEC 60751, from memory: check the standard")
    .valid("film AA 0 to 150, A −30 to 300, B −50 to 500, C −50 to 600 °C; the bare sensor, not its leads nor its seat")
    .example("platinum_tolerance(40 degC, \"B\") as C° to 0.01", "0.50 C°")
}

fn scaled() -> Function {
    let range = |letter, name, about| parameter(name, Accepts::Range(Box::new(Accepts::Variable(letter))), about);
    Function::new(
        "scaled",
        "sensor",
        "what a transmitter's signal stands for, straight between two ends",
        Returns::Like('b'),
        Body::Values(|arguments| {
            let signal = arguments.number("signal")?;
            let ((low, high), (least, most)) = (arguments.range("from")?, arguments.range("to")?);
            if high <= low {
                return Err(Failure::of("from", "the two ends of the signal are the same"));
            }
            let share = (signal - low) / (high - low);
            // Live-zero loops say a fault by what lies beyond their ends: a fortieth and a sixteenth of the span.
            if !(-0.025..=1.0625).contains(&share) {
                let beyond = if share < 0.0 { "below" } else { "above" };
                let message = format!("the signal is {:.1} % of its span: far {beyond} its ends", share * 100.0);
                return Err(
                    Failure::of("signal", message).with_mend("a broken wire, a short, no supply, or other ends")
                );
            }
            Ok((least + share * (most - least)).into())
        }),
    )
    .takes(parameter("signal", Accepts::Variable('a'), "as measured"))
    .takes(range('a', "from", "the signal at both ends, such as 4 mA .. 20 mA"))
    .takes(range('b', "to", "what the ends stand for, such as 0 barg .. 50 barg"))
    .equation("to₁ + (signal − from₁)/(from₂ − from₁)·(to₂ − to₁)")
    .source("definition; faults below 3.6 and above 21 mA: NAMUR NE 43, from memory")
    .valid(
        "straight transmitters, greater signal for the greater reading; gauge or absolute: the sensor's own document",
    )
    .example("scaled(9.6 mA, 4 mA .. 20 mA, -1 barg .. 39 barg) as barg to 0.01", "13.00 barg")
}

fn scaled_current() -> Function {
    Function::new(
        "scaled_current",
        "sensor",
        "share of its span that a transmitter of 4 to 20 mA shows",
        Returns::One(Basic::Number),
        Body::Numbers(|numbers| {
            let [current] = all(numbers)?;
            let milliamperes = current * 1e3;
            if milliamperes < 3.6 {
                return Err(Failure::of(
                    "current",
                    format!("{milliamperes:.2} mA is a fault: broken wire or no supply"),
                ));
            }
            if milliamperes > 21.0 {
                return Err(Failure::of(
                    "current",
                    format!("{milliamperes:.2} mA is a fault: short circuit or sensor"),
                ));
            }
            Ok((milliamperes - 4.0) / 16.0)
        }),
    )
    .takes(parameter("current", Accepts::unit("mA"), "as measured").within("0 mA", "30 mA"))
    .equation("(I − 4 mA)/16 mA; the reading is low + share·(high − low)")
    .source("live-zero current loop; faults below 3.6 and above 21 mA: NAMUR NE 43, from memory")
    .valid("3.8 to 20.5 mA")
    .example("-1 + scaled_current(9.6 mA) * 40", "13")
}

fn scaled_voltage() -> Function {
    Function::new(
        "scaled_voltage",
        "sensor",
        "share of its span that a ratiometric transmitter of 10 to 90 % of its supply shows",
        Returns::One(Basic::Number),
        Body::Numbers(|numbers| {
            let [signal, supply] = all(numbers)?;
            let share = signal / supply;
            if !(0.05..=0.95).contains(&share) {
                return Err(Failure::of(
                    "signal",
                    format!("{:.1} % of the supply is a fault: wire or sensor", share * 100.0),
                ));
            }
            Ok((share - 0.1) / 0.8)
        }),
    )
    .takes(parameter("signal", Accepts::unit("V"), "signal as measured").within("0 V", "30 V"))
    .takes(parameter("supply", Accepts::unit("V"), "supply as measured at the same time").within("1 V", "30 V"))
    .equation("(V/V_supply − 0.1)/0.8; the reading is low + share·(high − low)")
    .source("common practice, no source")
    .valid("measure the supply: taking it for 5 V is the usual mistake. Gauge or absolute: the sensor's own document")
    .example("round(scaled_voltage(1.92 V, 4.95 V) * 50, 0.0001)", "17.9924")
}

fn coding() -> Parameter {
    parameter("coding", Accepts::Choice(&["binary", "decimal"]), "1, 2, 4, 8, 16 … or four lamps to a decimal digit")
        .or("\"binary\"")
}

fn chosen(arguments: &Arguments<'_>) -> Result<Coding, Failure> {
    Ok(if arguments.text("coding")? == "decimal" { Coding::Decimal } else { Coding::Binary })
}

const LAMPS: &str = r#"table lamps
  name | lit
  text | flag
  "H1" | true
  "H2" | false
  "H3" | true
  "H4" | false
  "H5" | false
  "H6" | true
end
answer = binary_number(lamps.lit)"#;

fn binary_number() -> Function {
    Function::new(
        "binary_number",
        "sensor",
        "number that the lit lamps of a display stand for",
        Returns::One(Basic::Number),
        Body::Values(|arguments| {
            let Argument::Column(ColumnView::Flags(flags)) = arguments.get("lit") else {
                return Err(Failure::of("lit", "a column of flags is needed"));
            };
            let lit: Vec<bool> = flags.iter().map(|lit| lit.unwrap_or(false)).collect();
            lamps::number(&lit, chosen(arguments)?).map(|number| (number as f64).into()).ok_or_else(|| {
                Failure::of(
                    "lit",
                    "more than 32 lamps, or a decimal digit above nine: is the order of the lamps right?",
                )
            })
        }),
    )
    .takes(parameter(
        "lit",
        Accepts::Column(Box::new(Accepts::One(Basic::Flag))),
        "whether each lamp is lit, the one of least weight first",
    ))
    .takes(coding())
    .equation("Σ weight of the lit lamps")
    .source("definition; the order of the lamps is the unit's own document's")
    .valid("up to 32 lamps")
    .example(LAMPS, "37")
}

fn binary_lamps() -> Function {
    Function::new(
        "binary_lamps",
        "sensor",
        "names of the lamps that are lit for a number",
        Returns::One(Basic::Text),
        Body::Values(|arguments| {
            let names: Vec<&str> = arguments.texts("names")?.iter().map(|name| name.unwrap_or("?")).collect();
            let number = arguments.number("number")?;
            if number.fract() != 0.0 || !(0.0..=4e9).contains(&number) {
                return Err(Failure::of("number", format!("{number} is not a whole number that lamps can show")));
            }
            let lit = lamps::lit(number as u64, names.len(), chosen(arguments)?)
                .ok_or_else(|| Failure::of("number", format!("{} lamps cannot show {number}", names.len())))?;
            let named: Vec<&str> = names.iter().zip(lit).filter(|(_, lit)| *lit).map(|(name, _)| *name).collect();
            Ok(if named.is_empty() { "none".to_string() } else { named.join(", ") }.into())
        }),
    )
    .takes(parameter("number", Accepts::One(Basic::Number), "the setting").within("0", "4000000000"))
    .takes(parameter(
        "names",
        Accepts::Column(Box::new(Accepts::One(Basic::Text))),
        "names of the lamps, the one of least weight first",
    ))
    .takes(coding())
    .equation("the lamps whose weights add up to the number")
    .source("definition; the order of the lamps is the unit's own document's")
    .valid("up to 32 lamps")
    .example(
        r#"table lamps
  name
  text
  "H1"
  "H2"
  "H3"
end
answer = binary_lamps(5, lamps.name)"#,
        "H1, H3",
    )
}
