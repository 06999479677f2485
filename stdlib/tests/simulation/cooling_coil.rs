//! A coil with its valve and controller in cooling: what is true, and what the sensors make of it.
//!
//! Heat exchange by effectiveness; a coil is wet as far as its refrigerant reaches and superheats it in the rest. The
//! controller turns the valve until the superheat *by its own sensors* is what it wants: so a sensor that is wrong makes a
//! coil that is really starved or flooded. No rule of the judge is used here.

use super::control;
use super::random::Random;
use super::sensors::{Fault, Readings, Sensors, True};

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
    pub of_pipes: True,
    pub superheat: f64,
    /// Flow over what the coil evaporates at design.
    pub flow: f64,
    /// Flow that leaves as liquid.
    pub wet: f64,
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
    pub fn state(&self, commanded: f64, place: &Place, fault: Fault) -> State {
        let air = place.air * fault.air();
        let span = (place.room - place.evaporating).max(0.1);
        let effect = 1.0 - libm::exp(-self.units * libm::pow(air, -0.4));
        // Heat of the wet coil over that at design: 19 K between air and coil.
        let wet_heat = air * effect * span;
        let design = (1.0 - libm::exp(-self.units)) * 19.0;
        let flow = fault.opening(commanded, self.valve) * self.valve * place.supply;
        let brought = flow * design;
        let wetted = (brought / wet_heat).min(1.0);
        let superheat = if wetted < 1.0 { span * (1.0 - libm::exp(-self.dry * (1.0 - wetted))) } else { 0.0 };
        let heat = wetted * wet_heat;
        // A trickle does not keep the pipe before the coil cold.
        let liquid = place.evaporating + span * libm::exp(-brought / (0.03 * design));
        let gas = (place.evaporating - self.drop * wetted + superheat).min(place.room);
        State {
            of_pipes: True {
                room: place.room,
                liquid,
                gas: if flow < 0.01 { place.room - 0.2 } else { gas },
                air_out: place.room - self.sensible * heat / air,
            },
            superheat,
            flow,
            wet: (brought - wet_heat).max(0.0) / design,
        }
    }

    /// What is at a given opening.
    pub fn at(&self, opening: f64, place: &Place, sensors: &Sensors, fault: Fault) -> (State, Readings) {
        let state = self.state(opening, place, fault);
        (state, sensors.read(&state.of_pipes, opening, fault))
    }

    /// What is where the controller comes to rest.
    pub fn controlled(&self, place: &Place, sensors: &Sensors, fault: Fault, random: &mut Random) -> (State, Readings) {
        let seems_hot = |opening: f64| {
            let (_, read) = self.at(opening, place, sensors, fault);
            read.gas - read.liquid > self.target
        };
        self.at(control::rest(self.least, seems_hot, random), place, sensors, fault)
    }
}
