//! One difference between two outcomes.

use serde::Serialize;

/// What changed; also the order in which changes are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum What {
    /// The verdict on the job.
    Verdict,
    /// The verdict on a stage.
    Stage,
    /// The verdict on a check or a confirmation.
    Check,
    /// What a check demands.
    Limit,
    /// The air around the job.
    Site,
    /// A given value.
    Input,
    /// A measured value.
    Reading,
    /// How a value is computed.
    Formula,
    /// A computed value.
    Value,
    /// What a check sees of its value, and how far inside the limit it lies.
    Seen,
    /// Anything else: notes, advice, units, words.
    Other,
    /// The text of the sheet.
    #[serde(rename = "sheet text")]
    SheetText,
}

impl What {
    /// The heading that changes of this kind stand under.
    pub fn heading(self) -> &'static str {
        match self {
            What::Verdict => "verdict",
            What::Stage => "stages",
            What::Check => "checks",
            What::Limit => "limits",
            What::Site => "site",
            What::Input => "inputs",
            What::Reading => "readings",
            What::Formula => "formulas",
            What::Value => "computed",
            What::Seen => "seen by checks",
            What::Other => "else",
            What::SheetText => "sheet",
        }
    }
}

/// One difference.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Change {
    /// What changed.
    pub what: What,
    /// The cell, column, check, stage or whatever it is.
    pub name: String,
    /// The row of its table.
    pub row: Option<String>,
    /// As recorded, in the unit shown; `None`: it was not there.
    pub old: Option<String>,
    /// As it comes now; `None`: it is no longer there.
    pub new: Option<String>,
    /// It changes with the library alone, whatever the sheets on disk say.
    pub by_library: bool,
}

impl Change {
    pub(super) fn new(what: What, name: &str, old: Option<String>, new: Option<String>) -> Change {
        Change { what, name: name.to_string(), row: None, old, new, by_library: false }
    }

    pub(super) fn at(mut self, row: Option<&str>) -> Change {
        self.row = row.map(str::to_string);
        self
    }

    /// What it is of: equal for changes of one thing.
    pub(super) fn key(&self) -> (What, &str, Option<&str>) {
        (self.what, &self.name, self.row.as_deref())
    }

    /// Whether both tell the same of two rows.
    pub(super) fn tells_like(&self, other: &Change) -> bool {
        let told = |change: &Change| (change.what, change.by_library);
        told(self) == told(other) && self.name == other.name && self.old == other.old && self.new == other.new
    }
}
