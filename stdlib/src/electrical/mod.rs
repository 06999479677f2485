//! Three-phase supply: unbalance, power, voltage drop.

mod declared;
pub mod unbalance;

pub use declared::functions;
