//! What reports draw of calls: the points are those of the readings and of the functions, in the units of the sheet.
#![allow(clippy::unwrap_used, clippy::panic)]

use dewline_lang::job::{self, Run, Settings};
use dewline_lang::library::{Drawing, Mark, Series};
use dewline_tests::sheet::Shelf;

/// Pascals in a micron of mercury of 13,595.1 kg/m³ under 9.806 65 m/s².
const MICRON: f64 = 13_595.1 * 9.806_65 * 1e-6;

fn run(text: &str) -> Run {
    let library = dewline_stdlib::library();
    let host = Shelf::default();
    let checked = job::check(&library, &host, "test.dew", text);
    let job = checked.job.unwrap_or_else(|| panic!("{:#?}\n{text}", checked.diagnostics));
    job.run(&library, &host, &Settings { values: Vec::new() })
}

fn drawings(text: &str) -> Vec<Drawing> {
    run(text).offers().drawings.into_iter().map(|offered| offered.drawing).collect()
}

fn series<'d>(drawing: &'d Drawing, name: &str) -> &'d Series {
    drawing.series.iter().find(|one| one.name == name).unwrap_or_else(|| panic!("no series {name:?} in {drawing:#?}"))
}

fn alike(points: &[(f64, f64)], wanted: &[(f64, f64)], what: &str) {
    assert_eq!(points.len(), wanted.len(), "{what}");
    for (point, wanted) in points.iter().zip(wanted) {
        let near = |a: f64, b: f64| (a - b).abs() <= 1e-6 * b.abs().max(1.0);
        assert!(near(point.0, wanted.0) && near(point.1, wanted.1), "{what}: {point:?} is not {wanted:?}");
    }
}

/// A value of the run in SI.
fn si(run: &Run, name: &str) -> f64 {
    run.outcome.cells.iter().find(|cell| cell.name == name).and_then(|cell| cell.si).unwrap()
}

const HOLD: &str = "table log\n time | pressure\n min | micron\n 0 | 200\n 10 | 210\n 20 | 220\n 30 | 230\n 40 | 240\nend\n\
                    found = hold_test(log.time, log.pressure, coldest = 20 degC, equalising = 0 min)\n\
                    again = hold_test(log.time, log.pressure, coldest = 20 degC, equalising = 0 min).verdict\n";

#[test]
fn a_hold_is_drawn_as_read_with_its_line_and_its_limit() {
    let read = [(0.0, 200.0), (10.0, 210.0), (20.0, 220.0), (30.0, 230.0), (40.0, 240.0)];
    for (system, micron) in [("IP", 1.0), ("SI", MICRON)] {
        let drawn = drawings(&format!("units {system}\n{HOLD}"));
        let [hold] = drawn.as_slice() else { panic!("one and the same call is drawn once: {drawn:#?}") };
        let wanted = read.map(|(time, pressure)| (time, pressure * micron));
        alike(&series(hold, "read").points, &wanted, "read");
        // The readings lie on a line, so that it is the one that fits best.
        alike(&series(hold, "line that fits best").points, &[wanted[0], wanted[4]], "line");
        let limit = hold.limits.iter().find(|limit| limit.name == "level to stay under").unwrap();
        assert!((limit.at - 500.0 * micron).abs() < 1e-6, "{limit:?}");
        assert_eq!(hold.up.unit, if system == "IP" { "micron" } else { "Pa absolute" });
        assert!(hold.says.starts_with("5 readings of the vacuum gauge"), "{}", hold.says);
    }
}

#[test]
fn a_bend_is_drawn_where_moisture_settles() {
    // p = 900 − 600·exp(−t/12 min), to a tenth of a micron.
    let rows: String = (0..=20)
        .map(|row| {
            let time = 3.0 * f64::from(row);
            format!(" {time} | {:.1}\n", 900.0 - 600.0 * (-time / 12.0).exp())
        })
        .collect();
    let drawn = drawings(&format!(
        "units IP\ntable log\n time | pressure\n min | micron\n{rows}end\n\
         found = hold_test(log.time, log.pressure, coldest = 20 degC, equalising = 0 min)\n"
    ));
    let bend = series(&drawn[0], "bend that fits best");
    for &(time, pressure) in &bend.points {
        let wanted = 900.0 - 600.0 * (-time / 12.0).exp();
        assert!((pressure - wanted).abs() < 0.5, "{pressure} at {time} min, not {wanted}");
    }
    assert_eq!(bend.points.last().map(|last| last.0), Some(60.0));
}

#[test]
fn readings_over_the_gauges_range_are_drawn_as_such() {
    let drawn = drawings(
        "units IP\ntable log\n time | pressure | over\n min | micron | flag\n 0 | 200 | false\n 10 | 400 | false\n \
         20 | 600 | false\n 30 | 800 | false\n 40 | 1000 | true\nend\n\
         found = hold_test(log.time, log.pressure, coldest = 20 degC, equalising = 0 min, over = log.over)\n",
    );
    alike(&series(&drawn[0], "over the gauge's range: at least").points, &[(40.0, 1000.0)], "over");
}

#[test]
fn a_standing_test_is_drawn_beside_what_temperature_alone_would_do() {
    let run = run("units IP\nsite atmosphere = 14.7 psia\n\
                   table log\n time | pressure | gas\n h | psig | degF\n 0 | 552 | 71\n 1 | 550 | 70\n 8 | 544.2 | 65\n \
                   16 | 538.3 | 60\nend\n\
                   found = standing_test(log.time, log.pressure, log.gas, limit = 3 psi).verdict\n\
                   cold : psia = trapped_pressure(nitrogen, 550 psig, 70 degF, 60 degF)\n");
    let offers = run.offers();
    let drawing = &offers.drawings[0].drawing;
    assert_eq!((drawing.across.unit.as_str(), drawing.up.unit.as_str()), ("h", "psig"));
    alike(&series(drawing, "read").points, &[(0.0, 552.0), (1.0, 550.0), (8.0, 544.2), (16.0, 538.3)], "read");
    let expected = &series(drawing, "by temperature alone").points;
    // The baseline is the first reading after the gas has settled.
    alike(&expected[..1], &[(1.0, 550.0)], "baseline");
    let cold = si(&run, "cold") / 6_894.757_293_168 - 14.7;
    alike(&expected[2..], &[(16.0, cold)], "at the last reading");
    let dashed: Vec<&Series> = drawing.series.iter().filter(|one| one.mark == Mark::Dashed).collect();
    let [above, below] = dashed.as_slice() else { panic!("{dashed:?}") };
    alike(&above.points[..1], &[(1.0, 553.0)], "limit above");
    alike(&below.points[..1], &[(1.0, 547.0)], "limit below");
}

#[test]
fn a_cycle_is_drawn_through_its_corners_in_its_dome() {
    const CYCLE: &str = "found = vapor_cycle(R-32, 5 degC, 45 degC, 8 C°, 5 C°)\n\
                         low = found.suction\nhigh = found.discharge\n\
                         effect = found.cooling_effect\ncritical = critical_point(R-32).pressure\n";
    let run = run(&format!("units SI\n{CYCLE}"));
    let metric = &run.offers().drawings[0].drawing;
    assert!(metric.up.logarithmic && !metric.across.logarithmic);
    let corners = &series(metric, "cycle").points;
    let pressures: Vec<f64> = corners.iter().map(|corner| corner.1 * 1000.0).collect();
    let (low, high) = (si(&run, "low"), si(&run, "high"));
    for (pressure, wanted) in pressures.iter().zip([low, high, high, low, low]) {
        assert!((pressure - wanted).abs() < 1e-6 * wanted, "{pressures:?}");
    }
    let effect = corners[0].0 - corners[3].0;
    assert!((effect * 1000.0 / si(&run, "effect") - 1.0).abs() < 1e-9, "{effect}");
    let top = series(metric, "dome").points.iter().map(|point| point.1 * 1000.0).fold(0.0, f64::max);
    assert!((top / si(&run, "critical") - 1.0).abs() < 1e-3, "{top}");
    let inch_pound = drawings(&format!("units IP\n{CYCLE}"));
    let there = &series(&inch_pound[0], "cycle").points;
    // 1 Btu (IT) is 1055.05585262 J and 1 lb 0.45359237 kg, so that 1 Btu/lb is 2.326 kJ/kg; 1 psi is 6.894757 kPa.
    let turned: Vec<(f64, f64)> = corners.iter().map(|(h, p)| (h / 2.326, p / 6.894_757_293_168)).collect();
    alike(there, &turned, "in inch–pound units");
}

#[test]
fn what_is_not_known_is_not_drawn_and_no_more_than_a_page_holds() {
    assert!(
        drawings(
            &HOLD
                .replace("40 | 240", "40 | 240\n 50 | ?")
                .replace("20 degC", "cold")
                .replace("table log", "reading cold : degC\ntable log")
        )
        .is_empty()
    );
    let many: String = (0..40)
        .map(|at| {
            HOLD.replace("log", &format!("log{at}"))
                .replace("found", &format!("f{at}"))
                .replace("again", &format!("a{at}"))
                .replace("| 240", &format!("| {}", 240 + at))
        })
        .collect();
    assert_eq!(drawings(&many).len(), 24);
}
