//! Vapour pressure of water, and of ice below the triple point.

use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

use crate::numeric::bracket;

/// K
const TRIPLE_TEMPERATURE: f64 = 273.16;
/// Pa
const TRIPLE_PRESSURE: f64 = 611.657;
/// K, below which the equation for ice is not stated.
const LEAST: f64 = 50.0;
/// K, the critical temperature.
const MOST: f64 = 647.096;
/// Pa, the critical pressure.
const MOST_PRESSURE: f64 = 22.064e6;

/// Pressure at which water boils, or ice sublimes, at a temperature; nothing outside 50 K to the critical point.
pub fn vapor_pressure(temperature: ThermodynamicTemperature) -> Option<Pressure> {
    let t = temperature.get::<kelvin>();
    let p = match t {
        t if !(LEAST..=MOST).contains(&t) => return None,
        t if t < TRIPLE_TEMPERATURE => over_ice(t),
        t => over_water(t),
    };
    Some(Pressure::new::<pascal>(p))
}

/// Temperature at which water boils, or ice sublimes, at a pressure; nothing below 1e-6 Pa or above critical.
pub fn boiling_temperature(pressure: Pressure) -> Option<ThermodynamicTemperature> {
    let p = pressure.get::<pascal>();
    if !(1e-6..=MOST_PRESSURE).contains(&p) {
        return None;
    }
    // The two equations meet at the triple point but for 1e-7: the switch is by temperature there and by pressure here.
    let t = if p < TRIPLE_PRESSURE {
        bracket::root(LEAST, TRIPLE_TEMPERATURE, |t| Some(over_ice(t) - p))?
    } else {
        water_temperature(p)
    };
    Some(ThermodynamicTemperature::new::<kelvin>(t))
}

/// IAPWS R14-08 (2011), equation 6: sublimation pressure.
fn over_ice(t: f64) -> f64 {
    let theta = t / TRIPLE_TEMPERATURE;
    let sum = -21.214_400_6 * libm::pow(theta, 0.003_333_333_33) + 27.320_381_9 * libm::pow(theta, 1.206_666_67)
        - 6.105_981_30 * libm::pow(theta, 1.703_333_33);
    TRIPLE_PRESSURE * libm::exp(sum / theta)
}

/// IAPWS R7-97 (2012), table 34.
const N: [f64; 10] = [
    1_167.052_145_276_7,
    -724_213.167_032_06,
    -17.073_846_940_092,
    12_020.824_702_470,
    -3_232_555.032_233_3,
    14.915_108_613_530,
    -4_823.265_736_159_1,
    405_113.405_420_57,
    -0.238_555_575_678_49,
    650.175_348_447_98,
];

/// IAPWS R7-97 (2012), equation 30.
fn over_water(t: f64) -> f64 {
    let theta = t + N[8] / (t - N[9]);
    let a = theta * theta + N[0] * theta + N[1];
    let b = N[2] * theta * theta + N[3] * theta + N[4];
    let c = N[5] * theta * theta + N[6] * theta + N[7];
    let root = 2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt());
    1e6 * root * root * root * root
}

/// IAPWS R7-97 (2012), equation 31.
fn water_temperature(p: f64) -> f64 {
    let beta = (p / 1e6).sqrt().sqrt();
    let e = beta * beta + N[2] * beta + N[5];
    let f = N[0] * beta * beta + N[3] * beta + N[6];
    let g = N[1] * beta * beta + N[4] * beta + N[7];
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    let sum = N[9] + d;
    (sum - (sum * sum - 4.0 * (N[8] + N[9] * d)).sqrt()) / 2.0
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{boiling_temperature, vapor_pressure};
    use uom::si::f64::{Pressure, ThermodynamicTemperature};
    use uom::si::pressure::pascal;
    use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};

    const MICRON: f64 = 0.133_322_387_415;

    fn pressure(t: f64) -> f64 {
        vapor_pressure(ThermodynamicTemperature::new::<kelvin>(t)).unwrap().get::<pascal>()
    }

    fn close(found: f64, expected: f64, relative: f64) {
        assert!((found / expected - 1.0).abs() <= relative, "{found} {expected}");
    }

    /// The check values printed in IAPWS R7-97 (2012), tables 35 and 36, and in R14-08 (2011), table 3.
    #[test]
    fn check_values_of_the_releases() {
        close(pressure(300.0), 3_536.589_41, 2e-9);
        close(pressure(500.0), 2.638_897_76e6, 2e-9);
        close(pressure(600.0), 12.344_314_6e6, 5e-9);
        close(pressure(230.0), 8.947_35, 1e-6);
        for (p, t) in [(1e5, 372.755_919), (1e6, 453.035_632), (1e7, 584.149_488)] {
            close(boiling_temperature(Pressure::new::<pascal>(p)).unwrap().get::<kelvin>(), t, 2e-9);
        }
    }

    /// ASHRAE Handbook—Fundamentals (2017), chapter 1, table 3, as quoted by an open psychrometric test suite: made with
    /// other equations, so 300 parts in a million.
    #[test]
    fn the_handbook_agrees() {
        for (celsius, p) in [
            (-60.0, 1.08),
            (-20.0, 103.24),
            (-5.0, 401.74),
            (5.0, 872.6),
            (25.0, 3_169.7),
            (50.0, 12_351.3),
            (100.0, 101_418.0),
            (150.0, 476_101.4),
        ] {
            close(pressure(celsius + 273.15), p, if celsius < -50.0 { 5e-3 } else { 3e-4 });
        }
    }

    /// Reference: the same releases through the open library `iapws`.
    #[test]
    fn microns_and_back() {
        for (microns, celsius) in [
            (20_000.0, 22.13),
            (10_000.0, 11.23),
            (5_000.0, 1.20),
            (2_000.0, -9.71),
            (1_000.0, -17.31),
            (500.0, -24.48),
            (250.0, -31.26),
            (100.0, -39.67),
        ] {
            let found = boiling_temperature(Pressure::new::<pascal>(microns * MICRON)).unwrap();
            assert!((found.get::<degree_celsius>() - celsius).abs() < 0.011, "{microns}: {found:?}");
            close(vapor_pressure(found).unwrap().get::<pascal>(), microns * MICRON, 1e-6);
        }
        close(pressure(293.15) / MICRON, 17_546.0, 1e-4);
    }

    #[test]
    fn nothing_outside_its_limits() {
        for t in [0.0, 40.0, 700.0, f64::NAN] {
            assert_eq!(vapor_pressure(ThermodynamicTemperature::new::<kelvin>(t)), None);
        }
        for p in [0.0, -1.0, 1e9, f64::NAN] {
            assert_eq!(boiling_temperature(Pressure::new::<pascal>(p)), None, "{p}");
        }
    }
}
