//! To which level a system is emptied before it is opened, and how often its tightness is looked at.

use uom::si::f64::{Mass, Pressure, ThermodynamicTemperature};
use uom::si::mass::pound;
use uom::si::pressure::{inch_of_mercury, millimeter_of_mercury, psi};
use uom::si::thermodynamic_temperature::degree_fahrenheit;

use crate::refrigerant::{PropertyError, Refrigerant};
use crate::said::said;

/// Class of a refrigerant by its pressure at 104 °F.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// Above 355 psia.
    VeryHigh,
    /// 170 to 355 psia.
    High,
    /// 45 to 170 psia.
    Medium,
    /// Below 45 psia.
    Low,
}

said! {
    Class {
        Class::VeryHigh => "very high pressure",
        Class::High => "high pressure",
        Class::Medium => "medium pressure",
        Class::Low => "low pressure",
    }
}

/// Bubble pressure at 104 °F (40 °C), and the class that follows; nothing for what is above its critical point there.
///
/// 40 CFR 82.152: 170 to 355 psia seen second-hand, 355 and 45 psia from memory.
pub fn class(r: Refrigerant) -> Result<(Option<Pressure>, Class), PropertyError> {
    let at = ThermodynamicTemperature::new::<degree_fahrenheit>(104.0);
    if r.bubble_range().highest_temperature <= at {
        return Ok((None, Class::VeryHigh));
    }
    let pressure = r.bubble_pressure(at)?;
    let class = match pressure.get::<psi>() {
        p if p > 355.0 => Class::VeryHigh,
        p if p >= 170.0 => Class::High,
        p if p >= 45.0 => Class::Medium,
        _ => Class::Low,
    };
    Ok((Some(pressure), class))
}

/// When the recovery machine was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Made {
    /// Before 15 November 1993.
    Before,
    /// From then on.
    After,
}

/// Vacuum below the atmosphere, or an absolute pressure, to recover to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Level {
    /// So much below the atmosphere.
    Vacuum(Pressure),
    /// Absolute.
    Absolute(Pressure),
}

/// The level of 40 CFR 82.156, table 1. As a public page of the agency shows it for machines made from 15 November 1993
/// on, except 15 inHg for medium pressure from 200 lb on; that and the column of older machines are from memory.
pub fn level(class: Class, charge: Mass, made: Made) -> Level {
    let large = charge.get::<pound>() >= 200.0;
    let inches = match (class, large, made) {
        (Class::VeryHigh, ..) | (Class::High, false, _) => 0.0,
        (Class::High, true, Made::After) | (Class::Medium, false, Made::After) => 10.0,
        (Class::Medium, true, Made::After) => 15.0,
        (Class::High, true, Made::Before) | (Class::Medium, _, Made::Before) => 4.0,
        (Class::Low, _, Made::Before) => 25.0,
        (Class::Low, _, Made::After) => {
            return Level::Absolute(Pressure::new::<millimeter_of_mercury>(25.0));
        }
    };
    Level::Vacuum(Pressure::new::<inch_of_mercury>(inches))
}

/// Months between looks at tightness, by steps of carbon dioxide equivalent in tonnes, doubled with a detector.
///
/// Regulation (EU) 517/2014, article 4, from memory; 2024/573 counts unsaturated refrigerants by mass.
pub fn months_between(tonnes: f64, detector: bool) -> Option<f64> {
    let months = match tonnes {
        t if t < 5.0 => return None,
        t if t < 50.0 => 12.0,
        t if t < 500.0 => 6.0,
        _ => 3.0,
    };
    Some(if detector { 2.0 * months } else { months })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{Class, Level, Made, class, level, months_between};
    use crate::refrigerant::Refrigerant;
    use uom::si::f64::{Mass, Pressure};
    use uom::si::mass::pound;
    use uom::si::pressure::{inch_of_mercury, psi};

    /// Bubble pressures at 104 °F by the published equations, evaluated with CoolProp 8.0.0: R-32 359.4, R-410A 351.8,
    /// R-454B 335.6 psia.
    #[test]
    fn classes_by_pressure() {
        for (name, expected, of) in [
            ("R-32", 359.4, Class::VeryHigh),
            ("R-410A", 351.8, Class::High),
            ("R-454B", 335.6, Class::High),
            ("R-134a", 147.4, Class::Medium),
        ] {
            let (pressure, found) = class(Refrigerant::find(name).unwrap()).unwrap();
            assert!((pressure.unwrap().get::<psi>() - expected).abs() < 0.2, "{name} {pressure:?}");
            assert_eq!(found, of, "{name}");
        }
        assert_eq!(class(Refrigerant::find("R-744").unwrap()).unwrap(), (None, Class::VeryHigh));
        assert_eq!(class(Refrigerant::find("R-123").unwrap()).unwrap().1, Class::Low);
    }

    /// The agency's public page: high pressure below 200 lb 0 inHg, from 200 lb on 10; medium below 200 lb 10.
    #[test]
    fn levels_of_the_table() {
        let inches = |class, pounds| level(class, Mass::new::<pound>(pounds), Made::After);
        let vacuum = |inches| Level::Vacuum(Pressure::new::<inch_of_mercury>(inches));
        assert_eq!(inches(Class::VeryHigh, 500.0), vacuum(0.0));
        assert_eq!(inches(Class::High, 199.0), vacuum(0.0));
        assert_eq!(inches(Class::High, 200.0), vacuum(10.0));
        assert_eq!(inches(Class::Medium, 50.0), vacuum(10.0));
        assert!(matches!(inches(Class::Low, 50.0), Level::Absolute(_)));
    }

    #[test]
    fn a_detector_doubles_the_interval() {
        assert_eq!(months_between(4.9, false), None);
        assert_eq!(months_between(5.0, false), Some(12.0));
        assert_eq!(months_between(50.0, true), Some(12.0));
        assert_eq!(months_between(500.0, false), Some(3.0));
    }
}
