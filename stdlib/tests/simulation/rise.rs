//! The pressure in a system after the pump is shut off, and the gauge that reads it. Micron and minutes.

use super::random::Random;

/// What makes the pressure rise.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// Nothing that shows.
    Tight,
    /// Air through a hole.
    Leak,
    /// Through one so great that the gauge soon is over its range.
    BigLeak,
    /// The same, read in two holds with a nitrogen break between them.
    LeakTwice,
    /// Moisture on walls and in oil: a plateau far below that of water.
    Moisture,
    /// The same, read in two holds: the second rises less.
    MoistureTwice,
    /// A leak and moisture together.
    LeakAndMoisture,
    /// Water that stands in the pipe.
    FreeWater,
    /// Gas from oil and rubber.
    Outgassing,
    /// Pressure evening out towards a gauge at the pump.
    EveningOut,
    /// A part that was not evacuated opens in the middle.
    Step,
    /// A gauge that reads itself.
    Frozen,
    /// A pipe that warms, ice that melts.
    Warming,
    /// The pump was not shut off.
    Pumping,
    /// Ice in a cold pipe.
    Ice,
}

impl Cause {
    pub const ALL: [Cause; 15] = [
        Cause::Tight,
        Cause::Leak,
        Cause::LeakTwice,
        Cause::Moisture,
        Cause::MoistureTwice,
        Cause::LeakAndMoisture,
        Cause::FreeWater,
        Cause::Outgassing,
        Cause::EveningOut,
        Cause::Step,
        Cause::Frozen,
        Cause::Warming,
        Cause::Pumping,
        Cause::Ice,
        Cause::BigLeak,
    ];
}

/// A hold as it was logged.
pub struct Log {
    /// Minutes and micron; true where the gauge was over its range, so that it was at least so much.
    pub readings: Vec<(f64, f64, bool)>,
    /// True rise by a leak, micron a minute.
    pub leak: f64,
    /// Slope of an earlier hold and its standard uncertainty, micron a minute.
    pub earlier: Option<(f64, f64)>,
    /// Vapour pressure of water or ice at the coldest pipe, micron.
    pub water: f64,
    /// Of water at the warmest spot.
    pub warmest: f64,
    pub at_pump: bool,
    /// What the user says of the gauge's noise.
    pub noise: f64,
    /// Size of what there is to see, over the noise.
    pub strength: f64,
}

/// A gauge of its own gas, noise and resolution.
struct Gauge {
    noise: f64,
    resolution: f64,
}

impl Gauge {
    fn read(&self, truth: f64, random: &mut Random) -> f64 {
        let noisy = truth + self.noise * random.normal();
        ((noisy / self.resolution).round() * self.resolution).max(1.0)
    }
}

/// Makes one log of a cause.
pub fn log(cause: Cause, random: &mut Random) -> Log {
    let gauge = Gauge { noise: random.log_between(1.0, 6.0), resolution: random.of(&[1.0, 1.0, 5.0, 10.0]) };
    let minutes = random.of(&[10.0, 15.0, 20.0, 30.0, 45.0, 60.0, 90.0, 120.0]);
    let every = if minutes > 30.0 && random.chance(0.3) { 5.0 } else { 1.0 };
    let start = if cause == Cause::Ice { random.between(60.0, 240.0) } else { random.between(150.0, 600.0) };
    let tau = random.log_between(5.0, 240.0);
    // Absorbed moisture stops at 700 to 2500 micron; a thermal gauge reads water up to twice too high.
    let plateau = random.between(700.0, 2_500.0) * random.between(1.0, 2.0);
    let leak = random.log_between(0.2, 40.0) * if cause == Cause::BigLeak { 50.0 } else { 1.0 };
    let ice = cause == Cause::Ice;
    let water = if ice { random.between(300.0, 1_500.0) } else { random.between(8_000.0, 22_000.0) };
    let gas = random.between(1.0, 1.8);
    let oil = random.log_between(5.0, 120.0);
    let jump = (minutes * random.between(0.45, 0.8)).round();
    let by = random.log_between(100.0, 3_000.0);
    let even = random.log_between(0.8, 5.0);
    let shape = |t: f64| -> f64 {
        let bend = |to: f64, tau: f64| start + (to - start) * (1.0 - libm::exp(-t / tau));
        match cause {
            Cause::Tight | Cause::Frozen => start,
            Cause::Leak | Cause::LeakTwice | Cause::BigLeak => start + leak * t,
            Cause::Moisture | Cause::MoistureTwice => bend(plateau, tau),
            Cause::LeakAndMoisture => bend(plateau, tau.min(30.0)) + leak * t,
            Cause::FreeWater => bend(water * gas, tau.min(20.0)),
            Cause::Outgassing => start + oil * t.sqrt(),
            Cause::EveningOut => bend(start + by, even),
            Cause::Step => start + 0.2 * t + if t >= jump { by } else { 0.0 },
            Cause::Warming => start + leak * t * (1.0 + t / 20.0),
            Cause::Pumping => start * libm::exp(-t / 40.0),
            Cause::Ice => bend((water * gas).min(450.0), tau.min(15.0)),
        }
    };
    let count = (minutes / every) as usize;
    let frozen = gauge.read(start, random);
    let readings: Vec<(f64, f64)> = (0..=count)
        .map(|row| {
            let t = every * row as f64;
            (t, if cause == Cause::Frozen { frozen } else { gauge.read(shape(t), random) })
        })
        .collect();
    // A hold before: of a leak the same, of moisture and outgassing more.
    let own = (shape(minutes) - shape(0.0)) / minutes;
    let earlier = match cause {
        Cause::LeakTwice => Some(own),
        Cause::MoistureTwice => Some(own * random.between(1.3, 4.0)),
        _ => None,
    };
    let spread = gauge.noise.hypot(0.3 * gauge.resolution);
    let uncertainty = spread * (12.0 / readings.len() as f64).sqrt() / minutes;
    Log {
        leak: if matches!(cause, Cause::Leak | Cause::BigLeak | Cause::LeakTwice | Cause::LeakAndMoisture) {
            leak
        } else {
            0.0
        },
        earlier: earlier.map(|rate| (rate + uncertainty * random.normal(), uncertainty)),
        water,
        warmest: if ice { 20_000.0 } else { water * 1.5 },
        at_pump: cause == Cause::EveningOut || random.chance(0.2),
        noise: spread.max(1.0),
        strength: (shape(minutes) - shape(0.0)).abs() / spread,
        readings: in_range(&readings, random.of(&[2_000.0, 5_000.0, 20_000.0, 25_000.0])),
    }
}

/// What a gauge of this range shows.
fn in_range(readings: &[(f64, f64)], top: f64) -> Vec<(f64, f64, bool)> {
    readings.iter().map(|(t, p)| (*t, p.min(top), *p >= top)).collect()
}
