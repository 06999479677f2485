//! Air: the standard atmosphere, moist air, the air side of a coil.

pub mod atmosphere;
pub mod coil;
mod coil_declared;
mod declared;
pub mod moist;

pub use declared::functions;
