//! The demo jobs come to the verdicts that the README tells.
#![allow(clippy::unwrap_used, clippy::panic)]

use dewline_lang::outcome::{CheckOutcome, CheckVerdict, Outcome, StageVerdict};
use dewline_tests::program::dewline;

const CLINIC: &str = "../examples/clinic/clinic.dew";
const MENDED: [&str; 4] = ["--set", "indoor=indoor-mended.csv", "--set", "outdoor=outdoor-mended.csv"];

fn outcome(settings: &[&str]) -> Outcome {
    let (host, document) = dewline::FolderHost::open(CLINIC, &mut std::io::empty()).unwrap();
    let library = dewline_stdlib::library();
    let checked = dewline_lang::job::check(&library, &host, &document.name, &document.text);
    let values =
        settings.chunks(2).filter_map(|pair| pair[1].split_once('=')).map(|(a, b)| (a.to_string(), b.to_string()));
    let settings = dewline_lang::job::Settings::from(values.collect::<Vec<_>>());
    checked.job.unwrap_or_else(|| panic!("{:#?}", checked.diagnostics)).run(&library, &host, &settings).outcome
}

/// A check that fails the job; one that only advises does not.
fn refuses(check: &CheckOutcome) -> bool {
    check.verdict == CheckVerdict::Failed && check.level == "require"
}

#[test]
fn the_first_run_fails_on_the_starving_unit_alone() {
    let left = dewline(&["run", CLINIC]);
    assert_eq!(left.code, 1, "{}{}", left.out, left.err);
    let outcome = outcome(&[]);
    let failed: Vec<_> = outcome.checks.iter().filter(|check| refuses(check)).collect();
    assert!(!failed.is_empty());
    for check in failed {
        assert_eq!(check.row.as_deref(), Some("F-10"), "{check:?}");
        assert_eq!(check.stage, "Running, cooling", "{check:?}");
    }
    assert!(left.out.contains("coil and valve: cooling.indoor F-10\n              looks = starving,"), "{}", left.out);
    // One check cannot be told: the gauge is not good enough for it.
    let close: Vec<_> = outcome.checks.iter().filter(|check| check.verdict == CheckVerdict::Close).collect();
    assert!(close.len() == 1 && close[0].label == "test: test pressure reached", "{close:?}");
    assert!(outcome.errors.is_empty(), "{:?}", outcome.errors);
    let verdicts: Vec<StageVerdict> = outcome.stages.iter().map(|stage| stage.verdict).collect();
    assert_eq!(verdicts.len(), 8);
    assert!(verdicts[..7].iter().all(|verdict| *verdict == StageVerdict::Passed), "{:?}", outcome.stages);
    assert_eq!(verdicts[7], StageVerdict::Failed);
    assert!(outcome.cautions.iter().any(|caution| caution.contains("Nitrogen")), "{:?}", outcome.cautions);
    // Every stage's verdict is printed.
    for stage in &outcome.stages {
        assert!(left.out.contains(&stage.name), "{} is not in\n{}", stage.name, left.out);
    }
}

#[test]
fn after_the_valve_was_mended_one_reading_is_to_be_taken() {
    let mut arguments = vec!["run", CLINIC];
    arguments.extend(MENDED);
    let left = dewline(&arguments);
    assert_eq!(left.code, 3, "{}{}", left.out, left.err);
    let outcome = outcome(&MENDED);
    assert!(!outcome.checks.iter().any(refuses));
    assert_eq!(outcome.to_take.len(), 1, "{:?}", outcome.to_take);
    assert!(outcome.to_take[0].contains("air_out") && outcome.to_take[0].contains("F-08"), "{:?}", outcome.to_take);
}

#[test]
fn running_twice_gives_the_same_bytes() {
    let first = dewline(&["run", CLINIC, "--format", "json"]);
    let second = dewline(&["run", CLINIC, "--format", "json"]);
    assert!(first.out.len() > 10_000, "{}", first.err);
    assert_eq!(first.out, second.out);
}

#[test]
fn the_demo_is_laid_out() {
    assert_eq!(dewline(&["fmt", CLINIC, "--check"]).code, 0);
}

const HARBOUR: &str = "../examples/harbour/harbour.dew";
const HARBOUR_MENDED: [&str; 6] =
    ["--set", "powered=powered-mended.csv", "--set", "branches=purge-mended.csv", "--set", "hold=hold-mended.csv"];

/// The verdict line of a stage as printed.
fn stage<'a>(out: &'a str, name: &str) -> &'a str {
    let line = out.lines().find(|line| line.contains(&format!("  {name}")) && line.trim_start().contains(". "));
    line.unwrap_or_else(|| panic!("no stage {name} in\n{out}"))
}

#[test]
fn at_the_harbour_a_unit_powered_too_early_blocks_all_that_follows_and_the_vacuum_holds_water() {
    let left = dewline(&["run", HARBOUR]);
    assert_eq!(left.code, 1, "{}{}", left.out, left.err);
    assert!(left.err.is_empty(), "{}", left.err);
    for (name, verdict) in [
        ("Lines", "passed"),
        ("Powered too early", "FAILED"),
        ("Brazing", "FAILED"),
        ("Standing pressure test", "BLOCKED"),
        ("Volume check", "BLOCKED"),
        ("Evacuation", "FAILED"),
        ("Charge", "BLOCKED"),
    ] {
        assert!(stage(&left.out, name).contains(verdict), "{name} {verdict}\n{}", left.out);
    }
    assert!(left.out.contains("open by flow: brazing.branches L-04"), "{}", left.out);
    assert!(left.out.contains("verdict = free water"), "{}", left.out);
}

#[test]
fn at_the_harbour_what_was_mended_passes_as_far_as_the_charge() {
    let left = dewline(&[&["run", HARBOUR], HARBOUR_MENDED.as_slice()].concat());
    assert_eq!(left.code, 3, "{}{}", left.out, left.err);
    assert!(stage(&left.out, "Evacuation").contains("passed"), "{}", left.out);
    assert!(stage(&left.out, "Charge").contains("WAITING"), "{}", left.out);
    assert!(left.out.contains("charge.cylinders"), "{}", left.out);
    // The forms are written in inch–pound units; this job is not.
    assert!(!left.out.contains("psig") && !left.out.contains("degF"), "{}", left.out);
}

#[test]
fn on_the_ridge_bare_psi_is_refused_and_the_mended_sheet_finds_the_short_hold() {
    let typed = dewline(&["run", "../examples/ridge/ridge.dew"]);
    assert_eq!(typed.code, 2, "{}", typed.out);
    assert!(typed.err.contains("psig` if it was read on a gauge"), "{}", typed.err);
    let mended = dewline(&["run", "../examples/ridge/ridge-mended.dew"]);
    assert_eq!(mended.code, 1, "{}{}", mended.out, mended.err);
    assert!(stage(&mended.out, "Standing pressure test").contains("passed"), "{}", mended.out);
    assert!(stage(&mended.out, "Evacuation").contains("FAILED"), "{}", mended.out);
    assert!(mended.out.contains("FAILED    evacuation: held long enough"), "{}", mended.out);
}

#[test]
fn all_demos_are_laid_out() {
    for sheet in [HARBOUR, "../examples/ridge/ridge.dew", "../examples/ridge/ridge-mended.dew"] {
        assert_eq!(dewline(&["fmt", sheet, "--check"]).code, 0, "{sheet}");
    }
}
