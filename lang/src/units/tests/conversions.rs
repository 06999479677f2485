//! Factors against exact definitions, and conversions there and back.

use super::entries;
use crate::units::{Meaning, Stance, parse};

const SEA_LEVEL: f64 = 101_325.0;

fn si(number: f64, text: &str) -> f64 {
    parse(text).unwrap().to_si(number, SEA_LEVEL)
}

fn close(found: f64, expected: f64, relative: f64, what: &str) {
    assert!((found - expected).abs() <= relative * expected.abs(), "{what}: {found:e}, expected {expected:e}");
}

/// Exact by definition: NIST SP 811 (2008) and the definitions of inch, pound, standard gravity, Btu_IT, conventional
/// mercury and water.
#[test]
fn factors_are_those_of_the_definitions() {
    for (text, expected) in [
        ("psi", 6_894.757_293_168_361),
        ("bar", 1e5),
        ("atm", 101_325.0),
        ("kgf/cm2", 98_066.5),
        ("Torr", 133.322_368_421_052_63),
        ("mmHg", 133.322_387_415),
        ("micron", 0.133_322_387_415),
        ("inHg", 3_386.388_640_341),
        ("inH2O", 249.088_91),
        ("Btu", 1_055.055_852_62),
        ("Btu/h", 0.293_071_070_172_222_2),
        ("ton", 3_516.852_842_066_666_7),
        ("hp", 745.699_871_582_270_2),
        ("Btu/lb", 2_326.0),
        ("Btu/(lb·degF)", 4_186.8),
        ("ft·lbf", 1.355_817_948_331_400_4),
        ("lbf", 4.448_221_615_260_5),
        ("lb", 0.453_592_37),
        ("oz", 0.028_349_523_125),
        ("grain", 6.479_891e-5),
        ("cfm", 4.719_474_432e-4),
        ("ft/min", 0.005_08),
        ("gal", 3.785_411_784e-3),
        ("gpm", 6.309_019_64e-5),
        ("in", 0.0254),
        ("ft", 0.3048),
        ("cP", 0.001),
        ("cSt", 1e-6),
        ("kWh", 3.6e6),
        ("VA", 1.0),
        ("day", 86_400.0),
        ("year", 365.25 * 86_400.0),
        ("ppm", 1e-6),
        ("%", 0.01),
        ("F°", 5.0 / 9.0),
    ] {
        close(parse(text).unwrap().meaning.factor(), expected, 2.0 * f64::EPSILON, text);
    }
}

/// NIST SP 811 (2008), appendix B.8, seven digits.
#[test]
fn factors_agree_with_the_rounded_table() {
    for (text, expected) in [
        ("psi", 6_894.757),
        ("inHg", 3_386.389),
        ("inH2O", 249.088_9),
        ("ftH2O", 2_989.067),
        ("mH2O", 9_806.65),
        ("Btu/h", 0.293_071_1),
        ("ton", 3_516.853),
        ("hp", 745.699_9),
        ("oz", 0.028_349_52),
        ("grain", 6.479_891e-5),
        ("cfm", 4.719_474e-4),
        ("gpm", 6.309_02e-5),
        ("kgf", 9.806_65),
        ("Torr", 133.322_4),
        ("mmHg", 133.322_4),
    ] {
        close(parse(text).unwrap().meaning.factor(), expected, 5e-7, text);
    }
}

/// Worked by hand from the definitions.
#[test]
fn everyday_conversions_come_out() {
    close(si(29.921_3, "inHga"), 101_325.15, 1e-7, "barometer");
    close(si(5.0, "ton"), 17_584.26, 1e-6, "capacity");
    close(si(400.0, "cfm"), 0.188_778_98, 3e-8, "flow");
    close(si(100.0, "psig"), 790_800.7, 1e-7, "gauge");
    close(si(1.0, "oz/ft"), 0.093_010_2, 1e-6, "charge of a line");
    close(si(0.075, "lb/ft3"), 1.201_38, 1e-5, "air");
    close(si(29.92, "inHgv"), 4.40, 0.05, "what a compound gauge leaves at its end");
    close(si(500.0, "micron"), 66.661_2, 1e-6, "vacuum");
    assert_eq!(si(32.0, "degF"), 273.15);
    close(si(-40.0, "degF"), si(-40.0, "degC"), 1e-15, "where the two scales meet");
    close(si(10.0, "F°"), 5.555_555_555_555_555, 1e-15, "difference");
}

#[test]
fn a_metric_part_is_the_bits_of_its_decimal() {
    for (number, text, expected) in [
        (35.0, "%", 0.35),
        (55.0, "%", 0.55),
        (29.0, "%", 0.29),
        (3.0, "mm", 0.003),
        (7.0, "mg", 7e-6),
        (1.0, "ppm", 1e-6),
        (77.0, "g/m3", 0.077),
    ] {
        assert_eq!(si(number, text).to_bits(), f64::to_bits(expected), "{number} {text}");
    }
}

#[test]
fn every_unit_converts_there_and_back() {
    for entry in entries() {
        let unit = entry.unit();
        for number in [-7.3, 0.0, 0.1, 1.0, 29.92, 61.0, 550.0, 1e6] {
            let back = unit.from_si(unit.to_si(number, 84_556.0), 84_556.0);
            // A point is measured against the size of its offset, which is what rounds.
            let scale = match unit.meaning {
                Meaning::Point { offset, .. } => number.abs() + offset,
                Meaning::Gauge { factor } | Meaning::Vacuum { factor } => number.abs() + 84_556.0 / factor,
                _ => number.abs(),
            };
            assert!((back - number).abs() <= 4.0 * f64::EPSILON * scale, "{number} {}: {back}", unit.text);
        }
    }
}

#[test]
fn only_gauge_and_vacuum_look_at_the_atmosphere() {
    for entry in entries() {
        let unit = entry.unit();
        let moved = unit.to_si(1.0, 80_000.0) != unit.to_si(1.0, 90_000.0);
        assert_eq!(moved, unit.needs_atmosphere(), "{}", unit.text);
        assert!(!moved || unit.meaning.stance() == Stance::Point);
    }
}

#[test]
fn a_deeper_vacuum_is_a_lower_pressure() {
    assert!(si(29.0, "inHgv") < si(28.0, "inHgv"));
    assert_eq!(si(0.0, "inHgv"), SEA_LEVEL);
    assert_eq!(si(0.0, "psig"), SEA_LEVEL);
}
