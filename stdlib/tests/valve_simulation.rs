//! How often `system_reading` and `valve_reading` are wrong, counted on systems made by a physical model of coils,
//! controllers, condenser, compressor and sensors with their errors; one fault a system.
//!
//! `WRITE_SIMULATION=1` writes the tables into `stdlib/SIMULATIONS.md`; without it the test holds that file to what comes
//! out.

#![allow(clippy::unwrap_used, clippy::panic)]

mod simulation;

use dewline_stdlib::verification::system::{self, cooling};
use dewline_stdlib::verification::valve::{Limits, Mode, System, Verdict, judge};
use simulation::plant::{Cause, Job, job};
use simulation::random::Random;
use simulation::table::Counts;

/// Systems of each cause.
const RUNS: u64 = 300;

/// What came of one system.
struct Outcome {
    system: system::Verdict,
    verdicts: Vec<Verdict>,
}

fn read(job: &Job) -> Outcome {
    let (system, _) = cooling::judge(&job.running, true, &cooling::BOUNDS);
    let mut plant = job.plant;
    plant.system = match system {
        system::Verdict::Healthy => System::Healthy,
        system::Verdict::SuctionSide => System::SuctionSide,
        _ => System::First,
    };
    Outcome {
        system,
        verdicts: judge(&job.units, &plant, &Limits::usual(Mode::Cooling)).into_iter().map(|one| one.verdict).collect(),
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

/// Whether a name is right for a system.
fn right_system(cause: Cause, verdict: system::Verdict) -> bool {
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

#[test]
fn valves_are_named_wrongly_in_fewer_than_two_of_a_hundred() {
    let (mut of_units, mut of_systems) = (Counts::default(), Counts::default());
    let (mut elsewhere, mut wrong_elsewhere) = (0, 0);
    let (mut of_valves, mut wrong_valve, mut named) = (0, 0, 0);
    let mut wrong_system = 0;
    let mut all = 0;
    for (row, cause) in Cause::ALL.into_iter().enumerate() {
        for seed in 0..RUNS {
            let mut random = Random::new(1_000_003 * row as u64 + seed);
            let job = job(cause, &mut random);
            let found = read(&job);
            let name = format!("{cause:?}");
            all += 1;
            wrong_system += usize::from(!right_system(cause, found.system));
            of_systems.add(&name, found.system.name());
            let wrong =
                found.verdicts.iter().enumerate().any(|(unit, verdict)| !right(cause, job.bad == Some(unit), *verdict));
            let answer = match job.bad.and_then(|unit| found.verdicts.get(unit)) {
                _ if wrong => "**wrong valve**".to_string(),
                Some(verdict) => verdict.name(),
                None => "no valve named".to_string(),
            };
            of_units.add(&name, &answer);
            if matches!(cause, Cause::Shut | Cause::Restricted | Cause::Passing | Cause::LeakingIdle) {
                of_valves += 1;
                wrong_valve += usize::from(wrong);
                named += usize::from(!wrong && job.bad.is_some_and(|unit| found.verdicts[unit].names_valve()));
            } else {
                elsewhere += 1;
                wrong_elsewhere += usize::from(wrong);
            }
        }
    }
    let share = |part: usize, whole: usize| 100.0 * part as f64 / whole as f64;
    let text = format!(
        "{}\n{}\nA valve named although the fault is elsewhere: {:.2} % of {elsewhere} systems. A wrong valve, or a wrong \
         fault of it: {:.2} % of {of_valves}. The right one named: {:.1} %. A system named wrongly: {:.2} % of {all}.\n",
        of_units.markdown("fault"),
        of_systems.markdown("fault"),
        share(wrong_elsewhere, elsewhere),
        share(wrong_valve, of_valves),
        share(named, of_valves),
        share(wrong_system, all),
    );
    println!("{text}");
    assert!(share(wrong_elsewhere, elsewhere) < 2.0, "{text}");
    assert!(share(wrong_valve, of_valves) < 2.0, "{text}");
    assert!(share(wrong_system, all) < 2.0, "{text}");
    simulation::table::kept("valves and systems", &text);
}
