//! Sensors: thermistors, platinum, transmitters, lamps.

mod declared;
pub mod lamps;
pub mod platinum;
pub mod thermistor;

pub use declared::functions;
