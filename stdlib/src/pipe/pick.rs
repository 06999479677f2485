//! The parameters by which every function picks a tube, and the tube that they pick.

use dewline_lang::library::{Accepts, Arguments, Failure, Function, Parameter, parameter};
use uom::si::f64::Length;

use super::tube::{NoTube, Temper, Tube};
use crate::seam::{given, maybe, said_length};

/// The outside diameter.
pub fn od() -> Parameter {
    parameter("od", Accepts::unit("mm"), "outside diameter").within("4 mm", "110 mm")
}

/// Adds what else it takes besides the outside diameter: a temper, or a wall.
pub fn temper_or_wall(function: Function) -> Function {
    let temper = parameter(
        "temper",
        Accepts::Choice(&["annealed", "drawn"]),
        "soft coils, or hard lengths whose wall differs (ASTM B280)",
    );
    let wall = parameter("wall", Accepts::unit("mm"), "wall, for any tube that is not of ASTM B280");
    function.takes(temper.or("\"annealed\"")).takes(wall.within("0.3 mm", "5 mm").optional())
}

/// The tube that the arguments pick.
pub fn tube(arguments: &Arguments<'_>) -> Result<Tube, Failure> {
    let od: Length = given(arguments, "od")?;
    let temper = if arguments.text("temper")? == "drawn" { Temper::Drawn } else { Temper::Annealed };
    match maybe(arguments, "wall") {
        Some(wall) => Tube::with_wall(od, wall),
        None => Tube::astm_b280(od, temper),
    }
    .map_err(|reason| no_tube(od, reason))
}

fn no_tube(od: Length, reason: NoTube) -> Failure {
    let od = said_length(od.value);
    match reason {
        NoTube::NoSuchSize(below, above) => {
            let near: Vec<String> = [below, above].into_iter().flatten().map(|size| format!("{size} in")).collect();
            Failure::of("od", format!("ASTM B280 has no tube of {od}; the nearest are {}", near.join(" and ")))
                .with_mend("give the outside diameter as measured, or `wall =` for a tube of another standard")
        }
        NoTube::NotInTemper => Failure::of("temper", format!("ASTM B280 has no tube of {od} in that temper"))
            .with_mend("take the other temper, or give `wall =` as measured"),
        NoTube::WallTooThick => Failure::of("wall", format!("this wall leaves no bore in a tube of {od}")),
    }
}
