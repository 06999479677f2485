//! Vapor beyond the upper temperature of its equations: what is told there agrees with equations and tables that go farther.

use std::error::Error;

use dewline_stdlib::helmholtz::blend::blend;
use dewline_stdlib::helmholtz::{Model, sources};
use dewline_stdlib::refrigerant::{Refrigerant, catalogue};
use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

type Checked = Result<(), Box<dyn Error>>;

fn model(name: &str) -> Result<Model, Box<dyn Error>> {
    let listed = &catalogue::all()[catalogue::find(name)?];
    let composition: Vec<(String, f64)> =
        listed.composition.iter().map(|&(name, share)| (name.to_string(), share)).collect();
    Ok(blend(&composition).map_err(|error| format!("{error:?}"))?.model)
}

/// R-410A and R-407C by the mixture model, of which R-32 ends at 435 K, against the pseudo-pure equations of Lemmon 2003, which
/// were fitted to 500 K: density, heat capacity, and enthalpy from 420 K on.
#[test]
fn blends_against_equations_that_go_to_500_kelvin() -> Checked {
    for name in ["R-410A", "R-407C"] {
        let mixture = model(name)?;
        let other = sources::pseudo_pure_equation(name).ok_or("no pseudo-pure equation")?;
        let other = Model::pure(std::sync::Arc::new(other.map_err(|error| error.0)?));
        let at = |model: &Model, p: f64, t: f64| {
            let ideal = p / (model.gas_constant * t);
            let rho = model.density_between(t, p, 0.5 * ideal, 3.0 * ideal, ideal).ok_or("no density")?;
            Ok::<_, &str>(model.state(t, rho))
        };
        let mut worst = [0.0f64; 3];
        for p in [1e5, 5e5, 1e6, 2e6, 3e6, 4e6] {
            let (from, other_from) = (at(&mixture, p, 420.0)?, at(&other, p, 420.0)?);
            for t in [435.0, 450.0, 465.0, 480.0, 500.0] {
                let (ours, theirs) = (at(&mixture, p, t)?, at(&other, p, t)?);
                let (h, g) = (ours.enthalpy - from.enthalpy, theirs.enthalpy - other_from.enthalpy);
                let apart =
                    [ours.density / theirs.density - 1.0, ours.heat_capacity / theirs.heat_capacity - 1.0, h / g - 1.0];
                for (worst, apart) in worst.iter_mut().zip(apart) {
                    *worst = worst.max(apart.abs());
                }
            }
        }
        println!("{name}: density {:.1e}, heat capacity {:.1e}, enthalpy {:.1e}", worst[0], worst[1], worst[2]);
        assert!(worst.iter().all(|worst| *worst < 1e-3), "{name} {worst:?}");
    }
    Ok(())
}

/// Heat capacity of the ideal gas at 300 to 500 K against NIST-JANAF, TRC and earlier equations: within 2.5 %, and beyond the
/// limit not by more than a hundredth farther off than within it. `reference/make_hot_gas.py` says where the values come from.
#[test]
fn ideal_gases_against_tables_that_go_farther() -> Checked {
    let (mut beyond, mut within) = (0, std::collections::BTreeMap::<&str, f64>::new());
    for row in include_str!("reference/hot_gas.csv").lines().skip(1) {
        let cells: Vec<&str> = row.split(',').collect();
        let (name, t, kind, expected) = (cells[0], cells[1].parse::<f64>()?, cells[2], cells[3].parse::<f64>()?);
        let equation = sources::equation(name).ok_or("no equation")?.map_err(|error| error.0)?;
        let is_beyond = t > equation.limits.highest_temperature;
        let apart = Model::pure(equation).state(t, 1e-6).heat_capacity / expected - 1.0;
        println!("{name} {t} K {kind}: {:+.2} %{}", apart * 100.0, if is_beyond { ", beyond" } else { "" });
        assert!(apart.abs() < 0.025, "{name} {t} K {kind}: {apart}");
        let worst = within.entry(name).or_default();
        if is_beyond {
            beyond += 1;
            assert!(apart.abs() < *worst + 0.01, "{name} {t} K {kind}: {apart}, {worst} within the limit");
        } else {
            *worst = worst.max(apart.abs());
        }
    }
    assert_eq!(beyond, 7);
    Ok(())
}

/// Beyond the limit vapor is told as far as said, and no liquid, nothing above critical pressure and nothing hotter.
#[test]
fn how_far_vapor_is_told() -> Checked {
    for (name, limit, hottest) in [("R-32", 435.0, 500.0), ("R-454B", 410.0, 492.0), ("R-744", 2000.0, 2000.0)] {
        let r = Refrigerant::find(name)?;
        assert_eq!(r.limits().highest_temperature.get::<kelvin>(), limit, "{name}");
        let at = |p: f64, t: f64| r.state(Pressure::new::<pascal>(p), ThermodynamicTemperature::new::<kelvin>(t));
        assert!(at(2e6, hottest).is_ok(), "{name}");
        assert!(at(2e6, hottest + 0.1).is_err(), "{name}");
        assert!(at(8e6, limit).is_ok(), "{name}");
        assert!(at(8e6, limit + 0.1).is_err(), "{name}");
    }
    Ok(())
}
