//! What a system as a whole says, read before any valve is named.
//!
//! Common practice, no source; what the discharge should be comes from the cycle.

pub mod cooling;
mod discharge;
pub mod heating;
mod verdict;
mod words;

/// Units of which something can be said together.
pub const ENOUGH: usize = 3;

pub use discharge::{Discharge, expected};
pub use verdict::{Rest, Verdict};
