//! The folder for what is kept between starts: the lines typed, and work not saved. Nobody else may read it.

use std::fs;
use std::path::PathBuf;

/// The folder, made if it is not there yet; `None` if there is no place for it.
pub fn folder() -> Option<PathBuf> {
    let folder = dirs::state_dir().or_else(dirs::data_local_dir)?.join("dewline");
    let mut builder = fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::DirBuilderExt;
        builder.mode(0o700);
    }
    builder.create(&folder).ok()?;
    Some(folder)
}

/// Options for a file that only its owner may read.
pub fn private() -> fs::OpenOptions {
    let mut options = fs::OpenOptions::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        options.mode(0o600);
    }
    options
}
