//! Takes the fingerprints of the trade library's own sources, forms and published data.

use std::io;
use std::path::{Path, PathBuf};

fn main() -> io::Result<()> {
    let mut paths =
        vec![("trade library".to_string(), PathBuf::from("src")), ("forms".to_string(), PathBuf::from("forms"))];
    println!("cargo::rerun-if-changed=data");
    for entry in dewline_fingerprint::entries(Path::new("data"))? {
        if entry.extension().is_none_or(|ending| ending != "md") {
            let name = entry.file_stem().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            paths.push((format!("data: {name}"), entry));
        }
    }
    dewline_fingerprint::write(&paths)
}
