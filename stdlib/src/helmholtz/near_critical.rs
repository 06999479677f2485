//! Two phases that are nearly one: bubble and dew points about the critical point.
//!
//! There the conditions of equilibrium are differences of nearly equal numbers and their Jacobian
//! matrix is nearly singular, because both phases being the same is always a solution. So the
//! differences are written as what they are, integrals along the straight path between the two
//! phases, and what they have in common, the length of the path, is divided out:
//!
//! with H the matrix of second derivatives of Ψ and of the ideal part, ρ(λ) the path and
//! d = (ρ_feed − ρ_incipient)/S, equal fugacities are ∫ H(ρ(λ)) d dλ = 0, and with them equal
//! pressures are ∫ (λ − ½) dᵀH(ρ(λ)) d dλ / S = 0. Both stay regular at S = 0, where they become
//! the two criteria of the critical point.

use super::equilibrium::{TwoPhasePoint, UNKNOWNS_MAX, Vector, ln_pressure};
use super::linear::solve as solve_linear;
use super::{COMPONENTS_MAX, Model, PerComponent};

/// Largest |S| at which the integrals are exact enough with the points used.
pub const SEPARATION_MAX: f64 = 0.15;

/// A state in the variables that stay regular at S = 0.
#[derive(Clone, Copy, Debug)]
pub struct NearCriticalPoint {
    /// S = ln(ρ_feed/ρ_incipient), not nought
    pub separation: f64,
    /// Unknowns: ln T, ln ρ_feed, and (y_i − x_i)/S of all components but the last.
    unknowns: Vector,
}

/// Gauss–Legendre points and weights on −½ … ½, the positive half.
const QUADRATURE: [(f64, f64); 5] = [
    (0.074_437_169_490_815_6, 0.147_762_112_357_376_44),
    (0.216_697_697_064_623_6, 0.134_633_359_654_998_18),
    (0.339_704_784_149_512_2, 0.109_543_181_257_991_02),
    (0.432_531_683_344_492_25, 0.074_725_674_575_290_3),
    (0.486_953_264_258_585_87, 0.033_335_672_154_344_07),
];

const ITERATIONS_MAX: usize = 25;
const STEP_LAST: f64 = 1e-8;
/// Step of the differences that stand for derivatives. They only steer the iteration.
const DIFFERENCE: f64 = 1e-6;

impl NearCriticalPoint {
    /// From a two-phase point at separation `s`.
    pub fn new(model: &Model, s: f64, point: &TwoPhasePoint) -> Self {
        let n = model.count();
        let mut unknowns = [0.0; UNKNOWNS_MAX];
        unknowns[0] = point.ln_temperature;
        unknowns[1] = point.ln_density;
        let total: f64 = point.ln_incipient.iter().take(n).map(|&q| libm::exp(q)).sum();
        for i in 0..n - 1 {
            let y = libm::exp(point.ln_incipient[i]) / total;
            unknowns[2 + i] = (y - model.fractions[i]) / s;
        }
        Self { separation: s, unknowns }
    }

    /// The two-phase point.
    pub fn two_phase(&self, model: &Model) -> TwoPhasePoint {
        let Phases { incipient, .. } = self.phases(model);
        let mut ln_incipient = [0.0; COMPONENTS_MAX];
        for i in 0..model.count() {
            ln_incipient[i] = libm::log(incipient[i]);
        }
        TwoPhasePoint { ln_temperature: self.unknowns[0], ln_density: self.unknowns[1], ln_incipient }
    }

    /// ln p, p in Pa.
    pub fn ln_pressure(&self, model: &Model) -> f64 {
        ln_pressure(model, &self.two_phase(model))
    }

    /// The state at `s` on the straight line through `before` (if any) and this one.
    pub fn extrapolated(&self, before: Option<&Self>, s: f64) -> Self {
        let mut guess = *self;
        if let Some(before) = before {
            let reach = (s - self.separation) / (self.separation - before.separation);
            for (u, b) in guess.unknowns.iter_mut().zip(&before.unknowns) {
                *u += reach * (*u - b);
            }
        }
        guess.separation = s;
        guess
    }

    /// Solves at the separation of this guess.
    pub fn solved(&self, model: &Model) -> Option<Self> {
        let count = model.count() + 1;
        let mut point = *self;
        for _ in 0..ITERATIONS_MAX {
            let residual = point.residual(model);
            let mut jacobian = [[0.0; UNKNOWNS_MAX]; UNKNOWNS_MAX];
            for k in 0..count {
                let mut beside = point;
                beside.unknowns[k] += DIFFERENCE;
                let moved = beside.residual(model);
                for row in 0..count {
                    jacobian[row][k] = (moved[row] - residual[row]) / DIFFERENCE;
                }
            }
            let [step, _] = solve_linear(count, jacobian, [residual, [0.0; UNKNOWNS_MAX]])?;
            let largest = step.iter().take(count).fold(0.0, |m: f64, s| m.max(s.abs()));
            if !largest.is_finite() {
                return None;
            }
            let factor = if largest > 0.1 { 0.1 / largest } else { 1.0 };
            for (u, s) in point.unknowns.iter_mut().zip(&step).take(count) {
                *u -= factor * s;
            }
            if largest < STEP_LAST {
                return Some(point);
            }
        }
        None
    }

    fn phases(&self, model: &Model) -> Phases {
        let n = model.count();
        let s = self.separation;
        let density = libm::exp(self.unknowns[1]);
        let shrink = libm::exp(-s);
        let mut phases =
            Phases { feed: [0.0; COMPONENTS_MAX], incipient: [0.0; COMPONENTS_MAX], direction: [0.0; COMPONENTS_MAX] };
        let mut rest = 0.0;
        for i in 0..n {
            let x = model.fractions[i];
            let v = if i + 1 < n { self.unknowns[2 + i] } else { -rest };
            rest += v;
            phases.feed[i] = density * x;
            phases.incipient[i] = density * shrink * (x + s * v);
            // (ρ_feed − ρ_incipient)/S, relative to ρ_feed
            phases.direction[i] = -libm::expm1(-s) / s * x - shrink * v;
        }
        phases
    }

    fn residual(&self, model: &Model) -> Vector {
        let n = model.count();
        let Phases { feed, incipient, direction } = self.phases(model);
        let density = libm::exp(self.unknowns[1]);
        let mut residual = [0.0; UNKNOWNS_MAX];
        for (lambda, weight) in QUADRATURE {
            let mut odd = 0.0;
            for side in [1.0, -1.0] {
                let share = 0.5 + side * lambda;
                let mut rho: PerComponent = [0.0; COMPONENTS_MAX];
                for i in 0..n {
                    rho[i] = incipient[i] + share * (feed[i] - incipient[i]);
                }
                let psi = model.potential(self.unknowns[0], &rho);
                for i in 0..n {
                    let mut row = direction[i] / rho[i];
                    for j in 0..n {
                        row += psi.hessian[i][j] * direction[j];
                    }
                    residual[i] += weight * density * row;
                    odd += side * density * direction[i] * row;
                }
            }
            residual[n] += weight * lambda * odd;
        }
        residual[n] /= self.separation;
        residual
    }
}

struct Phases {
    feed: PerComponent,
    incipient: PerComponent,
    direction: PerComponent,
}
