//! Check values that the papers print for their own equations, away from any saturation table.

use std::error::Error;

use dewline_stdlib::helmholtz::Model;
use dewline_stdlib::helmholtz::blend::blend;
use dewline_stdlib::helmholtz::sources;

type Checked = Result<(), Box<dyn Error>>;

#[track_caller]
fn close(value: f64, expected: f64, tolerance: f64) {
    let apart = (value / expected - 1.0).abs();
    assert!(apart <= tolerance, "{value} {expected}: {apart:.1e}");
}

/// Equal to the last printed digit.
#[track_caller]
fn prints(value: f64, printed: &str) {
    let places = printed.split_once('.').map_or(0, |(_, after)| after.len());
    let expected: f64 = printed.parse().unwrap_or(f64::NAN);
    assert!((value - expected).abs() <= 0.505 * 10f64.powi(-(places as i32)), "{value} is printed as {printed}");
}

fn pure(name: &str) -> Result<Model, Box<dyn Error>> {
    let equation = sources::equation(name).ok_or("no equation")?;
    Ok(Model::pure(equation.map_err(|error| error.0)?))
}

fn mixture(parts: &[(&str, f64)]) -> Result<Model, Box<dyn Error>> {
    let parts: Vec<(String, f64)> = parts.iter().map(|&(name, share)| (name.to_string(), share)).collect();
    Ok(blend(&parts).map_err(|error| format!("{error:?}"))?.model)
}

/// Lemmon & Akasaka 2022, table 7: R-1234yf.
#[test]
fn r1234yf() -> Checked {
    let model = pure("R-1234yf")?;
    let state = model.state(340.0, 8000.0);
    close(state.pressure, 2.309_798e6, 1e-6);
    close(state.isochoric_heat_capacity, 113.805, 1e-5);
    close(state.heat_capacity, 195.748, 1e-5);
    close(state.sound_speed_squared.sqrt(), 265.888, 1e-5);
    close(model.state(280.0, 11000.0).pressure, 28.957_60e6, 1e-6);
    close(model.state(280.0, 100.0).pressure, 0.218_534_5e6, 1e-6);
    Ok(())
}

/// Bell 2023, table XIII: R-32/R-1234yf, x(R-32) = 0.4 at 445 K and 4149 mol/m³.
#[test]
fn r32_with_r1234yf() -> Checked {
    let (a, b) = (0.052024, 0.1140416);
    let model = mixture(&[("R-32", 0.4 * a), ("R-1234yf", 0.6 * b)])?;
    close(model.residual(445.0, 4149.0).a, -0.473_110_647_439_11, 1e-10);
    Ok(())
}

/// Lemmon 2003, table V, p. 998, of the pseudo-pure equations.
#[test]
fn pseudo_pure_blends() -> Checked {
    let of = |name: &str| -> Result<Model, Box<dyn Error>> {
        let equation = sources::pseudo_pure_equation(name).ok_or("no equation")?;
        Ok(Model::pure(equation.map_err(|error| error.0)?.into()))
    };
    let model = of("R-410A")?;
    let liquid = model.state(300.0, 14_459.17);
    prints(liquid.isochoric_heat_capacity, "67.147");
    prints(liquid.heat_capacity, "125.50");
    prints(liquid.sound_speed_squared.sqrt(), "418.60");
    let vapor = model.state(300.0, 959.97);
    prints(vapor.pressure * 1e-6, "1.7351");
    prints(vapor.heat_capacity, "107.60");
    prints(vapor.sound_speed_squared.sqrt(), "160.94");
    let dense = model.state(250.0, 18_000.0);
    prints(dense.pressure * 1e-6, "17.651");
    prints(dense.heat_capacity, "98.401");
    prints(dense.sound_speed_squared.sqrt(), "800.83");
    prints(of("R-407C")?.state(250.0, 16_000.0).pressure * 1e-6, "25.372");
    prints(of("R-407C")?.state(300.0, 536.70).pressure * 1e-6, "1.0757");
    prints(of("R-404A")?.state(300.0, 705.99).pressure * 1e-6, "1.3034");
    Ok(())
}

/// The lines of Lemmon 2003 as a second opinion on the mixture model: within the stated
/// uncertainty of 0.5 % in bubble and dew pressure from 220 K to 10 K below critical.
#[test]
fn pseudo_pure_lines_agree_with_the_mixture_model() -> Checked {
    use dewline_stdlib::refrigerant::Refrigerant;
    use uom::si::f64::ThermodynamicTemperature;
    use uom::si::{pressure::pascal, thermodynamic_temperature::kelvin};

    type LineTerms = [(f64, f64); 4];
    let lines: [(&str, f64, f64, LineTerms, LineTerms); 4] = [
        (
            "R-410A",
            344.494,
            4.9012e6,
            [(-7.2818, 1.0), (2.5093, 1.8), (-3.2695, 2.4), (-2.8022, 4.9)],
            [(-7.4411, 1.0), (1.9883, 1.6), (-2.4925, 2.4), (-3.2633, 5.0)],
        ),
        (
            "R-407C",
            359.345,
            4.6317e6,
            [(0.48722, 0.54), (-6.6959, 0.925), (-1.4165, 2.7), (-2.5109, 4.7)],
            [(-0.086077, 0.4), (-6.6364, 0.965), (-2.4648, 3.1), (-3.4776, 5.0)],
        ),
        (
            "R-404A",
            345.270,
            3.7348e6,
            [(0.061067, 0.54), (-6.5646, 0.965), (-3.6162, 3.7), (-3.9771, 9.0)],
            [(-0.00026863, 0.1), (-6.5757, 0.972), (-4.1802, 3.8), (-7.9102, 9.0)],
        ),
        (
            "R-507A",
            343.765,
            3.7049e6,
            [(-7.4853, 1.0), (2.0115, 1.5), (-2.0141, 2.2), (-3.7763, 4.6)],
            [(-7.5459, 1.0), (2.338, 1.5), (-2.237, 2.1), (-4.1535, 4.7)],
        ),
    ];
    for (name, tc, pc, bubble, dew) in lines {
        let r = Refrigerant::find(name)?;
        let mut t = 220.0;
        while t < tc - 10.0 {
            let line = |terms: &LineTerms| {
                let sum: f64 = terms.iter().map(|(n, e)| n * (1.0 - t / tc).powf(*e)).sum();
                pc * (tc / t * sum).exp()
            };
            let at = ThermodynamicTemperature::new::<kelvin>(t);
            close(r.bubble_pressure(at)?.get::<pascal>(), line(&bubble), 5e-3);
            close(r.dew_pressure(at)?.get::<pascal>(), line(&dew), 5e-3);
            t += 7.0;
        }
    }
    Ok(())
}
