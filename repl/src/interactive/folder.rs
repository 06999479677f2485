//! The files of a session, on disk.

use std::fs;
use std::path::Path;

use dewline_lang::host::{Document, Host};

use crate::host::{FolderHost, read_data_file, read_text};
use crate::output::write_file;
use crate::problem::Problem;
use crate::session::Desk;

/// Names offered for one beginning.
const MOST: usize = 500;

/// Paths as the user writes them, from the working folder.
pub struct Folder;

impl Desk for Folder {
    fn open(&self, path: &str) -> Result<(Box<dyn Host>, Document), Problem> {
        let (host, document) = FolderHost::open(path, &mut std::io::empty())?;
        Ok((Box::new(host), document))
    }

    fn around(&self, path: Option<&str>) -> Result<Box<dyn Host>, Problem> {
        Ok(Box::new(FolderHost::around(path)?))
    }

    fn data(&self, path: &str) -> Result<String, Problem> {
        Ok(read_text(path, read_data_file(path)?, false)?)
    }

    fn write(&self, path: &str, text: &str) -> Result<(), Problem> {
        write_file(Path::new(path), text.as_bytes())
    }

    fn text(&self, path: &str) -> Option<String> {
        fs::read(path).ok().map(|bytes| String::from_utf8_lossy(&bytes).into_owned())
    }

    fn list(&self, begun: &str) -> Vec<String> {
        let folder = begun.rfind('/').map_or("", |at| &begun[..=at]);
        let Ok(entries) = fs::read_dir(if folder.is_empty() { "." } else { folder }) else { return Vec::new() };
        let hidden = begun[folder.len()..].starts_with('.');
        let mut names: Vec<String> = entries
            .flatten()
            .filter_map(|entry| {
                let name = entry.file_name().into_string().ok().filter(|name| hidden || !name.starts_with('.'))?;
                let mark = if entry.path().is_dir() { "/" } else { "" };
                Some(format!("{folder}{name}{mark}"))
            })
            .filter(|name| name.starts_with(begun))
            .take(MOST)
            .collect();
        names.sort();
        names
    }
}
