//! What a job asks, and the answers: checks, confirmations, stages.

use serde::Serialize;

/// The verdict on a check, on one row where it is judged row by row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum CheckVerdict {
    /// Holds.
    #[serde(rename = "passed")]
    Passed,
    /// Does not hold.
    #[serde(rename = "failed")]
    Failed,
    /// Holds, but is nearer its limit than its uncertainty; passes unless it is guarded.
    #[serde(rename = "close")]
    Close,
    /// Does not hold; accepted with a reason.
    #[serde(rename = "waived")]
    Waived,
    /// This row is not asked about.
    #[serde(rename = "not asked")]
    NotAsked,
    /// Waits for something.
    #[serde(rename = "pending")]
    Pending,
    /// Cannot be computed.
    #[serde(rename = "broken")]
    Broken,
}

impl CheckVerdict {
    /// In words, as in JSON.
    pub fn words(self) -> &'static str {
        match self {
            CheckVerdict::Passed => "passed",
            CheckVerdict::Failed => "failed",
            CheckVerdict::Close => "close",
            CheckVerdict::Waived => "waived",
            CheckVerdict::NotAsked => "not asked",
            CheckVerdict::Pending => "pending",
            CheckVerdict::Broken => "broken",
        }
    }
}

/// One check, or one row of one.
#[derive(Debug, Clone, Serialize)]
pub struct CheckOutcome {
    /// Its label, or its condition as written.
    pub label: String,
    /// The stage it stands in.
    pub stage: String,
    /// `require` or `advise`.
    pub level: &'static str,
    /// What must hold, as written.
    pub condition: String,
    /// The table's full name, for a check of each row.
    pub table: Option<String>,
    /// The row's key.
    pub row: Option<String>,
    /// The verdict.
    pub verdict: CheckVerdict,
    /// What was judged, as shown (`superheat 3.8 F°`), where the condition compares.
    pub value: Option<String>,
    /// The limit, as shown (`5 .. 15 F°`).
    pub limit: Option<String>,
    /// The same limit in numbers.
    pub bounds: Option<Bounds>,
    /// How far inside the limit (negative: outside), as shown.
    pub margin: Option<String>,
    /// The margin in SI.
    pub margin_si: Option<f64>,
    /// Expanded uncertainty of the margin, as shown (`± 1.4 F°`).
    pub uncertainty: Option<String>,
    /// The same in SI.
    pub uncertainty_si: Option<f64>,
    /// Of a check that is close, or fails by less than its uncertainty: the probability that the value keeps its limits.
    pub probability: Option<f64>,
    /// Guarded: it does not pass while it is close.
    pub guarded: bool,
    /// Why it waits, is broken or waived, in words.
    pub reason: Option<String>,
    /// What it waits for.
    pub waiting_for: Vec<String>,
}

/// What a check holds a value against, in the unit that it is shown in.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Bounds {
    /// What is judged, as written.
    pub of: String,
    /// The unit; empty for a number.
    pub unit: String,
    /// The least it may be.
    pub low: Option<f64>,
    /// The most it may be.
    pub high: Option<f64>,
}

/// One confirmation.
#[derive(Debug, Clone, Serialize)]
pub struct ConfirmOutcome {
    /// What is confirmed.
    pub label: String,
    /// The stage it stands in.
    pub stage: String,
    /// `passed` (yes), `failed` (no) or `pending`.
    pub verdict: CheckVerdict,
    /// When.
    pub at: Option<String>,
    /// By whom.
    pub by: Option<String>,
}

/// The verdict on a stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum StageVerdict {
    /// All in it holds, and all before it has passed.
    Passed,
    /// A check in it does not hold.
    Failed,
    /// Something in it is pending.
    Waiting,
    /// A stage it comes after has not passed.
    Blocked,
    /// Nothing in it is asked for, so nothing has passed.
    Empty,
}

impl StageVerdict {
    /// In words, as in JSON.
    pub fn words(self) -> &'static str {
        match self {
            StageVerdict::Passed => "passed",
            StageVerdict::Failed => "failed",
            StageVerdict::Waiting => "waiting",
            StageVerdict::Blocked => "blocked",
            StageVerdict::Empty => "empty",
        }
    }
}

/// One stage.
#[derive(Debug, Clone, Serialize)]
pub struct StageOutcome {
    /// Its full name.
    pub name: String,
    /// The verdict.
    pub verdict: StageVerdict,
    /// What is still to be taken in it.
    pub waiting_for: Vec<String>,
    /// The stages it waits for.
    pub blocked_by: Vec<String>,
    /// Something in it is broken.
    pub broken: bool,
}
