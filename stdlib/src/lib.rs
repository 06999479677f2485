//! The trade library of dewline.

pub mod helmholtz;
pub mod refrigerant;
