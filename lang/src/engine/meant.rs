//! Values that are allowed and may yet not be what was meant: a step of hundreds of kelvin, the air's pressure as a step.

use super::advice::push;
use super::block::{Block, Data};
use super::run::Run;
use super::shown;
use crate::kinds::{Kind, Quantity, Stance};
use crate::outcome::Outcome;
use crate::plan::Typing;
use crate::units::Dimension;

/// A temperature difference above this is rarely one, in kelvin.
const GREAT_STEP: f64 = 150.0;
/// A pressure between these, in pascals, may be the air's own.
pub const NEAR_THE_AIR: std::ops::RangeInclusive<f64> = 80_000.0..=110_000.0;

/// Advice about values of one sheet.
pub fn advise(run: &Run, outcome: &mut Outcome) {
    for (slot, block) in run.plan.slots.iter().zip(&run.slots) {
        great_step(run, &slot.name, &slot.typing, block, outcome);
    }
    for (table, values) in run.plan.tables.iter().zip(&run.tables) {
        for (column, block) in table.columns.iter().zip(&values.columns) {
            great_step(run, &format!("{}.{}", table.name, column.name), &column.typing, block, outcome);
        }
    }
    for &slot in &run.plan.added_to_gauges {
        air_as_a_step(run, slot, outcome);
    }
}

fn great_step(run: &Run, name: &str, typing: &Typing, block: &Block, outcome: &mut Outcome) {
    let step = Kind::Quantity(Quantity { dimension: Dimension::TEMPERATURE, stance: Stance::Difference });
    let meant = typing.wish.as_ref().and_then(|wish| wish.units.first()).is_some_and(|unit| unit.said);
    if typing.kind != step || meant || !matches!(block.data, Data::Numbers(_)) {
        return;
    }
    let great = (0..block.len()).find(|&row| block.number_at(row).is_some_and(|kelvin| kelvin.abs() > GREAT_STEP));
    let Some(si) = great.and_then(|row| block.number_at(row)) else { return };
    let value = shown::number(si, typing, run.system, None);
    push(
        outcome,
        format!(
            "`{}{name}` = {value} is a temperature difference; a temperature from true zero is written `K absolute` or \
             `degR absolute`, and a difference of that size `{value} difference`",
            run.prefix
        ),
    );
}

/// What is set from outside is judged when it is known; what the sheet says itself, before anything runs.
fn air_as_a_step(run: &Run, slot: usize, outcome: &mut Outcome) {
    let (Some(plan), Some(block)) = (run.plan.slots.get(slot), run.slots.get(slot)) else { return };
    let Some(si) = block.number_at(0).filter(|si| NEAR_THE_AIR.contains(si)) else { return };
    let value = shown::number(si, &plan.typing, run.system, None);
    push(
        outcome,
        format!(
            "`{}{}` = {value} is near the pressure of the air: added to a gauge pressure it makes no absolute one, which \
             is `absolute(…)`",
            run.prefix, plan.name
        ),
    );
}
