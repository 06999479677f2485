//! Charge in rooms: concentration, flammability, floor area. Arithmetic against a stated edition, never a permit.

mod declared;
pub mod floor_area;
pub mod limits;

pub use declared::functions;
