//! Gas through hoses and pipes into a pump, of air at 20 °C.

use crate::said::said;
use uom::si::f64::{Length, Pressure, Time, Volume, VolumeRate};
use uom::si::length::{centimeter, meter};
use uom::si::pressure::pascal;
use uom::si::time::second;
use uom::si::volume::liter;
use uom::si::volume_rate::liter_per_second;

/// Pa in a millibar.
const MILLIBAR: f64 = 100.0;
/// Steps of the integration over the logarithm of pressure; even.
const STEPS: usize = 2_000;

/// The conductance of a long round tube as `viscous · p̄ + molecular`, L/s with p̄ in mbar.
///
/// Vacuum textbooks, air at 20 °C, from memory: 135·d⁴/L·p̄ and 12.1·d³/L in L/s for centimetres and millibar.
#[derive(Debug, Clone, Copy)]
struct Conductance {
    viscous: f64,
    molecular: f64,
}

impl Conductance {
    fn of(bore: Length, length: Length) -> Conductance {
        let (d, l) = (bore.get::<centimeter>(), length.get::<centimeter>());
        Conductance { viscous: 135.0 * d * d * d * d / l, molecular: 12.1 * d * d * d / l }
    }

    /// L/s at a mean pressure in mbar.
    fn at(self, mean: f64) -> f64 {
        self.viscous * mean + self.molecular
    }

    /// L/s that a pump of a speed draws from a vessel at a pressure in mbar through so many of these tubes.
    fn drawn(self, speed: f64, tubes: f64, p: f64) -> f64 {
        // speed · p_pump = C(p̄)·(p − p_pump) with p̄ half the sum: a quadratic in the pressure at the pump.
        let (a, c) = (tubes * self.viscous / 2.0, tubes * self.molecular);
        let b = speed + c;
        let constant = a * p * p + c * p;
        let at_pump = 2.0 * constant / (b + (b * b + 4.0 * a * constant).sqrt());
        speed * at_pump / p
    }
}

/// A pump with what stands between it and the pipes.
#[derive(Debug, Clone, Copy)]
pub struct Pull {
    /// Volume pulled on.
    pub volume: Volume,
    /// Free-air speed of the pump.
    pub speed: VolumeRate,
    /// Bore and length of each hose.
    pub hose: (Length, Length),
    /// How many hoses side by side.
    pub hoses: f64,
    /// Pressure that the pump reaches shut off.
    pub ultimate: Pressure,
}

impl Pull {
    /// How long dry gas takes from one pressure to a lower one.
    pub fn time(&self, from: Pressure, to: Pressure) -> Time {
        let conductance = Conductance::of(self.hose.0, self.hose.1);
        let speed = self.speed.get::<liter_per_second>();
        let least = self.ultimate.get::<pascal>() / MILLIBAR;
        let (high, low) = (from.get::<pascal>() / MILLIBAR, to.get::<pascal>() / MILLIBAR);
        // dt = V/(q/p)·dp/(p − p_u), over ln p so that the low end gets its share of steps (Simpson).
        let width = libm::log(high / low) / STEPS as f64;
        let slowness = |step: usize| {
            let p = low * libm::exp(width * step as f64);
            p / ((p - least) * conductance.drawn(speed, self.hoses, p))
        };
        let inner: f64 = (1..STEPS).map(|step| if step % 2 == 1 { 4.0 } else { 2.0 } * slowness(step)).sum();
        let sum = (slowness(0) + inner + slowness(STEPS)) * width / 3.0;
        Time::new::<second>(self.volume.get::<liter>() * sum)
    }

    /// The textbook figure of a pump without hoses.
    pub fn ideal_time(&self, from: Pressure, to: Pressure) -> Time {
        let ratio = (from - self.ultimate).value / (to - self.ultimate).value;
        self.volume / self.speed * libm::log(ratio)
    }
}

/// Mean free path of air at 20 °C times its pressure, Pa·m: kT/(√2·π·d²) with a molecule of 0.37 nm.
const FREE_PATH: f64 = 6.65e-3;

/// How far a molecule of air at 20 °C flies between two collisions.
pub fn mean_free_path(pressure: Pressure) -> Length {
    Length::new::<meter>(FREE_PATH / pressure.get::<pascal>())
}

/// How gas flows through a pipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Regime {
    /// Molecules meet one another far more often than the wall.
    Viscous,
    /// Neither formula holds by itself.
    Transitional,
    /// Molecules meet only the wall.
    Molecular,
}

said! {
    Regime {
        Regime::Viscous => "viscous",
        Regime::Transitional => "transitional",
        Regime::Molecular => "molecular",
    }
}

impl Regime {
    /// By the mean free path over the bore: below 0.01 viscous, above 0.5 molecular (vacuum textbooks, from memory).
    pub fn of(knudsen: f64) -> Regime {
        match knudsen {
            number if number < 0.01 => Regime::Viscous,
            number if number <= 0.5 => Regime::Transitional,
            _ => Regime::Molecular,
        }
    }
}

/// How long a volume takes to even out through a pipe: the time constant volume over conductance.
pub fn equalising_time(bore: Length, length: Length, beyond: Volume, mean: Pressure) -> Time {
    let conductance = Conductance::of(bore, length).at(mean.get::<pascal>() / MILLIBAR);
    Time::new::<second>(beyond.get::<liter>() / conductance)
}

#[cfg(test)]
mod tests {
    use super::{Conductance, Pull, Regime, equalising_time};
    use uom::si::f64::{Length, Pressure, Volume, VolumeRate};
    use uom::si::length::{inch, meter, millimeter};
    use uom::si::pressure::pascal;
    use uom::si::time::{minute, second};
    use uom::si::volume::liter;
    use uom::si::volume_rate::cubic_meter_per_second;

    const MICRON: f64 = 0.133_322_387_415;
    const CFM: f64 = 4.719_474_432e-4;

    fn pull(litres: f64, cfm: f64, bore: f64, ultimate: f64) -> Pull {
        Pull {
            volume: Volume::new::<liter>(litres),
            speed: VolumeRate::new::<cubic_meter_per_second>(cfm * CFM),
            hose: (Length::new::<millimeter>(bore), Length::new::<meter>(1.5)),
            hoses: 1.0,
            ultimate: Pressure::new::<pascal>(ultimate * MICRON),
        }
    }

    fn to(microns: f64) -> Pressure {
        Pressure::new::<pascal>(microns * MICRON)
    }

    fn atmosphere() -> Pressure {
        Pressure::new::<pascal>(101_325.0)
    }

    /// (V/S)·ln(p1/p2), worked by hand.
    #[test]
    fn the_textbook_figure() {
        for (litres, cfm, ultimate, microns, seconds) in [
            (50.0, 5.0, 0.0, 500.0, 155.24),
            (50.0, 5.0, 15.0, 500.0, 155.88),
            (20.0, 3.0, 0.0, 500.0, 103.49),
            (100.0, 8.0, 0.0, 300.0, 207.58),
        ] {
            let found = pull(litres, cfm, 9.53, ultimate).ideal_time(atmosphere(), to(microns)).get::<second>();
            assert!((found - seconds).abs() < 0.01, "{found} {seconds}");
        }
    }

    /// 50 L from the atmosphere to 500 micron with 5 cfm: what hoses make of the textbook's 2.6 min. Worked
    /// independently from the same conductances.
    #[test]
    fn hoses_rule() {
        for (bore, minutes) in [(4.76, 43.6), (9.53, 4.9), (12.7, 3.2)] {
            let found = pull(50.0, 5.0, bore, 0.0).time(atmosphere(), to(500.0)).get::<minute>();
            assert!((found / minutes - 1.0).abs() < 0.02, "{bore}: {found} min, expected {minutes}");
        }
    }

    /// 1.5 m of hose at 1 mbar, L/s: worked by hand. A 5 cfm pump works behind the first at 2 % of its rating.
    #[test]
    fn conductances_of_hoses() {
        for (bore, viscous, molecular) in [(4.76, 0.0462, 0.0087), (9.53, 0.742, 0.0698)] {
            let found = Conductance::of(Length::new::<millimeter>(bore), Length::new::<meter>(1.5));
            assert!((found.viscous / viscous - 1.0).abs() < 2e-3, "{found:?}");
            assert!((found.molecular / molecular - 1.0).abs() < 5e-3, "{found:?}");
        }
    }

    #[test]
    fn regimes_begin_at_a_hundredth_and_end_at_a_half() {
        let found = [0.009, 0.01, 0.5, 0.51].map(Regime::of);
        assert_eq!(found, [Regime::Viscous, Regime::Transitional, Regime::Transitional, Regime::Molecular]);
    }

    #[test]
    fn a_wide_hose_is_no_hose() {
        let wide = pull(50.0, 5.0, 500.0, 15.0);
        let (real, ideal) = (wide.time(atmosphere(), to(500.0)), wide.ideal_time(atmosphere(), to(500.0)));
        assert!((real.value / ideal.value - 1.0).abs() < 1e-4);
    }

    /// 60 m of pipe with 10 L beyond at 500 micron: 6.6 min in 1/2 in, 24 min in 3/8 in.
    #[test]
    fn pressure_evens_out_slowly() {
        for (bore, minutes) in [(0.436, 6.6), (0.311, 24.0)] {
            let (bore, length) = (Length::new::<inch>(bore), Length::new::<meter>(60.0));
            let found = equalising_time(bore, length, Volume::new::<liter>(10.0), to(500.0)).get::<minute>();
            assert!((found / minutes - 1.0).abs() < 0.02, "{found} min, expected {minutes}");
        }
    }
}
