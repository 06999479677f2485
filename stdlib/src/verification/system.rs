//! What a system as a whole says, read before any valve is named.
//!
//! Common practice, no source; limits are those of [`Bounds`], and what the discharge should be comes from the cycle.

use super::peers::Sign;

/// A running system; K, shares. Nothing where it was not taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Running {
    /// Evaporating (dew) temperature by the suction pressure.
    pub evaporating: f64,
    /// What the outdoor unit aims at.
    pub target_evaporating: Option<f64>,
    /// Condensing (bubble) temperature by the discharge pressure.
    pub condensing: f64,
    /// Air on the outdoor coil.
    pub ambient: f64,
    /// The same by a probe of your own.
    pub ambient_by_hand: bool,
    /// Liquid leaving the outdoor coil.
    pub liquid_line: f64,
    /// Discharge.
    pub discharge: Option<f64>,
    /// Lowest discharge temperature to expect at no superheat and a good compressor.
    pub least_discharge: Option<f64>,
    /// Highest to expect at the superheat wanted and a poor compressor.
    pub most_discharge: Option<f64>,
    /// Share of the calling, settled units that starve or are wide open; nothing with fewer than three of them.
    pub wanting: Option<f64>,
    /// The pressures were compared with a gauge of your own.
    pub pressures_checked: bool,
    /// What the rest test for gas that does not condense said.
    pub rest: Rest,
}

/// The rest test of the outdoor coil.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rest {
    /// Not made, or undecided.
    Unknown,
    /// Gas that does not condense.
    Gas,
    /// None seen.
    None,
}

/// Expanded uncertainties and limits, K and shares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Of a saturation temperature, or of its difference from a sensor.
    pub saturation: f64,
    /// Of the discharge temperature against what is expected.
    pub discharge: f64,
    /// Subcooling below which liquid is short.
    pub little_subcooling: f64,
    /// Subcooling above which there is too much.
    pub much_subcooling: f64,
    /// Condensing above ambient from which it is too hot.
    pub approach: f64,
    /// Evaporating below target from which it counts.
    pub below_target: f64,
    /// Share of wanting units that counts.
    pub many: f64,
    /// Discharge temperature at which to stop.
    pub stop: f64,
}

/// The usual bounds; with 1 K of uncertainty the trade's 2 and 12 K of subcooling, 20 K above ambient.
pub const BOUNDS: Bounds = Bounds {
    saturation: 1.0,
    discharge: 3.0,
    little_subcooling: 3.0,
    much_subcooling: 10.0,
    approach: 18.0,
    below_target: 1.0,
    many: 0.3,
    stop: 388.15,
};

/// What a system looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// No sign against it.
    Healthy,
    /// Short of liquid: charge, or what holds it back.
    Short,
    /// More charge than it can hold.
    Overfilled,
    /// Gas that does not condense.
    Gas,
    /// The outdoor coil gets too little, or too warm, air.
    OutdoorAirflow,
    /// Low suction with all else fair, or liquid that returns.
    SuctionSide,
    /// Too hot to go on.
    Stop,
    /// Not settled.
    NotSettled,
    /// Signs within their uncertainty, or too few.
    Undecided,
}

impl Verdict {
    /// As sheets see it.
    pub fn name(self) -> &'static str {
        match self {
            Verdict::Healthy => "healthy",
            Verdict::Short => "short of liquid",
            Verdict::Overfilled => "overfilled",
            Verdict::Gas => "gas that does not condense",
            Verdict::OutdoorAirflow => "outdoor airflow",
            Verdict::SuctionSide => "suction side",
            Verdict::Stop => "stop",
            Verdict::NotSettled => "not settled",
            Verdict::Undecided => "undecided",
        }
    }
}

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
        let subcooling = running.condensing - running.liquid_line;
        let u = bounds.saturation;
        let above = |value: Option<f64>, limit: Option<f64>, u: f64| match (value, limit) {
            (Some(value), Some(limit)) => Sign::above(value, limit, u),
            _ => Sign::Unsure,
        };
        Signs {
            little_subcooling: Sign::below(subcooling, bounds.little_subcooling, u),
            much_subcooling: Sign::above(subcooling, bounds.much_subcooling, u),
            hot: Sign::above(running.condensing - running.ambient, bounds.approach, u),
            liquid_line_warm: Sign::above(
                running.liquid_line - running.ambient,
                bounds.approach - bounds.much_subcooling,
                u,
            ),
            below_target: above(
                running.target_evaporating.map(|target| target - running.evaporating),
                Some(bounds.below_target),
                u,
            ),
            discharge_high: above(running.discharge, running.most_discharge, bounds.discharge),
            discharge_low: above(running.least_discharge, running.discharge, bounds.discharge),
            wanting: match running.wanting {
                Some(share) if share >= bounds.many => Sign::Sure,
                Some(share) if share > 0.0 => Sign::Unsure,
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
    if running.discharge.is_some_and(|t| t > bounds.stop) {
        return Verdict::Stop;
    }
    if !settled {
        return Verdict::NotSettled;
    }
    let is = |sign: Sign| sign == Sure;
    let further =
        [signs.wanting, signs.below_target, signs.discharge_high].into_iter().filter(|sign| is(*sign)).count();
    if is(signs.little_subcooling) && further >= 2 {
        return Verdict::Short;
    }
    if is(signs.hot) && is(signs.much_subcooling) {
        // One pressure makes both signs: a gauge and the rest test settle it.
        return match running.rest {
            Rest::Gas if running.pressures_checked => Verdict::Gas,
            Rest::None if running.pressures_checked => Verdict::Overfilled,
            _ => Verdict::Undecided,
        };
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
