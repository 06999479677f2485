//! A filled form shows its values in the units of the job: what it wrote in those of the other system gives way.

use super::checker::Checker;
use crate::plan::{TemplatePart, Typing, Wish};
use crate::units::{Dimension, Unit, UnitSystem, exchanged};

impl Checker<'_, '_> {
    /// Exchanges units once the form's plan is whole. The outermost sheet says what it means itself, and so does a form that
    /// is written in the job's own system: a unit of the other one was chosen there.
    pub(super) fn show_in_units_of_job(&mut self) {
        let Some(system) = self.shared.job_units.filter(|_| self.directory.file != 0) else { return };
        if self.directory.system == Some(system) {
            return;
        }
        let plan = &mut self.plan;
        let columns = plan.tables.iter_mut().flat_map(|table| &mut table.columns).map(|column| &mut column.typing);
        let checks = plan.checks.iter_mut().filter_map(|check| check.comparison.as_mut()).map(|one| &mut one.typing);
        let charts = plan.charts.iter_mut().flat_map(|chart| &mut chart.columns).map(|(_, _, typing)| typing);
        let notes = plan.notes.iter_mut().flat_map(|note| &mut note.template.parts).filter_map(|part| match part {
            TemplatePart::Filled(_, typing) => Some(typing),
            TemplatePart::Plain(_) => None,
        });
        let slots = plan.slots.iter_mut().map(|slot| &mut slot.typing);
        slots.chain(columns).chain(checks).chain(charts).chain(notes).for_each(|typing| exchange(typing, system));
    }
}

fn exchange(typing: &mut Typing, system: UnitSystem) {
    let Some(wish) = typing.wish.as_ref().filter(|wish| !wish.weak) else { return };
    // Of a value in pieces, such as `lb oz`, the first piece is exchanged.
    let Some((unit, other)) = wish.units.first().and_then(|unit| Some((unit, exchanged(unit, system)?))) else {
        return;
    };
    let stepped = |other: &Unit| {
        wish.step.map(|step| match unit.dimension {
            // A tenth of either degree is read off a thermometer alike.
            Dimension::TEMPERATURE => step,
            _ => power_of_ten_below(step * unit.meaning.factor() / other.meaning.factor()),
        })
    };
    let (mut other, mut step) = (other.clone(), stepped(&other));
    // What is told to a thousandth of a cubic metre and less is told in litres.
    if other.text == "m3"
        && step.is_some_and(|step| step <= 0.001)
        && let Ok(litre) = crate::units::parse("L")
    {
        step = stepped(&litre);
        other = litre;
    }
    typing.wish = Some(Wish { step, ..Wish::unit(other) });
}

/// The greatest power of ten that is not above it, so that nothing is rounded more than was asked for.
fn power_of_ten_below(step: f64) -> f64 {
    let exponents = -12..=12;
    let powers = exponents.rev().filter_map(|exponent| format!("1e{exponent}").parse::<f64>().ok());
    powers.into_iter().find(|power| *power <= step).unwrap_or(step)
}
