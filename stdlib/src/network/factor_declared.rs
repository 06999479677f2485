//! The declaration of the charge factor of a pipe, looked up by its size in the document's own table.

use dewline_lang::library::{Accepts, Arguments, Body, Failure, Function, Returns, Value, parameter};

use crate::pipe::LIQUID_FULL;
use crate::seam::said_length;

/// Sizes that differ by less, m, are one size: 9.52 and 9.525 mm, 15.87 and 15.88 mm.
const SAME_SIZE: f64 = 0.15e-3;

/// The factor for a pipe's outside diameter.
pub(super) fn charge_factor() -> Function {
    Function::new(
        "charge_factor",
        "network",
        "charge for each length of a pipe, from the unit's own table by outside diameter",
        Returns::unit("kg/m or oz/ft"),
        Body::Values(factor),
    )
    .takes(parameter("od", Accepts::unit("m"), "outside diameter of the pipe").within("3 mm", "150 mm"))
    .takes(parameter("ods", Accepts::column("m"), "outside diameters of the document's table").within("3 mm", "150 mm"))
    .takes(
        parameter("factors", Accepts::column("kg/m"), "charge for each length, beside them")
            .within("0 kg/m", "10 kg/m"),
    )
    .equation("the factor of the size that is the same within 0.15 mm")
    .source("the unit's own document")
    .valid("a size of the table; nothing is read between two sizes")
    .example(EXAMPLE, "0.12 kg/m")
    .caution(LIQUID_FULL)
}

const EXAMPLE: &str = r#"table factors
  od  | factor
  mm  | kg/m
  15  | 0.12
  12  | 0.07
end
answer = charge_factor(15 mm, factors.od, factors.factor) as kg/m"#;

fn factor(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let od = arguments.number("od")?;
    let (ods, factors) = (arguments.numbers("ods")?, arguments.numbers("factors")?);
    let mut same =
        ods.iter().zip(factors).filter(|(size, _)| (**size - od).abs() < SAME_SIZE).map(|(_, factor)| *factor);
    let found = same.next().ok_or_else(|| {
        Failure::of("od", format!("no factor for {} in your table", said_length(od)))
            .with_mend("add a row for this size from the unit's document")
    })?;
    if same.any(|other| other != found) {
        return Err(Failure::of("ods", format!("the table has two factors for {}", said_length(od))));
    }
    Ok(found.into())
}
