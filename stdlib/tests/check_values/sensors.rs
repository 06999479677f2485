//! Sensors, transmitters, lamps.

use super::ask::held;

/// Beta and Steinhart–Hart formulas, worked by hand.
#[test]
fn thermistors() {
    held(&[
        (r#"thermistor_temperature(33620.6 ohm, 10 kohm, 3950 K, "25/85") as degC to 0.0001"#, 0.0, 0.0006),
        (r#"thermistor_temperature(20174.6 ohm, 10 kohm, 3950 K, "25/85") as degC to 0.0001"#, 10.0, 0.0006),
        (r#"thermistor_temperature(5301.47 ohm, 10 kohm, 3950 K, "25/85") as degC to 0.0001"#, 40.0, 0.0006),
        (r#"thermistor_temperature(2486.16 ohm, 10 kohm, 3950 K, "25/85") as degC to 0.0001"#, 60.0, 0.0006),
        (r#"thermistor_temperature(933.58 ohm, 10 kohm, 3950 K, "25/85") as degC to 0.0001"#, 90.0, 0.0006),
        (r#"thermistor_temperature(20000 ohm, 10 kohm, 3950 K, "25/85") as degC to 0.0001"#, 10.1765, 0.0006),
        (r#"thermistor_temperature(5000 ohm, 10 kohm, 3950 K, "25/85") as degC to 0.0001"#, 41.4602, 0.0006),
        (r#"thermistor_temperature(28704.3 ohm, 10 kohm, 3435 K, "25/85") as degC to 0.0001"#, 0.0, 0.0006),
        (r#"thermistor_temperature(5758.76 ohm, 10 kohm, 3435 K, "25/85") as degC to 0.0001"#, 40.0, 0.0006),
        (r#"thermistor_temperature(17777.8 ohm, 10 kohm, 3950 K, "25/85") as degC to 0.0001"#, 12.5906, 0.0006),
        (
            r#"thermistor_by_points(15000 ohm, 25 kohm, 5 degC, 10 kohm, 25 degC, 4 kohm, 45 degC) as degC to 0.0001"#,
            16.1336,
            0.0002,
        ),
        (
            r#"thermistor_by_points(6000 ohm, 25 kohm, 5 degC, 10 kohm, 25 degC, 4 kohm, 45 degC) as degC to 0.0001"#,
            36.1674,
            0.0002,
        ),
        (
            r#"thermistor_by_points(5 kohm, 32650.8 ohm, 0 degC, 10 kohm, 25 degC, 1751.6 ohm, 70 degC) as degC to 0.0001"#,
            41.5725,
            0.0003,
        ),
    ]);
}

/// IEC 60751 by public test files; in between by its polynomial.
#[test]
fn platinum() {
    held(&[
        (r#"platinum_temperature(60.2558 ohm) as degC to 0.0001"#, -100.0, 0.0006),
        (r#"platinum_temperature(80.3063 ohm) as degC to 0.0001"#, -50.0, 0.0006),
        (r#"platinum_temperature(92.1599 ohm) as degC to 0.0001"#, -20.0, 0.0006),
        (r#"platinum_temperature(100 ohm) as degC to 0.0001"#, 0.0, 0.0006),
        (r#"platinum_temperature(107.7935 ohm) as degC to 0.0001"#, 20.0, 0.0006),
        (r#"platinum_temperature(109.7347 ohm) as degC to 0.0001"#, 25.0, 0.0006),
        (r#"platinum_temperature(115.5408 ohm) as degC to 0.0001"#, 40.0, 0.0006),
        (r#"platinum_temperature(123.2419 ohm) as degC to 0.0001"#, 60.0, 0.0006),
        (r#"platinum_temperature(138.5055 ohm) as degC to 0.0001"#, 100.0, 0.0006),
        (r#"platinum_temperature(175.856 ohm) as degC to 0.0001"#, 200.0, 0.0006),
        (r#"platinum_temperature(108.5 ohm) as degC to 0.0001"#, 21.8189, 0.0006),
    ]);
}

/// Worked by hand.
#[test]
fn transmitters_and_lamps() {
    held(&[
        (r#"scaled(12 mA, 4 mA .. 20 mA, 0 bar .. 50 bar) as bar to 0.0001"#, 25.0, 1e-09),
        (r#"scaled(9.6 mA, 4 mA .. 20 mA, -1 bar .. 39 bar) as bar to 0.0001"#, 13.0, 1e-09),
        (r#"scaled(2.5 V, 0.5 V .. 4.5 V, 0 bar .. 50 bar) as bar to 0.0001"#, 25.0, 1e-09),
        (r#"scaled_voltage(1.92 V, 4.95 V) * 50"#, 17.9924, 0.0001),
        (r#"scaled_voltage(0.62 V, 5 V) * 46"#, 1.38, 0.001),
    ]);
}

/// Worked by hand: a sensor of 1000 Ω, a ratiometric transmitter read against its true and an assumed supply.
#[test]
fn more_sensors() {
    held(&[
        (r#"platinum_temperature(1085 ohm, 1000 ohm) as degC to 0.0001"#, 21.8189, 0.0003),
        (r#"scaled_voltage(1.92 V, 5 V) * 50"#, 17.75, 0.0001),
        (r#"10 kohm * 3.2 V / (5 V - 3.2 V) as ohm to 0.1"#, 17777.8, 0.05),
    ]);
}

/// IEC 60751's classes, from memory, worked by hand.
#[test]
fn classes_of_platinum() {
    held(&[
        (r#"platinum_tolerance(0 degC, "AA") as C° to 0.0001"#, 0.1, 1e-9),
        (r#"platinum_tolerance(100 degC, "AA") as C° to 0.0001"#, 0.27, 1e-9),
        (r#"platinum_tolerance(100 degC, "A") as C° to 0.0001"#, 0.35, 1e-9),
        (r#"platinum_tolerance(-20 degC, "A") as C° to 0.0001"#, 0.19, 1e-9),
        (r#"platinum_tolerance(100 degC, "B") as C° to 0.0001"#, 0.8, 1e-9),
        (r#"platinum_tolerance(-50 degC, "B") as C° to 0.0001"#, 0.55, 1e-9),
        (r#"platinum_tolerance(100 degC, "C") as C° to 0.0001"#, 1.6, 1e-9),
        (r#"platinum_tolerance(-100 degC, "B", element = "wound wire") as C° to 0.0001"#, 0.8, 1e-9),
    ]);
}
