//! Given values with their doubt: what is stated beside them, what their instrument says, the scatter of repeats.

use super::block::Block;
use super::doubt::{Doubt, Part};
use super::origins::{Cause, Fresh, Origins, Shape, standard_of};
use super::settings::World;
use crate::plan::{Datum, InstrumentPlan, Spread, Typing};
use crate::units::UnitSystem;

/// What is taken for how well an instrument repeats if it does not say so: this share of its accuracy.
const ASSUMED: f64 = 0.2;
/// Rows of a column that are known by their keys; of a longer one by their numbers.
const KEYED: usize = 10_000;

/// What makes a given value doubtful.
#[derive(Clone, Copy)]
pub struct Stated<'a> {
    /// The value, or the column, by its full name.
    pub name: &'a str,
    /// What it is.
    pub typing: &'a Typing,
    /// Default units.
    pub system: Option<UnitSystem>,
    /// Its own `± …`, which stands for that of its instrument.
    pub spread: Option<&'a Spread>,
    /// Its instrument.
    pub by: Option<&'a InstrumentPlan>,
}

/// A single value, read once or several times.
pub fn value(world: &World<'_>, stated: Stated<'_>, mut block: Block, readings: &[f64]) -> Block {
    let Some(x) = block.number_at(0) else { return block };
    let mut origins = world.origins.borrow_mut();
    let mut parts: Vec<Part> = block.states.doubt_at(0).to_vec();
    let typing = super::shown::distance(stated.typing, stated.system);
    let own = |cause, spread: &Spread, count: f64, origins: &mut Origins| {
        let (standard, shape, freedom) = standard_of(spread, half_width(spread, x, stated.typing));
        let standard = standard / count.sqrt();
        if standard.abs() > 0.0 {
            let instrument = stated.by.filter(|_| cause != Cause::Stated).map(|by| by.name.as_str());
            let fresh =
                Fresh { cause, name: stated.name.to_string(), instrument, shape, freedom, count: 1, typing: &typing };
            Some((origins.number(fresh, Some(standard.abs()), Vec::new), standard))
        } else {
            None
        }
    };
    match (stated.spread, stated.by) {
        (Some(spread), _) => parts.extend(own(Cause::Stated, spread, 1.0, &mut origins)),
        (None, Some(by)) => {
            if let Some(spread) = &by.common {
                let (standard, shape, freedom) = standard_of(spread, half_width(spread, x, stated.typing));
                if standard != 0.0 {
                    let fresh = common(by, shape, freedom, &typing);
                    parts.push((origins.number(fresh, Some(standard.abs()), Vec::new), standard));
                }
            }
            if let Some(spread) = repeats(by, &mut origins) {
                parts.extend(own(Cause::Repeats, &spread, readings.len().max(1) as f64, &mut origins));
            }
        }
        (None, None) => {}
    }
    if let Some((standard, freedom)) = scatter(readings) {
        let cause = Cause::Scatter(readings.len());
        let (name, shape) = (stated.name.to_string(), Shape::Student(freedom));
        let fresh = Fresh { cause, name, instrument: None, shape, freedom: Some(freedom), count: 1, typing: &typing };
        parts.push((origins.number(fresh, Some(standard), Vec::new), standard));
    }
    if !parts.is_empty() {
        parts.sort_by_key(|(cause, _)| *cause);
        block.states = block.states.with_doubt(Some(Box::new(Doubt::one(parts))));
    }
    block
}

/// A column of readings, each with doubt of its own beside what is common to its instrument.
pub fn column(world: &World<'_>, stated: Stated<'_>, mut block: Block, key: impl Fn(usize) -> String) -> Block {
    let super::block::Data::Numbers(values) = &block.data else { return block };
    let rows = values.len();
    if rows == 0 {
        return block;
    }
    let mut origins = world.origins.borrow_mut();
    let typing = super::shown::distance(stated.typing, stated.system);
    let keys = || if rows <= KEYED { (0..rows).map(&key).collect() } else { Vec::new() };
    let mut causes: Vec<(u32, Spread, bool)> = Vec::new();
    let fixed = |spread: &Spread| (spread.share == 0.0).then(|| standard_of(spread, spread.constant).0);
    let own = |cause: Cause, spread: Spread, origins: &mut Origins| {
        let (_, shape, freedom) = standard_of(&spread, spread.constant);
        let instrument = stated.by.filter(|_| cause != Cause::Stated).map(|by| by.name.as_str());
        let name = stated.name.to_string();
        let fresh = Fresh { cause, name, instrument, shape, freedom, count: rows, typing: &typing };
        (origins.number(fresh, fixed(&spread), keys), spread, true)
    };
    match (stated.spread, stated.by) {
        (Some(spread), _) => causes.push(own(Cause::Stated, *spread, &mut origins)),
        (None, Some(by)) => {
            if let Some(spread) = &by.common {
                let (_, shape, freedom) = standard_of(spread, spread.constant);
                let number = origins.number(common(by, shape, freedom, &typing), fixed(spread), Vec::new);
                causes.push((number, *spread, false));
            }
            if let Some(spread) = repeats(by, &mut origins) {
                causes.push(own(Cause::Repeats, spread, &mut origins));
            }
        }
        (None, None) => {}
    }
    causes.sort_by_key(|(number, ..)| *number);
    let mut doubt = Doubt::with_room(rows);
    for (at, &x) in values.iter().enumerate() {
        let known = block.is_known(at);
        doubt.push(causes.iter().filter(|_| known).filter_map(|(number, spread, each)| {
            let (standard, ..) = standard_of(spread, half_width(spread, x, stated.typing));
            let number = if *each { number + u32::try_from(at).unwrap_or(0) } else { *number };
            (standard != 0.0).then_some((number, standard))
        }));
    }
    if !causes.is_empty() {
        block.states = block.states.with_doubt(Some(Box::new(doubt)));
    }
    block
}

/// How far a reading may be off. A share of the reading alone is an error of gain: it changes sign with the reading.
fn half_width(spread: &Spread, x: f64, typing: &Typing) -> f64 {
    if spread.share == 0.0 {
        return spread.constant;
    }
    // A share of the reading is one of the number typed: it counts from the zero of its unit.
    let unit = typing.wish.as_ref().and_then(|wish| wish.units.first());
    let zero = match (typing.datum, unit) {
        (Datum::Absolute, Some(unit)) if !unit.needs_atmosphere() => unit.to_si(0.0, 0.0),
        _ => 0.0,
    };
    let reading = x - zero;
    if spread.constant == 0.0 { spread.share * reading } else { spread.constant + spread.share * reading.abs() }
}

fn common<'a>(by: &'a InstrumentPlan, shape: Shape, freedom: Option<f64>, typing: &'a Typing) -> Fresh<'a> {
    // Sheets that fill one another may name one instrument each with the same lines: it is the same one.
    let text = |text: &Option<String>| text.clone().unwrap_or_default();
    let name = [by.name.clone(), by.description.clone(), text(&by.serial), text(&by.accuracy)].join("\u{1f}");
    Fresh { cause: Cause::Accuracy, name, instrument: Some(&by.name), shape, freedom, count: 1, typing }
}

/// How well an instrument repeats: as stated, or as assumed from its accuracy.
fn repeats(by: &InstrumentPlan, origins: &mut Origins) -> Option<Spread> {
    if by.own.is_some() {
        return by.own;
    }
    let common = by.common.as_ref()?;
    origins.assumed.insert(by.name.clone());
    Some(Spread { constant: common.constant * ASSUMED, share: common.share * ASSUMED, freedom: None, ..*common })
}

/// Standard uncertainty of the mean of repeated readings, and its degrees of freedom (JCGM 100, 4.2.3).
fn scatter(readings: &[f64]) -> Option<(f64, f64)> {
    let count = readings.len() as f64;
    let first = *readings.first().filter(|_| readings.len() > 1)?;
    let mean = readings.iter().map(|x| x - first).sum::<f64>() / count;
    let squares: f64 = readings.iter().map(|x| (x - first - mean) * (x - first - mean)).sum();
    let standard = (squares / (count - 1.0) / count).sqrt();
    (standard > 0.0).then_some((standard, count - 1.0))
}
