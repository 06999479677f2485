//! Driving air out of pipes with nitrogen before a flame.

use crate::said::said;
use uom::si::f64::{Pressure, Time, Volume, VolumeRate};

/// Share of oxygen in air.
pub const OXYGEN_IN_AIR: f64 = 0.2095;

/// How long a steady flow takes to thin oxygen to a residual share: a plug pushed out at best, well mixed at worst.
///
/// A long small tube is near the plug; headers and branches are near the mixed vessel.
pub fn sweep_times(volume: Volume, flow: VolumeRate, residual: f64) -> (Time, Time) {
    let once: Time = volume / flow;
    (once, once * libm::log(OXYGEN_IN_AIR / residual))
}

/// How a flame stands to the flow that should keep oxygen from it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flame {
    /// Lit once even a pipe that mixes is swept, and out and cool before the flow ends.
    Covered,
    /// Lit when a plug has gone through, but before a pipe that mixes is swept.
    MaybeEarly,
    /// Lit before one volume has gone through.
    TooEarly,
    /// The flow ended while the joint was hot.
    LeftHot,
}

said! {
    Flame {
        Flame::Covered => "covered",
        Flame::MaybeEarly => "maybe too early",
        Flame::TooEarly => "too early",
        Flame::LeftHot => "flow ended on a hot joint",
    }
}

/// Judges a flame; times count from the start of the flow. Without the time when the joint was cool, or the flow ended,
/// only its beginning is judged.
pub fn flame(swept: (Time, Time), lit: Time, cool: Option<Time>, flow_ended: Option<Time>) -> Flame {
    let (shortest, longest) = swept;
    let ended_hot = flow_ended.is_some_and(|ended| ended < cool.unwrap_or(lit));
    match lit {
        _ if ended_hot => Flame::LeftHot,
        lit if lit >= longest => Flame::Covered,
        lit if lit >= shortest => Flame::MaybeEarly,
        _ => Flame::TooEarly,
    }
}

/// Share of oxygen left after filling to a high pressure and letting down to a low one, absolute, so many times.
pub fn after_cycles(high: Pressure, low: Pressure, cycles: f64) -> f64 {
    OXYGEN_IN_AIR * libm::pow((low / high).value, cycles)
}

/// Share of oxygen in a room after gas was let out into it: mixed as it came, and pushed out unmixed.
pub fn oxygen_in_room(room: Volume, gas: Volume) -> (f64, f64) {
    let share = (gas / room).value;
    (OXYGEN_IN_AIR * libm::exp(-share), OXYGEN_IN_AIR * (1.0 - share).max(0.0))
}

#[cfg(test)]
mod tests {
    use super::{Flame, after_cycles, flame, oxygen_in_room, sweep_times};
    use uom::si::f64::{Pressure, Time, Volume, VolumeRate};
    use uom::si::pressure::bar;
    use uom::si::time::minute;
    use uom::si::volume::{cubic_meter, liter};
    use uom::si::volume_rate::cubic_meter_per_second;

    const CUBIC_FOOT_PER_HOUR: f64 = 0.028_316_846_592 / 3_600.0;

    /// 30 m of 5/8 in annealed tube; seven volumes leave 191 ppm. Worked by hand.
    #[test]
    fn a_line_before_the_flame() {
        let residual = 0.2095 * libm::exp(-7.0);
        for (cfh, mixed) in [(3.0, 23.15), (5.0, 13.89), (10.0, 6.945), (20.0, 3.473)] {
            let flow = VolumeRate::new::<cubic_meter_per_second>(cfh * CUBIC_FOOT_PER_HOUR);
            let (plug, longest) = sweep_times(Volume::new::<liter>(4.682), flow, residual);
            assert!((longest.get::<minute>() - mixed).abs() < 0.01, "{cfh}");
            assert!((plug.get::<minute>() * 7.0 - mixed).abs() < 0.01, "{cfh}");
        }
        let volumes = |ppm: f64| libm::log(209_500.0 / ppm);
        for (ppm, expected) in [(10_000.0, 3.042), (1_000.0, 5.345), (100.0, 7.647), (10.0, 9.950)] {
            assert!((volumes(ppm) - expected).abs() < 6e-4);
        }
    }

    /// A flow that is swept after 2 to 14 minutes; the joint is hot until the thirtieth.
    #[test]
    fn a_flame_within_the_flow() {
        let minutes = |t: f64| Time::new::<minute>(t);
        let judged = |lit: f64, cool: Option<f64>, ended: Option<f64>| {
            flame((minutes(2.0), minutes(14.0)), minutes(lit), cool.map(minutes), ended.map(minutes))
        };
        assert_eq!(judged(14.0, Some(30.0), Some(30.0)), Flame::Covered);
        assert_eq!(judged(14.0, None, None), Flame::Covered);
        assert_eq!(judged(5.0, Some(30.0), Some(35.0)), Flame::MaybeEarly);
        assert_eq!(judged(1.0, None, None), Flame::TooEarly);
        assert_eq!(judged(20.0, Some(30.0), Some(25.0)), Flame::LeftHot);
        assert_eq!(judged(20.0, None, Some(15.0)), Flame::LeftHot);
    }

    /// Three times between 1.01325 and 4.01325 bar absolute leave 3372 ppm. Worked by hand.
    #[test]
    fn filled_and_let_down() {
        let left = after_cycles(Pressure::new::<bar>(4.01325), Pressure::new::<bar>(1.01325), 3.0);
        assert!((left * 1e6 - 3_372.0).abs() < 1.0, "{left}");
    }

    /// A 50 L cylinder at 200 bar holds 9.5 m3: in 25 m3 of room 14.3 % mixed, 13.0 % displaced. Worked by hand.
    #[test]
    fn a_cylinder_let_out_in_a_plant_room() {
        let (mixed, displaced) = oxygen_in_room(Volume::new::<cubic_meter>(25.0), Volume::new::<cubic_meter>(9.5));
        assert!((mixed - 0.143).abs() < 5e-4 && (displaced - 0.130).abs() < 5e-4);
        assert_eq!(oxygen_in_room(Volume::new::<liter>(1.0), Volume::new::<liter>(2.0)).1, 0.0);
    }
}
