//! Values, single and in tables.

use serde::Serialize;

use super::FileOutcome;

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
    /// A size of a temperature or pressure counted from true zero.
    #[serde(rename = "from zero")]
    FromZero,
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
    /// From where it was set, if it was set from outside.
    pub set: Option<String>,
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
    pub from: Option<FileOutcome>,
    /// When it was read.
    pub at: Option<String>,
    /// Its rows are not given yet.
    pub pending: bool,
    /// Rows that stood there twice and were taken out, counted as they were read.
    #[serde(skip)]
    pub counted_once: Vec<usize>,
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
