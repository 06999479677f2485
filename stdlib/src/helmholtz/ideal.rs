//! The ideal-gas part α° of a Helmholtz equation.

/// The part of α° that depends on temperature, without integration constants: those belong to a
/// reference state, which is set for each refrigerant and not by its equation.
#[derive(Clone, Debug, Default)]
pub struct IdealGas {
    /// Coefficient of ln τ.
    pub log_tau: f64,
    /// n τ^t, as pairs (n, t).
    pub powers: Vec<(f64, f64)>,
    /// n ln(1 − exp(−θτ)), as pairs (n, θ).
    pub vibrations: Vec<(f64, f64)>,
    /// n ln(c + exp(θτ)), as triples (n, θ, c).
    pub inverse_vibrations: Vec<(f64, f64, f64)>,
}

/// Value and derivatives of the temperature part: α°, τ∂α°/∂τ, τ²∂²α°/∂τ².
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct IdealDerivatives {
    /// α° without ln δ
    pub a: f64,
    /// τ ∂α°/∂τ
    pub t: f64,
    /// τ² ∂²α°/∂τ²
    pub tt: f64,
}

impl IdealGas {
    /// Adds a term c·T^t of c_p°/R, T in kelvin, for an equation reduced by `reducing_temperature`.
    /// Integrated twice it is a power of τ, or a logarithm where t = 0.
    pub fn add_heat_capacity(&mut self, c: f64, t: f64, reducing_temperature: f64) {
        if t == 0.0 {
            self.log_tau += c;
        } else {
            let n = -c * libm::pow(reducing_temperature, t) / (t * (t + 1.0));
            self.powers.push((n, -t));
        }
    }

    /// The temperature part at τ.
    pub fn derivatives(&self, tau: f64) -> IdealDerivatives {
        let ln_tau = libm::log(tau);
        let mut sum = IdealDerivatives { a: self.log_tau * ln_tau, t: self.log_tau, tt: -self.log_tau };
        for &(n, t) in &self.powers {
            let value = n * libm::exp(t * ln_tau);
            sum.a += value;
            sum.t += value * t;
            sum.tt += value * t * (t - 1.0);
        }
        for &(n, theta) in &self.vibrations {
            let x = theta * tau;
            let e = libm::exp(-x);
            let share = e / (1.0 - e);
            sum.a += n * libm::log1p(-e);
            sum.t += n * x * share;
            sum.tt -= n * x * x * share / (1.0 - e);
        }
        for &(n, theta, c) in &self.inverse_vibrations {
            // Written with exp(−θτ), which cannot overflow.
            let x = theta * tau;
            let e = c * libm::exp(-x);
            sum.a += n * (x + libm::log1p(e));
            sum.t += n * x / (1.0 + e);
            sum.tt += n * x * x * e / ((1.0 + e) * (1.0 + e));
        }
        sum
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// −τ²α°_ττ is c_v°/R; a power of T must come back from its double integral.
    #[test]
    fn heat_capacity_comes_back() {
        let mut ideal = IdealGas { log_tau: -1.0, ..IdealGas::default() };
        ideal.add_heat_capacity(4.0, 0.0, 350.0);
        ideal.add_heat_capacity(0.0125, 1.0, 350.0);
        ideal.add_heat_capacity(0.6, 0.33, 350.0);
        let t = 280.0;
        let expected = 4.0 + 0.0125 * t + 0.6 * libm::pow(t, 0.33);
        let cp = 1.0 - ideal.derivatives(350.0 / t).tt;
        assert!((cp - expected).abs() < 1e-12 * expected, "{cp} {expected}");
    }

    #[test]
    fn derivatives_agree_with_differences() {
        let ideal = IdealGas {
            log_tau: 2.5,
            powers: vec![(0.3, -1.5), (-0.2, 2.0)],
            vibrations: vec![(1.2, 3.4)],
            inverse_vibrations: vec![(-0.2, 7.0, 2.0 / 3.0)],
        };
        let (tau, h) = (1.3, 1e-4);
        let (below, at, above) =
            (ideal.derivatives(tau * (1.0 - h)), ideal.derivatives(tau), ideal.derivatives(tau * (1.0 + h)));
        assert!(((above.a - below.a) / (2.0 * h) - at.t).abs() < 1e-6);
        assert!(((above.a - 2.0 * at.a + below.a) / (h * h) - at.tt).abs() < 1e-5);
    }
}
