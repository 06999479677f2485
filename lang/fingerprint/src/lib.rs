//! Takes digests of the files that a crate's results rest on, in its build script.
//!
//! A record names these digests, so that an audit years later can tell what has changed since. Each crate digests its own
//! files only: a packaged crate has no others.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use sha2::{Digest, Sha256};

/// Writes `fingerprints.rs` into the folder for built files: a list of names and digests, to be taken in by `include!`.
///
/// Each path is a file or a folder below the crate. Cargo is told to build anew when one of them changes.
///
/// # Errors
/// A path cannot be read, or the list cannot be written.
pub fn write(named_paths: &[(String, PathBuf)]) -> io::Result<()> {
    let mut list = String::from("[\n");
    for (name, path) in named_paths {
        println!("cargo::rerun-if-changed={}", path.display());
        list.push_str(&format!("    ({name:?}, {:?}),\n", of(path)?));
    }
    list.push_str("]\n");
    let folder = std::env::var_os("OUT_DIR").ok_or_else(|| io::Error::other("no OUT_DIR"))?;
    fs::write(Path::new(&folder).join("fingerprints.rs"), list)
}

/// The SHA-256 digest of a file, or of all files of a folder with their names, as hexadecimal digits.
///
/// Line ends of texts do not count, since a checkout may change them.
///
/// # Errors
/// The file or folder cannot be read.
pub fn of(path: &Path) -> io::Result<String> {
    let mut digest = Sha256::new();
    add(&mut digest, path, "")?;
    Ok(digest.finalize().iter().map(|byte| format!("{byte:02x}")).collect())
}

/// What stands in a folder, in the order of the names, without hidden files.
///
/// # Errors
/// The folder cannot be read.
pub fn entries(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut paths = fs::read_dir(folder)?.map(|entry| Ok(entry?.path())).collect::<io::Result<Vec<_>>>()?;
    paths.retain(|path| path.file_name().is_some_and(|name| !name.to_string_lossy().starts_with('.')));
    paths.sort();
    Ok(paths)
}

/// Adds a file, or a folder's files in the order of their names: name, length and bytes of each.
fn add(digest: &mut Sha256, path: &Path, name: &str) -> io::Result<()> {
    if path.is_dir() {
        for entry in entries(path)? {
            let below = entry.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            add(digest, &entry, &format!("{name}/{below}"))?;
        }
        return Ok(());
    }
    let mut bytes = fs::read(path)?;
    if let Ok(text) = std::str::from_utf8(&bytes) {
        bytes = text.replace("\r\n", "\n").into_bytes();
    }
    digest.update(format!("{name}\n{}\n", bytes.len()));
    digest.update(bytes);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_bytes_count_and_line_ends_do_not() -> io::Result<()> {
        let folder = std::env::temp_dir().join(format!("dewline-fingerprint-{}", std::process::id()));
        let digest_of = |name: &str, text: &str| {
            fs::create_dir_all(&folder)?;
            fs::write(folder.join(name), text)?;
            let digest = of(&folder);
            fs::remove_dir_all(&folder)?;
            digest
        };
        let one = digest_of("a", "x\ny\n")?;
        assert_eq!(one, digest_of("a", "x\r\ny\r\n")?);
        assert_ne!(one, digest_of("b", "x\ny\n")?);
        assert_ne!(one, digest_of("a", "x\nz\n")?);
        Ok(())
    }
}
