//! Where doubt comes from: every independent cause of it in a run, by number.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::coverage;
use super::doubt::{Part, standard};
use crate::plan::{Spread, Typing};

/// Stands for doubt that could not be carried through a function.
pub const LOST: u32 = u32::MAX;

/// The cause that stands for the unknown of a `solve`, while its equation is differentiated.
pub const fn unknown(local: usize) -> u32 {
    LOST - 1 - local as u32
}

/// How often values of a cause lie where.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// Anywhere between two limits alike.
    Rectangular,
    /// Normal.
    Normal,
    /// Student's t with these degrees of freedom.
    Student(f64),
}

/// What a cause is.
#[derive(Debug, Clone, PartialEq)]
pub enum Cause {
    /// The ± stated with a value.
    Stated,
    /// The accuracy of an instrument, common to its readings.
    Accuracy,
    /// How well an instrument repeats, each reading by itself.
    Repeats,
    /// The scatter of repeated readings.
    Scatter(usize),
}

/// A cause of doubt, or one a row of a column.
#[derive(Debug, Clone)]
pub struct Origin {
    /// The number of the first.
    pub first: u32,
    /// How many.
    pub count: u32,
    /// What it is.
    pub cause: Cause,
    /// The value or column whose reading it is; the instrument's name for its accuracy.
    pub name: Arc<str>,
    /// Keys of rows, where it is a column's.
    pub keys: Arc<[String]>,
    /// The instrument.
    pub instrument: Option<Arc<str>>,
    /// How it is distributed.
    pub shape: Shape,
    /// Degrees of freedom of its standard uncertainty, unless that is as good as exact.
    pub freedom: Option<f64>,
    /// Standard uncertainty in SI, where all it touches have the same.
    pub standard: Option<f64>,
    /// How such a distance is shown.
    pub typing: Typing,
}

impl Origin {
    /// Its name in a budget: `end_pressure`, `rest["F-01"].hand`, `test_gauge`.
    pub fn name_of(&self, number: u32) -> String {
        if self.keys.is_empty() {
            return self.name.to_string();
        }
        let row = (number - self.first) as usize;
        let key = self.keys.get(row).cloned().unwrap_or_else(|| (row + 1).to_string());
        match self.name.rsplit_once('.') {
            Some((table, column)) => format!("{table}[\"{key}\"].{column}"),
            None => format!("{}[\"{key}\"]", self.name),
        }
    }

    /// What it is, in words.
    pub fn words(&self) -> String {
        match (&self.cause, &self.instrument) {
            (Cause::Stated, _) => "its own ±".to_string(),
            (Cause::Accuracy, _) => "accuracy, common to its readings".to_string(),
            (Cause::Repeats, Some(by)) => format!("repeats of {by}"),
            (Cause::Repeats, None) => "repeats".to_string(),
            (Cause::Scatter(count), _) => format!("scatter of {count} readings"),
        }
    }
}

/// A new cause as it is made known.
pub struct Fresh<'a> {
    /// What it is.
    pub cause: Cause,
    /// Whose.
    pub name: String,
    /// The instrument.
    pub instrument: Option<&'a str>,
    /// How it is distributed.
    pub shape: Shape,
    /// Degrees of freedom.
    pub freedom: Option<f64>,
    /// How many.
    pub count: usize,
    /// How a distance of what it touches is shown.
    pub typing: &'a Typing,
}

/// How well a value is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Uncertain {
    /// Standard uncertainty.
    pub standard: f64,
    /// Expanded uncertainty.
    pub expanded: f64,
    /// Coverage factor.
    pub k: f64,
    /// Effective degrees of freedom, unless the standard uncertainty is as good as exact.
    pub freedom: Option<f64>,
}

/// All causes of a run.
#[derive(Debug, Default)]
pub struct Origins {
    all: Vec<Origin>,
    known: BTreeMap<(String, u8), usize>,
    next: u32,
    /// Instruments of which it is assumed how well they repeat.
    pub assumed: BTreeSet<String>,
}

impl Origins {
    /// A cause by its number.
    pub fn get(&self, number: u32) -> Option<&Origin> {
        let at = self.all.partition_point(|one| one.first <= number).checked_sub(1)?;
        self.all.get(at).filter(|one| number - one.first < one.count)
    }

    /// All of them in the order of their numbers.
    pub fn all(&self) -> &[Origin] {
        &self.all
    }

    /// How many numbers are given out.
    pub fn count(&self) -> usize {
        self.next as usize
    }

    /// The number of a cause; the same cause keeps its number. Standard uncertainties that differ are not told.
    pub fn number(&mut self, fresh: Fresh<'_>, standard: Option<f64>, keys: impl FnOnce() -> Vec<String>) -> u32 {
        let sort = match fresh.cause {
            Cause::Stated => 0,
            Cause::Accuracy => 1,
            Cause::Repeats => 2,
            Cause::Scatter(_) => 3,
        };
        let key = (fresh.name, sort);
        if let Some(&at) = self.known.get(&key) {
            let known = &mut self.all[at];
            let same = matches!((known.standard, standard), (Some(a), Some(b)) if (a - b).abs() <= 1e-12 * a.abs());
            if !same {
                known.standard = None;
            }
            return known.first;
        }
        let first = self.next;
        self.next = self.next.saturating_add(u32::try_from(fresh.count).unwrap_or(u32::MAX / 2));
        self.all.push(Origin {
            first,
            count: self.next - first,
            cause: fresh.cause,
            name: Arc::from(key.0.split('\u{1f}').next().unwrap_or_default()),
            keys: Arc::from(keys()),
            instrument: fresh.instrument.map(Arc::from),
            shape: fresh.shape,
            freedom: fresh.freedom,
            standard,
            typing: fresh.typing.clone(),
        });
        self.known.insert(key, self.all.len() - 1);
        first
    }

    /// Uncertainty of a value with these contributions; none if it has no doubt at all.
    pub fn uncertainty(&self, parts: &[Part]) -> Option<Uncertain> {
        if parts.is_empty() {
            return None;
        }
        let standard = standard(parts);
        let freedom = self.freedom(standard, parts);
        let k = coverage::factor(coverage::PROBABILITY, freedom);
        let expanded = k * standard;
        expanded.is_finite().then_some(Uncertain { standard, expanded, k, freedom })
    }

    /// Effective degrees of freedom.
    pub fn freedom(&self, standard: f64, parts: &[Part]) -> Option<f64> {
        let finite = |part: &Part| Some((part.1, self.get(part.0)?.freedom?));
        coverage::effective(standard, parts.iter().filter_map(finite))
    }
}

/// The half-width of what is stated, as a standard uncertainty, with its shape and degrees of freedom.
pub fn standard_of(spread: &Spread, half_width: f64) -> (f64, Shape, Option<f64>) {
    use crate::syntax::tree::UncertaintyStyle;
    let shape = spread.freedom.map_or(Shape::Normal, Shape::Student);
    match spread.style {
        UncertaintyStyle::Limits => {
            let shape = if spread.freedom.is_some() { shape } else { Shape::Rectangular };
            (half_width / 3.0_f64.sqrt(), shape, spread.freedom)
        }
        UncertaintyStyle::Coverage(k) => (half_width / k, shape, spread.freedom),
        UncertaintyStyle::Standard => (half_width, shape, spread.freedom),
    }
}
