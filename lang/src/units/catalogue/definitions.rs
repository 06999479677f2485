//! The exact definitions that factors are built from.
//!
//! Inch, pound and standard gravity: NIST SP 811 (2008), 4.2 and appendix B. Btu_IT: 5th International Conference on
//! the Properties of Steam (1956). Conventional mercury and water: ISO 80000-4, footnotes to the pressure units.

/// Metres in an inch.
pub const INCH: f64 = 0.0254;
/// Metres in a foot.
pub const FOOT: f64 = 0.3048;
/// Kilograms in a pound.
pub const POUND: f64 = 0.453_592_37;
/// Standard gravity, m/s2.
pub const GRAVITY: f64 = 9.806_65;
/// Newtons in a pound-force.
pub const POUND_FORCE: f64 = POUND * GRAVITY;
/// Cubic metres in a US gallon: 231 cubic inches.
pub const GALLON: f64 = 3.785_411_784e-3;
/// Cubic metres in a cubic foot.
pub const CUBIC_FOOT: f64 = 0.028_316_846_592;
/// Joules in a Btu of the International Table.
pub const BTU: f64 = 1_055.055_852_62;
/// Watts in a Btu_IT an hour.
pub const BTU_PER_HOUR: f64 = BTU / 3_600.0;
/// Pascals in a standard atmosphere.
pub const ATMOSPHERE: f64 = 101_325.0;
/// Pascals in a pound-force on a square inch.
pub const PSI: f64 = POUND_FORCE / (INCH * INCH);
/// Pascals in a torr.
pub const TORR: f64 = ATMOSPHERE / 760.0;
/// Pascals under a millimetre of conventional mercury, 13 595.1 kg/m3.
pub const MILLIMETRE_OF_MERCURY: f64 = 13_595.1 * GRAVITY / 1_000.0;
/// Pascals under an inch of conventional mercury.
pub const INCH_OF_MERCURY: f64 = MILLIMETRE_OF_MERCURY * 25.4;
/// Pascals under an inch of conventional water, 1000 kg/m3.
pub const INCH_OF_WATER: f64 = 1_000.0 * GRAVITY * INCH;
/// Pascals under a foot of conventional water.
pub const FOOT_OF_WATER: f64 = 1_000.0 * GRAVITY * FOOT;
/// Pascals under a metre of conventional water.
pub const METRE_OF_WATER: f64 = 1_000.0 * GRAVITY;
/// Kelvin in a degree of Fahrenheit or Rankine.
pub const RANKINE: f64 = 5.0 / 9.0;
