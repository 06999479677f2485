//! Survey of a system: its segments of pipe as a tree, and how its capacities stand to one another.

mod declared;
pub mod tree;

pub use declared::{functions, said};
