//! What came from outside of the sheet, or stands in the place of something else: values set, files read, inputs of forms
//! given otherwise than by default, names and forms of the job's own.

use serde::Serialize;

/// A file that was read.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct FileOutcome {
    /// Its true name, as it was found.
    pub name: String,
    /// SHA-256 of its bytes in hexadecimal; of a sheet that of its text, which the caller fills in. Empty if it could not
    /// be read, or if fields of it were filled in by hand.
    pub sha256: String,
}

/// A value set from outside.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SetOutcome {
    /// Its full name.
    pub name: String,
    /// What the sheet has in its place, as shown; nothing if it was left open.
    pub sheet: Option<String>,
    /// What was set, as typed.
    pub value: String,
    /// From where: the command line, or a row of which file.
    pub from: String,
    /// A check is judged by it: a limit was changed.
    pub limit: bool,
}

/// An input of a form that is given otherwise than the form's default.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct OtherwiseOutcome {
    /// Its full name.
    pub name: String,
    /// The form, by the name it was read under.
    pub form: String,
    /// The form's default, as shown.
    pub default: String,
    /// What the job gives, as shown.
    pub value: String,
    /// A check is judged by it.
    pub limit: bool,
}

/// Something of the job's own that takes the place of the library's.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReplacedOutcome {
    /// What it is: `function`, `constant`, `gas` or `form`.
    pub what: &'static str,
    /// Its name; of a form the path by which it is filled.
    pub name: String,
    /// The file in which the job's own stands.
    pub by: String,
}
