//! A blend's model from its composition and the published binary parameters.

use std::sync::Arc;

use super::data_file::{Bend, DataError};
use super::equation::Publication;
use super::model::Pair;
use super::sources;
use super::{COMPONENTS_MAX, Equation, Model};

/// A model with what it rests on.
#[derive(Clone, Debug)]
pub struct Blend {
    /// The model.
    pub model: Model,
    /// Publications of the binary parameters used.
    pub publications: Vec<&'static Publication>,
    /// Pairs without published parameters, for which the Lorentz–Berthelot combining rules stand
    /// in (β = γ = 1, no departure function).
    pub estimated: Vec<[String; 2]>,
}

/// Why a blend has no model.
#[derive(Debug)]
pub enum BlendError {
    /// No equation is built in for this component.
    NoEquation(String),
    /// More components than the model carries.
    TooMany(usize),
    /// A coefficient file could not be read.
    Data(DataError),
}

impl From<DataError> for BlendError {
    fn from(error: DataError) -> Self {
        Self::Data(error)
    }
}

impl Blend {
    /// The publications in words, and what is estimated, with ` | ` between them.
    pub fn source(&self) -> String {
        let mut lines: Vec<String> = self.model.components().iter().map(|c| c.publication.cited()).collect();
        lines.extend(self.publications.iter().map(|publication| publication.cited()));
        lines.dedup();
        if !self.estimated.is_empty() {
            let pairs: Vec<String> = self.estimated.iter().map(|pair| pair.join("/")).collect();
            lines.push(format!(
                "estimated, no published parameters: {} (Lorentz–Berthelot combining rules)",
                pairs.join(", ")
            ));
        }
        lines.join(" | ")
    }
}

/// Builds the model of a blend from (designation, mass share) of its components; the shares need
/// not add up to 1.
pub fn blend(composition: &[(String, f64)]) -> Result<Blend, BlendError> {
    if composition.len() > COMPONENTS_MAX {
        return Err(BlendError::TooMany(composition.len()));
    }
    let mut components: Vec<Arc<Equation>> = Vec::new();
    for (name, _) in composition {
        let equation = sources::equation(name);
        components.push(equation.ok_or_else(|| BlendError::NoEquation(name.clone()))??);
    }
    let moles: Vec<f64> = composition.iter().zip(&components).map(|((_, w), c)| w / c.molar_mass).collect();
    let total: f64 = moles.iter().sum();
    let fractions: Vec<f64> = moles.iter().map(|m| m / total).collect();

    let books = sources::pair_books()?;
    let mut pairs = Vec::new();
    let mut publications: Vec<&'static Publication> = Vec::new();
    let mut estimated = Vec::new();
    for i in 0..components.len() {
        for j in i + 1..components.len() {
            let names = [&components[i].fluid, &components[j].fluid];
            let found = books.iter().find_map(|book| {
                let entry = book.pairs.iter().find(|entry| {
                    let [a, b] = &entry.components;
                    (a == names[0] && b == names[1]) || (a == names[1] && b == names[0])
                });
                entry.map(|entry| (book, entry))
            });
            pairs.push(match found {
                Some((book, entry)) => {
                    if !publications.contains(&&book.publication) {
                        publications.push(&book.publication);
                    }
                    let in_order = &entry.components[0] == names[0];
                    Pair {
                        components: if in_order { (i, j) } else { (j, i) },
                        bend: entry.bend,
                        departure: entry.departure.clone(),
                    }
                }
                None => {
                    estimated.push(names.map(String::clone));
                    let bend = Bend::BetaGamma { temperature: (1.0, 1.0), volume: (1.0, 1.0) };
                    Pair { components: (i, j), bend, departure: None }
                }
            });
        }
    }
    let model = match (components.pop(), components.is_empty()) {
        (Some(only), true) => Model::pure(only),
        (Some(last), false) => {
            components.push(last);
            Model::mixture(components, &fractions, &pairs)
        }
        (None, _) => return Err(BlendError::TooMany(0)),
    };
    Ok(Blend { model, publications, estimated })
}
