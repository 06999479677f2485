//! The residual part α^r(τ, δ) of a Helmholtz equation, in every published form of term.

use super::critical_region::CriticalRegionTerm;

/// A reduced Helmholtz energy and its derivatives to second order, each multiplied by as many
/// factors τ and δ as it is differentiated by, which is how the papers' property formulas use them.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Derivatives {
    /// α
    pub a: f64,
    /// τ ∂α/∂τ
    pub t: f64,
    /// τ² ∂²α/∂τ²
    pub tt: f64,
    /// δ ∂α/∂δ
    pub d: f64,
    /// δ² ∂²α/∂δ²
    pub dd: f64,
    /// δτ ∂²α/∂δ∂τ
    pub td: f64,
}

impl Derivatives {
    /// Adds `weight` times `other`.
    pub fn add(&mut self, weight: f64, other: &Derivatives) {
        self.a += weight * other.a;
        self.t += weight * other.t;
        self.tt += weight * other.tt;
        self.d += weight * other.d;
        self.dd += weight * other.dd;
        self.td += weight * other.td;
    }

    /// Adds a term `value` = n·exp(g), given the logarithmic derivatives of its exponent:
    /// gt = τ∂g/∂τ, gtt = τ∂gt/∂τ and likewise in δ. The mixed one is nought in every form.
    fn add_exponential(&mut self, value: f64, gt: f64, gtt: f64, gd: f64, gdd: f64) {
        self.a += value;
        self.t += value * gt;
        self.tt += value * (gt * gt + gtt - gt);
        self.d += value * gd;
        self.dd += value * (gd * gd + gdd - gd);
        self.td += value * gt * gd;
    }
}

/// The residual part of one equation, or one departure function: a sum of terms.
#[derive(Clone, Debug, Default)]
pub struct Residual {
    /// n δ^d τ^t exp(−g δ^l), without the exponential where l = 0.
    pub powers: Vec<PowerTerm>,
    /// n δ^d τ^t exp(−δ^l) exp(−τ^m), of Lemmon & Jacobsen 2005.
    pub two_exponentials: Vec<TwoExponentialTerm>,
    /// n δ^d τ^t exp(−η(δ−ε)² − β(τ−γ)²).
    pub gaussians: Vec<GaussianTerm>,
    /// n δ^d τ^t exp(−η(δ−ε)² − β(δ−γ)), of Kunz & Wagner 2012.
    pub density_gaussians: Vec<GaussianTerm>,
    /// n δ^d τ^t exp(η(δ−ε)² + 1/(β(τ−γ)² + b)), of Gao et al. 2023.
    pub gaussian_reciprocals: Vec<GaussianReciprocalTerm>,
    /// The terms of Span & Wagner 1996 that shape the critical region.
    pub critical_region: Vec<CriticalRegionTerm>,
}

/// Coefficients of a power term, with or without its exponential in density.
#[derive(Clone, Copy, Debug)]
pub struct PowerTerm {
    /// Coefficient.
    pub n: f64,
    /// Exponent of δ.
    pub d: usize,
    /// Exponent of τ.
    pub t: f64,
    /// Exponent of δ inside the exponential; 0 for none.
    pub l: usize,
    /// Factor inside the exponential.
    pub g: f64,
}

/// Coefficients of a term with exponentials in both δ and τ.
#[derive(Clone, Copy, Debug)]
pub struct TwoExponentialTerm {
    /// Coefficient.
    pub n: f64,
    /// Exponent of δ.
    pub d: usize,
    /// Exponent of τ.
    pub t: f64,
    /// Exponent of δ inside its exponential; 0 for none.
    pub l: usize,
    /// Exponent of τ inside its exponential; 0 for none.
    pub m: f64,
}

/// Coefficients of a bell-shaped term.
#[derive(Clone, Copy, Debug)]
pub struct GaussianTerm {
    /// Coefficient.
    pub n: f64,
    /// Exponent of δ.
    pub d: usize,
    /// Exponent of τ.
    pub t: f64,
    /// Steepness in δ.
    pub eta: f64,
    /// Centre in δ.
    pub epsilon: f64,
    /// Steepness in the second variable.
    pub beta: f64,
    /// Centre in the second variable.
    pub gamma: f64,
}

/// Coefficients of a bell-shaped term in δ with a reciprocal in τ.
#[derive(Clone, Copy, Debug)]
pub struct GaussianReciprocalTerm {
    /// The part shared with the ordinary bell.
    pub bell: GaussianTerm,
    /// Offset in the reciprocal.
    pub b: f64,
}

/// Highest exponent of δ that an equation may use; the data files are held to it.
pub const DENSITY_EXPONENT_MAX: usize = 23;

/// δ⁰ … δ²³ by multiplication alone, which is exact in the same way on every machine.
struct DensityPowers([f64; DENSITY_EXPONENT_MAX + 1]);

impl DensityPowers {
    fn new(delta: f64) -> Self {
        let mut powers = [1.0; DENSITY_EXPONENT_MAX + 1];
        for k in 1..=DENSITY_EXPONENT_MAX {
            powers[k] = powers[k - 1] * delta;
        }
        Self(powers)
    }

    fn of(&self, exponent: usize) -> f64 {
        self.0[exponent.min(DENSITY_EXPONENT_MAX)]
    }
}

impl Residual {
    /// α^r and its derivatives at τ and δ.
    pub fn derivatives(&self, tau: f64, delta: f64) -> Derivatives {
        let mut sum = Derivatives::default();
        let ln_tau = libm::log(tau);
        let powers = DensityPowers::new(delta);

        for &PowerTerm { n, d, t, l, g } in &self.powers {
            let (inside, l_real) = if l == 0 { (0.0, 0.0) } else { (g * powers.of(l), l as f64) };
            let value = n * powers.of(d) * libm::exp(t * ln_tau - inside);
            let gd = d as f64 - l_real * inside;
            sum.add_exponential(value, t, 0.0, gd, -l_real * l_real * inside);
        }
        for &TwoExponentialTerm { n, d, t, l, m } in &self.two_exponentials {
            let (in_delta, l) = if l == 0 { (0.0, 0.0) } else { (powers.of(l), l as f64) };
            let in_tau = if m == 0.0 { 0.0 } else { libm::exp(m * ln_tau) };
            let value = n * powers.of(d) * libm::exp(t * ln_tau - in_delta - in_tau);
            let gt = t - m * in_tau;
            let gd = d as f64 - l * in_delta;
            sum.add_exponential(value, gt, -m * m * in_tau, gd, -l * l * in_delta);
        }
        for term in &self.gaussians {
            let &GaussianTerm { n, d, t, eta, epsilon, beta, gamma } = term;
            let (x, y) = (delta - epsilon, tau - gamma);
            let exponent = t * ln_tau - eta * x * x - beta * y * y;
            let value = n * powers.of(d) * libm::exp(exponent);
            let gt = t - 2.0 * beta * tau * y;
            let gtt = -2.0 * beta * tau * (tau + y);
            let (gd, gdd) = term.density_slopes(delta);
            sum.add_exponential(value, gt, gtt, gd, gdd);
        }
        for term in &self.density_gaussians {
            let &GaussianTerm { n, d, t, eta, epsilon, beta, gamma } = term;
            let x = delta - epsilon;
            let exponent = t * ln_tau - eta * x * x - beta * (delta - gamma);
            let value = n * powers.of(d) * libm::exp(exponent);
            let (gd, gdd) = term.density_slopes(delta);
            sum.add_exponential(value, t, 0.0, gd - beta * delta, gdd - beta * delta);
        }
        for &GaussianReciprocalTerm { bell, b } in &self.gaussian_reciprocals {
            let (x, y) = (delta - bell.epsilon, tau - bell.gamma);
            let q = bell.beta * y * y + b;
            let exponent = bell.t * ln_tau + bell.eta * x * x + 1.0 / q;
            let value = bell.n * powers.of(bell.d) * libm::exp(exponent);
            let q1 = tau * 2.0 * bell.beta * y; // τ dq/dτ
            let q2 = tau * 2.0 * bell.beta * (tau + y); // τ d/dτ of it
            let gt = bell.t - q1 / (q * q);
            let gtt = -q2 / (q * q) + 2.0 * q1 * q1 / (q * q * q);
            let opposite = GaussianTerm { eta: -bell.eta, ..bell };
            let (gd, gdd) = opposite.density_slopes(delta);
            sum.add_exponential(value, gt, gtt, gd, gdd);
        }
        for term in &self.critical_region {
            sum.add(1.0, &term.derivatives(tau, delta));
        }
        sum
    }
}

impl GaussianTerm {
    /// δ∂/∂δ, once and twice, of d ln δ − η(δ−ε)².
    fn density_slopes(&self, delta: f64) -> (f64, f64) {
        let x = delta - self.epsilon;
        (self.d as f64 - 2.0 * self.eta * delta * x, -2.0 * self.eta * delta * (delta + x))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Derivatives against central differences of the value, for one term of every form.
    #[test]
    fn derivatives_agree_with_differences() {
        let bell = GaussianTerm { n: 0.7, d: 2, t: 1.3, eta: 0.9, epsilon: 0.8, beta: 1.1, gamma: 1.2 };
        let forms = [
            Residual {
                powers: vec![
                    PowerTerm { n: 1.1, d: 2, t: 0.25, l: 0, g: 1.0 },
                    PowerTerm { n: -0.4, d: 3, t: -1.5, l: 2, g: 0.66 },
                ],
                ..Residual::default()
            },
            Residual {
                two_exponentials: vec![TwoExponentialTerm { n: 0.6, d: 2, t: 2.3, l: 1, m: 1.7 }],
                ..Residual::default()
            },
            Residual { gaussians: vec![bell], ..Residual::default() },
            Residual { density_gaussians: vec![bell], ..Residual::default() },
            Residual {
                gaussian_reciprocals: vec![GaussianReciprocalTerm { bell: GaussianTerm { eta: -2.8, ..bell }, b: 1.2 }],
                ..Residual::default()
            },
            Residual {
                critical_region: vec![CriticalRegionTerm {
                    n: -0.67,
                    a: 3.5,
                    b: 0.875,
                    beta: 0.3,
                    big_a: 0.7,
                    big_b: 0.3,
                    big_c: 10.0,
                    big_d: 275.0,
                }],
                ..Residual::default()
            },
        ];
        let (tau, delta, h) = (1.07, 1.21, 2e-4);
        for form in forms {
            let at = |i: f64, j: f64| form.derivatives(tau * (1.0 + i * h), delta * (1.0 + j * h)).a;
            let exact = form.derivatives(tau, delta);
            // Differences of fourth order along a direction.
            let first = |i: f64, j: f64| {
                let (one, two) = (at(i, j) - at(-i, -j), at(2.0 * i, 2.0 * j) - at(-2.0 * i, -2.0 * j));
                (8.0 * one - two) / (12.0 * h)
            };
            let second = |i: f64, j: f64| {
                let one = at(i, j) - 2.0 * exact.a + at(-i, -j);
                let two = at(2.0 * i, 2.0 * j) - 2.0 * exact.a + at(-2.0 * i, -2.0 * j);
                (16.0 * one - two) / (12.0 * h * h)
            };
            let close = |difference: f64, value: f64| {
                let scale = exact.a.abs() + value.abs();
                assert!((difference - value).abs() < 1e-7 * scale, "{difference} {value} {form:?}");
            };
            close(first(1.0, 0.0), exact.t);
            close(first(0.0, 1.0), exact.d);
            close(second(1.0, 0.0), exact.tt);
            close(second(0.0, 1.0), exact.dd);
            close((second(1.0, 1.0) - second(1.0, -1.0)) / 4.0, exact.td);
        }
    }
}
