//! What came out of a run: everything that a report or a record needs, in the shape of the JSON outcome.
//!
//! Numbers called `si` are SI with points absolute; a value not known is `None` and never NaN.

use serde::Serialize;

use crate::diagnostic::Diagnostic;
use crate::library::Drawing;

/// The outcome of one run of one sheet.
#[derive(Debug, Clone, Serialize)]
pub struct Outcome {
    /// `dewline-outcome/1`
    pub format: &'static str,
    /// Which sheet.
    pub sheet: SheetHead,
    /// The verdict on the job.
    pub verdict: JobVerdict,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
    /// Single values in the order of the sheet; those of a filled sheet are called `name.cell`, fields `name.field`.
    pub cells: Vec<CellOutcome>,
    /// Tables in the order of the sheet.
    pub tables: Vec<TableOutcome>,
    /// Checks in the order of the sheet; a check of each row gives one entry a row.
    pub checks: Vec<CheckOutcome>,
    /// Confirmations in the order of the sheet.
    pub confirmations: Vec<ConfirmOutcome>,
    /// Stages in the order of the sheet.
    pub stages: Vec<StageOutcome>,
    /// What is still to be taken, in the order of the sheet.
    pub to_take: Vec<String>,
    /// Notes, filled in.
    pub notes: Vec<NoteOutcome>,
    /// Charts asked for, as columns.
    pub charts: Vec<ChartOutcome>,
    /// Instruments.
    pub instruments: Vec<InstrumentOutcome>,
    /// Advice: failed `advise` checks, stages out of order, lapsed calibrations, sheet names that hide library names.
    pub advice: Vec<String>,
    /// Cautions of the functions used.
    pub cautions: Vec<String>,
    /// What trials say, if any were asked for.
    pub trials: Option<TrialsOutcome>,
    /// The functions used, with what they rest on.
    pub functions: Vec<FunctionOutcome>,
    /// The refrigerants named.
    pub refrigerants: Vec<String>,
    /// What broke while running.
    pub errors: Vec<ErrorOutcome>,
    /// The same errors as messages with places, for drawing.
    #[serde(skip)]
    pub diagnostics: Vec<Diagnostic>,
}

/// Which sheet it was.
#[derive(Debug, Clone, Serialize)]
pub struct SheetHead {
    /// Its title; its path if it has none.
    pub title: String,
    /// Its path as given.
    pub path: String,
    /// SHA-256 of its text in hexadecimal; the caller fills it in.
    pub sha256: String,
}

/// The verdict on a job, worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum JobVerdict {
    /// Exit code 2.
    #[serde(rename = "unusable")]
    Unusable,
    /// Exit code 1.
    #[serde(rename = "failed")]
    Failed,
    /// Exit code 3.
    #[serde(rename = "incomplete")]
    Incomplete,
    /// Exit code 0, with reasons to be read.
    #[serde(rename = "passed with waivers")]
    PassedWithWaivers,
    /// Exit code 0.
    #[serde(rename = "passed")]
    Passed,
}

impl JobVerdict {
    /// The exit code of the command line.
    pub fn exit_code(self) -> u8 {
        match self {
            JobVerdict::Unusable => 2,
            JobVerdict::Failed => 1,
            JobVerdict::Incomplete => 3,
            JobVerdict::PassedWithWaivers | JobVerdict::Passed => 0,
        }
    }

    /// In words, as in JSON.
    pub fn words(self) -> &'static str {
        match self {
            JobVerdict::Unusable => "unusable",
            JobVerdict::Failed => "failed",
            JobVerdict::Incomplete => "incomplete",
            JobVerdict::PassedWithWaivers => "passed with waivers",
            JobVerdict::Passed => "passed",
        }
    }
}

/// Where a value comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Role {
    /// From a drawing, a nameplate, a decision.
    Input,
    /// Measured.
    Reading,
    /// Computed.
    Cell,
}

/// What sort of value it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Sort {
    /// A temperature or pressure point.
    Point,
    /// A difference of temperatures or pressures.
    Difference,
    /// A temperature or pressure from true zero.
    Open,
    /// A pure number.
    Number,
    /// Any other quantity.
    Quantity,
    /// A text.
    Text,
    /// True or false.
    Flag,
    /// A date or time.
    Time,
    /// A refrigerant.
    Refrigerant,
    /// A gas.
    Gas,
}

/// A value as shown.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Shown {
    /// In `unit`; `None` for what is not a number, or is shown in pieces.
    pub number: Option<f64>,
    /// The unit; empty for a number or text.
    pub unit: String,
    /// Number and unit, or the text, as printed.
    pub text: String,
}

/// Uncertainty of a value.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct UncertaintyOutcome {
    /// Standard uncertainty in SI.
    pub standard: f64,
    /// Expanded uncertainty in SI.
    pub expanded: f64,
    /// Coverage factor, for a probability of 95.45 %: 2, or more where `freedom` is small.
    pub k: f64,
    /// Effective degrees of freedom; `None` if the standard uncertainty is as good as exact.
    pub freedom: Option<f64>,
    /// The expanded uncertainty as shown: that of a `psig` is in `psi`.
    pub shown: Shown,
    /// Value and expanded uncertainty as printed, `9.2 ± 1.4 F°`; empty if it is zero.
    pub text: String,
}

/// One value.
#[derive(Debug, Clone, Serialize)]
pub struct CellOutcome {
    /// Its full name.
    pub name: String,
    /// The stage it stands in, with the filled sheet's name before it; empty outside any.
    pub stage: String,
    /// Where it comes from.
    pub role: Role,
    /// What sort of value.
    pub kind: Sort,
    /// Its dimension in base units, such as `kg/(m·s2)`; empty for what is no quantity.
    pub dimension: String,
    /// Its value in SI; `None` if pending, broken or no number.
    pub si: Option<f64>,
    /// As shown; `None` if pending or broken.
    pub shown: Option<Shown>,
    /// UCUM code of the shown unit.
    pub ucum: String,
    /// Its uncertainty as carried; `None`: not stated or not carried.
    pub uncertainty: Option<UncertaintyOutcome>,
    /// Not known yet.
    pub pending: bool,
    /// It may stay away: by itself nothing waits for it.
    pub optional: bool,
    /// It cannot be computed; `errors` says why.
    pub broken: bool,
    /// What was stated with it: its ± as written, instrument, time, note.
    pub stated: Stated,
    /// The formula as written; empty for what is given.
    pub formula: String,
}

/// What was stated beside a value.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Stated {
    /// `± …` as written.
    pub uncertainty: Option<String>,
    /// The instrument.
    pub by: Option<String>,
    /// The time, as written in ISO 8601.
    pub at: Option<String>,
    /// The note.
    pub note: Option<String>,
}

/// One table.
#[derive(Debug, Clone, Serialize)]
pub struct TableOutcome {
    /// Its full name.
    pub name: String,
    /// The stage it stands in.
    pub stage: String,
    /// The file its rows come from.
    pub from: Option<String>,
    /// When it was read.
    pub at: Option<String>,
    /// Its rows are not given yet.
    pub pending: bool,
    /// Its columns, given ones first.
    pub columns: Vec<ColumnOutcome>,
}

/// One column.
#[derive(Debug, Clone, Serialize)]
pub struct ColumnOutcome {
    /// Its name; a record's field is `name.field`.
    pub name: String,
    /// What sort of values.
    pub kind: Sort,
    /// Their dimension.
    pub dimension: String,
    /// The shown unit.
    pub unit: String,
    /// Its UCUM code.
    pub ucum: String,
    /// Given, measured or computed.
    pub role: Role,
    /// Values in SI; `None` where pending, broken or no number.
    pub si: Vec<Option<f64>>,
    /// Values as printed, without unit; empty where pending or broken.
    pub text: Vec<String>,
    /// Rows that are broken.
    pub broken: Vec<usize>,
    /// Standard uncertainties in SI; empty if all values are exact.
    pub standard: Vec<Option<f64>>,
    /// Expanded uncertainties in SI; empty if all values are exact.
    pub expanded: Vec<Option<f64>>,
    /// The same as printed, in `expanded_unit`; an empty text where a value is exact or not known.
    pub expanded_text: Vec<String>,
    /// The unit of expanded uncertainties as printed: that of a `psig` is `psi`.
    pub expanded_unit: String,
    /// Values with them as printed, without unit, `9.2 ± 1.4`; an empty text likewise.
    pub together: Vec<String>,
    /// The least and the greatest expanded uncertainty as printed, `± 1.2 .. 1.4 F°`.
    pub spread: Option<String>,
    /// `± …` as written in the unit line.
    pub uncertainty: Option<String>,
    /// The instrument.
    pub by: Option<String>,
    /// The formula as written; empty for a given column.
    pub formula: String,
}

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

/// A function that the sheet uses.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FunctionOutcome {
    /// Its name.
    pub name: String,
    /// What it gives.
    pub gives: String,
    /// Its equation or rule.
    pub equation: String,
    /// Where that comes from.
    pub source: String,
    /// Where it holds.
    pub validity: String,
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
}

impl StageVerdict {
    /// In words, as in JSON.
    pub fn words(self) -> &'static str {
        match self {
            StageVerdict::Passed => "passed",
            StageVerdict::Failed => "failed",
            StageVerdict::Waiting => "waiting",
            StageVerdict::Blocked => "blocked",
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

/// One note.
#[derive(Debug, Clone, Serialize)]
pub struct NoteOutcome {
    /// The stage it stands in.
    pub stage: String,
    /// Filled in; `None` while pending or broken.
    pub text: Option<String>,
}

/// One chart, as columns.
#[derive(Debug, Clone, Serialize)]
pub struct ChartOutcome {
    /// Its title.
    pub title: String,
    /// The stage it stands in.
    pub stage: String,
    /// `line` or `bars`.
    pub style: &'static str,
    /// The table that its columns come from.
    pub table: String,
    /// Across, then up.
    pub columns: Vec<ColumnOutcome>,
}

/// One instrument.
#[derive(Debug, Clone, Serialize)]
pub struct InstrumentOutcome {
    /// Its name.
    pub name: String,
    /// What it is.
    pub description: String,
    /// Accuracy as written.
    pub accuracy: Option<String>,
    /// Repeatability as written.
    pub repeats: Option<String>,
    /// Serial number.
    pub serial: Option<String>,
    /// Calibrated on.
    pub calibrated: Option<String>,
    /// Calibration holds until.
    pub due: Option<String>,
}

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

/// One error while running.
#[derive(Debug, Clone, Serialize)]
pub struct ErrorOutcome {
    /// Its code.
    pub code: &'static str,
    /// The message.
    pub message: String,
    /// The cell, column or check it belongs to.
    pub cell: String,
    /// The row's key or number.
    pub row: Option<String>,
    /// `sheet.dew:12:7`
    pub place: String,
}

/// Charts that a report can offer by itself. They follow from the rest of the outcome and are no part of it.
#[derive(Debug, Clone, Default)]
pub struct Offers {
    /// What functions draw of their calls.
    pub drawings: Vec<OfferedDrawing>,
    /// Columns worth a chart of their rows: table and column.
    pub columns: Vec<(String, String)>,
}

/// What a function draws of one call, in the units of its axes.
#[derive(Debug, Clone)]
pub struct OfferedDrawing {
    /// The cell that calls it.
    pub cell: String,
    /// The stage that cell stands in.
    pub stage: String,
    /// The drawing.
    pub drawing: Drawing,
}
