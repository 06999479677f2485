//! The refrigerant circuit: superheat, subcooling, pressure ratio, coils, rest.

mod coil_declared;
mod declared;
pub mod superheat;

pub use declared::functions;
