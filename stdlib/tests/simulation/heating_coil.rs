//! A coil with its valve and controller in heating: what is true, and what the sensors make of it.
//!
//! Heat exchange by effectiveness; liquid that the valve does not let go backs up into the coil, takes its surface and
//! cools there; what the coil cannot condense leaves it as gas. The controller turns the valve until the subcooling *by its
//! own liquid sensor and the outdoor unit's pressure* is what it wants. No rule of the judge is used here.

use super::control;
use super::random::Random;
use super::sensors::{Fault, Readings, Sensors, True};

/// A coil as it is built.
#[derive(Clone, Copy)]
pub struct Coil {
    /// Transfer units at design airflow.
    units: f64,
    /// Flow that the valve gives wide open, over what the coil can condense at design.
    valve: f64,
    /// Transfer units of the end that is full of liquid, at design flow.
    full: f64,
    /// Subcooling that the controller wants, K.
    target: f64,
    /// Least opening of a calling unit.
    least: f64,
}

/// Where it works.
#[derive(Clone, Copy)]
pub struct Place {
    pub room: f64,
    /// Saturation temperature at the coil, and as the controller knows it.
    pub condensing: f64,
    pub seen_condensing: f64,
    /// Hot gas at the coil.
    pub hot_gas: f64,
    /// Share of the flow that the liquid line takes away.
    pub supply: f64,
    /// Share of the coil in which surplus liquid stands whatever the valve does.
    pub standing: f64,
    /// How far a want of liquid has emptied the coil, from nought to one.
    pub emptied: f64,
    /// Share of the design airflow: a unit that rests has its fan off.
    pub air: f64,
}

/// What is true of a coil.
#[derive(Clone, Copy, Default)]
pub struct State {
    pub of_pipes: True,
    /// Heat over design airflow, K.
    pub heat: f64,
}

impl Coil {
    pub fn new(random: &mut Random) -> Coil {
        Coil {
            units: random.between(1.0, 1.5),
            valve: 1.0 / random.between(0.3, 0.6),
            full: random.between(0.7, 1.5),
            target: random.between(5.0, 10.0),
            least: random.between(0.03, 0.09),
        }
    }

    /// What becomes of it with this opening.
    pub fn state(&self, commanded: f64, place: &Place, fault: Fault) -> State {
        let air = place.air * fault.air();
        let span = (place.condensing - place.room).max(0.1);
        let effect = 1.0 - libm::exp(-self.units * libm::pow(air, -0.4));
        // Heat of the coil over that at design: 24 K between coil and air.
        let free_heat = air * effect * span * (1.0 - place.standing);
        let design = (1.0 - libm::exp(-self.units)) * 24.0;
        let brought = fault.opening(commanded, self.valve) * self.valve * place.supply * design;
        let condensing = (brought / free_heat).min(1.0);
        let full = f64::max(1.0 - condensing, place.standing);
        let flow = (condensing * free_heat / design).max(1e-3);
        let subcooling = span * (1.0 - libm::exp(-self.full * full / flow)) * (1.0 - place.emptied);
        // A trickle does not keep the pipe before the coil hot, but gas condenses in it.
        let still = place.room + 0.6 * span;
        let heat = condensing * free_heat;
        State {
            of_pipes: True {
                room: place.room,
                liquid: place.condensing - subcooling,
                gas: still + (place.hot_gas - still) * (1.0 - libm::exp(-brought / (0.03 * design))),
                air_out: place.room + heat / air,
            },
            heat,
        }
    }

    /// What is at a given opening.
    pub fn at(&self, opening: f64, place: &Place, sensors: &Sensors, fault: Fault) -> (State, Readings) {
        let state = self.state(opening, place, fault);
        (state, sensors.read(&state.of_pipes, opening, fault))
    }

    /// How far the controller sees more subcooling than it wants.
    pub fn over(&self, place: &Place, read: &Readings) -> f64 {
        place.seen_condensing - read.liquid - self.target
    }

    /// What is where the controller comes to rest.
    pub fn controlled(&self, place: &Place, sensors: &Sensors, fault: Fault, random: &mut Random) -> (State, Readings) {
        let seems_full = |opening: f64| self.over(place, &self.at(opening, place, sensors, fault).1) > 0.0;
        self.at(control::rest(self.least, seems_full, random), place, sensors, fault)
    }
}
