#![allow(clippy::unwrap_used, clippy::panic)]

mod against_uom;
mod conversions;

use std::collections::BTreeMap;

use super::{Entry, all, find, is_unit, parse, suggest};

fn entries() -> impl Iterator<Item = &'static Entry> {
    all().iter().flat_map(|group| group.units)
}

#[test]
fn every_accepted_spelling_reads_as_its_unit() {
    for entry in entries() {
        for spelling in entry.spellings() {
            assert_eq!(parse(spelling).unwrap(), entry.unit(), "{spelling}");
            assert!(is_unit(spelling), "{spelling}");
            if entry.any_case && spelling.is_ascii() {
                for typed in [spelling.to_uppercase(), spelling.to_lowercase()] {
                    assert_eq!(parse(&typed).unwrap().text, entry.text, "{typed}");
                }
            }
        }
    }
}

#[test]
fn no_two_units_share_a_spelling_in_any_case() {
    let mut seen: BTreeMap<String, &str> = BTreeMap::new();
    for entry in entries() {
        for spelling in entry.spellings() {
            // Those where a prefix hangs on the case are told apart by it; any other pair would be a trap.
            let key = if entry.any_case { spelling.to_lowercase() } else { spelling.to_string() };
            assert_eq!(seen.insert(key, entry.text), None, "{spelling}");
            let small = find(&spelling.to_lowercase());
            assert!(!entry.any_case || small.is_some_and(|found| found.text == entry.text), "{spelling}");
        }
    }
}

#[test]
fn case_is_exact_where_a_prefix_hangs_on_it() {
    for (text, factor) in [("mPa", 1e-3), ("MPa", 1e6), ("mW", 1e-3), ("MW", 1e6), ("mohm", 1e-3), ("Mohm", 1e6)] {
        assert_eq!(parse(text).unwrap().meaning.factor(), factor, "{text}");
    }
    for text in ["MPA", "mpa", "kw", "KW", "PA", "pa", "HZ", "n", "MPAG", "MTorr", "ML"] {
        assert!(parse(text).is_err(), "{text}");
    }
}

#[test]
fn no_unit_is_spelled_like_a_word_of_the_language() {
    let words = "t a d u at by within of to as and or then else where due from after coverage if not true false";
    for word in words.split(' ') {
        assert!(!is_unit(word), "{word}");
    }
}

#[test]
fn every_unit_has_a_code_and_a_description() {
    for entry in entries() {
        assert!(!entry.ucum.is_empty() && entry.ucum.is_ascii() && !entry.ucum.contains(' '), "{}", entry.text);
        assert!(entry.about.len() >= 3, "{}", entry.text);
        // A code with an annotation says what is only understood, and stands by itself.
        let inside = entry.plain_instead.is_none() && entry.dimension.has_points();
        assert!(!inside || !entry.ucum_in_compound().contains('{'), "{}", entry.text);
    }
}

#[test]
fn points_are_refused_in_compounds_and_what_is_named_instead_is_not() {
    for entry in entries() {
        let compound = format!("{}/min", entry.text);
        match entry.plain_instead {
            Some(plain) => {
                assert!(parse(&compound).is_err(), "{compound}");
                let instead = parse(&format!("{plain}/min")).unwrap();
                assert_eq!(instead.dimension, parse("Pa/s").unwrap().dimension, "{compound}");
            }
            None => assert!(parse(&compound).is_ok(), "{compound}"),
        }
    }
}

#[test]
fn what_the_trade_types_gets_the_unit_it_means() {
    for (typed, meant) in [
        ("PSI G", "psig"),
        ("microns", "micron"),
        ("lbs", "lb"),
        ("deg F", "degF"),
        ("torr", "Torr"),
        ("in Hg", "inHgv"),
        ("F", "degF"),
        ("C", "degC"),
        ("deg", "degF"),
        ("KW", "kW"),
        ("kpa", "kPa"),
        ("psgi", "psig"),
        ("micorn", "micron"),
        ("inhgvv", "inHgv"),
        ("tonnes", "tonne"),
        ("hours", "h"),
        ("HRS", "h"),
        ("CFMM", "cfm"),
    ] {
        assert_eq!(suggest(typed).first().map(String::as_str), Some(meant), "{typed}");
    }
    for typed in ["", "zzz", "superheat", "xyzzyx", "12"] {
        assert_eq!(suggest(typed), Vec::<String>::new(), "{typed}");
    }
}

#[test]
fn every_suggestion_is_itself_a_unit() {
    for word in ["f", "c", "deg", "psf", "mph", "kg/cm2g", "lpm", "mmbtu", "a", "#", "µ", "btu/hr", "month", "pound"] {
        let suggested = suggest(word);
        assert!(!suggested.is_empty(), "{word}");
        for text in suggested {
            assert!(parse(&text).is_ok(), "{word}: {text}");
        }
    }
}
