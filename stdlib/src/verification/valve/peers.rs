//! What the units of a system say of one another.

use uom::si::f64::{Ratio, ThermodynamicTemperature};

use super::unit::{Limits, Mode, Plant, Unit};
use crate::circuit::superheat::difference;
use crate::numeric::middle::middle;
use crate::seam::quantity;
use crate::verification::sign::Sign;

/// Less than this share of what the peers do is surely little; more than [`MUCH`] of it is as they do.
const LITTLE: f64 = 0.5;
const MUCH: f64 = 0.75;
/// Over this share of what the peers do the air changes more than the coil can make it at full flow. A coil that condenses
/// keeps part of its surface under liquid, so that one through which gas passes does more than its peers.
const fn too_much(mode: Mode) -> f64 {
    match mode {
        Mode::Cooling => 1.2,
        Mode::Heating => 1.5,
    }
}

/// Share of calling units that lack liquid, or are at the end of their travel, from which the system is at fault.
const MANY: f64 = 0.3;
/// Units of which something can be said by comparison.
const ENOUGH: usize = 3;

/// How the air across a coil compares with that of its peers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Air {
    /// Surely next to no change.
    None,
    /// Surely less than half of what its peers do.
    Little,
    /// Surely more than that, and not more than usual.
    AsPeers,
    /// More than usual: it changes so much because there is little of it.
    TooMuch,
    /// Not read, or within its uncertainty.
    Unknown,
}

/// The units of a system, as far as one is compared with the others.
#[derive(Debug)]
pub(super) struct Peers {
    /// How much of the greatest possible change of its air each calling, settled unit makes, by its row.
    effects: Vec<(usize, Ratio)>,
    /// The middle of all rooms.
    rooms: Option<ThermodynamicTemperature>,
    many_want: bool,
}

impl Peers {
    pub(super) fn new(units: &[Unit], plant: &Plant, limits: &Limits) -> Peers {
        let settled = || units.iter().enumerate().filter(|(_, unit)| unit.has_settled(plant));
        let effects = settled().filter_map(|(row, unit)| Some((row, effect(unit, plant)?))).collect();
        let rooms: Vec<f64> = units.iter().filter_map(|unit| unit.air_in).map(|room| room.value).collect();
        let running = settled().count();
        // What many share is the system's, but only what is alike: liquid that lacks here and stands there is not.
        let is_many = |want: Want| {
            let wanting = settled().filter(|(_, unit)| wants(unit, plant, limits) == Some(want)).count();
            wanting >= 2 && wanting as f64 >= MANY * running as f64
        };
        Peers {
            effects,
            rooms: middle_of_enough(rooms).map(quantity),
            many_want: is_many(Want::Liquid) || is_many(Want::Draining),
        }
    }

    /// So many do not get what they want that the system is at fault; no valve is named then.
    pub(super) fn many_want(&self) -> bool {
        self.many_want
    }

    /// The middle of all rooms.
    pub(super) fn rooms(&self) -> Option<ThermodynamicTemperature> {
        self.rooms
    }

    /// How the air of one unit compares with that of the others.
    pub(super) fn air(&self, row: usize, unit: &Unit, plant: &Plant, limits: &Limits) -> Air {
        let (Some(change), Some(own)) = (unit.air_change(plant), effect(unit, plant)) else { return Air::Unknown };
        if Sign::below(change, limits.air_least, plant.air).is_sure() {
            return Air::None;
        }
        let others: Vec<f64> =
            self.effects.iter().filter(|(at, _)| *at != row).map(|(_, effect)| effect.value).collect();
        let Some(usual) = middle_of_enough(others).map(quantity::<uom::si::ratio::Dimension>) else {
            return Air::Unknown;
        };
        let uncertainty: Ratio = own * (plant.air / change.abs().max(plant.air));
        if Sign::above(change, limits.air_most, plant.air).is_sure() || own > too_much(plant.mode) * usual {
            Air::TooMuch
        } else if Sign::below(own, LITTLE * usual, uncertainty).is_sure() {
            Air::Little
        } else if Sign::above(own, MUCH * usual, uncertainty) >= Sign::Unsure && own - uncertainty > LITTLE * usual {
            Air::AsPeers
        } else {
            Air::Unknown
        }
    }
}

fn middle_of_enough(values: Vec<f64>) -> Option<f64> {
    if values.len() < ENOUGH { None } else { middle(values) }
}

/// Change of the air over the greatest that the coil's temperature allows.
fn effect(unit: &Unit, plant: &Plant) -> Option<Ratio> {
    let greatest = match plant.mode {
        Mode::Cooling => difference(unit.air_in?, plant.saturation),
        Mode::Heating => difference(plant.saturation, unit.air_in?),
    };
    (greatest > quantity(3.0)).then_some(unit.air_change(plant)? / greatest)
}

/// What a calling unit does not get.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Want {
    /// Its coil lacks liquid.
    Liquid,
    /// Its coil is full of it, in heating, though its valve is wide open.
    Draining,
}

fn wants(unit: &Unit, plant: &Plant, limits: &Limits) -> Option<Want> {
    let excess = unit.excess(plant);
    let wide = unit.is_wide(limits);
    match plant.mode {
        Mode::Cooling => (wide || excess? > limits.starving).then_some(Want::Liquid),
        Mode::Heating if wide => Some(Want::Draining),
        // Pipe sensors that are turned would read as a want of liquid.
        Mode::Heating if difference(unit.liquid?, unit.gas?) > limits.turned => None,
        Mode::Heating => (excess? < limits.uncondensed).then_some(Want::Liquid),
    }
}
