//! Mass, time, motion, flow, force, viscosity, amount of substance.

use super::definitions::{CUBIC_FOOT, FOOT, GALLON, GRAVITY, POUND, POUND_FORCE};
use super::entry::{Entry, plain};
use crate::units::Dimension;

const RATE: Dimension = Dimension::whole([0, 0, -1, 0, 0, 0]);
const SPEED: Dimension = Dimension::whole([1, 0, -1, 0, 0, 0]);
const FLOW: Dimension = Dimension::whole([3, 0, -1, 0, 0, 0]);
const FORCE: Dimension = Dimension::whole([1, 1, -2, 0, 0, 0]);
const VISCOSITY: Dimension = Dimension::whole([-1, 1, -1, 0, 0, 0]);
const KINEMATIC_VISCOSITY: Dimension = Dimension::whole([2, 0, -1, 0, 0, 0]);

const DAY: f64 = 86_400.0;

pub const MASSES: &[Entry] = &[
    plain("mg", Dimension::MASS, 1e-6, "mg", "milligram"),
    plain("g", Dimension::MASS, 1e-3, "g", "gram"),
    plain("kg", Dimension::MASS, 1.0, "kg", "kilogram"),
    plain("tonne", Dimension::MASS, 1e3, "t", "metric ton, 1000 kg; `ton` is a ton of refrigeration"),
    plain("grain", Dimension::MASS, POUND / 7_000.0, "[gr]", "grain, 1/7000 lb, of moisture").any_case(),
    plain("oz", Dimension::MASS, POUND / 16.0, "[oz_av]", "ounce, a mass").any_case(),
    plain("lb", Dimension::MASS, POUND, "[lb_av]", "pound, a mass; the force is `lbf`").also(&["lbm"]).any_case(),
];

pub const TIMES: &[Entry] = &[
    plain("ms", Dimension::TIME, 1e-3, "ms", "millisecond"),
    plain("s", Dimension::TIME, 1.0, "s", "second"),
    plain("min", Dimension::TIME, 60.0, "min", "minute").any_case(),
    plain("h", Dimension::TIME, 3_600.0, "h", "hour"),
    plain("day", Dimension::TIME, DAY, "d", "day of 24 hours").any_case(),
    plain("week", Dimension::TIME, 7.0 * DAY, "wk", "week").any_case(),
    plain("year", Dimension::TIME, 365.25 * DAY, "a_j", "Julian year of 365.25 days").any_case(),
];

pub const MOTIONS: &[Entry] = &[
    plain("fpm", SPEED, FOOT / 60.0, "[ft_i]/min", "foot a minute").any_case(),
    plain("cfm", FLOW, CUBIC_FOOT / 60.0, "[cft_i]/min", "cubic foot a minute").any_case(),
    plain("cfh", FLOW, CUBIC_FOOT / 3_600.0, "[cft_i]/h", "cubic foot an hour, of purge flows").any_case(),
    plain("gpm", FLOW, GALLON / 60.0, "[gal_us]/min", "US gallon a minute").any_case(),
    plain("Hz", RATE, 1.0, "Hz", "hertz"),
    plain("kHz", RATE, 1e3, "kHz", "kilohertz"),
    plain("rpm", RATE, 1.0 / 60.0, "{rev}/min", "revolution a minute").any_case(),
];

pub const FORCES: &[Entry] = &[
    plain("N", FORCE, 1.0, "N", "newton"),
    plain("kN", FORCE, 1e3, "kN", "kilonewton"),
    plain("kgf", FORCE, GRAVITY, "kgf", "kilogram-force"),
    plain("lbf", FORCE, POUND_FORCE, "[lbf_av]", "pound-force; the mass is `lb`").any_case(),
];

pub const VISCOSITIES: &[Entry] =
    &[plain("cP", VISCOSITY, 1e-3, "cP", "centipoise"), plain("cSt", KINEMATIC_VISCOSITY, 1e-6, "cSt", "centistokes")];

pub const AMOUNTS: &[Entry] = &[
    plain("mmol", Dimension::AMOUNT, 1e-3, "mmol", "millimole"),
    plain("mol", Dimension::AMOUNT, 1.0, "mol", "mole"),
    plain("kmol", Dimension::AMOUNT, 1e3, "kmol", "kilomole"),
];
