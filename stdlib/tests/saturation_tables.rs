//! The committed tables are those that the equations give now.

use dewline_stdlib::helmholtz::blend::blend;
use dewline_stdlib::helmholtz::envelope::{Envelope, Line};
use dewline_stdlib::refrigerant::catalogue;
use dewline_stdlib::saturation::fingerprint::fingerprint;
use dewline_stdlib::saturation::saturation;

/// Every refrigerant that has a model has tables, made from the coefficients of now.
#[test]
fn nothing_is_stale() {
    for listed in catalogue::all() {
        let composition: Vec<(String, f64)> =
            listed.composition.iter().map(|&(name, share)| (name.to_string(), share)).collect();
        let modelled = blend(&composition).is_ok();
        match saturation(listed.designation) {
            Some(tables) => {
                let fresh = fingerprint(&listed.composition);
                assert_eq!(tables.fingerprint, fresh, "{}: make the tables anew", listed.designation);
            }
            None => {
                assert!(!modelled || listed.designation == "R-514A", "{}: make the tables anew", listed.designation)
            }
        }
    }
}

/// A sample traced anew. To 1 K below the end of the line 1e-10 in pressure and temperature and
/// 1e-9 in density; nearer, 1e-8 in pressure and temperature.
#[test]
fn a_sample_is_what_the_equations_give() {
    let always = ["R-32", "R-134a", "R-410A", "R-454B", "R-407C", "R-452C", "R-744", "R-290"];
    let mut worst = [0.0f64; 3];
    for (k, listed) in catalogue::all().iter().enumerate() {
        if k % 12 != 0 && !always.contains(&listed.designation) {
            continue;
        }
        let composition: Vec<(String, f64)> =
            listed.composition.iter().map(|&(name, share)| (name.to_string(), share)).collect();
        let (Ok(blend), Some(tables)) = (blend(&composition), saturation(listed.designation)) else {
            continue;
        };
        let lowest = tables.limits.lowest_temperature;
        let Ok(envelope) = Envelope::trace(&blend.model, lowest) else {
            continue;
        };
        for line in [Line::Bubble, Line::Dew] {
            let table = tables.line(line);
            let end = table.end.0;
            for step in 0..=400 {
                let t = end - (end - lowest) * (f64::from(step) / 400.0).powi(2);
                let t = t.max(table.cold.0);
                let point = envelope.at_ln_temperature(line, libm::log(t));
                let back = envelope.at_ln_pressure(line, libm::log(point.pressure().min(table.end.1)));
                let apart = [
                    (table.pressure(t) / point.pressure() - 1.0).abs(),
                    (table.temperature(point.pressure().clamp(table.cold.1, table.end.1)) / back.temperature() - 1.0)
                        .abs(),
                    (table.density(t) / point.density() - 1.0).abs(),
                ];
                let far = t <= end - 1.0;
                let allowed = if far { [1e-10, 1e-10, 1e-9] } else { [1e-8, 1e-8, f64::INFINITY] };
                for k in 0..3 {
                    assert!(apart[k] <= allowed[k], "{} {line:?} {t} K: {apart:?}", listed.designation);
                    worst[k] = if far { worst[k].max(apart[k]) } else { worst[k] };
                }
            }
        }
    }
    println!("to 1 K below the end: p {:.1e}, T {:.1e}, density {:.1e}", worst[0], worst[1], worst[2]);
}
