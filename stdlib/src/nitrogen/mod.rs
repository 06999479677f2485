//! Dry nitrogen: standing pressure test, purge, cylinders.

mod declared;
pub mod test_gas;
pub mod trapped;

pub use declared::functions;
