//! Sheets that nobody would write: no panic, no hang, no overflow of the small stack that a thread has by default.

use std::time::{Duration, Instant};

use super::read;
use super::recovery::SAMPLE;
use crate::limits;
use crate::source::FileId;
use crate::syntax::{format, parse_expression, parse_field, parse_literal};

/// Reads a text on a thread with the stack a thread has by default, lays it out, walks and drops its tree.
fn bears(text: String) -> usize {
    let begin = Instant::now();
    let shown: String = text.chars().take(40).collect();
    let reader = std::thread::Builder::new().stack_size(2 * 1024 * 1024);
    let count = reader
        .spawn(move || {
            let parsed = read(&text);
            for diagnostic in &parsed.diagnostics {
                assert!(text.get(diagnostic.span().range()).is_some(), "{diagnostic:?}");
            }
            // Copying and writing walk the whole tree.
            let _ = format!("{:?}", parsed.sheet.clone()).len();
            let _ = format(&text);
            parsed.diagnostics.len()
        })
        .unwrap()
        .join()
        .unwrap();
    assert!(begin.elapsed() < Duration::from_secs(120), "{shown} took {:?}", begin.elapsed());
    count
}

#[test]
fn long_lines() {
    let megabytes = 10 * 1024 * 1024;
    assert_eq!(bears("a".repeat(megabytes)), 1);
    assert_eq!(bears("(".repeat(megabytes)), 1);
    let most = limits::SHEET_BYTES;
    assert_eq!(bears("a".repeat(most)), 1);
    assert_eq!(bears("1".repeat(most)), 1);
    assert_eq!(bears(format!("x = {}", "1".repeat(most - 4))), 1);
    assert_eq!(bears(format!("x = \"{}", "a".repeat(most - 5))), 1);
    assert_eq!(bears("\n".repeat(most)), 0);
    assert_eq!(bears("#".repeat(most)), 0);
    for part in [
        "(",
        ")",
        "\"",
        "{",
        "a ",
        "1 ",
        "1 psi ",
        "x=",
        ": ",
        "± ",
        "| ",
        "? ",
        "- ",
        "end\n",
        "a = 1\n",
        "stage \"a\"\n",
        "°",
    ] {
        bears(part.repeat(50_000 / part.len()));
        bears(format!("x = {}", part.repeat(50_000 / part.len())));
        bears(format!("table t\na|b\n-|-\n{}", part.repeat(50_000 / part.len())));
    }
}

#[test]
fn deep_and_long_formulas() {
    for (open, close) in [
        ("(", ")"),
        ("f(", ")"),
        ("a[", "]"),
        ("-", ""),
        ("not ", ""),
        ("if a then b else ", ""),
        ("if ", " then a else b"),
        ("2^", ""),
        ("(1 + ", ")"),
        ("f(1 + 2 * ", ")"),
        ("not f(x = 1 + 2 * -a.b[", "])"),
        ("solve(x within 1 .. ", " where x == 1)"),
    ] {
        for depth in [limits::NESTING - 1, limits::NESTING, limits::NESTING + 1, 1_000, 20_000] {
            bears(format!("x = {}a{}", open.repeat(depth), close.repeat(depth)));
            bears(format!("x = {}a", open.repeat(depth)));
            bears(format!("x = \"{{{}a{}}}\"", open.repeat(depth), close.repeat(depth)));
        }
    }
    for part in [
        " + a",
        " * a",
        " - 1 psi",
        " and a",
        " or a",
        " ^ a",
        ".a",
        "[1]",
        " as psi",
        " within 1 .. 2",
        ", a",
        " where a",
        " < a",
        " / 2",
    ] {
        for length in [limits::EXPRESSION_TOKENS - 10, 20_000] {
            bears(format!("x = a{}", part.repeat(length)));
            bears(format!("x = max(a{})", part.repeat(length)));
            bears(format!("input x = a{}", part.repeat(length)));
            bears(format!("require a{}", part.repeat(length)));
        }
    }
}

#[test]
fn every_prefix_of_a_sheet() {
    for (end, _) in SAMPLE.char_indices() {
        let text = &SAMPLE[..end];
        let parsed = read(text);
        assert!(
            parsed.diagnostics.len() <= 4,
            "{end}: {:?}",
            parsed.diagnostics.iter().map(|d| &d.message).collect::<Vec<_>>()
        );
        let _ = format(text);
    }
}

#[test]
fn every_sheet_without_one_letter() {
    for (at, letter) in SAMPLE.char_indices() {
        let text = format!("{}{}", &SAMPLE[..at], &SAMPLE[at + letter.len_utf8()..]);
        // One lost letter may unmake a block: its lines then stand where they cannot, its `end` with them.
        let found = read(&text).diagnostics.len();
        assert!(found <= 12, "{found} errors without byte {at}");
    }
}

/// Numbers that look random and are the same in every run.
struct Dice(u64);

impl Dice {
    fn throw(&mut self, sides: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % sides
    }
}

#[test]
fn random_texts() {
    let words = [
        "x",
        " ",
        "\n",
        "=",
        ":",
        "(",
        ")",
        "[",
        "]",
        "1",
        "0.5",
        "psi",
        "degF",
        "°",
        "F°",
        "%",
        "±",
        "..",
        "\"",
        "{",
        "}",
        "|",
        "?",
        "-",
        "+",
        "*",
        "/",
        "^",
        ",",
        ".",
        "#",
        "as",
        "if",
        "then",
        "else",
        "and",
        "or",
        "not",
        "within",
        "where",
        "table t\n",
        "a | b\n",
        "- | psi\n",
        "end\n",
        "stage \"s\"\n",
        "define f(x)",
        "input ",
        "reading ",
        "require ",
        "each ",
        "note ",
        "fill \"p\" as q (",
        "instrument g\n",
        "accuracy ",
        "2026-03-14",
        "T07:40",
        "R-410A",
        "solve(",
        "\u{0}",
        "é",
        "½",
        "\u{feff}",
        "\r",
        "true",
        "1,280",
        "40'",
        "lb oz",
        "in ",
        "1/2",
        "'",
    ];
    let mut dice = Dice(20_260_314);
    for _ in 0..4_000 {
        let text: String = (0..dice.throw(60)).map(|_| words[dice.throw(words.len())]).collect();
        let parsed = read(&text);
        for label in parsed.diagnostics.iter().flat_map(|diagnostic| &diagnostic.labels) {
            assert!(text.get(label.span.range()).is_some(), "{text:?}: {label:?}");
        }
        if let Ok(once) = format(&text) {
            assert_eq!(format(&once).as_ref(), Ok(&once), "{text:?}");
        }
        let _ = parse_expression(FileId::default(), &text);
        let _ = parse_literal(FileId::default(), &text);
        let _ = parse_field(&text);
    }
    for _ in 0..2_000 {
        let bytes: Vec<u8> = (0..dice.throw(200)).map(|_| dice.throw(256) as u8).collect();
        let text = String::from_utf8_lossy(&bytes);
        read(&text);
        let _ = format(&text);
    }
}
