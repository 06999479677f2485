//! Saturation and single-phase states within their limits, in SI by mass.

use std::sync::OnceLock;

use super::basis::{Basis, MassState};
use super::catalogue::Listed;
use super::error::{Limit, PropertyError, Value};
use crate::helmholtz::envelope::Line;
use crate::said::said;
use crate::saturation::Saturation;
use crate::transport;

/// A refrigerant's saturation tables, and its equations once they are needed.
#[derive(Debug)]
pub struct Fluid {
    listed: &'static Listed,
    /// Bubble and dew line, limits, critical point.
    pub saturation: Saturation,
    basis: OnceLock<Result<Basis, String>>,
    viscosity: OnceLock<Result<transport::Source, String>>,
}

/// Which phase a state is in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// Colder than boiling, or denser than at the end of the lines below critical temperature.
    Liquid,
    /// Hotter than condensing, or above critical temperature below critical pressure.
    Vapor,
    /// Above critical temperature and pressure.
    Supercritical,
    /// Liquid and vapour together.
    TwoPhase,
}

said! {
    Phase {
        Phase::Liquid => "liquid",
        Phase::Vapor => "vapor",
        Phase::Supercritical => "supercritical",
        Phase::TwoPhase => "two phases",
    }
}

/// A pressure nearer to saturation than this share of it is on the line: about 0.3 mK, less than any gauge can tell.
const ON_THE_LINE: f64 = 1e-5;
/// Vapour is told beyond the upper temperature of its equations: up to this many times it, and to this temperature (K) at
/// most. Far from condensing a vapour is nearly an ideal gas, whose heat capacity the equations take from the vibrations of
/// its molecules, which they have hotter too; `tests/hot_vapor.rs` holds it to equations and tables that go farther.
const VAPOR_BEYOND: (f64, f64) = (1.2, 500.0);

impl Fluid {
    /// A refrigerant with its tables.
    pub fn new(listed: &'static Listed, saturation: Saturation) -> Self {
        Self { listed, saturation, basis: OnceLock::new(), viscosity: OnceLock::new() }
    }

    /// The equations.
    pub fn basis(&self) -> Result<&Basis, PropertyError> {
        let basis = self.basis.get_or_init(|| Basis::new(self.listed, &self.saturation));
        basis.as_ref().map_err(|reason| PropertyError::NotPublished(reason.clone()))
    }

    /// Whether bubble and dew line are one.
    pub fn is_pure(&self) -> bool {
        self.listed.composition.len() == 1
    }

    /// Saturation pressure (Pa) on a line at temperature `t` (K).
    #[inline]
    pub fn saturation_pressure(&self, line: Line, t: f64) -> Result<f64, PropertyError> {
        self.check_line_temperature(line, t)?;
        Ok(self.saturation.line(line).pressure(t))
    }

    /// Saturation temperature (K) on a line at pressure `p` (Pa).
    #[inline]
    pub fn saturation_temperature(&self, line: Line, p: f64) -> Result<f64, PropertyError> {
        self.check_line_pressure(line, p)?;
        Ok(self.saturation.line(line).temperature(p))
    }

    /// dT/dp (K/Pa) on a line at pressure `p` (Pa), where it has one.
    pub fn saturation_temperature_slope(&self, line: Line, p: f64) -> Option<f64> {
        self.check_line_pressure(line, p).ok()?;
        Some(self.saturation.line(line).temperature_slope(p)).filter(|slope| slope.is_finite())
    }

    /// dp/dT (Pa/K) on a line at temperature `t` (K), where it has one.
    pub fn saturation_pressure_slope(&self, line: Line, t: f64) -> Option<f64> {
        self.check_line_temperature(line, t).ok()?;
        Some(self.saturation.line(line).pressure_slope(t)).filter(|slope| slope.is_finite())
    }

    /// The state on a line at temperature `t` (K).
    pub fn saturated_at_temperature(&self, line: Line, t: f64) -> Result<MassState, PropertyError> {
        self.check_line_temperature(line, t)?;
        let tables = self.saturation.line(line);
        self.saturated(t, tables.pressure(t), tables.density(t))
    }

    /// The state on a line at pressure `p` (Pa).
    pub fn saturated_at_pressure(&self, line: Line, p: f64) -> Result<MassState, PropertyError> {
        self.check_line_pressure(line, p)?;
        let (t, rho) = self.saturation.line(line).at_pressure(p);
        self.saturated(t, p, rho)
    }

    /// The state at the critical point.
    pub fn critical_state(&self) -> Result<MassState, PropertyError> {
        let (t, p, rho) = self.saturation.critical;
        self.saturated(t, p, rho)
    }

    fn saturated(&self, t: f64, p: f64, rho: f64) -> Result<MassState, PropertyError> {
        let basis = self.basis()?;
        Ok(MassState { pressure: p, ..basis.by_mass(&basis.model.state(t, rho)) })
    }

    /// The single-phase state at pressure `p` (Pa) and temperature `t` (K), with its phase.
    pub fn state_at(&self, p: f64, t: f64) -> Result<(Phase, MassState), PropertyError> {
        self.check_range(p, t)?;
        // On a saturation line pressure and temperature do not say how much of either phase there is.
        let Saturation { bubble, dew, .. } = &self.saturation;
        let on = |line: f64| (p / line - 1.0).abs() < ON_THE_LINE;
        if t <= bubble.end.0 && on(bubble.pressure(t)) || t <= dew.end.0 && on(dew.pressure(t)) {
            return Err(self.inside_dome(p, t));
        }
        let (phase, rho) = self.molar_density(p, t)?;
        let basis = self.basis()?;
        let state = basis.by_mass(&basis.model.state(t, rho));
        Ok((phase, MassState { pressure: p, ..state }))
    }

    /// Phase and density (mol/m³) at pressure `p` (Pa) and temperature `t` (K).
    pub fn molar_density(&self, p: f64, t: f64) -> Result<(Phase, f64), PropertyError> {
        self.check_range(p, t)?;
        let model = &self.basis()?.model;
        let Saturation { bubble, dew, critical, .. } = &self.saturation;
        let ideal = p / (model.gas_constant * t);
        let nothing = PropertyError::NoState(Value::Pressure(p), Value::Temperature(t));

        if t <= bubble.end.0 && p >= bubble.pressure(t) {
            let saturated = bubble.density(t);
            let rho = self.dense_limit(p, t, saturated).and_then(|high| {
                // Down by a trifle, so that p at the saturation pressure itself lies between.
                model.density_between(t, p, saturated * (1.0 - 1e-9), high, saturated)
            });
            return rho.map(|rho| (Phase::Liquid, rho)).ok_or(nothing);
        }
        if t <= dew.end.0 {
            let (line, saturated) = (dew.pressure(t), dew.density(t));
            if p <= line {
                let high = saturated * (1.0 + 1e-9);
                // The compressibility falls about evenly from 1 to that of saturated vapor.
                let fallen = (1.0 - line / (saturated * model.gas_constant * t)) * p / line;
                let rho = model.density_between(t, p, 0.5 * ideal.min(high), high, ideal / (1.0 - fallen));
                return rho.map(|rho| (Phase::Vapor, rho)).ok_or(nothing);
            }
            if t <= bubble.end.0 || p < bubble.end.1.max(dew.end.1) {
                return Err(self.inside_dome(p, t));
            }
        }
        let phase = match (t > critical.0, p > critical.1) {
            (true, true) => Phase::Supercritical,
            (true, false) => Phase::Vapor,
            (false, _) => Phase::Liquid,
        };
        let rho = self
            .dense_limit(p, t, model.reducing_density())
            .and_then(|high| model.density_between(t, p, 1e-3 * ideal.min(high), high, ideal));
        rho.map(|rho| (phase, rho)).ok_or(nothing)
    }

    /// Viscosity (Pa s) of the single phase at pressure `p` (Pa) and temperature `t` (K): by the correlation published for
    /// it, or for a blend without one estimated from its components.
    pub fn viscosity(&self, p: f64, t: f64) -> Result<f64, PropertyError> {
        let model = &self.basis()?.model;
        let source = self.viscosity.get_or_init(|| transport::Source::of(self.listed.designation, model));
        let source = source.as_ref().map_err(|reason| PropertyError::NotPublished(reason.clone()))?;
        let (_, rho) = self.molar_density(p, t)?;
        source.value(model, t, rho).ok_or(PropertyError::NoState(Value::Pressure(p), Value::Temperature(t)))
    }

    /// A density above the one at `p`, sought upwards from `from`.
    fn dense_limit(&self, p: f64, t: f64, from: f64) -> Option<f64> {
        let model = &self.basis().ok()?.model;
        let most = 6.0 * model.reducing_density();
        let mut high = 1.02 * from;
        while model.pressure(t, high).0 <= p {
            high *= 1.1;
            if high > most {
                return None;
            }
        }
        Some(high)
    }

    fn inside_dome(&self, p: f64, t: f64) -> PropertyError {
        let at = |line| {
            let tables = self.saturation.line(line);
            tables.temperature(p.min(tables.end.1))
        };
        let (bubble, dew) = (at(Line::Bubble), at(Line::Dew));
        PropertyError::InsideDome { asked: t, pressure: p, bubble, dew }
    }

    #[inline]
    fn check_line_temperature(&self, line: Line, t: f64) -> Result<(), PropertyError> {
        let tables = self.saturation.line(line);
        if t >= tables.cold.0 && t <= tables.end.0 {
            return Ok(());
        }
        let (cold, end) = (Value::Temperature(tables.cold.0), Value::Temperature(tables.end.0));
        Err(self.beyond_line(line, t, Value::Temperature(t), t > tables.end.0, cold, end))
    }

    #[inline]
    fn check_line_pressure(&self, line: Line, p: f64) -> Result<(), PropertyError> {
        let tables = self.saturation.line(line);
        if p >= tables.cold.1 && p <= tables.end.1 {
            return Ok(());
        }
        let (cold, end) = (Value::Pressure(tables.cold.1), Value::Pressure(tables.end.1));
        Err(self.beyond_line(line, p, Value::Pressure(p), p > tables.end.1, cold, end))
    }

    #[cold]
    fn beyond_line(&self, line: Line, value: f64, asked: Value, above: bool, cold: Value, end: Value) -> PropertyError {
        if !(value > 0.0 && value.is_finite()) {
            return PropertyError::NotPositive(asked);
        }
        let (limit, at) = match line {
            _ if !above => (Limit::Lowest, cold),
            _ if self.is_pure() => (Limit::Critical, end),
            Line::Bubble => (Limit::EndOfBubbleLine, end),
            Line::Dew => (Limit::EndOfDewLine, end),
        };
        PropertyError::OutOfRange { limit, at, asked }
    }

    /// J/(kg K)
    pub fn specific_gas_constant(&self) -> Result<f64, PropertyError> {
        let model = &self.basis()?.model;
        Ok(model.gas_constant / model.molar_mass)
    }

    /// Up to which temperature (K) a state at pressure `p` (Pa) is told: the equations' own, and of what is vapour at or
    /// below critical pressure somewhat more.
    pub fn hottest(&self, p: f64) -> f64 {
        let own = self.saturation.limits.highest_temperature;
        if p > self.saturation.critical.1 { own } else { own.max((VAPOR_BEYOND.0 * own).min(VAPOR_BEYOND.1)) }
    }

    /// Whether `p` (Pa) and `t` (K) are within the limits of the equations.
    pub fn check_range(&self, p: f64, t: f64) -> Result<(), PropertyError> {
        let (pressure, temperature) = (Value::Pressure(p), Value::Temperature(t));
        for (value, named) in [(p, pressure), (t, temperature)] {
            if !(value > 0.0 && value.is_finite()) {
                return Err(PropertyError::NotPositive(named));
            }
        }
        let limits = &self.saturation.limits;
        let beyond = |limit, at, asked| Err(PropertyError::OutOfRange { limit, at, asked });
        if t < limits.lowest_temperature {
            return beyond(Limit::Lowest, Value::Temperature(limits.lowest_temperature), temperature);
        }
        let hottest = self.hottest(p);
        if t > hottest {
            let at = Value::Temperature(hottest);
            return beyond(Limit::HighestTemperature, at, temperature);
        }
        if p > limits.highest_pressure {
            let at = Value::Pressure(limits.highest_pressure);
            return beyond(Limit::HighestPressure, at, pressure);
        }
        Ok(())
    }
}
