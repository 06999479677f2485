//! What an expansion valve does, told from its coil: only on two signs that share no sensor.
//!
//! Common practice, no source; the limits are those of [`Limits`]. How often a name is wrong was found by simulation with
//! a physical model of coil, controller and sensors, and is tested so.

use super::peers::{Peers, Sign};

/// Cooling or heating.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// The coil evaporates.
    Cooling,
    /// The coil condenses.
    Heating,
}

/// What the system as a whole was found to be, before any valve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum System {
    /// Nothing against it.
    Healthy,
    /// Liquid returns: a passing valve may be why.
    SuctionSide,
    /// Anything else, or not read.
    First,
}

/// One indoor unit; K, s, shares; nothing where it was not taken.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Unit {
    /// It calls for cooling or heating.
    pub calling: bool,
    /// Commanded opening as a share of full travel.
    pub opening: Option<f64>,
    /// Since anything was changed.
    pub since_change: Option<f64>,
    /// Sensor where liquid enters in cooling.
    pub liquid: Option<f64>,
    /// Sensor where vapour leaves in cooling.
    pub gas: Option<f64>,
    /// Air on.
    pub air_in: Option<f64>,
    /// Air off.
    pub air_out: Option<f64>,
    /// Airflow was proven.
    pub fan: Option<bool>,
    /// It answered a step of the commanded opening.
    pub answered: Option<bool>,
    /// The resistance of its coils is right.
    pub resistance: Option<bool>,
    /// A probe on the gas pipe.
    pub hand_gas: Option<f64>,
    /// The room gets warmer (heating).
    pub room_rises: Option<bool>,
    /// Fall of saturation temperature between the outdoor unit's pressure and this coil.
    pub line_drop: f64,
}

/// What holds for all units. K, s, shares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plant {
    /// Cooling or heating.
    pub mode: Mode,
    /// What was read before any valve.
    pub system: System,
    /// Evaporating (dew) or condensing (bubble) temperature at the outdoor unit.
    pub saturation: f64,
    /// Glide of a blend from the coil's inlet to its dew line.
    pub glide: f64,
    /// Every unit was acted on by itself and its own sensors moved.
    pub mapped: bool,
    /// Expanded uncertainty of a difference of two pipe sensors, or of one and the saturation temperature.
    pub pipes: f64,
    /// Expanded uncertainty of a difference of two air sensors.
    pub air: f64,
    /// Time until a unit has settled.
    pub settle: f64,
}

/// Where signs begin. A sign counts only when its uncertainty keeps clear of the limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Superheat below which a coil floods, K.
    pub flooding: f64,
    /// Superheat above which it starves, K.
    pub starving: f64,
    /// How far above saturation pipes of a coil without flow are, K.
    pub warm: f64,
    /// Opening from which a controller is at its end.
    pub wide: f64,
    /// Opening up to which it is at its low end.
    pub low: f64,
    /// Least air drop of a coil that works, K.
    pub air_least: f64,
    /// Air drop from which little air is suspected, K.
    pub air_most: f64,
}

/// The usual limits: with 1 K of uncertainty they are the trade's 1, 12, 6 and 2 K.
pub const LIMITS: Limits =
    Limits { flooding: 2.0, starving: 11.0, warm: 5.0, wide: 0.85, low: 0.15, air_least: 3.0, air_most: 13.0 };

/// What a unit looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Nothing against it.
    Healthy,
    /// Rests, and nothing passes.
    Idle,
    /// No flow: valve shut, branch blocked, service valve.
    NoFlow,
    /// Too little flow at full opening.
    Starving,
    /// Too much flow at the least opening.
    Passing,
    /// Flow while it rests.
    LeaksIdle,
    /// The sensor on the gas pipe does not read the pipe.
    GasSensor,
    /// Both pipe sensors disagree with the air.
    PipeSensors,
    /// The two pipe sensors stand for one another.
    Swapped,
    /// Two units are crossed, or look so.
    Crossed,
    /// Little air.
    LittleAir,
    /// The system is to be read and mended first.
    SystemFirst,
    /// Changed too short a time ago.
    NotSettled,
    /// Readings are lacking.
    NotTaken,
    /// One sign, or signs within their uncertainty.
    ConsistentWith(Suspect),
    /// Signs that fit nothing.
    Undecided,
}

/// What one sign alone is consistent with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Suspect {
    /// As [`Verdict::NoFlow`].
    NoFlow,
    /// As [`Verdict::Starving`].
    Starving,
    /// As [`Verdict::Passing`].
    Passing,
    /// As [`Verdict::LeaksIdle`].
    LeaksIdle,
}

impl Verdict {
    /// Whether it names a valve or its branch.
    pub fn names_valve(self) -> bool {
        matches!(self, Verdict::NoFlow | Verdict::Starving | Verdict::Passing | Verdict::LeaksIdle)
    }
}

/// A unit judged.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// What it looks like.
    pub verdict: Verdict,
    /// Superheat in cooling, subcooling in heating, K.
    pub excess: Option<f64>,
    /// Change of the air across the coil, K; above nought as it should be.
    pub air: Option<f64>,
}

/// Judges all units of a system together, in their order.
pub fn judge(units: &[Unit], plant: &Plant, limits: &Limits) -> Vec<Judged> {
    let peers = Peers::new(units, plant, limits);
    let wide = |unit: &Unit| unit.calling && unit.opening.is_some_and(|opening| opening >= limits.wide);
    let mut judged: Vec<Judged> = units
        .iter()
        .enumerate()
        .map(|(row, unit)| Judged {
            verdict: one(unit, row, &peers, plant, limits),
            excess: excess(unit, plant),
            air: air_change(unit, plant),
        })
        .collect();
    // One coil that lacks what another has too much of: as likely two units crossed as two valves bad at once.
    let lacks = |(one, unit): (&Judged, &Unit)| {
        // Whatever else it shows: a controller at its end does not get what it wants.
        wide(unit)
            || matches!(
                one.verdict,
                Verdict::NoFlow
                    | Verdict::Starving
                    | Verdict::ConsistentWith(Suspect::NoFlow | Suspect::Starving)
                    | Verdict::PipeSensors
            )
    };
    let has = |(one, _): (&Judged, &Unit)| {
        matches!(
            one.verdict,
            Verdict::Passing | Verdict::LeaksIdle | Verdict::ConsistentWith(Suspect::Passing | Suspect::LeaksIdle)
        )
    };
    let pairs = || judged.iter().zip(units);
    if !plant.mapped && pairs().any(lacks) && pairs().any(has) {
        let crossed: Vec<bool> = pairs().map(|pair| lacks(pair) || has(pair)).collect();
        for (one, _) in judged.iter_mut().zip(crossed).filter(|(_, crossed)| *crossed) {
            one.verdict = Verdict::Crossed;
        }
    }
    for (one, unit) in judged.iter_mut().zip(units) {
        one.verdict = after_system(one.verdict, unit, &peers, plant);
    }
    judged
}

/// Superheat or subcooling of a coil.
pub(super) fn excess(unit: &Unit, plant: &Plant) -> Option<f64> {
    match plant.mode {
        Mode::Cooling => Some(unit.gas? - unit.liquid? - plant.glide),
        Mode::Heating => Some(plant.saturation - unit.line_drop - unit.liquid?),
    }
}

/// Fall of the air's temperature in cooling, rise in heating.
pub(super) fn air_change(unit: &Unit, plant: &Plant) -> Option<f64> {
    let drop = unit.air_in? - unit.air_out?;
    Some(if plant.mode == Mode::Cooling { drop } else { -drop })
}

fn one(unit: &Unit, row: usize, peers: &Peers, plant: &Plant, limits: &Limits) -> Verdict {
    let (Some(liquid), Some(gas), Some(opening)) = (unit.liquid, unit.gas, unit.opening) else {
        return Verdict::NotTaken;
    };
    let read = Read { liquid, gas, opening };
    if !unit.calling {
        return match plant.mode {
            Mode::Cooling => idle_in_cooling(unit, &read, peers, plant, limits),
            Mode::Heating => idle_in_heating(unit, &read, plant),
        };
    }
    if unit.since_change.is_none_or(|since| since < plant.settle) {
        return Verdict::NotSettled;
    }
    match plant.mode {
        Mode::Cooling => cooling(unit, row, &read, peers, plant, limits),
        Mode::Heating => heating(unit, &read, plant, limits),
    }
}

/// The system comes before any valve of a calling unit.
fn after_system(verdict: Verdict, unit: &Unit, peers: &Peers, plant: &Plant) -> Verdict {
    let names = verdict.names_valve() || matches!(verdict, Verdict::ConsistentWith(_));
    let allows = match plant.system {
        System::Healthy => !peers.short_of_liquid(),
        System::SuctionSide => matches!(verdict, Verdict::Passing | Verdict::ConsistentWith(Suspect::Passing)),
        System::First => false,
    };
    if names && unit.calling && !allows { Verdict::SystemFirst } else { verdict }
}

struct Read {
    liquid: f64,
    gas: f64,
    opening: f64,
}

/// A calling unit in cooling.
fn cooling(unit: &Unit, row: usize, read: &Read, peers: &Peers, plant: &Plant, limits: &Limits) -> Verdict {
    // The coil evaporates above the outdoor unit's suction by what the line takes.
    let evaporating = plant.saturation + unit.line_drop;
    let superheat = read.gas - read.liquid - plant.glide;
    if superheat < -(2.0 + plant.pipes) {
        return Verdict::Swapped;
    }
    let air = peers.air(row, unit, plant, limits);
    let warm = |pipe: f64| Sign::above(pipe - evaporating, limits.warm, plant.pipes);
    if warm(read.liquid) == Sign::Sure && warm(read.gas) == Sign::Sure {
        return no_flow(unit, read, air, limits);
    }
    match (Sign::above(superheat, limits.starving, plant.pipes), Sign::below(superheat, limits.flooding, plant.pipes)) {
        (Sign::Sure, _) => starving(unit, read, air, plant, limits),
        (_, Sign::Sure) => flooding(unit, read, air, limits),
        // A doubtful sign at an end of the controller's travel is worth a look; elsewhere control takes care of it.
        (Sign::Unsure, _) if read.opening >= limits.wide => Verdict::ConsistentWith(Suspect::Starving),
        (_, Sign::Unsure) if read.opening <= limits.low => Verdict::ConsistentWith(Suspect::Passing),
        _ if warm(read.liquid) == Sign::Sure || air == Air::None => Verdict::Undecided,
        _ => Verdict::Healthy,
    }
}

/// How the air across a coil compares with that of its peers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Air {
    /// Surely next to no change.
    None,
    /// Surely less than half of what its peers do.
    Little,
    /// Surely more than that, and not more than usual.
    AsPeers,
    /// More than usual: the air is cold because there is little of it.
    Cold,
    /// Not read, or within its uncertainty.
    Unknown,
}

fn no_flow(unit: &Unit, read: &Read, air: Air, limits: &Limits) -> Verdict {
    let answered_not = unit.answered == Some(false) || unit.resistance == Some(false);
    match air {
        Air::AsPeers | Air::Cold => Verdict::PipeSensors,
        // A controller that has shut the valve by a wrong sensor looks the same: only a valve told to open counts.
        Air::None if read.opening > 2.0 * limits.low || answered_not => Verdict::NoFlow,
        _ => Verdict::ConsistentWith(Suspect::NoFlow),
    }
}

fn starving(unit: &Unit, read: &Read, air: Air, plant: &Plant, limits: &Limits) -> Verdict {
    let by_hand = unit.hand_gas.map(|hand| Sign::above(hand - read.liquid - plant.glide, limits.starving, plant.pipes));
    match (air, by_hand) {
        (_, Some(Sign::No)) => Verdict::GasSensor,
        (Air::AsPeers | Air::Cold, None) => Verdict::GasSensor,
        (Air::None | Air::Little, None | Some(Sign::Sure)) | (Air::Unknown, Some(Sign::Sure))
            if read.opening >= limits.wide =>
        {
            Verdict::Starving
        }
        _ => Verdict::ConsistentWith(Suspect::Starving),
    }
}

fn flooding(unit: &Unit, read: &Read, air: Air, limits: &Limits) -> Verdict {
    if read.opening > limits.low {
        return Verdict::ConsistentWith(Suspect::Passing);
    }
    match (air, unit.fan) {
        (Air::Cold, _) | (_, Some(false)) => Verdict::LittleAir,
        (Air::AsPeers, _) => Verdict::Passing,
        // The coil does little although it seems flooded: then it is not, and a pipe sensor reads wrong.
        (Air::None | Air::Little, _) => Verdict::PipeSensors,
        (Air::Unknown, _) => Verdict::ConsistentWith(Suspect::Passing),
    }
}

fn idle_in_cooling(unit: &Unit, read: &Read, peers: &Peers, plant: &Plant, limits: &Limits) -> Verdict {
    let Some(room) = unit.air_in else { return Verdict::NotTaken };
    let Some(rooms) = peers.rooms() else { return Verdict::Undecided };
    // Colder than its own room and than the rooms of all: one air sensor that reads high shows in the first only.
    let cold =
        |pipe: f64, by: f64| Sign::above(room - pipe, by, plant.pipes).and(Sign::above(rooms - pipe, by, plant.pipes));
    match (cold(read.liquid, limits.warm), cold(read.gas, 1.0)) {
        (Sign::No, _) => Verdict::Idle,
        (Sign::Sure, Sign::Sure) if read.opening <= 0.0 => Verdict::LeaksIdle,
        _ if read.opening <= 0.0 => Verdict::ConsistentWith(Suspect::LeaksIdle),
        _ => Verdict::Idle,
    }
}

/// A calling unit in heating.
fn heating(unit: &Unit, read: &Read, plant: &Plant, limits: &Limits) -> Verdict {
    if Sign::above(read.liquid - read.gas, 4.0, plant.pipes) == Sign::Sure {
        return Verdict::Swapped;
    }
    let subcooling = plant.saturation - unit.line_drop - read.liquid;
    let air = air_change(unit, plant);
    let shut = Sign::above(subcooling, 19.0, plant.pipes);
    let open = Sign::below(subcooling, 3.0, plant.pipes);
    let little = air.map(|rise| Sign::below(rise, limits.air_least + plant.air, plant.air));
    match (shut, open, little) {
        (Sign::Sure, _, Some(Sign::Sure)) if read.opening > 2.0 * limits.low => Verdict::NoFlow,
        (Sign::Sure, _, Some(Sign::No)) => Verdict::PipeSensors,
        (Sign::Sure, ..) => Verdict::ConsistentWith(Suspect::NoFlow),
        (_, Sign::Sure, Some(Sign::No)) if read.opening <= limits.low => Verdict::Passing,
        (_, Sign::Sure, _) => Verdict::ConsistentWith(Suspect::Passing),
        _ => Verdict::Healthy,
    }
}

/// Warm pipes of a resting unit are usual in heating: only with the valve told to shut, liquid as warm as it condenses
/// and a room that gets warmer does it leak.
fn idle_in_heating(unit: &Unit, read: &Read, plant: &Plant) -> Verdict {
    let condenses = Sign::below(plant.saturation - unit.line_drop - read.liquid, 6.0, plant.pipes);
    match (condenses, unit.room_rises) {
        (Sign::Sure, Some(true)) if read.opening <= 0.0 => Verdict::LeaksIdle,
        (Sign::Sure, None) if read.opening <= 0.0 => Verdict::ConsistentWith(Suspect::LeaksIdle),
        _ => Verdict::Idle,
    }
}
