//! The units of a system judged together.

use uom::si::f64::{Ratio, TemperatureInterval, ThermodynamicTemperature};

use super::peers::{Air, Peers};
use super::unit::{Limits, Mode, Plant, System, Unit};
use super::verdict::{Suspect, Verdict};
use super::{cooling, heating};
use crate::verification::sign::Sign;

/// A unit judged.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// What it looks like.
    pub verdict: Verdict,
    /// Superheat in cooling, subcooling in heating.
    pub excess: Option<TemperatureInterval>,
    /// Change of the air across the coil; above nought as it should be.
    pub air: Option<TemperatureInterval>,
}

/// What a unit must have been read of to be judged at all.
pub(super) struct Read {
    pub(super) liquid: ThermodynamicTemperature,
    pub(super) gas: ThermodynamicTemperature,
    pub(super) opening: Ratio,
}

/// A coil that gets more than it asks for, if its pipe sensors are right: liquid leaves it in cooling, gas in heating.
pub(super) fn passing(unit: &Unit, read: &Read, air: Air, limits: &Limits) -> Verdict {
    if read.opening > limits.low {
        return Verdict::ConsistentWith(Suspect::Passing);
    }
    match (air, unit.fan) {
        (Air::TooMuch, _) | (_, Some(false)) => Verdict::LittleAir,
        (Air::AsPeers, _) => Verdict::Passing,
        // So much would make the coil work well: one that does little does not get it, and a pipe sensor reads wrong.
        (Air::None | Air::Little, _) => Verdict::PipeSensors,
        (Air::Unknown, _) => Verdict::ConsistentWith(Suspect::Passing),
    }
}

/// Judges all units of a system together, in their order.
pub fn judge(units: &[Unit], plant: &Plant, limits: &Limits) -> Vec<Judged> {
    let peers = Peers::new(units, plant, limits);
    let mut verdicts: Vec<Verdict> =
        units.iter().enumerate().map(|(row, unit)| one(unit, row, &peers, plant, limits)).collect();
    if !plant.mapped {
        cross(&mut verdicts, units, plant, limits);
    }
    units
        .iter()
        .zip(verdicts)
        .map(|(unit, verdict)| Judged {
            verdict: after_system(verdict, unit, &peers, plant),
            excess: unit.excess(plant),
            air: unit.air_change(plant),
        })
        .collect()
}

fn one(unit: &Unit, row: usize, peers: &Peers, plant: &Plant, limits: &Limits) -> Verdict {
    if unit.other_way {
        return Verdict::OtherWay;
    }
    let (Some(liquid), Some(gas), Some(opening)) = (unit.liquid, unit.gas, unit.opening) else {
        return Verdict::NotTaken;
    };
    let read = Read { liquid, gas, opening };
    match (plant.mode, unit.calling) {
        (Mode::Cooling, false) => cooling::idle(unit, &read, peers, plant, limits),
        (Mode::Heating, false) => heating::idle(unit, &read, plant, limits),
        (_, true) if !unit.has_settled(plant) => Verdict::NotSettled,
        (_, true) if unit.runs_backwards(plant, limits) => Verdict::OtherWay,
        (Mode::Cooling, true) => cooling::calling(unit, row, &read, peers, plant, limits),
        (Mode::Heating, true) => heating::calling(unit, row, &read, peers, plant, limits),
    }
}

/// One coil that lacks what another has too much of: as likely two units crossed as two valves bad at once.
fn cross(verdicts: &mut [Verdict], units: &[Unit], plant: &Plant, limits: &Limits) {
    // Whatever else is said of it, and before it has settled too: a controller at its end does not get what it wants.
    let lacking: Vec<bool> = units
        .iter()
        .zip(&*verdicts)
        .map(|(unit, verdict)| unit.is_wide(limits) || unit.is_without_flow(plant, limits) || verdict.lacks())
        .collect();
    // The same at the other end: its coil has more than it wants.
    let too_much: Vec<bool> = units
        .iter()
        .zip(&*verdicts)
        .map(|(unit, verdict)| unit.is_low(plant, limits) || verdict.has_too_much())
        .collect();
    // In heating a resting unit full of hot gas is usual; yet it may have what a calling one lacks.
    let rests_hot = |unit: &Unit| {
        plant.mode == Mode::Heating
            && !unit.calling
            && !unit.other_way
            && heating::gas_passes(unit, plant, limits) == Sign::Sure
    };
    if lacking.contains(&true) && (too_much.contains(&true) || units.iter().any(rests_hot)) {
        for (verdict, (lacks, has)) in verdicts.iter_mut().zip(lacking.into_iter().zip(too_much)) {
            if lacks || has {
                *verdict = Verdict::Crossed;
            }
        }
    }
}

/// The system comes before any valve of a calling unit.
fn after_system(verdict: Verdict, unit: &Unit, peers: &Peers, plant: &Plant) -> Verdict {
    let names = verdict.names_valve() || matches!(verdict, Verdict::ConsistentWith(_));
    let allows = match plant.system {
        System::Healthy => !peers.many_want(),
        // In cooling liquid comes back through a coil; in heating through the outdoor one, whose valve is not asked here.
        System::SuctionSide => {
            plant.mode == Mode::Cooling
                && matches!(verdict, Verdict::Passing | Verdict::ConsistentWith(Suspect::Passing))
        }
        System::First => false,
    };
    if names && unit.calling && !allows { Verdict::SystemFirst } else { verdict }
}
