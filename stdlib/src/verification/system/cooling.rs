//! A system in cooling: the outdoor coil condenses, all indoor coils evaporate.

use uom::si::f64::{Ratio, TemperatureInterval, ThermodynamicTemperature};

use super::{Discharge, Rest, Verdict};
use crate::circuit::superheat::difference;
use crate::seam::quantity;
use crate::verification::sign::Sign;

/// A running system; nothing where it was not taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Running {
    /// Evaporating (dew) temperature by the suction pressure.
    pub evaporating: ThermodynamicTemperature,
    /// What the outdoor unit aims at.
    pub target_evaporating: Option<ThermodynamicTemperature>,
    /// Condensing (bubble) temperature by the discharge pressure.
    pub condensing: ThermodynamicTemperature,
    /// Air on the outdoor coil.
    pub ambient: ThermodynamicTemperature,
    /// The same by a probe of your own.
    pub ambient_by_hand: bool,
    /// Liquid leaving the outdoor coil.
    pub liquid_line: ThermodynamicTemperature,
    /// Discharge, and what to expect of it.
    pub discharge: Discharge,
    /// Share of the calling, settled units that starve or are wide open; nothing with fewer than three of them.
    pub wanting: Option<Ratio>,
    /// The pressures were compared with a gauge of your own.
    pub pressures_checked: bool,
    /// What the rest test for gas that does not condense said.
    pub rest: Rest,
}

/// Expanded uncertainties and limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Uncertainty of a saturation temperature, or of its difference from a sensor.
    pub saturation: TemperatureInterval,
    /// Of the discharge temperature against what is expected.
    pub discharge: TemperatureInterval,
    /// Subcooling below which liquid is short.
    pub little_subcooling: TemperatureInterval,
    /// Subcooling above which there is too much.
    pub much_subcooling: TemperatureInterval,
    /// Condensing above ambient from which it is too hot.
    pub approach: TemperatureInterval,
    /// Evaporating below target from which it counts.
    pub below_target: TemperatureInterval,
    /// Share of wanting units that counts.
    pub many: Ratio,
    /// Discharge temperature at which to stop.
    pub stop: ThermodynamicTemperature,
}

/// The usual bounds; with 1 K of uncertainty the trade's 2 and 12 K of subcooling, 20 K above ambient.
pub const BOUNDS: Bounds = Bounds {
    saturation: quantity(1.0),
    discharge: quantity(3.0),
    little_subcooling: quantity(3.0),
    much_subcooling: quantity(10.0),
    approach: quantity(18.0),
    below_target: quantity(1.0),
    many: quantity(0.3),
    stop: quantity(388.15),
};

/// The signs of a system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Signs {
    pub(super) little_subcooling: Sign,
    pub(super) much_subcooling: Sign,
    pub(super) hot: Sign,
    pub(super) liquid_line_warm: Sign,
    pub(super) below_target: Sign,
    pub(super) discharge_high: Sign,
    pub(super) discharge_low: Sign,
    pub(super) wanting: Sign,
}

impl Signs {
    /// Reads them; one that was not read is unsure.
    pub fn of(running: &Running, bounds: &Bounds) -> Signs {
        let subcooling = difference(running.condensing, running.liquid_line);
        let over_ambient = |t| difference(t, running.ambient);
        let u = bounds.saturation;
        Signs {
            little_subcooling: Sign::below(subcooling, bounds.little_subcooling, u),
            much_subcooling: Sign::above(subcooling, bounds.much_subcooling, u),
            hot: Sign::above(over_ambient(running.condensing), bounds.approach, u),
            liquid_line_warm: Sign::above(
                over_ambient(running.liquid_line),
                bounds.approach - bounds.much_subcooling,
                u,
            ),
            below_target: running.target_evaporating.map_or(Sign::Unsure, |target| {
                Sign::above(difference(target, running.evaporating), bounds.below_target, u)
            }),
            discharge_high: running.discharge.is_high(bounds.discharge),
            discharge_low: running.discharge.is_low(bounds.discharge),
            wanting: match running.wanting {
                Some(share) if share >= bounds.many => Sign::Sure,
                Some(share) if share > quantity(0.0) => Sign::Unsure,
                Some(_) => Sign::No,
                None => Sign::Unsure,
            },
        }
    }
}

/// Judges a system. What two signs share a sensor for counts once: the discharge pressure makes both condensing and
/// subcooling, so nothing is named on the two without a gauge.
pub fn judge(running: &Running, settled: bool, bounds: &Bounds) -> (Verdict, Signs) {
    let signs = Signs::of(running, bounds);
    (verdict(running, settled, &signs, bounds), signs)
}

fn verdict(running: &Running, settled: bool, signs: &Signs, bounds: &Bounds) -> Verdict {
    use Sign::{No, Sure};
    if let Some(verdict) = running.discharge.before_signs(settled, bounds.stop) {
        return verdict;
    }
    let is = Sign::is_sure;
    let further =
        [signs.wanting, signs.below_target, signs.discharge_high].into_iter().filter(|sign| is(*sign)).count();
    if is(signs.little_subcooling) && further >= 2 {
        return Verdict::Short;
    }
    if is(signs.hot) && is(signs.much_subcooling) {
        return Verdict::by_rest(running.rest, running.pressures_checked);
    }
    if is(signs.hot) && is(signs.liquid_line_warm) && signs.much_subcooling == No {
        return if running.ambient_by_hand && running.pressures_checked {
            Verdict::OutdoorAirflow
        } else {
            Verdict::Undecided
        };
    }
    // Only liquid makes the discharge colder than the best compressor without superheat does.
    if is(signs.discharge_low) && signs.little_subcooling == No {
        return Verdict::SuctionSide;
    }
    if is(signs.below_target) && signs.wanting == No && signs.little_subcooling == No && !is(signs.discharge_high) {
        return Verdict::SuctionSide;
    }
    let against = [
        signs.little_subcooling,
        signs.much_subcooling,
        signs.hot,
        signs.below_target,
        signs.discharge_high,
        signs.discharge_low,
    ];
    if against.iter().all(|sign| !is(*sign)) && signs.wanting != Sure && signs.hot == No {
        Verdict::Healthy
    } else {
        Verdict::Undecided
    }
}
