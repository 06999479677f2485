//! Three-phase supplies.

use super::ask::held;

/// NEMA MG 1 example by a public page (1.96 %); a motor tip sheet (1.1, 2.3 %) from memory; power worked by hand.
#[test]
fn three_phase() {
    held(&[
        (r#"voltage_unbalance(460 V, 467 V, 450 V) as % to 0.0001"#, 1.9608, 0.0001),
        (r#"voltage_unbalance(462 V, 463 V, 455 V) as % to 0.0001"#, 1.087, 0.0001),
        (r#"voltage_unbalance(220 V, 215 V, 210 V) as % to 0.0001"#, 2.3256, 0.0001),
        (r#"current_unbalance(22.1 A, 24.0 A, 25.4 A) as % to 0.0001"#, 7.273, 0.001),
        (r#"motor_derating(1 %) as % to 0.1"#, 100.0, 0.0),
        (r#"motor_derating(2 %) as % to 0.1"#, 95.0, 1.0),
        (r#"motor_derating(3 %) as % to 0.1"#, 89.0, 1.1),
        (r#"motor_derating(4 %) as % to 0.1"#, 82.0, 1.0),
        (r#"motor_derating(5 %) as % to 0.1"#, 75.0, 1.0),
        (r#"three_phase_power(400 V, 20 A, 0.9) as W to 0.1"#, 12470.8, 0.1),
        (r#"three_phase_power(208 V, 30 A, 0.85) as W to 0.1"#, 9186.8, 0.1),
        (r#"three_phase_power(460 V, 17.5 A, 0.92) as W to 0.1"#, 12827.6, 0.1),
        (r#"bus_voltage(208 V).peak as V to 0.01"#, 294.16, 0.01),
        (r#"bus_voltage(230 V).peak as V to 0.01"#, 325.27, 0.01),
        (r#"bus_voltage(400 V).peak as V to 0.01"#, 565.69, 0.01),
        (r#"bus_voltage(460 V).peak as V to 0.01"#, 650.54, 0.01),
        (r#"bus_voltage(400 V).loaded as V to 0.01"#, 540.19, 0.02),
        (r#"voltage_drop(30 m, 20 A, 4 mm2, "one", conductor_temperature = 20 degC) as V to 0.001"#, 5.172, 0.002),
        (r#"voltage_drop(30 m, 20 A, 4 mm2, "one", conductor_temperature = 70 degC) as V to 0.001"#, 6.189, 0.003),
        (r#"voltage_drop(30 m, 20 A, 4 mm2, "three", conductor_temperature = 20 degC) as V to 0.001"#, 4.479, 0.002),
    ]);
}

/// The inch form of voltage drop, 2·K·I·L/CM with K = 12.9 Ω·cmil/ft, worked by hand; its K is that of copper at 82 °C, so
/// that at 75 °C the cable loses 2.2 % less.
#[test]
fn voltage_drop_in_circular_mils() {
    held(&[
        (r#"2 * 12.9 ohm * 20 A * 100 / 10380 as V to 0.001"#, 4.971, 0.0006),
        (
            r#"voltage_drop(100 ft, 20 A, 10380 cmil, "one", conductor_temperature = 82 degC) as V to 0.001"#,
            4.971,
            0.002,
        ),
        (
            r#"voltage_drop(100 ft, 20 A, 10380 cmil, "one", conductor_temperature = 75 degC) as V to 0.001"#,
            4.971,
            0.12,
        ),
    ]);
}

/// 200 mΩ at 20 °C, 210 mΩ in air of 25 °C with 235 K: 7.75 K, a resistance meter's worked example of IEC 60034's method.
/// Copper gains 0.00393 of its resistance at 20 °C for each kelvin (IEC 60028): 55 K make 1.21615 times as much.
/// Twice the square of 3.5 % of unbalance is a quarter more, as motor tip sheets say (from memory).
#[test]
fn windings_that_ran() {
    held(&[
        (
            r#"winding_rise(0.200 ohm, 0.210 ohm, 20 degC, 25 degC, metal_constant = 235 K).rise as C° to 0.0001"#,
            7.75,
            1e-9,
        ),
        (r#"winding_rise(1 ohm, 1.21615 ohm, 20 degC, 20 degC).temperature as degC to 0.001"#, 75.0, 0.02),
        (r#"winding_rise(1.1 ohm, 1.31615 ohm, 20 degC, 20 degC, lead = 0.1 ohm).rise as C° to 0.001"#, 55.0, 0.02),
        (r#"unbalance_heating(3.5 %) as % to 0.1"#, 25.0, 0.6),
    ]);
}
