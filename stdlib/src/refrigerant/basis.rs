//! A refrigerant's equations and reference state, read when a state is first asked for.

use super::catalogue::Listed;
use crate::helmholtz::Model;
use crate::helmholtz::blend::{self, BlendError};
use crate::helmholtz::state::MolarState;
use crate::saturation::Saturation;

/// Equations with reference state and sources.
#[derive(Debug)]
pub struct Basis {
    /// Equation or mixture model.
    pub model: Model,
    /// What enthalpy (J/mol) and entropy (J/(mol K)) are shifted by.
    shift: (f64, f64),
    /// Publications in words.
    pub source: String,
    /// Pairs without published parameters.
    pub estimated: Vec<[String; 2]>,
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
/// point with h = 0 and s = 0. Among the refrigerants of ASHRAE 34 that are modelled here, that is
/// R-718 alone.
const IIR: (f64, f64, f64) = (273.15, 200e3, 1e3);
const NORMAL_PRESSURE: f64 = 101_325.0;

impl Basis {
    /// Reads the equations of a listed refrigerant; the reason in words where there are none.
    pub fn new(listed: &Listed, saturation: &Saturation) -> Result<Self, String> {
        let blend = modelled(listed)?;
        let source = blend.source();
        let model = blend.model;
        let line = &saturation.bubble;
        let (t, h, s) = if saturation.limits.lowest_temperature <= IIR.0 && IIR.0 < line.end.0 {
            IIR
        } else {
            (line.temperature(NORMAL_PRESSURE), 0.0, 0.0)
        };
        let state = model.state(t, line.density(t));
        let mass = model.molar_mass;
        let shift = (h * mass - state.enthalpy, s * mass - state.entropy);
        Ok(Self { model, shift, source, estimated: blend.estimated })
    }

    /// A molar state with the reference state applied, by mass.
    pub fn by_mass(&self, state: &MolarState) -> MassState {
        let mass = self.model.molar_mass;
        MassState {
            pressure: state.pressure,
            temperature: state.temperature,
            density: state.density * mass,
            enthalpy: self.enthalpy(state.enthalpy),
            entropy: self.entropy(state.entropy),
            heat_capacity: state.heat_capacity / mass,
            sound_speed: state.sound_speed_squared.max(0.0).sqrt(),
        }
    }

    /// J/kg with the reference state, of J/mol without.
    pub fn enthalpy(&self, molar: f64) -> f64 {
        (molar + self.shift.0) / self.model.molar_mass
    }

    /// J/(kg K) with the reference state, of J/(mol K) without.
    pub fn entropy(&self, molar: f64) -> f64 {
        (molar + self.shift.1) / self.model.molar_mass
    }
}

/// The model of a listed refrigerant; the reason in words where there is none.
pub fn modelled(listed: &Listed) -> Result<blend::Blend, String> {
    let composition: Vec<(String, f64)> =
        listed.composition.iter().map(|&(name, share)| (name.to_string(), share)).collect();
    blend::blend(&composition).map_err(|error| match error {
        BlendError::NoEquation(fluid) => {
            format!("no published equation of state for {fluid} is built in")
        }
        BlendError::TooMany(count) => format!("{count} components are more than the model takes"),
        BlendError::Data(error) => format!("its coefficients cannot be read: {}", error.0),
    })
}
