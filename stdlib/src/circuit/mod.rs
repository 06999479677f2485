//! The refrigerant circuit: superheat, subcooling, pressure ratio.

mod declared;
pub mod superheat;

pub use declared::functions;
