//! The refrigeration cycle.

mod balance_declared;
mod declared;
mod drawn;
pub mod gas_cooler;
mod gas_cooler_declared;
pub mod vapor;

pub use declared::functions;
pub(crate) use declared::{of, saturation};
