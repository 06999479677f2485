//! States by pressure and enthalpy, or pressure and entropy.

use super::basis::{Basis, MassState};
use super::error::{PropertyError, Value};
use super::fluid::{Fluid, Phase};
use crate::helmholtz::envelope::Line;
use crate::helmholtz::split::{Overall, Split};

/// What is given besides pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Heat {
    /// J/kg
    Enthalpy(f64),
    /// J/(kg K)
    Entropy(f64),
}

/// A state that may be of two phases, in SI by mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatState {
    /// Its phase.
    pub phase: Phase,
    /// Share of the mass that is vapour, inside the dome.
    pub quality: Option<f64>,
    /// Pa
    pub pressure: f64,
    /// K
    pub temperature: f64,
    /// kg/m³
    pub density: f64,
    /// J/kg
    pub enthalpy: f64,
    /// J/(kg K)
    pub entropy: f64,
}

const ITERATIONS_MAX: usize = 100;
/// Relative to the difference between liquid and vapour, or to T.
const TOLERANCE: f64 = 1e-13;

impl Heat {
    fn of(self, state: &MassState) -> f64 {
        match self {
            Self::Enthalpy(_) => state.enthalpy,
            Self::Entropy(_) => state.entropy,
        }
    }

    fn of_whole(self, basis: &Basis, whole: &Overall) -> f64 {
        match self {
            Self::Enthalpy(_) => basis.enthalpy(whole.enthalpy),
            Self::Entropy(_) => basis.entropy(whole.entropy),
        }
    }

    /// Its derivative by temperature at constant pressure.
    fn slope(self, state: &MassState) -> f64 {
        match self {
            Self::Enthalpy(_) => state.heat_capacity,
            Self::Entropy(_) => state.heat_capacity / state.temperature,
        }
    }

    fn given(self) -> f64 {
        match self {
            Self::Enthalpy(h) => h,
            Self::Entropy(s) => s,
        }
    }

    fn value(self) -> Value {
        match self {
            Self::Enthalpy(h) => Value::Enthalpy(h),
            Self::Entropy(s) => Value::Entropy(s),
        }
    }
}

impl HeatState {
    fn single((phase, state): (Phase, MassState)) -> Self {
        Self {
            phase,
            quality: None,
            pressure: state.pressure,
            temperature: state.temperature,
            density: state.density,
            enthalpy: state.enthalpy,
            entropy: state.entropy,
        }
    }
}

impl Fluid {
    /// The state at pressure `p` (Pa) with the given enthalpy or entropy.
    pub fn state_with(&self, p: f64, heat: Heat) -> Result<HeatState, PropertyError> {
        let limits = &self.saturation.limits;
        let (lowest, highest) = (limits.lowest_temperature, limits.highest_temperature);
        self.check_range(p, lowest)?;
        if !heat.given().is_finite() {
            return Err(PropertyError::NotPositive(heat.value()));
        }
        let (bubble, dew) = (&self.saturation.bubble, &self.saturation.dew);
        if p < bubble.cold.1.max(dew.cold.1) || p > bubble.end.1.min(dew.end.1) {
            // No boiling at this pressure within the limits: liquid beyond, or vapour only.
            let coldest = if p < dew.cold.1 || p > dew.end.1 { lowest } else { dew.temperature(p) };
            return self.single_with(p, heat, coldest, highest, None);
        }
        let liquid = self.saturated_at_pressure(Line::Bubble, p)?;
        // On a line itself rounding would leave nothing to seek.
        let is_at = |state: &MassState| (heat.given() - heat.of(state)).abs() <= TOLERANCE * heat.of(state).abs();
        if is_at(&liquid) {
            return Ok(HeatState::single((Phase::Liquid, liquid)));
        }
        if heat.given() <= heat.of(&liquid) {
            return self.single_with(p, heat, lowest, liquid.temperature, Some(&liquid));
        }
        let vapor = self.saturated_at_pressure(Line::Dew, p)?;
        if is_at(&vapor) {
            return Ok(HeatState::single((Phase::Vapor, vapor)));
        }
        if heat.given() >= heat.of(&vapor) {
            return self.single_with(p, heat, vapor.temperature, highest, Some(&vapor));
        }
        if self.is_pure() {
            return Ok(between(&liquid, &vapor, heat));
        }
        self.boiling(p, heat, &liquid, &vapor)
    }

    /// The single-phase state, sought in temperature by Newton's method kept inside by bisection; from the saturated state
    /// at one of the ends, where there is one, which is mostly near.
    fn single_with(
        &self,
        p: f64,
        heat: Heat,
        mut low: f64,
        mut high: f64,
        saturated: Option<&MassState>,
    ) -> Result<HeatState, PropertyError> {
        let nothing = PropertyError::NoState(Value::Pressure(p), heat.value());
        let at = |t: f64| self.state_at(p, t);
        // Outside of what the ends reach there is nothing to seek. An end that lies on a line may
        // by rounding fall inside the dome; then it does not limit.
        let reach = |t: f64| at(t).ok().map(|(_, state)| (heat.of(&state), heat.of(&state).abs()));
        let is_open = |end: f64| saturated.is_none_or(|state| state.temperature != end);
        let too_low = is_open(low) && reach(low).is_some_and(|(least, size)| heat.given() < least - TOLERANCE * size);
        let too_high = is_open(high) && reach(high).is_some_and(|(most, size)| heat.given() > most + TOLERANCE * size);
        if too_low || too_high {
            return Err(nothing);
        }
        let from = saturated.map(|state| state.temperature + (heat.given() - heat.of(state)) / heat.slope(state));
        let mut t = from.filter(|t| *t > low && *t < high).unwrap_or(0.5 * (low + high));
        for _ in 0..ITERATIONS_MAX {
            let state = match at(t) {
                Ok(state) => state,
                Err(PropertyError::InsideDome { bubble, .. }) => {
                    // Only within rounding of a line; step to the outside.
                    if t <= bubble {
                        high = t
                    } else {
                        low = t
                    }
                    t = 0.5 * (low + high);
                    continue;
                }
                Err(error) => return Err(error),
            };
            let excess = heat.of(&state.1) - heat.given();
            if excess > 0.0 {
                high = t
            } else {
                low = t
            }
            let newton = t - excess / heat.slope(&state.1);
            let inside = newton >= low && newton <= high;
            let next = if inside { newton } else { 0.5 * (low + high) };
            if (next - t).abs() <= TOLERANCE * t || high - low <= TOLERANCE * t {
                return Ok(HeatState::single(state));
            }
            t = next;
        }
        Err(nothing)
    }

    /// A blend between its lines: sought in the share of vapour, along which enthalpy and entropy
    /// rise almost evenly.
    fn boiling(&self, p: f64, heat: Heat, liquid: &MassState, vapor: &MassState) -> Result<HeatState, PropertyError> {
        let nothing = PropertyError::NoState(Value::Pressure(p), heat.value());
        let basis = self.basis()?;
        let model = &basis.model;
        let density = |t| self.saturation.bubble.density(t);
        let start = Split::bubble_point(model, liquid.temperature, density).ok_or(nothing.clone())?;
        let span = heat.of(vapor) - heat.of(liquid);
        let (mut low, mut below) = (0.0, heat.of(liquid) - heat.given());
        let (mut high, mut above) = (1.0, heat.of(vapor) - heat.given());
        let mut split = start;
        for _ in 0..ITERATIONS_MAX {
            let share = (low * above - high * below) / (above - below);
            split = walked(&split, model, p, share).ok_or(nothing.clone())?;
            let whole = split.overall(model);
            let excess = heat.of_whole(basis, &whole) - heat.given();
            if excess.abs() <= TOLERANCE * span || high - low < TOLERANCE {
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
        Err(nothing)
    }
}

/// From one share of vapour to another, in as many steps as it takes.
fn walked(from: &Split, model: &crate::helmholtz::Model, p: f64, share: f64) -> Option<Split> {
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

/// A pure fluid between its saturated liquid and vapour.
fn between(liquid: &MassState, vapor: &MassState, heat: Heat) -> HeatState {
    let span = heat.of(vapor) - heat.of(liquid);
    let x = (heat.given() - heat.of(liquid)) / span;
    let mixed = |a: f64, b: f64| a + x * (b - a);
    HeatState {
        phase: Phase::TwoPhase,
        quality: Some(x),
        pressure: liquid.pressure,
        temperature: liquid.temperature,
        density: 1.0 / mixed(1.0 / liquid.density, 1.0 / vapor.density),
        enthalpy: mixed(liquid.enthalpy, vapor.enthalpy),
        entropy: mixed(liquid.entropy, vapor.entropy),
    }
}
