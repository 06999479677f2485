//! What the units of a system say of one another.

use super::valve::{Air, Limits, Mode, Plant, Unit, air_change, excess};

/// How sure a sign is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Sign {
    /// Surely not there.
    No,
    /// Within its uncertainty.
    Unsure,
    /// Surely there.
    Sure,
}

impl Sign {
    /// A value above a limit.
    pub(super) fn above(value: f64, limit: f64, uncertainty: f64) -> Sign {
        match value - limit {
            over if over > uncertainty => Sign::Sure,
            over if over < -uncertainty => Sign::No,
            _ => Sign::Unsure,
        }
    }

    /// A value below a limit.
    pub(super) fn below(value: f64, limit: f64, uncertainty: f64) -> Sign {
        Sign::above(-value, -limit, uncertainty)
    }

    /// Both.
    pub(super) fn and(self, other: Sign) -> Sign {
        self.min(other)
    }
}

/// Less than this share of what the peers do is surely little; more than [`MUCH`] of it is as they do.
const LITTLE: f64 = 0.5;
const MUCH: f64 = 0.75;
/// Over this share of what the peers do the air is colder than the coil can make it at full flow.
const TOO_MUCH: f64 = 1.2;
/// Share of calling units that starve or are wide open from which the system is short of liquid.
const MANY: f64 = 0.3;
/// Units of which something can be said by comparison.
const ENOUGH: usize = 3;

/// The units of a system, as far as one is compared with the others.
#[derive(Debug)]
pub(super) struct Peers {
    /// How much of the greatest possible change of its air each calling, settled unit makes, in rising order.
    effects: Vec<(usize, f64)>,
    /// The middle of all rooms.
    rooms: Option<f64>,
    short: bool,
}

impl Peers {
    pub(super) fn new(units: &[Unit], plant: &Plant, limits: &Limits) -> Peers {
        let settled = |unit: &&Unit| unit.calling && unit.since_change.is_some_and(|since| since >= plant.settle);
        let mut effects: Vec<(usize, f64)> = units
            .iter()
            .enumerate()
            .filter(|(_, unit)| settled(unit))
            .filter_map(|(row, unit)| Some((row, effect(unit, plant)?)))
            .collect();
        effects.sort_by(|a, b| a.1.total_cmp(&b.1));
        let mut rooms: Vec<f64> = units.iter().filter_map(|unit| unit.air_in).collect();
        rooms.sort_by(f64::total_cmp);
        let running = units.iter().filter(settled).count();
        let wanting = units.iter().filter(settled).filter(|unit| wants(unit, plant, limits)).count();
        Peers {
            effects,
            rooms: (rooms.len() >= ENOUGH).then(|| middle(&rooms)),
            short: wanting >= 2 && wanting as f64 >= MANY * running as f64,
        }
    }

    /// So many starve or are wide open that the system lacks liquid; no valve is named then.
    pub(super) fn short_of_liquid(&self) -> bool {
        self.short
    }

    /// The middle of all rooms.
    pub(super) fn rooms(&self) -> Option<f64> {
        self.rooms
    }

    /// How the air of one unit compares with that of the others.
    pub(super) fn air(&self, row: usize, unit: &Unit, plant: &Plant, limits: &Limits) -> Air {
        let (Some(change), Some(own)) = (air_change(unit, plant), effect(unit, plant)) else { return Air::Unknown };
        if Sign::below(change, limits.air_least, plant.air) == Sign::Sure {
            return Air::None;
        }
        let others: Vec<f64> = self.effects.iter().filter(|(at, _)| *at != row).map(|(_, effect)| *effect).collect();
        if others.len() < ENOUGH {
            return Air::Unknown;
        }
        let usual = middle(&others);
        let uncertainty = own * plant.air / change.abs().max(plant.air);
        if Sign::above(change, limits.air_most, plant.air) == Sign::Sure || own > TOO_MUCH * usual {
            Air::Cold
        } else if Sign::below(own, LITTLE * usual, uncertainty) == Sign::Sure {
            Air::Little
        } else if Sign::above(own, MUCH * usual, uncertainty) >= Sign::Unsure && own - uncertainty > LITTLE * usual {
            Air::AsPeers
        } else {
            Air::Unknown
        }
    }
}

/// Change of the air over the greatest that the coil's temperature allows.
fn effect(unit: &Unit, plant: &Plant) -> Option<f64> {
    let greatest = match plant.mode {
        Mode::Cooling => unit.air_in? - plant.saturation,
        Mode::Heating => plant.saturation - unit.air_in?,
    };
    (greatest > 3.0).then_some(air_change(unit, plant)? / greatest)
}

/// A calling unit that wants more liquid than it gets.
fn wants(unit: &Unit, plant: &Plant, limits: &Limits) -> bool {
    let wide = unit.opening.is_some_and(|opening| opening >= limits.wide);
    let starves =
        plant.mode == Mode::Cooling && excess(unit, plant).is_some_and(|superheat| superheat > limits.starving);
    wide || starves
}

fn middle(sorted: &[f64]) -> f64 {
    let at = |place: usize| sorted.get(place).copied().unwrap_or(0.0);
    let half = sorted.len() / 2;
    if sorted.len() % 2 == 1 { at(half) } else { f64::midpoint(at(half.saturating_sub(1)), at(half)) }
}
