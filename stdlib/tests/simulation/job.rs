//! What a simulated system looks like to whoever judges it, in either mode.

use dewline_stdlib::verification::valve::{Mode, Plant, System, Unit};
use uom::si::f64::{Ratio, TemperatureInterval, ThermodynamicTemperature, Time};
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin;
use uom::si::time::second;

use super::compressor::at;
use super::random::Random;
use super::sensors::Readings;

const SETTLE: f64 = 600.0;

/// A unit as it is read.
pub fn unit(calling: bool, read: &Readings, random: &mut Random) -> Unit {
    Unit {
        calling,
        opening: Some(Ratio::new::<ratio>(read.opening)),
        since_change: Some(Time::new::<second>(if random.chance(0.05) { 200.0 } else { 2.0 * SETTLE })),
        liquid: Some(at(read.liquid)),
        gas: Some(at(read.gas)),
        air_in: Some(at(read.air_in)),
        air_out: random.chance(0.95).then_some(at(read.air_out)),
        ..Unit::default()
    }
}

/// Whether a unit calls and has settled.
pub fn counts(unit: &Unit) -> bool {
    unit.calling && unit.since_change.is_some_and(|since| since.value >= SETTLE)
}

/// What holds for all units; coarse sensors are known to be so.
pub fn plant(mode: Mode, saturation: ThermodynamicTemperature, resolution: f64) -> Plant {
    let uncertainty = TemperatureInterval::new::<kelvin>(if resolution > 0.6 { 1.4 } else { 1.0 });
    Plant {
        mode,
        system: System::First,
        saturation,
        glide: TemperatureInterval::default(),
        mapped: false,
        pipes: uncertainty,
        air: uncertainty,
        settle: Time::new::<second>(SETTLE),
    }
}

/// The greatest difference of readings that one fault makes, K.
pub fn moved(ill: &[Option<ThermodynamicTemperature>], well: &[Option<ThermodynamicTemperature>]) -> f64 {
    let apart = |(ill, well): (&Option<ThermodynamicTemperature>, &Option<ThermodynamicTemperature>)| {
        Some((ill.as_ref()?.value - well.as_ref()?.value).abs())
    };
    ill.iter().zip(well).filter_map(apart).fold(0.0, f64::max)
}

/// The temperatures of a unit.
pub fn of_unit(unit: &Unit) -> [Option<ThermodynamicTemperature>; 4] {
    [unit.liquid, unit.gas, unit.air_in, unit.air_out]
}
