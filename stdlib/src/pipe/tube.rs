//! Copper tube by outside diameter, wall and temper.

use uom::si::f64::{Area, Length, LinearMassDensity, MassDensity, Volume};
use uom::si::length::inch;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// How hard the tube is as delivered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Temper {
    /// Soft, in coils.
    Annealed,
    /// Hard, in straight lengths; annealed wherever it has been brazed.
    Drawn,
}

/// A copper tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tube {
    /// Outside diameter.
    pub od: Length,
    /// Wall.
    pub wall: Length,
}

/// Why a tube is not known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NoTube {
    /// No size of the standard has this outside diameter; the nearest below and above, in inches.
    NoSuchSize(Option<f64>, Option<f64>),
    /// The standard has no tube of this size in this temper.
    NotInTemper,
    /// The wall leaves no bore.
    WallTooThick,
}

/// A size of ASTM B280; diameters and walls in inches.
struct Size {
    od: f64,
    annealed: Option<f64>,
    drawn: Option<f64>,
}

/// ASTM B280 sizes by actual outside diameter. Up to 1-3/8 in from a public table of the standard; above from memory of
/// the Copper Development Association's tube handbook: check the standard before relying on those.
const B280: &[Size] = &[
    Size { od: 0.250, annealed: Some(0.030), drawn: None },
    Size { od: 0.312, annealed: Some(0.032), drawn: None },
    Size { od: 0.375, annealed: Some(0.032), drawn: Some(0.030) },
    Size { od: 0.500, annealed: Some(0.032), drawn: Some(0.035) },
    Size { od: 0.625, annealed: Some(0.035), drawn: Some(0.040) },
    Size { od: 0.750, annealed: Some(0.035), drawn: Some(0.042) },
    Size { od: 0.875, annealed: Some(0.045), drawn: Some(0.045) },
    Size { od: 1.125, annealed: Some(0.050), drawn: Some(0.050) },
    Size { od: 1.375, annealed: Some(0.055), drawn: Some(0.055) },
    Size { od: 1.625, annealed: Some(0.060), drawn: Some(0.060) },
    Size { od: 2.125, annealed: Some(0.070), drawn: Some(0.070) },
    Size { od: 2.625, annealed: Some(0.080), drawn: Some(0.080) },
    Size { od: 3.125, annealed: Some(0.090), drawn: Some(0.090) },
];

/// An outside diameter this near (in inches) is that size: 9.52 mm is 3/8 in, and 5/16 in is listed as 0.312.
const SAME_SIZE: f64 = 0.006;

impl Tube {
    /// A tube of ASTM B280.
    pub fn astm_b280(od: Length, temper: Temper) -> Result<Tube, NoTube> {
        let asked = od.get::<inch>();
        let size = B280.iter().find(|size| (size.od - asked).abs() <= SAME_SIZE).ok_or_else(|| {
            let below = B280.iter().map(|size| size.od).rfind(|od| *od < asked);
            let above = B280.iter().map(|size| size.od).find(|od| *od > asked);
            NoTube::NoSuchSize(below, above)
        })?;
        let wall = match temper {
            Temper::Annealed => size.annealed,
            Temper::Drawn => size.drawn,
        };
        let wall = wall.ok_or(NoTube::NotInTemper)?;
        Ok(Tube { od: Length::new::<inch>(size.od), wall: Length::new::<inch>(wall) })
    }

    /// Any tube of a given wall, such as the metric ones of EN 12735-1, which makes several walls for each diameter.
    pub fn with_wall(od: Length, wall: Length) -> Result<Tube, NoTube> {
        if 2.0 * wall >= od { Err(NoTube::WallTooThick) } else { Ok(Tube { od, wall }) }
    }

    /// Inside diameter.
    pub fn bore(&self) -> Length {
        self.od - 2.0 * self.wall
    }

    /// Area of the bore: also the volume for each length.
    pub fn bore_area(&self) -> Area {
        std::f64::consts::FRAC_PI_4 * self.bore() * self.bore()
    }

    /// Volume inside a length.
    pub fn volume(&self, length: Length) -> Volume {
        self.bore_area() * length
    }

    /// Mass of copper for each length.
    pub fn mass_per_length(&self) -> LinearMassDensity {
        let metal: Area = std::f64::consts::FRAC_PI_4 * (self.od * self.od - self.bore() * self.bore());
        metal * copper()
    }
}

/// Density of copper, EN 12735-1 (from memory); the 0.323 lb/in3 of the US tables.
fn copper() -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(8_940.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{NoTube, Temper, Tube};
    use uom::si::area::square_inch;
    use uom::si::f64::Length;
    use uom::si::length::{inch, meter, millimeter};
    use uom::si::volume::liter;

    fn inches(value: f64) -> Length {
        Length::new::<inch>(value)
    }

    /// Public table of ASTM B280 (sizes to 1-3/8 in): bore areas within the table's last digit, masses within 0.5 %.
    #[test]
    fn the_table_of_b280() {
        use Temper::{Annealed, Drawn};
        for (od, temper, bore, area, digit, litres, pounds) in [
            (0.25, Annealed, 0.190, 0.0284, 6e-5, 0.01829, 0.0804),
            (0.3125, Annealed, 0.248, 0.0483, 6e-5, 0.03116, 0.109),
            (0.375, Annealed, 0.311, 0.0760, 6e-5, 0.04901, 0.134),
            (0.375, Drawn, 0.315, 0.078, 6e-4, 0.05028, 0.126),
            (0.5, Annealed, 0.436, 0.149, 6e-4, 0.09632, 0.182),
            (0.5, Drawn, 0.430, 0.145, 6e-4, 0.09369, 0.198),
            (0.625, Annealed, 0.555, 0.242, 6e-4, 0.15608, 0.251),
            (0.625, Drawn, 0.545, 0.233, 6e-4, 0.15050, 0.285),
            (0.75, Annealed, 0.680, 0.363, 6e-4, 0.23430, 0.305),
            (0.75, Drawn, 0.666, 0.348, 6e-4, 0.22475, 0.362),
            (0.875, Annealed, 0.785, 0.484, 6e-4, 0.31225, 0.455),
            (1.125, Annealed, 1.025, 0.825, 6e-4, 0.53236, 0.655),
            (1.375, Annealed, 1.265, 1.26, 6e-3, 0.81085, 0.884),
            (1.625, Drawn, 1.505, 1.78, 6e-3, 1.14771, 1.14),
            (2.125, Drawn, 1.985, 3.09, 6e-3, 1.99654, 1.75),
            (2.625, Drawn, 2.465, 4.77, 6e-3, 3.07887, 2.48),
            (3.125, Drawn, 2.945, 6.81, 6e-3, 4.39469, 3.33),
        ] {
            let tube = Tube::astm_b280(inches(od), temper).unwrap();
            assert!((tube.bore().get::<inch>() - bore).abs() < 1e-9, "{od}");
            assert!((tube.bore_area().get::<square_inch>() - area).abs() <= digit, "{od}");
            let volume = tube.volume(Length::new::<meter>(1.0)).get::<liter>();
            assert!((volume - litres).abs() <= 6e-6, "{od}: {volume} L/m");
            let mass = tube.mass_per_length().value * 0.3048 / 0.453_592_37;
            assert!((mass / pounds - 1.0).abs() <= 5e-3, "{od}: {mass} lb/ft, table {pounds}");
        }
    }

    /// Volumes of metric tubes, worked from the sizes of EN 12735-1 (sizes from memory).
    #[test]
    fn metric_tubes_with_their_wall() {
        for (od, wall, litres) in [
            (6.0, 1.0, 0.01257),
            (12.0, 1.0, 0.07854),
            (28.0, 1.5, 0.49087),
            (54.0, 2.0, 1.96350),
            (6.35, 0.8, 0.01772),
            (9.52, 0.8, 0.04927),
            (15.87, 1.0, 0.15109),
            (28.57, 1.0, 0.55446),
        ] {
            let tube = Tube::with_wall(Length::new::<millimeter>(od), Length::new::<millimeter>(wall)).unwrap();
            assert!((tube.volume(Length::new::<meter>(1.0)).get::<liter>() - litres).abs() < 6e-6, "{od}x{wall}");
        }
    }

    #[test]
    fn what_is_no_tube_says_why() {
        use Temper::{Annealed, Drawn};
        assert_eq!(Tube::astm_b280(inches(0.25), Drawn), Err(NoTube::NotInTemper));
        assert_eq!(Tube::astm_b280(inches(0.4), Annealed), Err(NoTube::NoSuchSize(Some(0.375), Some(0.5))));
        assert_eq!(Tube::astm_b280(inches(9.0), Annealed), Err(NoTube::NoSuchSize(Some(3.125), None)));
        assert!(Tube::astm_b280(Length::new::<millimeter>(9.52), Drawn).is_ok());
        assert_eq!(Tube::with_wall(inches(0.1), inches(0.05)), Err(NoTube::WallTooThick));
    }
}
