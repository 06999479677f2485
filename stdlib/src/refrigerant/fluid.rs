//! A substance with its two-phase line, limits and reference state, in SI by mass.

use super::error::{Limit, PropertyError, Value};
use crate::helmholtz::envelope::{Envelope, Line, TraceError};
use crate::helmholtz::state::MolarState;
use crate::helmholtz::{Equation, Model};

/// Everything that is computed once for a substance.
#[derive(Clone, Debug)]
pub struct Fluid {
    /// Equation or mixture model.
    pub model: Model,
    /// Bubble and dew line.
    pub envelope: Envelope,
    /// Limits of validity, the narrowest of the components'.
    pub limits: FluidLimits,
    /// What enthalpy (J/mol) and entropy (J/(mol K)) are shifted by.
    shift: (f64, f64),
}

/// Limits in SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FluidLimits {
    /// K
    pub lowest_temperature: f64,
    /// K
    pub highest_temperature: f64,
    /// Pa
    pub highest_pressure: f64,
}

/// Which phase a state is in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// Below the bubble temperature.
    Liquid,
    /// Above the dew temperature, or above the critical temperature below critical pressure.
    Vapor,
    /// Above critical temperature and pressure.
    Supercritical,
    /// Liquid and vapour together.
    TwoPhase,
}

/// A state by mass in SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MassState {
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
    /// At constant pressure, J/(kg K)
    pub heat_capacity: f64,
    /// m/s
    pub sound_speed: f64,
}

/// The reference state: h = 200 kJ/kg and s = 1 kJ/(kg K) for saturated liquid at 0 °C, the
/// convention of the International Institute of Refrigeration.
///
/// A fluid that has no saturated liquid at 0 °C takes its saturated liquid at the normal boiling
/// point with h = 0 and s = 0.
const IIR: (f64, f64, f64) = (273.15, 200e3, 1e3);
const NORMAL_PRESSURE: f64 = 101_325.0;

impl Fluid {
    /// A substance from its model.
    pub fn new(model: Model) -> Result<Self, TraceError> {
        let of = |pick: fn(&Equation) -> f64| model.components().iter().map(move |c| pick(c));
        let lowest = of(|c| c.limits.lowest_temperature).fold(0.0, f64::max);
        let highest = of(|c| c.limits.highest_temperature).fold(f64::INFINITY, f64::min);
        let pressure = of(|c| c.limits.highest_pressure).fold(f64::INFINITY, f64::min);
        let envelope = Envelope::trace(&model, lowest)?;
        // A mixture's line may break off above the equations' limit.
        let cold = |line| libm::exp(envelope.line(line).cold.ln_temperature);
        let limits = FluidLimits {
            lowest_temperature: lowest.max(cold(Line::Bubble)).max(cold(Line::Dew)),
            highest_temperature: highest,
            highest_pressure: pressure,
        };
        let mut fluid = Self { model, envelope, limits, shift: (0.0, 0.0) };
        fluid.shift = fluid.reference_shift();
        Ok(fluid)
    }

    fn reference_shift(&self) -> (f64, f64) {
        let line = self.envelope.line(Line::Bubble);
        let ln_iir = libm::log(IIR.0);
        let has_iir = ln_iir < line.end.ln_temperature && IIR.0 > self.limits.lowest_temperature;
        let (point, h, s) = if has_iir {
            (self.envelope.at_ln_temperature(Line::Bubble, ln_iir), IIR.1, IIR.2)
        } else {
            let ln_p = libm::log(NORMAL_PRESSURE);
            (self.envelope.at_ln_pressure(Line::Bubble, ln_p), 0.0, 0.0)
        };
        let state = self.model.state(libm::exp(point.ln_temperature), libm::exp(point.ln_density));
        let mass = self.model.molar_mass;
        (h * mass - state.enthalpy, s * mass - state.entropy)
    }

    /// A molar state with the reference state applied, by mass; `None` where it is not stable.
    pub fn by_mass(&self, state: &MolarState) -> MassState {
        let mass = self.model.molar_mass;
        MassState {
            pressure: state.pressure,
            temperature: state.temperature,
            density: state.density * mass,
            enthalpy: (state.enthalpy + self.shift.0) / mass,
            entropy: (state.entropy + self.shift.1) / mass,
            heat_capacity: state.heat_capacity / mass,
            sound_speed: state.sound_speed_squared.max(0.0).sqrt(),
        }
    }

    /// Whether bubble and dew line are one.
    pub fn is_pure(&self) -> bool {
        self.model.count() == 1
    }

    fn end_of(&self, line: Line) -> Limit {
        match line {
            _ if self.is_pure() => Limit::Critical,
            Line::Bubble => Limit::EndOfBubbleLine,
            Line::Dew => Limit::EndOfDewLine,
        }
    }

    /// Saturation pressure (Pa) on a line at temperature `t` (K).
    pub fn saturation_pressure(&self, line: Line, t: f64) -> Result<f64, PropertyError> {
        self.check_line_temperature(line, t)?;
        Ok(libm::exp(self.envelope.at_ln_temperature(line, libm::log(t)).ln_pressure))
    }

    /// Saturation temperature (K) on a line at pressure `p` (Pa).
    pub fn saturation_temperature(&self, line: Line, p: f64) -> Result<f64, PropertyError> {
        self.check_line_pressure(line, p)?;
        Ok(libm::exp(self.envelope.at_ln_pressure(line, libm::log(p)).ln_temperature))
    }

    /// The state on a line at temperature `t` (K).
    pub fn saturated_at_temperature(&self, line: Line, t: f64) -> Result<MassState, PropertyError> {
        self.check_line_temperature(line, t)?;
        let point = self.envelope.at_ln_temperature(line, libm::log(t));
        let state = self.by_mass(&self.model.state(t, libm::exp(point.ln_density)));
        Ok(MassState { pressure: libm::exp(point.ln_pressure), ..state })
    }

    /// The state on a line at pressure `p` (Pa).
    pub fn saturated_at_pressure(&self, line: Line, p: f64) -> Result<MassState, PropertyError> {
        self.check_line_pressure(line, p)?;
        let point = self.envelope.at_ln_pressure(line, libm::log(p));
        let t = libm::exp(point.ln_temperature);
        let state = self.by_mass(&self.model.state(t, libm::exp(point.ln_density)));
        Ok(MassState { pressure: p, ..state })
    }

    fn check_line_temperature(&self, line: Line, t: f64) -> Result<(), PropertyError> {
        let asked = Value::Temperature(t);
        positive(t, asked)?;
        let end = libm::exp(self.envelope.line(line).end.ln_temperature);
        if t > end {
            let at = Value::Temperature(end);
            return Err(PropertyError::OutOfRange { limit: self.end_of(line), at, asked });
        }
        if t < self.limits.lowest_temperature {
            let at = Value::Temperature(self.limits.lowest_temperature);
            return Err(PropertyError::OutOfRange { limit: Limit::Lowest, at, asked });
        }
        Ok(())
    }

    fn check_line_pressure(&self, line: Line, p: f64) -> Result<(), PropertyError> {
        let asked = Value::Pressure(p);
        positive(p, asked)?;
        let end = libm::exp(self.envelope.line(line).end.ln_pressure);
        if p > end {
            let at = Value::Pressure(end);
            return Err(PropertyError::OutOfRange { limit: self.end_of(line), at, asked });
        }
        let coldest = libm::log(self.limits.lowest_temperature);
        let least = libm::exp(self.envelope.at_ln_temperature(line, coldest).ln_pressure);
        if p < least {
            let at = Value::Pressure(least);
            return Err(PropertyError::OutOfRange { limit: Limit::Lowest, at, asked });
        }
        Ok(())
    }

    /// The single-phase state at pressure `p` (Pa) and temperature `t` (K), with its phase.
    pub fn state_at(&self, p: f64, t: f64) -> Result<(Phase, MassState), PropertyError> {
        let (phase, rho) = self.molar_density(p, t)?;
        let state = self.by_mass(&self.model.state(t, rho));
        Ok((phase, MassState { pressure: p, ..state }))
    }

    /// Phase and density (mol/m³) at pressure `p` (Pa) and temperature `t` (K).
    pub fn molar_density(&self, p: f64, t: f64) -> Result<(Phase, f64), PropertyError> {
        self.check_range(p, t)?;
        let bubble = self.envelope.line(Line::Bubble);
        let dew = self.envelope.line(Line::Dew);
        let ln_t = libm::log(t);
        let ln_p = libm::log(p);
        let ideal = p / (self.model.gas_constant * t);
        let nothing = PropertyError::NoState(Value::Pressure(p), Value::Temperature(t));

        if ln_t <= bubble.end.ln_temperature {
            let point = self.envelope.at_ln_temperature(Line::Bubble, ln_t);
            if ln_p >= point.ln_pressure {
                let rho = self.liquid_density(p, t, libm::exp(point.ln_density));
                return rho.map(|rho| (Phase::Liquid, rho)).ok_or(nothing);
            }
        }
        if ln_t <= dew.end.ln_temperature {
            let point = self.envelope.at_ln_temperature(Line::Dew, ln_t);
            if ln_p <= point.ln_pressure {
                let high = libm::exp(point.ln_density);
                let rho = self.model.density_between(t, p, 0.5 * ideal.min(high), high, ideal);
                return rho.map(|rho| (Phase::Vapor, rho)).ok_or(nothing);
            }
            let highest = bubble.end.ln_pressure.max(dew.end.ln_pressure);
            if ln_t <= bubble.end.ln_temperature || ln_p < highest {
                return Err(self.inside_dome(p, t));
            }
        }
        let critical = self.envelope.critical();
        let phase = match (ln_t > critical.ln_temperature, ln_p > critical.ln_pressure) {
            (true, true) => Phase::Supercritical,
            (true, false) => Phase::Vapor,
            (false, _) => Phase::Liquid,
        };
        let rho = self
            .dense_limit(p, t, self.model.reducing_density())
            .and_then(|high| self.model.density_between(t, p, 1e-3 * ideal.min(high), high, ideal));
        rho.map(|rho| (phase, rho)).ok_or(nothing)
    }

    fn liquid_density(&self, p: f64, t: f64, saturated: f64) -> Option<f64> {
        let high = self.dense_limit(p, t, saturated)?;
        // Down by a trifle, so that p at the saturation pressure itself lies between.
        self.model.density_between(t, p, saturated * (1.0 - 1e-9), high, saturated)
    }

    /// A density above the one at `p`, sought upwards from `from`.
    fn dense_limit(&self, p: f64, t: f64, from: f64) -> Option<f64> {
        let most = 6.0 * self.model.reducing_density();
        let mut high = 1.02 * from;
        while self.model.pressure(t, high).0 <= p {
            high *= 1.1;
            if high > most {
                return None;
            }
        }
        Some(high)
    }

    fn inside_dome(&self, p: f64, t: f64) -> PropertyError {
        let at = |line| libm::exp(self.envelope.at_ln_pressure(line, libm::log(p)).ln_temperature);
        PropertyError::InsideDome { asked: t, pressure: p, bubble: at(Line::Bubble), dew: at(Line::Dew) }
    }

    /// Whether `p` (Pa) and `t` (K) are within the limits of the equations.
    pub fn check_range(&self, p: f64, t: f64) -> Result<(), PropertyError> {
        let (pressure, temperature) = (Value::Pressure(p), Value::Temperature(t));
        positive(p, pressure)?;
        positive(t, temperature)?;
        let limits = &self.limits;
        let beyond = |limit, at, asked| Err(PropertyError::OutOfRange { limit, at, asked });
        if t < limits.lowest_temperature {
            return beyond(Limit::Lowest, Value::Temperature(limits.lowest_temperature), temperature);
        }
        if t > limits.highest_temperature {
            let at = Value::Temperature(limits.highest_temperature);
            return beyond(Limit::HighestTemperature, at, temperature);
        }
        if p > limits.highest_pressure {
            let at = Value::Pressure(limits.highest_pressure);
            return beyond(Limit::HighestPressure, at, pressure);
        }
        Ok(())
    }
}

fn positive(value: f64, named: Value) -> Result<(), PropertyError> {
    if value > 0.0 && value.is_finite() { Ok(()) } else { Err(PropertyError::NotPositive(named)) }
}
