//! The terms by which Span & Wagner 1996 and Wagner & Pruß 2002 shape the critical region.

use super::residual::Derivatives;

/// n Δ^b δ ψ with Δ = θ² + B((δ−1)²)^a, θ = (1−τ) + A((δ−1)²)^(1/(2β)),
/// ψ = exp(−C(δ−1)² − D(τ−1)²).
#[derive(Clone, Copy, Debug)]
pub struct CriticalRegionTerm {
    /// Coefficient.
    pub n: f64,
    /// Exponent a.
    pub a: f64,
    /// Exponent b.
    pub b: f64,
    /// Exponent β.
    pub beta: f64,
    /// A.
    pub big_a: f64,
    /// B.
    pub big_b: f64,
    /// C.
    pub big_c: f64,
    /// D.
    pub big_d: f64,
}

/// Nearest that δ may come to 1: the second derivatives of this form have no value at 1 itself.
const NEAREST: f64 = 1e-11;

impl CriticalRegionTerm {
    /// The term and its derivatives at τ and δ.
    pub fn derivatives(&self, tau: f64, delta: f64) -> Derivatives {
        let away = delta - 1.0;
        let away = if away.abs() < NEAREST { NEAREST } else { away };
        let x = Jet { d: 1.0, ..Jet::constant(away) };
        let y = Jet { t: 1.0, ..Jet::constant(tau - 1.0) };
        let square = x.times(x);
        let theta = square.power(0.5 / self.beta).scaled(self.big_a).minus(y);
        let distance = theta.times(theta).plus(square.power(self.a).scaled(self.big_b));
        let psi = square.scaled(-self.big_c).minus(y.times(y).scaled(self.big_d)).exponential();
        let density = Jet { d: 1.0, ..Jet::constant(1.0 + away) };
        let term = distance.power(self.b).times(density).times(psi);
        Derivatives {
            a: self.n * term.v,
            t: self.n * tau * term.t,
            tt: self.n * tau * tau * term.tt,
            d: self.n * delta * term.d,
            dd: self.n * delta * delta * term.dd,
            td: self.n * tau * delta * term.td,
        }
    }
}

/// A function of τ and δ with its exact first and second derivatives.
#[derive(Clone, Copy)]
struct Jet {
    v: f64,
    t: f64,
    d: f64,
    tt: f64,
    td: f64,
    dd: f64,
}

impl Jet {
    fn constant(v: f64) -> Self {
        Self { v, t: 0.0, d: 0.0, tt: 0.0, td: 0.0, dd: 0.0 }
    }

    fn scaled(self, k: f64) -> Self {
        Self { v: k * self.v, t: k * self.t, d: k * self.d, tt: k * self.tt, td: k * self.td, dd: k * self.dd }
    }

    fn plus(self, o: Self) -> Self {
        Self {
            v: self.v + o.v,
            t: self.t + o.t,
            d: self.d + o.d,
            tt: self.tt + o.tt,
            td: self.td + o.td,
            dd: self.dd + o.dd,
        }
    }

    fn minus(self, o: Self) -> Self {
        self.plus(o.scaled(-1.0))
    }

    fn times(self, o: Self) -> Self {
        Self {
            v: self.v * o.v,
            t: self.t * o.v + self.v * o.t,
            d: self.d * o.v + self.v * o.d,
            tt: self.tt * o.v + 2.0 * self.t * o.t + self.v * o.tt,
            td: self.td * o.v + self.t * o.d + self.d * o.t + self.v * o.td,
            dd: self.dd * o.v + 2.0 * self.d * o.d + self.v * o.dd,
        }
    }

    /// A function of this one, given its value and two derivatives here.
    fn chained(self, f: f64, f1: f64, f2: f64) -> Self {
        Self {
            v: f,
            t: f1 * self.t,
            d: f1 * self.d,
            tt: f1 * self.tt + f2 * self.t * self.t,
            td: f1 * self.td + f2 * self.t * self.d,
            dd: f1 * self.dd + f2 * self.d * self.d,
        }
    }

    fn power(self, e: f64) -> Self {
        let f = libm::pow(self.v, e);
        self.chained(f, e * f / self.v, e * (e - 1.0) * f / (self.v * self.v))
    }

    fn exponential(self) -> Self {
        let f = libm::exp(self.v);
        self.chained(f, f, f)
    }
}
