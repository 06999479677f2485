//! The declarations of the pipe functions.

use dewline_lang::library::{Accepts, Basic, Body, Function, Returns, Value, field, parameter};

use super::{flow_declared, pick, sizing_declared};
use crate::seam::{given, part};

/// Printed with what holds liquid between two valves.
pub const LIQUID_FULL: &str = "Never shut both ends of a pipe full of liquid: 5 K more are 44 to 51 bar.";

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    let mut all = vec![tube(), tube_volume()];
    all.extend(flow_declared::functions());
    all.extend(sizing_declared::functions());
    all
}

fn tube() -> Function {
    let fields = vec![
        field("od", Basic::Unit("mm or in"), "outside diameter"),
        field("wall", Basic::Unit("mm or in"), "wall"),
        field("bore", Basic::Unit("mm or in"), "inside diameter"),
        field("area", Basic::Unit("mm2 or in2"), "area of the bore"),
        field("volume_per_length", Basic::Unit("L/m or in3/ft"), "volume inside each length"),
        field("mass_per_length", Basic::Unit("kg/m or lb/ft"), "mass of copper of each length"),
    ];
    let function = Function::new(
        "tube",
        "pipe",
        "sizes of a copper tube",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let tube = pick::tube(arguments)?;
            Ok(Value::Record(vec![
                part(tube.od.value),
                part(tube.wall.value),
                part(tube.bore().value),
                part(tube.bore_area().value),
                part(tube.bore_area().value),
                part(tube.mass_per_length().value),
            ]))
        }),
    )
    .takes(pick::od());
    pick::temper_or_wall(function)
        .equation("bore = od − 2·wall; area = π/4·bore²; mass = π/4·(od² − bore²)·8940 kg/m3")
        .source("ASTM B280 sizes; above 1-3/8 in, and the density of copper of EN 12735-1, from memory")
        .valid(
            "ASTM B280 from 1/4 to 3-1/8 in, by outside diameter and temper (the walls differ from 3/8 to 3/4 in); any other \
             tube, such as the metric ones of EN 12735-1, by its wall",
        )
        .example("tube(3/8 in, temper = \"annealed\").bore as in", "0.311 in")
        .example("tube(12 mm, wall = 1 mm).volume_per_length as L/m to 0.0001", "0.0785 L/m")
        .caution(LIQUID_FULL)
}

fn tube_volume() -> Function {
    let function = Function::new(
        "tube_volume",
        "pipe",
        "volume inside a length of copper tube",
        Returns::unit("L or ft3"),
        Body::Values(|arguments| {
            let length = given(arguments, "length")?;
            Ok(pick::tube(arguments)?.volume(length).value.into())
        }),
    )
    .takes(pick::od())
    .takes(parameter("length", Accepts::unit("m"), "length along the tube").within("0 m", "10000 m"));
    pick::temper_or_wall(function)
        .equation("π/4·bore²·length")
        .source("ASTM B280 sizes")
        .valid("as `tube`")
        .example("tube_volume(5/8 in, 30 m, temper = \"annealed\") as L to 0.001", "4.682 L")
}
