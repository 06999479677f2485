//! A system in heating with its coils: what is wrong with it, what its outdoor unit shows, what its units show.
//!
//! The compressor holds the condensing temperature *by its own transducer* at its target, and each unit holds its subcooling
//! by the same: so gas and a transducer that drifts hide behind them. A want of liquid shows outdoors first.

use dewline_stdlib::verification::system::heating::Running;
use dewline_stdlib::verification::valve::{Mode, Plant, Unit};
use uom::si::f64::{Ratio, TemperatureInterval};
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin;

use super::cause::Cause;
use super::compressor::{EVAPORATION, HEAT, at, compressed, discharge};
use super::control::{Exchanged, crossed};
use super::cooling_plant::{rest, transducer};
use super::heating_coil::{Coil, Place, State};
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
    let all = |job: &Job| {
        let running = &job.running;
        let outdoor =
            [Some(running.evaporating), Some(running.condensing), running.suction_line, running.discharge.read];
        outdoor.into_iter().chain(job.units.iter().map(|unit| unit.liquid)).collect::<Vec<_>>()
    };
    let by = match ill.bad {
        Some(bad) => moved(&of_unit(&ill.units[bad]), &of_unit(&well.units[bad])),
        None => moved(&all(&ill), &all(&well)),
    };
    Job { strength: by / ill.plant.pipes.value, ..ill }
}

/// The outdoor side: what is true and what is seen of it.
struct Outdoor {
    ambient: f64,
    evaporating: f64,
    /// Of the vapour that the compressor draws, K.
    superheat: f64,
    opening: f64,
    /// By the pressure, and at the coils: gas makes the difference.
    by_pressure: f64,
    condensing: f64,
    /// By the transducer.
    seen_condensing: f64,
    target: f64,
    discharge: f64,
    bars: f64,
    checked: bool,
}

/// How much is wrong with the circuit.
struct Ills {
    /// Share of the charge that is lacking.
    shortage: f64,
    /// Share of the flow that the outdoor valve holds back.
    held: f64,
    /// Share of the coils in which surplus liquid stands.
    over: f64,
    /// Gas, bar.
    bars: f64,
    /// Share of the outdoor airflow that is lost.
    lost_air: f64,
    /// Share of the flow that comes back as liquid.
    wet: f64,
}

impl Ills {
    fn of(cause: Cause, share: f64, random: &mut Random) -> Ills {
        let drawn = random.between(0.0, 1.0);
        let of = |one: Cause, low: f64, high: f64| {
            if cause == one { share * (low + (high - low) * drawn) } else { 0.0 }
        };
        Ills {
            shortage: of(Cause::LowCharge, 0.02, 0.4),
            held: of(Cause::HeldBack, 0.1, 0.9),
            over: of(Cause::Overfilled, 0.1, 0.7),
            bars: of(Cause::Gas, 0.3, 4.0),
            lost_air: of(Cause::OutdoorAir, 0.2, 0.7),
            wet: of(Cause::OutdoorPassing, 0.03, 0.25),
        }
    }
}

/// Makes one; `share` of what is wrong is there, all or nothing, from the same draws.
fn made(cause: Cause, share: f64, random: &mut Random) -> Job {
    let count = 8 + random.below(9);
    let calling: Vec<bool> = (0..count).map(|row| row < 5 || random.chance(0.6)).collect();
    let resolution = random.of(&[0.1, 0.5, 1.0]);
    let ills = Ills::of(cause, share, random);
    let outdoor = outdoor(&ills, random);
    let coils: Vec<Coil> = (0..count).map(|_| Coil::new(random)).collect();
    let sensors: Vec<Sensors> = (0..count).map(|_| Sensors::new(random, resolution)).collect();
    let emptied = ((ills.shortage - 0.12) / 0.2).clamp(0.0, 1.0);
    let places: Vec<Place> = (0..count)
        .map(|row| {
            let resting = random.between(0.03, 0.08);
            Place {
                room: 273.15 + random.between(18.0, 23.0),
                condensing: outdoor.condensing - random.between(0.0, 1.0),
                seen_condensing: outdoor.seen_condensing,
                hot_gas: outdoor.discharge - random.between(4.0, 15.0),
                supply: 1.0 - 0.9 * ills.held,
                standing: ills.over * random.between(0.6, 1.4),
                // The farthest feel a lack of liquid first.
                emptied: if calling[row] { (emptied * (0.6 + 0.8 * row as f64 / count as f64)).min(1.0) } else { 0.0 },
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
            // Many systems hold the valve of a resting unit a little open on purpose.
            let resting = if random.chance(0.5) && bad != Some(row) { 0.06 } else { 0.0 };
            if calling[row] {
                coils[row].controlled(&places[row], &sensors[row], fault(row), random)
            } else {
                coils[row].at(resting, &places[row], &sensors[row], fault(row))
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
        let over = |row: usize, read: &Readings| coils[pair[row]].over(&places[pair[row]], read);
        let met = crossed(exchanged, pair.map(|unit| calling[unit]), begin, at, over);
        for (unit, met) in pair.into_iter().zip(met) {
            found[unit] = met;
        }
    }
    let units: Vec<Unit> = found
        .iter()
        .zip(&calling)
        .map(|((state, read), calling)| {
            // Somebody looks whether the room of a resting unit gets warmer; the sun may warm it too.
            let (looks, sees, sun) = (random.chance(0.7), random.chance(0.9), random.chance(0.1));
            let rises = if state.heat > 0.3 { sees } else { sun };
            Unit { room_rises: (!calling && looks).then_some(rises), ..unit(*calling, read, random) }
        })
        .collect();
    let running = running(&outdoor, &units, random);
    // A map of responses finds what is crossed.
    let mapped = random.chance(0.5) && exchanged.is_none();
    let plant = Plant { mapped, ..plant(Mode::Heating, running.condensing, resolution) };
    Job { bad, units, plant, running, strength: 0.0 }
}

fn outdoor(ills: &Ills, random: &mut Random) -> Outdoor {
    let ambient = 273.15 + random.between(1.0, 14.0);
    let approach = random.between(6.0, 10.0);
    let wanted = random.between(3.0, 7.0);
    let opening = random.between(0.2, 0.6);
    let target = 273.15 + random.between(40.0, 46.0);
    let checked = random.chance(0.4);
    // What lacks outdoors: the indoor coils keep theirs as long as they can.
    let starved = f64::max(((ills.shortage - 0.05) / 0.25).clamp(0.0, 1.0), ills.held);
    let evaporating = ambient - approach / (1.0 - ills.lost_air) - 6.0 * starved + random.between(-0.6, 0.6);
    let superheat = if ills.wet > 0.0 { 0.0 } else { (wanted + 12.0 * starved).min(ambient - evaporating - 1.0) };
    // Its controller follows the superheat: open where it lacks, shut where liquid comes back.
    let follows = if ills.wet > 0.0 { 0.1 } else { (1.0 + 4.0 * starved) * (1.0 - ills.lost_air) };
    // Without liquid the compressor does not reach its target.
    let seen_condensing = target + random.between(-0.6, 0.6) - 15.0 * f64::max(0.0, ills.shortage - 0.15);
    let by_pressure = seen_condensing - transducer(checked, random);
    let extra = HEAT * superheat - EVAPORATION * ills.wet;
    let hot = compressed(evaporating, by_pressure, extra, random.between(0.61, 0.79));
    Outdoor {
        ambient,
        evaporating,
        superheat,
        opening: (opening * follows).min(1.0),
        by_pressure,
        condensing: by_pressure - ills.bars / 0.66,
        seen_condensing,
        target,
        // The shell gives heat off, and the sensor sits on the pipe.
        discharge: hot - random.between(0.0, 0.04) * (hot - evaporating),
        bars: ills.bars,
        checked,
    }
}

fn running(outdoor: &Outdoor, units: &[Unit], random: &mut Random) -> Running {
    let error = |random: &mut Random, most: f64| random.between(-most, most);
    let sunny = random.chance(0.05);
    let sun = random.between(-5.0, 5.0);
    let subcooling =
        |unit: &Unit| Some(TemperatureInterval::new::<kelvin>(outdoor.seen_condensing - unit.liquid?.value));
    Running {
        evaporating: at(outdoor.evaporating + error(random, 0.7)),
        condensing: at(outdoor.seen_condensing),
        target_condensing: Some(at(outdoor.target)),
        ambient: at(outdoor.ambient + error(random, 0.7) + if sunny { sun } else { 0.0 }),
        ambient_by_hand: random.chance(0.4),
        suction_line: Some(at(outdoor.evaporating + outdoor.superheat + error(random, 0.5))),
        outdoor_opening: random.chance(0.8).then_some(Ratio::new::<ratio>(outdoor.opening)),
        discharge: discharge(outdoor.evaporating, outdoor.by_pressure, outdoor.discharge + error(random, 1.0)),
        subcoolings: units.iter().filter(|unit| counts(unit)).filter_map(subcooling).collect(),
        pressures_checked: outdoor.checked,
        rest: rest(outdoor.bars, outdoor.checked, random),
    }
}
