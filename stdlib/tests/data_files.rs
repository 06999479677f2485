//! Every coefficient file is built in, read and listed.

use std::error::Error;
use std::path::Path;

use dewline_stdlib::helmholtz::{data_file, sources};
use dewline_stdlib::transport;

const README: &str = include_str!("../data/README.md");

fn files(folder: &str) -> Result<Vec<(String, String)>, Box<dyn Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("data").join(folder);
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder)? {
        let entry = entry?;
        files.push((entry.file_name().to_string_lossy().into_owned(), std::fs::read_to_string(entry.path())?));
    }
    Ok(files)
}

#[test]
fn equations() -> Result<(), Box<dyn Error>> {
    for (name, text) in files("equations")? {
        let equation = data_file::equation(&text).map_err(|error| format!("{name}: {}", error.0))?;
        let fluid = &equation.fluid;
        let built_in = sources::equation(fluid).is_some() || sources::pseudo_pure_equation(fluid).is_some();
        assert!(built_in, "{name} is not built in");
        assert!(README.contains(&format!("`{name}`")), "{name} is not in the table");
        let doi = equation.publication.doi.unwrap_or_default();
        assert!(README.contains(&doi), "{name}: {doi}");
        assert!(name.starts_with(&fluid.to_lowercase().replace(['(', ')'], "")), "{name} is of {fluid}");
    }
    Ok(())
}

#[test]
fn binary_parameters() -> Result<(), Box<dyn Error>> {
    let files = files("mixtures")?;
    assert_eq!(files.len(), sources::pair_book_texts().len());
    let mut seen: Vec<[String; 2]> = Vec::new();
    for (name, text) in files {
        let book = data_file::pair_book(&text).map_err(|error| format!("{name}: {}", error.0))?;
        assert!(sources::pair_book_texts().contains(&text.as_str()), "{name} is not built in");
        assert!(README.contains(&format!("`{name}`")), "{name} is not in the table");
        for pair in book.pairs {
            let mut components = pair.components;
            components.sort();
            for component in &components {
                assert!(sources::fluids().any(|fluid| fluid == component), "{name}: no fluid {component}");
            }
            assert!(!seen.contains(&components), "{components:?} is in two books");
            seen.push(components);
        }
    }
    Ok(())
}

#[test]
fn viscosities() -> Result<(), Box<dyn Error>> {
    for (name, text) in files("viscosity")? {
        let file: serde_json::Value = serde_json::from_str(&text)?;
        let fluid = file["fluid"].as_str().ok_or("no fluid")?;
        let correlation = transport::published(fluid).ok_or_else(|| format!("{name} is not built in"))?;
        correlation.map_err(|error| format!("{name}: {}", error.0))?;
        assert!(README.contains(&format!("`{name}`")), "{name} is not in the table");
    }
    Ok(())
}
