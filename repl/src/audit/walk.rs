//! Which files are to be audited.

use std::fs;
use std::path::{Path, PathBuf};

use crate::problem::{Problem, said};

/// Folders inside one another.
const DEPTH: usize = 32;

/// All records named, and in the folders named: files that end in `.json`, in the order of their names. Hidden ones are
/// left alone, as a record in the making is hidden until it is whole.
pub fn records(named: &[String]) -> Result<Vec<PathBuf>, Problem> {
    let mut found = Vec::new();
    for name in named {
        let path = PathBuf::from(name);
        if !path.is_dir() {
            found.push(path);
            continue;
        }
        let before = found.len();
        walk(&path, DEPTH, &mut found)?;
        if found.len() == before {
            return Err(Problem::new(format!("the folder \"{name}\" holds no record"))
                .with_mend("records end in .json; dewline run SHEET --record FILE writes one"));
        }
    }
    Ok(found)
}

fn walk(folder: &Path, depth: usize, found: &mut Vec<PathBuf>) -> Result<(), Problem> {
    let entries = fs::read_dir(folder).and_then(Iterator::collect::<Result<Vec<_>, _>>).map_err(|error| {
        Problem::new(format!("the folder \"{}\" cannot be read: {}", folder.display(), said(&error)))
    })?;
    let mut paths: Vec<PathBuf> = entries.into_iter().map(|entry| entry.path()).collect();
    paths.sort();
    for path in paths {
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        if name.starts_with('.') {
            continue;
        }
        // A link to a folder may lead in a circle.
        let is_folder = path.symlink_metadata().is_ok_and(|about| about.is_dir());
        if is_folder && depth > 0 {
            walk(&path, depth - 1, found)?;
        } else if !is_folder && name.to_lowercase().ends_with(".json") {
            found.push(path);
        }
    }
    Ok(())
}
