//! Water in a vacuum, and the unit that it is read in.

use super::ask::{answer, held};

/// IAPWS R7-97 and R14-08: releases' check values; ASHRAE Fundamentals 2017, table 3, by a public test suite;
/// iapws.
#[test]
fn water_in_vacuum() {
    held(&[
        (r#"water_boiling_pressure(-60 degC) as Pa absolute to 0.0001"#, 1.08, 0.005),
        (r#"water_boiling_pressure(-20 degC) as Pa absolute to 0.0001"#, 103.24, 0.05),
        (r#"water_boiling_pressure(-5 degC) as Pa absolute to 0.0001"#, 401.74, 0.1),
        (r#"water_boiling_pressure(5 degC) as Pa absolute to 0.0001"#, 872.6, 0.3),
        (r#"water_boiling_pressure(25 degC) as Pa absolute to 0.0001"#, 3169.7, 1.0),
        (r#"water_boiling_pressure(50 degC) as Pa absolute to 0.0001"#, 12351.3, 4.0),
        (r#"water_boiling_pressure(100 degC) as Pa absolute to 0.0001"#, 101418.0, 30.0),
        (r#"water_boiling_pressure(10 degC) as Pa absolute to 0.0001"#, 1228.18, 0.01),
        (r#"water_boiling_pressure(15 degC) as Pa absolute to 0.0001"#, 1705.74, 0.01),
        (r#"water_boiling_pressure(20 degC) as Pa absolute to 0.0001"#, 2339.21, 0.01),
        (r#"water_boiling_pressure(30 degC) as Pa absolute to 0.0001"#, 4246.69, 0.01),
        (r#"water_boiling_pressure(35 degC) as Pa absolute to 0.0001"#, 5628.62, 0.01),
        (r#"water_boiling_pressure(40 degC) as Pa absolute to 0.0001"#, 7384.43, 0.01),
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
        (r#"20000 micron as Pa absolute to 0.0001"#, 2666.45, 0.0267),
        (r#"5000 micron as Pa absolute to 0.0001"#, 666.612, 0.00667),
        (r#"1000 micron as Pa absolute to 0.0001"#, 133.322, 0.00133),
        (r#"500 micron as Pa absolute to 0.0001"#, 66.6612, 0.000667),
        (r#"100 micron as Pa absolute to 0.0001"#, 13.3322, 0.000133),
    ]);
}

/// The other steps of the same scale, and the torr of 101325/760 Pa.
#[test]
fn more_microns() {
    held(&[
        (r#"10000 micron as Pa absolute to 0.001"#, 1333.22, 0.005),
        (r#"2000 micron as Pa absolute to 0.0001"#, 266.645, 0.001),
        (r#"300 micron as Pa absolute to 0.0001"#, 39.9967, 0.0001),
        (r#"250 micron as Pa absolute to 0.0001"#, 33.3306, 0.0001),
        (r#"20000 micron as mbar absolute to 0.0001"#, 26.6645, 0.0001),
        (r#"1000 micron as mbar absolute to 0.00001"#, 1.33322, 1e-05),
        (r#"5000 micron as Torr to 0.0001"#, 5.0, 0.0001),
        (r#"1 Torr as Pa absolute to 0.000001"#, 133.322368, 1e-06),
    ]);
}

/// Water that a system holds: gas law with 461.52 J/(kg·K), vapor pressure by IAPWS.
#[test]
fn water_load() {
    held(&[
        (
            r#"absolute(water_boiling_pressure(25 degC)) * 50 L / (461.52 J/(kg·K) * absolute(25 degC)) as g to 0.0001"#,
            1.152,
            0.001,
        ),
        (r#"absolute(500 micron) * 50 L / (461.52 J/(kg·K) * absolute(25 degC)) as g to 0.00001"#, 0.0242, 0.0001),
        (r#"1 g * 461.52 J/(kg·K) * absolute(20 degC) / absolute(500 micron) as m3 to 0.0001"#, 2.03, 0.001),
        (r#"water_boiling_pressure(0.01 degC) as Pa absolute to 0.001"#, 611.657, 0.002),
        (r#"water_boiling_pressure(150 degC) as Pa absolute to 1"#, 476101.4, 150.0),
    ]);
}

/// Worked by hand: 29.92 inHg of vacuum under a barometer of 29.9213 inHg leave 4.25 Pa, which no compound gauge resolves.
#[test]
fn a_compound_gauge_cannot_resolve_a_vacuum() {
    let left = answer("site atmosphere = 29.9213 inHga\nanswer = absolute(29.92 inHgv) as micron to 0.1\n");
    let micron: f64 = left.trim_end_matches(" micron").parse().unwrap_or(f64::NAN);
    assert!((micron - 31.9).abs() < 1.2, "{left}");
}

/// NIST SP 811, appendix B.8: an inch of mercury is 3386.389 Pa by the conventional density, which is the one built in; its
/// rows for 32 °F (3386.38 Pa) and 60 °F (3376.85 Pa) are 3e-6 and 0.28 % less.
#[test]
fn inches_of_mercury() {
    held(&[
        (r#"1 inHg as Pa to 0.001"#, 3386.389, 0.0006),
        (r#"1 inHg as Pa to 0.001"#, 3386.38, 0.01),
        (r#"(1 inHg / 3376.85 Pa - 1) as % to 0.001"#, 0.282, 0.001),
        (r#"1 inHg absolute as Torr to 0.0001"#, 25.4, 0.0001),
    ]);
}
