//! The site's atmosphere, by which gauge pressures become absolute.

use super::block::Block;
use super::fault::Fault;
use crate::diagnostic::running as codes;
use crate::source::Span;

/// The standard atmosphere at sea level in pascal, taken where no site is stated.
pub const SEA_LEVEL: f64 = 101_325.0;

/// The standard atmosphere at a height in metres: p = 101.325 kPa · (1 − 2.25577e-5·Z)^5.2559, from −5,000 to 11,000 m
/// (ASHRAE Handbook—Fundamentals 2021, ch. 1, eq. 3).
pub fn standard_atmosphere(altitude: Block, span: Span) -> Block {
    let inside = super::arithmetic::break_where(
        altitude,
        |height| !(-5000.0..=11000.0).contains(&height),
        |height| {
            Fault::new(
                &codes::OUTSIDE_LIMITS,
                format!("the standard atmosphere goes from -5000 m to 11000 m; the site is at {height} m"),
                span,
            )
            .with_mend("state the site's atmosphere instead: `site atmosphere = 12.93 psia`")
        },
    );
    let slope = |height| SEA_LEVEL * 5.2559 * libm::pow(base(height), 4.2559) * -2.25577e-5;
    super::arithmetic::each(inside, span, at, slope)
}

/// The standard atmosphere at a height in metres, of heights at which it is stated.
pub fn at(height: f64) -> f64 {
    SEA_LEVEL * libm::pow(base(height), 5.2559)
}

fn base(height: f64) -> f64 {
    1.0 - 2.25577e-5 * height.clamp(-5000.0, 11000.0)
}
