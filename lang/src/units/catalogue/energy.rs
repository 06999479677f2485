//! Energies and powers.

use super::definitions::{BTU, BTU_PER_HOUR, FOOT, POUND_FORCE};
use super::entry::{Entry, plain};
use crate::units::Dimension;

const ENERGY: Dimension = Dimension::whole([2, 1, -2, 0, 0, 0]);
const POWER: Dimension = Dimension::whole([2, 1, -3, 0, 0, 0]);

pub const ENERGIES: &[Entry] = &[
    plain("J", ENERGY, 1.0, "J", "joule"),
    plain("kJ", ENERGY, 1e3, "kJ", "kilojoule"),
    plain("MJ", ENERGY, 1e6, "MJ", "megajoule"),
    plain("Wh", ENERGY, 3.6e3, "W.h", "watt-hour"),
    plain("kWh", ENERGY, 3.6e6, "kW.h", "kilowatt-hour"),
    plain("MWh", ENERGY, 3.6e9, "MW.h", "megawatt-hour"),
    plain(
        "Btu",
        ENERGY,
        BTU,
        "[Btu_IT]",
        "British thermal unit (International Table), an energy; a capacity is `Btu/h`",
    )
    .any_case(),
];

pub const POWERS: &[Entry] = &[
    plain("mW", POWER, 1e-3, "mW", "milliwatt"),
    plain("W", POWER, 1.0, "W", "watt"),
    plain("kW", POWER, 1e3, "kW", "kilowatt"),
    plain("MW", POWER, 1e6, "MW", "megawatt"),
    plain("hp", POWER, 550.0 * FOOT * POUND_FORCE, "[HP]", "mechanical horsepower, 550 ft·lbf/s").any_case(),
    plain("Btuh", POWER, BTU_PER_HOUR, "[Btu_IT]/h", "Btu an hour, the same as `Btu/h`").any_case(),
    plain("MBh", POWER, 1e3 * BTU_PER_HOUR, "1000.[Btu_IT]/h", "thousand Btu an hour").any_case(),
    plain(
        "ton",
        POWER,
        12e3 * BTU_PER_HOUR,
        "12000.[Btu_IT]/h",
        "ton of refrigeration, 12 000 Btu/h; a mass is `tonne`",
    )
    .any_case(),
    plain("VA", POWER, 1.0, "V.A", "volt-ampere, apparent power"),
    plain("kVA", POWER, 1e3, "kV.A", "kilovolt-ampere"),
    plain("var", POWER, 1.0, "V.A{reactive}", "volt-ampere, reactive"),
    plain("kvar", POWER, 1e3, "kV.A{reactive}", "kilovolt-ampere, reactive"),
];
