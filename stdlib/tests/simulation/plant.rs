//! A system in cooling with its coils: what is wrong with it, what its outdoor unit shows, what its units show.

use dewline_stdlib::refrigerant::Refrigerant;
use dewline_stdlib::verification::system::cooling::Running;
use dewline_stdlib::verification::system::{Discharge, Rest};
use dewline_stdlib::verification::valve::{Mode, Plant, System, Unit};
use uom::si::available_energy::joule_per_kilogram;
use uom::si::f64::{AvailableEnergy, Ratio, TemperatureInterval, ThermodynamicTemperature, Time};
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin as kelvin_apart;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::second as seconds;

use super::coil::{Coil, Fault, Place, Readings, Sensors, State};
use super::random::Random;

/// What is wrong with a system; one thing at a time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cause {
    Nothing,
    /// A calling unit whose valve or branch is shut, or nearly.
    Shut,
    /// A calling unit that gets too little.
    Restricted,
    /// A calling unit whose valve does not close.
    Passing,
    /// A resting unit whose valve does not close.
    LeakingIdle,
    GasSensorOff,
    LiquidSensorOff,
    Swapped,
    LittleAir,
    SensorDrift,
    /// Sensors of two units exchanged; at least one calls.
    CrossedSensors,
    /// Valves of two units exchanged; at least one calls.
    CrossedValves,
    LowCharge,
    Gas,
    Overfilled,
    OutdoorAir,
}

impl Cause {
    pub const ALL: [Cause; 16] = [
        Cause::Nothing,
        Cause::Shut,
        Cause::Restricted,
        Cause::Passing,
        Cause::LeakingIdle,
        Cause::GasSensorOff,
        Cause::LiquidSensorOff,
        Cause::Swapped,
        Cause::LittleAir,
        Cause::SensorDrift,
        Cause::CrossedSensors,
        Cause::CrossedValves,
        Cause::LowCharge,
        Cause::Gas,
        Cause::Overfilled,
        Cause::OutdoorAir,
    ];
}

/// A simulated system as its readings show it.
pub struct Job {
    pub cause: Cause,
    /// The unit that is bad, if one is.
    pub bad: Option<usize>,
    pub units: Vec<Unit>,
    pub plant: Plant,
    pub running: Running,
}

const SETTLE: f64 = 600.0;

/// Makes one system with a cause.
pub fn job(cause: Cause, random: &mut Random) -> Job {
    let count = 8 + random.below(9);
    let calling: Vec<bool> = (0..count).map(|row| row < 5 || random.chance(0.6)).collect();
    let resolution = random.of(&[0.1, 0.5, 1.0]);
    let target = 273.15 + random.between(5.0, 11.0);
    let shortage = if cause == Cause::LowCharge { random.between(0.02, 0.4) } else { 0.0 };
    // Bubbles before the valves: as much less flow as the mixture is lighter than liquid (870 and 90 kg/m3 near 43 °C).
    let supply = 1.0 / (1.0 + 8.7 * 1.2 * f64::max(0.0, shortage - 0.1)).sqrt();
    let evaporating = target + random.between(-0.6, 0.6) - 8.0 * (1.0 - supply) * random.between(0.7, 1.3);
    let coils: Vec<Coil> = (0..count).map(|_| Coil::new(random)).collect();
    let sensors: Vec<Sensors> = (0..count).map(|_| Sensors::new(random, resolution)).collect();
    let places: Vec<Place> = (0..count)
        .map(|row| Place {
            room: 273.15 + random.between(22.5, 27.5),
            evaporating: evaporating + random.between(0.0, 2.0),
            // The farthest feel a lack of liquid first.
            supply: (supply * (1.0 - 0.3 * (1.0 - supply) * row as f64 / count as f64)).max(0.05),
            air: if calling[row] { 1.0 } else { random.between(0.03, 0.08) },
        })
        .collect();
    let first_idle = calling.iter().position(|calling| !calling);
    let bad = match cause {
        Cause::LeakingIdle => first_idle,
        Cause::Nothing | Cause::LowCharge | Cause::Gas | Cause::Overfilled | Cause::OutdoorAir => None,
        _ => Some(random.below(5)),
    };
    let fault = fault(cause, random);
    let mut found: Vec<(State, Readings)> = (0..count)
        .map(|row| {
            let fault = if bad == Some(row) { fault } else { Fault::None };
            if calling[row] {
                coils[row].controlled(&places[row], &sensors[row], fault, random)
            } else {
                coils[row].at(0.0, &places[row], &sensors[row], fault)
            }
        })
        .collect();
    cross(cause, bad, &calling, &coils, &sensors, &places, &mut found, random);
    let units = found
        .iter()
        .zip(&calling)
        .map(|((_, read), calling)| Unit {
            calling: *calling,
            opening: Some(Ratio::new::<ratio>(read.opening)),
            since_change: Some(Time::new::<seconds>(if random.chance(0.05) { 200.0 } else { 2.0 * SETTLE })),
            liquid: Some(at(read.liquid)),
            gas: Some(at(read.gas)),
            air_in: Some(at(read.air_in)),
            air_out: random.chance(0.95).then_some(at(read.air_out)),
            ..Unit::default()
        })
        .collect::<Vec<_>>();
    let states: Vec<State> = found.iter().map(|(state, _)| *state).collect();
    let running = outdoor(cause, shortage, evaporating, target, &states, &units, random);
    let pipes = TemperatureInterval::new::<kelvin_apart>(if resolution > 0.6 { 1.4 } else { 1.0 });
    let plant = Plant {
        mode: Mode::Cooling,
        system: System::First,
        saturation: running.evaporating,
        glide: TemperatureInterval::default(),
        mapped: false,
        pipes,
        air: pipes,
        settle: Time::new::<seconds>(SETTLE),
    };
    Job { cause, bad, units, plant, running }
}

fn fault(cause: Cause, random: &mut Random) -> Fault {
    match cause {
        Cause::Shut => Fault::Passes(random.between(0.0, 0.02)),
        Cause::Restricted => Fault::Passes(random.between(0.04, 0.4)),
        Cause::Passing => Fault::Floor(random.between(1.0, 2.5)),
        Cause::LeakingIdle => Fault::Floor(random.between(0.02, 0.3)),
        Cause::GasSensorOff => Fault::GasOff(random.between(0.3, 1.0)),
        Cause::LiquidSensorOff => Fault::LiquidOff(random.between(0.3, 1.0)),
        Cause::Swapped => Fault::Swapped,
        Cause::LittleAir => Fault::LittleAir(random.between(0.1, 0.6)),
        Cause::SensorDrift => {
            let mut offsets = [0.0; 4];
            offsets[random.below(4)] = random.between(2.0, 8.0) * random.of(&[-1.0, 1.0]);
            Fault::Drift(offsets)
        }
        _ => Fault::None,
    }
}

/// Exchanges sensors or valves of the bad unit with another.
#[allow(clippy::too_many_arguments)]
fn cross(
    cause: Cause,
    bad: Option<usize>,
    calling: &[bool],
    coils: &[Coil],
    sensors: &[Sensors],
    places: &[Place],
    found: &mut [(State, Readings)],
    random: &mut Random,
) {
    let Some(a) = bad.filter(|_| matches!(cause, Cause::CrossedSensors | Cause::CrossedValves)) else { return };
    let b = (a + 1 + random.below(calling.len() - 1)) % calling.len();
    // Each controller turns by its own readings; some rounds bring both to rest or to their ends.
    let mut openings = [found[a].1.opening, found[b].1.opening];
    let mut at = [found[a], found[b]];
    for _ in 0..60 {
        for (row, unit) in [a, b].into_iter().enumerate() {
            let valve = if cause == Cause::CrossedValves { 1 - row } else { row };
            at[row] = coils[unit].at(openings[valve], &places[unit], &sensors[unit], Fault::None);
        }
        if cause == Cause::CrossedSensors {
            let pipes = |read: &Readings| (read.liquid, read.gas);
            let (first, second) = (pipes(&at[0].1), pipes(&at[1].1));
            (at[0].1.liquid, at[0].1.gas) = second;
            (at[1].1.liquid, at[1].1.gas) = first;
        }
        for (row, unit) in [a, b].into_iter().enumerate() {
            at[row].1.opening = openings[row];
            if calling[unit] {
                let over = at[row].1.gas - at[row].1.liquid - 5.0;
                openings[row] = (openings[row] * (1.0 + 0.03 * over.clamp(-8.0, 8.0))).clamp(0.05, 1.0);
            }
        }
    }
    found[a] = at[0];
    found[b] = at[1];
}

/// The outdoor unit: condenser, compressor and what its sensors make of them; R-32.
fn outdoor(
    cause: Cause,
    shortage: f64,
    evaporating: f64,
    target: f64,
    states: &[State],
    units: &[Unit],
    random: &mut Random,
) -> Running {
    let ambient = 273.15 + random.between(24.0, 38.0);
    let approach = random.between(8.0, 13.0);
    let subcooling = random.between(4.0, 8.0);
    let air = if cause == Cause::OutdoorAir { random.between(0.3, 0.7) } else { 1.0 };
    let over = if cause == Cause::Overfilled { random.between(0.05, 0.45) } else { 0.0 };
    let bars = if cause == Cause::Gas { random.between(0.3, 4.0) } else { 0.0 };
    // Liquid standing in the coil takes its surface; gas blankets it.
    let truly = ambient + approach / air / (1.0 - over) * (1.0 + 0.05 * bars);
    let left = (subcooling * (1.0 - shortage / 0.12)).max(0.0) + 25.0 * over;
    let liquid_line = truly - left.min(0.75 * (truly - ambient));
    // Partial pressure of the gas, some 1 bar a kelvin for R-32 near 45 °C.
    let condensing = truly + bars / 0.66;
    let discharge = discharge(evaporating, condensing, states, random);
    let error = |random: &mut Random, most: f64| random.between(-most, most);
    let wanting: Vec<bool> = units
        .iter()
        .filter(|unit| unit.calling && unit.since_change.is_some_and(|since| since.value >= SETTLE))
        .map(|unit| {
            let superheat = unit.gas.zip(unit.liquid).map_or(0.0, |(gas, liquid)| gas.value - liquid.value);
            unit.opening.is_some_and(|opening| opening.value >= 0.85) || superheat > 11.0
        })
        .collect();
    let share = wanting.iter().filter(|wants| **wants).count() as f64 / wanting.len().max(1) as f64;
    let hot = condensing - ambient > 15.0;
    // Whoever sees a hot condenser may take the gauge and make the rest test, or not.
    let checked = random.chance(if hot { 0.6 } else { 0.3 });
    let rest = match bars / 0.66 + error(random, 0.7) {
        _ if !checked || random.chance(0.2) => Rest::Unknown,
        excess if excess > 2.0 => Rest::Gas,
        excess if excess < 1.0 => Rest::None,
        _ => Rest::Unknown,
    };
    // A gauge of one's own leaves less of a transducer's error.
    let transducer = if checked { 0.4 } else { 0.8 };
    let drifted = if !checked && random.chance(0.05) { random.between(-6.0, 6.0) } else { 0.0 };
    let (least, most) = expected(evaporating, condensing);
    Running {
        evaporating: at(evaporating + error(random, 0.7)),
        target_evaporating: Some(at(target)),
        condensing: at(condensing + error(random, transducer) + drifted),
        ambient: at(ambient + error(random, 0.7) + if random.chance(0.05) { random.between(-5.0, 5.0) } else { 0.0 }),
        ambient_by_hand: random.chance(0.3),
        liquid_line: at(liquid_line + error(random, 0.5) - 0.02 * (liquid_line - ambient)),
        discharge: Discharge {
            read: Some(at(discharge + error(random, 1.0))),
            least: Some(at(least)),
            most: Some(at(most)),
        },
        wanting: (wanting.len() >= 3).then_some(Ratio::new::<ratio>(share)),
        pressures_checked: checked,
        rest,
    }
}

fn r32() -> Refrigerant {
    Refrigerant::find("R-32").unwrap()
}

fn at(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<kelvin>(value)
}

/// Discharge temperature for an enthalpy drawn, J/kg, by the equation of state.
fn compressed(evaporating: f64, condensing: f64, extra: f64, efficiency: f64) -> f64 {
    let r = r32();
    let (low, high) = (r.dew_pressure(at(evaporating)).unwrap(), r.bubble_pressure(at(condensing)).unwrap());
    let drawn =
        r.saturated_vapor_at_pressure(low).unwrap().enthalpy + AvailableEnergy::new::<joule_per_kilogram>(extra);
    let entropy = r.state_with_enthalpy(low, drawn).unwrap().entropy;
    let ideal = r.state_with_entropy(high, entropy).unwrap().enthalpy;
    r.state_with_enthalpy(high, drawn + (ideal - drawn) / efficiency).unwrap().temperature.value
}

/// J/(kg·K) of R-32 vapour near 8 °C and 1 MPa; J/kg of its evaporation: CoolProp 8.0.0.
const HEAT: f64 = 1_300.0;
const EVAPORATION: f64 = 300_000.0;

fn discharge(evaporating: f64, condensing: f64, states: &[State], random: &mut Random) -> f64 {
    let flow: f64 = states.iter().map(|state| state.flow).sum::<f64>().max(1e-3);
    let extra: f64 =
        states.iter().map(|state| state.flow * HEAT * state.superheat - EVAPORATION * state.wet).sum::<f64>() / flow;
    let efficiency = random.between(0.61, 0.79);
    // The shell gives heat off, and the sensor sits on the pipe.
    let hot = compressed(evaporating, condensing, extra.max(-0.25 * EVAPORATION), efficiency);
    hot - random.between(0.0, 0.04) * (hot - evaporating)
}

fn expected(evaporating: f64, condensing: f64) -> (f64, f64) {
    (compressed(evaporating, condensing, 0.0, 0.8), compressed(evaporating, condensing, HEAT * 5.0, 0.6))
}
