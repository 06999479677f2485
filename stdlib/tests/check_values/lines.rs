//! Flow in lines.

use super::ask::held;

/// Colebrook through the open library fluids 1.3.1; a suction line worked independently with fixed viscosity; head
/// by CoolProp 8.0.0.
#[test]
fn friction_and_head() {
    held(&[
        (r#"(friction_factor(1e5, 1e-4) - 0.0185) * 1e9"#, 13866.1, 0.2),
        (r#"(friction_factor(3.08e5, 7.52294e-5) - 0.0151) * 1e9"#, 46200.0, 60.0),
        (r#"friction_factor(1000, 0)"#, 0.064, 1e-09),
        (
            r#"line_drop(R-410A, "vapor", 5/8 in, 30 m, 0.060270 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s, temper = "annealed").velocity as m/s to 0.0001"#,
            11.399,
            0.114,
        ),
        (
            r#"line_drop(R-410A, "vapor", 5/8 in, 30 m, 0.060270 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s, temper = "annealed").friction as kPa to 0.0001"#,
            69.05,
            0.691,
        ),
        (
            r#"line_drop(R-410A, "vapor", 5/8 in, 30 m, 0.060270 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s, temper = "annealed").penalty as C° to 0.0001"#,
            2.482,
            0.0248,
        ),
        (
            r#"line_drop(R-410A, "vapor", 3/4 in, 30 m, 0.060270 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s, temper = "annealed").velocity as m/s to 0.0001"#,
            7.593,
            0.0759,
        ),
        (
            r#"line_drop(R-410A, "vapor", 3/4 in, 30 m, 0.060270 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s, temper = "annealed").friction as kPa to 0.0001"#,
            25.35,
            0.254,
        ),
        (
            r#"line_drop(R-410A, "vapor", 3/4 in, 30 m, 0.060270 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s, temper = "annealed").penalty as C° to 0.0001"#,
            0.895,
            0.00895,
        ),
        (
            r#"line_drop(R-410A, "vapor", 7/8 in, 30 m, 0.060270 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s, temper = "annealed").velocity as m/s to 0.0001"#,
            5.698,
            0.057,
        ),
        (
            r#"line_drop(R-410A, "vapor", 7/8 in, 30 m, 0.060270 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s, temper = "annealed").friction as kPa to 0.0001"#,
            12.53,
            0.125,
        ),
        (
            r#"line_drop(R-410A, "vapor", 7/8 in, 30 m, 0.060270 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s, temper = "annealed").penalty as C° to 0.0001"#,
            0.44,
            0.0044,
        ),
        (r#"oil_return_velocity(R-410A, 7/8 in, 933.18 kPaa, 13 degC) as m/s to 0.0001"#, 1.661, 0.005),
        (r#"oil_return_velocity(R-134a, 1-1/8 in, 349.66 kPaa, 13 degC) as m/s to 0.0001"#, 2.751, 0.01),
        (r#"static_head(R-410A, 1 m, 40 degC) as kPa to 0.0001"#, 9.569, 0.02),
        (r#"static_head(R-32, 1 m, 40 degC) as kPa to 0.0001"#, 8.758, 0.005),
        (r#"static_head(R-134a, 1 m, 40 degC) as kPa to 0.0001"#, 11.246, 0.005),
        (r#"static_head(R-22, 1 m, 40 degC) as kPa to 0.0001"#, 11.067, 0.005),
    ]);
}

/// ASHRAE Handbook—Refrigeration, chapter 1, from memory: feet of each fitting.
#[test]
fn equivalent_lengths() {
    held(&[
        (r#"equivalent_length(3/8 in, 0 ft, elbows = 1) as ft to 0.001"#, 1.4, 0.001),
        (r#"equivalent_length(3/8 in, 0 ft, long_elbows = 1) as ft to 0.001"#, 0.9, 0.001),
        (r#"equivalent_length(3/8 in, 0 ft, elbows_45 = 1) as ft to 0.001"#, 0.7, 0.001),
        (r#"equivalent_length(3/8 in, 0 ft, tees = 1) as ft to 0.001"#, 2.7, 0.001),
        (r#"equivalent_length(1/2 in, 0 ft, elbows = 1) as ft to 0.001"#, 1.6, 0.001),
        (r#"equivalent_length(1/2 in, 0 ft, long_elbows = 1) as ft to 0.001"#, 1.0, 0.001),
        (r#"equivalent_length(1/2 in, 0 ft, elbows_45 = 1) as ft to 0.001"#, 0.8, 0.001),
        (r#"equivalent_length(1/2 in, 0 ft, tees = 1) as ft to 0.001"#, 3.0, 0.001),
        (r#"equivalent_length(3/4 in, 0 ft, elbows = 1) as ft to 0.001"#, 2.0, 0.001),
        (r#"equivalent_length(3/4 in, 0 ft, long_elbows = 1) as ft to 0.001"#, 1.4, 0.001),
        (r#"equivalent_length(3/4 in, 0 ft, elbows_45 = 1) as ft to 0.001"#, 0.9, 0.001),
        (r#"equivalent_length(3/4 in, 0 ft, tees = 1) as ft to 0.001"#, 4.0, 0.001),
    ]);
}

/// Reynolds numbers and friction factors of the same line, worked independently with 12.5 µPa·s.
#[test]
fn the_same_line_inside() {
    held(&[
        (
            r#"line_drop(R-410A, "vapor", 5/8 in, 30 m, 0.060270 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s).reynolds"#,
            435489.0,
            870.9780000000001,
        ),
        (
            r#"line_drop(R-410A, "vapor", 3/4 in, 30 m, 0.060270 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s).reynolds"#,
            355436.0,
            710.8720000000001,
        ),
        (
            r#"line_drop(R-410A, "vapor", 7/8 in, 30 m, 0.060270 kg/s, 933.18 kPaa, 13 degC, viscosity = 12.5 uPa·s).reynolds"#,
            307894.0,
            615.788,
        ),
        (r#"friction_factor(435489, 1.5e-6 / 0.014097)"#, 0.014743, 1.5e-05),
        (r#"friction_factor(355436, 1.5e-6 / 0.017272)"#, 0.014943, 1.5e-05),
        (r#"friction_factor(307894, 1.5e-6 / 0.019939)"#, 0.015147, 1.5e-05),
    ]);
}

/// Other published formulas lie within 2 % of Colebrook's: Haaland, Churchill, Swamee and Jain at Re 1e5 and 1e-4, Churchill and
/// Haaland at 3.08e5 (worked with the open library fluids 1.3.1).
#[test]
fn other_friction_formulas() {
    held(&[
        (r#"friction_factor(1e5, 1e-4)"#, 0.0182651, 0.00037),
        (r#"friction_factor(1e5, 1e-4)"#, 0.0184626, 0.00037),
        (r#"friction_factor(1e5, 1e-4)"#, 0.0184524, 0.00037),
        (r#"friction_factor(3.08e5, 7.52294e-5)"#, 0.0151418, 0.0003),
        (r#"friction_factor(3.08e5, 7.52294e-5)"#, 0.0149501, 0.0003),
    ]);
}

/// Slope of the dew line, K/kPa and F°/psi: CoolProp 8.0.0.
#[test]
fn saturation_penalty() {
    held(&[
        (
            r#"(dew_temperature(R-410A, 933.68 kPaa) - dew_temperature(R-410A, 932.68 kPaa)) as C° to 0.000001"#,
            0.03493,
            0.00020958,
        ),
        (
            r#"(dew_temperature(R-410A, 936.6274 kPaa) - dew_temperature(R-410A, 929.7326 kPaa)) as F° to 0.00001"#,
            0.4335,
            0.002601,
        ),
        (
            r#"(dew_temperature(R-32, 951.95 kPaa) - dew_temperature(R-32, 950.95 kPaa)) as C° to 0.000001"#,
            0.03409,
            0.00020454000000000002,
        ),
        (
            r#"(dew_temperature(R-32, 954.8974 kPaa) - dew_temperature(R-32, 948.0026 kPaa)) as F° to 0.00001"#,
            0.423,
            0.002538,
        ),
        (
            r#"(dew_temperature(R-134a, 350.16 kPaa) - dew_temperature(R-134a, 349.16 kPaa)) as C° to 0.000001"#,
            0.08226,
            0.00049356,
        ),
        (
            r#"(dew_temperature(R-134a, 353.1074 kPaa) - dew_temperature(R-134a, 346.2126 kPaa)) as F° to 0.00001"#,
            1.0209,
            0.0061254,
        ),
        (
            r#"(dew_temperature(R-22, 584.61 kPaa) - dew_temperature(R-22, 583.61 kPaa)) as C° to 0.000001"#,
            0.05474,
            0.00032844,
        ),
        (
            r#"(dew_temperature(R-22, 587.5574 kPaa) - dew_temperature(R-22, 580.6626 kPaa)) as F° to 0.00001"#,
            0.6793,
            0.0040758,
        ),
        (
            r#"(dew_temperature(R-410A, 2726.63 kPaa) - dew_temperature(R-410A, 2725.63 kPaa)) as C° to 0.000001"#,
            0.01554,
            9.324000000000001e-05,
        ),
        (
            r#"(dew_temperature(R-32, 2795.28 kPaa) - dew_temperature(R-32, 2794.28 kPaa)) as C° to 0.000001"#,
            0.0151,
            9.06e-05,
        ),
        (
            r#"(dew_temperature(R-134a, 1160.42 kPaa) - dew_temperature(R-134a, 1159.42 kPaa)) as C° to 0.000001"#,
            0.03322,
            0.00019932,
        ),
        (
            r#"(dew_temperature(R-22, 1729.71 kPaa) - dew_temperature(R-22, 1728.71 kPaa)) as C° to 0.000001"#,
            0.02446,
            0.00014676,
        ),
    ]);
}

/// Jacobs and others (1976), from memory: velocity in ft/min and mass flux; densities by CoolProp 8.0.0.
#[test]
fn oil_return() {
    held(&[
        (r#"oil_return_velocity(R-410A, 7/8 in, 933.18 kPaa, 13 degC) as fpm to 0.1"#, 327.0, 1.0),
        (r#"oil_return_velocity(R-134a, 1-1/8 in, 349.66 kPaa, 13 degC) as fpm to 0.1"#, 542.0, 2.0),
        (
            r#"oil_return_velocity(R-410A, 7/8 in, 933.18 kPaa, 13 degC) * refrigerant_state(R-410A, 933.18 kPaa, 13 degC).density as kg/(m2·s) to 0.001"#,
            56.28,
            0.25,
        ),
        (
            r#"oil_return_velocity(R-134a, 1-1/8 in, 349.66 kPaa, 13 degC) * refrigerant_state(R-134a, 349.66 kPaa, 13 degC).density as kg/(m2·s) to 0.001"#,
            45.23,
            0.15,
        ),
    ]);
}

/// Head of liquid at 40 °C in psi/ft, and what 10 m of it cost in subcooling; 50 m of R-32: CoolProp 8.0.0.
#[test]
fn what_a_rise_costs() {
    held(&[
        (r#"static_head(R-410A, 1 ft, 40 degC) as psi to 0.00001"#, 0.423, 0.001),
        (r#"static_head(R-32, 1 ft, 40 degC) as psi to 0.00001"#, 0.3872, 0.0003),
        (r#"static_head(R-134a, 1 ft, 40 degC) as psi to 0.00001"#, 0.4971, 0.0003),
        (r#"static_head(R-22, 1 ft, 40 degC) as psi to 0.00001"#, 0.4892, 0.0003),
        (r#"liquid_margin(R-410A, bubble_pressure(R-410A, 40 degC), 40 degC, 10 m).left as C° to 0.001"#, -1.65, 0.02),
        (r#"liquid_margin(R-32, bubble_pressure(R-32, 40 degC), 40 degC, 10 m).left as C° to 0.001"#, -1.47, 0.015),
        (r#"liquid_margin(R-134a, bubble_pressure(R-134a, 40 degC), 40 degC, 10 m).left as C° to 0.001"#, -4.31, 0.03),
        (r#"liquid_margin(R-22, bubble_pressure(R-22, 40 degC), 40 degC, 10 m).left as C° to 0.001"#, -3.04, 0.02),
        (r#"static_head(R-32, 50 m, 40 degC) as kPa to 0.1"#, 438.0, 0.6),
        (r#"liquid_margin(R-32, bubble_pressure(R-32, 40 degC), 40 degC, 50 m).left as C° to 0.01"#, -7.8, 0.06),
    ]);
}

/// The same table, larger lines.
#[test]
fn longer_equivalents() {
    held(&[
        (r#"equivalent_length(1 in, 0 ft, elbows = 1) as ft to 0.001"#, 2.6, 0.001),
        (r#"equivalent_length(1 in, 0 ft, long_elbows = 1) as ft to 0.001"#, 1.7, 0.001),
        (r#"equivalent_length(1 in, 0 ft, elbows_45 = 1) as ft to 0.001"#, 1.3, 0.001),
        (r#"equivalent_length(1 in, 0 ft, tees = 1) as ft to 0.001"#, 5.0, 0.001),
        (r#"equivalent_length(1-1/4 in, 0 ft, elbows = 1) as ft to 0.001"#, 3.3, 0.001),
        (r#"equivalent_length(1-1/4 in, 0 ft, long_elbows = 1) as ft to 0.001"#, 2.3, 0.001),
        (r#"equivalent_length(1-1/4 in, 0 ft, elbows_45 = 1) as ft to 0.001"#, 1.7, 0.001),
        (r#"equivalent_length(1-1/4 in, 0 ft, tees = 1) as ft to 0.001"#, 7.0, 0.001),
        (r#"equivalent_length(1-1/2 in, 0 ft, elbows = 1) as ft to 0.001"#, 4.0, 0.001),
        (r#"equivalent_length(1-1/2 in, 0 ft, long_elbows = 1) as ft to 0.001"#, 2.6, 0.001),
        (r#"equivalent_length(1-1/2 in, 0 ft, elbows_45 = 1) as ft to 0.001"#, 2.1, 0.001),
        (r#"equivalent_length(1-1/2 in, 0 ft, tees = 1) as ft to 0.001"#, 8.0, 0.001),
        (r#"equivalent_length(2 in, 0 ft, elbows = 1) as ft to 0.001"#, 5.0, 0.001),
        (r#"equivalent_length(2 in, 0 ft, long_elbows = 1) as ft to 0.001"#, 3.3, 0.001),
        (r#"equivalent_length(2 in, 0 ft, elbows_45 = 1) as ft to 0.001"#, 2.6, 0.001),
        (r#"equivalent_length(2 in, 0 ft, tees = 1) as ft to 0.001"#, 10.0, 0.001),
    ]);
}
