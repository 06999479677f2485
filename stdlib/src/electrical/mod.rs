//! The supply and what hangs on it: unbalance, power, voltage drop, windings, insulation.

mod declared;
pub mod motor;
mod motor_declared;
pub mod supply;
pub mod unbalance;

pub use declared::functions;
