//! The value of an input or reading: from the sheet, from the sheet that fills it, or set from outside.

use super::block::Block;
use super::evaluate::{Sight, held};
use super::fault::Fault;
use super::folds::reduce;
use super::settings::World;
use super::{readings, shown};
use crate::diagnostic::{running, settings as codes};
use crate::kinds;
use crate::outcome::Stated;
use crate::plan::{FoldKind, GivenPlan, InstrumentPlan, SlotPlan, SlotSource, Spread};
use crate::source::Span;

/// The value, and what was stated with it if it was set from outside.
pub fn value(
    sight: &Sight<'_>,
    slot: &SlotPlan,
    name: &str,
    world: &World<'_>,
    handed: Option<Block>,
) -> (Block, Option<Stated>) {
    let SlotSource::Given(given) = &slot.source else { return (Block::pending(1), None) };
    let instead = || in_the_sheet(sight, slot, given, handed.as_ref());
    if let Some((text, file)) = world.setting(name, instead) {
        let read = kinds::read_setting(world.library, file, text, slot);
        let span = Span::new(file, 0, text.len());
        return match read {
            Ok(read) => {
                let values: Vec<Block> = read
                    .values
                    .iter()
                    .map(|(node, datum)| {
                        let value = sight.eval(node);
                        held(value, *datum, slot.typing.datum, sight.atmosphere, span)
                    })
                    .collect();
                let named = read.stated.by.as_ref();
                let by = named.and_then(|name| sight.plan.instruments.iter().find(|one| one.name == *name));
                // What the sheet states of the reading holds for a value set from outside, unless that states its own.
                let stated = Stated {
                    uncertainty: read.stated.uncertainty.or(slot.stated.uncertainty.clone()),
                    by: read.stated.by.or(slot.stated.by.clone()),
                    ..read.stated
                };
                let spread = read.spread.as_ref().or(given.spread.as_ref());
                (doubtful(sight, slot, name, world, (spread, by), values, span), Some(stated))
            }
            Err(mut diagnostics) => {
                world.diagnostics.borrow_mut().append(&mut diagnostics);
                (Block::pending(1), None)
            }
        };
    }
    let own = (given.spread.as_ref(), None);
    if let Some(block) = handed {
        // A filled reading keeps the doubt of what fills it.
        return match block.states.doubt() {
            Some(_) => (checked(sight, slot, given, &[block], slot.span), None),
            None => (doubtful(sight, slot, name, world, own, vec![block], slot.span), None),
        };
    }
    let values: Vec<Block> = given.values.iter().map(|node| sight.eval(node)).collect();
    let place = given.values.first().map_or(slot.span, |node| node.span);
    (doubtful(sight, slot, name, world, own, values, place), None)
}

/// What the sheet has where a value was set from outside, as shown.
fn in_the_sheet(sight: &Sight<'_>, slot: &SlotPlan, given: &GivenPlan, handed: Option<&Block>) -> Option<String> {
    let value = match handed {
        Some(handed) => handed.clone(),
        None if given.values.is_empty() => return None,
        None => {
            let values: Vec<Block> = given.values.iter().map(|node| sight.eval(node)).collect();
            checked(sight, slot, given, &values, slot.span)
        }
    };
    let site = sight.atmosphere.number_at(0);
    shown::value(&value, 0, &slot.typing, sight.system, site).map(|shown| shown.text)
}

/// A value with the doubt that is stated beside it; without an instrument of its own it has that of the sheet.
fn doubtful(
    sight: &Sight<'_>,
    slot: &SlotPlan,
    name: &str,
    world: &World<'_>,
    (spread, by): (Option<&Spread>, Option<&InstrumentPlan>),
    values: Vec<Block>,
    place: Span,
) -> Block {
    let SlotSource::Given(given) = &slot.source else { return Block::pending(1) };
    let by = by.or_else(|| sight.plan.instruments.get(given.by?));
    let value = checked(sight, slot, given, &values, place);
    if spread.is_none() && by.is_none() && values.len() < 2 {
        return value;
    }
    let readings: Vec<f64> = values.iter().filter_map(|value| value.number_at(0)).collect();
    let stated = readings::Stated { name, typing: &slot.typing, system: sight.system, spread, by };
    readings::value(world, stated, value, &readings)
}

/// Several readings become their mean; a value outside its stated limits is a slip of the hand.
fn checked(sight: &Sight<'_>, slot: &SlotPlan, given: &GivenPlan, values: &[Block], place: Span) -> Block {
    let Some(first) = values.first() else { return Block::pending(1) };
    for value in values {
        if let Some(fault) = outside(sight, slot, given, value, place) {
            return Block::broken(fault);
        }
    }
    if let (Some(words), Some(text)) = (&given.choices, first.text_at(0))
        && !words.iter().any(|word| **word == **text)
    {
        let fault = Fault::new(&codes::BAD_SETTING, format!("\"{text}\" is not one of the choices"), place)
            .with_mend(kinds::mend_of_word(words, text));
        return Block::broken(fault);
    }
    if values.len() == 1 {
        return first.clone();
    }
    let numbers: Vec<f64> = values.iter().filter_map(|value| value.number_at(0)).collect();
    if numbers.len() == values.len() { reduce(FoldKind::Mean, &numbers, place) } else { first.clone() }
}

fn outside(sight: &Sight<'_>, slot: &SlotPlan, given: &GivenPlan, value: &Block, place: Span) -> Option<Fault> {
    let (low, high) = given.within.as_ref()?;
    let (low, high) = (sight.eval(low), sight.eval(high));
    let is_out = if let (Some(x), Some(a), Some(b)) = (value.moment_at(0), low.moment_at(0), high.moment_at(0)) {
        x.compare(a).is_ok_and(std::cmp::Ordering::is_lt) || x.compare(b).is_ok_and(std::cmp::Ordering::is_gt)
    } else {
        use super::arithmetic::stands;
        use crate::plan::Order;
        let (x, a, b) = (value.number_at(0)?, low.number_at(0)?, high.number_at(0)?);
        stands(Order::Less, x, a) || stands(Order::More, x, b)
    };
    if !is_out {
        return None;
    }
    let site = sight.atmosphere.number_at(0);
    let show = |block: &Block| {
        shown::value(block, 0, &slot.typing, sight.system, site).map_or_else(String::new, |shown| shown.text)
    };
    let message = format!(
        "`{}` is {}, outside its own limits {} .. {}: a slip of the hand?",
        slot.name,
        show(value),
        show(&low),
        show(&high)
    );
    Some(Fault::new(&running::OUTSIDE_WITHIN, message, place).with_mend("mend the value, or the limits if it is right"))
}
