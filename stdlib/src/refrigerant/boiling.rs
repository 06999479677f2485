//! A blend that is liquid and vapour at a pressure, by the enthalpy or entropy of the whole: sought in the share of vapour,
//! along which both rise almost evenly.

use super::basis::{Basis, MassState};
use super::error::{Limit, PropertyError, Value};
use super::fluid::{Fluid, Phase};
use super::heat::{Heat, HeatState};
use crate::helmholtz::Model;
use crate::helmholtz::split::Split;

const ITERATIONS_MAX: usize = 100;
/// Relative to the difference between liquid and vapour.
const TOLERANCE: f64 = 1e-13;
/// Steps in which less and less vapour is tried where there is no first vapour to begin from.
const STEPS: u32 = 20;

impl Fluid {
    /// Between the saturated liquid and the saturated vapour at pressure `p` (Pa).
    pub fn boiling(
        &self,
        p: f64,
        heat: Heat,
        liquid: &MassState,
        vapor: &MassState,
    ) -> Result<HeatState, PropertyError> {
        let basis = self.basis()?;
        let line = &self.saturation.bubble;
        let start = Split::bubble_point(&basis.model, liquid.temperature, |t| line.density(t));
        let start = start.ok_or_else(|| nothing(p, heat))?;
        let ends = [(0.0, heat.of(liquid) - heat.given()), (1.0, heat.of(vapor) - heat.given())];
        sought(basis, p, heat, start, ends, heat.of(vapor) - heat.of(liquid))
    }

    /// Below the saturated vapour at pressure `p` (Pa) where the bubble line does not come down to it: its first vapour would
    /// come of liquid colder than the equations go. Over from the end of the bubble line to the dew line, down along that,
    /// and back to less vapour as far as the cold allows.
    pub fn boiling_cold(&self, p: f64, heat: Heat, vapor: &MassState) -> Result<HeatState, PropertyError> {
        let basis = self.basis()?;
        let model = &basis.model;
        let line = &self.saturation.bubble;
        let lowest = self.saturation.limits.lowest_temperature;
        let too_cold = |t: f64| PropertyError::OutOfRange {
            limit: Limit::Lowest,
            at: Value::Temperature(lowest),
            asked: Value::Temperature(t),
        };
        let excess = |split: &Split| heat.of_whole(basis, &split.overall(model)) - heat.given();

        let start = Split::bubble_point(model, line.cold.0, |t| line.density(t));
        let start = start.and_then(|start| walked(&start, model, line.cold.1, 1.0));
        let start = start.and_then(|start| pressed(&start, model, line.cold.1, p));
        let mut here = start.ok_or_else(|| nothing(p, heat))?;
        let mut high = (1.0, heat.of(vapor) - heat.given());
        let span = heat.of(vapor)
            - heat.of(&self.saturated_at_pressure(crate::helmholtz::envelope::Line::Bubble, line.cold.1)?);
        for step in (0..STEPS).rev() {
            let share = f64::from(step) / f64::from(STEPS);
            // Where even the step before was too cold there is no answer, and so where the way ends in the cold.
            let next = walked(&here, model, p, share).ok_or_else(|| too_cold(here.temperature.min(lowest)))?;
            let low = (share, excess(&next));
            if low.1 <= 0.0 {
                let found = sought(basis, p, heat, next, [low, high], span)?;
                return if found.temperature >= lowest { Ok(found) } else { Err(too_cold(found.temperature)) };
            }
            if next.temperature < lowest {
                return Err(too_cold(next.temperature));
            }
            (here, high) = (next, low);
        }
        Err(too_cold(here.temperature))
    }
}

fn nothing(p: f64, heat: Heat) -> PropertyError {
    PropertyError::NoState(Value::Pressure(p), heat.value())
}

/// The share of vapour with the heat that is given, between two shares with what they have too little and too much.
fn sought(
    basis: &Basis,
    p: f64,
    heat: Heat,
    start: Split,
    [(mut low, mut below), (mut high, mut above)]: [(f64, f64); 2],
    span: f64,
) -> Result<HeatState, PropertyError> {
    let model = &basis.model;
    let mut split = start;
    for _ in 0..ITERATIONS_MAX {
        let share = (low * above - high * below) / (above - below);
        split = walked(&split, model, p, share).ok_or_else(|| nothing(p, heat))?;
        let whole = split.overall(model);
        let excess = heat.of_whole(basis, &whole) - heat.given();
        if excess.abs() <= TOLERANCE * span || high - low < TOLERANCE {
            if excess.abs() > 1e-9 * span {
                break;
            }
            return Ok(HeatState {
                phase: Phase::TwoPhase,
                quality: Some(whole.quality),
                pressure: p,
                temperature: split.temperature,
                density: model.molar_mass / whole.volume,
                enthalpy: basis.enthalpy(whole.enthalpy),
                entropy: basis.entropy(whole.entropy),
            });
        }
        // Illinois: the end that stays is weighed half.
        if excess > 0.0 {
            (high, above) = (share, excess);
            below *= 0.5;
        } else {
            (low, below) = (share, excess);
            above *= 0.5;
        }
    }
    Err(nothing(p, heat))
}

/// From one share of vapour to another at one pressure, in as many steps as it takes.
fn walked(from: &Split, model: &Model, p: f64, share: f64) -> Option<Split> {
    let mut here = *from;
    let mut step: f64 = 0.5;
    while here.vapor_share != share || here.vapor_share == 0.0 {
        let way = share - here.vapor_share;
        let target = if way.abs() <= step { share } else { here.vapor_share + step.copysign(way) };
        match here.moved(model, p, target) {
            Some(there) => {
                here = there;
                if share == 0.0 {
                    break;
                }
            }
            None => {
                step *= 0.5;
                if step < 1e-4 {
                    return None;
                }
            }
        }
    }
    Some(here)
}

/// From one pressure (Pa) to another at one share of vapour, in as many steps as it takes.
fn pressed(from: &Split, model: &Model, p: f64, wanted: f64) -> Option<Split> {
    let (mut here, mut at, target) = (*from, libm::log(p), libm::log(wanted));
    let mut step: f64 = 0.3;
    while at != target {
        let way = target - at;
        let next = if way.abs() <= step { target } else { at + step.copysign(way) };
        match here.moved(model, if next == target { wanted } else { libm::exp(next) }, here.vapor_share) {
            Some(there) => (here, at) = (there, next),
            None => {
                step *= 0.5;
                if step < 1e-4 {
                    return None;
                }
            }
        }
    }
    Some(here)
}
