//! A coil with its valve and controller, in cooling: what is true, and what the sensors make of it.
//!
//! Heat exchange by effectiveness; a coil is wet as far as its refrigerant reaches and superheats it in the rest. The
//! controller turns the valve until the superheat *by its own sensors* is what it wants: so a sensor that is wrong makes a
//! coil that is really starved or flooded. No rule of the judge is used here.

use super::random::Random;

/// A coil as it is built.
#[derive(Clone, Copy)]
pub struct Coil {
    /// Transfer units at design airflow.
    units: f64,
    /// Flow that the valve gives wide open, over what the coil can evaporate at design.
    valve: f64,
    /// Transfer units of the dry end.
    dry: f64,
    /// Sensible share.
    sensible: f64,
    /// Fall of saturation temperature in the coil, K.
    drop: f64,
    /// Superheat that the controller wants, K.
    target: f64,
    /// Least opening of a calling unit.
    least: f64,
}

/// What is wrong with a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fault {
    None,
    /// Share of the commanded flow that gets through: shut, blocked or restricted.
    Passes(f64),
    /// Flow that passes whatever is commanded, over what the coil can evaporate.
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

/// Where it works.
#[derive(Clone, Copy)]
pub struct Place {
    pub room: f64,
    /// Saturation temperature at the coil.
    pub evaporating: f64,
    /// Share of full liquid supply.
    pub supply: f64,
    /// Share of the design airflow: a unit that rests has its fan off.
    pub air: f64,
}

/// What is true of a coil.
#[derive(Clone, Copy, Default)]
pub struct State {
    pub liquid: f64,
    pub gas: f64,
    pub air_out: f64,
    pub superheat: f64,
    /// Flow over what the coil evaporates at design.
    pub flow: f64,
    /// Flow that leaves as liquid.
    pub wet: f64,
    pub heat: f64,
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

    fn shown(&self, value: f64) -> f64 {
        (value / self.resolution).round() * self.resolution
    }
}

impl Coil {
    pub fn new(random: &mut Random) -> Coil {
        Coil {
            units: random.between(1.0, 1.5),
            valve: 1.0 / random.between(0.3, 0.6),
            dry: random.between(4.0, 9.0),
            sensible: random.between(0.7, 0.9),
            drop: random.between(0.0, 1.0),
            target: random.between(4.0, 6.0),
            least: random.between(0.03, 0.09),
        }
    }

    /// What becomes of it with this opening.
    pub fn state(&self, opening: f64, place: &Place, fault: Fault) -> State {
        let air = place.air * if let Fault::LittleAir(share) = fault { share } else { 1.0 };
        let span = (place.room - place.evaporating).max(0.1);
        let effect = 1.0 - libm::exp(-self.units * libm::pow(air, -0.4));
        // Heat of the wet coil over that at design: 19 K between air and coil.
        let wet_heat = air * effect * span;
        let design = (1.0 - libm::exp(-self.units)) * 19.0;
        let commanded = match fault {
            Fault::Passes(share) => opening * share,
            Fault::Floor(floor) => opening.max(floor / self.valve),
            _ => opening,
        };
        let flow = commanded * self.valve * place.supply;
        let brought = flow * design;
        let wetted = (brought / wet_heat).min(1.0);
        let superheat = if wetted < 1.0 { span * (1.0 - libm::exp(-self.dry * (1.0 - wetted))) } else { 0.0 };
        let heat = wetted * wet_heat;
        // A trickle does not keep the pipe before the coil cold.
        let liquid = place.evaporating + span * libm::exp(-brought / (0.03 * design));
        let gas = (place.evaporating - self.drop * wetted + superheat).min(place.room);
        State {
            liquid,
            gas: if flow < 0.01 { place.room - 0.2 } else { gas },
            air_out: place.room - self.sensible * heat / air,
            superheat,
            flow,
            wet: (brought - wet_heat).max(0.0) / design,
            heat,
        }
    }

    /// What the sensors make of a state.
    pub fn read(&self, state: &State, place: &Place, sensors: &Sensors, fault: Fault) -> Readings {
        let towards = |value: f64, share: f64| value + share * (place.room - value);
        let mut gas = towards(state.gas, sensors.contact[0]) + sensors.offset[0];
        let mut liquid = towards(state.liquid, sensors.contact[1]) + sensors.offset[1];
        let mut air_in = place.room + sensors.offset[2];
        let mut air_out = towards(state.air_out, sensors.place) + sensors.offset[3];
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
        let [liquid, gas, air_in, air_out] = [liquid, gas, air_in, air_out].map(|value| sensors.shown(value));
        Readings { liquid, gas, air_in, air_out, opening: 0.0 }
    }

    /// The opening at which the controller comes to rest, and what is then.
    pub fn controlled(&self, place: &Place, sensors: &Sensors, fault: Fault, random: &mut Random) -> (State, Readings) {
        let seen = |opening: f64| {
            let read = self.read(&self.state(opening, place, fault), place, sensors, fault);
            read.gas - read.liquid
        };
        // More opening, less superheat: open as long as it seems too hot.
        let (mut low, mut high) = (self.least, 1.0);
        for _ in 0..40 {
            let middle = f64::midpoint(low, high);
            if seen(middle) > self.target { low = middle } else { high = middle }
        }
        let rest = if seen(1.0) > self.target { 1.0 } else { low };
        // It hunts a little.
        let opening = (rest * (1.0 + 0.03 * random.normal())).clamp(self.least, 1.0);
        self.at(opening, place, sensors, fault)
    }

    /// What is at a given opening.
    pub fn at(&self, opening: f64, place: &Place, sensors: &Sensors, fault: Fault) -> (State, Readings) {
        let state = self.state(opening, place, fault);
        let read = self.read(&state, place, sensors, fault);
        (state, Readings { opening, ..read })
    }
}
