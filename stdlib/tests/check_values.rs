//! Check values of the trade functions, asked as a sheet asks: expression, what comes out, how far it may be off.
//!
//! Every group names its source. Values that another program computed prove that two programs solve one equation; values
//! printed in papers and handbooks stand in `published_values.rs` too.

#![allow(clippy::unwrap_used, clippy::panic)]

use dewline_lang::job::calculate;

/// The number that an expression is shown as.
fn number(expression: &str) -> Result<f64, String> {
    let library = dewline_stdlib::library();
    let calculated = calculate(&library, expression, None);
    let problems: Vec<String> = calculated.diagnostics.iter().map(|one| one.message.clone()).collect();
    let shown = calculated.answers.first().map(|(_, shown)| shown.clone()).ok_or_else(|| problems.join("; "))?;
    shown.split(' ').next().and_then(|first| first.parse().ok()).ok_or(shown)
}

fn held(rows: &[(&str, f64, f64)]) {
    let wrong: Vec<String> = rows
        .iter()
        .filter_map(|(expression, expected, allowed)| match number(expression) {
            Ok(found) if (found - expected).abs() <= *allowed => None,
            Ok(found) => Some(format!("{expression}: {found}, not {expected} ± {allowed}")),
            Err(problem) => Some(format!("{expression}: {problem}")),
        })
        .collect();
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), rows.len(), wrong.join("\n"));
}

/// Saturation by the published equations through CoolProp 8.0.0, barometer 14.696 psia; tolerance 0.1 °F.
#[test]
fn superheat_and_subcooling() {
    held(&[
        (r#"superheat(R-410A, 118 psig, 52 degF) as F° to 0.001"#, 12.16, 0.1),
        (r#"subcooling(R-410A, 350 psig, 95 degF) as F° to 0.001"#, 11.68, 0.1),
        (r#"superheat(R-32, 120 psig, 50 degF) as F° to 0.001"#, 10.41, 0.1),
        (r#"superheat(R-407C, 65 psig, 50 degF) as F° to 0.001"#, 8.75, 0.1),
        (r#"subcooling(R-407C, 240 psig, 90 degF) as F° to 0.001"#, 14.3, 0.1),
        (r#"superheat(R-22, 68.5 psig, 50 degF) as F° to 0.001"#, 10.04, 0.1),
        (r#"superheat(R-410A, 936 kPaa, 11 degC) as C° to 0.001"#, 5.9, 0.05),
    ]);
}

/// Mixture models through CoolProp 8.0.0.
#[test]
fn glide_of_blends() {
    held(&[
        (r#"glide(R-454B, 101.325 kPaa) as C° to 0.001"#, 1.21, 0.03),
        (r#"glide(R-454B, 800 kPaa) as C° to 0.001"#, 1.471, 0.03),
        (r#"glide(R-454B, 1000 kPaa) as C° to 0.001"#, 1.495, 0.03),
        (r#"glide(R-454B, 2500 kPaa) as C° to 0.001"#, 1.442, 0.03),
        (r#"glide(R-407C, 101.325 kPaa) as C° to 0.001"#, 6.998, 0.03),
        (r#"glide(R-407C, 800 kPaa) as C° to 0.001"#, 5.847, 0.03),
        (r#"glide(R-407C, 1000 kPaa) as C° to 0.001"#, 5.631, 0.03),
        (r#"glide(R-407C, 2500 kPaa) as C° to 0.001"#, 4.175, 0.03),
        (r#"glide(R-410A, 101.325 kPaa) as C° to 0.001"#, 0.079, 0.03),
        (r#"glide(R-410A, 800 kPaa) as C° to 0.001"#, 0.104, 0.03),
        (r#"glide(R-410A, 1000 kPaa) as C° to 0.001"#, 0.109, 0.03),
    ]);
}

/// ASHRAE Handbook—Fundamentals 2021, chapter 29, table 2: dew less bubble at the normal boiling point, each
/// printed to 0.1 K. The handbook took another mixture model: up to 0.5 K apart.
#[test]
fn glide_of_the_handbook() {
    held(&[
        (r#"glide(R-407C, 101.325 kPaa) as C° to 0.001"#, 7.1, 0.15),
        (r#"glide(R-454B, 101.325 kPaa) as C° to 0.001"#, 0.9, 0.35),
        (r#"glide(R-454A, 101.325 kPaa) as C° to 0.001"#, 6.8, 0.5),
        (r#"glide(R-448A, 101.325 kPaa) as C° to 0.001"#, 6.1, 0.5),
        (r#"glide(R-410A, 101.325 kPaa) as C° to 0.001"#, 0.1, 0.1),
    ]);
}

/// Worked with CoolProp 8.0.0: a sea-level barometer at 1500 m makes the saturation temperature of R-410A at 5 °C
/// read 0.59 K high.
#[test]
fn site_atmosphere_matters() {
    held(&[
        (r#"dew_temperature(R-410A, 933.18 kPaa) as degC to 0.001"#, 5.0, 0.02),
        (r#"dew_temperature(R-410A, 949.95 kPaa) as degC to 0.001"#, 5.59, 0.02),
    ]);
}

/// Span and others (2000) through CoolProp 8.0.0; ideal: arithmetic.
#[test]
fn nitrogen_at_constant_density() {
    held(&[
        (r#"trapped_pressure(nitrogen, 550 psig, 70 degF, 60 degF, ideal = true) as psig to 0.001"#, 539.339, 0.02),
        (r#"trapped_pressure(nitrogen, 550 psig, 70 degF, 60 degF) as psig to 0.001"#, 538.343, 0.02),
        (r#"trapped_pressure(nitrogen, 550 psig, 70 degF, 90 degF, ideal = true) as psig to 0.001"#, 571.323, 0.02),
        (r#"trapped_pressure(nitrogen, 550 psig, 70 degF, 90 degF) as psig to 0.001"#, 573.295, 0.02),
        (r#"trapped_pressure(nitrogen, 600 psig, 75 degF, 55 degF, ideal = true) as psig to 0.001"#, 577.007, 0.02),
        (r#"trapped_pressure(nitrogen, 600 psig, 75 degF, 55 degF) as psig to 0.001"#, 574.72, 0.02),
        (r#"trapped_pressure(nitrogen, 150 psig, 70 degF, 40 degF, ideal = true) as psig to 0.001"#, 140.672, 0.02),
        (r#"trapped_pressure(nitrogen, 150 psig, 70 degF, 40 degF) as psig to 0.001"#, 140.414, 0.02),
        (r#"trapped_pressure(nitrogen, 10 barg, 20 degC, 5 degC) as barg to 0.00001"#, 9.4213, 0.001),
        (r#"trapped_pressure(nitrogen, 10 barg, 20 degC, 5 degC, ideal = true) as barg to 0.00001"#, 9.4365, 0.001),
    ]);
}

/// Span and others (2000) through CoolProp 8.0.0.
#[test]
fn cylinders_of_nitrogen() {
    held(&[
        (r#"cylinder(50 L, 200 bara, 15 degC).mass as kg to 0.0001"#, 11.159, 0.001),
        (r#"cylinder(50 L, 200 bara, 15 degC).free_gas as m3 to 0.0001"#, 9.541, 0.002),
        (r#"cylinder(47 L, 150 bara, 20 degC).mass as kg to 0.0001"#, 7.94, 0.001),
        (r#"cylinder(47 L, 150 bara, 20 degC).free_gas as m3 to 0.0001"#, 6.788, 0.002),
        (r#"cylinder(10 L, 200 bara, 15 degC).mass as kg to 0.0001"#, 2.232, 0.001),
        (r#"cylinder(49.1 L, 2640 psig, 70 degF).mass as kg to 0.0001"#, 9.886, 0.001),
        (r#"gas_needed(25 L, 40 barg, 20 degC).mass as kg to 0.0001"#, 1.1563, 0.0005),
        (r#"gas_needed(25 L, 40 barg, 20 degC).free_gas as m3 to 0.0001"#, 0.9886, 0.0005),
        (r#"stored_energy(25 L, 41.5 barg).energy as kJ to 0.1"#, 174.0, 1.0),
        (r#"stored_energy(60 L, 41.5 barg).energy as kJ to 0.1"#, 419.0, 1.0),
        (r#"oxygen_after_release(25 m3, 9.5 m3).mixed as % to 0.01"#, 14.3, 0.06),
        (r#"oxygen_after_release(25 m3, 9.5 m3).displaced as % to 0.01"#, 13.0, 0.06),
    ]);
}

/// Mass balance, worked by hand from 20.95 % of oxygen.
#[test]
fn purging() {
    held(&[
        (r#"dilution_purge(25 L, 401.325 kPaa, 101.325 kPaa, 3).oxygen as % to 0.0001"#, 0.3372, 0.0003),
        (r#"sweep_purge(4.682 L, 2.3597 L/min, residual = 0.0191 %).longest as min to 0.001"#, 13.89, 0.02),
        (r#"sweep_purge(4.682 L, 2.3597 L/min, residual = 0.0191 %).shortest as min to 0.001"#, 1.98, 0.01),
        (r#"sweep_purge(4.682 L, 3 ft3/h, residual = 0.0191 %).longest as min to 0.001"#, 23.15, 0.05),
        (r#"sweep_purge(4.682 L, 10 ft3/h, residual = 0.0191 %).longest as min to 0.001"#, 6.945, 0.02),
        (r#"sweep_purge(4.682 L, 20 ft3/h, residual = 0.0191 %).longest as min to 0.001"#, 3.473, 0.02),
    ]);
}

/// Bubble pressures of the published equations through CoolProp 8.0.0, bar above 1.01325 bar (R-410A and R-407C
/// there by pseudo-pure equations, here by mixture models).
#[test]
fn design_pressures() {
    held(&[
        (r#"bubble_pressure(R-410A, 55 degC) as barg to 0.001"#, 33.39, 0.03),
        (r#"bubble_pressure(R-410A, 59 degC) as barg to 0.001"#, 36.58, 0.03),
        (r#"bubble_pressure(R-410A, 63 degC) as barg to 0.001"#, 40.01, 0.03),
        (r#"bubble_pressure(R-32, 55 degC) as barg to 0.001"#, 34.19, 0.015),
        (r#"bubble_pressure(R-32, 59 degC) as barg to 0.001"#, 37.46, 0.015),
        (r#"bubble_pressure(R-32, 63 degC) as barg to 0.001"#, 40.98, 0.015),
        (r#"bubble_pressure(R-134a, 55 degC) as barg to 0.001"#, 13.9, 0.015),
        (r#"bubble_pressure(R-134a, 59 degC) as barg to 0.001"#, 15.41, 0.015),
        (r#"bubble_pressure(R-134a, 63 degC) as barg to 0.001"#, 17.03, 0.015),
        (r#"bubble_pressure(R-22, 55 degC) as barg to 0.001"#, 20.74, 0.015),
        (r#"bubble_pressure(R-22, 59 degC) as barg to 0.001"#, 22.74, 0.015),
        (r#"bubble_pressure(R-22, 63 degC) as barg to 0.001"#, 24.88, 0.015),
        (r#"bubble_pressure(R-407C, 55 degC) as barg to 0.001"#, 23.8, 0.06),
        (r#"bubble_pressure(R-407C, 59 degC) as barg to 0.001"#, 26.09, 0.06),
        (r#"bubble_pressure(R-407C, 63 degC) as barg to 0.001"#, 28.53, 0.06),
        (r#"bubble_pressure(R-454B, 55 degC) as barg to 0.001"#, 31.7, 0.06),
        (r#"bubble_pressure(R-454B, 59 degC) as barg to 0.001"#, 34.7, 0.06),
        (r#"bubble_pressure(R-454B, 63 degC) as barg to 0.001"#, 37.9, 0.06),
    ]);
}

/// IAPWS R7-97 and R14-08: releases' check values; ASHRAE Fundamentals 2017, table 3, by a public test suite;
/// iapws.
#[test]
fn water_in_vacuum() {
    held(&[
        (r#"water_boiling_pressure(-60 degC) as Pa to 0.0001"#, 1.08, 0.005),
        (r#"water_boiling_pressure(-20 degC) as Pa to 0.0001"#, 103.24, 0.05),
        (r#"water_boiling_pressure(-5 degC) as Pa to 0.0001"#, 401.74, 0.1),
        (r#"water_boiling_pressure(5 degC) as Pa to 0.0001"#, 872.6, 0.3),
        (r#"water_boiling_pressure(25 degC) as Pa to 0.0001"#, 3169.7, 1.0),
        (r#"water_boiling_pressure(50 degC) as Pa to 0.0001"#, 12351.3, 4.0),
        (r#"water_boiling_pressure(100 degC) as Pa to 0.0001"#, 101418.0, 30.0),
        (r#"water_boiling_pressure(10 degC) as Pa to 0.0001"#, 1228.18, 0.01),
        (r#"water_boiling_pressure(15 degC) as Pa to 0.0001"#, 1705.74, 0.01),
        (r#"water_boiling_pressure(20 degC) as Pa to 0.0001"#, 2339.21, 0.01),
        (r#"water_boiling_pressure(30 degC) as Pa to 0.0001"#, 4246.69, 0.01),
        (r#"water_boiling_pressure(35 degC) as Pa to 0.0001"#, 5628.62, 0.01),
        (r#"water_boiling_pressure(40 degC) as Pa to 0.0001"#, 7384.43, 0.01),
        (r#"water_boiling_pressure(5 degC) as micron to 0.1"#, 6545.0, 1.0),
        (r#"water_boiling_pressure(10 degC) as micron to 0.1"#, 9212.0, 1.0),
        (r#"water_boiling_pressure(15 degC) as micron to 0.1"#, 12794.0, 1.0),
        (r#"water_boiling_pressure(20 degC) as micron to 0.1"#, 17546.0, 1.0),
        (r#"water_boiling_pressure(25 degC) as micron to 0.1"#, 23775.0, 1.0),
        (r#"water_boiling_pressure(30 degC) as micron to 0.1"#, 31853.0, 1.0),
        (r#"water_boiling_temperature(20000 micron) as degC to 0.001"#, 22.13, 0.006),
        (r#"water_boiling_temperature(10000 micron) as degC to 0.001"#, 11.23, 0.006),
        (r#"water_boiling_temperature(5000 micron) as degC to 0.001"#, 1.2, 0.006),
        (r#"water_boiling_temperature(2000 micron) as degC to 0.001"#, -9.71, 0.006),
        (r#"water_boiling_temperature(1000 micron) as degC to 0.001"#, -17.31, 0.006),
        (r#"water_boiling_temperature(500 micron) as degC to 0.001"#, -24.48, 0.006),
        (r#"water_boiling_temperature(250 micron) as degC to 0.001"#, -31.26, 0.006),
        (r#"water_boiling_temperature(100 micron) as degC to 0.001"#, -39.67, 0.006),
        (r#"water_boiling_pressure(-10 degC) as micron to 0.1"#, 1949.0, 6.0),
        (r#"water_boiling_pressure(-15 degC) as micron to 0.1"#, 1240.0, 6.0),
        (r#"water_boiling_pressure(-20 degC) as micron to 0.1"#, 775.0, 6.0),
        (r#"water_boiling_pressure(-24.5 degC) as micron to 0.1"#, 500.0, 6.0),
        (r#"water_boiling_pressure(-30 degC) as micron to 0.1"#, 285.0, 6.0),
    ]);
}

/// 1 micron is 0.133322387415 Pa: conventional mercury of 13 595.1 kg/m3 and standard gravity.
#[test]
fn micron() {
    held(&[
        (r#"20000 micron as Pa to 0.0001"#, 2666.45, 0.0267),
        (r#"5000 micron as Pa to 0.0001"#, 666.612, 0.00667),
        (r#"1000 micron as Pa to 0.0001"#, 133.322, 0.00133),
        (r#"500 micron as Pa to 0.0001"#, 66.6612, 0.000667),
        (r#"100 micron as Pa to 0.0001"#, 13.3322, 0.000133),
    ]);
}

/// Worked by hand: t = V/S·ln(p1/p2); hoses by the conductances of vacuum textbooks (from memory).
#[test]
fn pump_down() {
    held(&[
        (r#"pull_time(50 L, 5 cfm, 9.53 mm, 1.5 m, 101325 Pa, 500 micron, ideal = true) as s to 0.01"#, 155.24, 0.05),
        (
            r#"pull_time(50 L, 5 cfm, 9.53 mm, 1.5 m, 101325 Pa, 500 micron, ultimate = 15 micron, ideal = true) as s to 0.01"#,
            155.88,
            0.05,
        ),
        (r#"pull_time(20 L, 3 cfm, 9.53 mm, 1.5 m, 101325 Pa, 500 micron, ideal = true) as s to 0.01"#, 103.49, 0.05),
        (r#"pull_time(100 L, 8 cfm, 9.53 mm, 1.5 m, 101325 Pa, 300 micron, ideal = true) as s to 0.01"#, 207.58, 0.05),
        (r#"pull_time(50 L, 5 cfm, 4.76 mm, 1.5 m, 101325 Pa, 500 micron) as min to 0.01"#, 43.6, 0.5),
        (r#"pull_time(50 L, 5 cfm, 9.53 mm, 1.5 m, 101325 Pa, 500 micron) as min to 0.01"#, 4.9, 0.1),
        (r#"pull_time(50 L, 5 cfm, 12.7 mm, 1.5 m, 101325 Pa, 500 micron) as min to 0.01"#, 3.2, 0.1),
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
            r#"leak_in_service(2.222e-4 Pa·m3/s, air, 101.325 kPaa, 66.7 Pa, R-32, 2794.78 kPaa).low as kg/year to 0.01"#,
            2.9,
            0.15,
        ),
        (
            r#"leak_in_service(2.222e-4 Pa·m3/s, air, 101.325 kPaa, 66.7 Pa, R-32, 2794.78 kPaa, viscosity = 13.36 uPa·s).high as kg/year to 0.1"#,
            157.0,
            0.5,
        ),
    ]);
}

/// ASTM B280 by a public table (weights from memory of the standard); EN 12735-1 sizes from memory, volumes by
/// geometry.
#[test]
fn copper_tube() {
    held(&[
        (r#"tube(1/4 in, temper = "annealed").bore as in to 0.0001"#, 0.19, 0.0006),
        (r#"tube(1/4 in, temper = "annealed").volume_per_length as L/m to 0.00001"#, 0.01829, 0.0002),
        (r#"tube(1/4 in, temper = "annealed").mass_per_length as lb/ft to 0.0001"#, 0.0804, 0.000482),
        (r#"tube(5/16 in, temper = "annealed").bore as in to 0.0001"#, 0.248, 0.0006),
        (r#"tube(5/16 in, temper = "annealed").volume_per_length as L/m to 0.00001"#, 0.03129, 0.0002),
        (r#"tube(5/16 in, temper = "annealed").mass_per_length as lb/ft to 0.0001"#, 0.109, 0.000654),
        (r#"tube(3/8 in, temper = "annealed").bore as in to 0.0001"#, 0.311, 0.0006),
        (r#"tube(3/8 in, temper = "annealed").volume_per_length as L/m to 0.00001"#, 0.04901, 0.0002),
        (r#"tube(3/8 in, temper = "annealed").mass_per_length as lb/ft to 0.0001"#, 0.134, 0.000804),
        (r#"tube(3/8 in, temper = "drawn").bore as in to 0.0001"#, 0.315, 0.0006),
        (r#"tube(3/8 in, temper = "drawn").volume_per_length as L/m to 0.00001"#, 0.05028, 0.0002),
        (r#"tube(3/8 in, temper = "drawn").mass_per_length as lb/ft to 0.0001"#, 0.126, 0.000756),
        (r#"tube(1/2 in, temper = "annealed").bore as in to 0.0001"#, 0.436, 0.0006),
        (r#"tube(1/2 in, temper = "annealed").volume_per_length as L/m to 0.00001"#, 0.09632, 0.0002),
        (r#"tube(1/2 in, temper = "annealed").mass_per_length as lb/ft to 0.0001"#, 0.182, 0.00109),
        (r#"tube(1/2 in, temper = "drawn").bore as in to 0.0001"#, 0.43, 0.0006),
        (r#"tube(1/2 in, temper = "drawn").volume_per_length as L/m to 0.00001"#, 0.09369, 0.0002),
        (r#"tube(1/2 in, temper = "drawn").mass_per_length as lb/ft to 0.0001"#, 0.198, 0.00119),
        (r#"tube(5/8 in, temper = "annealed").bore as in to 0.0001"#, 0.555, 0.0006),
        (r#"tube(5/8 in, temper = "annealed").volume_per_length as L/m to 0.00001"#, 0.15608, 0.0002),
        (r#"tube(5/8 in, temper = "annealed").mass_per_length as lb/ft to 0.0001"#, 0.251, 0.00151),
        (r#"tube(5/8 in, temper = "drawn").bore as in to 0.0001"#, 0.545, 0.0006),
        (r#"tube(5/8 in, temper = "drawn").volume_per_length as L/m to 0.00001"#, 0.1505, 0.0002),
        (r#"tube(5/8 in, temper = "drawn").mass_per_length as lb/ft to 0.0001"#, 0.285, 0.00171),
        (r#"tube(3/4 in, temper = "annealed").bore as in to 0.0001"#, 0.68, 0.0006),
        (r#"tube(3/4 in, temper = "annealed").volume_per_length as L/m to 0.00001"#, 0.2343, 0.0002),
        (r#"tube(3/4 in, temper = "annealed").mass_per_length as lb/ft to 0.0001"#, 0.305, 0.00183),
        (r#"tube(7/8 in, temper = "annealed").bore as in to 0.0001"#, 0.785, 0.0006),
        (r#"tube(7/8 in, temper = "annealed").volume_per_length as L/m to 0.00001"#, 0.31225, 0.0002),
        (r#"tube(7/8 in, temper = "annealed").mass_per_length as lb/ft to 0.0001"#, 0.455, 0.00273),
        (r#"tube(1-1/8 in, temper = "annealed").bore as in to 0.0001"#, 1.025, 0.0006),
        (r#"tube(1-1/8 in, temper = "annealed").volume_per_length as L/m to 0.00001"#, 0.53236, 0.000213),
        (r#"tube(1-1/8 in, temper = "annealed").mass_per_length as lb/ft to 0.0001"#, 0.655, 0.00393),
        (r#"tube(1-3/8 in, temper = "annealed").bore as in to 0.0001"#, 1.265, 0.0006),
        (r#"tube(1-3/8 in, temper = "annealed").volume_per_length as L/m to 0.00001"#, 0.81085, 0.000324),
        (r#"tube(1-3/8 in, temper = "annealed").mass_per_length as lb/ft to 0.0001"#, 0.884, 0.0053),
        (r#"tube(6 mm, wall = 1 mm).volume_per_length as L/m to 0.00001"#, 0.01257, 1.1e-05),
        (r#"tube(8 mm, wall = 1 mm).volume_per_length as L/m to 0.00001"#, 0.02827, 1.1e-05),
        (r#"tube(10 mm, wall = 1 mm).volume_per_length as L/m to 0.00001"#, 0.05027, 1.1e-05),
        (r#"tube(12 mm, wall = 1 mm).volume_per_length as L/m to 0.00001"#, 0.07854, 1.1e-05),
        (r#"tube(15 mm, wall = 1 mm).volume_per_length as L/m to 0.00001"#, 0.13273, 1.1e-05),
        (r#"tube(18 mm, wall = 1 mm).volume_per_length as L/m to 0.00001"#, 0.20106, 1.1e-05),
        (r#"tube(22 mm, wall = 1 mm).volume_per_length as L/m to 0.00001"#, 0.31416, 1.1e-05),
        (r#"tube(28 mm, wall = 1.5 mm).volume_per_length as L/m to 0.00001"#, 0.49087, 1.1e-05),
        (r#"tube(35 mm, wall = 1.5 mm).volume_per_length as L/m to 0.00001"#, 0.80425, 1.1e-05),
        (r#"tube(42 mm, wall = 1.5 mm).volume_per_length as L/m to 0.00001"#, 1.19459, 1.1e-05),
        (r#"tube(54 mm, wall = 2 mm).volume_per_length as L/m to 0.00001"#, 1.9635, 1.1e-05),
        (r#"tube(6.35 mm, wall = 0.8 mm).volume_per_length as L/m to 0.00001"#, 0.01772, 1.1e-05),
        (r#"tube(9.52 mm, wall = 0.8 mm).volume_per_length as L/m to 0.00001"#, 0.04927, 1.1e-05),
        (r#"tube(12.7 mm, wall = 0.8 mm).volume_per_length as L/m to 0.00001"#, 0.09677, 1.1e-05),
        (r#"tube(15.87 mm, wall = 1 mm).volume_per_length as L/m to 0.00001"#, 0.15109, 1.1e-05),
        (r#"tube(19.05 mm, wall = 1 mm).volume_per_length as L/m to 0.00001"#, 0.22832, 1.1e-05),
        (r#"tube(22.22 mm, wall = 1 mm).volume_per_length as L/m to 0.00001"#, 0.32111, 1.1e-05),
        (r#"tube(28.57 mm, wall = 1 mm).volume_per_length as L/m to 0.00001"#, 0.55446, 1.1e-05),
    ]);
}

/// Copper Development Association tube handbook, 150 °F annealed; the formula with 10 % of thinner wall is within 2
/// %.
#[test]
fn strength_of_copper() {
    held(&[
        (r#"tube_working_pressure(3/8 in, 150 degF, temper = "annealed") as psi to 0.1"#, 836.0, 18.4),
        (r#"tube_working_pressure(1/2 in, 150 degF, temper = "annealed") as psi to 0.1"#, 618.0, 13.6),
        (r#"tube_working_pressure(5/8 in, 150 degF, temper = "annealed") as psi to 0.1"#, 525.0, 11.5),
        (r#"tube_working_pressure(3/4 in, 150 degF, temper = "annealed") as psi to 0.1"#, 435.0, 9.57),
        (r#"tube_working_pressure(7/8 in, 150 degF, temper = "annealed") as psi to 0.1"#, 495.0, 10.9),
        (r#"tube_working_pressure(1-1/8 in, 150 degF, temper = "annealed") as psi to 0.1"#, 420.0, 9.24),
        (r#"tube_working_pressure(1-3/8 in, 150 degF, temper = "annealed") as psi to 0.1"#, 373.0, 8.21),
    ]);
}

/// Density by the published equations through CoolProp 8.0.0, bore of ASTM B280.
#[test]
fn line_charge() {
    held(&[
        (
            r#"line_charge(R-410A, 1/4 in, 1 m, liquid_temperature = 40 degC, temper = "annealed") as kg to 0.000001"#,
            0.01785,
            5.36e-05,
        ),
        (
            r#"line_charge(R-410A, 3/8 in, 1 m, liquid_temperature = 40 degC, temper = "annealed") as kg to 0.000001"#,
            0.04782,
            0.000143,
        ),
        (
            r#"line_charge(R-410A, 1/2 in, 1 m, liquid_temperature = 40 degC, temper = "annealed") as kg to 0.000001"#,
            0.09398,
            0.000282,
        ),
        (
            r#"line_charge(R-410A, 5/8 in, 1 m, liquid_temperature = 40 degC, temper = "annealed") as kg to 0.000001"#,
            0.15229,
            0.000457,
        ),
        (
            r#"line_charge(R-32, 3/8 in, 1 m, liquid_temperature = 40 degC, temper = "annealed") as kg to 0.000001"#,
            0.04377,
            0.000131,
        ),
        (
            r#"line_charge(R-134a, 3/8 in, 1 m, liquid_temperature = 40 degC, temper = "annealed") as kg to 0.000001"#,
            0.0562,
            0.000169,
        ),
        (
            r#"line_charge(R-22, 3/8 in, 1 m, liquid_temperature = 40 degC, temper = "annealed") as kg to 0.000001"#,
            0.05531,
            0.000166,
        ),
        (
            r#"line_charge(R-407C, 3/8 in, 1 m, liquid_temperature = 40 degC, temper = "annealed") as kg to 0.000001"#,
            0.05233,
            0.000157,
        ),
        (
            r#"line_charge(R-410A, 3/8 in, 1 ft, liquid_temperature = 100 degF, temper = "annealed") as oz to 0.0001"#,
            0.5213,
            0.002,
        ),
        (
            r#"line_charge(R-410A, 3/8 in, 1 m, liquid_temperature = 35 degC, pressure = 2733.76 kPaa, temper = "annealed") as kg to 0.000001"#,
            0.04967,
            0.00015,
        ),
    ]);
}

/// Constant density by the published equations, CoolProp 8.0.0.
#[test]
fn shut_in_liquid() {
    held(&[
        (r#"trapped_liquid(R-410A, 20 degC, 25 degC) as bara to 0.01"#, 44.0, 0.6),
        (r#"trapped_liquid(R-410A, 20 degC, 30 degC) as bara to 0.01"#, 74.0, 0.6),
        (r#"trapped_liquid(R-32, 20 degC, 25 degC) as bara to 0.01"#, 51.0, 0.6),
        (r#"trapped_liquid(R-32, 20 degC, 30 degC) as bara to 0.01"#, 88.0, 0.6),
    ]);
}

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

/// IEC 60335-2-40 ed. 6 and EN 378-1, formulas from memory, worked by hand; LFL by EN 378-1:2016+A1:2020 as
/// transcribed.
#[test]
fn charge_safety() {
    held(&[
        (r#"a2l_charge_bounds(R-32, "IEC 60335-2-40 ed. 6").m1 as kg to 0.0001"#, 1.842, 0.006),
        (r#"a2l_charge_bounds(R-32, "IEC 60335-2-40 ed. 6").m2 as kg to 0.0001"#, 15.964, 0.006),
        (r#"a2l_charge_bounds(R-32, "IEC 60335-2-40 ed. 6").m3 as kg to 0.0001"#, 79.82, 0.006),
        (r#"a2l_charge_bounds(R-454B, "EN 378-1:2016").m1 as kg to 0.0001"#, 1.782, 0.006),
        (r#"a2l_charge_bounds(R-454B, "EN 378-1:2016").m2 as kg to 0.0001"#, 11.583, 0.006),
        (r#"a2l_charge_bounds(R-454B, "EN 378-1:2016").m3 as kg to 0.0001"#, 57.92, 0.006),
        (r#"a2l_charge_bounds(R-32, "EN 378-1:2016").m2 as kg to 0.0001"#, 11.973, 0.006),
        (r#"a2l_charge_bounds(R-32, "EN 378-1:2016").m3 as kg to 0.0001"#, 59.87, 0.006),
        (r#"a2l_most_charge(R-32, 20 m2, 0.6 m, "IEC 60335-2-40 ed. 6").most as kg to 0.0001"#, 1.533, 0.0006),
        (r#"a2l_most_charge(R-32, 20 m2, 1.0 m, "IEC 60335-2-40 ed. 6").most as kg to 0.0001"#, 2.555, 0.0006),
        (r#"a2l_most_charge(R-32, 20 m2, 1.8 m, "IEC 60335-2-40 ed. 6").most as kg to 0.0001"#, 4.599, 0.0006),
        (r#"a2l_most_charge(R-32, 20 m2, 2.2 m, "IEC 60335-2-40 ed. 6").most as kg to 0.0001"#, 5.621, 0.0006),
        (r#"a2l_most_charge(R-32, 1 m2, 0.6 m, "IEC 60335-2-40 ed. 6").most as kg to 0.0001"#, 0.138, 0.0006),
        (r#"a2l_most_charge(R-32, 10 m2, 0.6 m, "IEC 60335-2-40 ed. 6").most as kg to 0.0001"#, 1.084, 0.0006),
        (r#"a2l_floor_area(R-454B, 3 kg, 1.8 m, "IEC 60335-2-40 ed. 6").area as m2 to 0.0001"#, 9.245, 0.0006),
        (r#"a2l_floor_area(R-454B, 3 kg, 2.2 m, "IEC 60335-2-40 ed. 6").area as m2 to 0.0001"#, 6.189, 0.0006),
        (r#"flammability_limit(R-32) as kg/m3"#, 0.307, 0.0),
        (r#"flammability_limit(R-454B) as kg/m3"#, 0.297, 0.0),
        (r#"flammability_limit(R-1234yf) as kg/m3"#, 0.289, 0.0),
        (
            r#"room_check(R-410A, 10 kg, 100 m3, 0 m, "EN 378-1:2016+A1:2020", "general").most as kg to 0.001"#,
            44.0,
            0.001,
        ),
        (r#"room_check(R-32, 1 kg, 50 m3, 0 m, "EN 378-1:2016+A1:2020", "general").most as kg to 0.001"#, 3.05, 0.001),
        (
            r#"room_check(R-410A, 10 lb, 1500 ft3, 0 m, "as stated", "general", stated = 0.026 lb/ft3, source = "table, 26 lb/1000 ft3").most as lb to 0.001"#,
            39.0,
            0.15,
        ),
    ]);
}

/// ASHRAE 34: ppm to mass at 25 °C and 101.325 kPa, worked by hand (tables have two digits); oxygen limit at 1800 m
/// from memory.
#[test]
fn limits_at_altitude() {
    held(&[
        (r#"concentration_limit(R-410A, 0 m, "ASHRAE 34-2019", "general").limit as g/m3 to 0.01"#, 415.4, 8.31),
        (r#"concentration_limit(R-32, 0 m, "ASHRAE 34-2019", "general").limit as g/m3 to 0.01"#, 76.6, 1.53),
        (r#"concentration_limit(R-134a, 0 m, "ASHRAE 34-2019", "general").limit as g/m3 to 0.01"#, 208.5, 4.17),
        (r#"concentration_limit(R-22, 0 m, "ASHRAE 34-2019", "general").limit as g/m3 to 0.01"#, 208.5, 4.17),
        (r#"concentration_limit(R-125, 0 m, "ASHRAE 34-2019", "general").limit as g/m3 to 0.01"#, 367.9, 7.36),
        (r#"concentration_limit(R-410A, 1800 m, "ASHRAE 34-2019", "general").limit as g/m3 to 0.01"#, 165.0, 1.0),
        (r#"concentration_limit(R-32, 0 m, "ASHRAE 34-2019", "institutional").limit as g/m3 to 0.01"#, 38.3, 0.8),
    ]);
}

/// IPCC AR4, AR5, AR6 by public tables, blends by mass.
#[test]
fn warming_potentials() {
    held(&[
        (r#"co2_equivalent(R-410A, 1 kg, basis = "AR4").potential"#, 2087.5, 0.06),
        (r#"co2_equivalent(R-410A, 1 kg, basis = "AR5").potential"#, 1923.5, 0.06),
        (r#"co2_equivalent(R-410A, 1 kg, basis = "AR6").potential"#, 2255.5, 0.06),
        (r#"co2_equivalent(R-407C, 1 kg, basis = "AR4").potential"#, 1773.8, 0.06),
        (r#"co2_equivalent(R-407C, 1 kg, basis = "AR5").potential"#, 1624.2, 0.06),
        (r#"co2_equivalent(R-407C, 1 kg, basis = "AR6").potential"#, 1907.9, 0.06),
        (r#"co2_equivalent(R-404A, 1 kg, basis = "AR4").potential"#, 3921.6, 0.06),
        (r#"co2_equivalent(R-404A, 1 kg, basis = "AR5").potential"#, 3942.8, 0.06),
        (r#"co2_equivalent(R-404A, 1 kg, basis = "AR6").potential"#, 4728.0, 0.06),
        (r#"co2_equivalent(R-507A, 1 kg, basis = "AR4").potential"#, 3985.0, 0.06),
        (r#"co2_equivalent(R-507A, 1 kg, basis = "AR5").potential"#, 3985.0, 0.06),
        (r#"co2_equivalent(R-507A, 1 kg, basis = "AR6").potential"#, 4775.0, 0.06),
        (r#"co2_equivalent(R-448A, 1 kg, basis = "AR4").potential"#, 1387.1, 0.06),
        (r#"co2_equivalent(R-448A, 1 kg, basis = "AR5").potential"#, 1273.5, 0.06),
        (r#"co2_equivalent(R-448A, 1 kg, basis = "AR6").potential"#, 1494.4, 0.06),
        (r#"co2_equivalent(R-449A, 1 kg, basis = "AR4").potential"#, 1397.0, 0.06),
        (r#"co2_equivalent(R-449A, 1 kg, basis = "AR5").potential"#, 1281.9, 0.06),
        (r#"co2_equivalent(R-449A, 1 kg, basis = "AR6").potential"#, 1504.5, 0.06),
        (r#"co2_equivalent(R-452A, 1 kg, basis = "AR4").potential"#, 2140.4, 0.06),
        (r#"co2_equivalent(R-452A, 1 kg, basis = "AR5").potential"#, 1945.1, 0.06),
        (r#"co2_equivalent(R-452A, 1 kg, basis = "AR6").potential"#, 2291.6, 0.06),
        (r#"co2_equivalent(R-452B, 1 kg, basis = "AR4").potential"#, 698.3, 0.06),
        (r#"co2_equivalent(R-452B, 1 kg, basis = "AR5").potential"#, 675.8, 0.06),
        (r#"co2_equivalent(R-452B, 1 kg, basis = "AR6").potential"#, 778.5, 0.06),
        (r#"co2_equivalent(R-454A, 1 kg, basis = "AR4").potential"#, 238.8, 0.06),
        (r#"co2_equivalent(R-454A, 1 kg, basis = "AR5").potential"#, 237.6, 0.06),
        (r#"co2_equivalent(R-454A, 1 kg, basis = "AR6").potential"#, 270.2, 0.06),
        (r#"co2_equivalent(R-454B, 1 kg, basis = "AR4").potential"#, 466.3, 0.06),
        (r#"co2_equivalent(R-454B, 1 kg, basis = "AR5").potential"#, 466.8, 0.06),
        (r#"co2_equivalent(R-454B, 1 kg, basis = "AR6").potential"#, 531.4, 0.06),
        (r#"co2_equivalent(R-454C, 1 kg, basis = "AR4").potential"#, 148.3, 0.06),
        (r#"co2_equivalent(R-454C, 1 kg, basis = "AR5").potential"#, 146.3, 0.06),
        (r#"co2_equivalent(R-454C, 1 kg, basis = "AR6").potential"#, 166.2, 0.06),
        (r#"co2_equivalent(R-513A, 1 kg, basis = "AR4").potential"#, 631.4, 0.06),
        (r#"co2_equivalent(R-513A, 1 kg, basis = "AR5").potential"#, 572.6, 0.06),
        (r#"co2_equivalent(R-513A, 1 kg, basis = "AR6").potential"#, 673.5, 0.06),
        (r#"co2_equivalent(R-32, 1 kg, basis = "AR4").potential"#, 675.0, 0.06),
        (r#"co2_equivalent(R-32, 1 kg, basis = "AR5").potential"#, 677.0, 0.06),
        (r#"co2_equivalent(R-32, 1 kg, basis = "AR6").potential"#, 771.0, 0.06),
        (r#"co2_equivalent(R-134a, 1 kg, basis = "AR4").potential"#, 1430.0, 0.06),
        (r#"co2_equivalent(R-134a, 1 kg, basis = "AR5").potential"#, 1300.0, 0.06),
        (r#"co2_equivalent(R-134a, 1 kg, basis = "AR6").potential"#, 1530.0, 0.06),
        (r#"co2_equivalent(R-22, 1 kg, basis = "AR4").potential"#, 1810.0, 0.06),
        (r#"co2_equivalent(R-22, 1 kg, basis = "AR5").potential"#, 1760.0, 0.06),
        (r#"co2_equivalent(R-22, 1 kg, basis = "AR6").potential"#, 1960.0, 0.06),
        (r#"co2_equivalent(R-32, 8 kg, basis = "AR4").equivalent as tonne to 0.001"#, 5.4, 0.001),
        (r#"co2_equivalent(R-410A, 12.5 kg, basis = "AR4").equivalent as tonne to 0.001"#, 26.1, 0.01),
        (r#"co2_equivalent(R-454B, 10 kg, basis = "AR4").equivalent as tonne to 0.001"#, 4.66, 0.005),
    ]);
}

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

/// CoolProp 8.0.0, R-410A by its pseudo-pure equation (1 %); ASHRAE Fundamentals 2021, chapter 29, table 8, for
/// R-32, R-22, R-134a (1 %, 0.5 K).
#[test]
fn cycles() {
    held(&[
        (r#"compression_ratio(933.18 kPaa, 2733.76 kPaa)"#, 2.9295, 0.0001),
        (
            r#"vapor_cycle(R-32, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 1).discharge_temperature as degC to 0.01"#,
            83.67,
            0.1,
        ),
        (
            r#"vapor_cycle(R-32, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 0.7).discharge_temperature as degC to 0.01"#,
            98.93,
            0.1,
        ),
        (r#"vapor_cycle(R-32, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 1).cooling_performance"#, 5.502, 0.01),
        (r#"vapor_cycle(R-32, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 0.7).cooling_performance"#, 3.852, 0.01),
        (r#"line_flow(R-32, 5 degC, 45 degC, 8 C°, 5 C°, capacity = 10 kW) as g/s to 0.001"#, 39.88, 0.05),
        (r#"line_flow(R-410A, 5 degC, 45 degC, 8 C°, 5 C°, capacity = 10 kW) as g/s to 0.001"#, 60.27, 0.6),
        (
            r#"vapor_cycle(R-410A, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 0.7).discharge_temperature as degC to 0.01"#,
            80.42,
            0.5,
        ),
        (r#"vapor_cycle(R-410A, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 0.7).cooling_performance"#, 3.766, 0.04),
        (r#"carnot_performance(5 degC, 45 degC)"#, 6.954, 0.001),
        (r#"volumetric_efficiency(0.04, 3, 1.15)"#, 0.93602, 1e-05),
        (r#"volumetric_efficiency(0.05, 4, 1.13)"#, 0.87948, 1e-05),
        (
            r#"vapor_cycle(R-32, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_effect as kJ/kg to 0.01"#,
            258.6,
            2.59,
        ),
        (r#"vapor_cycle(R-32, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_performance"#, 5.924, 0.0592),
        (
            r#"vapor_cycle(R-32, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).discharge_temperature as degC to 0.01"#,
            59.7,
            0.5,
        ),
        (
            r#"vapor_cycle(R-22, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_effect as kJ/kg to 0.01"#,
            165.9,
            1.66,
        ),
        (r#"vapor_cycle(R-22, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_performance"#, 6.105, 0.0611),
        (
            r#"vapor_cycle(R-22, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).discharge_temperature as degC to 0.01"#,
            47.8,
            0.5,
        ),
        (
            r#"vapor_cycle(R-134a, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_effect as kJ/kg to 0.01"#,
            153.0,
            1.53,
        ),
        (r#"vapor_cycle(R-134a, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_performance"#, 6.063, 0.0606),
        (
            r#"vapor_cycle(R-134a, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).discharge_temperature as degC to 0.01"#,
            34.8,
            0.5,
        ),
    ]);
}

/// Discharge superheat at 5/45 °C, 5 K, efficiency 0.7 and at −10/45 °C (R-32), CoolProp 8.0.0; whole kelvins.
/// R-407C depends on which line the 45 °C are of, and is left out.
#[test]
fn expected_discharge() {
    held(&[
        (
            r#"vapor_cycle(R-410A, 5 degC, 45 degC, 5 C°, 0 C°, efficiency = 0.7).discharge_superheat as C° to 0.01"#,
            32.0,
            0.7,
        ),
        (
            r#"vapor_cycle(R-32, 5 degC, 45 degC, 5 C°, 0 C°, efficiency = 0.7).discharge_superheat as C° to 0.01"#,
            50.0,
            0.7,
        ),
        (
            r#"vapor_cycle(R-22, 5 degC, 45 degC, 5 C°, 0 C°, efficiency = 0.7).discharge_superheat as C° to 0.01"#,
            36.0,
            0.7,
        ),
        (
            r#"vapor_cycle(R-134a, 5 degC, 45 degC, 5 C°, 0 C°, efficiency = 0.7).discharge_superheat as C° to 0.01"#,
            19.0,
            0.7,
        ),
        (
            r#"vapor_cycle(R-32, -10 degC, 45 degC, 5 C°, 0 C°, efficiency = 0.7).discharge_superheat as C° to 0.01"#,
            74.0,
            0.8,
        ),
        (r#"expected_discharge(R-32, 8 degC, 44 degC, 5 C°).least_superheat as C° to 0.01"#, 39.0, 1.0),
        (r#"expected_discharge(R-32, 8 degC, 44 degC, 5 C°).most_superheat as C° to 0.01"#, 53.0, 1.5),
    ]);
}

/// Bubble pressures at rest through CoolProp 8.0.0; 40 CFR 82.152 annualizing method worked by hand.
#[test]
fn at_rest_and_in_service() {
    held(&[
        (r#"bubble_pressure(R-410A, 10 degC) as bara to 0.001"#, 10.88, 0.02),
        (r#"bubble_pressure(R-410A, 20 degC) as bara to 0.001"#, 14.47, 0.02),
        (r#"bubble_pressure(R-410A, 25 degC) as bara to 0.001"#, 16.57, 0.02),
        (r#"bubble_pressure(R-410A, 35 degC) as bara to 0.001"#, 21.45, 0.02),
        (r#"bubble_pressure(R-32, 10 degC) as bara to 0.001"#, 11.07, 0.02),
        (r#"bubble_pressure(R-32, 20 degC) as bara to 0.001"#, 14.75, 0.02),
        (r#"bubble_pressure(R-32, 25 degC) as bara to 0.001"#, 16.9, 0.02),
        (r#"bubble_pressure(R-32, 35 degC) as bara to 0.001"#, 21.9, 0.02),
        (r#"bubble_pressure(R-454B, 10 degC) as bara to 0.001"#, 10.42, 0.02),
        (r#"bubble_pressure(R-454B, 20 degC) as bara to 0.001"#, 13.85, 0.02),
        (r#"bubble_pressure(R-454B, 25 degC) as bara to 0.001"#, 15.84, 0.02),
        (r#"bubble_pressure(R-454B, 35 degC) as bara to 0.001"#, 20.48, 0.02),
        (r#"leak_check_interval(7.4 tonne).months"#, 12.0, 0.0),
        (r#"annual_leak_rate(1.8 kg, 22 kg, 90 day) as % to 0.01"#, 33.2, 0.05),
        (r#"recovery_fill(R-410A, 21.6 kg, 12.5 kg).most as kg to 0.001"#, 17.3, 2.0),
    ]);
}
