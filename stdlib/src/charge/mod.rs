//! Charge: what lines hold, what is weighed in.

mod declared;

pub use declared::functions;
