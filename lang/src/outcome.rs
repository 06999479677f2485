//! What came out of a run: everything that a report or a record needs, in the shape of the JSON outcome.
//!
//! Numbers called `si` are SI with points absolute; a value not known is `None` and never NaN.

use serde::Serialize;

use crate::diagnostic::Diagnostic;
use crate::library::Drawing;

mod asked;
mod outside;
mod trials;
mod values;

pub use self::asked::*;
pub use self::outside::*;
pub use self::trials::*;
pub use self::values::*;

/// The outcome of one run of one sheet.
#[derive(Debug, Clone, Serialize)]
pub struct Outcome {
    /// `dewline-outcome/1`
    pub format: &'static str,
    /// Which sheet.
    pub sheet: SheetHead,
    /// The verdict on the job.
    pub verdict: JobVerdict,
    /// Every file that was read: sheets, the outermost first, then data files.
    pub files: Vec<FileOutcome>,
    /// What was set from outside, in the order of setting.
    pub set: Vec<SetOutcome>,
    /// Inputs of forms that the job gives otherwise than by their default.
    pub otherwise: Vec<OtherwiseOutcome>,
    /// What of the job's own takes the place of the library's.
    pub replaced: Vec<ReplacedOutcome>,
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
    /// Advice: failed `advise` checks, stages out of order, lapsed calibrations.
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
    /// Exit code 0: nothing was asked, so nothing has passed.
    #[serde(rename = "computed")]
    Computed,
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
            JobVerdict::Computed | JobVerdict::PassedWithWaivers | JobVerdict::Passed => 0,
        }
    }

    /// In words, as in JSON.
    pub fn words(self) -> &'static str {
        match self {
            JobVerdict::Unusable => "unusable",
            JobVerdict::Failed => "failed",
            JobVerdict::Incomplete => "incomplete",
            JobVerdict::Computed => "computed",
            JobVerdict::PassedWithWaivers => "passed with waivers",
            JobVerdict::Passed => "passed",
        }
    }
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
