//! Verification: what sensors at rest, single responses and a running system say, and in which order to ask.
//!
//! First whether it has settled, then the system, then each valve: what ails all units is no valve's fault.

mod declared;
mod peers;
pub mod response;
pub mod rest;
pub mod settled;
pub mod system;
mod system_declared;
pub mod valve;
mod valve_declared;
mod words;

pub use declared::functions;
