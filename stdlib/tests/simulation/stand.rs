//! A system under nitrogen over hours, and the gauge and thermometers on it. Bar, hours, °C.

use dewline_stdlib::nitrogen::trapped::{Zone, trapped_pressure, zoned_pressure};
use dewline_stdlib::refrigerant::Gas;
use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::pressure::bar;
use uom::si::thermodynamic_temperature::degree_celsius;

use super::random::Random;

/// What happens to the gas.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// Nothing.
    Tight,
    /// A hole.
    Leak,
    /// The gas cools from filling, after the time said for it.
    FillHeat,
    /// Gas passes a shut valve into a part that was not filled.
    EveningOut,
    /// Part of the volume is in the sun and has no thermometer.
    Sun,
    /// The same, with a hole.
    SunAndLeak,
    /// The cylinder feeds.
    Feeding,
    /// The valve to the gauge is shut.
    ShutGauge,
}

impl Cause {
    pub const ALL: [Cause; 8] = [
        Cause::Tight,
        Cause::Leak,
        Cause::FillHeat,
        Cause::EveningOut,
        Cause::Sun,
        Cause::SunAndLeak,
        Cause::Feeding,
        Cause::ShutGauge,
    ];
}

/// A test as it was logged.
pub struct Log {
    /// Hours, bar absolute, °C.
    pub readings: Vec<(f64, f64, f64)>,
    /// True loss over the test by a leak, bar.
    pub lost: f64,
    /// What the user says of gauge and thermometer: expanded uncertainties, bar and K.
    pub pressure: f64,
    pub temperature: f64,
    pub limit: f64,
    /// Size of what there is to see over the uncertainty.
    pub strength: f64,
}

fn celsius(t: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(t)
}

/// Makes one log of a cause.
pub fn log(cause: Cause, random: &mut Random) -> Log {
    let start = random.between(25.0, 42.0);
    let hours = random.of(&[2.0, 4.0, 12.0, 24.0]);
    let every = if hours > 4.0 { 1.0 } else { 0.25 };
    let resolution = random.of(&[0.01, 0.05, 0.1]);
    let noise = random.between(0.003, 0.02);
    let slow = random.between(-0.3, 0.3);
    let lag = random.between(-0.25, 0.25);
    let swing = random.between(1.0, 8.0);
    let phase = random.between(0.0, std::f64::consts::TAU);
    let day =
        |hour: f64, swing: f64| swing * (libm::sin(std::f64::consts::TAU * hour / 24.0 + phase) - libm::sin(phase));
    let sunny = matches!(cause, Cause::Sun | Cause::SunAndLeak);
    let share = if sunny { random.between(0.2, 0.6) } else { 0.0 };
    let more = if sunny { random.between(5.0, 25.0) } else { 0.0 };
    let leak = random.log_between(0.005, 2.0) / hours;
    let fall = random.log_between(0.05, 0.5);
    let cools = random.between(0.2, 0.5);
    let evening = random.between(0.1, 3.0);
    let evens = random.between(0.3, 0.15 * hours + 0.3);
    let feeds = random.log_between(0.05, 3.0);
    let leaks = matches!(cause, Cause::Leak | Cause::SunAndLeak);
    let truth = |hour: f64| -> f64 {
        let room = |hour: f64| 20.0 + day(hour, swing);
        let roof = |hour: f64| 20.0 + day(hour, swing + more);
        let zones = [
            Zone { share: 1.0 - share, start: celsius(room(0.0)), end: celsius(room(hour)) },
            Zone { share, start: celsius(roof(0.0)), end: celsius(roof(hour)) },
        ];
        let filled = Pressure::new::<bar>(start);
        let held = if sunny {
            zoned_pressure(Gas::Nitrogen, filled, &zones)
        } else {
            trapped_pressure(Gas::Nitrogen, filled, zones[0].start, zones[0].end)
        };
        let held = held.unwrap().get::<bar>();
        held + match cause {
            Cause::Tight | Cause::Sun | Cause::ShutGauge => 0.0,
            Cause::Leak | Cause::SunAndLeak => -leak * hour,
            Cause::FillHeat => fall * libm::exp(-hour / cools),
            Cause::EveningOut => -evening * (1.0 - libm::exp(-hour / evens)),
            Cause::Feeding => feeds * (1.0 - libm::exp(-hour / 2.0)),
        }
    };
    let shown = |value: f64, random: &mut Random| ((value + noise * random.normal()) / resolution).round() * resolution;
    let shut = truth(0.0);
    let readings = (0..=(hours / every) as usize)
        .map(|row| {
            let hour = every * row as f64;
            let p = if cause == Cause::ShutGauge { shut } else { truth(hour) };
            // The thermometer is on the pipe's surface: it lags, and its error drifts a little.
            let t = 20.0 + day(hour - lag, swing) + slow * hour / hours + 0.05 * random.normal();
            (hour, shown(p, random), t)
        })
        .collect();
    let pressure = 2.0 * (2.0 * noise * noise + resolution * resolution / 6.0).sqrt();
    // What a lag of a quarter of an hour and the drift can do to a difference.
    let temperature = 0.35 + 0.25 * swing * std::f64::consts::TAU / 24.0 * 1.5;
    let uncertainty = pressure.hypot(0.15 * temperature);
    let limit = random.of(&[0.1, 0.2, 0.4]);
    let size = match cause {
        Cause::Leak | Cause::SunAndLeak => leak * hours,
        Cause::FillHeat => fall,
        Cause::EveningOut => evening,
        Cause::Feeding => feeds,
        Cause::Sun => 0.15 * share * more,
        Cause::Tight | Cause::ShutGauge => 0.15 * swing,
    };
    Log {
        readings,
        lost: if leaks { leak * hours } else { 0.0 },
        pressure,
        temperature,
        limit,
        strength: size / uncertainty,
    }
}
