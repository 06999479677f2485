//! What a vacuum hold says: from one curve of pressure against time.
//!
//! A leak rises straight. Moisture bends to a plateau with a time constant; the slower it is, the longer it looks like a
//! leak. So *straight* is said only once moisture of the longest time constant would have bent visibly, and *leak* only
//! with more than one curve: an earlier hold with the same slope, or a rise past what water can do.
//!
//! Common practice, no source, unless said; the time that it takes to tell was found by simulation and is tested so.

mod curve;
mod judge;
mod shape;
#[cfg(test)]
mod tests;
mod words;

pub use curve::Reading;
pub use judge::{GaugeAt, Hold, Judgement, TooLittle, Verdict, judge};
pub use shape::shape;
