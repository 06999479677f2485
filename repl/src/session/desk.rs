//! What a session asks of the world outside: sheets, data files, names of files. Tests put a map in its place.

use dewline_lang::host::{Document, Host};

use crate::problem::Problem;

/// Files as a session needs them.
pub trait Desk {
    /// Opens a sheet: the files it may use, and its text.
    fn open(&self, path: &str) -> Result<(Box<dyn Host>, Document), Problem>;

    /// The files of a sheet that would stand at this path; of the working folder if none is given.
    fn around(&self, path: Option<&str>) -> Result<Box<dyn Host>, Problem>;

    /// A data file as it stands.
    fn data(&self, path: &str) -> Result<String, Problem>;

    /// Writes a file whole or not at all.
    fn write(&self, path: &str, text: &str) -> Result<(), Problem>;

    /// The text of a file, if there is one.
    fn text(&self, path: &str) -> Option<String>;

    /// Files and folders (with `/` at their end) whose path begins so.
    fn list(&self, begun: &str) -> Vec<String>;
}
