//! Help while typing: what may stand where the cursor is, what a function still takes, how words are coloured.

mod colour;
mod complete;
mod cursor;
mod hint;
mod names;
mod units;

pub use colour::coloured;
