//! The layout of the coefficient files under `data/`, and how they become equations.
//!
//! A file holds what one publication gives. Terms stand one to a row; `columns` names what the
//! numbers of a row are, and the reader refuses a file whose columns are not those of its form.

use serde::Deserialize;

use super::critical_region::CriticalRegionTerm;
use super::equation::{CriticalPoint, Equation, Limits, Publication};
use super::ideal::IdealGas;
use super::residual::{
    DENSITY_EXPONENT_MAX, GaussianReciprocalTerm, GaussianTerm, PowerTerm, Residual, TwoExponentialTerm,
};

/// What is wrong with a coefficient file. A test reads every file that is built in, so that none
/// of these can reach a user.
#[derive(Debug)]
pub struct DataError(pub String);

/// Reads an equation of state.
pub fn equation(text: &str) -> Result<Equation, DataError> {
    let file: EquationFile = parse(text)?;
    let mut ideal = IdealGas::default();
    for block in &file.ideal_gas {
        block.add_to_ideal(&mut ideal, file.reducing.temperature)?;
    }
    Ok(Equation {
        fluid: file.fluid,
        chemical_name: file.chemical_name,
        publication: file.publication.into(),
        gas_constant: file.gas_constant,
        molar_mass: file.molar_mass,
        reducing_temperature: file.reducing.temperature,
        reducing_density: file.reducing.density,
        critical: CriticalPoint {
            temperature: file.critical.temperature,
            pressure: file.critical.pressure,
            density: file.critical.density,
        },
        acentric: file.acentric,
        limits: Limits {
            lowest_temperature: file.limits.lowest_temperature,
            highest_temperature: file.limits.highest_temperature,
            highest_pressure: file.limits.highest_pressure,
        },
        ideal,
        residual: residual(&file.residual)?,
    })
}

/// The binary parameters and departure functions of one publication.
#[derive(Debug)]
pub struct PairBook {
    /// Where they were published.
    pub publication: Publication,
    /// The pairs.
    pub pairs: Vec<PairEntry>,
}

/// What a publication says of one pair of fluids, in the order it names them.
#[derive(Debug)]
pub struct PairEntry {
    /// Designations of the two fluids.
    pub components: [String; 2],
    /// How the reducing functions bend between them.
    pub bend: Bend,
    /// Departure function and its factor.
    pub departure: Option<(f64, Residual)>,
}

/// Binary parameters of the reducing functions, in either published convention.
#[derive(Clone, Copy, Debug)]
pub enum Bend {
    /// β and γ of Kunz & Wagner for temperature and volume; β belongs to the order of the pair.
    BetaGamma {
        /// β and γ of the reducing temperature.
        temperature: (f64, f64),
        /// β and γ of the reducing volume.
        volume: (f64, f64),
    },
    /// ξ in K and ζ in m³/mol of Lemmon & Jacobsen, added to 2 x₁x₂ times the means.
    Shift {
        /// ξ, K
        temperature: f64,
        /// ζ, m³/mol
        volume: f64,
    },
}

/// Reads a book of binary parameters.
pub fn pair_book(text: &str) -> Result<PairBook, DataError> {
    let file: PairFile = parse(text)?;
    let mut pairs = Vec::with_capacity(file.pairs.len());
    for entry in file.pairs {
        let bend = match (entry.temperature, entry.volume, entry.shift) {
            (Some(t), Some(v), None) => Bend::BetaGamma { temperature: (t.beta, t.gamma), volume: (v.beta, v.gamma) },
            (None, None, Some(shift)) => Bend::Shift { temperature: shift.temperature, volume: shift.volume },
            _ => return Err(DataError(format!("mixed conventions: {:?}", entry.components))),
        };
        let departure = match entry.departure {
            None => None,
            Some(wanted) => {
                let named = file.functions.iter().find(|f| f.name == wanted.function);
                let function = named.ok_or_else(|| DataError(format!("no function {}", wanted.function)))?;
                Some((wanted.factor, residual(&function.residual)?))
            }
        };
        pairs.push(PairEntry { components: entry.components, bend, departure });
    }
    Ok(PairBook { publication: file.publication.into(), pairs })
}

fn parse<'a, T: Deserialize<'a>>(text: &'a str) -> Result<T, DataError> {
    serde_json::from_str(text).map_err(|e| DataError(e.to_string()))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct EquationFile {
    fluid: String,
    chemical_name: String,
    publication: PublicationEntry,
    gas_constant: f64,
    molar_mass: f64,
    reducing: PointEntry,
    critical: CriticalEntry,
    limits: LimitsEntry,
    acentric: f64,
    ideal_gas: Vec<Block>,
    residual: Vec<Block>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PairFile {
    publication: PublicationEntry,
    pairs: Vec<PairFileEntry>,
    functions: Vec<FunctionEntry>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PairFileEntry {
    components: [String; 2],
    temperature: Option<BetaGammaEntry>,
    volume: Option<BetaGammaEntry>,
    shift: Option<ShiftEntry>,
    departure: Option<DepartureEntry>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct BetaGammaEntry {
    beta: f64,
    gamma: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ShiftEntry {
    temperature: f64,
    volume: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct DepartureEntry {
    function: String,
    factor: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FunctionEntry {
    name: String,
    residual: Vec<Block>,
}

/// A publication as the files give it.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PublicationEntry {
    authors: String,
    year: u16,
    title: String,
    published: String,
    doi: Option<String>,
}

impl From<PublicationEntry> for Publication {
    fn from(entry: PublicationEntry) -> Self {
        Self {
            authors: entry.authors,
            year: entry.year,
            title: entry.title,
            published: entry.published,
            doi: entry.doi,
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PointEntry {
    temperature: f64,
    density: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CriticalEntry {
    temperature: f64,
    pressure: f64,
    density: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LimitsEntry {
    lowest_temperature: f64,
    highest_temperature: f64,
    highest_pressure: f64,
}

/// Terms of one form.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Block {
    form: String,
    columns: String,
    rows: Vec<Vec<f64>>,
}

impl Block {
    /// The rows as arrays, if the columns are the expected ones.
    fn rows<const N: usize>(&self, columns: &str) -> Result<Vec<[f64; N]>, DataError> {
        if self.columns != columns {
            return Err(DataError(format!("{}: columns {}", self.form, self.columns)));
        }
        let fixed = self.rows.iter().map(|row| row.as_slice().try_into().ok());
        let fixed: Option<Vec<[f64; N]>> = fixed.collect();
        fixed.ok_or_else(|| DataError(format!("{}: a row has the wrong length", self.form)))
    }

    fn add_to_ideal(&self, ideal: &mut IdealGas, reducing: f64) -> Result<(), DataError> {
        match self.form.as_str() {
            "log_tau" => self.rows("n")?.iter().for_each(|&[n]| ideal.log_tau += n),
            "power" => ideal.powers.extend(self.rows("n t")?.iter().map(|&[n, t]| (n, t))),
            "vibration" => {
                let rows = self.rows("n theta")?;
                ideal.vibrations.extend(rows.iter().map(|&[n, theta]| (n, theta)));
            }
            "vibration_kelvin" => {
                let rows = self.rows("n kelvin")?;
                ideal.vibrations.extend(rows.iter().map(|&[n, kelvin]| (n, kelvin / reducing)));
            }
            "vibration_inverse" => {
                let rows = self.rows("n theta c")?;
                ideal.inverse_vibrations.extend(rows.iter().map(|&[n, theta, c]| (n, theta, c)));
            }
            "heat_capacity" => {
                for &[c, t] in &self.rows("c t")? {
                    ideal.add_heat_capacity(c, t, reducing);
                }
            }
            other => return Err(DataError(format!("no ideal-gas form {other}"))),
        }
        Ok(())
    }
}

fn residual(blocks: &[Block]) -> Result<Residual, DataError> {
    let mut sum = Residual::default();
    for block in blocks {
        match block.form.as_str() {
            "power" => {
                for &[n, d, t, l] in &block.rows("n d t l")? {
                    let (d, l) = (exponent(d)?, exponent(l)?);
                    sum.powers.push(PowerTerm { n, d, t, l, g: 1.0 });
                }
            }
            "exponential" => {
                for &[n, d, t, l, g] in &block.rows("n d t l g")? {
                    let (d, l) = (exponent(d)?, exponent(l)?);
                    sum.powers.push(PowerTerm { n, d, t, l, g });
                }
            }
            "two_exponentials" => {
                for &[n, d, t, l, m] in &block.rows("n d t l m")? {
                    let (d, l) = (exponent(d)?, exponent(l)?);
                    sum.two_exponentials.push(TwoExponentialTerm { n, d, t, l, m });
                }
            }
            "gaussian" => {
                let rows = block.rows("n d t eta epsilon beta gamma")?;
                for row in &rows {
                    sum.gaussians.push(bell(row)?);
                }
            }
            "density_gaussian" => {
                let rows = block.rows("n d t eta epsilon beta gamma")?;
                for row in &rows {
                    sum.density_gaussians.push(bell(row)?);
                }
            }
            "gaussian_reciprocal" => {
                let rows = block.rows("n d t eta epsilon beta gamma b")?;
                for &[n, d, t, eta, epsilon, beta, gamma, b] in &rows {
                    let bell = bell(&[n, d, t, eta, epsilon, beta, gamma])?;
                    sum.gaussian_reciprocals.push(GaussianReciprocalTerm { bell, b });
                }
            }
            "critical_region" => {
                let rows = block.rows("n a b beta A B C D")?;
                for &[n, a, b, beta, big_a, big_b, big_c, big_d] in &rows {
                    let term = CriticalRegionTerm { n, a, b, beta, big_a, big_b, big_c, big_d };
                    sum.critical_region.push(term);
                }
            }
            other => return Err(DataError(format!("no residual form {other}"))),
        }
    }
    Ok(sum)
}

fn bell(&[n, d, t, eta, epsilon, beta, gamma]: &[f64; 7]) -> Result<GaussianTerm, DataError> {
    Ok(GaussianTerm { n, d: exponent(d)?, t, eta, epsilon, beta, gamma })
}

fn exponent(value: f64) -> Result<usize, DataError> {
    let whole = value as usize;
    if whole as f64 == value && whole <= DENSITY_EXPONENT_MAX {
        Ok(whole)
    } else {
        Err(DataError(format!("exponent of density {value}")))
    }
}
