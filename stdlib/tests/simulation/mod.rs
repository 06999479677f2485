//! Small physical models of what goes wrong, for the tests that count how often a judgement is wrong.

#![allow(dead_code, clippy::unwrap_used)]

pub mod coil;
pub mod plant;
pub mod random;
pub mod rise;
pub mod stand;
pub mod table;
