//! Dimensions, scales and the catalogue of units.

mod catalogue;
mod compound;
mod defaults;
mod dimension;
mod exchange;
mod near;
mod said;
pub mod show;
mod system;
mod unit;

pub use catalogue::{Entry, UnitGroup, all, find};
pub use compound::{UnitProblem, is_unit, parse};
pub use defaults::{UnitSystem, default_unit};
pub use dimension::Dimension;
pub use exchange::exchanged;
pub use near::{not_here, suggest};
pub use said::{WORDS, difference, in_differences, points};
pub use system::system_of;
pub use unit::{Meaning, Stance, Unit};

#[cfg(test)]
mod tests;
