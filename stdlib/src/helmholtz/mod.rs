//! Published Helmholtz equations of state and the multi-fluid mixture model.
//!
//! A pure fluid is the mixture of one component: everything here works on a [`Model`], so that
//! blends and pure fluids share one residual function, one density solver and one description of
//! the two-phase line.
//!
//! Inside, all values are bare `f64` in SI with amounts in moles (T in K, p in Pa, ρ in mol/m³,
//! h in J/mol, s in J/(mol K)) and carry the symbols of the papers: δ = ρ/ρ_r, τ = T_r/T,
//! α = a/(RT). Transcendental functions come from `libm`, so results have the same bits on every
//! machine.

#![allow(clippy::needless_range_loop, reason = "sums run over indices, as in the papers")]

pub mod blend;
pub mod critical_region;
pub mod curve;
pub mod data_file;
pub mod density;
pub mod envelope;
pub mod equation;
pub mod equilibrium;
pub mod ideal;
pub mod linear;
pub mod model;
pub mod near_critical;
pub mod reducing;
pub mod residual;
pub mod sources;
pub mod split;
pub mod state;
pub mod trace;

pub use equation::Equation;
pub use model::Model;
pub use residual::Derivatives;

/// The most components a mixture may have. ASHRAE 34 lists blends of up to six.
pub const COMPONENTS_MAX: usize = 6;

/// The molar gas constant of CODATA 2018, J/(mol K); exact since the 2019 SI.
///
/// Every mixture uses it; a pure fluid keeps the constant its equation was fitted with.
pub const GAS_CONSTANT: f64 = 8.314_462_618_153_24;

/// One value a component.
pub type PerComponent = [f64; COMPONENTS_MAX];
