//! Viscosity by extended corresponding states (Klein, McLinden & Laesecke 1997; Huber, Laesecke & Perkins 2003): what a
//! dense fluid has above its dilute gas is scaled from a reference fluid in the state that conforms to it.

use serde::Deserialize;

use super::{Viscosity, dilute_gas};
use crate::helmholtz::residual::Derivatives;
use crate::helmholtz::{Model, sources};

/// Below this share of the reducing density both conditions of a conformal state come close to one, that of the second
/// virial coefficient, and there may be no state that meets them sharply.
const THIN: f64 = 0.3;
/// A conformal state lies this near to the state of equal reduced temperature and density.
const FARTHEST: f64 = 1.5;
const STEPS: usize = 60;

/// What a paper gives of a fluid.
#[derive(Debug, Deserialize)]
pub struct Published {
    /// Lennard-Jones energy ε/k, K
    energy: f64,
    /// Lennard-Jones size σ, m
    size: f64,
    reference: String,
    /// Reducing density of the shape polynomial, mol/m³
    density: f64,
    /// ψ = Σ a (ρ/ρ_r)^n
    shape: Vec<f64>,
}

/// The published numbers with their reference fluid.
#[derive(Debug)]
pub struct CorrespondingStates {
    published: Published,
    viscosity: Viscosity,
    model: Model,
}

impl CorrespondingStates {
    /// Reads the reference fluid; what is wrong with it in words.
    pub fn new(published: Published) -> Result<Self, String> {
        let missing = || format!("no reference fluid {} for corresponding states", published.reference);
        let viscosity = super::published(&published.reference).ok_or_else(missing)?.map_err(|error| error.0)?;
        let equation = sources::equation(&published.reference).ok_or_else(missing)?.map_err(|error| error.0)?;
        Ok(Self { published, viscosity, model: Model::pure(equation) })
    }

    /// Viscosity (Pa s) of the dilute gas at `t` (K).
    pub fn dilute(&self, model: &Model, t: f64) -> f64 {
        dilute_gas(t, model.molar_mass, self.published.size, self.published.energy)
    }

    /// What the density `rho` (mol/m³) adds to the dilute gas, Pa s; not a number where no state conforms.
    pub fn dense(&self, model: &Model, t: f64, rho: f64) -> f64 {
        let Some((t0, rho0)) = self.conformal(model, t, rho) else { return f64::NAN };
        let (cooler, denser) = (t / t0, rho0 / rho.max(f64::MIN_POSITIVE));
        let shape: f64 = self.published.shape.iter().rev().fold(0.0, |sum, a| sum * (rho / self.published.density) + a);
        let mass = (model.molar_mass / self.model.molar_mass).sqrt();
        let scale = cooler.sqrt() * mass / libm::cbrt(denser * denser);
        scale * self.viscosity.dense(&self.model, t0, rho0 * shape)
    }

    /// Temperature and density of the reference fluid at which its α^r and its compressibility are the fluid's. Of a thin
    /// gas without such a state, that of equal reduced temperature and density: what is scaled from there is a small part.
    fn conformal(&self, model: &Model, t: f64, rho: f64) -> Option<(f64, f64)> {
        let alike = (
            t * self.model.reducing_temperature() / model.reducing_temperature(),
            rho * self.model.reducing_density() / model.reducing_density(),
        );
        let near = |value: f64, other: f64| (other / FARTHEST..=other * FARTHEST).contains(&value);
        match self.sharp(model, t, rho, alike) {
            Some((t0, rho0)) if near(t0, alike.0) && near(rho0, alike.1) => Some((t0, rho0)),
            _ if rho < THIN * model.reducing_density() => Some(alike),
            _ => None,
        }
    }

    fn sharp(&self, model: &Model, t: f64, rho: f64, from: (f64, f64)) -> Option<(f64, f64)> {
        let aim = model.residual(t, rho);
        let (mut t0, mut rho0) = from;
        for _ in 0..STEPS {
            let Derivatives { a, t: by_tau, d, dd, td, .. } = self.model.residual(t0, rho0);
            let (first, second) = (a - aim.a, d - aim.d);
            // By ln T and ln ρ.
            let (a_t, a_r, d_t, d_r) = (-by_tau, d, -td, dd + d);
            let determinant = a_t * d_r - a_r * d_t;
            let (step_t, step_r) =
                ((first * d_r - second * a_r) / determinant, (second * a_t - first * d_t) / determinant);
            if !(step_t.is_finite() && step_r.is_finite()) {
                return None;
            }
            let damped = (0.2 / step_t.abs().max(step_r.abs())).min(1.0);
            t0 *= libm::exp(-damped * step_t);
            rho0 *= libm::exp(-damped * step_r);
            if step_t.abs() < 1e-10 && step_r.abs() < 1e-10 {
                return Some((t0, rho0));
            }
        }
        None
    }
}
