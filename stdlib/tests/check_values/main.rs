//! Check values of the trade functions, asked as a sheet asks, one file a subject.
//!
//! Every group names its source. Values that another program computed prove that two programs solve one equation; values
//! printed in papers and handbooks stand in `published_values.rs` too. What practice says and no source, such as limits of
//! forms, is no check value.

#![allow(clippy::unwrap_used, clippy::panic)]

mod air;
mod ask;
mod charge;
mod cycle;
mod electrical;
mod evacuation;
mod lines;
mod network;
mod nitrogen_gas;
mod safety;
mod sensors;
mod service;
mod standing_test;
mod superheat;
mod tube;
mod warming;
mod water;
