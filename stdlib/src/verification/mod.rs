//! Verification: what sensors at rest, single responses and a running system say, and in which order to ask.

mod declared;
pub mod response;
pub mod rest;
pub mod settled;

pub use declared::functions;
