//! Values that the papers and the handbook print, each to its last digit.

use std::error::Error;

use dewline_stdlib::refrigerant::{Gas, Phase, Refrigerant};
use uom::si::available_energy::kilojoule_per_kilogram;
use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::{kilopascal, megapascal};
use uom::si::specific_heat_capacity::kilojoule_per_kilogram_kelvin;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};

type Checked = Result<(), Box<dyn Error>>;

fn celsius(t: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(t)
}

fn kelvins(t: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<kelvin>(t)
}

/// Equal within half a unit of the last printed digit, and a trifle for the rounding of that half.
#[track_caller]
fn prints(value: f64, printed: &str) {
    let places = printed.split_once('.').map_or(0, |(_, after)| after.len());
    let expected: f64 = printed.parse().unwrap_or(f64::NAN);
    let half = 0.505 * 10f64.powi(-(places as i32));
    assert!((value - expected).abs() <= half, "{value} is printed as {printed}");
}

/// Tillner-Roth & Yokozeki 1997, tables 12, 13 and 14.
#[test]
fn r32() -> Checked {
    let r = Refrigerant::find("R-32")?;
    for (t, p, liquid, vapor) in [
        (-100.0, "3.81", "1339.0", "0.1385"),
        (-50.0, "110.14", "1208.4", "3.2316"),
        (0.0, "813.10", "1055.3", "22.091"),
        (50.0, "3141.2", "839.26", "98.550"),
        (74.0, "5304.6", "624.57", "240.12"),
    ] {
        prints(r.dew_pressure(celsius(t))?.get::<kilopascal>(), p);
        prints(r.bubble_pressure(celsius(t))?.get::<kilopascal>(), p);
        let density = |s: dewline_stdlib::refrigerant::State| s.density.get::<kilogram_per_cubic_meter>();
        prints(density(r.saturated_liquid_at_temperature(celsius(t))?), liquid);
        prints(density(r.saturated_vapor_at_temperature(celsius(t))?), vapor);
    }
    let liquid = r.saturated_liquid_at_temperature(celsius(0.0))?;
    let vapor = r.saturated_vapor_at_temperature(celsius(0.0))?;
    prints(liquid.enthalpy.get::<kilojoule_per_kilogram>(), "200.00");
    prints(vapor.enthalpy.get::<kilojoule_per_kilogram>(), "515.30");
    prints(liquid.entropy.get::<kilojoule_per_kilogram_kelvin>(), "1.0000");
    prints(vapor.entropy.get::<kilojoule_per_kilogram_kelvin>(), "2.1543");
    for (p, t) in [(100.0, "-51.91"), (5000.0, "71.18")] {
        let p = Pressure::new::<kilopascal>(p);
        prints(r.dew_temperature(p)?.get::<degree_celsius>(), t);
        prints(r.bubble_temperature(p)?.get::<degree_celsius>(), t);
    }
    let (phase, state) = r.state(Pressure::new::<kilopascal>(200.0), celsius(0.0))?;
    assert_eq!(phase, Phase::Vapor);
    prints(state.density.get::<kilogram_per_cubic_meter>(), "4.7455");
    let (phase, state) = r.state(Pressure::new::<megapascal>(1.0), celsius(5.0))?;
    assert_eq!(phase, Phase::Liquid);
    prints(state.density.get::<kilogram_per_cubic_meter>(), "1038.0");
    Ok(())
}

/// Tillner-Roth & Baehr 1994, tables 8 and 9.
#[test]
fn r134a() -> Checked {
    let r = Refrigerant::find("R-134a")?;
    for (t, p, liquid, vapor) in [
        (200.0, "0.00631", "1510.5", "0.38977"),
        (250.0, "0.11561", "1367.9", "5.9546"),
        (300.0, "0.70282", "1199.7", "34.193"),
        (350.0, "2.4611", "951.32", "140.99"),
    ] {
        prints(r.dew_pressure(kelvins(t))?.get::<megapascal>(), p);
        let at = r.saturated_liquid_at_temperature(kelvins(t))?;
        prints(at.density.get::<kilogram_per_cubic_meter>(), liquid);
        let at = r.saturated_vapor_at_temperature(kelvins(t))?;
        prints(at.density.get::<kilogram_per_cubic_meter>(), vapor);
    }
    let liquid = r.saturated_liquid_at_temperature(kelvins(250.0))?;
    let vapor = r.saturated_vapor_at_temperature(kelvins(250.0))?;
    prints(liquid.enthalpy.get::<kilojoule_per_kilogram>(), "169.57");
    prints(vapor.enthalpy.get::<kilojoule_per_kilogram>(), "384.60");
    prints(liquid.entropy.get::<kilojoule_per_kilogram_kelvin>(), "0.8841");
    prints(vapor.entropy.get::<kilojoule_per_kilogram_kelvin>(), "1.7443");
    let boiling = r.bubble_temperature(Pressure::new::<megapascal>(0.1))?;
    prints(boiling.get::<kelvin>(), "246.79");
    let (_, state) = r.state(Pressure::new::<megapascal>(1.0), kelvins(310.0))?;
    prints(state.density.get::<kilogram_per_cubic_meter>(), "1160.4");
    prints(state.enthalpy.get::<kilojoule_per_kilogram>(), "251.72");
    Ok(())
}

/// Tillner-Roth & Yokozeki 1997, table 9 (R-125 by Lemmon & Jacobsen 2005 agrees with it), and
/// Lemmon & Jacobsen 2000, p. 541, for R-143a.
#[test]
fn r125_and_r143a() -> Checked {
    let r = Refrigerant::find("R-125")?;
    prints(r.dew_pressure(celsius(0.0))?.get::<megapascal>(), "0.67052");
    let liquid = r.saturated_liquid_at_temperature(celsius(0.0))?;
    let vapor = r.saturated_vapor_at_temperature(celsius(0.0))?;
    prints(liquid.density.get::<kilogram_per_cubic_meter>(), "1319.8");
    prints(vapor.density.get::<kilogram_per_cubic_meter>(), "42.070");
    let r = Refrigerant::find("R-143a")?;
    for (t, p) in [(-50.0, "0.08874"), (0.0, "0.61967"), (50.0, "2.30735")] {
        prints(r.dew_pressure(celsius(t))?.get::<megapascal>(), p);
    }
    Ok(())
}

/// Handbook table 5 (ASHRAE Handbook - Fundamentals 2021, chapter 29): bubble temperature at
/// 101.325 kPa.
#[test]
fn normal_boiling_points() -> Checked {
    for (name, t) in [
        ("R-32", -51.651),
        ("R-410A", -51.446),
        ("R-125", -48.09),
        ("R-507A", -46.741),
        ("R-404A", -46.222),
        ("R-407C", -43.627),
        ("R-22", -40.81),
        ("R-134a", -26.074),
        ("R-290", -42.11),
    ] {
        let r = Refrigerant::find(name)?;
        let boiling = r.bubble_temperature(Pressure::new::<kilopascal>(101.325))?;
        // The handbook prints some to two digits; its R-410A, from an older mixture model, lies
        // 3 mK lower.
        let hundredths: f64 = t * 100.0;
        let allowed = if hundredths == hundredths.round() { 0.00505 } else { 0.00055 };
        let allowed = if name == "R-410A" { 0.0035 } else { allowed };
        let difference = (boiling.get::<degree_celsius>() - t).abs();
        assert!(difference <= allowed, "{name} {difference}");
    }
    Ok(())
}

/// Span et al. 2000: nitrogen at 350 K and 20 MPa has 6.3552 mol/dm3.
#[test]
fn nitrogen() -> Checked {
    let density = Gas::Nitrogen.density(Pressure::new::<megapascal>(20.0), kelvins(350.0))?;
    prints(density.get::<kilogram_per_cubic_meter>() / 28.01348, "6.3552");
    let back = Gas::Nitrogen.pressure(density, kelvins(350.0))?;
    assert!((back.get::<megapascal>() - 20.0).abs() < 1e-12);
    Ok(())
}
