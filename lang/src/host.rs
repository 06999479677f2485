//! The only door to files. The command line gives a folder it may not leave, tests give a map.

use std::collections::BTreeSet;

/// Reads what a sheet names.
pub trait Host {
    /// The text of a sheet, by the path written in the sheet that names it, from that sheet's own path.
    fn sheet(&self, from: &str, path: &str) -> Result<Document, HostProblem>;

    /// The table in a CSV file, or in a sheet of a workbook (`log.xlsx#Log`), header and fields as text.
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
    /// SHA-256 of its bytes in hexadecimal; empty if the host does not say.
    pub sha256: String,
    /// Column names as written.
    pub headers: Vec<String>,
    /// Line of the header in the file, from 1.
    pub header_line: u64,
    /// Rows in order.
    pub rows: Vec<RawRow>,
    /// Of a workbook: its sheet.
    pub sheet: Option<String>,
    /// Of a workbook: the columns of the sheet that the headers stand in, from 0.
    pub columns: Vec<u32>,
    /// Of a workbook: fields that are errors there, by row and header from 0.
    pub faults: BTreeSet<(usize, usize)>,
}

impl RawTable {
    /// Where a field stands, in words: `line 7`, or `sheet "Log", cell C7`.
    pub fn place(&self, row: usize, header: usize) -> String {
        let line = self.rows.get(row).map_or(0, |row| row.line);
        match (&self.sheet, self.columns.get(header)) {
            (Some(sheet), Some(column)) => format!("sheet \"{sheet}\", cell {}{line}", letters(*column)),
            _ => format!("line {line}"),
        }
    }
}

/// A column of a sheet by its letters: A, B … Z, AA …
fn letters(column: u32) -> String {
    let mut letters = Vec::new();
    let mut left = column + 1;
    while left > 0 {
        letters.push(char::from(b'A' + ((left - 1) % 26) as u8));
        left = (left - 1) / 26;
    }
    letters.iter().rev().collect()
}

/// A host without any file, for what names none.
#[derive(Debug, Clone, Copy)]
pub struct NoFiles;

impl Host for NoFiles {
    fn sheet(&self, _: &str, path: &str) -> Result<Document, HostProblem> {
        Err(none(path))
    }

    fn table(&self, _: &str, path: &str) -> Result<RawTable, HostProblem> {
        Err(none(path))
    }
}

fn none(path: &str) -> HostProblem {
    HostProblem { message: format!("\"{path}\" cannot be read here"), mend: None }
}

/// One row of a [`RawTable`].
#[derive(Debug, Clone, Default)]
pub struct RawRow {
    /// Line in the file, from 1.
    pub line: u64,
    /// Fields in order; there may be more or fewer than headers.
    pub fields: Vec<String>,
}

/// The column of a file that a table's column is read from: by the text of its header where the sheet gives one, else by
/// its name, case, blanks, `_` and a unit in brackets apart. `None` if there is none, or more than one.
pub fn column_of(table: &RawTable, name: &str, header: Option<&str>) -> Option<usize> {
    match columns_of(table, name, header).as_slice() {
        [only] => Some(*only),
        _ => None,
    }
}

/// All columns that [`column_of`] chooses from.
pub fn columns_of(table: &RawTable, name: &str, header: Option<&str>) -> Vec<usize> {
    let fits = |one: &&String| match header {
        Some(header) => one.trim() == header.trim(),
        None => folded(one) == folded(name) || folded(without_unit(one).0) == folded(name),
    };
    table.headers.iter().enumerate().filter(|(_, one)| fits(one)).map(|(index, _)| index).collect()
}

/// Case, spaces and `_` apart.
fn folded(name: &str) -> String {
    name.chars().filter(|c| !c.is_whitespace() && *c != '_').flat_map(char::to_lowercase).collect()
}

/// A header and what stands in its square brackets.
pub fn without_unit(header: &str) -> (&str, Option<&str>) {
    match (header.find('['), header.trim_end().strip_suffix(']')) {
        (Some(open), Some(inside)) if open < inside.len() => (header[..open].trim(), Some(&inside[open + 1..])),
        _ => (header, None),
    }
}

#[cfg(test)]
mod tests {
    use super::letters;

    #[test]
    fn columns_of_a_sheet_go_on_behind_z() {
        assert_eq!([0, 25, 26, 701, 702, 16_383].map(letters), ["A", "Z", "AA", "ZZ", "AAA", "XFD"]);
    }
}
