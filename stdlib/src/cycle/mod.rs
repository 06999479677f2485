//! The refrigeration cycle.

mod balance_declared;
mod declared;
pub mod vapor;

pub use declared::functions;
