//! Viscosity between a dilute gas and a dense liquid whose molecules need an activation energy to move (Shan,
//! Penoncello & Jacobsen 2000).

use serde::Deserialize;

/// Molar gas constant of the paper, J/(mol K).
const GAS_CONSTANT: f64 = 8.314_51;

/// η = (1 − ρ/ρ_L)^C₁ η° + (ρ/ρ_L)^C₁ C₂ ρ_L²/(ρ_L − ρ) √T exp(ρ/(ρ_L − ρ) ΔG/RT) + Δη_c, in µPa s, mol/L and K.
#[derive(Debug, Deserialize)]
pub struct FreeEnergy {
    /// g/mol
    molar_mass: f64,
    /// ε/k, K
    energy: f64,
    /// nm
    size: f64,
    /// ln Ω = Σ a (ln T*)^n
    collision: Vec<f64>,
    exponent: f64,
    liquid: f64,
    /// J/mol
    activation: f64,
    /// Of the liquid at which nothing moves, mol/L
    densest: f64,
    critical_density: f64,
    critical_temperature: f64,
    critical_excess: f64,
}

impl FreeEnergy {
    /// Viscosity (Pa s) of the dilute gas at `t` (K).
    pub fn dilute(&self, t: f64) -> f64 {
        let ln = libm::log(t / self.energy);
        let collision = libm::exp(self.collision.iter().rev().fold(0.0, |sum, a| sum * ln + a));
        1e-6 * 1.25 * 0.021_357 * (self.molar_mass * t).sqrt() / (self.size * self.size * collision)
    }

    /// η (Pa s) at `t` (K) and `rho` (mol/m³).
    pub fn value(&self, t: f64, rho: f64) -> f64 {
        let rho = rho / 1e3;
        let left = self.densest - rho;
        let share = rho / self.densest;
        let moved = self.liquid * self.densest * self.densest / left
            * t.sqrt()
            * libm::exp(rho / left * self.activation / (GAS_CONSTANT * t));
        let cosh = |x: f64| libm::exp(x) + libm::exp(-x);
        let critical =
            4.0 * self.critical_excess / (cosh(rho - self.critical_density) * cosh(t - self.critical_temperature));
        libm::pow(1.0 - share, self.exponent) * self.dilute(t)
            + 1e-6 * (libm::pow(share, self.exponent) * moved + critical)
    }
}
