//! How often `standing_test` is wrong, counted on synthetic logs with the noise, resolution and lag of real gauges and
//! thermometers. See `SIMULATIONS.md`.

#![allow(clippy::unwrap_used, clippy::panic)]

mod simulation;

use std::collections::BTreeMap;

use dewline_stdlib::nitrogen::standing::{Bounds, Reading, Standing, Verdict, judge};
use dewline_stdlib::refrigerant::Gas;
use simulation::random::Random;
use simulation::stand::{Cause, Log, log};
use simulation::table::Counts;
use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::pressure::bar;
use uom::si::thermodynamic_temperature::degree_celsius;

const BAR: f64 = 1e5;
const HOUR: f64 = 3_600.0;
/// Logs of each cause: 8 causes make 1,200.
const RUNS: u64 = 150;

fn judged(log: &Log) -> Standing {
    let readings: Vec<Reading> = log
        .readings
        .iter()
        .map(|(hour, p, t)| Reading {
            time: hour * HOUR,
            pressure: Pressure::new::<bar>(*p),
            temperature: ThermodynamicTemperature::new::<degree_celsius>(*t),
            others: [None; 2],
        })
        .collect();
    let bounds = Bounds {
        limit: log.limit * BAR,
        pressure: log.pressure * BAR,
        temperature: log.temperature,
        settle: 0.5 * HOUR,
        shares: [0.0; 2],
    };
    judge(Gas::Nitrogen, &readings, &bounds).unwrap()
}

/// Whether a verdict may stand for a cause; of those that name none, nothing.
fn may_be(verdict: Verdict, cause: Cause) -> Option<bool> {
    use Cause as C;
    Some(match verdict {
        Verdict::Holds | Verdict::Indistinguishable | Verdict::Settling => return None,
        Verdict::Loses => matches!(cause, C::Leak | C::SunAndLeak | C::EveningOut),
        Verdict::Gains => cause == C::Feeding || cause == C::Sun || cause == C::SunAndLeak,
        Verdict::EveningOut => cause == C::EveningOut,
        // It says: heat of filling, or a small part not filled.
        Verdict::AfterFill => matches!(cause, C::FillHeat | C::EveningOut),
        Verdict::TemperatureNotSeen => matches!(cause, C::Sun | C::SunAndLeak),
        Verdict::DoesNotFollow => cause == C::ShutGauge,
    })
}

#[test]
fn no_holds_hides_a_leak_above_what_it_says() {
    let mut counts = Counts::default();
    let mut of: BTreeMap<&'static str, (usize, usize)> = BTreeMap::new();
    let (mut holds, mut hidden, mut wrong_holds) = (0, 0, 0);
    for (row, cause) in Cause::ALL.into_iter().enumerate() {
        for seed in 0..RUNS {
            let mut random = Random::new(3_000_017 * row as u64 + seed);
            let log = log(cause, &mut random);
            let found = judged(&log);
            let strength = match log.strength {
                s if s < 1.0 => "below 1",
                s if s < 5.0 => "1 to 5",
                _ => "5 and more",
            };
            counts.add(&format!("{cause:?}, change {strength} × U"), found.verdict.name());
            if let Some(right) = may_be(found.verdict, cause) {
                let entry = of.entry(found.verdict.name()).or_default();
                entry.0 += 1;
                entry.1 += usize::from(right);
            }
            if found.verdict == Verdict::Holds {
                holds += 1;
                hidden += usize::from(log.lost * BAR > found.surely_seen);
                wrong_holds += usize::from(matches!(cause, Cause::Feeding | Cause::ShutGauge) && log.strength > 5.0);
            }
        }
    }
    let mut text = counts.markdown("cause");
    text.push_str("\n| verdict | given | right, % |\n| --- | ---: | ---: |\n");
    for (verdict, (given, right)) in &of {
        text.push_str(&format!("| {verdict} | {given} | {:.1} |\n", 100.0 * *right as f64 / *given as f64));
    }
    text.push_str(&format!(
        "\n*Holds* with a leak above what it says it would have missed: {hidden} of {holds}; with a strong feed or a shut \
         gauge: {wrong_holds}.\n"
    ));
    println!("{text}");
    for (verdict, (given, right)) in &of {
        assert!(*right as f64 >= 0.95 * *given as f64, "{verdict}: {right} of {given}\n{text}");
    }
    assert_eq!(hidden, 0, "{text}");
    simulation::table::kept("standing tests", &text);
}
