//! Dimensions, scales and the catalogue of units.

mod dimension;
mod unit;

pub use dimension::Dimension;
pub use unit::{Meaning, Unit};
