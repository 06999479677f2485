//! A system in cooling with its coils: what is wrong with it, what its outdoor unit shows, what its units show.

use dewline_stdlib::verification::system::Rest;
use dewline_stdlib::verification::system::cooling::Running;
use dewline_stdlib::verification::valve::{Mode, Plant, Unit};
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

use super::cause::Cause;
use super::compressor::{EVAPORATION, HEAT, at, compressed, discharge};
use super::control::{Exchanged, crossed};
use super::cooling_coil::{Coil, Place, State};
use super::job::{counts, moved, of_unit, plant, unit};
use super::random::Random;
use super::sensors::{Fault, Readings, Sensors};

/// A simulated system as its readings show it.
pub struct Job {
    /// The unit that is bad, if one is.
    pub bad: Option<usize>,
    pub units: Vec<Unit>,
    pub plant: Plant,
    pub running: Running,
    /// How far the fault moves any reading, over the uncertainty.
    pub strength: f64,
}

/// Makes one system with a cause, and measures it against itself without.
pub fn job(cause: Cause, random: &Random) -> Job {
    let ill = made(cause, 1.0, &mut random.clone());
    let well = made(cause, 0.0, &mut random.clone());
    let outdoor = |job: &Job| {
        let running = &job.running;
        [Some(running.evaporating), Some(running.condensing), Some(running.liquid_line), running.discharge.read]
    };
    let by = match ill.bad {
        Some(bad) => moved(&of_unit(&ill.units[bad]), &of_unit(&well.units[bad])),
        None => moved(&outdoor(&ill), &outdoor(&well)),
    };
    Job { strength: by / ill.plant.pipes.value, ..ill }
}

/// Makes one; `share` of what is wrong is there, all or nothing, from the same draws.
fn made(cause: Cause, share: f64, random: &mut Random) -> Job {
    let count = 8 + random.below(9);
    let calling: Vec<bool> = (0..count).map(|row| row < 5 || random.chance(0.6)).collect();
    let resolution = random.of(&[0.1, 0.5, 1.0]);
    let target = 273.15 + random.between(5.0, 11.0);
    let shortage = if cause == Cause::LowCharge { share * random.between(0.02, 0.4) } else { 0.0 };
    // Bubbles before the valves: as much less flow as the mixture is lighter than liquid (870 and 90 kg/m3 near 43 °C).
    let supply = 1.0 / (1.0 + 8.7 * 1.2 * f64::max(0.0, shortage - 0.1)).sqrt();
    let evaporating = target + random.between(-0.6, 0.6) - 8.0 * (1.0 - supply) * random.between(0.7, 1.3);
    let coils: Vec<Coil> = (0..count).map(|_| Coil::new(random)).collect();
    let sensors: Vec<Sensors> = (0..count).map(|_| Sensors::new(random, resolution)).collect();
    let places: Vec<Place> = (0..count)
        .map(|row| {
            let resting = random.between(0.03, 0.08);
            Place {
                room: 273.15 + random.between(22.5, 27.5),
                evaporating: evaporating + random.between(0.0, 2.0),
                // The farthest feel a lack of liquid first.
                supply: (supply * (1.0 - 0.3 * (1.0 - supply) * row as f64 / count as f64)).max(0.05),
                air: if calling[row] { 1.0 } else { resting },
            }
        })
        .collect();
    let bad = cause.bad(&calling, random);
    let drawn = cause.fault(random);
    let other = random.below(count - 1);
    let fault = |row: usize| if bad == Some(row) && share > 0.0 { drawn } else { Fault::None };
    let mut found: Vec<(State, Readings)> = (0..count)
        .map(|row| {
            if calling[row] {
                coils[row].controlled(&places[row], &sensors[row], fault(row), random)
            } else {
                coils[row].at(0.0, &places[row], &sensors[row], fault(row))
            }
        })
        .collect();
    let exchanged = match cause {
        Cause::CrossedSensors => Some(Exchanged::Sensors),
        Cause::CrossedValves => Some(Exchanged::Valves),
        _ => None,
    };
    if let (Some(exchanged), Some(a)) = (exchanged.filter(|_| share > 0.0), bad) {
        let pair = [a, (a + 1 + other) % count];
        let at = |row: usize, opening: f64| {
            let unit = pair[row];
            coils[unit].at(opening, &places[unit], &sensors[unit], Fault::None)
        };
        let begin = pair.map(|unit| found[unit].1.opening);
        let met = crossed(exchanged, pair.map(|unit| calling[unit]), begin, at, |_, read| read.gas - read.liquid - 5.0);
        for (unit, met) in pair.into_iter().zip(met) {
            found[unit] = met;
        }
    }
    let units: Vec<Unit> =
        found.iter().zip(&calling).map(|((_, read), calling)| unit(*calling, read, random)).collect();
    let states: Vec<State> = found.iter().map(|(state, _)| *state).collect();
    let running = outdoor(cause, share, shortage, evaporating, target, &states, &units, random);
    // A map of responses finds what is crossed.
    let mapped = random.chance(0.5) && exchanged.is_none();
    let plant = Plant { mapped, ..plant(Mode::Cooling, running.evaporating, resolution) };
    Job { bad, units, plant, running, strength: 0.0 }
}

/// The outdoor unit: condenser, compressor and what its sensors make of them; R-32.
#[allow(clippy::too_many_arguments)]
fn outdoor(
    cause: Cause,
    share: f64,
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
    let lost_air = if cause == Cause::OutdoorAir { share * random.between(0.3, 0.7) } else { 0.0 };
    let over = if cause == Cause::Overfilled { share * random.between(0.05, 0.45) } else { 0.0 };
    let bars = if cause == Cause::Gas { share * random.between(0.3, 4.0) } else { 0.0 };
    // Liquid standing in the coil takes its surface; gas blankets it.
    let truly = ambient + approach / (1.0 - lost_air) / (1.0 - over) * (1.0 + 0.05 * bars);
    let left = (subcooling * (1.0 - shortage / 0.12)).max(0.0) + 25.0 * over;
    let liquid_line = truly - left.min(0.75 * (truly - ambient));
    // Partial pressure of the gas, some 1 bar a kelvin for R-32 near 45 °C.
    // A switch stops the compressor before the critical point, at 351.3 K.
    let condensing = (truly + bars / 0.66).min(350.0);
    let hot_gas = true_discharge(evaporating, condensing, states, random);
    let wanting: Vec<bool> = units
        .iter()
        .filter(|unit| counts(unit))
        .map(|unit| {
            let superheat = unit.gas.zip(unit.liquid).map_or(0.0, |(gas, liquid)| gas.value - liquid.value);
            unit.opening.is_some_and(|opening| opening.value >= 0.85) || superheat > 11.0
        })
        .collect();
    let part = wanting.iter().filter(|wants| **wants).count() as f64 / wanting.len().max(1) as f64;
    let error = |random: &mut Random, most: f64| random.between(-most, most);
    // Whoever sees a hot condenser may take the gauge and make the rest test, or not.
    let checked = random.between(0.0, 1.0) < if condensing - ambient > 15.0 { 0.6 } else { 0.3 };
    let rest = rest(bars, checked, random);
    let transducer = transducer(checked, random);
    let sunny = random.chance(0.05);
    let sun = random.between(-5.0, 5.0);
    Running {
        evaporating: at(evaporating + error(random, 0.7)),
        target_evaporating: Some(at(target)),
        condensing: at(condensing + transducer),
        ambient: at(ambient + error(random, 0.7) + if sunny { sun } else { 0.0 }),
        ambient_by_hand: random.chance(0.3),
        liquid_line: at(liquid_line + error(random, 0.5) - 0.02 * (liquid_line - ambient)),
        discharge: discharge(evaporating, condensing, hot_gas + error(random, 1.0)),
        wanting: (wanting.len() >= 3).then_some(Ratio::new::<ratio>(part)),
        pressures_checked: checked,
        rest,
    }
}

/// What the rest test says of so many bars of gas.
pub fn rest(bars: f64, made: bool, random: &mut Random) -> Rest {
    let (seen, left_out) = (bars / 0.66 + random.between(-0.7, 0.7), random.chance(0.2));
    match seen {
        _ if !made || left_out => Rest::Unknown,
        excess if excess > 2.0 => Rest::Gas,
        excess if excess < 1.0 => Rest::None,
        _ => Rest::Unknown,
    }
}

/// The error of the discharge pressure, K: a gauge of one's own leaves less of it; one transducer in twenty is far off.
pub fn transducer(checked: bool, random: &mut Random) -> f64 {
    let (near, drifts, far) = (random.between(-1.0, 1.0), random.chance(0.05), random.between(-6.0, 6.0));
    if checked { 0.4 * near } else { 0.8 * near + if drifts { far } else { 0.0 } }
}

fn true_discharge(evaporating: f64, condensing: f64, states: &[State], random: &mut Random) -> f64 {
    let flow: f64 = states.iter().map(|state| state.flow).sum::<f64>().max(1e-3);
    let extra: f64 =
        states.iter().map(|state| state.flow * HEAT * state.superheat - EVAPORATION * state.wet).sum::<f64>() / flow;
    let efficiency = random.between(0.61, 0.79);
    // The shell gives heat off, and the sensor sits on the pipe.
    let hot = compressed(evaporating, condensing, extra.max(-0.25 * EVAPORATION), efficiency);
    hot - random.between(0.0, 0.04) * (hot - evaporating)
}
