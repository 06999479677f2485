//! Voltage, current, resistance, capacitance.

use super::entry::{Entry, plain};
use crate::units::Dimension;

const VOLTAGE: Dimension = Dimension::whole([2, 1, -3, -1, 0, 0]);
const RESISTANCE: Dimension = Dimension::whole([2, 1, -3, -2, 0, 0]);
const CAPACITANCE: Dimension = Dimension::whole([-2, -1, 4, 2, 0, 0]);

pub const ELECTRICAL: &[Entry] = &[
    plain("mV", VOLTAGE, 1e-3, "mV", "millivolt"),
    plain("V", VOLTAGE, 1.0, "V", "volt"),
    plain("kV", VOLTAGE, 1e3, "kV", "kilovolt"),
    plain("uA", Dimension::CURRENT, 1e-6, "uA", "microampere").also(&["µA"]),
    plain("mA", Dimension::CURRENT, 1e-3, "mA", "milliampere"),
    plain("A", Dimension::CURRENT, 1.0, "A", "ampere"),
    plain("mohm", RESISTANCE, 1e-3, "mOhm", "milliohm").also(&["mΩ"]),
    plain("ohm", RESISTANCE, 1.0, "Ohm", "ohm").also(&["Ohm", "Ω"]),
    plain("kohm", RESISTANCE, 1e3, "kOhm", "kilohm").also(&["kOhm", "kΩ"]),
    plain("Mohm", RESISTANCE, 1e6, "MOhm", "megohm").also(&["MOhm", "MΩ"]),
    plain("pF", CAPACITANCE, 1e-12, "pF", "picofarad"),
    plain("nF", CAPACITANCE, 1e-9, "nF", "nanofarad"),
    plain("uF", CAPACITANCE, 1e-6, "uF", "microfarad, of run and start capacitors").also(&["µF"]),
];
