//! Every form of the library: pending as it is, passed when filled well, failed with each of its typical faults. The data
//! in `filled` is invented.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::fs;

use dewline_stdlib::forms::{FORMS, Form};
use dewline_tests::program::{Left, dewline};

/// Runs a form by its path in the library, with settings from its JSON file.
fn filled(form: &str, settings: &[&str]) -> Left {
    let (path, from) = (format!("forms/{form}.dew"), format!("filled/{form}.json"));
    let mut arguments = vec!["run", path.as_str(), "--set-from", from.as_str()];
    for setting in settings {
        arguments.extend(["--set", setting]);
    }
    dewline(&arguments)
}

#[test]
fn a_form_as_it_is_waits_for_everything_and_nothing_fails() {
    for form in FORMS {
        let left = dewline(&["run", &format!("forms/{}.dew", form.name)]);
        assert_eq!(left.code, 3, "{}: {}{}", form.name, left.out, left.err);
        assert!(left.err.is_empty() && !left.out.contains("FAILED"), "{}: {}{}", form.name, left.out, left.err);
        assert!(left.out.contains(&format!("forms from the library of dewline {}", dewline_stdlib::forms::RELEASE)));
    }
}

#[test]
fn a_form_filled_well_passes() {
    for form in FORMS {
        let left = filled(form.name, &[]);
        assert_eq!(left.code, 0, "{}: {}{}", form.name, left.out, left.err);
    }
}

#[test]
fn every_form_is_laid_out_and_shown_as_it_is() {
    for form in FORMS {
        let file = format!("../stdlib/forms/{}.dew", form.name);
        assert_eq!(dewline(&["fmt", &file, "--check"]).code, 0, "{}", form.name);
        assert_eq!(dewline(&["show", form.name]).out, fs::read_to_string(file).unwrap());
    }
    for file in fs::read_dir("../stdlib/forms").unwrap() {
        let name = file.unwrap().file_name().into_string().unwrap();
        assert!(Form::find(name.trim_end_matches(".dew")).is_some(), "{name} is not listed");
    }
}

/// Form, what is set beside the good data, and the check that must fail of it.
const FAULTS: &[(&str, &[&str], &str)] = &[
    ("lines", &["farthest_allowed=120 ft"], "within the farthest run: runs C"),
    ("lines", &["after_branch_allowed=70 ft"], "within the run after the first branch: runs C"),
    ("lines", &["below_allowed=20 ft"], "indoor units below the outdoor unit"),
    ("lines", &["above_allowed=10 ft", "runs=filled/runs-up.csv"], "indoor units above the outdoor unit"),
    ("lines", &["total_allowed=200 ft"], "total length allowed"),
    ("lines", &["between_allowed=10 ft"], "indoor units not too far apart in level"),
    ("lines", &["outdoor_capacity=60_000 Btu/h"], "connected capacity"),
    ("brazing", &["branches=filled/branches-shut.csv"], "open by flow: branches B"),
    ("brazing", &["branches=filled/branches-hasty.csv"], "flow before the flame: branches B"),
    ("brazing", &["branches=filled/branches-hasty.csv"], "swept before the flame: branches A"),
    ("brazing", &["branches=filled/branches-hasty.csv"], "room's oxygen: branches C"),
    ("brazing", &["branches=filled/branches-hasty.csv"], "nitrogen kept flowing until cool: branches C"),
    ("brazing", &["outdoor service valves shut and capped: they hold the factory charge=no"], "outdoor service valves"),
    ("powered-early", &["units=filled/powered-shut.csv"], "powered units held open"),
    ("powered-early", &["units=filled/powered-shut.csv"], "every branch open by flow"),
    ("volume-check", &["cylinder_after=151.60 lb"], "all volume reached"),
    ("standing-test", &["log=filled/standing-leak.csv"], "nitrogen holds"),
    ("standing-test", &["soap or detector at every joint, at test pressure=no"], "soap or detector at every joint"),
    ("standing-test", &["cylinder shut and disconnected=no"], "cylinder shut and disconnected"),
    ("standing-test", &["weakest_part=540 psig"], "no part above what it stands"),
    // 1.4 times the design pressure, though no part is rated lower.
    (
        "standing-test",
        &["weakest_part=800 psig", "test_pressure=700 psig", "log=filled/standing-over.csv"],
        "no part above what it stands",
    ),
    ("standing-test", &["test_pressure=600 psig"], "test pressure reached"),
    ("standing-test", &["design=560 psig"], "test pressure as the route asks"),
    ("standing-test", &["least_hours=24 h"], "stood long enough"),
    // The barometer fell by 1.1 psi: the gauge reads that much too high.
    ("standing-test", &["atmosphere_end=12.9 psia"], "nitrogen holds"),
    // Of a roof in the sun: by the thermometer of the rooms alone the gas seems to have gone.
    ("standing-test", &["log=filled/standing-zones.csv"], "nitrogen holds"),
    ("standing-test", &["every_branch_open=false", "gauge_on_each_main=false"], "every part reached"),
    ("evacuation", &["hold=filled/hold-wet.csv"], "the hold levels off"),
    ("evacuation", &["hold=filled/hold-leak.csv"], "the hold levels off"),
    // Past the range of its gauge within minutes: what was not read bounds it all the same.
    ("evacuation", &["hold=filled/hold-over.csv"], "the hold levels off"),
    (
        "evacuation",
        &["held_before=true", "earlier=filled/earlier-as-fast.csv", "hold=filled/hold-leak.csv"],
        "the hold levels off\n              test.verdict = leak,",
    ),
    (
        "evacuation",
        &["held_before=true", "earlier=filled/earlier-faster.csv", "hold=filled/hold-leak.csv"],
        "the hold levels off\n              test.verdict = straight,",
    ),
    ("evacuation", &["limit=300 micron"], "under the limit at the end"),
    ("evacuation", &["breaks=filled/breaks-wrong.csv"], "broken past the air's pressure with dry nitrogen: breaks 1"),
    ("evacuation", &["breaks=filled/breaks-wrong.csv"], "nitrogen let in at both ports: breaks 2"),
    ("evacuation", &["gauge_at=pump"], "gauge at the far end"),
    ("evacuation", &["standing_test_passed=false"], "the pressure test held before"),
    ("evacuation", &["hold=filled/hold-late.csv"], "read from minute 0"),
    ("evacuation", &["hold_time=60 min"], "held long enough"),
    ("evacuation", &["coldest=20 degF"], "no pipe near freezing"),
    ("evacuation", &["breaks_wanted=3"], "enough breaks"),
    ("evacuation", &["wait_wanted=30 min"], "waited at the break: breaks 1"),
    ("evacuation", &["hold_began=2026-05-16T08:00"], "last break and hold in one visit"),
    ("evacuation", &["every_branch_open=false", "gauge_on_each_main=false"], "every part reached"),
    ("charge", &["cylinders=filled/cylinders-vapor.csv"], "drawn as liquid: cylinders C-5518"),
    ("charge", &["tolerance=0.1 oz"], "charge as reckoned"),
    ("charge", &["rooms=filled/rooms-small.csv"], "within the stated limit; no permit: rooms Closet"),
    ("charge", &["altitude=9000 ft", "occupancy=institutional"], "within the stated limit; no permit: rooms Office"),
    ("charge", &["service valves opened after the weight was in=no"], "service valves opened after"),
    ("before-start", &["line_ca=196 V"], "supply balanced"),
    ("before-start", &["supply_rated=240 V"], "supply near the voltage of the nameplate"),
    ("before-start", &["service valves open, caps on=no"], "service valves open"),
    ("before-start", &["winding_c=0.912 ohm"], "windings alike"),
    ("before-start", &["outdoor_capacity=60_000 Btu/h"], "connected capacity"),
    ("before-start", &["insulation=4 Mohm"], "insulation"),
    ("before-start", &["heated=3 h"], "oil warmed long enough"),
    ("before-start", &["shell=75 degF"], "oil above saturation"),
    ("before-start", &["units=filled/units-dry.csv"], "drain runs: units B"),
    ("before-start", &["units=filled/units-dry.csv"], "fan turns: units C"),
    ("before-start", &["rest=filled/rest-drifted.csv"], "sensor agrees: rest B liquid"),
    ("before-start", &["rest=filled/rest-drifted.csv"], "off long enough: rest C gas"),
    ("before-start", &["response=filled/response-crossed.csv"], "its own channel answers, no other: response 4"),
    ("cooling", &["indoor=filled/indoor-starving.csv"], "superheat: indoor B"),
    ("cooling", &["indoor=filled/indoor-starving.csv"], "coil and valve: indoor B\n              looks = starving,"),
    (
        "cooling",
        &["indoor=filled/indoor-starving.csv"],
        "coil and valve: indoor E\n              looks = leaking when idle,",
    ),
    ("cooling", &["indoor=filled/indoor-no-flow.csv"], "coil and valve: indoor B\n              looks = no flow,"),
    ("cooling", &["indoor=filled/indoor-no-flow.csv"], "coil evaporates: indoor B"),
    // One sign and a probe that does not bear it out.
    (
        "cooling",
        &["indoor=filled/indoor-one-sign-probed.csv"],
        "coil and valve: indoor B\n              looks = gas-pipe sensor,",
    ),
    ("cooling", &["mapped=false"], "each unit called once alone, its own pipes moved and no other's"),
    ("cooling", &["indoor=filled/indoor-starving.csv"], "idle unit at room temperature: indoor E"),
    // Many short of liquid: the system is, and no valve is named.
    (
        "cooling",
        &["indoor=filled/indoor-short.csv", "outdoor=filled/outdoor-short.csv"],
        "system healthy, before any valve is named\n              system = short of liquid,",
    ),
    (
        "cooling",
        &["indoor=filled/indoor-short.csv", "outdoor=filled/outdoor-short.csv"],
        "coil and valve: indoor A\n              looks = system first,",
    ),
    ("cooling", &["outdoor=filled/outdoor-short.csv"], "liquid before the valves"),
    ("cooling", &["outdoor=filled/outdoor-short.csv"], "discharge superheat as the refrigerant has it"),
    ("cooling", &["condensing_over_low=30 F°"], "condensing over ambient"),
    ("cooling", &["ratio_most=2.5"], "compression ratio"),
    ("cooling", &["air_drop_least=19 F°"], "air drop: indoor B"),
    ("cooling", &["target_evaporating=36 degF"], "evaporating on target"),
    ("cooling", &["settled_for=45 min"], "watched long enough"),
    ("cooling", &["steady=0.1 F°"], "saturation settled"),
    ("cooling", &["discharge_steady=0.1 F°"], "discharge settled"),
    ("heating", &["indoor=filled/indoor-heating-swapped.csv"], "gas pipe hotter than liquid pipe: indoor B"),
    (
        "heating",
        &["indoor=filled/indoor-heating-swapped.csv"],
        "coil and valve: indoor B\n              looks = pipe sensors swapped,",
    ),
    ("heating", &["mapped=false"], "each unit called once alone, its own pipes moved and no other's"),
    (
        "heating",
        &["outdoor=filled/outdoor-heating-short.csv", "indoor=filled/indoor-heating-short.csv"],
        "system healthy, before any valve is named\n              system = short of liquid,",
    ),
    (
        "heating",
        &["indoor=filled/indoor-heating-idle-leaks.csv"],
        "coil and valve: indoor E\n              looks = leaking when idle,",
    ),
    (
        "heating",
        &["indoor=filled/indoor-heating-passes.csv"],
        "coil and valve: indoor B\n              looks = passing or stuck open,",
    ),
    ("heating", &["indoor=filled/indoor-heating-passes.csv"], "liquid leaves the coil: indoor B"),
    ("heating", &["air_rise_least=35 F°"], "air rise: indoor A"),
    ("heating", &["steady=0.1 F°"], "saturation settled"),
    ("heating", &["discharge_steady=0.1 F°"], "discharge settled"),
    ("heating", &["settled_for=45 min"], "watched long enough"),
    ("heating", &["ratio_most=3"], "compression ratio"),
    // Liquid comes back.
    ("heating", &["outdoor=filled/outdoor-heating-wet.csv"], "discharge superheat as the refrigerant has it"),
    ("heating", &["outdoor=filled/outdoor-heating-warm.csv"], "evaporating below the outdoor air"),
    ("heating", &["target_condensing=125 degF"], "condensing on target"),
    ("selectors", &["selectors=filled/selectors-stuck.csv"], "cools while another heats: selectors B"),
    ("selectors", &["selectors=filled/selectors-stuck.csv"], "heats while another cools: selectors B"),
    ("selectors", &["selectors=filled/selectors-stuck.csv"], "cools while another heats: selectors C"),
    ("unit", &["liquid_at_rest=78 degF"], "liquid pipe sensor agrees"),
    ("unit", &["drain_ran=false"], "drain runs"),
    ("unit", &["fan_turned=false"], "fan turns"),
    ("unit", &["air_at_rest=78 degF"], "air sensor agrees"),
    ("unit", &["gas_at_rest=78 degF"], "gas pipe sensor agrees"),
    ("unit", &["gas_pipe=47 degF"], "superheat by the pipe pair"),
    ("unit", &["air_out=70 degF"], "air drop"),
    ("service", &["recovered=filled/recovered-overfull.csv"], "cylinder not overfilled: recovered RC-1"),
    ("service", &["recovered=filled/recovered-overfull.csv"], "cylinder rated for this refrigerant: recovered RC-2"),
    ("service", &["brazed_under_nitrogen=false"], "brazed under nitrogen"),
    ("service", &["vacuum_proven=false"], "vacuum proven"),
    ("service", &["left=16 psia"], "recovered to the level"),
    ("service", &["leaks=filled/leaks-open.csv"], "every leak repaired"),
    ("service", &["standing_test_passed=false"], "pressure test passed"),
    ("service", &["recharged=40 lb"], "full charge in"),
    ("commissioning", &["brazing.branches=filled/branches-shut.csv"], "brazing: open by flow: brazing.branches B"),
    ("commissioning", &["evacuation.hold=filled/hold-wet.csv"], "evacuation: the hold levels off"),
    ("handover", &["limits=filled/limits-bare.csv"], "limit has a source: limits concentration"),
    ("handover", &["line drawing as built, with lengths and sizes=no"], "line drawing as built"),
];

#[test]
fn a_form_fails_with_each_of_its_typical_faults() {
    for (form, settings, label) in FAULTS {
        let left = filled(form, settings);
        assert_eq!(left.code, 1, "{form} {settings:?}: {}{}", left.out, left.err);
        assert!(left.out.contains(&format!("FAILED    {label}")), "{form} {settings:?} {label}: {}", left.out);
    }
    for form in FORMS {
        assert!(FAULTS.iter().any(|(name, ..)| *name == form.name), "{} has no fault", form.name);
        let required = form.text.lines().filter_map(|line| {
            let check = line.trim_start().strip_prefix("require ")?;
            check.strip_prefix("each ").unwrap_or(check).strip_prefix('"')?.split('"').next()
        });
        for label in required {
            let fails = FAULTS.iter().any(|(name, _, fault)| *name == form.name && fault.starts_with(label));
            assert!(fails, "nothing makes {:?} of {} fail", label, form.name);
        }
    }
}

/// Form and what is set beside the good data, and all is in order.
const PASSES: &[(&str, &[&str])] = &[
    // Two floors of units on one level each, well below the outdoor unit: it is no indoor unit.
    ("lines", &["runs=filled/runs-one-level.csv", "between_allowed=10 ft"]),
    // In a system that cools and heats at once a heating unit is not judged as one that cools.
    ("cooling", &["indoor=filled/indoor-recovery.csv", "heat_recovery=true"]),
];

#[test]
fn a_form_fails_nothing_that_is_in_order() {
    for (form, settings) in PASSES {
        let left = filled(form, settings);
        assert_eq!(left.code, 0, "{form} {settings:?}: {}{}", left.out, left.err);
    }
}

#[test]
fn a_unit_that_heats_while_the_system_is_read_in_cooling_is_never_named_faulty() {
    let left = filled("cooling", &["indoor=filled/indoor-recovery.csv"]);
    assert!(left.out.contains("indoor F\n              looks = runs the other way,"), "{}", left.out);
    assert!(left.out.contains("valves or branches named: 0"), "{}", left.out);
}

/// Form, what is set beside the good data, and what must then be taken before anything is said.
const ASKS: &[(&str, &[&str], &str)] = &[
    ("standing-test", &["second_share=40 %"], "log[\"0 h\"].second_zone"),
    ("evacuation", &["held_before=true"], "earlier"),
    // A list without a leak is no search that found none.
    ("service", &["leaks=filled/leaks-none.csv"], "leaks"),
    // Half of the units stand wide open, and the circuit shows nothing of it.
    (
        "cooling",
        &["indoor=filled/indoor-short.csv", "superheat_most=24 F°", "air_drop_least=9 F°"],
        "pressures_checked",
    ),
    ("cooling", &["indoor=filled/indoor-one-sign.csv", "superheat_most=24 F°"], "indoor[\"B\"].hand_gas"),
    // Warm pipes at rest are usual in heating: whether the room gets warmer decides.
    ("heating", &["indoor=filled/indoor-heating-idle-warm.csv"], "indoor[\"E\"].room_rises"),
];

#[test]
fn a_form_asks_for_a_second_sign_only_where_the_first_leaves_it_undecided() {
    for (form, settings, wanted) in ASKS {
        let left = filled(form, settings);
        assert_eq!(left.code, 3, "{form} {settings:?}: {}{}", left.out, left.err);
        assert!(left.out.contains(&format!("  [ ] {wanted}\n")), "{form} {settings:?} {wanted}: {}", left.out);
    }
    // Beside the good data none of it is asked for.
    for (form, ..) in ASKS {
        assert!(!filled(form, &[]).out.contains("STILL TO TAKE"), "{form}");
    }
}

#[test]
fn a_word_that_a_log_may_not_have_is_refused_at_its_field() {
    for (form, log) in [("cooling", "outdoor-misspelt"), ("heating", "outdoor-heating-misspelt")] {
        let left = filled(form, &[&format!("outdoor=filled/{log}.csv")]);
        assert_eq!(left.code, 2, "{}{}", left.out, left.err);
        let told = left.err.split_whitespace().filter(|word| *word != "│").collect::<Vec<_>>().join(" ");
        assert!(told.contains("is none of the words of its column"), "{}", left.err);
        assert!(told.contains("one of \"run\", \"start\", \"defrost\", \"oil return\""), "{}", left.err);
    }
}

#[test]
fn zones_of_their_own_temperature_are_reckoned_with() {
    let left = filled("standing-test", &["log=filled/standing-zones.csv", "second_share=40 %"]);
    assert_eq!(left.code, 0, "{}{}", left.out, left.err);
}

#[test]
fn in_the_whole_job_nothing_passes_that_comes_after_a_failed_stage() {
    let left = filled("commissioning", &["brazing.branches=filled/branches-shut.csv"]);
    let verdicts: Vec<&str> = left.out.lines().filter_map(|line| line.split_once(". ")?.1.split(' ').next()).collect();
    let wanted = [["passed", "FAILED"].as_slice(), &["BLOCKED"; 8]].concat();
    assert_eq!(verdicts.get(..10), Some(wanted.as_slice()), "{}", left.out);
}

#[test]
fn a_file_fills_a_form_for_forty_units_a_row_a_run() {
    let left = dewline(&["run", "forms/unit.dew", "--set-from", "filled/forty.csv", "--format", "json"]);
    assert_eq!(left.code, 0, "{}{}", left.out, left.err);
    assert_eq!(left.out.matches("\n  \"verdict\": \"passed\",").count(), 40, "{}", &left.out[..2000]);
    let one_fault = dewline(&["run", "forms/unit.dew", "--set-from", "filled/forty.csv", "--set", "rise_least=8 F°"]);
    assert_eq!(one_fault.code, 1, "{}", one_fault.err);
    assert!(one_fault.out.contains("PASSED") && one_fault.out.contains("FAILED"));
}

#[test]
fn the_forms_are_listed_and_a_near_name_is_told() {
    let listed = dewline(&["forms"]);
    assert!(FORMS.iter().all(|form| listed.out.contains(&format!("{}: {}", form.name, form.title()))));
    let near = dewline(&["show", "evacuaton"]);
    assert_eq!(near.code, 2);
    assert!(near.err.contains("did you mean evacuation?"), "{}", near.err);
    assert_eq!(dewline(&["show", "forms/standing_test.dew"]).out, Form::find("standing-test").unwrap().text);
    assert!(dewline(&["show", "evac"]).err.contains("did you mean evacuation?"));
    for path in ["forms/evacuaton.dew", "evacuation", "evacuation.dew"] {
        let left = dewline(&["run", path]);
        assert!(left.code == 2 && left.err.contains("did you mean \"forms/evacuation.dew\"?"), "{}", left.err);
    }
}

#[test]
fn a_form_of_ones_own_comes_before_that_of_the_library_and_a_record_keeps_either() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name).to_str().unwrap().to_string();
    let job = "fill \"forms/selectors.dew\" as selectors ( )\n";
    fs::write(at("job.dew"), job).unwrap();
    let of_library = dewline(&["run", &at("job.dew"), "--record", &at("first.json")]);
    assert!(of_library.out.contains("forms from the library"), "{}", of_library.out);
    fs::create_dir(at("forms")).unwrap();
    let own = dewline(&["show", "selectors"]).out.replace("input cold_most = 60 degF", "input cold_most = 55 degF");
    fs::write(at("forms/selectors.dew"), own).unwrap();
    let of_own = dewline(&["run", &at("job.dew"), "--record", &at("second.json")]);
    assert!(!of_own.out.contains("forms from the library") && of_own.out.contains("55 degF"), "{}", of_own.out);
    for record in ["first.json", "second.json"] {
        let audited = dewline(&["audit", &at(record)]);
        assert_eq!(audited.code, 0, "{}{}", audited.out, audited.err);
    }
}
