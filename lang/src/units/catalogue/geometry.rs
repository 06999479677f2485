//! Lengths, areas, volumes.

use super::definitions::{CUBIC_FOOT, FOOT, GALLON, INCH};
use super::entry::{Entry, plain};
use crate::units::Dimension;

const AREA: Dimension = Dimension::whole([2, 0, 0, 0, 0, 0]);
const VOLUME: Dimension = Dimension::whole([3, 0, 0, 0, 0, 0]);
const MIL: f64 = INCH / 1_000.0;

pub const LENGTHS: &[Entry] = &[
    plain("um", Dimension::LENGTH, 1e-6, "um", "micrometre, a length; `micron` is a pressure").also(&["µm"]),
    plain("mm", Dimension::LENGTH, 1e-3, "mm", "millimetre"),
    plain("cm", Dimension::LENGTH, 1e-2, "cm", "centimetre"),
    plain("m", Dimension::LENGTH, 1.0, "m", "metre"),
    plain("km", Dimension::LENGTH, 1e3, "km", "kilometre"),
    plain("in", Dimension::LENGTH, INCH, "[in_i]", "inch").any_case(),
    plain("ft", Dimension::LENGTH, FOOT, "[ft_i]", "foot").any_case(),
    plain("yd", Dimension::LENGTH, 3.0 * FOOT, "[yd_i]", "yard").any_case(),
    plain("mi", Dimension::LENGTH, 5_280.0 * FOOT, "[mi_i]", "mile").any_case(),
];

pub const AREAS: &[Entry] = &[
    plain("mm2", AREA, 1e-6, "mm2", "square millimetre"),
    plain("cm2", AREA, 1e-4, "cm2", "square centimetre"),
    plain("m2", AREA, 1.0, "m2", "square metre"),
    plain("in2", AREA, INCH * INCH, "[sin_i]", "square inch").any_case(),
    plain("ft2", AREA, FOOT * FOOT, "[sft_i]", "square foot").any_case(),
    plain("cmil", AREA, std::f64::consts::FRAC_PI_4 * MIL * MIL, "[cml_i]", "circular mil, of wires").any_case(),
    plain("kcmil", AREA, std::f64::consts::FRAC_PI_4 * MIL * MIL * 1e3, "1000.[cml_i]", "thousand circular mils")
        .any_case(),
];

pub const VOLUMES: &[Entry] = &[
    plain("mm3", VOLUME, 1e-9, "mm3", "cubic millimetre"),
    plain("cm3", VOLUME, 1e-6, "cm3", "cubic centimetre"),
    plain("mL", VOLUME, 1e-6, "mL", "millilitre").also(&["ml"]),
    plain("L", VOLUME, 1e-3, "L", "litre").also(&["l"]),
    plain("m3", VOLUME, 1.0, "m3", "cubic metre"),
    plain("in3", VOLUME, INCH * INCH * INCH, "[cin_i]", "cubic inch").any_case(),
    plain("ft3", VOLUME, CUBIC_FOOT, "[cft_i]", "cubic foot").any_case(),
    plain("gal", VOLUME, GALLON, "[gal_us]", "US gallon, 231 in3").any_case(),
    plain("qt", VOLUME, GALLON / 4.0, "[qt_us]", "US quart").any_case(),
];
