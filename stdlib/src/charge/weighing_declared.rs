//! The declarations of what cylinders weigh before and after.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, parameter,
};
use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::degree_celsius;

use super::weighing::{Drawing, Wrong, missing, weigh_in as add_up};
use super::weights_declared::mass;
use crate::parameters::of_refrigerant;
use crate::pipe::LIQUID_FULL;
use crate::refrigerant::Refrigerant;
use crate::refusal::{refrigerant, refused};
use crate::seam::{part, quantity, said_difference, texts};

/// K; a blend of more glide leaves a cylinder as vapor of another composition.
const GLIDE_OF_NOTE: f64 = 0.5;

/// The functions of weighing.
pub(super) fn functions() -> Vec<Function> {
    vec![weigh_in(), recovered_balance()]
}

fn weights(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::column("kg"), about).within("0 kg", "5000 kg")
}

fn weigh_in() -> Function {
    let fields = vec![
        field("charge", Basic::Unit("kg or lb"), "refrigerant in the system"),
        field("uncertainty", Basic::Unit("kg or lb"), "its expanded uncertainty, from the scale"),
        field("cylinders", Basic::Number, "how many cylinders"),
    ];
    Function::new(
        "weigh_in",
        "charge",
        "charge weighed in, cylinder by cylinder",
        Returns::Record(fields),
        Body::Values(weighed),
    )
    .takes(of_refrigerant())
    .takes(texts("cylinder", "serial number of each cylinder; again where it was drawn from again"))
    .takes(weights("start", "on the scale before"))
    .takes(weights("end", "on the scale after"))
    .takes(texts("phase", "`liquid` or `vapor`, as it was drawn"))
    .takes(mass("hoses", "what stays in hoses and manifold").or("0 kg"))
    .takes(parameter("scale", Accepts::unit("kg"), "expanded uncertainty of one weighing").within("0 kg", "10 kg").or("10 g"))
    .equation("Σ (start − end) − hoses; U = scale·√(2·rows)")
    .source("arithmetic; U: JCGM 100:2008; blends of more than 0.5 K of glide drawn as liquid only: common practice, no source")
    .valid("weighings on one scale; a cylinder that gets heavier is refused by its name")
    .example(
        r#"table drawn
  row    | cylinder | start | end   | phase
  number | text     | kg    | kg    | text
  1      | "A 114"  | 22.46 | 14.42 | "liquid"
  2      | "A 115"  | 22.51 | 20.13 | "liquid"
end
answer = weigh_in(R-454B, drawn.cylinder, drawn.start, drawn.end, drawn.phase).charge as kg"#,
        "10.42 kg",
    )
    .caution(LIQUID_FULL)
}

fn weighed(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let (names, phases) = (arguments.texts("cylinder")?, arguments.texts("phase")?);
    let (starts, ends) = (arguments.numbers("start")?, arguments.numbers("end")?);
    if starts.is_empty() {
        return Err(Failure::of("start", "nothing was drawn: there is no row"));
    }
    let name = |row: usize| names.get(row).copied().flatten().map_or("", str::trim);
    for (row, phase) in phases.iter().enumerate() {
        match phase.map_or("", str::trim) {
            "liquid" => {}
            "vapor" => {
                let glide = glide_in_cylinder(r)?;
                if glide > GLIDE_OF_NOTE {
                    let message = format!(
                        "\"{}\" was drawn as vapor, and {} has a glide of {}: what left the cylinder is not what \
                         stands on it",
                        name(row),
                        r.designation(),
                        said_difference(quantity(glide))
                    );
                    return Err(Failure::of("phase", message).with_mend("charge a blend as liquid"));
                }
            }
            other => {
                let message = format!("\"{}\" was drawn as \"{other}\", which is no phase", name(row));
                return Err(Failure::of("phase", message).with_mend("write `liquid` or `vapor`"));
            }
        }
    }
    let drawings: Vec<Drawing<'_>> = starts
        .iter()
        .zip(ends)
        .enumerate()
        .map(|(row, (start, end))| Drawing { cylinder: name(row), start: *start, end: *end })
        .collect();
    let found =
        add_up(&drawings, arguments.number("hoses")?, arguments.number("scale")?).map_err(|wrong| match wrong {
            Wrong::Heavier(name) => {
                Failure::of("end", format!("\"{name}\" got heavier: weights swapped, or refrigerant recovered?"))
            }
            Wrong::Refilled(name) => {
                Failure::of("start", format!("\"{name}\" starts heavier than it ended before: another cylinder?"))
            }
            Wrong::Hoses => Failure::of("hoses", "more would stay in the hoses than was drawn"),
        })?;
    Ok(Value::Record(vec![part(found.charge), part(found.uncertainty), part(found.cylinders as f64)]))
}

/// Glide at 20 °C; a pure fluid has none, even where it is above its critical point there.
fn glide_in_cylinder(r: Refrigerant) -> Result<f64, Failure> {
    if r.is_pure() {
        return Ok(0.0);
    }
    let refuse = |error| refused(r.designation(), error);
    let room = ThermodynamicTemperature::new::<degree_celsius>(20.0);
    Ok(r.glide(r.bubble_pressure(room).map_err(refuse)?).map_err(refuse)?.value)
}

const MISSING: &str = "charge was missing";
const TOO_MUCH: &str = "too much was in it";
const UNTOLD: &str = "indistinguishable";

fn recovered_balance() -> Function {
    let fields = vec![
        field("missing", Basic::Unit("kg or lb"), "what should have been there and was not"),
        field("uncertainty", Basic::Unit("kg or lb"), "its expanded uncertainty"),
        field("verdict", Basic::OneOf(&[MISSING, TOO_MUCH, UNTOLD]), "what the balance says"),
        field("missed", Basic::Unit("kg or lb"), "the least loss that would have been seen"),
    ];
    Function::new(
        "recovered_balance",
        "charge",
        "charge that was missing, by what was recovered",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let of = |name| arguments.number(name);
            let (found, uncertainty) =
                missing(of("recovered")?, of("nameplate")?, of("added")?, of("scale")?, of("records")?);
            let verdict = match found {
                lost if lost > uncertainty => MISSING,
                lost if lost < -uncertainty => TOO_MUCH,
                _ => UNTOLD,
            };
            Ok(Value::Record(vec![part(found), part(uncertainty), part(verdict), part(uncertainty)]))
        }),
    )
    .takes(mass("recovered", "weighed out, down to the level asked for"))
    .takes(mass("nameplate", "factory charge by the nameplate"))
    .takes(mass("added", "weighed in on site since").or("0 kg"))
    .takes(
        parameter("scale", Accepts::unit("kg"), "expanded uncertainty of what was weighed out")
            .within("0 kg", "100 kg")
            .or("50 g"),
    )
    .takes(
        parameter("records", Accepts::One(Basic::Number), "how well nameplate and records are known, as a share")
            .within("0", "0.5")
            .or("0.02"),
    )
    .equation("nameplate + added − recovered; U² = scale² + (share·nameplate)² + (share·added)²")
    .source("mass balance; U: JCGM 100:2008")
    .valid("recovered to the level asked for; what is left in oil and pipe counts as missing")
    .example("recovered_balance(18 kg, 12 kg, 10 kg).verdict", "charge was missing")
}
