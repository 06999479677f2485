//! Refrigerants: saturation, states and data, by designation.
//!
//! ```
//! use dewline_stdlib::refrigerant::Refrigerant;
//! use uom::si::f64::Pressure;
//! use uom::si::pressure::kilopascal;
//! use uom::si::thermodynamic_temperature::degree_celsius;
//!
//! let r = Refrigerant::find("R-32")?;
//! let dew = r.dew_temperature(Pressure::new::<kilopascal>(813.1))?;
//! assert!(dew.get::<degree_celsius>().abs() < 0.01);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod basis;
mod boiling;
pub mod catalogue;
mod declared;
mod declared_states;
mod error;
mod fluid;
mod gas;
mod handle;
mod heat;

pub use declared::functions;
pub use error::{Limit, NameError, PropertyError, Value};
pub use fluid::Phase;
pub use gas::Gas;
pub use handle::{CriticalPoint, Limits, LineRange, MixedState, Refrigerant, State};
