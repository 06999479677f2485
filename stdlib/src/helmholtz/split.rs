//! A mixture boiling or condensing at one pressure: both phases where part of it is vapour.

use super::equilibrium::{Solution, Specification, TwoPhasePoint, solve as solve_boundary};
use super::linear::solve as solve_linear;
use super::{COMPONENTS_MAX, Model, PerComponent};

const UNKNOWNS_MAX: usize = 2 * COMPONENTS_MAX + 1;
const ITERATIONS_MAX: usize = 30;
const STEP_MAX: f64 = 0.3;
const STEP_LAST: f64 = 1e-9;

/// Liquid and vapour in equilibrium.
#[derive(Clone, Copy, Debug)]
pub struct Split {
    /// Share of all moles that is vapour.
    pub vapor_share: f64,
    /// K
    pub temperature: f64,
    /// ln of the liquid's component densities, mol/m³
    ln_liquid: PerComponent,
    /// ln of the vapour's
    ln_vapor: PerComponent,
}

/// Molar values of the whole: volume (m³/mol), enthalpy (J/mol) and entropy (J/(mol K)), the
/// latter two without a reference state.
#[derive(Clone, Copy, Debug)]
pub struct Overall {
    /// m³/mol
    pub volume: f64,
    /// J/mol
    pub enthalpy: f64,
    /// J/(mol K)
    pub entropy: f64,
    /// Share of the mass that is vapour.
    pub quality: f64,
}

impl Split {
    /// The bubble point at temperature `t` (K), where `density` gives the saturated liquid's
    /// density (mol/m³) at a temperature.
    pub fn bubble_point(model: &Model, t: f64, density: impl Fn(f64) -> f64) -> Option<Self> {
        // Near the critical point the vapour is too far from an ideal gas for a first guess: start
        // colder, and follow the line up.
        let mut found = None;
        for colder in [1.0, 0.97, 0.92, 0.85] {
            found = first_vapor(model, colder * t, density(colder * t));
            if found.is_some() {
                break;
            }
        }
        let mut found = found?;
        let ln_t = libm::log(t);
        let mut step: f64 = 0.03;
        while found.point.ln_temperature != ln_t {
            let way = ln_t - found.point.ln_temperature;
            let target = if way <= step { ln_t } else { found.point.ln_temperature + step };
            let guess = found.point.moved(target - found.point.ln_temperature, &found.tangent);
            match boiling(model, target, &guess) {
                Some(next) => found = next,
                None => {
                    step *= 0.5;
                    if step < 1e-6 {
                        return None;
                    }
                }
            }
        }
        let mut ln_liquid = [0.0; COMPONENTS_MAX];
        for i in 0..model.count() {
            ln_liquid[i] = libm::log(model.fractions[i]) + found.point.ln_density;
        }
        let ln_vapor = found.point.ln_incipient;
        Some(Self { vapor_share: 0.0, temperature: t, ln_liquid, ln_vapor })
    }

    /// The split at pressure `p` (Pa) with the share `vapor_share` of the moles as vapour, sought
    /// from this one.
    pub fn moved(&self, model: &Model, p: f64, vapor_share: f64) -> Option<Self> {
        let n = model.count();
        let mut split = Self { vapor_share, ..*self };
        for _ in 0..ITERATIONS_MAX {
            let (residual, jacobian) = split.system(model, p);
            let count = 2 * n + 1;
            let [step, _] = solve_linear(count, jacobian, [residual, [0.0; UNKNOWNS_MAX]])?;
            let largest = step.iter().take(count).fold(0.0, |m: f64, s| m.max(s.abs()));
            if !largest.is_finite() {
                return None;
            }
            let factor = if largest > STEP_MAX { STEP_MAX / largest } else { 1.0 };
            split.temperature *= libm::exp(-factor * step[0]);
            for i in 0..n {
                split.ln_liquid[i] -= factor * step[1 + i];
                split.ln_vapor[i] -= factor * step[1 + n + i];
            }
            if largest < STEP_LAST {
                return (split.separation(n) > 0.01).then_some(split);
            }
        }
        None
    }

    /// The properties of the whole.
    pub fn overall(&self, model: &Model) -> Overall {
        let n = model.count();
        let share = self.vapor_share;
        let mut overall = Overall { volume: 0.0, enthalpy: 0.0, entropy: 0.0, quality: 0.0 };
        let mut mass = [0.0; 2];
        for (k, (logs, part)) in [(&self.ln_liquid, 1.0 - share), (&self.ln_vapor, share)].into_iter().enumerate() {
            let rho: f64 = logs.iter().take(n).map(|&q| libm::exp(q)).sum();
            let fractions = logs.map(|q| libm::exp(q) / rho);
            let phase = model.at_composition(&fractions);
            let state = phase.state(self.temperature, rho);
            overall.volume += part / rho;
            overall.enthalpy += part * state.enthalpy;
            overall.entropy += part * state.entropy;
            mass[k] = part * phase.molar_mass;
        }
        overall.quality = mass[1] / (mass[0] + mass[1]);
        overall
    }

    fn separation(&self, n: usize) -> f64 {
        let sum = |logs: &PerComponent| logs.iter().take(n).map(|&q| libm::exp(q)).sum::<f64>();
        libm::log(sum(&self.ln_liquid) / sum(&self.ln_vapor))
    }

    /// Residuals and Jacobian by ln T, ln q of the liquid and ln q of the vapour.
    fn system(&self, model: &Model, p: f64) -> ([f64; UNKNOWNS_MAX], [[f64; UNKNOWNS_MAX]; UNKNOWNS_MAX]) {
        let n = model.count();
        let theta = libm::log(self.temperature);
        let liquid = exponentials(&self.ln_liquid, n);
        let vapor = exponentials(&self.ln_vapor, n);
        let f = model.potential(theta, &liquid);
        let g = model.potential(theta, &vapor);
        let mut residual = [0.0; UNKNOWNS_MAX];
        let mut jacobian = [[0.0; UNKNOWNS_MAX]; UNKNOWNS_MAX];

        let ideal = p / (model.gas_constant * self.temperature);
        let scale = 1.0 / model.reducing_density();
        let (mut z_liquid, mut z_vapor) = (-f.value, -g.value);
        let (mut liquid_by_theta, mut vapor_by_theta) = (-f.by_theta, -g.by_theta);
        for i in 0..n {
            residual[i] = self.ln_liquid[i] + f.gradient[i] - self.ln_vapor[i] - g.gradient[i];
            jacobian[i][0] = f.gradient_by_theta[i] - g.gradient_by_theta[i];
            let (mut by_liquid, mut by_vapor) = (liquid[i], vapor[i]);
            for j in 0..n {
                jacobian[i][1 + j] = f64::from(i == j) + liquid[j] * f.hessian[i][j];
                jacobian[i][1 + n + j] = -f64::from(i == j) - vapor[j] * g.hessian[i][j];
                by_liquid += liquid[i] * liquid[j] * f.hessian[i][j];
                by_vapor += vapor[i] * vapor[j] * g.hessian[i][j];
            }
            jacobian[n][1 + i] = scale * by_liquid;
            jacobian[n + 1][1 + n + i] = by_vapor / ideal;
            z_liquid += liquid[i] * (1.0 + f.gradient[i]);
            z_vapor += vapor[i] * (1.0 + g.gradient[i]);
            liquid_by_theta += liquid[i] * f.gradient_by_theta[i];
            vapor_by_theta += vapor[i] * g.gradient_by_theta[i];
        }
        residual[n] = scale * (z_liquid - ideal);
        jacobian[n][0] = scale * (liquid_by_theta + ideal);
        residual[n + 1] = (z_vapor - ideal) / ideal;
        jacobian[n + 1][0] = (vapor_by_theta + ideal) / ideal;

        // What is not in the vapour is in the liquid.
        let share = self.vapor_share;
        let (sum_liquid, sum_vapor): (f64, f64) = (liquid.iter().take(n).sum(), vapor.iter().take(n).sum());
        for i in 0..n - 1 {
            let row = n + 2 + i;
            let (x, y) = (liquid[i] / sum_liquid, vapor[i] / sum_vapor);
            residual[row] = (1.0 - share) * x + share * y - model.fractions[i];
            for j in 0..n {
                let same = f64::from(i == j);
                jacobian[row][1 + j] = (1.0 - share) * x * (same - liquid[j] / sum_liquid);
                jacobian[row][1 + n + j] = share * y * (same - vapor[j] / sum_vapor);
            }
        }
        (residual, jacobian)
    }
}

/// The bubble point from the vapour that would have the liquid's fugacities if it were an ideal gas.
fn first_vapor(model: &Model, t: f64, rho: f64) -> Option<Solution> {
    let ln_t = libm::log(t);
    let feed = model.fractions.map(|x| x * rho);
    let psi = model.potential(ln_t, &feed);
    let mut ln_incipient = [0.0; COMPONENTS_MAX];
    for i in 0..model.count() {
        ln_incipient[i] = libm::log(feed[i]) + psi.gradient[i];
    }
    let guess = TwoPhasePoint { ln_temperature: ln_t, ln_density: libm::log(rho), ln_incipient };
    boiling(model, ln_t, &guess)
}

/// A solution that is not the same phase twice.
fn boiling(model: &Model, ln_t: f64, guess: &TwoPhasePoint) -> Option<Solution> {
    let found = solve_boundary(model, Specification::Temperature(ln_t), guess)?;
    let mut exact = found;
    exact.point.ln_temperature = ln_t;
    (found.point.separation(model.count()) > 0.02).then_some(exact)
}

fn exponentials(logs: &PerComponent, n: usize) -> PerComponent {
    let mut values = [0.0; COMPONENTS_MAX];
    for i in 0..n {
        values[i] = libm::exp(logs[i]);
    }
    values
}
