//! The only door to files. The command line gives a folder it may not leave, tests give a map.

/// Reads what a sheet names.
pub trait Host {
    /// The text of a sheet, by the path written in the sheet that names it, from that sheet's own path.
    fn sheet(&self, from: &str, path: &str) -> Result<Document, HostProblem>;

    /// The table in a CSV file, header and fields as text.
    fn table(&self, from: &str, path: &str) -> Result<RawTable, HostProblem>;
}

/// A text with the name it is known by from now on (a path relative to the host's folder).
#[derive(Debug, Clone)]
pub struct Document {
    /// Canonical name; two names of one file are the same.
    pub name: String,
    /// The whole text.
    pub text: String,
}

/// A file that could not be used, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HostProblem {
    /// One line, such as `there is no file "holds.csv" in this folder`.
    pub message: String,
    /// How to mend it.
    pub mend: Option<String>,
}

/// A table as read: nothing is interpreted yet.
#[derive(Debug, Clone, Default)]
pub struct RawTable {
    /// Canonical name of the file.
    pub name: String,
    /// Column names as written.
    pub headers: Vec<String>,
    /// Line of the header in the file, from 1.
    pub header_line: u64,
    /// Rows in order.
    pub rows: Vec<RawRow>,
}

/// One row of a [`RawTable`].
#[derive(Debug, Clone, Default)]
pub struct RawRow {
    /// Line in the file, from 1.
    pub line: u64,
    /// Fields in order; there may be more or fewer than headers.
    pub fields: Vec<String>,
}
