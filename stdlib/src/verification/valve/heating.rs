//! A coil that condenses: what it is full of shows in the subcooling of the liquid that leaves it.

use super::judge::{Read, passing};
use super::peers::{Air, Peers};
use super::unit::{Limits, Plant, Unit};
use super::verdict::{Suspect, Verdict};
use crate::circuit::superheat::difference;
use crate::seam::quantity;
use crate::verification::sign::Sign;

/// A calling unit in heating.
pub(super) fn calling(unit: &Unit, row: usize, read: &Read, peers: &Peers, plant: &Plant, limits: &Limits) -> Verdict {
    let subcooling = difference(unit.saturation(plant), read.liquid);
    if Sign::above(difference(read.liquid, read.gas), limits.turned, plant.pipes).is_sure() {
        // Liquid is never hotter than it condenses: what is so is the gas pipe.
        let hotter = Sign::above(-subcooling, quantity(1.0), plant.pipes).is_sure();
        return if hotter { Verdict::Swapped } else { Verdict::GasSensor };
    }
    let air = peers.air(row, unit, plant, limits);
    match (Sign::above(subcooling, limits.full, plant.pipes), Sign::below(subcooling, limits.uncondensed, plant.pipes))
    {
        (Sign::Sure, _) => full(unit, read, air, limits),
        (_, Sign::Sure) => passing(unit, read, air, limits),
        // A doubtful sign at an end of the controller's travel is worth a look; elsewhere control takes care of it.
        (Sign::Unsure, _) if read.opening >= limits.wide => Verdict::ConsistentWith(Suspect::NoFlow),
        (_, Sign::Unsure) if read.opening <= limits.low => Verdict::ConsistentWith(Suspect::Passing),
        _ if air == Air::None => Verdict::Undecided,
        _ => Verdict::Healthy,
    }
}

/// Liquid stands in the coil, if its liquid sensor is right.
fn full(unit: &Unit, read: &Read, air: Air, limits: &Limits) -> Verdict {
    match air {
        // A coil full of liquid does not heat: then it is not, and the sensor reads the room.
        Air::AsPeers | Air::TooMuch => Verdict::PipeSensors,
        // A controller that has shut the valve by a wrong sensor looks the same: only a valve told to open counts.
        Air::None if read.opening > 2.0 * limits.low || unit.does_not_answer() => Verdict::NoFlow,
        Air::Little if read.opening >= limits.wide => Verdict::Starving,
        _ => Verdict::ConsistentWith(Suspect::NoFlow),
    }
}

/// A resting unit in heating. Warm pipes are usual there: only with the valve told to shut, liquid as warm as it condenses
/// and a room that gets warmer does it leak.
pub(super) fn idle(unit: &Unit, read: &Read, plant: &Plant, limits: &Limits) -> Verdict {
    let told_shut = read.opening <= quantity(0.0);
    // What is hot at its liquid pipe came through its gas pipe.
    let turned = Sign::above(difference(read.liquid, read.gas), limits.turned, plant.pipes);
    match (gas_passes(unit, plant, limits), unit.room_rises) {
        (Sign::Sure, _) if told_shut && turned != Sign::No => Verdict::Undecided,
        (Sign::Sure, Some(true)) if told_shut => Verdict::LeaksIdle,
        (Sign::Sure, None) if told_shut => Verdict::ConsistentWith(Suspect::LeaksIdle),
        _ => Verdict::Idle,
    }
}

/// Whether the liquid pipe of a coil is about as warm as gas condenses.
pub(super) fn gas_passes(unit: &Unit, plant: &Plant, limits: &Limits) -> Sign {
    let Some(liquid) = unit.liquid else { return Sign::Unsure };
    Sign::below(difference(unit.saturation(plant), liquid), limits.near_condensing, plant.pipes)
}
