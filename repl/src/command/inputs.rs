//! The files that runs read, none of which may be written over.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use crate::host::{FolderHost, Kept};
use crate::problem::Problem;

/// Files that were read, by where they lie.
#[derive(Debug, Default)]
pub struct Inputs(RefCell<BTreeSet<PathBuf>>);

impl Inputs {
    /// A file named on the command line, if there is one.
    pub fn name(&self, path: &str) {
        self.0.borrow_mut().extend(fs::canonicalize(path));
    }

    /// All files that a run has asked for.
    pub fn add(&self, host: &FolderHost, kept: &Kept) {
        self.0.borrow_mut().extend(kept.files.keys().filter_map(|name| host.lies(name)));
    }

    /// Refuses to write where an input lies. `option` is what asks for it.
    pub fn spare(&self, option: &str, place: &Path) -> Result<(), Problem> {
        match fs::canonicalize(place) {
            Ok(real) if self.0.borrow().contains(&real) => {
                let place = place.display();
                Err(Problem::new(format!("{option} would overwrite \"{place}\", which the run reads"))
                    .with_mend("give what is written a name of its own"))
            }
            _ => Ok(()),
        }
    }
}
