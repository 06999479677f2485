//! Water, moist air and friction against grids made by general-purpose open libraries: `tests/reference/make_trade.py`
//! says which and how.

#![allow(clippy::unwrap_used, clippy::panic)]

use dewline_lang::library::Body;
use dewline_stdlib::air::moist::{MoistAir, Moisture};
use dewline_stdlib::pipe::friction::friction_factor;
use uom::si::f64::{Pressure, Ratio, ThermodynamicTemperature};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

fn rows(text: &str) -> Vec<Vec<f64>> {
    text.lines().skip(1).map(|line| line.split(',').map(|field| field.parse().unwrap()).collect()).collect()
}

fn near(what: &str, found: f64, expected: f64, allowed: f64) {
    assert!((found - expected).abs() <= allowed, "{what}: {found} and {expected}");
}

/// IAPWS R7-97 and R14-08 by another implementation: ten digits are printed.
#[test]
fn water_boils_where_the_releases_say() {
    let library = dewline_stdlib::library();
    let Body::Numbers(pressure) = library.function("water_boiling_pressure").unwrap().body else {
        panic!("it is a function of numbers");
    };
    let rows = rows(include_str!("../../tests/reference/water.csv"));
    assert!(rows.len() > 30);
    for row in rows {
        let found = pressure(&[row[0]]).unwrap();
        near(&format!("{} K", row[0]), found, row[1], 2e-9 * row[1]);
    }
}

/// ASHRAE Fundamentals by PsychroLib, whose vapour pressure is Hyland and Wexler's: 4e-4 of the humidity, as much in
/// what follows from it, 0.01 K.
#[test]
fn moist_air_of_the_handbook() {
    let rows = rows(include_str!("../../tests/reference/moist-air.csv"));
    assert!(rows.len() > 100);
    for row in rows {
        let at = |t: f64| ThermodynamicTemperature::new::<kelvin>(t);
        let share = Moisture::Relative(Ratio::new::<ratio>(row[1]));
        let air = MoistAir::new(at(row[0]), share, Pressure::new::<pascal>(row[2])).unwrap();
        let what = format!("{:.2} K, {} and {} Pa", row[0], row[1], row[2]);
        near(&format!("humidity at {what}"), air.humidity_ratio.value, row[3], 4e-4 * row[3]);
        near(&format!("enthalpy at {what}"), air.enthalpy().value, row[4], 4e-4 * 2.5e6 * row[3] + 2.0);
        near(&format!("volume at {what}"), air.specific_volume().value, row[5], (1e-5 + 4e-4 * 1.6 * row[3]) * row[5]);
        near(&format!("dew point at {what}"), air.dew_point().unwrap().value, row[6], 0.01);
        // Below freezing a wick may hold water or ice.
        if row[7] > 274.0 {
            near(&format!("wet bulb at {what}"), air.wet_bulb().unwrap().value, row[7], 0.02);
        }
    }
}

/// Colebrook's equation by `fluids`; laminar flow is exact.
#[test]
fn friction_by_colebrook() {
    for row in rows(include_str!("../../tests/reference/friction.csv")) {
        // The library goes over to laminar flow below 2040, the trade library below 2300; the grid has nothing between.
        near(&format!("Re {} and {}", row[0], row[1]), friction_factor(row[0], row[1]), row[2], 1e-8 * row[2]);
    }
}
