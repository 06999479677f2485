//! What an expansion valve does, told from its coil: only on two signs that share no sensor.
//!
//! Common practice, no source; the limits are those of [`Limits`]. How often a name is wrong was found by simulation with
//! a physical model of coil, controller and sensors, in cooling and in heating, and is tested so.

mod cooling;
mod heating;
mod judge;
mod peers;
mod unit;
mod verdict;
mod words;

pub use judge::{Judged, judge};
pub use unit::{Limits, Mode, Plant, System, Unit};
pub use verdict::{Suspect, Verdict};
