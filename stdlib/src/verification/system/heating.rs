//! A system in heating: all indoor coils condense, the outdoor coil evaporates.
//!
//! Liquid shows at the indoor coils, each by its own sensor against one discharge pressure; its want shows at the outdoor
//! coil, by the suction pressure. The two share no sensor, so that together they name what neither does alone.

use uom::si::f64::{Ratio, TemperatureInterval, ThermodynamicTemperature};

use super::{Discharge, ENOUGH, Rest, Verdict};
use crate::circuit::superheat::difference;
use crate::seam::quantity;
use crate::verification::sign::Sign;

/// A running system; nothing where it was not taken.
#[derive(Debug, Clone, PartialEq)]
pub struct Running {
    /// Evaporating (dew) temperature by the suction pressure.
    pub evaporating: ThermodynamicTemperature,
    /// Condensing (bubble) temperature by the discharge pressure.
    pub condensing: ThermodynamicTemperature,
    /// What the outdoor unit aims at.
    pub target_condensing: Option<ThermodynamicTemperature>,
    /// Air on the outdoor coil.
    pub ambient: ThermodynamicTemperature,
    /// The same by a probe of your own.
    pub ambient_by_hand: bool,
    /// Vapour on its way from the outdoor coil to the compressor.
    pub suction_line: Option<ThermodynamicTemperature>,
    /// Commanded opening of the outdoor unit's expansion valve.
    pub outdoor_opening: Option<Ratio>,
    /// Discharge, and what to expect of it.
    pub discharge: Discharge,
    /// Subcooling of each calling, settled indoor coil.
    pub subcoolings: Vec<TemperatureInterval>,
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
    /// Subcooling of a coil below which liquid is short.
    pub little_subcooling: TemperatureInterval,
    /// Subcooling of a coil above which there is too much.
    pub much_subcooling: TemperatureInterval,
    /// Evaporating below ambient from which the outdoor coil lacks air or liquid.
    pub below_ambient: TemperatureInterval,
    /// Superheat of the suction line from which the outdoor coil lacks liquid.
    pub much_superheat: TemperatureInterval,
    /// Condensing below target from which it counts.
    pub below_target: TemperatureInterval,
    /// Share of coils with little subcooling that counts.
    pub many: Ratio,
    /// Share of coils with much subcooling that counts: a few may have valves of their own to blame.
    pub most: Ratio,
    /// Opening from which the outdoor valve is at its end.
    pub wide: Ratio,
    /// Discharge temperature at which to stop.
    pub stop: ThermodynamicTemperature,
}

/// The usual bounds; with 1 K of uncertainty 2 and 15 K of subcooling, 15 K below ambient, 12 K of superheat.
pub const BOUNDS: Bounds = Bounds {
    saturation: quantity(1.0),
    discharge: quantity(3.0),
    little_subcooling: quantity(3.0),
    much_subcooling: quantity(14.0),
    below_ambient: quantity(14.0),
    much_superheat: quantity(11.0),
    below_target: quantity(1.0),
    many: quantity(0.3),
    most: quantity(0.6),
    wide: quantity(0.85),
    stop: quantity(388.15),
};

/// The signs of a system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Signs {
    pub(super) little_subcooling: Sign,
    pub(super) much_subcooling: Sign,
    pub(super) far_below_ambient: Sign,
    pub(super) much_superheat: Sign,
    pub(super) outdoor_wide: Sign,
    pub(super) below_target: Sign,
    pub(super) discharge_high: Sign,
    pub(super) discharge_low: Sign,
}

impl Signs {
    /// Reads them; one that was not read is unsure.
    pub fn of(running: &Running, bounds: &Bounds) -> Signs {
        let u = bounds.saturation;
        let below_target = |target| Sign::above(difference(target, running.condensing), bounds.below_target, u);
        let superheat = |line| Sign::above(difference(line, running.evaporating), bounds.much_superheat, u);
        Signs {
            little_subcooling: of_coils(&running.subcoolings, bounds.many, |subcooling| {
                Sign::below(subcooling, bounds.little_subcooling, u)
            }),
            much_subcooling: of_coils(&running.subcoolings, bounds.most, |subcooling| {
                Sign::above(subcooling, bounds.much_subcooling, u)
            }),
            far_below_ambient: Sign::above(difference(running.ambient, running.evaporating), bounds.below_ambient, u),
            much_superheat: running.suction_line.map_or(Sign::Unsure, superheat),
            outdoor_wide: match running.outdoor_opening {
                Some(opening) if opening >= bounds.wide => Sign::Sure,
                Some(_) => Sign::No,
                None => Sign::Unsure,
            },
            below_target: running.target_condensing.map_or(Sign::Unsure, below_target),
            discharge_high: running.discharge.is_high(bounds.discharge),
            discharge_low: running.discharge.is_low(bounds.discharge),
        }
    }

    /// The outdoor coil lacks liquid or air, by the suction pressure.
    pub(super) fn lacks_outdoors(&self) -> bool {
        self.far_below_ambient.is_sure() || self.much_superheat.is_sure()
    }

    /// It lacks liquid, by what shares no sensor with the suction pressure alone.
    fn lacks_liquid(&self) -> bool {
        self.lacks_outdoors() && (self.outdoor_wide.is_sure() || self.discharge_high.is_sure())
    }
}

/// A sign of the coils together: surely there if it is so at this share of them, surely not if at none it even may be.
fn of_coils(subcoolings: &[TemperatureInterval], share: Ratio, sign: impl Fn(TemperatureInterval) -> Sign) -> Sign {
    if subcoolings.len() < ENOUGH {
        return Sign::Unsure;
    }
    let signs: Vec<Sign> = subcoolings.iter().map(|subcooling| sign(*subcooling)).collect();
    let sure = signs.iter().filter(|sign| sign.is_sure()).count();
    match sure as f64 / signs.len() as f64 {
        found if found >= share.value => Sign::Sure,
        _ if signs.iter().all(|sign| *sign == Sign::No) => Sign::No,
        _ => Sign::Unsure,
    }
}

/// Judges a system.
pub fn judge(running: &Running, settled: bool, bounds: &Bounds) -> (Verdict, Signs) {
    let signs = Signs::of(running, bounds);
    (verdict(running, settled, &signs, bounds), signs)
}

fn verdict(running: &Running, settled: bool, signs: &Signs, bounds: &Bounds) -> Verdict {
    use Sign::No;
    if let Some(verdict) = running.discharge.before_signs(settled, bounds.stop) {
        return verdict;
    }
    if signs.little_subcooling.is_sure() && signs.lacks_liquid() {
        return Verdict::Short;
    }
    if signs.much_subcooling.is_sure() {
        return match signs.lacks_outdoors() {
            true if signs.lacks_liquid() => Verdict::HeldBack,
            true => Verdict::Undecided,
            // One pressure makes all these subcoolings: a gauge and the rest test settle it.
            false => Verdict::by_rest(running.rest, running.pressures_checked),
        };
    }
    if signs.far_below_ambient.is_sure() && signs.little_subcooling == No && signs.much_superheat == No {
        let sure = running.ambient_by_hand && running.pressures_checked && !signs.outdoor_wide.is_sure();
        return if sure { Verdict::OutdoorAirflow } else { Verdict::Undecided };
    }
    // Only liquid makes the discharge colder than the best compressor without superheat does.
    if signs.discharge_low.is_sure() && !signs.little_subcooling.is_sure() {
        return Verdict::SuctionSide;
    }
    let against =
        [signs.little_subcooling, signs.much_superheat, signs.below_target, signs.discharge_high, signs.discharge_low];
    // Coils that nobody read are not healthy.
    let read = running.subcoolings.len() >= ENOUGH;
    if read && against.iter().all(|sign| !sign.is_sure()) && signs.far_below_ambient == No {
        Verdict::Healthy
    } else {
        Verdict::Undecided
    }
}
