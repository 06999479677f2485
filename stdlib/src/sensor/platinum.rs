//! Platinum resistance thermometers.

use uom::si::f64::{ElectricalResistance, TemperatureInterval, ThermodynamicTemperature};
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin;
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::numeric::bracket;

/// IEC 60751: R/R0 = 1 + A·t + B·t² + C·(t − 100)·t³, the last below 0 °C only.
const A: f64 = 3.908_3e-3;
const B: f64 = -5.775e-7;
const C: f64 = -4.183e-12;
/// °C
const LIMITS: (f64, f64) = (-200.0, 850.0);

/// Class of a sensor by IEC 60751.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Class {
    /// What it may be off at 0 °C, K.
    at_0: f64,
    /// What it may be off more for each degree from there.
    each: f64,
    /// °C that the class holds in for film and for wound wire.
    film: (f64, f64),
    wound: (f64, f64),
}

impl Class {
    /// As sheets name them.
    pub const NAMES: &'static [&'static str] = &["AA", "A", "B", "C"];

    /// The class of a name of [`Self::NAMES`]: IEC 60751, from memory.
    pub fn named(name: &str) -> Class {
        let class = |at_0, each, film, wound| Class { at_0, each, film, wound };
        match name {
            "AA" => class(0.1, 0.001_7, (0.0, 150.0), (-50.0, 250.0)),
            "A" => class(0.15, 0.002, (-30.0, 300.0), (-100.0, 450.0)),
            "B" => class(0.3, 0.005, (-50.0, 500.0), (-196.0, 600.0)),
            _ => class(0.6, 0.01, (-50.0, 600.0), (-196.0, 600.0)),
        }
    }

    /// °C that the class holds in.
    pub fn range(self, film: bool) -> (f64, f64) {
        if film { self.film } else { self.wound }
    }

    /// How far a sensor may be off either way at a temperature.
    pub fn tolerance(self, temperature: ThermodynamicTemperature) -> TemperatureInterval {
        let t = temperature.get::<degree_celsius>();
        TemperatureInterval::new::<kelvin>(self.at_0 + self.each * t.abs())
    }
}

/// Resistance over that at 0 °C, at a temperature in °C.
fn share(t: f64) -> f64 {
    1.0 + A * t + B * t * t + if t < 0.0 { C * (t - 100.0) * t * t * t } else { 0.0 }
}

/// Temperature at a resistance; nothing outside −200 to 850 °C.
pub fn temperature(resistance: ElectricalResistance, at_0: ElectricalResistance) -> Option<ThermodynamicTemperature> {
    let wanted = (resistance / at_0).get::<ratio>();
    let t = bracket::root(LIMITS.0, LIMITS.1, |t| Some(share(t) - wanted))?;
    Some(ThermodynamicTemperature::new::<degree_celsius>(t))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{share, temperature};
    use uom::si::electrical_resistance::ohm;
    use uom::si::f64::ElectricalResistance;
    use uom::si::thermodynamic_temperature::degree_celsius;

    /// IEC 60751 as quoted in several public test files; 20 to 60 °C worked from its formula.
    #[test]
    fn the_table_of_the_standard() {
        for (t, r) in [
            (-100.0, 60.2558),
            (-50.0, 80.3063),
            (-20.0, 92.1599),
            (0.0, 100.0),
            (20.0, 107.7935),
            (25.0, 109.7347),
            (40.0, 115.5408),
            (60.0, 123.2419),
            (100.0, 138.5055),
            (200.0, 175.8560),
        ] {
            assert!((100.0 * share(t) - r).abs() < 6e-5, "{t}");
            let ohms = ElectricalResistance::new::<ohm>(r);
            let found = temperature(ohms, ElectricalResistance::new::<ohm>(100.0)).unwrap();
            assert!((found.get::<degree_celsius>() - t).abs() < 2e-4, "{t}");
        }
        let found = temperature(ElectricalResistance::new::<ohm>(108.5), ElectricalResistance::new::<ohm>(100.0));
        assert!((found.unwrap().get::<degree_celsius>() - 21.8189).abs() < 1e-4);
        assert_eq!(temperature(ElectricalResistance::new::<ohm>(1e6), ElectricalResistance::new::<ohm>(100.0)), None);
    }
}
