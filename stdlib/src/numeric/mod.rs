//! Mathematics that several subjects share.

pub mod bracket;
pub mod line;
pub mod middle;
pub mod solve;
