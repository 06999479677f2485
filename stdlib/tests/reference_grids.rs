//! The equations and tables against grids made by general-purpose property libraries.
//!
//! `reference/make_grids.py` says which and how. Where a library failed, nothing is compared.

use dewline_stdlib::helmholtz::Model;
use dewline_stdlib::helmholtz::blend::blend;
use dewline_stdlib::refrigerant::{Refrigerant, catalogue};
use uom::si::f64::ThermodynamicTemperature;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

fn rows(text: &str) -> Vec<Vec<&str>> {
    text.lines().skip(1).map(|line| line.split(',').collect()).collect()
}

fn number(text: &str) -> Option<f64> {
    text.parse().ok()
}

/// Saturation pressure within 1e-8, and 1e-5 within 1 K of a pure fluid's critical temperature.
#[test]
fn saturation_pressures() {
    let mut faults = Vec::new();
    let (mut compared, mut unsure) = (0, 0);
    let mut worst = 0.0f64;
    for row in rows(include_str!("reference/saturation.csv")) {
        let (name, line) = (row[0], row[1]);
        let (Some(t), Some(expected)) = (number(row[2]), number(row[3])) else {
            continue;
        };
        let Ok(r) = Refrigerant::find(name) else {
            faults.push(format!("{name} is not modelled"));
            continue;
        };
        let at = ThermodynamicTemperature::new::<kelvin>(t);
        let answer = if line == "bubble" { r.bubble_pressure(at) } else { r.dew_pressure(at) };
        let critical = r.critical_point().temperature.get::<kelvin>();
        let allowed: f64 = if r.is_pure() && t > critical - 1.0 { 1e-5 } else { 1e-8 };
        // The library's own solution may be worse than that, by its own equations.
        let unsolved = number(row[5]).unwrap_or(f64::INFINITY);
        if unsolved > 0.5 * allowed {
            unsure += 1;
            continue;
        }
        match answer {
            Ok(p) => {
                let apart = p.get::<pascal>() / expected - 1.0;
                compared += 1;
                worst = if allowed == 1e-8 { worst.max(apart.abs()) } else { worst };
                if apart.abs() > allowed {
                    faults.push(format!("{name} {line} {t} K: {apart:.1e} (second library {})", row[6]));
                }
            }
            Err(error) => faults.push(format!("{name} {line} {t} K: {error}")),
        }
    }
    println!("{compared} pressures compared, worst {worst:.1e}; {unsure} that the library did not solve");
    assert!(compared > 1500, "{compared}");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Pressure, heat capacity, speed of sound and differences of enthalpy and entropy within 1e-8.
#[test]
fn states() {
    let mut faults = Vec::new();
    let mut compared = 0;
    let mut worst = 0.0f64;
    let mut base: Option<(String, Model, [f64; 3])> = None;
    for row in rows(include_str!("reference/states.csv")) {
        let name = row[0];
        let numbers: Vec<f64> = row[1..].iter().filter_map(|text| number(text)).collect();
        let [t, rho, p, cp, w, dh, ds] = numbers[..] else {
            continue;
        };
        if base.as_ref().is_none_or(|(of, ..)| of != name) {
            let Some(model) = model(name) else {
                faults.push(format!("{name} is not modelled"));
                continue;
            };
            let state = model.state(t, rho / model.molar_mass);
            base = Some((name.to_string(), model, [state.enthalpy, state.entropy, rho]));
        }
        let Some((_, model, [h0, s0, base_density])) = &base else {
            continue;
        };
        let mass = model.molar_mass;
        let state = model.state(t, rho / mass);
        // The first library takes the ideal gas of R-123 at a temperature wrong by the ratio of two
        // critical temperatures, and that of a blend's component at one wrong by the ratio of its
        // critical to its reducing temperature, where these differ.
        let components = model.components();
        let same_ideal_gas = name != "R-123"
            && (components.len() == 1 || components.iter().all(|c| c.critical.temperature == c.reducing_temperature));
        // It also multiplies ln ρ of each component by the ratio of its gas constant to the
        // mixture's; that is taken back, since entropy then contradicts pressure.
        let excess: f64 =
            components.iter().zip(&model.fractions).map(|(c, x)| x * (c.gas_constant - model.gas_constant)).sum();
        let ds = ds + excess / mass * (rho / base_density).ln();
        // Differences count relative to what an ideal gas stores at this temperature.
        let (h_scale, s_scale) = (model.gas_constant * t / mass, model.gas_constant / mass);
        for (what, value, expected, scale) in [
            ("pressure", state.pressure, p, p.abs().max(rho / mass * model.gas_constant * t)),
            ("heat capacity", state.heat_capacity / mass, cp, cp.abs()),
            ("speed of sound", state.sound_speed_squared, w * w, w * w),
            ("enthalpy", (state.enthalpy - h0) / mass, dh, h_scale),
            ("entropy", (state.entropy - s0) / mass, ds, s_scale),
        ] {
            if what != "pressure" && !same_ideal_gas {
                continue;
            }
            let apart = (value - expected).abs() / scale;
            compared += 1;
            worst = worst.max(apart);
            if apart.is_nan() || apart > 1e-8 {
                faults.push(format!("{name} {t} K {rho} kg/m3, {what}: {apart:.1e}"));
            }
        }
    }
    println!("{compared} values compared, worst {worst:.1e}");
    assert!(compared > 1400, "{compared}");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

fn model(name: &str) -> Option<Model> {
    let listed = &catalogue::all()[catalogue::find(name).ok()?];
    let composition: Vec<(String, f64)> =
        listed.composition.iter().map(|&(name, share)| (name.to_string(), share)).collect();
    blend(&composition).ok().map(|blend| blend.model)
}
