//! The reducing functions T_r(x) and v_r(x) of the multi-fluid mixture model.

use super::{COMPONENTS_MAX, PerComponent};

/// Matrix over the components.
pub type Matrix = [PerComponent; COMPONENTS_MAX];

/// Y(x) = Σ x_i² Y_i + Σ_(i<j) 2 x_i x_j β γ (x_i + x_j)/(β² x_i + x_j) Y_ij, for one of T_r and
/// v_r = 1/ρ_r (Kunz & Wagner 2012, eqs. 16 and 17).
#[derive(Clone, Debug)]
pub struct ReducingFunction {
    count: usize,
    pure: PerComponent,
    beta: Matrix,
    /// 2 β γ Y_ij
    weight: Matrix,
}

/// ln Y and its derivatives by the component densities ρ_i.
#[derive(Clone, Copy, Debug)]
pub struct ReducingJet {
    /// ln Y
    pub ln: f64,
    /// ∂ ln Y/∂ρ_i
    pub gradient: PerComponent,
    /// ∂² ln Y/∂ρ_i ∂ρ_j
    pub hessian: Matrix,
}

impl ReducingFunction {
    /// A function with the pure components' values; every pair is to be set after.
    pub fn new(pure: &[f64]) -> Self {
        let mut values = [0.0; COMPONENTS_MAX];
        for (value, &pure) in values.iter_mut().zip(pure) {
            *value = pure;
        }
        Self {
            count: pure.len().min(COMPONENTS_MAX),
            pure: values,
            beta: [[1.0; COMPONENTS_MAX]; COMPONENTS_MAX],
            weight: [[0.0; COMPONENTS_MAX]; COMPONENTS_MAX],
        }
    }

    /// Sets β and γ of the pair i, j with the given mean value Y_ij; i must be less than j.
    pub fn set_pair(&mut self, i: usize, j: usize, beta: f64, gamma: f64, mean: f64) {
        self.beta[i][j] = beta;
        self.weight[i][j] = 2.0 * beta * gamma * mean;
    }

    /// Y at the densities ρ_i, which need not be normalised.
    pub fn value(&self, rho: &PerComponent) -> f64 {
        libm::exp(self.jet(rho).ln)
    }

    /// ln Y and its derivatives at the densities ρ_i.
    pub fn jet(&self, rho: &PerComponent) -> ReducingJet {
        // Y = Q/ρ², with Q the same sums over ρ_i in place of x_i.
        let n = self.count;
        let mut total = 0.0;
        let mut q = 0.0;
        let mut slope = [0.0; COMPONENTS_MAX];
        let mut curve = [[0.0; COMPONENTS_MAX]; COMPONENTS_MAX];
        for i in 0..n {
            total += rho[i];
            q += rho[i] * rho[i] * self.pure[i];
            slope[i] += 2.0 * rho[i] * self.pure[i];
            curve[i][i] += 2.0 * self.pure[i];
        }
        for i in 0..n {
            for j in i + 1..n {
                // f = ab(a+b)/(β²a+b)
                let (a, b, w) = (rho[i], rho[j], self.weight[i][j]);
                let square = self.beta[i][j] * self.beta[i][j];
                let bottom = square * a + b;
                let f = a * b * (a + b) / bottom;
                let fa = ((2.0 * a + b) * b - f * square) / bottom;
                let fb = ((2.0 * b + a) * a - f) / bottom;
                q += w * f;
                slope[i] += w * fa;
                slope[j] += w * fb;
                curve[i][i] += w * (2.0 * b - 2.0 * fa * square) / bottom;
                curve[j][j] += w * (2.0 * a - 2.0 * fb) / bottom;
                let mixed = w * (2.0 * (a + b) - fa - square * fb) / bottom;
                curve[i][j] += mixed;
                curve[j][i] += mixed;
            }
        }
        let mut jet = ReducingJet {
            ln: libm::log(q / (total * total)),
            gradient: [0.0; COMPONENTS_MAX],
            hessian: [[0.0; COMPONENTS_MAX]; COMPONENTS_MAX],
        };
        for i in 0..n {
            jet.gradient[i] = slope[i] / q - 2.0 / total;
            for j in 0..n {
                jet.hessian[i][j] = curve[i][j] / q - slope[i] * slope[j] / (q * q) + 2.0 / (total * total);
            }
        }
        jet
    }
}
