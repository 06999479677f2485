//! Evacuation: water and ice, rise of pressure, leaks, pumps and hoses.

mod declared;
pub mod hold;
mod hold_declared;
mod hold_drawn;
pub mod leak;
mod leak_declared;
pub mod tubing;

pub use declared::functions;
