//! Charge: what lines hold, what is weighed in and out, what is shut in.

mod declared;
mod lines_declared;
pub mod liquid;
mod liquid_declared;
pub mod recovery;
mod recovery_declared;
pub mod warming;
pub mod weighing;
mod weighing_declared;
mod weights_declared;

pub use declared::functions;
