//! The declarations of the vacuum functions.

use dewline_lang::library::{Accepts, Basic, Body, Failure, Function, Returns, Value, field, parameter};

use crate::numeric::line::Line;
use crate::seam::part;

/// Printed with evacuation.
pub const UNDER_VACUUM: &str = "No compressor, shell heater or insulation test under vacuum.";

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    vec![rise_rate()]
}

/// 600 micron in half an hour on a straight line.
const RISE: &str = r#"table hold
  time | pressure
  min  | micron
  0    | 300
  10   | 500
  20   | 700
  30   | 900
end
answer = rise_rate(hold.time, hold.pressure).rate"#;

fn rise_rate() -> Function {
    let fields = vec![
        field("rate", Basic::Unit("micron/min"), "slope of the line through the readings"),
        field(
            "uncertainty",
            Basic::Unit("micron/min"),
            "expanded uncertainty of the rate from the scatter, coverage 2",
        ),
        field("scatter", Basic::Unit("Pa or micron"), "standard deviation of the readings from the line"),
        field("readings", Basic::Number, "how many readings"),
    ];
    Function::new(
        "rise_rate",
        "vacuum",
        "how fast pressure rises in a system shut off from the pump",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let (times, pressures) = (arguments.numbers("times")?, arguments.numbers("pressures")?);
            let line = Line::through(times, pressures).ok_or_else(|| {
                Failure::of("times", "a rate with its uncertainty needs three readings or more at different times")
            })?;
            Ok(Value::Record(vec![
                part(line.slope),
                part(2.0 * line.slope_uncertainty),
                part(line.scatter),
                part(times.len().min(pressures.len()) as f64),
            ]))
        }),
    )
    .takes(parameter("times", Accepts::column("min"), "when, from any beginning").within("-1 year", "10 year"))
    .takes(parameter("pressures", Accepts::column("Pa"), "readings of a vacuum gauge").within("0 Pa", "200000 Pa"))
    .equation("least squares: Σ(t − t̄)(p − p̄)/Σ(t − t̄)²")
    .source("JCGM 100:2008 (GUM), H.3")
    .valid("a straight rise; a curve that bends has no one rate: see `hold_test`")
    .example(RISE, "20 micron/min")
    .caution(UNDER_VACUUM)
}
