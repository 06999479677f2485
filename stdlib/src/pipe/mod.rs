//! Refrigerant pipe: tube sizes and strength, friction, head, oil return.

mod carried;
mod declared;
pub mod fittings;
mod flow_declared;
pub mod friction;
pub mod insulation;
pub mod pick;
mod sizing_declared;
pub mod strength;
pub mod tube;

pub use declared::{LIQUID_FULL, functions};
