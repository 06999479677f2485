//! The declaration of the charge of all lines, in both modes.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, parameter,
};
use uom::si::f64::{MassDensity, ThermodynamicTemperature};

use crate::parameters::{of_refrigerant, rest_temperature};
use crate::pipe::LIQUID_FULL;
use crate::pipe::tube::{NoTube, Temper, Tube};
use crate::refusal::{refrigerant, refused};
use crate::seam::{given, part, quantity, said_length, said_temperature, texts};

const EXAMPLE: &str = r#"table lines
  tag  | side     | od    | length
  text | text     | in    | m
  "L1" | "liquid" | 0.375 | 30
  "G1" | "gas"    | 0.875 | 30
end
answer = lines_charge(R-410A, lines.side, lines.od, lines.length).worse"#;

/// What all lines hold in cooling and in heating.
pub(super) fn lines_charge() -> Function {
    let fields = vec![
        field("cooling", Basic::Unit("kg or lb"), "held in cooling: liquid, and suction vapor in the gas lines"),
        field("heating", Basic::Unit("kg or lb"), "held in heating: liquid, and discharge vapor in the gas lines"),
        field("most", Basic::Unit("kg or lb"), "the greater of the two: charge for it"),
        field("worse", Basic::OneOf(&["cooling", "heating"]), "the mode that holds more"),
        field("gas_share", Basic::Unit("%"), "gas lines over liquid lines in that mode"),
    ];
    let lengths = |name, unit, about| parameter(name, Accepts::column(unit), about);
    Function::new(
        "lines_charge",
        "charge",
        "refrigerant that all lines hold, liquid and gas, in the worse of both modes",
        Returns::Record(fields),
        Body::Values(held),
    )
    .takes(of_refrigerant())
    .takes(texts("side", "`liquid` or `gas`, of each line"))
    .takes(lengths("od", "mm", "outside diameter of each").within("4 mm", "110 mm"))
    .takes(lengths("length", "m", "as laid, of each").within("0 m", "10000 m"))
    .takes(lengths("wall", "mm", "wall of each, for tube that is not annealed tube of ASTM B280").within("0.3 mm", "5 mm").optional())
    .takes(temperature("liquid_temperature", "35 degC", "of the liquid in the liquid lines"))
    .takes(temperature("evaporating", "5 degC", "dew temperature in the gas lines in cooling"))
    .takes(temperature("condensing", "45 degC", "dew temperature in the gas lines in heating"))
    .takes(temperature("discharge", "70 degC", "of the vapor in the gas lines in heating"))
    .equation("Σ bore area · length · density; gas lines hold saturated suction vapor, or hot vapor at the condensing pressure")
    .source("geometry of ASTM B280; density by the refrigerant's published equation of state")
    .valid("lines full of one phase; the unit's own factors come first. Gas lines are not small: half the liquid lines' in heating")
    .example(EXAMPLE, "heating")
    .caution(LIQUID_FULL)
}

fn temperature(name: &'static str, default: &'static str, about: &'static str) -> Parameter {
    rest_temperature(name, about).or(default)
}

fn held(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let refuse = |error| refused(r.designation(), error);
    let liquid = r.saturated_liquid_at_temperature(given(arguments, "liquid_temperature")?).map_err(refuse)?.density;
    let suction = r.saturated_vapor_at_temperature(given(arguments, "evaporating")?).map_err(refuse)?.density;
    let high = r.dew_pressure(given(arguments, "condensing")?).map_err(refuse)?;
    let (hot, condensing): (ThermodynamicTemperature, ThermodynamicTemperature) =
        (given(arguments, "discharge")?, given(arguments, "condensing")?);
    if hot <= condensing {
        let (hot, condensing) = (said_temperature(hot.value), said_temperature(condensing.value));
        let message = format!("vapor of {hot} is not above its condensing temperature of {condensing}: swapped?");
        return Err(Failure::of("discharge", message));
    }
    let discharge = r.state(high, hot).map_err(refuse)?.1.density;
    let [liquids, gases] = volumes(arguments)?;
    let mass = |volume: f64, density: MassDensity| volume * density.value;
    let cooling = mass(liquids, liquid) + mass(gases, suction);
    let heating = mass(liquids, liquid) + mass(gases, discharge);
    let (worse, gas) = if heating > cooling { ("heating", discharge) } else { ("cooling", suction) };
    let share = if liquids > 0.0 { mass(gases, gas) / mass(liquids, liquid) } else { 0.0 };
    Ok(Value::Record(vec![part(cooling), part(heating), part(cooling.max(heating)), part(worse), part(share)]))
}

/// Volumes of liquid and of gas lines, m3.
fn volumes(arguments: &Arguments<'_>) -> Result<[f64; 2], Failure> {
    let (sides, ods, lengths) = (arguments.texts("side")?, arguments.numbers("od")?, arguments.numbers("length")?);
    let walls = arguments.numbers("wall").ok();
    let mut volumes = [0.0, 0.0];
    for (row, (od, length)) in ods.iter().zip(lengths).enumerate() {
        let od = quantity(*od);
        let tube = match walls.and_then(|walls| walls.get(row)) {
            Some(wall) => Tube::with_wall(od, quantity(*wall)),
            None => Tube::astm_b280(od, Temper::Annealed),
        };
        let tube = tube.map_err(|reason| {
            let (row, od) = (row + 1, said_length(od.value));
            match reason {
                NoTube::WallTooThick => {
                    Failure::of("wall", format!("row {row}: this wall leaves no bore in a tube of {od}"))
                }
                NoTube::NoSuchSize(..) | NoTube::NotInTemper => {
                    Failure::of("od", format!("row {row}: no annealed tube of {od} is in ASTM B280"))
                        .with_mend("give `wall` for every line")
                }
            }
        })?;
        let side = match sides.get(row).copied().flatten().map_or("", str::trim) {
            "liquid" => 0,
            "gas" => 1,
            other => {
                return Err(Failure::of("side", format!("row {}: \"{other}\" is neither `liquid` nor `gas`", row + 1)));
            }
        };
        volumes[side] += tube.volume(quantity(*length)).value;
    }
    Ok(volumes)
}
