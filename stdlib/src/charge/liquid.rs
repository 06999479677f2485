//! Liquid shut in: cylinders that fill up, pipes closed at both ends.

use uom::si::f64::{Mass, MassDensity, Pressure, ThermodynamicTemperature, Volume};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};

use crate::numeric::bracket;
use crate::refrigerant::{PropertyError, Refrigerant};

/// How near to its critical temperature a liquid is looked at, K.
const NEAR_CRITICAL: f64 = 0.5;

/// Temperature at which a density is that of saturated liquid; nothing outside the line.
pub fn full_at(r: Refrigerant, density: MassDensity) -> Option<ThermodynamicTemperature> {
    let low = r.limits().lowest_temperature.get::<kelvin>() + NEAR_CRITICAL;
    let high = r.critical_point().temperature.get::<kelvin>() - NEAR_CRITICAL;
    let found = bracket::root(low, high, |t| {
        let liquid = r.saturated_liquid_at_temperature(ThermodynamicTemperature::new::<kelvin>(t)).ok()?;
        Some((liquid.density - density).value)
    });
    found.map(ThermodynamicTemperature::new::<kelvin>)
}

/// Pressure of liquid shut in saturated at one temperature and warmed to another.
pub fn shut_in(
    r: Refrigerant,
    start: ThermodynamicTemperature,
    end: ThermodynamicTemperature,
) -> Result<Pressure, PropertyError> {
    let density = r.saturated_liquid_at_temperature(start)?.density;
    // On the line itself pressure and temperature settle no state.
    let low = r.bubble_pressure(end)?.get::<pascal>() * 1.000_1;
    let high = r.limits().highest_pressure.get::<pascal>() * 0.999;
    let found = bracket::root(low, high, |p| {
        let (_, state) = r.state(Pressure::new::<pascal>(p), end).ok()?;
        Some((state.density - density).value)
    });
    found.map(Pressure::new::<pascal>).ok_or(PropertyError::NotPublished(
        "no pressure within the equation's limits holds the liquid at that temperature".to_string(),
    ))
}

/// The most that a recovery cylinder may hold, and by which rule.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fill {
    /// The most.
    pub most: Mass,
    /// 80 % of the volume at 25 °C, or 95 % at the hottest.
    pub by_hottest: bool,
}

/// The lesser of 0.8·V·ρ(25 °C) and 0.95·V·ρ(hottest).
///
/// AHRI Guideline K (nonflammable refrigerants), seen second-hand; 95 % at the hottest is common practice, no source.
pub fn recovery_fill(r: Refrigerant, volume: Volume, hottest: ThermodynamicTemperature) -> Result<Fill, PropertyError> {
    let density = |t| Ok::<_, PropertyError>(r.saturated_liquid_at_temperature(t)?.density);
    let usual = 0.8 * volume * density(ThermodynamicTemperature::new::<degree_celsius>(25.0))?;
    let hot = 0.95 * volume * density(hottest)?;
    Ok(if hot < usual { Fill { most: hot, by_hottest: true } } else { Fill { most: usual, by_hottest: false } })
}

/// Density of a mass in a volume.
pub fn density(mass: Mass, volume: Volume) -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(mass.value / volume.value)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{full_at, recovery_fill, shut_in};
    use crate::refrigerant::Refrigerant;
    use uom::si::f64::{ThermodynamicTemperature, Volume};
    use uom::si::pressure::bar;
    use uom::si::thermodynamic_temperature::degree_celsius;
    use uom::si::volume::liter;

    fn celsius(t: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<degree_celsius>(t)
    }

    /// Liquid-full at 20 °C and 5 or 10 K warmer: reference CoolProp 8.0.0, whole bar.
    #[test]
    fn a_pipe_shut_at_both_ends() {
        for (name, five, ten) in [("R-410A", 44.0, 74.0), ("R-32", 51.0, 88.0)] {
            let r = Refrigerant::find(name).unwrap();
            for (end, expected) in [(25.0, five), (30.0, ten)] {
                let found = shut_in(r, celsius(20.0), celsius(end)).unwrap().get::<bar>();
                assert!((found - expected).abs() < 1.0, "{name}: {found} bar, expected {expected}");
            }
        }
    }

    /// 80 % at 25 °C is liquid-full at 57.0 °C (R-410A) and 60.6 °C: reference CoolProp 8.0.0.
    #[test]
    fn eighty_percent_fill_up() {
        for (name, full) in [("R-410A", 57.0), ("R-32", 60.6)] {
            let r = Refrigerant::find(name).unwrap();
            let stamped = 0.8 * r.saturated_liquid_at_temperature(celsius(25.0)).unwrap().density;
            let found = full_at(r, stamped).unwrap().get::<degree_celsius>();
            assert!((found - full).abs() < 0.1, "{name}: {found} °C, expected {full}");
        }
    }

    #[test]
    fn the_hottest_day_governs_where_it_is_hot() {
        let r = Refrigerant::find("R-410A").unwrap();
        let fill = |t| recovery_fill(r, Volume::new::<liter>(21.6), celsius(t)).unwrap();
        assert!(fill(54.4).by_hottest && !fill(40.0).by_hottest);
    }
}
