//! A coil that evaporates.

use super::judge::{Read, passing};
use super::peers::{Air, Peers};
use super::unit::{Limits, Plant, Unit};
use super::verdict::{Suspect, Verdict};
use crate::circuit::superheat::difference;
use crate::seam::quantity;
use crate::verification::sign::Sign;

/// A calling unit in cooling.
pub(super) fn calling(unit: &Unit, row: usize, read: &Read, peers: &Peers, plant: &Plant, limits: &Limits) -> Verdict {
    let evaporating = unit.saturation(plant);
    let superheat = difference(read.gas, read.liquid) - plant.glide;
    if Sign::above(-superheat, limits.turned, plant.pipes).is_sure() {
        return Verdict::Swapped;
    }
    let air = peers.air(row, unit, plant, limits);
    let warm = |pipe| Sign::above(difference(pipe, evaporating), limits.warm, plant.pipes).is_sure();
    if warm(read.liquid) && warm(read.gas) {
        return no_flow(unit, read, air, limits);
    }
    match (Sign::above(superheat, limits.starving, plant.pipes), Sign::below(superheat, limits.flooding, plant.pipes)) {
        (Sign::Sure, _) => starving(unit, read, air, plant, limits),
        (_, Sign::Sure) => passing(unit, read, air, limits),
        // A doubtful sign at an end of the controller's travel is worth a look; elsewhere control takes care of it.
        (Sign::Unsure, _) if read.opening >= limits.wide => Verdict::ConsistentWith(Suspect::Starving),
        (_, Sign::Unsure) if read.opening <= limits.low => Verdict::ConsistentWith(Suspect::Passing),
        _ if warm(read.liquid) || air == Air::None => Verdict::Undecided,
        _ => Verdict::Healthy,
    }
}

fn no_flow(unit: &Unit, read: &Read, air: Air, limits: &Limits) -> Verdict {
    match air {
        Air::AsPeers | Air::TooMuch => Verdict::PipeSensors,
        // A controller that has shut the valve by a wrong sensor looks the same: only a valve told to open counts.
        Air::None if read.opening > 2.0 * limits.low || unit.does_not_answer() => Verdict::NoFlow,
        _ => Verdict::ConsistentWith(Suspect::NoFlow),
    }
}

fn starving(unit: &Unit, read: &Read, air: Air, plant: &Plant, limits: &Limits) -> Verdict {
    let by_hand = unit
        .hand_gas
        .map(|hand| Sign::above(difference(hand, read.liquid) - plant.glide, limits.starving, plant.pipes));
    match (air, by_hand) {
        (_, Some(Sign::No)) => Verdict::GasSensor,
        (Air::AsPeers | Air::TooMuch, None) => Verdict::GasSensor,
        (Air::None | Air::Little, None | Some(Sign::Sure)) | (Air::Unknown, Some(Sign::Sure))
            if read.opening >= limits.wide =>
        {
            Verdict::Starving
        }
        _ => Verdict::ConsistentWith(Suspect::Starving),
    }
}

/// A resting unit in cooling.
pub(super) fn idle(unit: &Unit, read: &Read, peers: &Peers, plant: &Plant, limits: &Limits) -> Verdict {
    let Some(room) = unit.air_in else { return Verdict::NotTaken };
    let Some(rooms) = peers.rooms() else { return Verdict::Undecided };
    // Colder than its own room and than the rooms of all: one air sensor that reads high shows in the first only.
    let cold = |pipe, by| {
        let below = |air| Sign::above(difference(air, pipe), by, plant.pipes);
        below(room).and(below(rooms))
    };
    let told_shut = read.opening <= quantity(0.0);
    match (cold(read.liquid, limits.warm), cold(read.gas, quantity(1.0))) {
        (Sign::No, _) => Verdict::Idle,
        (Sign::Sure, Sign::Sure) if told_shut => Verdict::LeaksIdle,
        _ if told_shut => Verdict::ConsistentWith(Suspect::LeaksIdle),
        _ => Verdict::Idle,
    }
}
