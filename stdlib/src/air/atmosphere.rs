//! The standard atmosphere.

use uom::si::f64::{Length, Pressure, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::degree_celsius;

/// Pressure of the standard atmosphere at an altitude, −5000 to 11 000 m.
///
/// ASHRAE Handbook—Fundamentals (2021), chapter 1, equation 3.
pub fn standard_atmosphere(altitude: Length) -> Pressure {
    let z = altitude.get::<meter>();
    Pressure::new::<pascal>(101_325.0 * libm::pow(1.0 - 2.255_77e-5 * z, 5.255_9))
}

/// Temperature of the standard atmosphere at an altitude, −5000 to 11 000 m.
///
/// ASHRAE Handbook—Fundamentals (2021), chapter 1, equation 4.
pub fn standard_temperature(altitude: Length) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(15.0 - 0.006_5 * altitude.get::<meter>())
}

#[cfg(test)]
mod tests {
    use super::standard_atmosphere;
    use uom::si::f64::Length;
    use uom::si::length::{foot, meter};
    use uom::si::pressure::{kilopascal, psi};

    /// ASHRAE Handbook—Fundamentals (2021), chapter 1, table 1. The formula leaves the table's last digit by up to three
    /// above 3000 m.
    #[test]
    fn the_table_in_metres() {
        for (z, p, digits) in [
            (-500.0, 107.478, 6e-4),
            (0.0, 101.325, 6e-4),
            (500.0, 95.461, 6e-4),
            (1_000.0, 89.875, 6e-4),
            (1_500.0, 84.556, 6e-4),
            (2_000.0, 79.495, 6e-4),
            (3_000.0, 70.108, 1e-3),
            (5_000.0, 54.020, 2e-3),
            (10_000.0, 26.436, 5e-3),
        ] {
            let found = standard_atmosphere(Length::new::<meter>(z)).get::<kilopascal>();
            assert!((found - p).abs() <= digits, "{z} m: {found} kPa, table {p}");
        }
    }

    /// The inch–pound edition's table as quoted by an open psychrometric test suite; it comes from unrounded constants,
    /// so 0.003 psi apart at most.
    #[test]
    fn the_table_in_feet() {
        for (z, p) in [(-1_000.0, 15.236), (0.0, 14.696), (1_000.0, 14.175), (3_000.0, 13.173), (10_000.0, 10.108)] {
            let found = standard_atmosphere(Length::new::<foot>(z)).get::<psi>();
            assert!((found - p).abs() <= 0.003, "{z} ft: {found} psia, table {p}");
        }
    }
}
