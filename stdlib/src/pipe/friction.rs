//! Friction in pipes, head of liquid, oil carried up risers.

use uom::si::acceleration::meter_per_second_squared;
use uom::si::f64::{Acceleration, DynamicViscosity, Length, MassDensity, MassRate, Pressure, Ratio, Velocity};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;

use super::tube::Tube;

/// Reynolds number up to which flow stays laminar.
const LAMINAR: f64 = 2_300.0;
/// Steps that Newton's method may take; it needs four.
const STEPS: usize = 20;

/// Roughness of drawn tube: Moody (1944), from memory.
pub fn drawn_tube() -> Length {
    Length::new::<meter>(1.5e-6)
}

/// The Darcy friction factor: 64/Re in laminar flow, Colebrook's equation above. Four times Fanning's.
pub fn friction_factor(reynolds: f64, relative_roughness: f64) -> f64 {
    if reynolds < LAMINAR {
        return 64.0 / reynolds;
    }
    // With x = 1/√f: x + 2·log10(k + m·x) = 0. Haaland's equation is near enough for Newton to end in a few steps.
    let (k, m) = (relative_roughness / 3.7, 2.51 / reynolds);
    let mut x = -1.8 * libm::log10(libm::pow(k, 1.11) + 6.9 / reynolds);
    for _ in 0..STEPS {
        let inside = k + m * x;
        let miss = x + 2.0 * libm::log10(inside);
        let slope = 1.0 + 2.0 * m / (inside * std::f64::consts::LN_10);
        let next = x - miss / slope;
        if (next - x).abs() <= 1e-15 * x.abs() {
            break;
        }
        x = next;
    }
    1.0 / (x * x)
}

/// Flow of one phase through a tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flow {
    /// Mean velocity.
    pub velocity: Velocity,
    /// Reynolds number.
    pub reynolds: Ratio,
    /// Darcy friction factor.
    pub friction_factor: f64,
    /// Loss by friction.
    pub friction: Pressure,
}

/// Flow and friction loss in a drawn tube.
pub fn flow(
    tube: &Tube,
    length: Length,
    mass_flow: MassRate,
    density: MassDensity,
    viscosity: DynamicViscosity,
) -> Flow {
    let bore = tube.bore();
    let velocity: Velocity = mass_flow / (density * tube.bore_area());
    let reynolds: Ratio = density * velocity * bore / viscosity;
    let factor = friction_factor(reynolds.get::<ratio>(), (drawn_tube() / bore).get::<ratio>());
    let dynamic = density.value * velocity.get::<meter_per_second>() * velocity.get::<meter_per_second>() / 2.0;
    let friction = Pressure::new::<pascal>(factor * (length / bore).get::<ratio>() * dynamic);
    Flow { velocity, reynolds, friction_factor: factor, friction }
}

/// Standard gravity.
pub fn gravity() -> Acceleration {
    Acceleration::new::<meter_per_second_squared>(9.806_65)
}

/// Pressure lost by a rise; below nought gained by a fall.
pub fn static_head(density: MassDensity, rise: Length) -> Pressure {
    density * gravity() * rise
}

/// Least velocity of vapour that carries oil up a riser: Jacobs, Scheideman, Kazem & Macken, ASHRAE Transactions 82(2)
/// (1976) 318, flooding with a constant of 0.85 (from memory).
pub fn oil_return_velocity(bore: Length, vapor: MassDensity, liquid: MassDensity) -> Velocity {
    let lift = gravity().value * bore.value * (liquid - vapor).value / vapor.value;
    Velocity::new::<meter_per_second>(0.85 * 0.85 * lift.max(0.0).sqrt())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{flow, friction_factor, oil_return_velocity, static_head};
    use crate::pipe::tube::{Temper, Tube};
    use uom::si::dynamic_viscosity::pascal_second;
    use uom::si::f64::{DynamicViscosity, Length, MassDensity, MassRate};
    use uom::si::length::{inch, meter};
    use uom::si::mass_density::kilogram_per_cubic_meter;
    use uom::si::mass_rate::kilogram_per_second;
    use uom::si::pressure::kilopascal;
    use uom::si::velocity::meter_per_second;

    /// Colebrook's equation by repeated substitution, and through the open library `fluids` 1.3.1 (seven digits).
    #[test]
    fn colebrook() {
        assert!((friction_factor(1e5, 1e-4) / 0.018_513_866_077_471 - 1.0).abs() < 1e-12);
        assert!((friction_factor(3.08e5, 7.522_94e-5) / 0.015_146_2 - 1.0).abs() < 4e-6);
        assert_eq!(friction_factor(1_000.0, 1e-4), 0.064);
        assert!(friction_factor(1e8, 0.0).is_finite());
    }

    /// R-410A vapour, 10 kW at 5/45 °C: 60.27 g/s of 33.877 kg/m3 at 12.5 µPa·s through 30 m. Worked independently.
    #[test]
    fn a_suction_line() {
        for (od, temper, v, re, f, p) in [
            (0.625, Temper::Annealed, 11.399, 435_489.0, 0.014_743, 69.05),
            (0.75, Temper::Annealed, 7.593, 355_436.0, 0.014_943, 25.35),
            (0.875, Temper::Drawn, 5.698, 307_894.0, 0.015_147, 12.53),
        ] {
            let tube = Tube::astm_b280(Length::new::<inch>(od), temper).unwrap();
            let found = flow(
                &tube,
                Length::new::<meter>(30.0),
                MassRate::new::<kilogram_per_second>(0.060_270),
                MassDensity::new::<kilogram_per_cubic_meter>(33.877),
                DynamicViscosity::new::<pascal_second>(12.5e-6),
            );
            assert!((found.velocity.get::<meter_per_second>() - v).abs() < 2e-3, "{found:?}");
            assert!((found.reynolds.value / re - 1.0).abs() < 1e-4, "{found:?}");
            assert!((found.friction_factor - f).abs() < 2e-6, "{found:?}");
            assert!((found.friction.get::<kilopascal>() / p - 1.0).abs() < 1e-3, "{found:?}");
        }
    }

    /// Worked by hand from the formula.
    #[test]
    fn oil_and_head() {
        let density = MassDensity::new::<kilogram_per_cubic_meter>;
        let found = oil_return_velocity(Length::new::<meter>(0.02), density(40.0), density(1_000.0));
        assert!((found.get::<meter_per_second>() - 1.5675).abs() < 1e-4);
        // R-410A liquid of 40 °C: 9.569 kPa for each metre.
        let head = static_head(density(975.72), Length::new::<meter>(1.0)).get::<kilopascal>();
        assert!((head - 9.569).abs() < 1e-3);
    }
}
