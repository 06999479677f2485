//! States by pressure and enthalpy, or pressure and entropy.

use super::basis::{Basis, MassState};
use super::error::{PropertyError, Value};
use super::fluid::{Fluid, Phase};
use crate::helmholtz::envelope::Line;
use crate::helmholtz::split::Overall;

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

const ITERATIONS_MAX: usize = 200;
/// Relative to T, or to what is given.
const TOLERANCE: f64 = 1e-13;
/// What is found may miss what is given by this share of what T holds at its heat capacity, and this of what an ideal gas of
/// one atom a molecule holds: nothing farther off is ever handed back.
const MISSED: (f64, f64) = (1e-11, 1e-10);

impl Heat {
    /// Of one phase.
    pub fn of(self, state: &MassState) -> f64 {
        match self {
            Self::Enthalpy(_) => state.enthalpy,
            Self::Entropy(_) => state.entropy,
        }
    }

    /// Of liquid and vapour together.
    pub fn of_whole(self, basis: &Basis, whole: &Overall) -> f64 {
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

    /// The number that was given.
    pub fn given(self) -> f64 {
        match self {
            Self::Enthalpy(h) => h,
            Self::Entropy(s) => s,
        }
    }

    /// What was given, for a message.
    pub fn value(self) -> Value {
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
        let lowest = self.saturation.limits.lowest_temperature;
        self.check_range(p, lowest)?;
        if !heat.given().is_finite() {
            return Err(PropertyError::NotPositive(heat.value()));
        }
        let highest = self.hottest(p);
        let (bubble, dew) = (&self.saturation.bubble, &self.saturation.dew);
        // On a line itself rounding would leave nothing to seek.
        let is_at = |state: &MassState| (heat.given() - heat.of(state)).abs() <= TOLERANCE * heat.of(state).abs();
        if p < dew.cold.1 || p > bubble.end.1.min(dew.end.1) {
            // No boiling at this pressure within the limits.
            return self.single_with(p, heat, lowest, highest, None);
        }
        let liquid = if p < bubble.cold.1 { None } else { Some(self.saturated_at_pressure(Line::Bubble, p)?) };
        if let Some(liquid) = &liquid {
            if is_at(liquid) {
                return Ok(HeatState::single((Phase::Liquid, *liquid)));
            }
            if heat.given() <= heat.of(liquid) {
                return self.single_with(p, heat, lowest, liquid.temperature, Some(liquid));
            }
        }
        let vapor = self.saturated_at_pressure(Line::Dew, p)?;
        if is_at(&vapor) {
            return Ok(HeatState::single((Phase::Vapor, vapor)));
        }
        if heat.given() >= heat.of(&vapor) {
            return self.single_with(p, heat, vapor.temperature, highest, Some(&vapor));
        }
        match &liquid {
            Some(liquid) if self.is_pure() => Ok(between(liquid, &vapor, heat)),
            Some(liquid) => self.boiling(p, heat, liquid, &vapor),
            // Its first vapour would come of liquid colder than the equations go.
            None => self.boiling_cold(p, heat, &vapor),
        }
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
        let is_liquid = match saturated {
            Some(state) => heat.given() < heat.of(state),
            None => heat.given() < heat.of(&self.critical_state()?),
        };
        let from = saturated.map(|state| state.temperature + (heat.given() - heat.of(state)) / heat.slope(state));
        let mut t = from.filter(|t| *t > low && *t < high).unwrap_or(0.5 * (low + high));
        let mut before = f64::INFINITY;
        for _ in 0..ITERATIONS_MAX {
            let state = match at(t) {
                Ok(state) => state,
                Err(PropertyError::InsideDome { .. }) => {
                    // Within rounding of a line, or in the narrow stretch about the critical point of a blend where one
                    // line goes higher than the other; step to the outside.
                    if is_liquid {
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
            // About the critical point heat capacity has a peak, over which Newton's method would go to and fro.
            let is_nearing = excess.abs() < 0.5 * before;
            let inside = newton >= low && newton <= high;
            let next = if inside && is_nearing { newton } else { 0.5 * (low + high) };
            before = excess.abs();
            if (next - t).abs() <= TOLERANCE * t || high - low <= TOLERANCE * t {
                let held = heat.slope(&state.1) * t;
                let least = heat.slope(&state.1) / state.1.heat_capacity * 1.5 * self.specific_gas_constant()? * t;
                let is_found = excess.abs() <= MISSED.0 * held + MISSED.1 * least;
                return if is_found { Ok(HeatState::single(state)) } else { Err(nothing) };
            }
            t = next;
        }
        Err(nothing)
    }
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
