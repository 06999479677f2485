//! States by pressure and enthalpy or entropy: there and back, and inside the dome.

use std::error::Error;

use dewline_stdlib::helmholtz::blend::blend;
use dewline_stdlib::helmholtz::split::Split;
use dewline_stdlib::refrigerant::{Phase, Refrigerant, catalogue};
use dewline_stdlib::saturation::saturation;
use uom::si::f64::{AvailableEnergy, Pressure, Ratio, ThermodynamicTemperature};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

type Checked = Result<(), Box<dyn Error>>;

/// Single-phase states over the whole range come back from their enthalpy and from their entropy.
#[test]
fn single_phase_there_and_back() -> Checked {
    let mut tried = 0;
    for name in ["R-32", "R-410A", "R-454B", "R-407C", "R-744", "R-717", "R-290", "R-448A", "R-22"] {
        let r = Refrigerant::find(name)?;
        let limits = r.limits();
        let (low, high) = (limits.lowest_temperature.get::<kelvin>() + 5.0, limits.highest_temperature.get::<kelvin>());
        for i in 0..12 {
            let p = Pressure::new::<pascal>(
                3e3 * (limits.highest_pressure.get::<pascal>() / 3e3).powf(f64::from(i) / 14.0),
            );
            for j in 0..=12 {
                let t = low + (high - low) * f64::from(j) / 12.0;
                let Ok((phase, state)) = r.state(p, ThermodynamicTemperature::new::<kelvin>(t)) else {
                    continue;
                };
                tried += 1;
                for back in [r.state_with_enthalpy(p, state.enthalpy)?, r.state_with_entropy(p, state.entropy)?] {
                    assert_eq!(back.phase, phase, "{name} {p:?} {t} K");
                    assert_eq!(back.quality, None);
                    let apart = (back.temperature.get::<kelvin>() / t - 1.0).abs();
                    // Where c_p is infinite, temperature is not told by enthalpy any better.
                    assert!(apart < 1e-9, "{name} {p:?} {t} K: {apart:.1e}");
                }
            }
        }
    }
    assert!(tried > 800, "{tried}");
    Ok(())
}

/// Inside the dome enthalpy and entropy of the whole are those asked, quality runs from 0 to 1 and
/// temperature from bubble to dew.
#[test]
fn inside_the_dome() -> Checked {
    for name in ["R-32", "R-410A", "R-454C", "R-407C", "R-448A", "R-455A", "R-470A", "R-513A", "R-436A"] {
        let r = Refrigerant::find(name)?;
        let top = r.bubble_range().highest_pressure.min(r.dew_range().highest_pressure);
        let bottom = r.bubble_range().lowest_pressure.max(r.dew_range().lowest_pressure);
        for p in [2e5, 6e5, 1.5e6, 3e6, 0.97 * top.get::<pascal>()] {
            let p = Pressure::new::<pascal>(p.max(1.1 * bottom.get::<pascal>()));
            if p > top {
                continue;
            }
            let (liquid, vapor) = (r.saturated_liquid_at_pressure(p)?, r.saturated_vapor_at_pressure(p)?);
            let mut before = (Ratio::new::<ratio>(-1e-9), liquid.temperature);
            for k in 0..=20 {
                let share = (f64::from(k) / 20.0).clamp(1e-6, 1.0 - 1e-6);
                let h: AvailableEnergy = liquid.enthalpy + (vapor.enthalpy - liquid.enthalpy) * share;
                let state = r.state_with_enthalpy(p, h).map_err(|e| format!("{name} {p:?} {share}: {e}"))?;
                assert_eq!(state.phase, Phase::TwoPhase, "{name} {p:?} {share}");
                let quality = state.quality.ok_or("no quality")?;
                assert!(quality > before.0, "{name} {p:?} {share}: {quality:?}");
                let slip = state.temperature.get::<kelvin>() - before.1.get::<kelvin>();
                assert!(slip > -1e-8, "{name} {p:?} {share}: {slip}");
                assert!(((state.enthalpy - h) / (vapor.enthalpy - liquid.enthalpy)).get::<ratio>().abs() < 1e-11);
                before = (quality, state.temperature);
                let same = r.state_with_entropy(p, state.entropy)?;
                let apart = (same.enthalpy - state.enthalpy) / (vapor.enthalpy - liquid.enthalpy);
                assert!(apart.get::<ratio>().abs() < 1e-9, "{name} {p:?} {share}: {apart:?}");
            }
            assert!(before.0.get::<ratio>() <= 1.0);
            assert!(before.1.get::<kelvin>() <= vapor.temperature.get::<kelvin>() + 1e-8);
        }
    }
    Ok(())
}

/// Pressure (Pa), molar share of vapour, mass share, T (K) and density (kg/m³), computed with
/// CoolProp 8.0.0 at the list's compositions.
#[test]
fn part_vapour() -> Checked {
    for (name, p, share, quality, t, density) in [
        ("R-454B", 1e6, 0.25, 0.2382986154, 281.980512779204, 119.35490526989071),
        ("R-454B", 3e5, 0.75, 0.7314879429, 247.44886979557734, 13.26070841774608),
        ("R-407C", 1e6, 0.5, 0.4827787867, 294.5827330232142, 83.2971288847444),
        ("R-448A", 2e6, 0.75, 0.7364673272, 319.21088193420775, 120.11354570327177),
        ("R-455A", 3e5, 0.25, 0.206370742, 251.77627919207146, 52.343056197082134),
        ("R-455A", 2e6, 0.5, 0.4663315546, 319.7482736415715, 167.01437825818732),
    ] {
        let listed = &catalogue::all()[catalogue::find(name)?];
        let composition: Vec<(String, f64)> =
            listed.composition.iter().map(|&(name, share)| (name.to_string(), share)).collect();
        let model = blend(&composition).map_err(|error| format!("{error:?}"))?.model;
        let line = saturation(name).ok_or("no tables")?.bubble;
        let start = Split::bubble_point(&model, line.temperature(p), |t| line.density(t));
        let start = start.ok_or("no bubble point")?;
        let split = start.moved(&model, p, share).ok_or("no split")?;
        let whole = split.overall(&model);
        let apart = [
            split.temperature / t - 1.0,
            whole.quality / quality - 1.0,
            model.molar_mass / whole.volume / density - 1.0,
        ];
        for (apart, allowed) in apart.into_iter().zip([1e-9, 1e-8, 1e-8]) {
            assert!(apart.abs() < allowed, "{name} {p} {share}: {apart:.1e}");
        }
    }
    Ok(())
}

/// Saturated liquid and vapour come back from their own enthalpy and entropy, at any pressure: nothing is lost to rounding
/// on a line.
#[test]
fn on_the_lines() -> Checked {
    for name in ["R-32", "R-410A", "R-134a", "R-454B"] {
        let r = Refrigerant::find(name)?;
        for step in 0..400 {
            let p = Pressure::new::<pascal>(688_689.927_264_459_1 * 1.003_f64.powi(step));
            let lines = [
                (Phase::Liquid, r.saturated_liquid_at_pressure(p)?),
                (Phase::Vapor, r.saturated_vapor_at_pressure(p)?),
            ];
            for (phase, state) in lines {
                for back in [r.state_with_enthalpy(p, state.enthalpy), r.state_with_entropy(p, state.entropy)] {
                    let back = back.map_err(|error| format!("{name} {p:?}: {error}"))?;
                    assert_eq!((back.phase, back.quality), (phase, None), "{name} {p:?}");
                    let apart = back.temperature.get::<kelvin>() / state.temperature.get::<kelvin>() - 1.0;
                    assert!(apart.abs() < 1e-9, "{name} {p:?}: {apart:.1e}");
                }
            }
        }
    }
    Ok(())
}
