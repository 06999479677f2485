//! R-32 against the printed tables of its equation's paper, and against a reference table made with a general-purpose
//! property library (`reference/`). Everything goes through sheets, so that the way in and out is tested with it.
#![allow(clippy::unwrap_used, clippy::panic)]

use dewline_lang::outcome::Outcome;
use dewline_tests::sheet::{run, si};

/// Runs one table over rows of SI literals with column formulas, and gives the outcome.
fn table(columns: &[(&str, &str)], rows: &[Vec<f64>], formulas: &str) -> Outcome {
    let names: Vec<&str> = columns.iter().map(|(name, _)| *name).collect();
    let units: Vec<&str> = columns.iter().map(|(_, unit)| *unit).collect();
    let rows: Vec<String> =
        rows.iter().map(|row| row.iter().map(|value| format!("{value:?}")).collect::<Vec<_>>().join(" | ")).collect();
    let sheet =
        format!("table t\n{}\n{}\n{}\n{formulas}\nend\n", names.join(" | "), units.join(" | "), rows.join("\n"));
    run(&dewline_stdlib::library(), &sheet)
}

fn column(outcome: &Outcome, name: &str) -> Vec<f64> {
    let column = outcome.tables[0].columns.iter().find(|column| column.name == name);
    let column = column.unwrap_or_else(|| {
        panic!("no column {name} among {:?}", outcome.tables[0].columns.iter().map(|one| &one.name).collect::<Vec<_>>())
    });
    column.si.iter().map(|value| value.unwrap_or(f64::NAN)).collect()
}

fn close(name: &str, at: f64, got: f64, expected: f64, relative: f64) {
    let off = (got - expected).abs() / expected.abs();
    assert!(off <= relative, "{name} at {at}: {got} for {expected}, off by {off:e}");
}

fn reference(text: &str) -> Vec<Vec<f64>> {
    text.lines().skip(1).map(|line| line.split(',').map(|field| field.parse().unwrap()).collect()).collect()
}

#[test]
fn saturation_agrees_with_the_reference_table() {
    let rows = reference(include_str!("../reference/r32-saturation.csv"));
    let outcome = table(
        &[("at", "K absolute")],
        &rows.iter().map(|row| vec![row[0]]).collect::<Vec<_>>(),
        "dew = dew_pressure(R-32, at)\n bubble = bubble_pressure(R-32, at)\n\
         liquid = saturated_liquid(R-32, at)\n vapor = saturated_vapor(R-32, at)",
    );
    // Relative bounds. Pressure is the aim set for this library; the rest is what 64-bit arithmetic leaves over.
    let checks = [
        ("dew", 1, 1e-8),
        ("bubble", 1, 1e-8),
        ("liquid.pressure", 1, 1e-8),
        ("liquid.density", 2, 1e-8),
        ("liquid.enthalpy", 3, 1e-7),
        ("liquid.entropy", 4, 1e-7),
        ("liquid.heat_capacity", 5, 1e-7),
        ("liquid.sound_speed", 6, 1e-7),
        ("vapor.density", 7, 1e-8),
        ("vapor.enthalpy", 8, 1e-7),
        ("vapor.entropy", 9, 1e-7),
        ("vapor.heat_capacity", 10, 1e-7),
        ("vapor.sound_speed", 11, 1e-7),
    ];
    for (name, place, relative) in checks {
        for (row, got) in rows.iter().zip(column(&outcome, name)) {
            close(name, row[0], got, row[place], relative);
        }
    }
}

#[test]
fn saturation_temperatures_lead_back() {
    let rows = reference(include_str!("../reference/r32-saturation.csv"));
    let pressures: Vec<Vec<f64>> = rows.iter().map(|row| vec![row[1]]).collect();
    let outcome = table(
        &[("p", "Pa absolute")],
        &pressures,
        "dew = dew_temperature(R-32, p)\n bubble = bubble_temperature(R-32, p)",
    );
    for name in ["dew", "bubble"] {
        for (row, got) in rows.iter().zip(column(&outcome, name)) {
            close(name, row[1], got, row[0], 1e-9);
        }
    }
}

#[test]
fn single_phase_states_agree_with_the_reference_table() {
    let rows = reference(include_str!("../reference/r32-states.csv"));
    let given: Vec<Vec<f64>> = rows.iter().map(|row| vec![row[0], row[1]]).collect();
    let outcome =
        table(&[("at", "K absolute"), ("p", "Pa absolute")], &given, "state = refrigerant_state(R-32, p, at)");
    for (name, place) in [("density", 2), ("enthalpy", 3), ("entropy", 4), ("heat_capacity", 5), ("sound_speed", 6)] {
        for (row, got) in rows.iter().zip(column(&outcome, &format!("state.{name}"))) {
            close(name, row[0], got, row[place], 1e-7);
        }
    }
}

/// A printed value holds to half of its last digit, with one unit more for rounding in the paper.
fn printed(name: &str, got: f64, expected: f64, last_digit: f64) {
    assert!((got - expected).abs() <= 1.0 * last_digit, "{name}: {got}, printed {expected}");
}

/// Tillner-Roth & Yokozeki, J. Phys. Chem. Ref. Data 26 (1997) 1273, table 12.
#[test]
fn printed_saturation_table() {
    let rows = [
        (-100.0, (3.81, 0.01), (1339.0, 0.1), (0.1385, 0.0001)),
        (-50.0, (110.14, 0.01), (1208.4, 0.1), (3.2316, 0.0001)),
        (0.0, (813.10, 0.01), (1055.3, 0.1), (22.091, 0.001)),
        (50.0, (3141.2, 0.1), (839.26, 0.01), (98.550, 0.001)),
        (74.0, (5304.6, 0.1), (624.57, 0.01), (240.12, 0.01)),
    ];
    let outcome = table(
        &[("at", "degC")],
        &rows.iter().map(|row| vec![row.0]).collect::<Vec<_>>(),
        "p = dew_pressure(R-32, at)\n liquid = saturated_liquid(R-32, at).density\n\
         vapor = saturated_vapor(R-32, at).density",
    );
    for (index, (at, (p, p_digit), (liquid, liquid_digit), (vapor, vapor_digit))) in rows.into_iter().enumerate() {
        printed(&format!("p at {at} °C"), column(&outcome, "p")[index] / 1e3, p, p_digit);
        printed(&format!("liquid density at {at} °C"), column(&outcome, "liquid")[index], liquid, liquid_digit);
        printed(&format!("vapour density at {at} °C"), column(&outcome, "vapor")[index], vapor, vapor_digit);
    }
}

/// The same paper: tables 12 (0 °C, enthalpy and entropy), 13 and 14.
#[test]
fn printed_single_values() {
    let outcome = run(
        &dewline_stdlib::library(),
        "h_liquid = saturated_liquid(R-32, 0 degC).enthalpy
         h_vapor = saturated_vapor(R-32, 0 degC).enthalpy
         s_liquid = saturated_liquid(R-32, 0 degC).entropy
         s_vapor = saturated_vapor(R-32, 0 degC).entropy
         cold = dew_temperature(R-32, 100 kPaa)
         hot = dew_temperature(R-32, 5000 kPaa)
         gas = refrigerant_state(R-32, 200 kPaa, 0 degC).density
         liquid = refrigerant_state(R-32, 1000 kPaa, 5 degC).density",
    );
    printed("h'", si(&outcome, "h_liquid") / 1e3, 200.00, 0.01);
    printed("h''", si(&outcome, "h_vapor") / 1e3, 515.30, 0.01);
    printed("s'", si(&outcome, "s_liquid") / 1e3, 1.0, 0.0001);
    printed("s''", si(&outcome, "s_vapor") / 1e3, 2.1543, 0.0001);
    printed("t at 100 kPa", si(&outcome, "cold") - 273.15, -51.91, 0.01);
    printed("t at 5000 kPa", si(&outcome, "hot") - 273.15, 71.18, 0.01);
    printed("gas at 200 kPa", si(&outcome, "gas"), 4.7455, 0.0001);
    printed("liquid at 1 MPa", si(&outcome, "liquid"), 1038.0, 0.1);
}

/// Nitrogen at constant density (Span et al., J. Phys. Chem. Ref. Data 29 (2000) 1361): values made with a
/// general-purpose property library at a barometer of 101.325 kPa.
#[test]
fn trapped_nitrogen() {
    let cases = [
        (550.0, 70.0, 60.0, 538.343),
        (550.0, 70.0, 90.0, 573.295),
        (600.0, 75.0, 55.0, 574.720),
        (150.0, 70.0, 40.0, 140.414),
    ];
    for (start, from, to, expected) in cases {
        let outcome = run(
            &dewline_stdlib::library(),
            &format!("p : psig = trapped_pressure(nitrogen, {start} psig, {from} degF, {to} degF)"),
        );
        let psig = (si(&outcome, "p") - 101_325.0) / 6_894.757_293_168_361;
        assert!((psig - expected).abs() < 0.002, "{start} psig from {from} to {to} °F: {psig}, expected {expected}");
    }
}
