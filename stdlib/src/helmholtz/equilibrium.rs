//! Two phases in equilibrium, one of them at the nominal composition: bubble and dew points.
//!
//! The phase at the nominal composition is the *feed*, the other the *incipient* phase. Unknown
//! are ln T, the feed's ln ρ and the incipient phase's component densities ln q_i; given are equal
//! fugacities, equal pressures and one [`Specification`]. The *separation* S = ln ρ_feed − ln Σq
//! is positive at a bubble point, negative at a dew point and nought at the critical point, and
//! runs through both lines without turning, where temperature and pressure do turn.

use super::linear::solve as solve_linear;
use super::{COMPONENTS_MAX, Model, PerComponent};

/// Unknowns of a bubble or dew point: one a component, and temperature and density besides.
pub const UNKNOWNS_MAX: usize = COMPONENTS_MAX + 2;

/// A vector of unknowns.
pub type Vector = [f64; UNKNOWNS_MAX];

/// What is prescribed of the two-phase state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Specification {
    /// ln T, T in K
    Temperature(f64),
    /// S = ln(ρ_feed/ρ_incipient)
    Separation(f64),
}

/// A bubble or dew point.
#[derive(Clone, Copy, Debug)]
pub struct TwoPhasePoint {
    /// ln T
    pub ln_temperature: f64,
    /// ln of the feed's density, mol/m³
    pub ln_density: f64,
    /// ln of the incipient phase's component densities, mol/m³
    pub ln_incipient: PerComponent,
}

/// A converged point.
#[derive(Clone, Copy, Debug)]
pub struct Solution {
    /// The point.
    pub point: TwoPhasePoint,
    /// ln p of the less dense phase (where no digits cancel), p in Pa.
    pub ln_pressure: f64,
    /// Derivative of the unknowns by the specified variable.
    pub tangent: TwoPhasePoint,
}

const ITERATIONS_MAX: usize = 30;
/// Largest step in any logarithm; longer ones are shortened.
const STEP_MAX: f64 = 0.3;
/// A step below this is the last one: convergence is quadratic.
const STEP_LAST: f64 = 1e-9;

impl TwoPhasePoint {
    /// S = ln(ρ_feed/ρ_incipient) for `n` components.
    pub fn separation(&self, n: usize) -> f64 {
        let total: f64 = self.ln_incipient.iter().take(n).map(|&q| libm::exp(q)).sum();
        self.ln_density - libm::log(total)
    }

    /// This point moved by `factor` times `direction`.
    pub fn moved(&self, factor: f64, direction: &Self) -> Self {
        let mut moved = *self;
        moved.ln_temperature += factor * direction.ln_temperature;
        moved.ln_density += factor * direction.ln_density;
        for (q, d) in moved.ln_incipient.iter_mut().zip(&direction.ln_incipient) {
            *q += factor * d;
        }
        moved
    }

    /// The largest difference to another point in any of the unknowns, for `n` components.
    pub fn distance(&self, other: &Self, n: usize) -> f64 {
        let mut largest = (self.ln_temperature - other.ln_temperature).abs();
        largest = largest.max((self.ln_density - other.ln_density).abs());
        for (a, b) in self.ln_incipient.iter().zip(&other.ln_incipient).take(n) {
            largest = largest.max((a - b).abs());
        }
        largest
    }

    fn from_unknowns(u: &Vector) -> Self {
        let mut ln_incipient = [0.0; COMPONENTS_MAX];
        ln_incipient.copy_from_slice(&u[2..]);
        Self { ln_temperature: u[0], ln_density: u[1], ln_incipient }
    }
}

/// Solves for the two-phase point that meets `specification`, from a first guess. `None` where
/// the iteration does not converge.
pub fn solve(model: &Model, specification: Specification, guess: &TwoPhasePoint) -> Option<Solution> {
    let n = model.count();
    let mut point = *guess;
    for _ in 0..ITERATIONS_MAX {
        let system = System::at(model, specification, &point);
        let [step, tangent] = solve_linear(n + 2, system.jacobian, [system.residual, system.unit])?;
        let largest = step.iter().take(n + 2).fold(0.0, |m: f64, s| m.max(s.abs()));
        if !largest.is_finite() {
            return None;
        }
        let factor = if largest > STEP_MAX { STEP_MAX / largest } else { 1.0 };
        point = point.moved(-factor, &TwoPhasePoint::from_unknowns(&step));
        if largest < STEP_LAST {
            return Some(Solution {
                point,
                ln_pressure: ln_pressure(model, &point),
                tangent: TwoPhasePoint::from_unknowns(&tangent),
            });
        }
    }
    None
}

/// ln p, p in Pa, from the less dense of the two phases.
pub fn ln_pressure(model: &Model, point: &TwoPhasePoint) -> f64 {
    let n = model.count();
    let rho = if point.separation(n) > 0.0 {
        exponentials(&point.ln_incipient, n)
    } else {
        let density = libm::exp(point.ln_density);
        model.fractions.map(|x| x * density)
    };
    let psi = model.potential(point.ln_temperature, &rho);
    let mut z = -psi.value;
    for i in 0..n {
        z += rho[i] * (1.0 + psi.gradient[i]);
    }
    libm::log(model.gas_constant * z) + point.ln_temperature
}

fn exponentials(logs: &PerComponent, n: usize) -> PerComponent {
    let mut values = [0.0; COMPONENTS_MAX];
    for i in 0..n {
        values[i] = libm::exp(logs[i]);
    }
    values
}

/// The equations and their derivatives at one guess.
struct System {
    residual: Vector,
    jacobian: [Vector; UNKNOWNS_MAX],
    /// Right-hand side of the tangent: only the specification moves.
    unit: Vector,
}

impl System {
    fn at(model: &Model, specification: Specification, point: &TwoPhasePoint) -> Self {
        let n = model.count();
        let theta = point.ln_temperature;
        let density = libm::exp(point.ln_density);
        let feed = model.fractions.map(|x| x * density);
        let incipient = exponentials(&point.ln_incipient, n);
        let f = model.potential(theta, &feed);
        let g = model.potential(theta, &incipient);
        let scale = 1.0 / model.reducing_density();

        let mut residual = [0.0; UNKNOWNS_MAX];
        let mut jacobian = [[0.0; UNKNOWNS_MAX]; UNKNOWNS_MAX];
        let mut unit = [0.0; UNKNOWNS_MAX];
        // p/(RT) of both phases, and derivatives.
        let (mut z_feed, mut z_incipient) = (-f.value, -g.value);
        let (mut feed_by_theta, mut incipient_by_theta) = (-f.by_theta, -g.by_theta);
        let mut feed_by_density = density;
        for i in 0..n {
            z_feed += feed[i] * (1.0 + f.gradient[i]);
            z_incipient += incipient[i] * (1.0 + g.gradient[i]);
            feed_by_theta += feed[i] * f.gradient_by_theta[i];
            incipient_by_theta += incipient[i] * g.gradient_by_theta[i];
            // Equal fugacity of component i, less what is the same in both phases.
            let logs = libm::log(model.fractions[i]) + point.ln_density - point.ln_incipient[i];
            residual[i] = logs + f.gradient[i] - g.gradient[i];
            jacobian[i][0] = f.gradient_by_theta[i] - g.gradient_by_theta[i];
            jacobian[i][1] = 1.0;
            let mut incipient_by_q = incipient[i];
            for j in 0..n {
                jacobian[i][1] += feed[j] * f.hessian[i][j];
                jacobian[i][2 + j] = -incipient[j] * g.hessian[i][j] - f64::from(i == j);
                feed_by_density += feed[i] * feed[j] * f.hessian[i][j];
                incipient_by_q += incipient[i] * incipient[j] * g.hessian[i][j];
            }
            jacobian[n][2 + i] = -scale * incipient_by_q;
        }
        residual[n] = scale * (z_feed - z_incipient);
        jacobian[n][0] = scale * (feed_by_theta - incipient_by_theta);
        jacobian[n][1] = scale * feed_by_density;

        match specification {
            Specification::Temperature(ln_t) => {
                residual[n + 1] = theta - ln_t;
                jacobian[n + 1][0] = 1.0;
            }
            Specification::Separation(s) => {
                residual[n + 1] = point.separation(n) - s;
                jacobian[n + 1][1] = 1.0;
                let total: f64 = incipient.iter().take(n).sum();
                for i in 0..n {
                    jacobian[n + 1][2 + i] = -incipient[i] / total;
                }
            }
        }
        unit[n + 1] = 1.0;
        Self { residual, jacobian, unit }
    }
}
