#![allow(clippy::unwrap_used, clippy::panic)]

use super::{GaugeAt, Hold, Judgement, Reading, TooLittle, Verdict, judge};

const MICRON: f64 = 0.133_322_387_415;
const MINUTE: f64 = 60.0;

fn hold() -> Hold {
    Hold {
        water_at_coldest: 17_546.0 * MICRON,
        water_at_warmest: 23_775.0 * MICRON,
        limit: 500.0 * MICRON,
        gauge_at: GaugeAt::Far,
        equalising: 10.0 * MINUTE,
        longest: 60.0 * MINUTE,
        noise: 3.0 * MICRON,
        earlier: None,
        standing: false,
        all_reached: true,
    }
}

fn judged(series: &[(f64, f64)], hold: &Hold) -> Judgement {
    judge(&readings(series, f64::INFINITY), hold).unwrap()
}

/// Minutes and micron on a gauge of this range.
fn readings(series: &[(f64, f64)], top: f64) -> Vec<Reading> {
    let reading = |(min, micron): &(f64, f64)| Reading {
        time: min * MINUTE,
        pressure: micron.min(top) * MICRON,
        over: *micron >= top,
    };
    series.iter().map(reading).collect()
}

/// One reading a minute with noise of 3 micron from a fixed seed.
fn simulated(minutes: usize, seed: u64, micron: impl Fn(f64) -> f64) -> Vec<(f64, f64)> {
    let mut state = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1;
    let mut uniform = move || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 11) as f64 / (1_u64 << 53) as f64
    };
    (0..=minutes)
        .map(|minute| {
            // Twelve uniform numbers have variance one.
            let noise = (0..12).map(|_| uniform()).sum::<f64>() - 6.0;
            let t = minute as f64;
            (t, micron(t) + 3.0 * noise)
        })
        .collect()
}

fn share(verdict: Verdict, minutes: usize, hold: &Hold, micron: impl Fn(f64) -> f64 + Copy) -> f64 {
    let runs = 100;
    let named = (0..runs).filter(|seed| judged(&simulated(minutes, *seed, micron), hold).verdict == verdict).count();
    named as f64 / runs as f64
}

/// Invented series of a leak, of moisture (plateau 1600 micron, 6 min) and of outgassing (root of time).
#[test]
fn pure_shapes_are_named() {
    let leak = [(0.0, 300.0), (5.0, 400.0), (10.0, 500.0), (15.0, 600.0), (20.0, 700.0), (30.0, 900.0)];
    let found = judged(&leak, &hold());
    assert_eq!(found.verdict, Verdict::Straight, "{found:?}");
    assert!((found.rate / MICRON * MINUTE - 20.0).abs() < 1e-6);

    let moisture = [(0.0, 400.0), (5.0, 1078.5), (10.0, 1373.3), (15.0, 1501.5), (20.0, 1557.2), (30.0, 1591.9)];
    let found = judged(&moisture, &hold());
    assert_eq!(found.verdict, Verdict::LevelsOff, "{found:?}");
    assert!((found.plateau.unwrap() / MICRON - 1600.0).abs() < 5.0);
    assert!((found.settling.unwrap() / MINUTE - 6.0).abs() < 0.3);

    let outgassing = [(0.0, 300.0), (5.0, 434.2), (10.0, 489.7), (15.0, 532.4), (20.0, 568.3), (30.0, 628.6)];
    assert_eq!(judged(&outgassing, &hold()).verdict, Verdict::StillSlowing);
}

#[test]
fn a_dry_riser_levels_off() {
    let riser = [(0.0, 312.0), (5.0, 341.0), (10.0, 352.0), (20.0, 358.0), (30.0, 361.0)];
    let found = judged(&riser, &hold());
    assert_eq!(found.verdict, Verdict::LevelsOff, "{found:?}");
    let at_pump = Hold { gauge_at: GaugeAt::Pump, ..hold() };
    assert_eq!(judged(&riser, &at_pump).verdict, Verdict::EveningOut);
}

#[test]
fn each_fault_of_a_hold_is_named() {
    let minutes = || (0..31).map(f64::from);
    let series = |of: fn(f64) -> f64| -> Vec<(f64, f64)> { minutes().map(|t| (t, of(t))).collect() };
    for (expected, of) in [
        (Verdict::Accelerating, (|t| 300.0 + 0.5 * t * t) as fn(f64) -> f64),
        (Verdict::Falling, |t| 400.0 - 2.0 * t + if t as i64 % 2 == 0 { 1.0 } else { -1.0 }),
        (Verdict::Step, |t| if t < 15.5 { 300.0 + 0.2 * t } else { 900.0 + 0.2 * t }),
        (Verdict::NoMovement, |_| 300.0),
        (Verdict::FreeWater, |t| 17_000.0 - 16_000.0 * (-t / 5.0).exp()),
        (Verdict::LevelsOff, |t| 320.0 + if t as i64 % 2 == 0 { 1.0 } else { -1.0 }),
        (Verdict::Leak, |t| 1_000.0 + 2_000.0 * t),
    ] {
        let found = judged(&series(of), &hold());
        assert_eq!(found.verdict, expected, "{found:?}");
        assert!(!found.why.is_empty() && !found.next.is_empty());
    }
}

/// At −12 °C ice stands at some 1630 micron: a plateau of 400 proves nothing.
#[test]
fn ice_hides_from_a_gauge() {
    let cold = Hold { water_at_coldest: 1_630.0 * MICRON, ..hold() };
    let plateau = [(0.0, 300.0), (5.0, 370.0), (10.0, 390.0), (20.0, 398.0), (30.0, 400.0)];
    let found = judged(&plateau, &cold);
    assert_eq!(found.verdict, Verdict::CannotProveDry, "{found:?}");
}

#[test]
fn two_micron_in_ten_minutes_are_too_short() {
    let series: Vec<(f64, f64)> = (0..11).map(|t| (f64::from(t), 300.0 + 0.2 * f64::from(t))).collect();
    let found = judged(&series, &hold());
    assert_eq!(found.verdict, Verdict::TooShort);
    assert!(found.time_needed.unwrap() >= 30.0 * MINUTE);
    assert!(found.missed > 0.0);
}

/// From the time √(24·σ·τ/slope) on a straight rise is called straight (93, 38 and 15 min for 0.5, 3 and 20 micron a
/// minute at 3 micron of noise); well before, never.
#[test]
fn straight_is_said_once_it_can_be_told() {
    for (slope, minutes) in [(0.5, 100), (3.0, 41), (20.0, 16)] {
        let called = share(Verdict::Straight, minutes, &hold(), |t| 300.0 + slope * t);
        assert!(called >= 0.9, "{slope} micron/min over {minutes} min: {called}");
    }
    for slope in [0.5, 3.0] {
        assert_eq!(share(Verdict::Straight, 10, &hold(), |t| 300.0 + slope * t), 0.0);
    }
}

/// Moisture of 5 to 60 min held long enough is never called a leak, and straight in a few runs at most.
#[test]
fn moisture_is_no_leak() {
    for (tau, minutes) in [(5.0, 30), (15.0, 40), (30.0, 60), (60.0, 120)] {
        let moisture = |t: f64| 1_500.0 - 1_200.0 * (-t / tau).exp();
        assert_eq!(share(Verdict::Leak, minutes, &hold(), moisture), 0.0);
        assert!(share(Verdict::Straight, minutes, &hold(), moisture) <= 0.03, "{tau}");
        let levels = share(Verdict::LevelsOff, minutes, &hold(), moisture);
        assert!(levels >= 0.9, "tau {tau}: {levels}");
    }
}

#[test]
fn the_same_slope_after_a_break_is_a_leak() {
    let series = simulated(40, 7, |t| 300.0 + 5.0 * t);
    let slope = 5.0 * MICRON / MINUTE;
    let again = Hold { earlier: Some((slope, 0.02 * slope)), ..hold() };
    assert_eq!(judged(&series, &again).verdict, Verdict::Leak);
    let fell = Hold { earlier: Some((3.0 * slope, 0.02 * slope)), ..hold() };
    assert_eq!(judged(&series, &fell).verdict, Verdict::Straight);
    let held = Hold { standing: true, ..hold() };
    assert!(judged(&series, &held).why.contains("pressure test held"));
}

/// What runs over the gauge's range is no plateau there: a straight rise of 500 micron a minute on a gauge to 5000.
#[test]
fn over_the_range_is_at_least_that() {
    let leak = simulated(30, 3, |t| 300.0 + 500.0 * t);
    let found = judge(&readings(&leak, 5_000.0), &hold()).unwrap();
    assert_eq!(found.verdict, Verdict::Straight, "{found:?}");
    assert!((found.rate / MICRON * MINUTE - 500.0).abs() < 5.0, "{found:?}");
    assert!(found.why.contains("over the gauge's range 10 minutes"), "{}", found.why);
    // Water at 17 546 micron on a gauge to 12 000: without the rows over it the bend would be fitted to its beginning only.
    let water = simulated(30, 4, |t| 17_546.0 - 17_000.0 * (-t / 6.0).exp());
    let found = judge(&readings(&water, 12_000.0), &hold()).unwrap();
    assert!(found.plateau.is_none_or(|plateau| plateau >= 12_000.0 * MICRON), "{found:?}");
    // A plateau read below the bound and rows above it do not go together.
    let odd: Vec<(f64, f64)> =
        (0..31).map(|t| (f64::from(t), if t < 20 { 400.0 + f64::from(t % 2) } else { 9_000.0 })).collect();
    let found = judge(&readings(&odd, 5_000.0), &hold()).unwrap();
    assert_eq!(found.verdict, Verdict::Step, "{found:?}");
    assert_eq!(found.jumped, Some(20.0 * MINUTE));
    let burst: Vec<(f64, f64)> = (0..6).map(|t| (f64::from(t), 300.0 + 3_000.0 * f64::from(t))).collect();
    assert_eq!(judge(&readings(&burst, 5_000.0), &hold()).unwrap().verdict, Verdict::OverRange);
}

#[test]
fn too_little_is_refused() {
    let at = |times: &[f64]| times.iter().map(|t| Reading::from((*t, 1.0))).collect::<Vec<_>>();
    assert_eq!(judge(&at(&[0.0, 1.0, 2.0]), &hold()).err(), Some(TooLittle::Readings));
    assert_eq!(judge(&at(&[0.0, 2.0, 1.0, 3.0]), &hold()).err(), Some(TooLittle::Order));
}
