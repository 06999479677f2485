//! Charge in rooms: concentration, flammability, floor area. Arithmetic against a stated edition, never a permit.

mod declared;
pub mod floor_area;
mod floor_area_declared;
pub mod limits;
pub mod rooms;
mod rooms_declared;

pub use declared::functions;
