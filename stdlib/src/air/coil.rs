//! What a coil does to the air that goes through it.

use uom::si::f64::{MassRate, Power, SpecificHeatCapacity, TemperatureInterval, VolumeRate};
use uom::si::ratio::ratio;
use uom::si::specific_heat_capacity::joule_per_kilogram_kelvin;

use super::moist::MoistAir;

/// Heat and water taken from air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taken {
    /// Flow of dry air.
    pub dry_air: MassRate,
    /// Total; below nought if the coil heats.
    pub total: Power,
    /// The part that changes the temperature.
    pub sensible: Power,
    /// Water condensed.
    pub condensate: MassRate,
}

/// What a coil takes from air whose flow is measured where it enters.
///
/// The condensate's own enthalpy, under 2 % of the total, stays in.
pub fn taken(flow: VolumeRate, entering: &MoistAir, leaving: &MoistAir) -> Taken {
    let dry_air: MassRate = flow / entering.specific_volume();
    let difference: TemperatureInterval = crate::seam::quantity(entering.dry_bulb.value - leaving.dry_bulb.value);
    Taken {
        dry_air,
        total: dry_air * (entering.enthalpy() - leaving.enthalpy()),
        sensible: dry_air * heat_capacity(leaving) * difference,
        condensate: dry_air * (entering.humidity_ratio - leaving.humidity_ratio),
    }
}

/// Heat capacity of moist air for each mass of dry air.
pub fn heat_capacity(air: &MoistAir) -> SpecificHeatCapacity {
    SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(1_006.0 + 1_860.0 * air.humidity_ratio.get::<ratio>())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::taken;
    use crate::air::moist::{MoistAir, Moisture};
    use uom::si::f64::{Pressure, Ratio, ThermodynamicTemperature, VolumeRate};
    use uom::si::power::kilowatt;
    use uom::si::pressure::pascal;
    use uom::si::ratio::ratio;
    use uom::si::thermodynamic_temperature::degree_celsius;
    use uom::si::volume_rate::cubic_meter_per_second;

    /// ASHRAE Handbook—Fundamentals (2021), chapter 1, example 2: 10 m3/s saturated at 2 °C heated to 40 °C: 12.74 kg/s of
    /// dry air and 490 kW, read off a chart.
    #[test]
    fn example_two() {
        let celsius = |t: f64| ThermodynamicTemperature::new::<degree_celsius>(t);
        let p = Pressure::new::<pascal>(101_325.0);
        let entering = MoistAir::new(celsius(2.0), Moisture::Relative(Ratio::new::<ratio>(1.0)), p).unwrap();
        let leaving = MoistAir { dry_bulb: celsius(40.0), ..entering };
        let found = taken(VolumeRate::new::<cubic_meter_per_second>(10.0), &entering, &leaving);
        assert!((found.dry_air.value - 12.74).abs() < 0.02, "{:?}", found.dry_air);
        assert!((found.total.get::<kilowatt>() + 490.0).abs() < 3.0, "{:?}", found.total);
        assert!((found.sensible.value / found.total.value - 1.0).abs() < 1e-9);
        assert_eq!(found.condensate.value, 0.0);
    }
}
