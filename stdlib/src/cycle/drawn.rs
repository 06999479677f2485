//! The chart of a cycle: pressure over enthalpy, with the dome of its refrigerant.

use dewline_lang::library::{Arguments, Axis, Drawing, Mark, Series};
use uom::si::f64::ThermodynamicTemperature;

use super::declared::{conditions, cycle};
use super::vapor::Cycle;
use crate::refrigerant::{PropertyError, Refrigerant, State};
use crate::refusal::refrigerant;
use crate::seam::quantity;

/// Points of each side of the dome.
const POINTS: usize = 48;
/// How far below the evaporating temperature the dome begins, K.
const BELOW: f64 = 20.0;

/// What a report draws of a call of `vapor_cycle`.
pub(super) fn drawn(arguments: &Arguments<'_>) -> Option<Drawing> {
    let r = refrigerant(arguments.text("refrigerant").ok()?).ok()?;
    let efficiency = arguments.number("efficiency").ok()?;
    let cycle = cycle(arguments, efficiency).ok()?;
    let coldest = conditions(arguments, efficiency).ok()?.evaporating.value - BELOW;
    Some(Drawing {
        title: format!("Cycle of {} in pressure and enthalpy", r.designation()),
        says: format!(
            "The cycle runs at the suction pressure from the valve through the evaporator to the compressor, up to the \
             discharge pressure, and at that pressure through the condenser back to the valve. Below the dome of {} \
             liquid and vapor are together.",
            r.designation()
        ),
        across: Axis::of("enthalpy, liquid at 0 °C being 200 kJ/kg", "kJ/kg or Btu/lb"),
        up: Axis::of("absolute pressure", "kPaa or psia").logarithmic(),
        series: vec![
            Series::of("dome", Mark::Line, dome(r, coldest)?),
            Series::of("cycle", Mark::LineAndPoints, corners(&cycle)),
        ],
        limits: Vec::new(),
    })
}

/// Up the bubble line and down the dew line.
fn dome(r: Refrigerant, coldest: f64) -> Option<Vec<(f64, f64)>> {
    let side = |range: (f64, f64), at: &dyn Fn(ThermodynamicTemperature) -> Result<State, PropertyError>| {
        let (low, high) = (coldest.max(range.0), range.1);
        let mut points: Vec<(f64, f64)> = (0..=POINTS)
            .filter_map(|step| {
                // Closer and closer to the top, where the line turns.
                let left = 1.0 - step as f64 / POINTS as f64;
                let state = at(quantity(high - (high - low) * left * left)).ok()?;
                Some((state.enthalpy.value, state.pressure.value))
            })
            .collect();
        points.dedup();
        points
    };
    let ends = |range: crate::refrigerant::LineRange| (range.lowest_temperature.value, range.highest_temperature.value);
    let mut dome = side(ends(r.bubble_range()), &|t| r.saturated_liquid_at_temperature(t));
    let vapor = side(ends(r.dew_range()), &|t| r.saturated_vapor_at_temperature(t));
    dome.extend(vapor.into_iter().rev());
    (dome.len() > POINTS).then_some(dome)
}

fn corners(cycle: &Cycle) -> Vec<(f64, f64)> {
    let (low, high) = (cycle.suction.value, cycle.discharge.value);
    let (drawn, given, liquid) = (cycle.drawn.value, cycle.given.value, cycle.liquid.value);
    vec![(drawn, low), (given, high), (liquid, high), (liquid, low), (drawn, low)]
}
