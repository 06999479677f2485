//! Small physical models of what goes wrong, for the tests that count how often a judgement is wrong.

#![allow(dead_code, clippy::unwrap_used)]

pub mod cause;
pub mod compressor;
pub mod control;
pub mod cooling_coil;
pub mod cooling_plant;
pub mod heating_coil;
pub mod heating_plant;
pub mod job;
pub mod random;
pub mod rise;
pub mod sensors;
pub mod stand;
pub mod table;
