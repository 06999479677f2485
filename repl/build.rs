//! Notes the version of the library of functions such as `exp`, on which the last bit of a result rests.

use std::io;
use std::path::Path;
use std::{env, fs};

fn main() -> io::Result<()> {
    let out = env::var_os("OUT_DIR").ok_or_else(|| io::Error::other("no OUT_DIR"))?;
    fs::write(Path::new(&out).join("libm.rs"), format!("{:?}", locked_version("libm")?))
}

/// The version of a package in the nearest lock file: that of the workspace, or of the packaged crate itself.
fn locked_version(package: &str) -> io::Result<String> {
    let here = env::current_dir()?;
    let path = here.ancestors().map(|folder| folder.join("Cargo.lock")).find(|path| path.exists());
    let path = path.ok_or_else(|| io::Error::other("there is no lock file"))?;
    println!("cargo::rerun-if-changed={}", path.display());
    let lock = fs::read_to_string(path)?;
    let mut lines = lock.lines().skip_while(|line| *line != format!("name = {package:?}")).skip(1);
    let version = lines.next().and_then(|line| line.strip_prefix("version = \"")?.strip_suffix('"'));
    version.map(str::to_string).ok_or_else(|| io::Error::other(format!("{package} is not in the lock file")))
}
