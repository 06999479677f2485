//! Verification: what sensors at rest, single responses and a running system say, and in which order to ask.
//!
//! First whether it has settled, then the system, then each valve: what ails all units is no valve's fault.

mod declared;
pub mod response;
pub mod rest;
pub mod settled;
mod sign;
pub mod system;
mod system_declared;
mod system_heating_declared;
mod system_parameters;
pub mod valve;
mod valve_declared;
mod valve_parameters;

pub use declared::functions;
