//! The atmosphere and moist air.

use super::ask::held;

/// ASHRAE Handbook—Fundamentals 2021, chapter 1, table 1; inch–pound by a public test suite of the 2017 edition,
/// whose table comes from unrounded constants (0.2 % at 30 000 ft).
#[test]
fn standard_atmosphere() {
    held(&[
        (r#"standard_atmosphere(-500 m) as kPaa to 0.0001"#, 107.478, 0.002),
        (r#"standard_atmosphere(0 m) as kPaa to 0.0001"#, 101.325, 0.002),
        (r#"standard_atmosphere(500 m) as kPaa to 0.0001"#, 95.461, 0.002),
        (r#"standard_atmosphere(1000 m) as kPaa to 0.0001"#, 89.875, 0.002),
        (r#"standard_atmosphere(1500 m) as kPaa to 0.0001"#, 84.556, 0.002),
        (r#"standard_atmosphere(2000 m) as kPaa to 0.0001"#, 79.495, 0.002),
        (r#"standard_atmosphere(3000 m) as kPaa to 0.0001"#, 70.108, 0.002),
        (r#"standard_atmosphere(5000 m) as kPaa to 0.0001"#, 54.02, 0.002),
        (r#"standard_atmosphere(10000 m) as kPaa to 0.0001"#, 26.436, 0.002),
        (r#"standard_atmosphere(-1000 ft) as psia to 0.0001"#, 15.236, 0.003),
        (r#"standard_atmosphere(0 ft) as psia to 0.0001"#, 14.696, 0.003),
        (r#"standard_atmosphere(1000 ft) as psia to 0.0001"#, 14.175, 0.003),
        (r#"standard_atmosphere(3000 ft) as psia to 0.0001"#, 13.173, 0.003),
        (r#"standard_atmosphere(10000 ft) as psia to 0.0001"#, 10.108, 0.003),
        (r#"standard_atmosphere(30000 ft) as psia to 0.0001"#, 4.371, 0.008),
    ]);
}

/// ASHRAE Handbook—Fundamentals 2021, chapter 1: table 2 (real gas: 0.5 % and 1 %) and example 1 (chart, formulas
/// worked with PsychroLib); 80/67 °F by PsychroLib.
#[test]
fn moist_air() {
    held(&[
        (
            r#"moist_air(25 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).humidity_ratio as g/kg to 0.0001"#,
            20.173,
            0.121,
        ),
        (
            r#"moist_air(0 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).humidity_ratio as g/kg to 0.0001"#,
            3.79,
            0.0227,
        ),
        (
            r#"moist_air(10 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).humidity_ratio as g/kg to 0.0001"#,
            7.6627,
            0.046,
        ),
        (
            r#"moist_air(20 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).humidity_ratio as g/kg to 0.0001"#,
            14.761,
            0.0886,
        ),
        (
            r#"moist_air(5 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).humidity_ratio as g/kg to 0.0001"#,
            5.4247000000000005,
            0.0325,
        ),
        (
            r#"moist_air(25 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).enthalpy as kJ/kg to 0.0001"#,
            76.504,
            0.765,
        ),
        (
            r#"moist_air(0 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).enthalpy as kJ/kg to 0.0001"#,
            9.4744,
            0.0947,
        ),
        (
            r#"moist_air(10 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).enthalpy as kJ/kg to 0.0001"#,
            29.354,
            0.294,
        ),
        (
            r#"moist_air(20 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).enthalpy as kJ/kg to 0.0001"#,
            57.558,
            0.576,
        ),
        (
            r#"moist_air(5 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).enthalpy as kJ/kg to 0.0001"#,
            18.639,
            0.186,
        ),
        (
            r#"moist_air(0 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).volume as m3/kg to 0.00001"#,
            0.778,
            0.002,
        ),
        (
            r#"moist_air(10 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).volume as m3/kg to 0.00001"#,
            0.8116,
            0.002,
        ),
        (
            r#"moist_air(20 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).volume as m3/kg to 0.00001"#,
            0.8498,
            0.002,
        ),
        (
            r#"moist_air(40 degC, wet_bulb = 20 degC, atmosphere = 101.325 kPaa).humidity_ratio as g/kg to 0.0001"#,
            6.401,
            0.02,
        ),
        (
            r#"moist_air(40 degC, wet_bulb = 20 degC, atmosphere = 101.325 kPaa).enthalpy as kJ/kg to 0.0001"#,
            56.72,
            0.1,
        ),
        (
            r#"moist_air(40 degC, wet_bulb = 20 degC, atmosphere = 101.325 kPaa).dew_point as degC to 0.0001"#,
            7.43,
            0.05,
        ),
        (
            r#"moist_air(40 degC, wet_bulb = 20 degC, atmosphere = 101.325 kPaa).relative_humidity as % to 0.0001"#,
            13.98,
            0.1,
        ),
        (
            r#"moist_air(40 degC, wet_bulb = 20 degC, atmosphere = 101.325 kPaa).volume as m3/kg to 0.0001"#,
            0.8962,
            0.0005,
        ),
        (r#"moist_air(80 degF, wet_bulb = 67 degF, atmosphere = 14.696 psia).dew_point as degF to 0.0001"#, 60.32, 0.1),
        (
            r#"moist_air(80 degF, wet_bulb = 67 degF, atmosphere = 14.696 psia).relative_humidity as % to 0.0001"#,
            51.1,
            0.2,
        ),
        (
            r#"moist_air(80 degF, wet_bulb = 67 degF, atmosphere = 14.696 psia).volume as ft3/lb to 0.0001"#,
            13.849,
            0.01,
        ),
        (
            r#"moist_air(80 degF, wet_bulb = 67 degF, atmosphere = 12.228 psia).volume as ft3/lb to 0.0001"#,
            16.722,
            0.01,
        ),
        (
            r#"airflow_for(12000 Btu/h, 20 F°, dry_bulb = 70 degF, relative_humidity = 0 %, atmosphere = 14.696 psia) as cfm to 0.1"#,
            555.6,
            4.0,
        ),
        (
            r#"sensible_capacity(1200 cfm, 22 F°, dry_bulb = 70 degF, relative_humidity = 0 %, atmosphere = 14.696 psia) as Btu/h to 1"#,
            28512.0,
            150.0,
        ),
        (
            r#"coil_capacity(1200 cfm, 80 degF, 67 degF, 58 degF, 56.5 degF, atmosphere = 14.696 psia).total as Btu/h to 1"#,
            38168.82937396202,
            400.0,
        ),
    ]);
}

/// Dry air, and example 1 read off the chart: ASHRAE Handbook—Fundamentals 2017 by a public test suite and 2021, chapter 1.
#[test]
fn dry_air_and_example_one() {
    held(&[
        (
            r#"moist_air(25 degC, relative_humidity = 0 %, atmosphere = 101.325 kPaa).enthalpy as kJ/kg to 0.0001"#,
            25.148,
            0.01,
        ),
        (
            r#"moist_air(25 degC, relative_humidity = 0 %, atmosphere = 101.325 kPaa).volume as m3/kg to 0.00001"#,
            0.8443,
            0.0005,
        ),
        (
            r#"moist_air(77 degF, relative_humidity = 0 %, atmosphere = 14.696 psia).volume as ft3/lb to 0.0001"#,
            13.5251,
            0.008,
        ),
        (
            r#"(moist_air(77 degF, relative_humidity = 0 %, atmosphere = 14.696 psia).enthalpy - moist_air(0 degF, relative_humidity = 0 %, atmosphere = 14.696 psia).enthalpy) as Btu/lb to 0.0001"#,
            18.498,
            0.05,
        ),
        (
            r#"moist_air(40 degC, wet_bulb = 20 degC, atmosphere = 101.325 kPaa).humidity_ratio as g/kg to 0.01"#,
            6.5,
            0.15,
        ),
        (r#"moist_air(40 degC, wet_bulb = 20 degC, atmosphere = 101.325 kPaa).dew_point as degC to 0.01"#, 7.0, 0.5),
        (
            r#"moist_air(40 degC, wet_bulb = 20 degC, atmosphere = 101.325 kPaa).volume as m3/kg to 0.0001"#,
            0.896,
            0.0006,
        ),
        (r#"moist_air(100 degF, wet_bulb = 65 degF, atmosphere = 14.696 psia).humidity_ratio * 1e5"#, 523.0, 6.0),
        (r#"moist_air(100 degF, wet_bulb = 65 degF, atmosphere = 14.696 psia).dew_point as degF to 0.01"#, 40.0, 0.7),
        (
            r#"moist_air(100 degF, wet_bulb = 65 degF, atmosphere = 14.696 psia).relative_humidity as % to 0.01"#,
            13.0,
            0.5,
        ),
        (r#"moist_air(100 degF, wet_bulb = 65 degF, atmosphere = 14.696 psia).volume as ft3/lb to 0.001"#, 14.22, 0.02),
        (
            r#"moist_air(20 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).enthalpy as kJ/kg to 0.001"#,
            57.558,
            0.58,
        ),
    ]);
}

/// Example 2 of the same chapter: 10 m3/s of saturated air of 2 °C heated to 40 °C; and its charts for the sea and for 1500 m.
#[test]
fn example_two_and_altitude() {
    held(&[
        (
            r#"moist_air(2 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).enthalpy as kJ/kg to 0.001"#,
            13.0,
            0.1,
        ),
        (
            r#"moist_air(2 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa).volume as m3/kg to 0.0001"#,
            0.785,
            0.0006,
        ),
        (
            r#"sensible_capacity(10 m3/s, 38 C°, dry_bulb = 2 degC, relative_humidity = 100 %, atmosphere = 101.325 kPaa) as kW to 0.1"#,
            490.0,
            2.0,
        ),
        (r#"moist_air(40 degC, wet_bulb = 30 degC, atmosphere = 101.325 kPaa).enthalpy as kJ/kg to 0.01"#, 99.5, 0.4),
        (
            r#"moist_air(40 degC, wet_bulb = 30 degC, atmosphere = 101.325 kPaa).humidity_ratio as g/kg to 0.01"#,
            23.0,
            0.15,
        ),
        (
            r#"moist_air(40 degC, wet_bulb = 30 degC, atmosphere = 101.325 kPaa).relative_humidity as % to 0.1"#,
            49.0,
            0.7,
        ),
        (
            r#"moist_air(40 degC, wet_bulb = 30 degC, atmosphere = 101.325 kPaa).volume as m3/kg to 0.0001"#,
            0.92,
            0.0015,
        ),
        (r#"moist_air(40 degC, wet_bulb = 30 degC, atmosphere = 84.556 kPaa).enthalpy as kJ/kg to 0.01"#, 114.1, 0.6),
        (
            r#"moist_air(40 degC, wet_bulb = 30 degC, atmosphere = 84.556 kPaa).humidity_ratio as g/kg to 0.01"#,
            28.6,
            0.25,
        ),
        (
            r#"moist_air(40 degC, wet_bulb = 30 degC, atmosphere = 84.556 kPaa).relative_humidity as % to 0.1"#,
            50.0,
            0.8,
        ),
        (r#"moist_air(40 degC, wet_bulb = 30 degC, atmosphere = 84.556 kPaa).volume as m3/kg to 0.0001"#, 1.111, 0.002),
    ]);
}

/// By PsychroLib, inch–pound: enthalpy counts there from dry air of 0 °F.
#[test]
fn rooms_in_inch_pound() {
    held(&[
        (
            r#"(moist_air(80 degF, wet_bulb = 67 degF, atmosphere = 14.696 psia).enthalpy - moist_air(0 degF, relative_humidity = 0 %, atmosphere = 14.696 psia).enthalpy) as Btu/lb to 0.0001"#,
            31.447,
            0.06,
        ),
        (r#"moist_air(80 degF, wet_bulb = 67 degF, atmosphere = 14.696 psia).humidity_ratio * 1e6"#, 11169.0, 25.0),
        (
            r#"(moist_air(80 degF, wet_bulb = 67 degF, atmosphere = 12.228 psia).enthalpy - moist_air(0 degF, relative_humidity = 0 %, atmosphere = 12.228 psia).enthalpy) as Btu/lb to 0.0001"#,
            34.656,
            0.07,
        ),
        (r#"moist_air(80 degF, wet_bulb = 67 degF, atmosphere = 12.228 psia).humidity_ratio * 1e6"#, 14095.0, 30.0),
        (
            r#"(moist_air(95 degF, wet_bulb = 75 degF, atmosphere = 14.696 psia).enthalpy - moist_air(0 degF, relative_humidity = 0 %, atmosphere = 14.696 psia).enthalpy) as Btu/lb to 0.0001"#,
            38.316,
            0.07,
        ),
        (r#"moist_air(95 degF, wet_bulb = 75 degF, atmosphere = 14.696 psia).humidity_ratio * 1e6"#, 14065.0, 30.0),
        (
            r#"moist_air(95 degF, wet_bulb = 75 degF, atmosphere = 14.696 psia).relative_humidity as % to 0.01"#,
            39.8,
            0.2,
        ),
        (
            r#"(moist_air(100 degF, wet_bulb = 65 degF, atmosphere = 14.696 psia).enthalpy - moist_air(0 degF, relative_humidity = 0 %, atmosphere = 14.696 psia).enthalpy) as Btu/lb to 0.0001"#,
            29.8,
            0.06,
        ),
    ]);
}

/// Worked by hand: how density falls with altitude alone, and 10 kW at 11 K in air of 1.2 kg/m3.
#[test]
fn density_by_altitude() {
    held(&[
        (r#"absolute(standard_atmosphere(1000 ft)) / absolute(standard_atmosphere(0 ft))"#, 0.9644, 0.0002),
        (r#"absolute(standard_atmosphere(5000 ft)) / absolute(standard_atmosphere(0 ft))"#, 0.8321, 0.0002),
        (r#"absolute(standard_atmosphere(7500 ft)) / absolute(standard_atmosphere(0 ft))"#, 0.7571, 0.0002),
        (r#"absolute(standard_atmosphere(10000 ft)) / absolute(standard_atmosphere(0 ft))"#, 0.6877, 0.0002),
        (r#"1.08 * absolute(standard_atmosphere(5000 ft)) / absolute(standard_atmosphere(0 ft))"#, 0.899, 0.0005),
        (
            r#"airflow_for(10 kW, 11 C°, dry_bulb = 21 degC, relative_humidity = 0 %, atmosphere = 101.325 kPaa) as L/s to 0.1"#,
            753.0,
            1.5,
        ),
    ]);
}

/// ASHRAE Handbook—Fundamentals (2021), chapter 1, table 1, printed to 0.1 °C.
#[test]
fn temperature_of_the_standard_atmosphere() {
    held(&[
        (r#"standard_temperature(-500 m) as degC to 0.01"#, 18.2, 0.051),
        (r#"standard_temperature(0 m) as degC to 0.01"#, 15.0, 0.0),
        (r#"standard_temperature(500 m) as degC to 0.01"#, 11.8, 0.051),
        (r#"standard_temperature(1000 m) as degC to 0.01"#, 8.5, 0.0),
        (r#"standard_temperature(1500 m) as degC to 0.01"#, 5.2, 0.051),
        (r#"standard_temperature(2000 m) as degC to 0.01"#, 2.0, 0.0),
        (r#"standard_temperature(3000 m) as degC to 0.01"#, -4.5, 0.0),
        (r#"standard_temperature(5000 m) as degC to 0.01"#, -17.5, 0.0),
        (r#"standard_temperature(10000 m) as degC to 0.01"#, -50.0, 0.0),
    ]);
}
