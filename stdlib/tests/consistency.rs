//! Checks that need no reference: what thermodynamics demands of any equation.

use std::error::Error;

use dewline_stdlib::helmholtz::blend::blend;
use dewline_stdlib::helmholtz::envelope::{Envelope, Line};
use dewline_stdlib::helmholtz::equilibrium::{Specification, TwoPhasePoint, solve};
use dewline_stdlib::helmholtz::{COMPONENTS_MAX, GAS_CONSTANT, Model, PerComponent};
use dewline_stdlib::refrigerant::{Refrigerant, catalogue};
use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::kelvin;

type Checked = Result<(), Box<dyn Error>>;

fn model(name: &str) -> Result<Model, Box<dyn Error>> {
    let listed = &catalogue::all()[catalogue::find(name)?];
    let composition: Vec<(String, f64)> =
        listed.composition.iter().map(|&(name, share)| (name.to_string(), share)).collect();
    Ok(blend(&composition).map_err(|error| format!("{error:?}"))?.model)
}

/// dp/dT along the line is Δs/Δv, for every term form there is.
#[test]
fn clausius_clapeyron() -> Checked {
    for name in ["R-32", "R-125", "R-134a", "R-717", "R-744", "R-1243zf", "R-C318", "R-290"] {
        let model = model(name)?;
        let lowest = model.components()[0].limits.lowest_temperature;
        let envelope = Envelope::trace(&model, lowest).map_err(|e| format!("{e:?}"))?;
        let (cold, hot) = (lowest.ln(), envelope.critical().ln_temperature);
        for k in 1..20 {
            let ln_t = cold + (hot - cold) * f64::from(k) / 20.0;
            let liquid = envelope.at_ln_temperature(Line::Bubble, ln_t);
            let vapor = envelope.at_ln_temperature(Line::Dew, ln_t);
            let (by_t, by_p) = envelope.curve().slopes(liquid.separation);
            let slope = by_p / by_t * liquid.pressure() / liquid.temperature();
            let a = model.state(liquid.temperature(), liquid.density());
            let b = model.state(vapor.temperature(), vapor.density());
            let expected = (b.entropy - a.entropy) / (1.0 / b.density - 1.0 / a.density);
            let apart = (slope / expected - 1.0).abs();
            assert!(apart < 1e-8, "{name} at {} K: {apart:.1e}", liquid.temperature());
            let latent = (b.enthalpy - a.enthalpy) / (b.temperature * (b.entropy - a.entropy)) - 1.0;
            assert!(latent.abs() < 1e-8, "{name} at {} K: {latent:.1e}", liquid.temperature());
        }
    }
    Ok(())
}

/// The slopes that uncertainty is carried by, taken from the tables, are those of Clapeyron's equation, from where it is cold
/// to a hair below the critical point; for blends, whose lines do not obey it, one is the other's reciprocal.
#[test]
fn slopes_of_the_saturation_tables() -> Checked {
    for name in ["R-32", "R-125", "R-134a", "R-717", "R-744", "R-290"] {
        let r = Refrigerant::find(name)?;
        let (cold, end) = (240.0, r.critical_point().temperature.value);
        for share in [0.0, 0.2, 0.5, 0.8, 0.95, 0.99, 0.999] {
            let t = ThermodynamicTemperature::new::<kelvin>(cold + (end - cold) * share);
            let (liquid, vapor) = (r.saturated_liquid_at_temperature(t)?, r.saturated_vapor_at_temperature(t)?);
            let latent = (vapor.enthalpy - liquid.enthalpy).value;
            let swell = 1.0 / vapor.density.value - 1.0 / liquid.density.value;
            let expected = latent / (t.value * swell);
            for line in [Line::Bubble, Line::Dew] {
                let by_temperature = r.saturation_pressure_slope(line, t).ok_or("no slope")?;
                let by_pressure = r.saturation_temperature_slope(line, liquid.pressure).ok_or("no slope")?;
                for slope in [by_temperature, 1.0 / by_pressure] {
                    let apart = (slope / expected - 1.0).abs();
                    assert!(apart < 2e-7, "{name} at {} K: {apart:.1e}", t.value);
                }
            }
        }
    }
    for name in ["R-410A", "R-454B", "R-448A", "R-407C"] {
        let r = Refrigerant::find(name)?;
        for celsius in [-60.0, -20.0, 10.0, 45.0, 60.0] {
            let t = ThermodynamicTemperature::new::<kelvin>(celsius + 273.15);
            for (line, p) in [(Line::Bubble, r.bubble_pressure(t)?), (Line::Dew, r.dew_pressure(t)?)] {
                let by_temperature = r.saturation_pressure_slope(line, t).ok_or("no slope")?;
                let by_pressure = r.saturation_temperature_slope(line, p).ok_or("no slope")?;
                let apart = (by_temperature * by_pressure - 1.0).abs();
                assert!(apart < 2e-7, "{name} at {celsius} °C: {apart:.1e}");
            }
        }
    }
    Ok(())
}

/// (∂s/∂ρ) at constant T is −(∂p/∂T)/ρ², and the derivatives of p are what differences give.
#[test]
fn maxwell() -> Checked {
    for name in ["R-410A", "R-454B", "R-448A", "R-455A", "R-717", "R-125", "R-1130(E)"] {
        let model = model(name)?;
        for (tau, delta) in [(1.3, 0.004), (1.2, 2.6), (0.95, 0.7), (0.8, 1.9)] {
            let (t, rho) = (model.reducing_temperature() / tau, model.reducing_density() * delta);
            let state = model.state(t, rho);
            let h = 1e-3;
            let entropy = |k: f64| model.state(t, rho * (1.0 + k * h)).entropy;
            let by_ln_rho = (8.0 * (entropy(1.0) - entropy(-1.0)) - (entropy(2.0) - entropy(-2.0))) / (12.0 * h);
            let expected = -state.pressure_by_temperature / rho;
            assert!((by_ln_rho / expected - 1.0).abs() < 1e-8, "{name}: {by_ln_rho} {expected}");
            let pressure = |k: f64| model.pressure(t, rho * (1.0 + k * h)).0;
            let slope = (8.0 * (pressure(1.0) - pressure(-1.0)) - (pressure(2.0) - pressure(-2.0))) / (12.0 * h * rho);
            let scale = state.pressure_by_density.abs() + model.gas_constant * t;
            assert!((slope - state.pressure_by_density).abs() < 1e-8 * scale, "{name}");
        }
    }
    Ok(())
}

/// Component fugacities and pressures of both phases are equal along the lines of blends.
#[test]
fn equal_fugacities() -> Checked {
    for name in ["R-410A", "R-454C", "R-448A", "R-455A", "R-470A", "R-436A"] {
        let model = model(name)?;
        let n = model.count();
        let lowest = model.components().iter().map(|c| c.limits.lowest_temperature).fold(0.0, f64::max);
        let envelope = Envelope::trace(&model, lowest).map_err(|e| format!("{e:?}"))?;
        for k in 1..12 {
            let end = envelope.line(Line::Bubble).end.temperature();
            let t = lowest + (0.98 * end - lowest) * f64::from(k) / 12.0;
            let point = envelope.at_ln_temperature(Line::Bubble, t.ln());
            let feed = model.fractions.map(|x| x * point.density());
            let psi = model.potential(t.ln(), &feed);
            let mut guess = TwoPhasePoint {
                ln_temperature: t.ln(),
                ln_density: point.ln_density,
                ln_incipient: [0.0; COMPONENTS_MAX],
            };
            for (incipient, (density, gradient)) in
                guess.ln_incipient.iter_mut().zip(feed.iter().zip(&psi.gradient)).take(n)
            {
                *incipient = density.ln() + gradient;
            }
            let found = solve(&model, Specification::Temperature(t.ln()), &guess);
            let found = found.ok_or_else(|| format!("{name} at {t} K"))?;
            assert!((found.ln_pressure - point.ln_pressure).abs() < 1e-11, "{name} at {t} K");
            let vapor: PerComponent =
                std::array::from_fn(|i| if i < n { found.point.ln_incipient[i].exp() } else { 0.0 });
            let liquid = model.fractions.map(|x| x * found.point.ln_density.exp());
            let (a, b) = (model.potential(t.ln(), &liquid), model.potential(t.ln(), &vapor));
            for i in 0..n {
                let apart = (liquid[i] / vapor[i]).ln() + a.gradient[i] - b.gradient[i];
                assert!(apart.abs() < 1e-11, "{name} at {t} K: {apart:.1e}");
            }
        }
    }
    Ok(())
}

/// A mixture with hardly any of its second component is the first one, but for the gas constant.
#[test]
fn pure_limit() -> Checked {
    let pure = model("R-32")?;
    let parts = [("R-32".to_string(), 1.0), ("R-125".to_string(), 1e-13)];
    let mixed = blend(&parts).map_err(|error| format!("{error:?}"))?.model;
    for (t, rho) in [(300.0, 400.0), (260.0, 22_000.0), (360.0, 8000.0)] {
        let ratio = mixed.state(t, rho).pressure / pure.state(t, rho).pressure;
        let expected = GAS_CONSTANT / pure.gas_constant;
        assert!((ratio / expected - 1.0).abs() < 1e-11, "{ratio} {expected}");
    }
    Ok(())
}
