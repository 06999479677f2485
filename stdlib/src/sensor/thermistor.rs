//! Thermistors whose resistance falls with temperature.

use uom::si::electrical_resistance::ohm;
use uom::si::f64::{ElectricalResistance, ThermodynamicTemperature};
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

/// K, at which the nominal resistance is stated.
const NOMINAL: f64 = 298.15;

/// Temperature by the nominal resistance at 25 °C and a beta.
pub fn by_beta(resistance: ElectricalResistance, at_25: ElectricalResistance, beta: f64) -> ThermodynamicTemperature {
    let inverse = 1.0 / NOMINAL + libm::log((resistance / at_25).get::<ratio>()) / beta;
    ThermodynamicTemperature::new::<kelvin>(1.0 / inverse)
}

/// Coefficients of Steinhart and Hart: 1/T = a + b·ln R + c·(ln R)³, R in ohm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steinhart {
    /// 1/K
    pub a: f64,
    /// 1/K
    pub b: f64,
    /// 1/K
    pub c: f64,
}

impl Steinhart {
    /// Through three points; nothing if two are the same.
    pub fn through(points: [(ElectricalResistance, ThermodynamicTemperature); 3]) -> Option<Steinhart> {
        let l = points.map(|(r, _)| libm::log(r.get::<ohm>()));
        let y = points.map(|(_, t)| 1.0 / t.get::<kelvin>());
        let second = (y[1] - y[0]) / (l[1] - l[0]);
        let third = (y[2] - y[0]) / (l[2] - l[0]);
        let c = (third - second) / ((l[2] - l[1]) * (l[0] + l[1] + l[2]));
        let b = second - c * (l[0] * l[0] + l[0] * l[1] + l[1] * l[1]);
        let a = y[0] - (b + c * l[0] * l[0]) * l[0];
        (a.is_finite() && b.is_finite() && c.is_finite()).then_some(Steinhart { a, b, c })
    }

    /// Temperature at a resistance; nothing where the curve has left the real.
    pub fn temperature(&self, resistance: ElectricalResistance) -> Option<ThermodynamicTemperature> {
        let l = libm::log(resistance.get::<ohm>());
        let inverse = self.a + self.b * l + self.c * l * l * l;
        (inverse.is_finite() && inverse > 0.0).then(|| ThermodynamicTemperature::new::<kelvin>(1.0 / inverse))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{Steinhart, by_beta};
    use uom::si::electrical_resistance::ohm;
    use uom::si::f64::{ElectricalResistance, ThermodynamicTemperature};
    use uom::si::thermodynamic_temperature::degree_celsius;

    fn ohms(r: f64) -> ElectricalResistance {
        ElectricalResistance::new::<ohm>(r)
    }

    /// Worked from the formula, 10 kΩ at 25 °C.
    #[test]
    fn beta() {
        for (r, b, t) in [
            (33_620.6, 3_950.0, 0.0),
            (20_174.6, 3_950.0, 10.0),
            (5_301.47, 3_950.0, 40.0),
            (933.58, 3_950.0, 90.0),
            (20_000.0, 3_950.0, 10.1765),
            (5_000.0, 3_950.0, 41.4602),
            (28_704.3, 3_435.0, 0.0),
            (5_758.76, 3_435.0, 40.0),
            (17_777.8, 3_950.0, 12.5906),
        ] {
            let found = by_beta(ohms(r), ohms(10e3), b).get::<degree_celsius>();
            assert!((found - t).abs() < 2e-4, "{r} {found} {t}");
        }
    }

    /// Worked from the formula.
    #[test]
    fn steinhart_and_hart_through_three_points() {
        let point = |r: f64, t: f64| (ohms(r), ThermodynamicTemperature::new::<degree_celsius>(t));
        let curve = Steinhart::through([point(25e3, 5.0), point(10e3, 25.0), point(4e3, 45.0)]).unwrap();
        for (found, expected) in [(curve.a, 2.108_508_173e-3), (curve.b, 7.979_204_73e-5), (curve.c, 6.535_076_31e-7)] {
            assert!((found / expected - 1.0).abs() < 1e-8, "{found} {expected}");
        }
        for (r, t) in [(15e3, 16.1336), (6e3, 36.1674)] {
            assert!((curve.temperature(ohms(r)).unwrap().get::<degree_celsius>() - t).abs() < 1e-4);
        }
        let wide = Steinhart::through([point(32_650.8, 0.0), point(10e3, 25.0), point(1_751.6, 70.0)]).unwrap();
        for (found, expected) in [(wide.a, 1.129_158e-3), (wide.b, 2.341_228e-4), (wide.c, 8.768_27e-8)] {
            assert!((found / expected - 1.0).abs() < 3e-6, "{found} {expected}");
        }
        assert!((wide.temperature(ohms(5e3)).unwrap().get::<degree_celsius>() - 41.5725).abs() < 1e-4);
        // A set in general use for 10 kΩ, from memory.
        let usual = Steinhart { a: 1.129_241e-3, b: 2.341_077e-4, c: 8.775_468e-8 };
        for (r, t) in [(10e3, 25.0), (5_325.0, 40.0), (3_000.0, 54.866)] {
            assert!((usual.temperature(ohms(r)).unwrap().get::<degree_celsius>() - t).abs() < 2e-3, "{r}");
        }
        assert_eq!(Steinhart::through([point(10e3, 25.0), point(10e3, 25.0), point(4e3, 45.0)]), None);
    }
}
