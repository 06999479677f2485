//! Gas shut into a fixed volume: what its pressure becomes when its temperature changes.

use uom::si::available_energy::joule_per_kilogram;
use uom::si::f64::{AvailableEnergy, MassDensity, Pressure, ThermodynamicTemperature};

use crate::refrigerant::{Gas, PropertyError};

/// A part of the volume with its own temperature at the start and at the end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Zone {
    /// Its share of the volume; all shares together are one.
    pub share: f64,
    /// At the start.
    pub start: ThermodynamicTemperature,
    /// At the end.
    pub end: ThermodynamicTemperature,
}

/// Pressure at constant density, all gas at one temperature: absolute in, absolute out.
pub fn trapped_pressure(
    gas: Gas,
    start: Pressure,
    start_temperature: ThermodynamicTemperature,
    end_temperature: ThermodynamicTemperature,
) -> Result<Pressure, PropertyError> {
    gas.pressure(gas.density(start, start_temperature)?, end_temperature)
}

/// The hand rule: pressure in proportion to absolute temperature.
pub fn ideal_pressure(
    start: Pressure,
    start_temperature: ThermodynamicTemperature,
    end_temperature: ThermodynamicTemperature,
) -> Pressure {
    start * (end_temperature.value / start_temperature.value)
}

/// Pressure where parts of the volume have temperatures of their own: the sum of share · density stays.
///
/// Newton's method in the densities of all zones and their one pressure at once: each step lays the tangent p + s·Δρ on
/// every zone's equation and asks for the pressure at which all tangents hold the gas.
pub fn zoned_pressure(gas: Gas, start: Pressure, zones: &[Zone]) -> Result<Pressure, PropertyError> {
    const STEPS: usize = 50;
    let at_start = |zone: &Zone| gas.density(start, zone.start);
    let filled: Vec<MassDensity> = zones.iter().map(at_start).collect::<Result<_, _>>()?;
    let held = |densities: &[MassDensity]| -> MassDensity {
        zones.iter().zip(densities).fold(MassDensity::default(), |sum, (zone, density)| sum + zone.share * *density)
    };
    let all = held(&filled);
    // To begin with, each zone thins as an ideal gas would.
    let thinned: Vec<MassDensity> =
        zones.iter().zip(&filled).map(|(zone, density)| *density * (zone.start.value / zone.end.value)).collect();
    let rise: f64 = (all / held(&thinned)).value;
    let mut densities: Vec<MassDensity> = thinned.into_iter().map(|density| density * rise).collect();
    let (mut pressure, mut last) = (start * rise, f64::INFINITY);
    for _ in 0..STEPS {
        let tangents: Vec<(Pressure, AvailableEnergy)> = zones
            .iter()
            .zip(&densities)
            .map(|(zone, density)| gas.pressure_with_slope(*density, zone.end))
            .collect::<Result<_, _>>()?;
        let mut excess = held(&densities) - all;
        let mut gives = 0.0 / AvailableEnergy::new::<joule_per_kilogram>(1.0);
        for (zone, (p, slope)) in zones.iter().zip(&tangents) {
            excess -= zone.share * *p / *slope;
            gives += zone.share / *slope;
        }
        let next: Pressure = -excess / gives;
        for (density, (p, slope)) in densities.iter_mut().zip(&tangents) {
            *density += (next - *p) / *slope;
        }
        let moved = (next / pressure).value - 1.0;
        pressure = next;
        if moved.abs() < 1e-15 || (moved.abs() < 1e-11 && moved.abs() >= last) {
            return Ok(pressure);
        }
        last = moved.abs();
    }
    Err(PropertyError::NotPublished("no pressure holds the gas at these temperatures".to_string()))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{Zone, ideal_pressure, trapped_pressure, zoned_pressure};
    use crate::refrigerant::Gas;
    use uom::si::f64::{Pressure, ThermodynamicTemperature};
    use uom::si::pressure::pascal;
    use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};

    const PSI: f64 = 6_894.757_293_168_361;

    fn gauge(psig: f64) -> Pressure {
        Pressure::new::<pascal>(101_325.0 + psig * PSI)
    }

    fn psig(p: Pressure) -> f64 {
        (p.value - 101_325.0) / PSI
    }

    fn fahrenheit(t: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<degree_fahrenheit>(t)
    }

    fn celsius(t: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<degree_celsius>(t)
    }

    /// Reference: the equation of Span and others (2000) evaluated with CoolProp 8.0.0; the hand rule by hand.
    #[test]
    fn a_standing_test_that_cools_or_warms() {
        for (start, from, to, ideal, real) in [
            (550.0, 70.0, 60.0, 539.339, 538.343),
            (550.0, 70.0, 90.0, 571.323, 573.295),
            (600.0, 75.0, 55.0, 577.007, 574.720),
            (150.0, 70.0, 40.0, 140.672, 140.414),
        ] {
            let (start, from, to) = (gauge(start), fahrenheit(from), fahrenheit(to));
            assert!((psig(ideal_pressure(start, from, to)) - ideal).abs() < 0.001);
            let found = psig(trapped_pressure(Gas::Nitrogen, start, from, to).unwrap());
            assert!((found - real).abs() < 0.001, "{found} psig, expected {real}");
        }
        let start = Pressure::new::<pascal>(1_101_325.0);
        let found = trapped_pressure(Gas::Nitrogen, start, celsius(20.0), celsius(5.0)).unwrap();
        assert!(((found.value - 101_325.0) / 1e5 - 9.4213).abs() < 1e-4);
    }

    /// 40 % of the volume on a roof 25 K warmer, the rest 2 K: 43.21 bar gauge, where one thermometer indoors says 41.82.
    /// Worked with CoolProp 8.0.0 from 20 °C.
    #[test]
    fn a_roof_in_the_sun() {
        let start = Pressure::new::<pascal>(4_150_000.0 + 101_325.0);
        let zones = [
            Zone { share: 0.4, start: celsius(20.0), end: celsius(45.0) },
            Zone { share: 0.6, start: celsius(20.0), end: celsius(22.0) },
        ];
        let bar = |p: Pressure| (p.value - 101_325.0) / 1e5;
        assert!((bar(zoned_pressure(Gas::Nitrogen, start, &zones).unwrap()) - 43.21).abs() < 0.02);
        let indoors = trapped_pressure(Gas::Nitrogen, start, celsius(20.0), celsius(22.0)).unwrap();
        assert!((bar(indoors) - 41.82).abs() < 0.02);
    }

    #[test]
    fn one_zone_is_no_zone() {
        let start = gauge(550.0);
        let zone = Zone { share: 1.0, start: fahrenheit(70.0), end: fahrenheit(60.0) };
        let zoned = zoned_pressure(Gas::Nitrogen, start, &[zone]).unwrap();
        let plain = trapped_pressure(Gas::Nitrogen, start, zone.start, zone.end).unwrap();
        assert!((zoned.value / plain.value - 1.0).abs() < 1e-12);
    }
}
