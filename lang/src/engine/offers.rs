//! Charts that a report can offer by itself: what the functions used draw of their calls, and columns worth a chart.

use std::cell::Cell;

use super::calls;
use super::run::Run;
use super::stages::stage_name;
use crate::library::{Axis, Drawing};
use crate::outcome::{OfferedDrawing, Offers, Sort};
use crate::plan::{Call, ColumnSource, Node, Op, SlotSource};
use crate::units::{self, Unit, UnitSystem};

/// Drawings of one report. A form filled for each of a hundred rows would draw the same chart a hundred times.
const MOST: usize = 24;

/// What a run offers.
pub fn offers(run: &Run) -> Offers {
    let mut offers = Offers::default();
    gather(run, &Cell::new(0), &mut offers);
    offers
}

fn gather(run: &Run, work: &Cell<u64>, offers: &mut Offers) {
    for slot in &run.plan.slots {
        let SlotSource::Formula(node) = &slot.source else { continue };
        for (call, span) in calls_in(node) {
            let Some(draws) = call.function.draws.filter(|_| offers.drawings.len() < MOST) else { continue };
            let drawn = calls::drawn(&run.sight(work), &call, span, draws);
            let Some(drawing) = drawn.and_then(|drawing| in_units(drawing, run)) else { continue };
            // Several cells may ask one and the same call for a field each.
            if !offers.drawings.iter().any(|known| known.drawing == drawing) {
                let (cell, stage) = (format!("{}{}", run.prefix, slot.name), stage_name(run, slot.stage));
                offers.drawings.push(OfferedDrawing { cell, stage, drawing });
            }
        }
    }
    for table in run.plan.tables.iter().filter(|table| !table.used) {
        for column in &table.columns {
            let ColumnSource::Formula(node) = &column.source else { continue };
            let charted = calls_in(node).iter().any(|(call, _)| call.function.charted);
            if charted && column.typing.kind.sort() == Sort::Difference {
                offers.columns.push((format!("{}{}", run.prefix, table.name), column.name.clone()));
            }
        }
    }
    run.children().for_each(|child| gather(child, work, offers));
}

fn calls_in(node: &Node) -> Vec<(Call, crate::source::Span)> {
    let mut calls = Vec::new();
    node.walk(&mut |node| {
        if let Op::Call(call) = &node.op
            && (call.function.draws.is_some() || call.function.charted)
        {
            calls.push(((**call).clone(), node.span));
        }
    });
    calls
}

/// A drawing in SI as one in the units of its axes.
fn in_units(mut drawing: Drawing, run: &Run) -> Option<Drawing> {
    let atmosphere = run.atmosphere.number_at(0);
    let across = unit_of(&mut drawing.across, run.system);
    let up = unit_of(&mut drawing.up, run.system);
    let shown = |unit: &Option<Unit>, si: f64| match unit {
        Some(unit) if unit.needs_atmosphere() => atmosphere.map(|atmosphere| unit.from_si(si, atmosphere)),
        Some(unit) => Some(unit.from_si(si, 0.0)),
        None => Some(si),
    };
    for series in &mut drawing.series {
        let points = series.points.iter();
        series.points = points.map(|&(x, y)| Some((shown(&across, x)?, shown(&up, y)?))).collect::<Option<_>>()?;
    }
    for limit in &mut drawing.limits {
        limit.at = shown(&up, limit.at)?;
    }
    Some(drawing)
}

/// The unit of an axis in the sheet's system, whose spelling it is given.
fn unit_of(axis: &mut Axis, system: Option<UnitSystem>) -> Option<Unit> {
    let text = match (axis.unit.split_once(" or "), system.unwrap_or(UnitSystem::Si)) {
        (Some((si, _)), UnitSystem::Si) => si,
        (Some((_, ip)), UnitSystem::Ip) => ip,
        (None, _) => &axis.unit,
    };
    let unit = units::parse(text).ok();
    axis.unit = unit.as_ref().map_or_else(String::new, |unit| unit.text.clone());
    unit
}
