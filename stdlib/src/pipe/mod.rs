//! Refrigerant pipe: tube sizes, friction, static head, oil return.

mod declared;
pub mod pick;
pub mod tube;

pub use declared::{LIQUID_FULL, functions};
