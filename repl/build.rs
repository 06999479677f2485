//! Takes the fingerprints of all that a result rests on: the sources of the language and of the trade, and the published
//! data. A record names them, so that an audit years later can tell what has changed since.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use sha2::{Digest, Sha256};

/// What is fingerprinted: how a record calls it, and the file or folder beside this crate.
const GROUNDS: [(&str, &str); 3] =
    [("language", "../lang/src"), ("trade library", "../stdlib/src"), ("forms", "../stdlib/forms")];
/// Each entry of this folder is a ground of its own.
const DATA: &str = "../stdlib/data";

fn main() -> io::Result<()> {
    let mut grounds: Vec<(String, PathBuf)> =
        GROUNDS.iter().map(|(name, path)| ((*name).to_string(), PathBuf::from(path))).collect();
    for entry in entries(Path::new(DATA))? {
        let name = entry.file_stem().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        if entry.extension().is_none_or(|ending| ending != "md") {
            grounds.push((format!("data: {name}"), entry));
        }
    }
    let mut list = String::from("[\n");
    for (name, path) in grounds {
        if path.exists() {
            println!("cargo::rerun-if-changed={}", path.display());
            let mut digest = Sha256::new();
            add(&mut digest, &path, "")?;
            let hex: String = digest.finalize().iter().map(|byte| format!("{byte:02x}")).collect();
            list.push_str(&format!("    ({name:?}, {hex:?}),\n"));
        }
    }
    list.push_str("]\n");
    println!("cargo::rerun-if-changed={DATA}");
    let out = std::env::var_os("OUT_DIR").ok_or_else(|| io::Error::other("no OUT_DIR"))?;
    fs::write(Path::new(&out).join("grounds.rs"), list)?;
    fs::write(Path::new(&out).join("libm.rs"), format!("{:?}", version("libm")?))
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
    // A checkout may have changed the line ends of texts.
    if let Ok(text) = std::str::from_utf8(&bytes) {
        bytes = text.replace("\r\n", "\n").into_bytes();
    }
    digest.update(format!("{name}\n{}\n", bytes.len()));
    digest.update(bytes);
    Ok(())
}

fn entries(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut paths = fs::read_dir(folder)?.map(|entry| Ok(entry?.path())).collect::<io::Result<Vec<_>>>()?;
    paths.retain(|path| path.file_name().is_some_and(|name| !name.to_string_lossy().starts_with('.')));
    paths.sort();
    Ok(paths)
}

/// The version of a package that the lock file names.
fn version(package: &str) -> io::Result<String> {
    println!("cargo::rerun-if-changed=../Cargo.lock");
    let lock = fs::read_to_string("../Cargo.lock")?;
    let mut lines = lock.lines().skip_while(|line| *line != format!("name = {package:?}")).skip(1);
    let version = lines.next().and_then(|line| line.strip_prefix("version = \"")?.strip_suffix('"'));
    version.map(str::to_string).ok_or_else(|| io::Error::other(format!("{package} is not in the lock file")))
}
