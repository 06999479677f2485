//! Caloric properties at a temperature and a density, at the nominal composition.

use super::Model;

/// Molar properties of a homogeneous state, with the caloric ones still free of a reference state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MolarState {
    /// K
    pub temperature: f64,
    /// mol/m³
    pub density: f64,
    /// Pa
    pub pressure: f64,
    /// ∂p/∂ρ at constant temperature, Pa m³/mol
    pub pressure_by_density: f64,
    /// ∂p/∂T at constant density, Pa/K
    pub pressure_by_temperature: f64,
    /// J/mol
    pub enthalpy: f64,
    /// J/(mol K)
    pub entropy: f64,
    /// At constant volume, J/(mol K)
    pub isochoric_heat_capacity: f64,
    /// At constant pressure, J/(mol K)
    pub heat_capacity: f64,
    /// Square of the speed of sound, m²/s²
    pub sound_speed_squared: f64,
}

impl Model {
    /// The state at temperature `t` (K) and density `rho` (mol/m³).
    pub fn state(&self, t: f64, rho: f64) -> MolarState {
        let r = self.gas_constant;
        let res = self.residual(t, rho);
        let ideal = self.ideal(t, rho);
        let slope = 1.0 + 2.0 * res.d + res.dd;
        let push = 1.0 + res.d - res.td;
        let cv = -(ideal.tt + res.tt);
        let cp = cv + push * push / slope;
        MolarState {
            temperature: t,
            density: rho,
            pressure: rho * r * t * (1.0 + res.d),
            pressure_by_density: r * t * slope,
            pressure_by_temperature: rho * r * push,
            enthalpy: r * t * (1.0 + ideal.t + res.t + res.d),
            entropy: r * (ideal.t + res.t - ideal.a - res.a),
            isochoric_heat_capacity: r * cv,
            heat_capacity: r * cp,
            sound_speed_squared: r * t / self.molar_mass * (slope + push * push / cv),
        }
    }

    /// Pressure (Pa) and ∂p/∂ρ at temperature `t` and density `rho`.
    pub fn pressure(&self, t: f64, rho: f64) -> (f64, f64) {
        let res = self.residual(t, rho);
        let rt = self.gas_constant * t;
        (rho * rt * (1.0 + res.d), rt * (1.0 + 2.0 * res.d + res.dd))
    }
}
