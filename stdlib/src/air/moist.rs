//! Moist air as a mixture of perfect gases.
//!
//! ASHRAE Handbook—Fundamentals (2021), chapter 1 (equations from memory but for the gas constants); vapour pressure of
//! water by the IAPWS releases. Within 0.5 % of the handbook's real-gas tables in humidity and volume, 1 % in enthalpy.

use uom::si::available_energy::kilojoule_per_kilogram;
use uom::si::f64::{AvailableEnergy, MassDensity, Pressure, Ratio, SpecificVolume, ThermodynamicTemperature};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::specific_volume::cubic_meter_per_kilogram;
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::numeric::bracket;
use crate::water;

/// Mass of a mole of water over that of dry air.
const LIGHTER: f64 = 0.621_945;
/// J/(kg K)
const DRY_AIR: f64 = 287.042;

/// How the moisture is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Moisture {
    /// By a wet bulb.
    WetBulb(ThermodynamicTemperature),
    /// By relative humidity.
    Relative(Ratio),
    /// By the dew point (frost point below 0 °C).
    DewPoint(ThermodynamicTemperature),
}

/// A state of moist air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MoistAir {
    /// Dry bulb.
    pub dry_bulb: ThermodynamicTemperature,
    /// Total pressure.
    pub pressure: Pressure,
    /// Mass of water over mass of dry air.
    pub humidity_ratio: Ratio,
}

/// Why there is no such air.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoAir {
    /// The wet bulb or the dew point is above the dry bulb.
    AboveDryBulb,
    /// Drier than dry: the wet bulb is too far below the dry bulb.
    DrierThanDry,
    /// Water would boil at this temperature and pressure, or its vapour pressure is not known.
    Boiling,
}

impl MoistAir {
    /// From a dry bulb, a moisture and a pressure.
    pub fn new(dry_bulb: ThermodynamicTemperature, moisture: Moisture, pressure: Pressure) -> Result<MoistAir, NoAir> {
        let humidity = match moisture {
            Moisture::WetBulb(wet) if wet > dry_bulb => return Err(NoAir::AboveDryBulb),
            Moisture::DewPoint(dew) if dew > dry_bulb => return Err(NoAir::AboveDryBulb),
            Moisture::WetBulb(wet) => by_wet_bulb(dry_bulb, wet, pressure)?,
            Moisture::Relative(share) => ratio_at(share * vapor_pressure(dry_bulb)?, pressure)?,
            Moisture::DewPoint(dew) => ratio_at(vapor_pressure(dew)?, pressure)?,
        };
        if humidity < 0.0 {
            return Err(NoAir::DrierThanDry);
        }
        Ok(MoistAir { dry_bulb, pressure, humidity_ratio: Ratio::new::<ratio>(humidity) })
    }

    /// Partial pressure of water vapour.
    pub fn vapor_pressure(&self) -> Pressure {
        let w = self.humidity_ratio.get::<ratio>();
        self.pressure * (w / (LIGHTER + w))
    }

    /// Of dry air, from dry air at 0 °C and liquid water at 0 °C.
    pub fn enthalpy(&self) -> AvailableEnergy {
        let (t, w) = (self.dry_bulb.get::<degree_celsius>(), self.humidity_ratio.get::<ratio>());
        AvailableEnergy::new::<kilojoule_per_kilogram>(1.006 * t + w * (2_501.0 + 1.86 * t))
    }

    /// Volume for each mass of dry air.
    pub fn specific_volume(&self) -> SpecificVolume {
        let w = self.humidity_ratio.get::<ratio>();
        let v = DRY_AIR * self.dry_bulb.value * (1.0 + w / LIGHTER) / self.pressure.get::<pascal>();
        SpecificVolume::new::<cubic_meter_per_kilogram>(v)
    }

    /// Mass of air and water in a volume.
    pub fn density(&self) -> MassDensity {
        let whole = 1.0 + self.humidity_ratio.get::<ratio>();
        MassDensity::new::<kilogram_per_cubic_meter>(whole / self.specific_volume().value)
    }

    /// Vapour pressure over that of saturated air at the dry bulb.
    pub fn relative_humidity(&self) -> Option<Ratio> {
        Some(self.vapor_pressure() / water::vapor_pressure(self.dry_bulb)?)
    }

    /// Temperature at which dew or frost begins.
    pub fn dew_point(&self) -> Option<ThermodynamicTemperature> {
        water::boiling_temperature(self.vapor_pressure())
    }

    /// Temperature of a wetted bulb in moving air.
    pub fn wet_bulb(&self) -> Option<ThermodynamicTemperature> {
        let wanted = self.humidity_ratio.get::<ratio>();
        let low = self.dry_bulb.value - 80.0;
        let found = bracket::root(low.max(150.0), self.dry_bulb.value, |kelvin| {
            let wet = crate::seam::quantity(kelvin);
            Some(by_wet_bulb(self.dry_bulb, wet, self.pressure).ok()? - wanted)
        });
        // Saturated air may miss the upper end by the last digit.
        found.map(crate::seam::quantity).or_else(|| {
            let saturated = by_wet_bulb(self.dry_bulb, self.dry_bulb, self.pressure).ok()?;
            (saturated / wanted - 1.0).abs().lt(&1e-9).then_some(self.dry_bulb)
        })
    }
}

fn vapor_pressure(temperature: ThermodynamicTemperature) -> Result<Pressure, NoAir> {
    water::vapor_pressure(temperature).ok_or(NoAir::Boiling)
}

fn ratio_at(vapor: Pressure, pressure: Pressure) -> Result<f64, NoAir> {
    if vapor >= pressure { Err(NoAir::Boiling) } else { Ok(LIGHTER * (vapor / (pressure - vapor)).get::<ratio>()) }
}

/// Heat given up by the air evaporates the water; below 0 °C the bulb is iced.
fn by_wet_bulb(dry: ThermodynamicTemperature, wet: ThermodynamicTemperature, pressure: Pressure) -> Result<f64, NoAir> {
    let saturated = ratio_at(vapor_pressure(wet)?, pressure)?;
    let (t, t_wet) = (dry.get::<degree_celsius>(), wet.get::<degree_celsius>());
    Ok(if t_wet >= 0.0 {
        ((2_501.0 - 2.326 * t_wet) * saturated - 1.006 * (t - t_wet)) / (2_501.0 + 1.86 * t - 4.186 * t_wet)
    } else {
        ((2_830.0 - 0.24 * t_wet) * saturated - 1.006 * (t - t_wet)) / (2_830.0 + 1.86 * t - 2.1 * t_wet)
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{MoistAir, Moisture, NoAir};
    use uom::si::available_energy::kilojoule_per_kilogram;
    use uom::si::f64::{Pressure, Ratio, ThermodynamicTemperature};
    use uom::si::pressure::pascal;
    use uom::si::ratio::ratio;
    use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};

    const PSI: f64 = 6_894.757_293_168_361;

    fn celsius(t: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<degree_celsius>(t)
    }

    fn sea_level() -> Pressure {
        Pressure::new::<pascal>(101_325.0)
    }

    /// ASHRAE Handbook—Fundamentals (2021), chapter 1, table 2 (real gas): humidity and volume within 0.5 %, enthalpy
    /// within 1 %.
    #[test]
    fn saturated_air_of_the_table() {
        for (t, w, h, v) in [
            (0.0, 0.003_790_0, 9.4744, Some(0.7780)),
            (5.0, 0.005_424_7, 18.639, None),
            (10.0, 0.007_662_7, 29.354, Some(0.8116)),
            (20.0, 0.014_761, 57.558, Some(0.8498)),
            (25.0, 0.020_173, 76.504, None),
        ] {
            let air = MoistAir::new(celsius(t), Moisture::Relative(Ratio::new::<ratio>(1.0)), sea_level()).unwrap();
            assert!((air.humidity_ratio.get::<ratio>() / w - 1.0).abs() < 5e-3, "{t}");
            assert!((air.enthalpy().get::<kilojoule_per_kilogram>() / h - 1.0).abs() < 1e-2, "{t}");
            if let Some(v) = v {
                assert!((air.specific_volume().value / v - 1.0).abs() < 5e-3, "{t}");
            }
            assert!((air.wet_bulb().unwrap().value - air.dry_bulb.value).abs() < 1e-6);
        }
    }

    /// The handbook's example 1 by the same formulas: 40 °C dry bulb, 20 °C wet bulb.
    #[test]
    fn example_one() {
        let air = MoistAir::new(celsius(40.0), Moisture::WetBulb(celsius(20.0)), sea_level()).unwrap();
        for (found, expected, digit) in [
            (air.humidity_ratio.get::<ratio>() * 1e3, 6.401, 0.01),
            (air.enthalpy().get::<kilojoule_per_kilogram>(), 56.72, 0.03),
            (air.dew_point().unwrap().get::<degree_celsius>(), 7.43, 0.02),
            (air.relative_humidity().unwrap().get::<ratio>() * 100.0, 13.98, 0.03),
            (air.specific_volume().value, 0.8962, 2e-4),
            (air.wet_bulb().unwrap().get::<degree_celsius>(), 20.0, 1e-6),
        ] {
            assert!((found - expected).abs() <= digit, "{found} {expected}");
        }
    }

    /// 80 °F / 67 °F at 14.696 and at 12.228 psia (5000 ft). Reference: an open psychrometric library in inch–pound units,
    /// whose enthalpy counts from 0 °F: 7.687 Btu/lb more.
    #[test]
    fn return_air_at_sea_level_and_at_5000_feet() {
        let fahrenheit = |t: f64| ThermodynamicTemperature::new::<degree_fahrenheit>(t);
        for (psia, w, h, v) in [(14.696, 0.011_169, 31.447, 13.849), (12.228, 0.014_095, 34.656, 16.722)] {
            let p = Pressure::new::<pascal>(psia * PSI);
            let air = MoistAir::new(fahrenheit(80.0), Moisture::WetBulb(fahrenheit(67.0)), p).unwrap();
            assert!((air.humidity_ratio.get::<ratio>() / w - 1.0).abs() < 2e-3);
            let btu = air.enthalpy().value / 2_326.0 + 7.687;
            assert!((btu - h).abs() < 0.05, "{btu} {h}");
            assert!((air.specific_volume().value / 0.062_427_96 / v - 1.0).abs() < 1e-3);
        }
    }

    #[test]
    fn air_that_cannot_be() {
        let air = |moisture| MoistAir::new(celsius(30.0), moisture, sea_level());
        assert_eq!(air(Moisture::WetBulb(celsius(31.0))), Err(NoAir::AboveDryBulb));
        assert_eq!(air(Moisture::WetBulb(celsius(5.0))), Err(NoAir::DrierThanDry));
        let hot = MoistAir::new(celsius(120.0), Moisture::Relative(Ratio::new::<ratio>(1.0)), sea_level());
        assert_eq!(hot, Err(NoAir::Boiling));
    }
}
