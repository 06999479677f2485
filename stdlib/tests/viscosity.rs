//! Viscosity against a general-purpose property library, CoolProp 8.0.0, at the same temperature
//! and density: the correlations are the same, only where one takes its potential from the
//! critical point the library takes its own, recomputed, one.

use std::error::Error;

use dewline_stdlib::helmholtz::{Model, blend, sources};
use dewline_stdlib::refrigerant::{PropertyError, Refrigerant};
use dewline_stdlib::transport::{self, Source, published};
use uom::si::dynamic_viscosity::micropascal_second;
use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::pressure::{kilopascal, pascal};
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};

/// Fluid, K, mol/m³, Pa s.
const ROWS: &[(&str, f64, f64, f64)] = &[
    ("R-123", 365.46, 7.2, 1.314806024e-05),
    ("R-123", 351.41, 9890.1, 5.352305095e-04),
    ("R-123", 507.59, 2157.9, 2.840976696e-05),
    ("R-123", 415.3, 8271.8, 2.035757909e-04),
    ("R-1234yf", 294.28, 8.4, 1.222051044e-05),
    ("R-1234yf", 282.96, 11495.0, 3.872706706e-04),
    ("R-1234yf", 408.72, 2508.0, 2.334987825e-05),
    ("R-1234yf", 334.41, 9614.0, 1.548321426e-04),
    ("R-1234ze(E)", 306.01, 8.6, 1.267935437e-05),
    ("R-1234ze(E)", 294.24, 11797.5, 4.435474943e-04),
    ("R-1234ze(E)", 425.01, 2574.0, 2.420442259e-05),
    ("R-1234ze(E)", 347.74, 9867.0, 1.714996853e-04),
    ("R-124", 316.34, 8.2, 1.369051646e-05),
    ("R-124", 304.17, 11284.0, 5.635386978e-04),
    ("R-124", 439.36, 2462.0, 2.684368987e-05),
    ("R-124", 359.48, 9437.5, 2.073647674e-04),
    ("R-125", 271.34, 9.6, 1.181085880e-05),
    ("R-125", 260.9, 13142.2, 5.322726086e-04),
    ("R-125", 376.86, 2867.4, 2.455285704e-05),
    ("R-125", 308.34, 10991.7, 2.042328946e-04),
    ("R-134a", 299.34, 10.0, 1.188838013e-05),
    ("R-134a", 287.83, 13691.8, 4.020557896e-04),
    ("R-134a", 415.76, 2987.3, 2.416633161e-05),
    ("R-134a", 340.16, 11451.3, 1.712046332e-04),
    ("R-152a", 309.13, 11.1, 1.154473879e-05),
    ("R-152a", 297.24, 15321.5, 2.923856406e-04),
    ("R-152a", 429.35, 3342.9, 2.220911443e-05),
    ("R-152a", 351.28, 12814.3, 1.306029722e-04),
    ("R-22", 295.44, 12.1, 1.365487366e-05),
    ("R-22", 284.07, 16660.1, 3.412301473e-04),
    ("R-22", 410.33, 3634.9, 2.431508646e-05),
    ("R-22", 335.72, 13933.9, 1.389673904e-04),
    ("R-245fa", 341.61, 7.8, 1.357186390e-05),
    ("R-245fa", 328.47, 10656.2, 6.213723837e-04),
    ("R-245fa", 474.46, 2325.0, 2.854466858e-05),
    ("R-245fa", 388.19, 8912.5, 2.348663399e-04),
    ("R-290", 295.91, 10.0, 8.092427259e-06),
    ("R-290", 284.53, 13750.0, 2.370710594e-04),
    ("R-290", 410.99, 3000.0, 1.654253740e-05),
    ("R-290", 336.26, 11500.0, 1.079987694e-04),
    ("R-32", 281.0, 16.3, 1.258793492e-05),
    ("R-32", 270.2, 22412.7, 2.382292603e-04),
    ("R-32", 390.28, 4890.1, 2.362458829e-05),
    ("R-32", 319.32, 18745.2, 1.183130469e-04),
    ("R-404A", 276.22, 9.9, 1.135695939e-05),
    ("R-404A", 265.59, 13585.0, 3.568471221e-04),
    ("R-404A", 383.63, 2964.0, 2.533697741e-05),
    ("R-404A", 313.88, 11362.0, 1.548959787e-04),
    ("R-407C", 287.48, 10.5, 1.179075108e-05),
    ("R-407C", 276.42, 14465.0, 2.150566150e-04),
    ("R-407C", 399.27, 3156.0, 2.569032651e-05),
    ("R-407C", 326.68, 12098.0, 1.184373195e-04),
    ("R-410A", 275.6, 12.6, 1.181883304e-05),
    ("R-410A", 265.0, 17391.0, 2.244173216e-04),
    ("R-410A", 382.77, 3794.4, 2.496459242e-05),
    ("R-410A", 313.18, 14545.2, 1.187711188e-04),
    ("R-507A", 275.01, 9.9, 1.118589894e-05),
    ("R-507A", 264.43, 13651.1, 4.142962876e-04),
    ("R-507A", 381.96, 2978.4, 2.576116770e-05),
    ("R-507A", 312.51, 11417.3, 1.664109690e-04),
    ("R-600", 340.1, 7.8, 8.448578052e-06),
    ("R-600", 327.02, 10787.6, 2.432169018e-04),
    ("R-600", 472.36, 2353.7, 1.628406340e-05),
    ("R-600", 386.48, 9022.4, 1.116031172e-04),
    ("R-600a", 326.25, 7.8, 8.191685941e-06),
    ("R-600a", 313.7, 10669.3, 2.763912294e-04),
    ("R-600a", 453.12, 2327.9, 1.734702337e-05),
    ("R-600a", 370.74, 8923.4, 1.192055416e-04),
    ("R-717", 324.45, 27.4, 1.107430639e-05),
    ("R-717", 311.97, 37664.0, 1.644793531e-04),
    ("R-717", 450.62, 8217.6, 2.148959564e-05),
    ("R-717", 368.69, 31500.8, 8.912038354e-05),
    ("R-728", 100.95, 22.4, 6.976318831e-06),
    ("R-728", 97.07, 30755.7, 1.906995636e-04),
    ("R-728", 140.21, 6710.3, 1.375001926e-05),
    ("R-728", 114.72, 25723.0, 8.546937547e-05),
    ("R-732", 123.66, 27.3, 9.475241355e-06),
    ("R-732", 118.91, 37482.5, 2.302502307e-04),
    ("R-732", 171.76, 8178.0, 1.799368941e-05),
    ("R-732", 140.53, 31349.0, 1.078114520e-04),
    ("R-740", 120.55, 26.8, 9.892902405e-06),
    ("R-740", 115.91, 36870.4, 3.105150131e-04),
    ("R-740", 167.43, 8044.5, 2.029820435e-05),
    ("R-740", 136.99, 30837.1, 1.307468481e-04),
    ("R-744", 243.3, 21.2, 1.225376586e-05),
    ("R-744", 233.94, 29218.5, 3.725724691e-04),
    ("R-744", 337.92, 6374.9, 2.336871830e-05),
    ("R-744", 276.48, 24437.3, 1.572568525e-04),
    ("R-1270", 291.37, 10.9, 8.365770749e-06),
    ("R-1270", 280.44, 15006.7, 2.209414126e-04),
    ("R-1270", 404.27, 3274.2, 1.929616268e-05),
    ("R-1270", 331.43, 12551.1, 1.079964532e-04),
    ("R-1270", 254.95, 2.7, 7.296145429e-06),
    ("R-1270", 346.0, 1091.4, 1.130601463e-05),
    ("R-142b", 328.21, 8.9, 1.149073492e-05),
    ("R-142b", 315.9, 12204.7, 3.816964636e-04),
    ("R-142b", 455.39, 2662.8, 2.379101201e-05),
    ("R-142b", 373.34, 10207.6, 1.645290580e-04),
    ("R-142b", 389.75, 887.6, 1.476253992e-05),
    ("R-143a", 276.69, 10.3, 1.030977555e-05),
    ("R-143a", 266.31, 14103.2, 2.130159620e-04),
    ("R-143a", 383.9, 3077.1, 2.319192667e-05),
    ("R-143a", 314.73, 11795.4, 1.281789215e-04),
    ("R-143a", 242.1, 2.6, 8.998708853e-06),
    ("R-143a", 328.56, 1025.7, 1.355863122e-05),
    ("R-218", 265.67, 9184.9, 7.513640839e-04),
    ("R-218", 382.97, 2004.0, 2.518325474e-05),
    ("R-218", 313.97, 7681.9, 2.439750646e-04),
    ("R-218", 327.77, 668.0, 1.472879737e-05),
    ("R-227ea", 299.92, 7.0, 1.167128116e-05),
    ("R-227ea", 288.67, 9611.2, 5.929515030e-04),
    ("R-227ea", 416.14, 2097.0, 2.352702801e-05),
    ("R-227ea", 341.16, 8038.4, 2.256282015e-04),
    ("R-227ea", 262.43, 1.7, 1.018662716e-05),
    ("R-227ea", 356.16, 699.0, 1.481620079e-05),
    ("R-23", 239.43, 15.0, 1.201303501e-05),
    ("R-23", 230.46, 20679.9, 2.917680198e-04),
    ("R-23", 332.22, 4512.0, 2.339170770e-05),
    ("R-23", 272.36, 17295.9, 1.430159654e-04),
    ("R-23", 209.51, 3.8, 1.045658790e-05),
    ("R-23", 284.33, 1504.0, 1.526340101e-05),
    ("R-236ea", 329.93, 7.5, 1.215830502e-05),
    ("R-236ea", 317.55, 10306.5, 9.937026010e-04),
    ("R-236ea", 457.77, 2248.7, 2.595570515e-05),
    ("R-236ea", 375.29, 8620.0, 2.583177221e-04),
    ("R-236ea", 391.79, 749.6, 1.527417666e-05),
    ("R-236fa", 318.46, 7.3, 1.177636421e-05),
    ("R-236fa", 306.51, 9971.5, 6.123259338e-04),
    ("R-236fa", 441.86, 2175.6, 2.505456909e-05),
    ("R-236fa", 362.24, 8339.8, 2.149666019e-04),
    ("R-236fa", 278.65, 1.8, 1.028595050e-05),
    ("R-236fa", 378.17, 725.2, 1.477554685e-05),
    ("R-C318", 310.7, 6.2, 1.200828755e-05),
    ("R-C318", 299.05, 8523.7, 8.856604082e-04),
    ("R-C318", 431.09, 1859.7, 2.765562499e-05),
    ("R-C318", 353.42, 7128.9, 2.890819862e-04),
    ("R-C318", 368.95, 619.9, 1.571851139e-05),
    ("air", 106.1, 20.9, 7.514015198e-06),
    ("air", 102.02, 28731.2, 1.199014785e-04),
    ("air", 147.37, 6268.6, 1.389388122e-05),
    ("air", 120.57, 24029.7, 6.433466644e-05),
];

/// Fluids by extended corresponding states.
const SHAPED: [&str; 8] = ["R-1270", "R-142b", "R-143a", "R-218", "R-227ea", "R-236ea", "R-236fa", "R-C318"];

#[test]
fn correlations() -> Result<(), Box<dyn Error>> {
    let mut faults = Vec::new();
    for &(name, t, rho, expected) in ROWS {
        let equation = match sources::pseudo_pure_equation(name) {
            Some(blend) => blend.map_err(|error| error.0)?.into(),
            None => sources::equation(name).ok_or(name)?.map_err(|error| error.0)?,
        };
        let correlation = published(name).ok_or(name)?.map_err(|error| error.0)?;
        let value = correlation.value(&Model::pure(equation), t, rho);
        let apart = value / expected - 1.0;
        let scaled = matches!(name, "R-22" | "R-32" | "R-124" | "R-152a" | "R-245fa" | "R-1234yf" | "R-1234ze(E)");
        // In a thin gas where no state conforms, the library looks elsewhere for one.
        let sparse = rho < 15.0 && SHAPED.contains(&name);
        let allowed = if scaled || sparse { 2e-3 } else { 3e-6 };
        if apart.is_nan() || apart.abs() > allowed {
            faults.push(format!("{name} {t} K {rho} mol/m3: {value:.6e} {expected:.6e} {apart:.1e}"));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    Ok(())
}

/// At 25 °C and 101.325 kPa, computed with CoolProp 8.0.0: R-134a 11.82, R-32 13.36, R-125 12.96 µPa s.
#[test]
fn gases_at_room_temperature() -> Result<(), Box<dyn Error>> {
    let t = ThermodynamicTemperature::new::<degree_celsius>(25.0);
    for (name, expected) in [("R-134a", 11.82), ("R-32", 13.36), ("R-125", 12.96)] {
        let value = Refrigerant::find(name)?.viscosity(Pressure::new::<kilopascal>(101.325), t)?;
        assert!((value.get::<micropascal_second>() - expected).abs() < 0.0055, "{name} {value:?}");
    }
    let unpublished = Refrigerant::find("R-1233zd(E)")?.viscosity(Pressure::new::<kilopascal>(101.325), t);
    assert!(matches!(unpublished, Err(PropertyError::NotPublished(_))));
    Ok(())
}

/// A blend's estimate from its components against the correlations that Geller 2000 (Purdue) made from measurements of
/// four blends: saturated liquid and vapor, and vapor of half its density.
#[test]
fn blends_estimated_from_their_components() -> Result<(), Box<dyn Error>> {
    // Worst share apart: cold liquid, liquid from 0 °C up, vapor.
    let mut worst = [0.0_f64; 3];
    for name in ["R-404A", "R-407C", "R-410A", "R-507A"] {
        let r = Refrigerant::find(name)?;
        let composition: Vec<(String, f64)> =
            r.composition().iter().map(|&(component, share)| (component.to_string(), share)).collect();
        let model = blend::blend(&composition).map_err(|error| format!("{error:?}"))?.model;
        let estimated = Source::Estimated(transport::blend::parts(&model)?);
        let measured = published(name).ok_or(name)?.map_err(|error| error.0)?;
        for step in 0..=10 {
            let celsius = -40.0 + 10.0 * f64::from(step);
            let t = ThermodynamicTemperature::new::<degree_celsius>(celsius);
            let liquid = r.saturated_liquid_at_temperature(t)?.density.value;
            let vapor = r.saturated_vapor_at_temperature(t)?.density.value;
            for (place, rho) in [(usize::from(celsius >= 0.0), liquid), (2, vapor), (2, 0.5 * vapor)] {
                let rho = rho / model.molar_mass;
                let value = estimated.value(&model, t.value, rho).ok_or("no estimate")?;
                let apart = value / measured.value(&model, t.value, rho) - 1.0;
                worst[place] = worst[place].max(apart.abs());
            }
        }
    }
    println!("cold liquid {:.3}, liquid from 0 °C up {:.3}, vapor {:.3}", worst[0], worst[1], worst[2]);
    assert!(worst[0] < 0.2 && worst[1] < 0.08 && worst[2] < 0.08, "{worst:?}");
    Ok(())
}

/// A blend of one component is that component.
#[test]
fn an_estimate_of_one_component_is_its_own_correlation() -> Result<(), Box<dyn Error>> {
    let equation = sources::equation("R-32").ok_or("R-32")?.map_err(|error| error.0)?;
    let model = Model::pure(equation);
    let parts = transport::blend::parts(&model)?;
    for (t, rho) in [(281.0, 500.0), (270.2, 22_412.7), (390.28, 4_890.1)] {
        let own = published("R-32").ok_or("R-32")?.map_err(|error| error.0)?.value(&model, t, rho);
        let estimated = transport::blend::value(&parts, &model, t, rho);
        assert!((estimated / own - 1.0).abs() < 1e-9, "{t} {rho}: {estimated} {own}");
    }
    Ok(())
}

/// Corresponding states are found wherever liquid or vapor is: no state of a whole walk is without a viscosity.
#[test]
fn no_gap_along_the_lines() -> Result<(), Box<dyn Error>> {
    for name in ["R-1270", "R-142b", "R-143a", "R-218", "R-227ea", "R-23", "R-236ea", "R-236fa", "R-C318", "R-454B"] {
        let r = Refrigerant::find(name)?;
        let range = r.dew_range();
        let (low, high) = (range.lowest_temperature.value.max(190.0), range.highest_temperature.value - 1.0);
        for step in 0..=60 {
            let t = low + (high - low) * f64::from(step) / 60.0;
            let p = r.dew_pressure(ThermodynamicTemperature::new::<kelvin>(t))?;
            for (t, p) in [(t + 0.5, p.value), (t + 5.0, 0.5 * p.value), (t - 8.0, 1.1 * p.value)] {
                if t < low || t > range.highest_temperature.value {
                    continue;
                }
                let (p, t) = (Pressure::new::<pascal>(p), ThermodynamicTemperature::new::<kelvin>(t));
                match r.viscosity(p, t) {
                    Ok(value) => assert!(value.value > 4e-6 && value.value < 0.1, "{name} {t:?} {value:?}"),
                    Err(PropertyError::InsideDome { .. } | PropertyError::OutOfRange { .. }) => {}
                    Err(error) => return Err(format!("{name} {t:?} {p:?}: {error}").into()),
                }
            }
        }
    }
    Ok(())
}
