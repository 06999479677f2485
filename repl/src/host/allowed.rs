//! Folders outside that of the sheet, which the user has allowed on the command line.

use std::fs;
use std::path::{Path, PathBuf};

use crate::problem::{Problem, said};

/// What names of files in allowed folders begin with; then come the folder's own name and the way in it.
const MARK: &str = "allowed:";

/// Folders that sheets may use files of, beside their own.
#[derive(Debug, Clone, Default)]
pub struct Allowed(Vec<Folder>);

#[derive(Debug, Clone)]
struct Folder {
    /// Without links.
    root: PathBuf,
    /// `allowed:shared/`
    name: String,
}

impl Allowed {
    /// The folders of these paths.
    pub fn read(paths: &[String]) -> Result<Allowed, Problem> {
        let mut all: Vec<Folder> = Vec::new();
        for path in paths {
            let root = fs::canonicalize(path)
                .map_err(|error| Problem::new(format!("the folder \"{path}\" cannot be allowed: {}", said(&error))))?;
            if !root.is_dir() {
                return Err(Problem::new(format!("\"{path}\" cannot be allowed: it is no folder")));
            }
            let own = root.file_name().map_or("root".into(), |own| own.to_string_lossy().into_owned());
            let names =
                (1..).map(|copy| if copy == 1 { format!("{MARK}{own}/") } else { format!("{MARK}{own}-{copy}/") });
            let free = names.into_iter().find(|name| all.iter().all(|one| one.name != *name));
            if let (Some(name), false) = (free, all.iter().any(|one| one.root == root)) {
                all.push(Folder { root, name });
            }
        }
        Ok(Allowed(all))
    }

    /// The name that a file is known by, if an allowed folder holds it.
    pub fn name(&self, file: &Path) -> Option<String> {
        self.0.iter().find_map(|folder| Some(format!("{}{}", folder.name, below(&folder.root, file)?)))
    }

    /// The folder that a file of such a name stands in.
    pub fn folder(&self, name: &str) -> Option<PathBuf> {
        self.0.iter().find_map(|folder| {
            let inside = name.strip_prefix(&folder.name)?;
            Some(folder.root.join(inside.rfind('/').map_or("", |at| &inside[..at])))
        })
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// The way from a folder down to a file in it, with `/` between its parts.
pub(super) fn below(folder: &Path, file: &Path) -> Option<String> {
    let inside = file.strip_prefix(folder).ok()?;
    let parts: Vec<_> = inside.components().map(|part| part.as_os_str().to_string_lossy()).collect();
    Some(parts.join("/"))
}
