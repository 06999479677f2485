//! `seeds FOLDER`: the seeds of all targets, a folder each, for a fuzzer to begin with.

use std::error::Error;
use std::fs;
use std::path::Path;

use dewline_fuzz::{TARGETS, seeds};

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).ok_or("name a folder")?;
    for target in TARGETS {
        let folder = Path::new(&folder).join(target.name);
        fs::create_dir_all(&folder)?;
        for (at, seed) in seeds(target.name).into_iter().enumerate() {
            fs::write(folder.join(at.to_string()), seed)?;
        }
    }
    Ok(())
}
