//! Three invented networks, worked by hand and by CoolProp 8.0.0 (geometry exact; R-410A there by its pseudo-pure equation,
//! which holds 0.04 % more than the mixture).

use std::collections::BTreeMap;

use dewline_lang::host::NoFiles;
use dewline_lang::job::{Settings, check};

const TWO_PIPES: &str = include_str!("networks/two-pipes.dew");
const THREE_PIPES: &str = include_str!("networks/three-pipes.dew");
const BETWEEN_FLOORS: &str = include_str!("networks/between-floors.dew");

/// What a sheet comes to: cells and fields as they are shown, those of a row under `node field`.
fn shown(sheet: &str) -> BTreeMap<String, String> {
    let library = dewline_stdlib::library();
    let checked = check(&library, &NoFiles, "network.dew", sheet);
    let problems: Vec<String> = checked.diagnostics.iter().map(|one| one.message.clone()).collect();
    let job = checked.job.unwrap_or_else(|| panic!("{problems:#?}"));
    let run = job.run(&library, &NoFiles, &Settings::default());
    let mut found: BTreeMap<String, String> =
        run.diagnostics.iter().map(|one| ("wrong".to_string(), one.message.clone())).collect();
    for cell in &run.outcome.cells {
        if let Some(shown) = &cell.shown {
            found.insert(cell.name.clone(), shown.text.clone());
        }
    }
    for table in &run.outcome.tables {
        let nodes = table.columns.iter().find(|column| column.name == "node");
        for column in &table.columns {
            for (row, text) in column.text.iter().enumerate() {
                let node = nodes.and_then(|nodes| nodes.text.get(row)).map_or("", String::as_str);
                found.insert(format!("{node} {}", column.name), text.clone());
            }
        }
    }
    found
}

#[track_caller]
fn held(sheet: &str, texts: &[(&str, &str)], numbers: &[(&str, f64, f64)]) {
    let found = shown(sheet);
    let mut wrong = Vec::new();
    for (name, expected) in texts {
        let got = found.get(*name).map_or("absent", String::as_str);
        if got != *expected {
            wrong.push(format!("{name}: {got}, not {expected}"));
        }
    }
    for (name, expected, share) in numbers {
        let got = found.get(*name).map_or("absent", String::as_str);
        let number: Option<f64> = got.split(' ').next().and_then(|first| first.replace('_', "").parse().ok());
        if number.is_none_or(|number| (number - expected).abs() > share * expected.abs() + 1e-9) {
            wrong.push(format!("{name}: {got}, not {expected}"));
        }
    }
    assert!(wrong.is_empty(), "{}\n{:#?}", wrong.join("\n"), found.get("wrong"));
}

const EXACT: f64 = 1e-5;
const MASS: f64 = 0.003;
const SPEED: f64 = 0.005;

#[test]
fn two_pipes_and_one_outdoor_unit() {
    held(
        TWO_PIPES,
        &[("system.farthest", "U5"), ("system.first_branch", "J1")],
        &[
            ("system.total", 96.0, EXACT),
            ("system.farthest_actual", 54.0, EXACT),
            ("system.farthest_equivalent", 60.1, EXACT),
            ("system.after_first", 32.0, EXACT),
            ("system.after_first_equivalent", 35.2, EXACT),
            ("system.after_first_difference", 17.0, EXACT),
            ("system.outdoor_above", 10.3, EXACT),
            ("system.outdoor_below", 0.0, EXACT),
            ("system.between_indoors", 4.8, EXACT),
            ("system.connected", 84.29, 1e-4),
            ("liquid_volume", 6.6115, EXACT),
            ("gas_volume", 23.8188, EXACT),
            ("liquid_holds", 5.904, MASS),
            ("gas_cools", 0.636, MASS),
            ("gas_heats", 1.534, MASS),
            ("additional", 6.451, EXACT),
            ("J1 velocity", 7.537, SPEED),
            ("J2 velocity", 6.337, SPEED),
            ("H1 velocity", 5.439, SPEED),
            ("U1 velocity", 6.614, SPEED),
            ("U5 velocity", 5.589, SPEED),
        ],
    );
}

#[test]
fn three_pipes_to_changeover_boxes() {
    held(
        THREE_PIPES,
        &[
            ("system.farthest", "U7"),
            ("system.first_branch", "J1"),
            ("system.fullest_box", "S1"),
            ("system.units_at_port_of", "S2"),
        ],
        &[
            ("system.total", 129.0, EXACT),
            ("system.total_with_modules", 133.0, EXACT),
            ("system.farthest_actual", 61.0, EXACT),
            ("system.farthest_equivalent", 71.0, EXACT),
            ("system.after_first", 35.0, EXACT),
            ("system.after_first_equivalent", 41.5, EXACT),
            ("system.after_first_difference", 18.0, EXACT),
            ("system.outdoor_above", 15.4, EXACT),
            ("system.between_indoors", 3.5, EXACT),
            ("system.between_modules", 0.2, EXACT),
            ("system.box_to_unit", 17.0, EXACT),
            ("system.box_to_box", 3.5, EXACT),
            ("system.levels_at_box", 0.7, EXACT),
            ("system.units_at_port", 2.0, EXACT),
            ("system.capacity_at_box", 21.7, EXACT),
            ("system.capacity_at_port", 9.0, EXACT),
            ("system.connected", 69.05, 1e-4),
            ("liquid_volume", 11.4730, EXACT),
            ("gas_volume", 42.9613, EXACT),
            ("third_volume", 22.0396, EXACT),
            ("liquid_holds", 11.194, MASS),
            ("gas_cools", 1.590, MASS),
            ("gas_heats", 3.810, MASS),
            ("J1 velocity", 7.386, SPEED),
            ("S1 velocity", 7.015, SPEED),
            ("U3 velocity", 10.292, SPEED),
            ("U6 velocity", 4.041, SPEED),
        ],
    );
}

#[test]
fn an_outdoor_unit_between_floors() {
    held(
        BETWEEN_FLOORS,
        // A valve is no branch.
        &[("system.farthest", "U5"), ("system.first_branch", "J1")],
        &[
            ("system.total", 128.0, EXACT),
            ("system.total_with_modules", 135.7, EXACT),
            ("system.farthest_actual", 75.0, EXACT),
            ("system.farthest_equivalent", 83.0, EXACT),
            ("system.after_first", 52.0, EXACT),
            ("system.after_first_equivalent", 56.6, EXACT),
            ("system.after_first_difference", 31.0, EXACT),
            ("system.outdoor_above", 4.3, EXACT),
            ("system.outdoor_below", 18.7, EXACT),
            ("system.between_indoors", 22.6, EXACT),
            ("system.between_modules", 0.4, EXACT),
            ("system.connected", 87.05, 1e-4),
            ("liquid_volume", 15.7571, EXACT),
            ("gas_volume", 70.2769, EXACT),
            ("liquid_holds", 14.446, MASS),
            ("gas_cools", 2.016, MASS),
            ("gas_heats", 4.866, MASS),
        ],
    );
}

/// Each change makes rows that are no network; the words name the rows.
#[test]
fn what_is_no_network_names_its_rows() {
    let cases = [
        (
            TWO_PIPES,
            r#""J2" | "joint"  | "J1""#,
            r#""J2" | "joint"  | "outdoor""#,
            "two mains leave the outdoor unit: J1, J2",
        ),
        (
            TWO_PIPES,
            r#""U5" | "indoor" | "H1""#,
            r#""U5" | "indoor" | "H2""#,
            "U5 is fed from \"H2\", which is no node",
        ),
        (TWO_PIPES, r#""J1" | "joint"  | "outdoor""#, r#""J1" | "joint"  | "U1""#, "these feed one another in a ring"),
        (TWO_PIPES, r#""H1" | "header""#, r#""H1" | "joint""#, "joint H1 feeds 3: use a header, or another joint"),
        (TWO_PIPES, r#""U4" | "indoor" | "H1""#, r#""U4" | "indoor" | "U3""#, "U3 is an indoor unit and feeds U4"),
        (
            THREE_PIPES,
            r#""M2" | "module"         | "outdoor""#,
            r#""M2" | "module"         | "J1""#,
            "module M2 hangs on J1: modules join at their kit only",
        ),
        (
            THREE_PIPES,
            r#""U2" | "indoor"         | "S1"      | 2 "#,
            r#""U2" | "indoor"         | "S1"      | 1 "#,
            "two units on one port must be joined behind it and run in one mode",
        ),
        (
            THREE_PIPES,
            r#""U3" | "indoor"         | "S1"      | 3               | 2 "#,
            r#""U3" | "indoor"         | "S1"      | 3               | 3 "#,
            "S1's units have two pipes, U3 says 3",
        ),
        (
            BETWEEN_FLOORS,
            r#""M2"  | "module"  | "MJ2""#,
            r#""M2"  | "module"  | "outdoor""#,
            "kit joint MJ2 joins one module only",
        ),
    ];
    for (sheet, from, to, words) in cases {
        assert!(sheet.contains(from), "{from} is not in the sheet");
        let library = dewline_stdlib::library();
        let checked = check(&library, &NoFiles, "network.dew", &sheet.replacen(from, to, 1));
        let mut problems: Vec<String> = checked.diagnostics.iter().map(|one| one.message.clone()).collect();
        if let Some(job) = checked.job {
            let run = job.run(&library, &NoFiles, &Settings::default());
            problems.extend(run.diagnostics.iter().map(|one| one.message.clone()));
        }
        assert!(problems.iter().any(|problem| problem.contains(words)), "{words} is not in {problems:#?}");
    }
}
