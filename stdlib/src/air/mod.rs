//! Air: the standard atmosphere, moist air, the air side of a coil.

pub mod atmosphere;
mod declared;

pub use declared::functions;
