//! Evacuation: water and ice, rise of pressure, leaks.

mod declared;

pub use declared::functions;
