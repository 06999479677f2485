//! Units of pure numbers.

use super::entry::{Entry, plain};
use crate::units::Dimension;

pub const NUMBERS: &[Entry] = &[
    plain("%", Dimension::NUMBER, 1e-2, "%", "percent; 55 % is 0.55"),
    plain("ppm", Dimension::NUMBER, 1e-6, "[ppm]", "part in a million").any_case(),
];
