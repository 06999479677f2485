//! What trials say.

use serde::Serialize;

use super::CheckVerdict;

/// What trials say of the doubtful values of a job.
#[derive(Debug, Clone, Serialize)]
pub struct TrialsOutcome {
    /// How many trials.
    pub count: usize,
    /// What the draws began with: the same seed gives the same trials.
    pub seed: u64,
    /// Value by value.
    pub values: Vec<TrialValue>,
    /// Check by check, those that hang on doubtful readings.
    pub checks: Vec<TrialCheck>,
    /// Further values that were not watched, to keep memory within bounds.
    pub left_out: usize,
}

/// What trials say of one value. Numbers are SI, points absolute.
#[derive(Debug, Clone, Serialize)]
pub struct TrialValue {
    /// Its full name; `table["key"].column` in a table.
    pub name: String,
    /// Mean of the trials.
    pub mean: f64,
    /// Their standard deviation: the standard uncertainty.
    pub standard: f64,
    /// The interval that holds 95 % of them, as many below as above.
    pub symmetric: [f64; 2],
    /// The shortest interval that holds 95 % of them.
    pub shortest: [f64; 2],
    /// Trials in which the value could not be computed; they count nowhere else.
    pub broken: usize,
    /// The value from the readings as they are.
    pub estimate: f64,
    /// Its standard uncertainty to first order.
    pub first_standard: f64,
    /// The 95 % interval to first order.
    pub first: [f64; 2],
    /// How far the ends of the intervals may differ: half a unit of the second figure of the
    /// standard uncertainty, and the noise of the trials.
    pub tolerance: f64,
    /// The ends of the first-order interval lie within the tolerance of those by trials (JCGM 101, 8).
    pub agrees: bool,
    /// They do not agree, but the first-order interval holds that of the trials: it errs on the safe side.
    pub wider: bool,
    /// The mean as shown, without unit.
    pub shown_mean: String,
    /// The standard uncertainty as shown, with its unit.
    pub shown_standard: String,
    /// The symmetric interval as shown, without unit.
    pub shown_interval: String,
    /// The first-order interval as shown, without unit.
    pub shown_first: String,
}

/// How often a check, or one row of one, holds in the trials.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TrialCheck {
    /// Its label.
    pub label: String,
    /// The stage it stands in.
    pub stage: String,
    /// `require` or `advise`.
    pub level: &'static str,
    /// The table's full name, for a check of each row.
    pub table: Option<String>,
    /// The row's key.
    pub row: Option<String>,
    /// The verdict with the readings as they are, before any waiver.
    pub verdict: CheckVerdict,
    /// Trials in which it holds.
    pub passed: usize,
    /// Trials in which it does not.
    pub failed: usize,
    /// Trials that do not ask about this row.
    pub not_asked: usize,
    /// Trials in which it cannot be judged.
    pub broken: usize,
    /// The share in which it holds, of those that judge it.
    pub share: f64,
}
