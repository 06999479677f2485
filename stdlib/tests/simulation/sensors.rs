//! The four sensors of a unit, and what is wrong with a unit or with them.

use super::random::Random;

/// What is wrong with a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fault {
    None,
    /// Share of the commanded flow that gets through: shut, blocked or restricted.
    Passes(f64),
    /// Flow that passes whatever is commanded, over what the coil does at design.
    Floor(f64),
    /// Share of the air's temperature that the gas-pipe sensor reads.
    GasOff(f64),
    /// The same of the liquid-pipe sensor.
    LiquidOff(f64),
    /// The two pipe sensors exchanged.
    Swapped,
    /// Share of the airflow that is left.
    LittleAir(f64),
    /// Offsets of gas-pipe, liquid-pipe, air-on and air-off sensor, K.
    Drift([f64; 4]),
}

impl Fault {
    /// The opening that a command comes to, for a valve that gives this flow wide open.
    pub fn opening(self, commanded: f64, valve: f64) -> f64 {
        match self {
            Fault::Passes(share) => commanded * share,
            Fault::Floor(floor) => commanded.max(floor / valve),
            _ => commanded,
        }
    }

    /// The share of the airflow that is left.
    pub fn air(self) -> f64 {
        if let Fault::LittleAir(share) = self { share } else { 1.0 }
    }
}

/// What is true of the pipes and the air of a unit.
#[derive(Clone, Copy, Default)]
pub struct True {
    pub room: f64,
    pub liquid: f64,
    pub gas: f64,
    pub air_out: f64,
}

/// What its sensors say, and what the controller commands.
#[derive(Clone, Copy, Default)]
pub struct Readings {
    pub liquid: f64,
    pub gas: f64,
    pub air_in: f64,
    pub air_out: f64,
    pub opening: f64,
}

/// Errors of one unit's four sensors.
#[derive(Clone, Copy)]
pub struct Sensors {
    offset: [f64; 4],
    /// How far a pipe sensor reads towards the air.
    contact: [f64; 2],
    /// How far the air-off sensor reads towards the air on.
    place: f64,
    resolution: f64,
}

impl Sensors {
    pub fn new(random: &mut Random, resolution: f64) -> Sensors {
        Sensors {
            offset: std::array::from_fn(|_| random.between(-0.5, 0.5)),
            contact: std::array::from_fn(|_| random.between(0.0, 0.05)),
            place: random.between(0.0, 0.12),
            resolution,
        }
    }

    /// What they make of what is true.
    pub fn read(&self, truth: &True, opening: f64, fault: Fault) -> Readings {
        let towards = |value: f64, share: f64| value + share * (truth.room - value);
        let mut gas = towards(truth.gas, self.contact[0]) + self.offset[0];
        let mut liquid = towards(truth.liquid, self.contact[1]) + self.offset[1];
        let mut air_in = truth.room + self.offset[2];
        let mut air_out = towards(truth.air_out, self.place) + self.offset[3];
        match fault {
            Fault::GasOff(share) => gas = towards(gas, share),
            Fault::LiquidOff(share) => liquid = towards(liquid, share),
            Fault::Swapped => std::mem::swap(&mut gas, &mut liquid),
            Fault::Drift([g, l, on, off]) => {
                gas += g;
                liquid += l;
                air_in += on;
                air_out += off;
            }
            _ => {}
        }
        let [liquid, gas, air_in, air_out] =
            [liquid, gas, air_in, air_out].map(|value| (value / self.resolution).round() * self.resolution);
        Readings { liquid, gas, air_in, air_out, opening }
    }
}
