//! Density at a temperature and a pressure.

use super::Model;

/// Which of the two roots is wanted where there are several.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Root {
    /// The densest stable one.
    Liquid,
    /// The least dense stable one.
    Vapor,
}

const ITERATIONS_MAX: usize = 100;
/// Relative change of density that ends the iteration.
const TOLERANCE: f64 = 1e-15;

impl Model {
    /// Density (mol/m³) at temperature `t` (K) and pressure `p` (Pa), sought from `guess` within
    /// `low` and `high` (mol/m³), between which pressure must rise with density and pass `p`.
    /// `None` where it does not.
    pub fn density_between(&self, t: f64, p: f64, mut low: f64, mut high: f64, guess: f64) -> Option<f64> {
        // Newton in ln ρ against p, kept inside by bisection.
        let mut rho = if guess > low && guess < high { guess } else { (low * high).sqrt() };
        let mut last = f64::INFINITY;
        for _ in 0..ITERATIONS_MAX {
            let (pressure, slope) = self.pressure(t, rho);
            if pressure > p {
                high = rho;
            } else {
                low = rho;
            }
            let newton = rho * (1.0 + (p - pressure) / (slope * rho));
            let change = ((newton - rho) / rho).abs();
            // Rounding may put the last steps a hair outside of the ends; that is no reason to begin again between them.
            if slope > 0.0 && (change < TOLERANCE || (change < 1e-11 && change >= last)) {
                return Some(newton);
            }
            let inside = slope > 0.0 && newton > low && newton < high;
            (rho, last) = if inside { (newton, change) } else { ((low * high).sqrt(), f64::INFINITY) };
            if (high - low) < 4e-16 * high {
                return Some(rho);
            }
        }
        None
    }
}
