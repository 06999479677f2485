//! Dry nitrogen: purge before the flame, standing pressure test, cylinders.

mod branch;
mod declared;
mod gas_declared;
pub mod pressures;
mod pressures_declared;
mod purge;
mod purge_declared;
pub mod standing;
mod standing_declared;
mod standing_drawn;
mod stored;
pub mod test_gas;
pub mod trapped;

pub use declared::functions;
