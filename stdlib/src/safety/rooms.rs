//! Rooms that refrigerant can leak into, and the measures that a charge asks for.

use uom::si::f64::{Mass, MassDensity, Volume};

/// A room, or rooms joined for good, with the names of its parts.
#[derive(Debug, Clone, PartialEq)]
pub struct Space {
    /// Names, in the order of the rows.
    pub names: Vec<String>,
    /// Together.
    pub volume: Volume,
}

/// The smallest space among rooms; rows of one name in `joined` count together, a blank one by itself.
pub fn smallest(rooms: &[(&str, Volume, &str)]) -> Option<Space> {
    let mut spaces: Vec<(&str, Space)> = Vec::new();
    for (name, volume, joined) in rooms {
        match spaces.iter_mut().find(|(known, _)| !joined.is_empty() && known == joined) {
            Some((_, space)) => {
                space.names.push((*name).to_string());
                space.volume += *volume;
            }
            None => spaces.push((joined, Space { names: vec![(*name).to_string()], volume: *volume })),
        }
    }
    let less = |a: &Space, b: &Space| a.volume.value.total_cmp(&b.volume.value);
    spaces.into_iter().map(|(_, space)| space).min_by(less)
}

/// What a charge in a room asks for by the alternative rule of EN 378-1, C.3: none below the first limit, one measure
/// up to the second, two up to the third; `lowest_underground`: the room is on the lowest floor below ground, where the
/// first limit is the concentration limit and the second one asks for two.
///
/// From memory; limits by a public transcription of EN 378-1:2016+A1:2020, table C.3.
pub fn measures(charge: Mass, volume: Volume, limits: &Limits, lowest_underground: bool) -> Option<u8> {
    let in_room: MassDensity = charge / volume;
    let (first, second) =
        if lowest_underground { (limits.concentration, limits.minimum) } else { (limits.minimum, limits.additional) };
    match in_room {
        c if c <= first => Some(0),
        c if c <= second => Some(1),
        c if c <= limits.additional => Some(2),
        _ if lowest_underground => None,
        _ => Some(2),
    }
}

/// The three limits of the alternative rule.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// RCL.
    pub concentration: MassDensity,
    /// QLMV: quantity limit with minimum ventilation.
    pub minimum: MassDensity,
    /// QLAV: quantity limit with additional ventilation.
    pub additional: MassDensity,
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{Limits, measures, smallest};
    use uom::si::f64::{Mass, MassDensity, Volume};
    use uom::si::mass::kilogram;
    use uom::si::mass_density::kilogram_per_cubic_meter;
    use uom::si::volume::cubic_meter;

    fn m3(value: f64) -> Volume {
        Volume::new::<cubic_meter>(value)
    }

    #[test]
    fn the_smallest_space_governs() {
        let rooms = [("A", m3(40.0), ""), ("B", m3(15.0), "suite"), ("C", m3(20.0), "suite"), ("D", m3(36.0), "")];
        let found = smallest(&rooms).unwrap();
        assert_eq!((found.names, found.volume), (vec!["B".to_string(), "C".to_string()], m3(35.0)));
        assert_eq!(smallest(&[]), None);
    }

    /// 24 kg of R-32 need 381 m3 at QLMV (0.063) and 160 m3 at QLAV (0.15 kg/m3): worked by hand.
    #[test]
    fn measures_by_volume() {
        let density = |value| MassDensity::new::<kilogram_per_cubic_meter>(value);
        let limits = Limits { concentration: density(0.061), minimum: density(0.063), additional: density(0.15) };
        let of = |volume, below| measures(Mass::new::<kilogram>(24.0), m3(volume), &limits, below);
        assert_eq!(of(382.0, false), Some(0));
        assert_eq!(of(380.0, false), Some(1));
        assert_eq!(of(161.0, false), Some(1));
        assert_eq!(of(159.0, false), Some(2));
        assert_eq!(of(394.0, true), Some(0));
        assert_eq!(of(390.0, true), Some(1));
        assert_eq!(of(300.0, true), Some(2));
        assert_eq!(of(159.0, true), None);
    }
}
