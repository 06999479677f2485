//! Pressures: gauge and absolute points, gauge vacuum, differences, and the units of a deep vacuum.
//!
//! Behind a unit of differences `absolute` or `gauge` makes a point of it; where the catalogue has a word of its own for
//! that (`kPa absolute`, `kPaa`), that word is shown.

use super::definitions::{
    ATMOSPHERE, FOOT_OF_WATER, INCH_OF_MERCURY, INCH_OF_WATER, METRE_OF_WATER, MILLIMETRE_OF_MERCURY, PSI, TORR,
};
use super::entry::{Entry, pressure};
use crate::units::Meaning;

pub const PRESSURE_POINTS: &[Entry] = &[
    gauge("psig", PSI, "[psi]{gauge}", "pound on a square inch above the site's atmosphere").any_case().instead("psi"),
    gauge("kPag", 1e3, "kPa{gauge}", "kilopascal above the site's atmosphere").any_case().instead("kPa"),
    gauge("MPag", 1e6, "MPa{gauge}", "megapascal above the site's atmosphere").instead("MPa"),
    gauge("barg", 1e5, "bar{gauge}", "bar above the site's atmosphere").any_case().instead("bar"),
    pressure(
        "inHgv",
        Meaning::Vacuum { factor: INCH_OF_MERCURY },
        "[in_i'Hg]{vacuum}",
        "inch of mercury below the site's atmosphere; deeper vacuum, greater number",
    )
    .any_case()
    .instead("inHg"),
    absolute("psia", PSI, "[psi]{absolute}", "pound on a square inch, absolute").any_case().instead("psi"),
    absolute("kPaa", 1e3, "kPa{absolute}", "kilopascal, absolute").any_case().instead("kPa"),
    absolute("MPaa", 1e6, "MPa{absolute}", "megapascal, absolute").instead("MPa"),
    absolute("bara", 1e5, "bar{absolute}", "bar, absolute").any_case().instead("bar"),
    absolute("inHga", INCH_OF_MERCURY, "[in_i'Hg]{absolute}", "inch of mercury, absolute: a barometer")
        .any_case()
        .instead("inHg"),
    absolute("atm", ATMOSPHERE, "atm", "standard atmosphere, 101.325 kPa absolute").any_case().instead("bar"),
];

pub const PRESSURE_DIFFERENCES: &[Entry] = &[
    difference("psi", PSI, "[psi]", "pound on a square inch, a difference").any_case(),
    difference("kPa", 1e3, "kPa", "kilopascal, a difference"),
    difference("MPa", 1e6, "MPa", "megapascal, a difference"),
    difference("bar", 1e5, "bar", "bar, a difference").any_case(),
    difference("inH2O", INCH_OF_WATER, "[in_i'H2O]", "inch of water (4 °C), a difference").any_case(),
    difference("inHg", INCH_OF_MERCURY, "[in_i'Hg]", "inch of mercury, a difference; points are `inHgv` and `inHga`")
        .any_case(),
    difference("ftH2O", FOOT_OF_WATER, "[ft_i'H2O]", "foot of water (4 °C), a difference").any_case(),
    difference("mH2O", METRE_OF_WATER, "m[H2O]", "metre of water (4 °C), a difference").any_case(),
    difference("uPa", 1e-6, "uPa", "micropascal, as in `uPa·s`").also(&["µPa"]),
    difference("mPa", 1e-3, "mPa", "millipascal, as in `mPa·s`"),
    difference("Pa", 1.0, "Pa", "pascal, a difference; a pressure is `Pa absolute`"),
    difference("hPa", 1e2, "hPa", "hectopascal, a difference; a pressure is `hPa absolute`"),
    difference("mbar", 1e2, "mbar", "millibar, a difference; a pressure is `mbar absolute`"),
    difference("mmHg", MILLIMETRE_OF_MERCURY, "mm[Hg]", "millimetre of mercury, a difference").any_case(),
];

/// A vacuum gauge counts from true zero. Two of its readings lie so many `micron difference` apart.
pub const DEEP_VACUUM: &[Entry] = &[
    absolute("micron", MILLIMETRE_OF_MERCURY / 1e3, "um[Hg]", "micrometre of mercury from true zero, of deep vacuum")
        .also(&["umHg", "µmHg"])
        .any_case(),
    // The unified code knows no torr; its millimetre of mercury (133.3220 Pa) is the nearest, 2.8e-6 less.
    absolute("mTorr", TORR / 1e3, "um[Hg]", "millitorr from true zero, 1/1000 torr"),
    absolute("Torr", TORR, "mm[Hg]", "torr from true zero, 1/760 atm").any_case(),
];

const fn gauge(text: &'static str, factor: f64, ucum: &'static str, about: &'static str) -> Entry {
    pressure(text, Meaning::Gauge { factor }, ucum, about)
}

const fn absolute(text: &'static str, factor: f64, ucum: &'static str, about: &'static str) -> Entry {
    pressure(text, Meaning::Point { offset: 0.0, factor }, ucum, about)
}

const fn difference(text: &'static str, factor: f64, ucum: &'static str, about: &'static str) -> Entry {
    pressure(text, Meaning::Difference { factor }, ucum, about)
}
