//! One published equation of state of one fluid.

use super::ideal::IdealGas;
use super::residual::Residual;

/// A pure fluid (or a pseudo-pure one), as one publication describes it.
#[derive(Clone, Debug)]
pub struct Equation {
    /// Designation, for instance `R-32`.
    pub fluid: String,
    /// Chemical name.
    pub chemical_name: String,
    /// Where the equation was published.
    pub publication: Publication,
    /// The gas constant that it was fitted with, J/(mol K).
    pub gas_constant: f64,
    /// Molar mass, kg/mol.
    pub molar_mass: f64,
    /// Reducing temperature, K. Not always the critical temperature.
    pub reducing_temperature: f64,
    /// Reducing density, mol/m³.
    pub reducing_density: f64,
    /// The published critical point.
    pub critical: CriticalPoint,
    /// Acentric factor; only for first guesses.
    pub acentric: f64,
    /// Where the equation is valid.
    pub limits: Limits,
    /// Ideal-gas part.
    pub ideal: IdealGas,
    /// Residual part.
    pub residual: Residual,
}

/// A publication.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Publication {
    /// Authors, separated by semicolons.
    pub authors: String,
    /// Year.
    pub year: u16,
    /// Title.
    pub title: String,
    /// Journal, volume and pages; or institution.
    pub published: String,
    /// Digital object identifier, where there is one.
    pub doi: Option<String>,
}

impl Publication {
    /// Authors, year, place and DOI in one line.
    pub fn cited(&self) -> String {
        let doi = self.doi.as_deref().map_or(String::new(), |doi| format!(", doi:{doi}"));
        format!("{} ({}), {}{doi}", self.authors, self.year, self.published)
    }
}

/// A critical point in K, Pa and mol/m³.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CriticalPoint {
    /// K
    pub temperature: f64,
    /// Pa
    pub pressure: f64,
    /// mol/m³
    pub density: f64,
}

/// Range of an equation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Lowest temperature, K: the triple point or the end of the data.
    pub lowest_temperature: f64,
    /// Highest temperature, K.
    pub highest_temperature: f64,
    /// Highest pressure, Pa.
    pub highest_pressure: f64,
}
