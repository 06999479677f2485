//! The trade library of dewline: physics and published data by subject, declared for sheets.
//!
//! Every subject is a folder of one shape: the physics, in small pure functions with `uom` quantities in their
//! signatures, and `declared`, which hands them to [`dewline_lang::library`].

pub mod helmholtz;
pub mod refrigerant;
pub mod saturation;
pub mod transport;

pub mod air;
pub mod charge;
pub mod circuit;
pub mod cycle;
pub mod electrical;
pub mod forms;
pub mod network;
pub mod nitrogen;
pub mod pipe;
pub mod safety;
pub mod sensor;
pub mod survey;
pub mod vacuum;
pub mod verification;

mod cautions;
mod numeric;
mod parameters;
mod refusal;
mod rows;
mod said;
mod seam;
mod water;

use dewline_lang::library::Library;

/// The version of the trade library.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

/// Digests of all that results of the trade library rest on, taken when it was built: what, and its SHA-256.
pub const FINGERPRINTS: &[(&str, &str)] = &include!(concat!(env!("OUT_DIR"), "/fingerprints.rs"));

/// All subjects together, with the gases and refrigerants that sheets may name.
pub fn library() -> Library {
    let mut library = Library::new();
    let subjects = [
        refrigerant::functions(),
        survey::functions(),
        network::functions(),
        circuit::functions(),
        cycle::functions(),
        pipe::functions(),
        charge::functions(),
        nitrogen::functions(),
        vacuum::functions(),
        air::functions(),
        electrical::functions(),
        sensor::functions(),
        verification::functions(),
        safety::functions(),
    ];
    for function in subjects.into_iter().flatten() {
        library.add(function);
    }
    for gas in ["nitrogen", "helium", "air", "oxygen", "carbon_dioxide"] {
        library.add_gas(gas);
    }
    library.check_refrigerants_with(|designation| refusal::refrigerant(designation).map(|_| ()));
    library
}
