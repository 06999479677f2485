//! Viscosity of a blend from its components: residual entropy decides how much the dense fluid has above its dilute gas,
//! and in that the components mix by their mole fractions (the mixing rule of Yang, Xiao, May & Bell 2021, J. Chem. Eng.
//! Data 66 1385, which takes one polynomial for each component where here each component's own correlation stands). The
//! dilute gas mixes by Wilke 1950.

use std::sync::Arc;

use super::Viscosity;
use crate::helmholtz::Model;
use crate::helmholtz::equation::Equation;
use crate::numeric::bracket;
use crate::saturation::{Saturation, saturation};

const BOLTZMANN: f64 = 1.380_649e-23;
const AVOGADRO: f64 = 6.022_140_76e23;

/// A component with its share of the molecules.
#[derive(Debug)]
pub struct Part {
    /// Mole fraction.
    pub fraction: f64,
    /// Its equation of state.
    pub model: Model,
    /// Its own correlation.
    pub viscosity: Viscosity,
    /// Its saturation lines.
    pub saturation: Saturation,
}

/// The components of `model` with their correlations; a component without one by its name.
pub fn parts(model: &Model) -> Result<Vec<Part>, String> {
    let fractions = model.fractions();
    let part = |(equation, &fraction): (&Arc<Equation>, &f64)| {
        let name = &equation.fluid;
        let missing = |what: &str| format!("no {what} for its component {name} is built in");
        let viscosity = super::published(name).ok_or_else(|| missing("published viscosity correlation"))?;
        let saturation = saturation(name).ok_or_else(|| missing("saturation line"))?;
        let viscosity = viscosity.map_err(|error| error.0)?;
        Ok(Part { fraction, model: Model::pure(equation.clone()), viscosity, saturation })
    };
    model.components().iter().zip(fractions).map(part).collect()
}

/// η (Pa s) of the blend `model` of `parts` at `t` (K) and `rho` (mol/m³); not a number where a component has no state of
/// the same residual entropy.
pub fn value(parts: &[Part], model: &Model, t: f64, rho: f64) -> f64 {
    let entropy = residual_entropy(model, t, rho);
    let dilute = dilute(parts, t);
    if entropy <= 0.0 {
        return dilute;
    }
    let mixed: f64 = parts
        .iter()
        .map(|part| {
            let Some((t, rho)) = alike(part, t, entropy) else { return f64::NAN };
            let dense = part.viscosity.dense(&part.model, t, rho);
            part.fraction * libm::log1p(dense / scale(&part.model, t, rho, entropy))
        })
        .sum();
    dilute + libm::expm1(mixed) * scale(model, t, rho, entropy)
}

/// −s^r/R.
fn residual_entropy(model: &Model, t: f64, rho: f64) -> f64 {
    let residual = model.residual(t, rho);
    residual.a - residual.t
}

/// What the dense part of a viscosity is measured by: ρ_N^(2/3) √(m k T) / (−s^r/R)^(2/3).
fn scale(model: &Model, t: f64, rho: f64, entropy: f64) -> f64 {
    let mass = model.molar_mass / AVOGADRO;
    let crowded = rho * AVOGADRO / entropy;
    (mass * BOLTZMANN * t).sqrt() * libm::cbrt(crowded * crowded)
}

/// A state (K, mol/m³) of the component by itself with this residual entropy: at `t` where it is liquid or vapor there,
/// otherwise on its saturation line. The dense part of a viscosity, measured as here, hardly depends on more than the
/// residual entropy, and within the two-phase region an equation of state means nothing.
fn alike(part: &Part, t: f64, entropy: f64) -> Option<(f64, f64)> {
    let above = |t: f64, rho: f64| residual_entropy(&part.model, t, rho) - entropy;
    let at_temperature = |low: f64, high: f64| bracket::root(low, high, |rho| Some(above(t, rho))).map(|rho| (t, rho));
    let most = 5.0 * part.model.reducing_density();
    let Saturation { bubble, dew, .. } = &part.saturation;
    let end = bubble.end.0;
    if t >= end {
        return at_temperature(0.0, most);
    }
    let (vapor, liquid) = (dew.density(t), bubble.density(t));
    if above(t, vapor) >= 0.0 {
        return at_temperature(0.0, vapor);
    }
    if above(t, liquid) <= 0.0 {
        return at_temperature(liquid, most);
    }
    let line = if above(end, bubble.density(end)) <= 0.0 { bubble } else { dew };
    let warmer = bracket::root(t, end, |t| Some(above(t, line.density(t))))?;
    Some((warmer, line.density(warmer)))
}

/// The dilute gas of the blend (Wilke 1950).
fn dilute(parts: &[Part], t: f64) -> f64 {
    let own: Vec<(f64, f64, f64)> = parts
        .iter()
        .map(|part| (part.fraction, part.viscosity.dilute(&part.model, t), part.model.molar_mass))
        .collect();
    own.iter()
        .map(|&(fraction, eta, mass)| {
            let hindered: f64 = own
                .iter()
                .map(|&(other_fraction, other_eta, other_mass)| {
                    let sum = 1.0 + (eta / other_eta).sqrt() * (other_mass / mass).sqrt().sqrt();
                    other_fraction * sum * sum / (8.0 * (1.0 + mass / other_mass)).sqrt()
                })
                .sum();
            fraction * eta / hindered
        })
        .sum()
}
