//! Makes `data/saturation.bin`, the saturation lines of all refrigerants, from the equations.
//!
//! Run it after a change to coefficients, compositions or the tables' method:
//! `cargo run --release -p dewline-stdlib --example saturation_tables`. It prints each
//! refrigerant's largest relative errors of the tables against the equations.

use std::error::Error;
use std::path::Path;

use dewline_stdlib::helmholtz::blend::blend;
use dewline_stdlib::refrigerant::catalogue;
use dewline_stdlib::saturation::archive::{Saturation, written};
use dewline_stdlib::saturation::fingerprint::fingerprint;

fn main() -> Result<(), Box<dyn Error>> {
    let only: Vec<String> = std::env::args().skip(1).collect();
    let mut made = Vec::new();
    for listed in catalogue::all() {
        if !only.is_empty() && !only.iter().any(|name| name == listed.designation) {
            continue;
        }
        let composition: Vec<(String, f64)> =
            listed.composition.iter().map(|&(name, share)| (name.to_string(), share)).collect();
        let model = match blend(&composition) {
            Ok(blend) => blend.model,
            Err(error) => {
                println!("{:14}{error:?}", listed.designation);
                continue;
            }
        };
        match Saturation::made(&model, fingerprint(&listed.composition)) {
            Ok((saturation, errors)) => {
                let bytes = written([(listed.designation, &saturation)].into_iter()).len();
                println!(
                    "{:14}T {:.1e}  p {:.1e}  density {:.1e}  {bytes} bytes",
                    listed.designation, errors.temperature, errors.pressure, errors.density
                );
                made.push((listed.designation, saturation));
            }
            Err(error) => println!("{:14}{error:?}", listed.designation),
        }
    }
    let bytes = written(made.iter().map(|(name, saturation)| (*name, saturation)));
    println!("{} refrigerants, {} bytes", made.len(), bytes.len());
    if only.is_empty() {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/saturation.bin");
        std::fs::write(path, bytes)?;
    }
    Ok(())
}
