//! The refrigeration cycle.

mod declared;
pub mod vapor;

pub use declared::functions;
