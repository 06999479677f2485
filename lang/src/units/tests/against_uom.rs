//! Every catalogue unit that the crate `uom` also has, against it. Many of its US factors are rounded to seven digits.

use uom::si::f64 as quantity;
use uom::si::{
    amount_of_substance, area, capacitance, dynamic_viscosity, electric_current, electric_potential,
    electrical_resistance, energy, force, frequency, kinematic_viscosity, length, mass, power, pressure, ratio,
    temperature_interval, thermodynamic_temperature, time, velocity, volume, volume_rate,
};

use super::entries;
use crate::units::parse;

/// `uom`'s base value of one of a unit.
macro_rules! one {
    ($quantity:ident, $module:ident :: $unit:ident) => {
        quantity::$quantity::new::<$module::$unit>(1.0).value
    };
}

fn factors() -> Vec<(&'static str, f64)> {
    vec![
        ("um", one!(Length, length::micrometer)),
        ("mm", one!(Length, length::millimeter)),
        ("cm", one!(Length, length::centimeter)),
        ("m", one!(Length, length::meter)),
        ("km", one!(Length, length::kilometer)),
        ("in", one!(Length, length::inch)),
        ("ft", one!(Length, length::foot)),
        ("yd", one!(Length, length::yard)),
        ("mi", one!(Length, length::mile)),
        ("mm2", one!(Area, area::square_millimeter)),
        ("cm2", one!(Area, area::square_centimeter)),
        ("m2", one!(Area, area::square_meter)),
        ("in2", one!(Area, area::square_inch)),
        ("ft2", one!(Area, area::square_foot)),
        ("cmil", one!(Area, area::circular_mil)),
        ("mm3", one!(Volume, volume::cubic_millimeter)),
        ("cm3", one!(Volume, volume::cubic_centimeter)),
        ("mL", one!(Volume, volume::milliliter)),
        ("L", one!(Volume, volume::liter)),
        ("m3", one!(Volume, volume::cubic_meter)),
        ("in3", one!(Volume, volume::cubic_inch)),
        ("ft3", one!(Volume, volume::cubic_foot)),
        ("gal", one!(Volume, volume::gallon)),
        ("qt", one!(Volume, volume::quart_liquid)),
        ("mg", one!(Mass, mass::milligram)),
        ("g", one!(Mass, mass::gram)),
        ("kg", one!(Mass, mass::kilogram)),
        ("tonne", one!(Mass, mass::ton)),
        ("grain", one!(Mass, mass::grain)),
        ("oz", one!(Mass, mass::ounce)),
        ("lb", one!(Mass, mass::pound)),
        ("ms", one!(Time, time::millisecond)),
        ("s", one!(Time, time::second)),
        ("min", one!(Time, time::minute)),
        ("h", one!(Time, time::hour)),
        ("day", one!(Time, time::day)),
        ("ft/s", one!(Velocity, velocity::foot_per_second)),
        ("mi/h", one!(Velocity, velocity::mile_per_hour)),
        ("km/h", one!(Velocity, velocity::kilometer_per_hour)),
        ("cfm", one!(VolumeRate, volume_rate::cubic_foot_per_minute)),
        ("gpm", one!(VolumeRate, volume_rate::gallon_per_minute)),
        ("L/s", one!(VolumeRate, volume_rate::liter_per_second)),
        ("Hz", one!(Frequency, frequency::hertz)),
        ("kHz", one!(Frequency, frequency::kilohertz)),
        ("rpm", one!(Frequency, frequency::cycle_per_minute)),
        ("N", one!(Force, force::newton)),
        ("kN", one!(Force, force::kilonewton)),
        ("kgf", one!(Force, force::kilogram_force)),
        ("lbf", one!(Force, force::pound_force)),
        ("J", one!(Energy, energy::joule)),
        ("kJ", one!(Energy, energy::kilojoule)),
        ("MJ", one!(Energy, energy::megajoule)),
        ("Wh", one!(Energy, energy::watt_hour)),
        ("kWh", one!(Energy, energy::kilowatt_hour)),
        ("MWh", one!(Energy, energy::megawatt_hour)),
        ("Btu", one!(Energy, energy::btu_it)),
        ("mW", one!(Power, power::milliwatt)),
        ("W", one!(Power, power::watt)),
        ("kW", one!(Power, power::kilowatt)),
        ("MW", one!(Power, power::megawatt)),
        ("hp", one!(Power, power::horsepower)),
        ("cP", one!(DynamicViscosity, dynamic_viscosity::centipoise)),
        ("cSt", one!(KinematicViscosity, kinematic_viscosity::centistokes)),
        ("mV", one!(ElectricPotential, electric_potential::millivolt)),
        ("V", one!(ElectricPotential, electric_potential::volt)),
        ("kV", one!(ElectricPotential, electric_potential::kilovolt)),
        ("uA", one!(ElectricCurrent, electric_current::microampere)),
        ("mA", one!(ElectricCurrent, electric_current::milliampere)),
        ("A", one!(ElectricCurrent, electric_current::ampere)),
        ("mohm", one!(ElectricalResistance, electrical_resistance::milliohm)),
        ("ohm", one!(ElectricalResistance, electrical_resistance::ohm)),
        ("kohm", one!(ElectricalResistance, electrical_resistance::kiloohm)),
        ("Mohm", one!(ElectricalResistance, electrical_resistance::megaohm)),
        ("pF", one!(Capacitance, capacitance::picofarad)),
        ("nF", one!(Capacitance, capacitance::nanofarad)),
        ("uF", one!(Capacitance, capacitance::microfarad)),
        ("mmol", one!(AmountOfSubstance, amount_of_substance::millimole)),
        ("mol", one!(AmountOfSubstance, amount_of_substance::mole)),
        ("kmol", one!(AmountOfSubstance, amount_of_substance::kilomole)),
        ("%", one!(Ratio, ratio::percent)),
        ("ppm", one!(Ratio, ratio::part_per_million)),
        ("psi", one!(Pressure, pressure::psi)),
        ("kPa", one!(Pressure, pressure::kilopascal)),
        ("MPa", one!(Pressure, pressure::megapascal)),
        ("bar", one!(Pressure, pressure::bar)),
        ("inHg", one!(Pressure, pressure::inch_of_mercury)),
        ("inH2O", one!(Pressure, pressure::inch_of_water)),
        ("ftH2O", one!(Pressure, pressure::foot_of_water)),
        ("atm", one!(Pressure, pressure::atmosphere)),
        ("uPa", one!(Pressure, pressure::micropascal)),
        ("mPa", one!(Pressure, pressure::millipascal)),
        ("Pa", one!(Pressure, pressure::pascal)),
        ("hPa", one!(Pressure, pressure::hectopascal)),
        ("mbar", one!(Pressure, pressure::millibar)),
        ("Torr", one!(Pressure, pressure::torr)),
        ("mmHg", one!(Pressure, pressure::millimeter_of_mercury)),
        ("F°", one!(TemperatureInterval, temperature_interval::degree_fahrenheit)),
        ("C°", one!(TemperatureInterval, temperature_interval::degree_celsius)),
        ("K", one!(ThermodynamicTemperature, thermodynamic_temperature::kelvin)),
        ("degR", one!(ThermodynamicTemperature, thermodynamic_temperature::degree_rankine)),
    ]
}

/// What `uom` 0.38 has no unit for: scales above or below the atmosphere, twice-named absolute units, trade words.
const NOT_IN_UOM: &[&str] = &[
    "psig", "kPag", "MPag", "barg", "inHgv", "psia", "kPaa", "MPaa", "bara", "inHga", "micron", "mTorr", "mH2O",
    "kcmil", "week", "year", "fpm", "cfh", "Btuh", "MBh", "ton", "VA", "kVA", "var", "kvar", "degF", "degC",
];

const HALF_OF_THE_SEVENTH_DIGIT: f64 = 5e-7;

#[test]
fn factors_agree_within_its_seven_digits() {
    for (text, theirs) in factors() {
        let ours = parse(text).unwrap().meaning.factor();
        let difference = (ours - theirs).abs() / theirs.abs();
        // Its inch and foot of water are those of 39.2 °F water, 1.3e-6 lighter; its inch of mercury the rounded 3.386389e3.
        let allowed = if matches!(text, "inH2O" | "ftH2O") { 3e-6 } else { HALF_OF_THE_SEVENTH_DIGIT };
        assert!(difference <= allowed, "{text}: {ours:e} against {theirs:e}, {difference:e} apart");
    }
}

#[test]
fn temperatures_agree() {
    for (number, text, theirs) in [
        (52.0, "degF", quantity::ThermodynamicTemperature::new::<thermodynamic_temperature::degree_fahrenheit>(52.0)),
        (11.0, "degC", quantity::ThermodynamicTemperature::new::<thermodynamic_temperature::degree_celsius>(11.0)),
    ] {
        let ours = parse(text).unwrap().to_si(number, 101_325.0);
        assert!((ours - theirs.value).abs() < 1e-12 * ours, "{text}");
    }
}

#[test]
fn no_unit_is_left_out() {
    let compared: Vec<&str> = factors().into_iter().map(|(text, _)| text).collect();
    for entry in entries() {
        assert_ne!(compared.contains(&entry.text), NOT_IN_UOM.contains(&entry.text), "{}", entry.text);
    }
}
