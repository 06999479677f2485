//! Correlations of a dilute gas, its first density correction and a residual part.

use serde::Deserialize;

use super::dilute_gas;

/// η = η°(T)(1 + B(T)ρ) + Δη(T, ρ).
#[derive(Debug, Deserialize)]
pub struct Background {
    potential: Option<Potential>,
    dilute: Dilute,
    #[serde(default)]
    initial_density: Vec<[f64; 2]>,
    reducing: Reducing,
    /// a, d, t, γ, l of a δ^d τ^t exp(γ δ^l)
    residual: Vec<[f64; 5]>,
    free_volume: Option<FreeVolume>,
}

/// Lennard-Jones energy ε/k (K) and size σ (m).
#[derive(Debug, Deserialize)]
struct Potential {
    energy: f64,
    size: f64,
}

#[derive(Debug, Deserialize)]
#[serde(tag = "form", rename_all = "snake_case")]
enum Dilute {
    /// factor·√(MT)/(σ² exp(Σ a (ln T*)^t)), M in g/mol and σ in nm
    CollisionIntegral { factor: f64, molar_mass: f64, terms: Vec<[f64; 2]> },
    /// Σ a T^t
    Powers { terms: Vec<[f64; 2]> },
    /// Kinetic theory with the Lennard-Jones potential.
    LennardJones { molar_mass: f64 },
}

/// K and mol/m³.
#[derive(Debug, Deserialize)]
struct Reducing {
    temperature: f64,
    density: f64,
}

/// Σ f δ^d τ^t · (1/(δ₀ − δ) − 1/δ₀) with δ₀ the closest packing, a quotient of sums in τ
/// (Batschinski and Hildebrand, modified).
#[derive(Debug, Deserialize)]
struct FreeVolume {
    factor: Vec<[f64; 3]>,
    closest: Vec<[f64; 2]>,
    closest_below: Vec<[f64; 2]>,
}

/// Avogadro's constant, 1/mol.
const AVOGADRO: f64 = 6.022_140_76e23;

impl Background {
    /// η (Pa s) at `t` (K) and `rho` (mol/m³).
    pub fn value(&self, t: f64, rho: f64) -> f64 {
        let dilute = self.dilute(t);
        let delta = rho / self.reducing.density;
        let tau = self.reducing.temperature / t;
        let mut value = dilute;
        if let Some(Potential { energy, size }) = &self.potential {
            let second = powers(&self.initial_density, t / energy);
            value += dilute * AVOGADRO * size * size * size * second * rho;
        }
        for &[a, d, tt, gamma, l] in &self.residual {
            let damped = if gamma == 0.0 { 0.0 } else { gamma * libm::pow(delta, l) };
            value += a * libm::pow(delta, d) * libm::pow(tau, tt) * libm::exp(damped);
        }
        if let Some(free) = &self.free_volume {
            let factor: f64 = free.factor.iter().map(|&[f, d, tt]| f * libm::pow(delta, d) * libm::pow(tau, tt)).sum();
            let closest = powers(&free.closest, tau) / powers(&free.closest_below, tau);
            value += factor * (1.0 / (closest - delta) - 1.0 / closest);
        }
        value
    }

    fn dilute(&self, t: f64) -> f64 {
        let (energy, size) = self.potential.as_ref().map_or((1.0, 1.0), |p| (p.energy, p.size));
        match &self.dilute {
            Dilute::CollisionIntegral { factor, molar_mass, terms } => {
                let ln_reduced = libm::log(t / energy);
                let sum: f64 = terms.iter().map(|&[a, n]| a * whole_power(ln_reduced, n)).sum();
                let sigma = size * 1e9;
                factor * (molar_mass * 1e3 * t).sqrt() / (sigma * sigma * libm::exp(sum))
            }
            Dilute::Powers { terms } => powers(terms, t),
            Dilute::LennardJones { molar_mass } => dilute_gas(t, *molar_mass, size, energy),
        }
    }
}

/// Σ a x^n.
fn powers(terms: &[[f64; 2]], x: f64) -> f64 {
    terms.iter().map(|&[a, n]| a * libm::pow(x, n)).sum()
}

/// x^n for a whole n, where x may be negative.
fn whole_power(x: f64, n: f64) -> f64 {
    (0..n as u32).fold(1.0, |power, _| power * x)
}
