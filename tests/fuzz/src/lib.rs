//! Doors that strangers' bytes come in by, each as a function of bytes, with what must hold behind it.
//!
//! A fuzzer calls them with what it makes up (`examples/guided.rs`, see `DEVELOPERS.md`); the test `short` calls them with seeds,
//! with mutations of these and with random bytes. Nothing is given back: what must hold is asserted.

// Whatever must hold and does not ends the process, which is what a fuzzer looks for.
#![allow(clippy::panic)]

mod outcome;
mod seeds;
mod sheets;
mod target;

pub use seeds::seeds;
pub use target::{TARGETS, Target, written};
