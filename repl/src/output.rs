//! Files that are written whole or not at all.

use std::fs;
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

use crate::problem::{Problem, said};
use crate::unfinished::Unfinished;

/// A file in the making: it stands beside its place under another name until it is whole.
#[derive(Debug)]
pub struct NewFile {
    writer: BufWriter<fs::File>,
    /// `None` for a device, which cannot be replaced and is written to as it stands.
    beside: Option<Unfinished>,
    place: PathBuf,
}

impl NewFile {
    /// Begins the file of this place. A link is followed, so that the file it leads to is written anew.
    pub fn begin(place: &Path) -> Result<NewFile, Problem> {
        let place = fs::canonicalize(place).unwrap_or_else(|_| place.to_path_buf());
        if place.is_dir() {
            return Err(Problem::new(format!("\"{}\" is a folder", place.display())).with_mend("name a file in it"));
        }
        if place.exists() && !place.is_file() {
            let file = fs::OpenOptions::new().write(true).open(&place).map_err(|error| refused(&place, &error))?;
            return Ok(NewFile { writer: BufWriter::new(file), beside: None, place });
        }
        let name = place.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let beside = place.with_file_name(format!(".{name}.{}.part", std::process::id()));
        let (file, beside) = Unfinished::begin(beside).map_err(|error| refused(&place, &error))?;
        Ok(NewFile { writer: BufWriter::new(file), beside: Some(beside), place })
    }

    /// Puts the finished file in its place, with the permissions of the file it replaces.
    pub fn finish(self) -> Result<(), Problem> {
        let NewFile { writer, beside, place } = self;
        let put = || -> io::Result<()> {
            let file = writer.into_inner().map_err(io::IntoInnerError::into_error)?;
            let Some(beside) = beside else { return Ok(()) };
            file.sync_all()?;
            if let Ok(old) = fs::metadata(&place) {
                file.set_permissions(old.permissions())?;
            }
            drop(file);
            beside.put(&place)?;
            synced(&place)
        };
        put().map_err(|error| refused(&place, &error))
    }
}

impl Write for NewFile {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.writer.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.writer.flush()
    }
}

/// Writes a whole file.
pub fn write_file(place: &Path, bytes: &[u8]) -> Result<(), Problem> {
    let mut file = NewFile::begin(place)?;
    file.write_all(bytes).map_err(|error| refused(place, &error))?;
    file.finish()
}

/// Waits until the disk holds a new name in the folder of this file, so that no loss of power brings the old one back.
pub fn synced(place: &Path) -> io::Result<()> {
    let folder = place.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    // Elsewhere a folder cannot be opened as a file.
    if cfg!(unix) { fs::File::open(folder)?.sync_all() } else { Ok(()) }
}

/// Why a file could not be written.
pub fn refused(place: &Path, error: &io::Error) -> Problem {
    Problem::new(format!("\"{}\" cannot be written: {}", place.display(), said(error)))
}
