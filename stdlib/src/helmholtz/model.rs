//! The multi-fluid mixture model: one function of temperature and component densities.

use std::sync::Arc;

use super::data_file::Bend;
use super::equation::Equation;
use super::ideal::IdealDerivatives;
use super::reducing::{Matrix, ReducingFunction};
use super::residual::{Derivatives, Residual};
use super::{COMPONENTS_MAX, GAS_CONSTANT, PerComponent};

/// A fluid of one or several components at its nominal composition.
#[derive(Clone, Debug)]
pub struct Model {
    components: Vec<Arc<Equation>>,
    /// Nominal mole fractions.
    pub fractions: PerComponent,
    /// J/(mol K)
    pub gas_constant: f64,
    /// kg/mol at the nominal composition
    pub molar_mass: f64,
    temperature: ReducingFunction,
    volume: ReducingFunction,
    departures: Arc<Vec<Departure>>,
    /// T_r and ρ_r at the nominal composition.
    nominal: (f64, f64),
}

/// What is known of one pair of components.
#[derive(Clone, Debug)]
pub struct Pair {
    /// Indices of the components, in the order that β belongs to.
    pub components: (usize, usize),
    /// Parameters of the reducing functions.
    pub bend: Bend,
    /// Departure function with its factor F.
    pub departure: Option<(f64, Residual)>,
}

#[derive(Clone, Debug)]
struct Departure {
    i: usize,
    j: usize,
    factor: f64,
    residual: Residual,
}

/// Ψ = ρ α^r as a function of θ = ln T and the component densities ρ_i, to second order.
#[derive(Clone, Copy, Debug)]
pub struct Potential {
    /// Ψ, mol/m³
    pub value: f64,
    /// ∂Ψ/∂θ
    pub by_theta: f64,
    /// ∂Ψ/∂ρ_i
    pub gradient: PerComponent,
    /// ∂²Ψ/∂ρ_i ∂θ
    pub gradient_by_theta: PerComponent,
    /// ∂²Ψ/∂ρ_i ∂ρ_j
    pub hessian: Matrix,
}

impl Model {
    /// A pure fluid, with its equation's own gas constant.
    pub fn pure(equation: Arc<Equation>) -> Self {
        let gas_constant = equation.gas_constant;
        Self::assemble(vec![equation], &[1.0], &[], gas_constant)
    }

    /// A mixture of the given mole fractions, with the CODATA gas constant. Every pair of
    /// components must be among `pairs`, and there may be at most [`COMPONENTS_MAX`] components.
    pub fn mixture(components: Vec<Arc<Equation>>, fractions: &[f64], pairs: &[Pair]) -> Self {
        Self::assemble(components, fractions, pairs, GAS_CONSTANT)
    }

    fn assemble(components: Vec<Arc<Equation>>, given: &[f64], pairs: &[Pair], gas_constant: f64) -> Self {
        let mut fractions = [0.0; COMPONENTS_MAX];
        for (fraction, &given) in fractions.iter_mut().zip(given) {
            *fraction = given;
        }
        let temperatures: Vec<f64> = components.iter().map(|c| c.reducing_temperature).collect();
        let volumes: Vec<f64> = components.iter().map(|c| 1.0 / c.reducing_density).collect();
        let mut temperature = ReducingFunction::new(&temperatures);
        let mut volume = ReducingFunction::new(&volumes);
        let mut departures = Vec::new();
        for pair in pairs {
            let (first, second) = pair.components;
            let (t, v) =
                pair.bend.beta_gamma((temperatures[first], temperatures[second]), (volumes[first], volumes[second]));
            let (i, j) = (first.min(second), first.max(second));
            // β belongs to the order of the components: the other way round it is its reciprocal.
            let ordered = |beta: f64| if first < second { beta } else { 1.0 / beta };
            let mean_t = (temperatures[i] * temperatures[j]).sqrt();
            temperature.set_pair(i, j, ordered(t.0), t.1, mean_t);
            volume.set_pair(i, j, ordered(v.0), v.1, mean_volume(volumes[i], volumes[j]));
            if let Some((factor, residual)) = &pair.departure {
                departures.push(Departure { i, j, factor: *factor, residual: residual.clone() });
            }
        }
        let molar_mass = components.iter().zip(given).map(|(c, x)| c.molar_mass * x).sum();
        let nominal = (temperature.value(&fractions), 1.0 / volume.value(&fractions));
        Self {
            components,
            fractions,
            gas_constant,
            molar_mass,
            temperature,
            volume,
            departures: Arc::new(departures),
            nominal,
        }
    }

    /// The same fluid at another composition.
    pub fn at_composition(&self, fractions: &PerComponent) -> Self {
        let mut other = self.clone();
        other.fractions = *fractions;
        other.nominal = (self.temperature.value(fractions), 1.0 / self.volume.value(fractions));
        other.molar_mass = self.components.iter().zip(fractions).map(|(c, x)| c.molar_mass * x).sum();
        other
    }

    /// Number of components.
    pub fn count(&self) -> usize {
        self.components.len()
    }

    /// The components' equations.
    pub fn components(&self) -> &[Arc<Equation>] {
        &self.components
    }

    /// The components' mole fractions, in the same order.
    pub fn fractions(&self) -> &[f64] {
        &self.fractions[..self.components.len().min(COMPONENTS_MAX)]
    }

    /// Reducing temperature (K) at the nominal composition.
    pub fn reducing_temperature(&self) -> f64 {
        self.nominal.0
    }

    /// Reducing density (mol/m³) at the nominal composition.
    pub fn reducing_density(&self) -> f64 {
        self.nominal.1
    }

    /// α^r at the nominal composition, temperature `t` (K) and density `rho` (mol/m³).
    pub fn residual(&self, t: f64, rho: f64) -> Derivatives {
        let (tau, delta) = (self.nominal.0 / t, rho / self.nominal.1);
        let x = &self.fractions;
        let mut sum = Derivatives::default();
        for (i, component) in self.components.iter().enumerate() {
            sum.add(x[i], &component.residual.derivatives(tau, delta));
        }
        for departure in self.departures.iter() {
            let weight = x[departure.i] * x[departure.j] * departure.factor;
            sum.add(weight, &departure.residual.derivatives(tau, delta));
        }
        sum
    }

    /// α° at the nominal composition, without integration constants. A component's heat capacity
    /// was published with its own gas constant, and keeps it.
    pub fn ideal(&self, t: f64, rho: f64) -> IdealDerivatives {
        let mut sum = IdealDerivatives::default();
        for (component, &x) in self.components.iter().zip(&self.fractions) {
            let part = component.ideal.derivatives(component.reducing_temperature / t);
            let weight = x * component.gas_constant / self.gas_constant;
            sum.a += weight * part.a + x * libm::log(rho * x / component.reducing_density);
            sum.t += weight * part.t;
            sum.tt += weight * part.tt;
        }
        sum
    }

    /// Ψ at θ = ln T and the component densities ρ_i, mol/m³.
    pub fn potential(&self, theta: f64, rho: &PerComponent) -> Potential {
        let n = self.count();
        let total: f64 = rho.iter().take(n).sum();
        let tr = self.temperature.jet(rho);
        let vr = self.volume.jet(rho);
        let tau = libm::exp(tr.ln - theta);
        let delta = total * libm::exp(vr.ln);

        // Ψ = Σ c_k(ρ) α_k(L, M) with L = ln τ, M = ln δ; c is ρ_i for a component and
        // F ρ_i ρ_j/ρ for a departure. Sums of c and of its derivatives times those of α:
        let mut s = LogDerivatives::default();
        let mut g = [LogDerivatives::default(); COMPONENTS_MAX];
        let mut hessian = [[0.0; COMPONENTS_MAX]; COMPONENTS_MAX];
        for (i, component) in self.components.iter().enumerate() {
            let a = LogDerivatives::from(component.residual.derivatives(tau, delta));
            s.add(rho[i], &a);
            g[i].add(1.0, &a);
        }
        for Departure { i, j, factor, residual } in self.departures.iter() {
            let (i, j) = (*i, *j);
            let a = LogDerivatives::from(residual.derivatives(tau, delta));
            let (x, y) = (rho[i] / total, rho[j] / total);
            let c = factor * x * y;
            s.add(c * total, &a);
            for (k, gk) in g.iter_mut().enumerate().take(n) {
                let own = if k == i { factor * y } else { 0.0 };
                let other = if k == j { factor * x } else { 0.0 };
                gk.add(own + other - c, &a);
                for m in 0..n {
                    let ik = f64::from(k == i);
                    let jk = f64::from(k == j);
                    let im = f64::from(m == i);
                    let jm = f64::from(m == j);
                    let second = ik * jm + jk * im - (ik + im) * y - (jk + jm) * x + 2.0 * x * y;
                    hessian[k][m] += factor * second / total * a.v;
                }
            }
        }

        let mut potential = Potential {
            value: s.v,
            by_theta: -s.l,
            gradient: [0.0; COMPONENTS_MAX],
            gradient_by_theta: [0.0; COMPONENTS_MAX],
            hessian,
        };
        let inverse = 1.0 / total;
        for i in 0..n {
            let (li, mi) = (tr.gradient[i], inverse + vr.gradient[i]);
            potential.gradient[i] = g[i].v + s.l * li + s.m * mi;
            potential.gradient_by_theta[i] = -(g[i].l + s.ll * li + s.lm * mi);
            for j in 0..n {
                let (lj, mj) = (tr.gradient[j], inverse + vr.gradient[j]);
                potential.hessian[i][j] += g[i].l * lj
                    + g[i].m * mj
                    + g[j].l * li
                    + g[j].m * mi
                    + s.ll * li * lj
                    + s.lm * (li * mj + lj * mi)
                    + s.mm * mi * mj
                    + s.l * tr.hessian[i][j]
                    + s.m * (vr.hessian[i][j] - inverse * inverse);
            }
        }
        potential
    }
}

/// α and its derivatives by L = ln τ and M = ln δ.
#[derive(Clone, Copy, Default)]
struct LogDerivatives {
    v: f64,
    l: f64,
    m: f64,
    ll: f64,
    lm: f64,
    mm: f64,
}

impl From<Derivatives> for LogDerivatives {
    fn from(a: Derivatives) -> Self {
        Self { v: a.a, l: a.t, m: a.d, ll: a.tt + a.t, lm: a.td, mm: a.dd + a.d }
    }
}

impl LogDerivatives {
    fn add(&mut self, weight: f64, other: &Self) {
        self.v += weight * other.v;
        self.l += weight * other.l;
        self.m += weight * other.m;
        self.ll += weight * other.ll;
        self.lm += weight * other.lm;
        self.mm += weight * other.mm;
    }
}

impl Bend {
    /// (β, γ) of temperature and of volume, for the pure values of the pair in its order.
    fn beta_gamma(&self, t: (f64, f64), v: (f64, f64)) -> ((f64, f64), (f64, f64)) {
        match *self {
            Self::BetaGamma { temperature, volume } => (temperature, volume),
            Self::Shift { temperature, volume } => {
                let gamma_t = (t.0 + t.1 + temperature) / (2.0 * (t.0 * t.1).sqrt());
                let gamma_v = (v.0 + v.1 + volume) / (2.0 * mean_volume(v.0, v.1));
                ((1.0, gamma_t), (1.0, gamma_v))
            }
        }
    }
}

/// ((v₁^⅓ + v₂^⅓)/2)³
fn mean_volume(first: f64, second: f64) -> f64 {
    let mean = 0.5 * (libm::cbrt(first) + libm::cbrt(second));
    mean * mean * mean
}
