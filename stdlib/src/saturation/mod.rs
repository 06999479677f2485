//! Saturation lines as committed tables, made from the equations by `examples/saturation_tables.rs`.

pub mod archive;
pub mod bit_table;
pub mod bytes;
pub mod fingerprint;
pub mod fit;
pub mod line;

pub use archive::{FluidLimits, Saturation, saturation};
pub use line::{FitErrors, SaturationLine};
