//! What must hold for every sheet, tried on many made at random.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::BTreeMap;

use dewline_lang::outcome::Sort;
use dewline_lang::units;
use dewline_tests::oracle::{IllKinded, Stance, Value, expressions};
use dewline_tests::sheet::{cell, run, si, try_run};
use proptest::prelude::*;
use proptest::sample::select;

const ATMOSPHERE: f64 = 101_325.0;

fn unit_words() -> Vec<&'static str> {
    units::all().iter().flat_map(|group| group.units).map(|entry| entry.text).collect()
}

fn sort_of(value: Value) -> Sort {
    match value.stance {
        Stance::Point => Sort::Point,
        Stance::Difference | Stance::Unsaid => Sort::Difference,
        Stance::FromZero => Sort::FromZero,
        Stance::Plain if value.is_number() => Sort::Number,
        Stance::Plain => Sort::Quantity,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4_000, ..ProptestConfig::default() })]

    /// The kind checker and an evaluator that carries kinds along, written anew, agree on what is refused and on the kind
    /// of what is not. Numbers are held against it in `differential.rs`.
    #[test]
    fn kinds_agree_with_evaluation(expression in expressions()) {
        let library = dewline_lang::library::Library::new();
        let sheet = format!("x = {}\n", expression.text());
        match (expression.value(), try_run(&library, &sheet)) {
            (Err(IllKinded), got) => prop_assert!(got.is_err(), "must be refused: {sheet}"),
            (Ok(_), Err(told)) => prop_assert!(false, "refused: {told:?}\n{sheet}"),
            (Ok(value), Ok(outcome)) => prop_assert_eq!(outcome.cells[0].kind, sort_of(value), "{}", sheet),
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1_000, ..ProptestConfig::default() })]

    /// Every unit leads to SI and back.
    #[test]
    fn conversions_lead_back(word in select(unit_words()), number in -1e6..1e6f64) {
        let unit = units::parse(word).unwrap();
        let back = unit.from_si(unit.to_si(number, ATMOSPHERE), ATMOSPHERE);
        // A number near a scale's own zero is known to the digits of the offset that was added.
        let offset = unit.to_si(0.0, ATMOSPHERE).abs() / unit.meaning.factor();
        prop_assert!((back - number).abs() <= 1e-12 * (number.abs() + offset), "{number} {word} came back as {back}");
    }

    /// `as` there and back changes nothing, whatever the two units.
    #[test]
    fn converting_in_a_sheet_leads_back(
        word in select(unit_words()), other in select(unit_words()), number in 1u32..100_000
    ) {
        let (unit, target) = (units::parse(word).unwrap(), units::parse(other).unwrap());
        let number = f64::from(number) / 16.0;
        let library = dewline_lang::library::Library::new();
        let sheet = format!("x = {number:?} {word}\ny = x as {other}\nz = y as {word}\n");
        let alike = unit.dimension == target.dimension;
        match try_run(&library, &sheet) {
            Err(_) => prop_assert!(!alike || unit.meaning.stance() != target.meaning.stance(), "{sheet}"),
            Ok(outcome) => {
                prop_assert!(alike, "{sheet}");
                prop_assert_eq!(si(&outcome, "x").to_bits(), si(&outcome, "z").to_bits(), "{}", sheet);
                // A vacuum may be deeper than the atmosphere; then all three are broken.
                prop_assert_eq!(cell(&outcome, "x"), cell(&outcome, "z"), "{}", sheet);
            }
        }
    }

    /// `x - x` is a zero difference, in any unit.
    #[test]
    fn nothing_differs_from_itself(word in select(unit_words()), number in 1u32..10_000) {
        let library = dewline_lang::library::Library::new();
        let number = f64::from(number) / 1024.0;
        let outcome = run(&library, &format!("x = {number:?} {word}\nd = x - x\n"));
        if cell(&outcome, "x") != "broken" {
            prop_assert_eq!(si(&outcome, "d"), 0.0);
            let points = units::parse(word).unwrap().dimension.has_points();
            prop_assert_eq!(outcome.cells[1].kind == Sort::Difference, points);
        }
    }

    /// The order in which statements are written does not matter.
    #[test]
    fn the_order_of_statements_does_not_matter(
        steps in proptest::collection::vec((0usize..100, 0usize..100, 0usize..4), 2..20),
        seed in any::<u64>(),
    ) {
        let mut lines = vec!["c0 = 3 psi".to_string(), "c1 = 40 psi".to_string()];
        for (index, (left, right, kind)) in steps.into_iter().enumerate() {
            let (left, right) = (left % (index + 2), right % (index + 2));
            let formula = match kind {
                0 => format!("c{left} + c{right}"),
                1 => format!("c{left} - c{right}"),
                2 => format!("max(c{left}, c{right})"),
                _ => format!("if c{left} > c{right} then c{left} else c{right} / 2"),
            };
            lines.push(format!("c{} = {formula}", index + 2));
        }
        let library = dewline_lang::library::Library::new();
        let values = |lines: &[String]| -> BTreeMap<String, Option<u64>> {
            let outcome = run(&library, &lines.join("\n"));
            outcome.cells.iter().map(|cell| (cell.name.clone(), cell.si.map(f64::to_bits))).collect()
        };
        let before = values(&lines);
        let mut state = seed | 1;
        for at in (1..lines.len()).rev() {
            // A xorshift step is all the randomness that a shuffle needs here.
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            lines.swap(at, (state % (at as u64 + 1)) as usize);
        }
        prop_assert_eq!(before, values(&lines));
    }
}
