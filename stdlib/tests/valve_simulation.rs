//! How often `system_reading`, `system_reading_heating` and `valve_reading` are wrong, counted on systems made by a physical
//! model of coils, controllers, compressor and sensors with their errors; one fault a system.
//!
//! `WRITE_SIMULATION=1` writes the tables into `stdlib/SIMULATIONS.md`; without it the test holds that file to what comes
//! out.

#![allow(clippy::unwrap_used, clippy::panic)]

mod simulation;

use std::fmt::Write;

use dewline_stdlib::verification::system::{self, cooling, heating};
use dewline_stdlib::verification::valve::{Limits, Plant, System, Unit, Verdict, judge};
use simulation::cause::Cause;
use simulation::random::Random;
use simulation::table::Counts;
use simulation::{cooling_plant, heating_plant};

/// Systems of each cause.
const RUNS: u64 = 300;

/// A system as it was judged.
struct Outcome {
    bad: Option<usize>,
    strength: f64,
    system: system::Verdict,
    verdicts: Vec<Verdict>,
}

impl Outcome {
    fn new(bad: Option<usize>, strength: f64, system: system::Verdict, units: &[Unit], plant: Plant) -> Outcome {
        let before = match system {
            system::Verdict::Healthy => System::Healthy,
            system::Verdict::SuctionSide => System::SuctionSide,
            _ => System::First,
        };
        let plant = Plant { system: before, ..plant };
        let verdicts = judge(units, &plant, &Limits::usual(plant.mode)).into_iter().map(|one| one.verdict).collect();
        Outcome { bad, strength, system, verdicts }
    }

    /// Whether a valve is named that has nothing, or not what is said.
    fn is_wrong(&self, cause: Cause) -> bool {
        self.verdicts.iter().enumerate().any(|(unit, verdict)| !right(cause, self.bad == Some(unit), *verdict))
    }

    fn of_bad(&self) -> Option<Verdict> {
        self.bad.and_then(|unit| self.verdicts.get(unit)).copied()
    }
}

/// Whether a name is right for a unit.
fn right(cause: Cause, bad: bool, verdict: Verdict) -> bool {
    match verdict {
        Verdict::NoFlow | Verdict::Starving => bad && matches!(cause, Cause::Shut | Cause::Restricted),
        Verdict::Passing => bad && cause == Cause::Passing,
        Verdict::LeaksIdle => bad && cause == Cause::LeakingIdle,
        _ => true,
    }
}

/// Whether a name is right for a system in cooling.
fn right_in_cooling(cause: Cause, verdict: system::Verdict) -> bool {
    use system::Verdict as V;
    match verdict {
        V::Short => cause == Cause::LowCharge,
        V::Overfilled => cause == Cause::Overfilled,
        V::Gas => cause == Cause::Gas,
        V::OutdoorAirflow => cause == Cause::OutdoorAir,
        // Liquid that returns comes from a coil that is flooded, whatever floods it.
        V::SuctionSide => !matches!(cause, Cause::Gas | Cause::Overfilled | Cause::OutdoorAir | Cause::Nothing),
        _ => true,
    }
}

/// The same in heating, where only the outdoor coil evaporates.
fn right_in_heating(cause: Cause, verdict: system::Verdict) -> bool {
    use system::Verdict as V;
    match verdict {
        V::Short => cause == Cause::LowCharge,
        V::HeldBack => cause == Cause::HeldBack,
        V::Overfilled => cause == Cause::Overfilled,
        V::Gas => cause == Cause::Gas,
        V::OutdoorAirflow => cause == Cause::OutdoorAir,
        V::SuctionSide => cause == Cause::OutdoorPassing,
        _ => true,
    }
}

#[test]
fn valves_are_named_wrongly_in_fewer_than_two_of_a_hundred_in_cooling() {
    let made = |cause, random: &Random| {
        let job = cooling_plant::job(cause, random);
        let (system, _) = cooling::judge(&job.running, true, &cooling::BOUNDS);
        Outcome::new(job.bad, job.strength, system, &job.units, job.plant)
    };
    held("valves and systems in cooling", &Cause::IN_COOLING, made, right_in_cooling);
}

#[test]
fn valves_are_named_wrongly_in_fewer_than_two_of_a_hundred_in_heating() {
    let made = |cause, random: &Random| {
        let job = heating_plant::job(cause, random);
        let (system, _) = heating::judge(&job.running, true, &heating::BOUNDS);
        Outcome::new(job.bad, job.strength, system, &job.units, job.plant)
    };
    held("valves and systems in heating", &Cause::IN_HEATING, made, right_in_heating);
}

/// A cause and how far it moves any reading of the bad unit, or of the system, over the uncertainty.
fn strength(cause: Cause, strength: f64) -> String {
    match (cause, strength) {
        (Cause::Nothing, _) => "Nothing".to_string(),
        (_, s) if s < 3.0 => format!("{cause:?}, below 3 × U"),
        (_, s) if s < 10.0 => format!("{cause:?}, 3 to 10 × U"),
        _ => format!("{cause:?}, 10 and more × U"),
    }
}

/// Counts answers and holds the shares of wrong ones, and the section of the tables.
fn held(
    section: &str,
    causes: &[Cause],
    made: impl Fn(Cause, &Random) -> Outcome,
    right_system: impl Fn(Cause, system::Verdict) -> bool,
) {
    let (mut of_units, mut of_systems) = (Counts::default(), Counts::default());
    let (mut elsewhere, mut wrong_elsewhere) = (0, 0);
    let (mut of_valves, mut wrong_valve, mut named) = (0, 0, 0);
    let (mut all, mut wrong_system) = (0, 0);
    for (row, cause) in causes.iter().copied().enumerate() {
        let random = |seed| Random::new(1_000_003 * row as u64 + seed);
        let mut outcomes: Vec<Outcome> = (0..RUNS).map(|seed| made(cause, &random(seed))).collect();
        outcomes.sort_by(|a, b| a.strength.total_cmp(&b.strength));
        for found in outcomes {
            let name = strength(cause, found.strength);
            let wrong = found.is_wrong(cause);
            all += 1;
            wrong_system += usize::from(!right_system(cause, found.system));
            of_systems.add(&name, found.system.name());
            let answer = match found.of_bad() {
                _ if wrong => "**wrong valve**".to_string(),
                Some(verdict) => verdict.name().to_string(),
                None => "no valve named".to_string(),
            };
            of_units.add(&name, &answer);
            if cause.is_of_valve() {
                of_valves += 1;
                wrong_valve += usize::from(wrong);
                named += usize::from(!wrong && found.of_bad().is_some_and(Verdict::names_valve));
            } else {
                elsewhere += 1;
                wrong_elsewhere += usize::from(wrong);
            }
        }
    }
    let share = |part: usize, whole: usize| 100.0 * part as f64 / whole as f64;
    let mut text = format!("{}\n{}\n", of_units.markdown("fault"), of_systems.markdown("fault"));
    let _ = writeln!(
        text,
        "A valve named although the fault is elsewhere: {:.2} % of {elsewhere} systems. A wrong valve, or a wrong fault of \
         it: {:.2} % of {of_valves}. The right one named: {:.1} %. A system named wrongly: {:.2} % of {all}.",
        share(wrong_elsewhere, elsewhere),
        share(wrong_valve, of_valves),
        share(named, of_valves),
        share(wrong_system, all),
    );
    println!("{text}");
    assert!(share(wrong_elsewhere, elsewhere) < 2.0, "{text}");
    assert!(share(wrong_valve, of_valves) < 2.0, "{text}");
    assert!(share(wrong_system, all) < 2.0, "{text}");
    simulation::table::kept(section, &text);
}
