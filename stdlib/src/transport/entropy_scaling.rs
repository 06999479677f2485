//! Viscosity as a function of the residual entropy (Bell & Laesecke 2016).

use serde::Deserialize;

use super::dilute_gas;
use crate::helmholtz::Model;

/// η = η°(1 + C(exp(P(x)) − 1)), where x is the density of residual entropy relative to that at the
/// critical point, P a polynomial for the liquid and another for the vapour, and η° the dilute gas
/// with a potential from the critical point.
#[derive(Debug, Deserialize)]
pub struct EntropyScaling {
    critical_temperature: f64,
    critical_density: f64,
    /// ρ s^r at the critical point, J/(m³ K)
    critical_entropy_density: f64,
    factor: f64,
    crossover: f64,
    liquid: Vec<f64>,
    vapor: Vec<f64>,
}

impl EntropyScaling {
    /// η (Pa s) at `t` (K) and `rho` (mol/m³).
    pub fn value(&self, model: &Model, t: f64, rho: f64) -> f64 {
        let residual = model.residual(t, rho);
        let x = rho * model.gas_constant * (residual.t - residual.a) / self.critical_entropy_density;
        let polynomial = |c: &[f64]| c.iter().rev().fold(0.0, |sum, c| sum * x + c);
        // From the vapour's polynomial to the liquid's within a few hundredths of the crossover.
        let share = 1.0 / (1.0 + libm::exp(-100.0 * (x - self.crossover)));
        let liquid = libm::expm1(polynomial(&self.liquid));
        let vapor = libm::expm1(polynomial(&self.vapor));
        let scaled = share * liquid + (1.0 - share) * vapor;
        self.dilute(model, t) * (1.0 + self.factor * scaled)
    }

    fn dilute(&self, model: &Model, t: f64) -> f64 {
        let volume = 1e6 / self.critical_density; // cm³/mol
        let sigma = 0.809e-10 * libm::cbrt(volume);
        dilute_gas(t, model.molar_mass, sigma, self.critical_temperature / 1.2593)
    }
}
