//! Pumping down, and leaks.

use super::ask::{answer, held};

/// Worked by hand: t = V/S·ln(p1/p2); hoses by the conductances of vacuum textbooks (from memory).
#[test]
fn pump_down() {
    held(&[
        (
            r#"pull_time(50 L, 5 cfm, 9.53 mm, 1.5 m, 101325 Pa absolute, 500 micron, ideal = true) as s to 0.01"#,
            155.24,
            0.05,
        ),
        (
            r#"pull_time(50 L, 5 cfm, 9.53 mm, 1.5 m, 101325 Pa absolute, 500 micron, ultimate = 15 micron, ideal = true) as s to 0.01"#,
            155.88,
            0.05,
        ),
        (
            r#"pull_time(20 L, 3 cfm, 9.53 mm, 1.5 m, 101325 Pa absolute, 500 micron, ideal = true) as s to 0.01"#,
            103.49,
            0.05,
        ),
        (
            r#"pull_time(100 L, 8 cfm, 9.53 mm, 1.5 m, 101325 Pa absolute, 300 micron, ideal = true) as s to 0.01"#,
            207.58,
            0.05,
        ),
        (r#"pull_time(50 L, 5 cfm, 4.76 mm, 1.5 m, 101325 Pa absolute, 500 micron) as min to 0.01"#, 43.6, 0.5),
        (r#"pull_time(50 L, 5 cfm, 9.53 mm, 1.5 m, 101325 Pa absolute, 500 micron) as min to 0.01"#, 4.9, 0.1),
        (r#"pull_time(50 L, 5 cfm, 12.7 mm, 1.5 m, 101325 Pa absolute, 500 micron) as min to 0.01"#, 3.2, 0.1),
        (r#"equalising_time(1/2 in, 60 m, 10 L, 500 micron) as min to 0.01"#, 6.6, 0.2),
        (r#"equalising_time(3/8 in, 60 m, 10 L, 500 micron) as min to 0.01"#, 24.0, 0.6),
        (r#"dilution_factor(101.325 kPaa, 1500 micron, 3) * 1e9"#, 7.69, 0.01),
    ]);
}

/// Worked by hand: Q = V·dp/dt; molecular and viscous flow with a vapor viscosity of 13.36 µPa·s (CoolProp 8.0.0).
#[test]
fn leaks() {
    held(&[
        (r#"leak_throughput(50 L, 20 micron/min) as Pa·m3/s to 0.0000001"#, 0.002222, 1e-06),
        (
            r#"leak_in_service(2.222e-4 Pa·m3/s, air, 101.325 kPaa, 66.7 Pa absolute, R-32, 2794.78 kPaa).low as kg/year to 0.01"#,
            2.9,
            0.15,
        ),
        (
            r#"leak_in_service(2.222e-4 Pa·m3/s, air, 101.325 kPaa, 66.7 Pa absolute, R-32, 2794.78 kPaa, viscosity = 13.36 uPa·s).high as kg/year to 0.1"#,
            157.0,
            0.5,
        ),
    ]);
}

/// Worked by hand: what is left of the air after one pull to 500 micron, and after pulls to 1500, 1500 and 500 micron.
#[test]
fn dilution() {
    held(&[
        (r#"dilution_factor(101.325 kPaa, 500 micron, 1) * 1e6"#, 658.0, 0.5),
        (
            r#"dilution_factor(101.325 kPaa, 1500 micron, 2) * dilution_factor(101.325 kPaa, 500 micron, 1) * 1e11"#,
            256.0,
            1.0,
        ),
    ]);
}

/// Worked by hand: throughput as mass at 20 °C in a year of 365.25 days, and the leak of 1 g a year at 0 °C.
#[test]
fn throughput_as_mass() {
    held(&[
        (
            r#"1e-6 Pa·m3/s * molar_mass(R-410A) / (8.314462618 J/(mol·K) * absolute(20 degC)) * 365.25 day as g to 0.00001"#,
            0.93979,
            0.0002,
        ),
        (
            r#"1e-6 Pa·m3/s * molar_mass(R-32) / (8.314462618 J/(mol·K) * absolute(20 degC)) * 365.25 day as g to 0.00001"#,
            0.67357,
            5e-05,
        ),
        (
            r#"1e-6 Pa·m3/s * molar_mass(R-134a) / (8.314462618 J/(mol·K) * absolute(20 degC)) * 365.25 day as g to 0.00001"#,
            1.32104,
            5e-05,
        ),
        (
            r#"1 g / 365.25 day * 8.314462618 J/(mol·K) * absolute(0 degC) / molar_mass(R-410A) * 1e11 as Pa·m3/s"#,
            99148.0,
            15.0,
        ),
        (
            r#"1 g / 365.25 day * 8.314462618 J/(mol·K) * absolute(0 degC) / molar_mass(R-22) * 1e11 as Pa·m3/s"#,
            83229.0,
            5.0,
        ),
        (
            r#"1 oz / 365.25 day * 8.314462618 J/(mol·K) * absolute(0 degC) / molar_mass(R-134a) / 101325 Pa * 1e8 as cm3/s"#,
            19734.0,
            5.0,
        ),
        (
            r#"leak_throughput(50 L, 20 micron/min) * 0.0289647 kg/mol / (8.314462618 J/(mol·K) * absolute(20 degC)) * 365.25 day as kg to 0.001"#,
            0.83,
            0.005,
        ),
    ]);
}

/// The same of air, nitrogen and helium, worked by hand.
#[test]
fn throughput_of_gases() {
    held(&[
        (
            r#"1e-6 Pa·m3/s * 0.0289647 kg/mol / (8.314462618 J/(mol·K) * absolute(20 degC)) * 365.25 day as g to 0.00001"#,
            0.37502,
            5e-05,
        ),
        (
            r#"1e-6 Pa·m3/s * 0.02801348 kg/mol / (8.314462618 J/(mol·K) * absolute(20 degC)) * 365.25 day as g to 0.00001"#,
            0.3627,
            5e-05,
        ),
        (
            r#"1e-6 Pa·m3/s * 0.004002602 kg/mol / (8.314462618 J/(mol·K) * absolute(20 degC)) * 365.25 day as g to 0.00001"#,
            0.051823,
            5e-05,
        ),
    ]);
}

/// A public encyclopedia's table for air at room temperature: 68 nm at 1013 hPa, 0.1 to 100 mm between 1 and 0.001 hPa. By
/// hand: 66.66 Pa (500 micron) is 0.1 mm, a hundredth of a hose of 9.53 mm.
#[test]
fn free_paths_and_flow() {
    held(&[
        (r#"flow_regime(10 mm, 101325 Pa absolute).free_path as mm to 0.0000001"#, 68e-6, 3e-6),
        (r#"flow_regime(10 mm, 100 Pa absolute).free_path as mm to 0.0001"#, 0.068, 0.003),
        (r#"flow_regime(10 mm, 0.1 Pa absolute).free_path as mm to 0.1"#, 68.0, 3.0),
        (r#"flow_regime(9.53 mm, 500 micron).knudsen"#, 0.01047, 0.0001),
    ]);
    for (bore, pressure, expected) in [
        ("9.53 mm", "1000 micron", "viscous"),
        ("9.53 mm", "100 micron", "transitional"),
        ("0.01 mm", "1 Pa absolute", "molecular"),
    ] {
        assert_eq!(answer(&format!("answer = flow_regime({bore}, {pressure}).regime\n")), expected);
    }
}
