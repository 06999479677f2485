//! Hostile sheets get an error that names what was too much; none crashes, hangs or eats the memory.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::fmt::Write;
use std::time::{Duration, Instant};

use dewline_lang::job::{self, Settings};
use dewline_lang::library::Library;
use dewline_tests::sheet::{Shelf, errors, run, try_run};
use proptest::prelude::*;

/// Even an unoptimised build must be done by then.
const PATIENCE: Duration = Duration::from_secs(20);

/// The messages of a sheet that must be refused, in good time.
fn refused(what: &str, text: &str) -> Vec<String> {
    let begin = Instant::now();
    let told = errors(&Library::new(), text);
    assert!(begin.elapsed() < PATIENCE, "{what} took {:?}", begin.elapsed());
    assert!(!told.is_empty(), "{what} was let through");
    told
}

fn accepted(what: &str, text: &str) {
    let begin = Instant::now();
    let told = errors(&Library::new(), text);
    assert!(begin.elapsed() < PATIENCE, "{what} took {:?}", begin.elapsed());
    assert!(told.is_empty(), "{what}: {told:?}");
}

#[test]
fn brackets_inside_brackets() {
    for (open, close) in [("(", ")"), ("max(1, ", ")"), ("t[", "]"), ("if (", ") then 1 else 2"), ("-(", ")")] {
        let told = refused(open, &format!("a = {}1{}\n", open.repeat(50_000), close.repeat(50_000)));
        assert!(told.len() <= 101, "{open}: {} messages", told.len());
    }
    refused("brackets left open", &"(".repeat(100_000));
    refused("brackets never opened", &format!("a = 1{}\n", ")".repeat(100_000)));
}

#[test]
fn operators_without_brackets() {
    refused("minus signs", &format!("a = {}1\n", "-".repeat(200_000)));
    refused("nots", &format!("a = {}true\n", "not ".repeat(100_000)));
    refused("a sum", &format!("a = 1{}\n", " + 1".repeat(100_000)));
    refused("a power", &format!("a = 2{}\n", "^1".repeat(100_000)));
    refused("branches", &format!("a = {}1\n", "if true then 1 else ".repeat(50_000)));
    refused("fields", &format!("a = b{}\n", ".c".repeat(100_000)));
    let told = refused("a sum deeper than may be", &format!("a = 1{}\n", " + 1".repeat(400)));
    assert!(told[0].contains("more than 200 operations inside one another"), "{told:?}");
    accepted("a long sum that is still a sum", &format!("a = 1{}\n", " + 1".repeat(150)));
}

#[test]
fn blocks_inside_blocks() {
    refused("stages", &"stage \"a\"\n".repeat(20_000));
    refused("tables", &"table t\n".repeat(20_000));
}

#[test]
fn sizes() {
    refused("a sheet of five megabytes", &"# a comment that goes on\n".repeat(200_000));
    refused("one line of five megabytes", &"x".repeat(5_000_000));
    let mut many = String::new();
    for index in 0..100_001 {
        writeln!(many, "c{index} = 1").unwrap();
    }
    refused("too many names", &many);
    let columns: Vec<String> = (0..1_001).map(|index| format!("c{index}")).collect();
    refused("too many columns", &format!("table t\n{}\n{}\nend\n", columns.join("|"), vec!["psi"; 1_001].join("|")));
}

#[test]
fn errors_are_counted_rather_than_poured_out() {
    let told = refused("ten thousand mistakes", &"a = 5 F\n".repeat(10_000));
    assert!(told.len() <= 101, "{} messages", told.len());
}

#[test]
fn errors_of_a_run_are_counted_too() {
    let rows: String = (0..250).map(|row| format!("  {row}\n")).collect();
    let sheet = format!("table t\n  k\n  number\n{rows}  v = 1 / (k - k)\n  w = v + 1\nend\n");
    let outcome = run(&Library::new(), &sheet);
    assert_eq!(outcome.errors.len(), 100);
    assert_eq!(outcome.diagnostics.len(), 100);
    assert_eq!(outcome.errors[98].message, "this divides by zero");
    assert_eq!(outcome.errors[99].message, "this divides by zero; and 150 more errors after this one");
    assert_eq!(outcome.tables[0].columns[1].broken.len(), 250);
    // Ten thousand cells with an error of their own each, all told of at once.
    let cells: String = (0..10_000).map(|at| format!("c{at} = 1 / (0 * {at})\n")).collect();
    let begin = Instant::now();
    let told = errors(&Library::new(), &cells);
    assert!(begin.elapsed() < PATIENCE, "{:?}", begin.elapsed());
    assert_eq!(told.len(), 100);
    assert!(told[99].ends_with("and 9900 more errors after this one"), "{}", told[99]);
}

#[test]
fn what_a_run_holds_is_bounded() {
    let doubled: String = (0..13).map(|at| format!("t{} = \"{{t{at}}}{{t{at}}}\"\n", at + 1)).collect();
    let copies: String = (0..200).map(|at| format!("u{at} = \"{{t13}}\"\n")).collect();
    let told = refused("a hundred megabytes of text", &format!("t0 = \"{}\"\n{doubled}{copies}", "x".repeat(64)));
    assert!(told.iter().any(|one| one.starts_with("D0618")), "{:?}", told.first());
    // Columns that come to more values than a run may hold.
    let rows: String = (0..10_000).map(|row| format!("  {row}\n")).collect();
    let formulas: String = (0..510).map(|at| format!("  f{at} = k + {at}\n")).collect();
    let told = refused("five million values", &format!("table t\n  k\n  number\n{rows}{formulas}end\n"));
    assert!(told.iter().any(|one| one.contains("more than 5000000 values")), "{:?}", told.first());
}

#[test]
fn work_is_bounded() {
    // Ten to the sixth calls of a definition would follow from seven lines.
    let mut text = "define f0(x) = x\n".to_string();
    for level in 1..=30 {
        writeln!(text, "define f{level}(x) = f{}(x) + f{}(x)", level - 1, level - 1).unwrap();
    }
    refused("calls that double thirty times", &format!("{text}a = f30(1)\n"));
    // A text that doubles at every step.
    let mut text = "a0 = \"xxxxxxxxxx\"\n".to_string();
    for step in 1..=60 {
        writeln!(text, "a{step} = \"{{a{0}}}{{a{0}}}\"", step - 1).unwrap();
    }
    refused("a text that doubles sixty times", &text);
}

#[test]
fn a_chain_of_cells_as_long_as_a_sheet_may_be() {
    let mut text = "c0 = 1\n".to_string();
    for index in 1..20_000 {
        writeln!(text, "c{index} = c{} + 1", index - 1).unwrap();
    }
    accepted("a chain of twenty thousand cells", &text);
    let mut text = "d0(x) = x".to_string();
    text.insert_str(0, "define ");
    text.push('\n');
    for index in 1..5_000 {
        writeln!(text, "define d{index}(x) = d{}(x) + 1", index - 1).unwrap();
    }
    // Either it is computed or it is refused; the stack must bear it.
    let begin = Instant::now();
    let _ = errors(&Library::new(), &format!("{text}a = d4999(1)\n"));
    assert!(begin.elapsed() < PATIENCE);
}

#[test]
fn sheets_that_fill_themselves_end() {
    let mut shelf = Shelf::default();
    shelf.0.insert("a.dew".to_string(), "fill \"b.dew\" as x ()\nfill \"b.dew\" as y ()\n".to_string());
    shelf.0.insert("b.dew".to_string(), "fill \"a.dew\" as x ()\nfill \"a.dew\" as y ()\n".to_string());
    let begin = Instant::now();
    let checked = job::check(&Library::new(), &shelf, "top.dew", "fill \"a.dew\" as top ()\n");
    assert!(checked.job.is_none() && !checked.diagnostics.is_empty());
    assert!(begin.elapsed() < PATIENCE);
}

#[test]
fn what_is_filled_in_all_is_bounded() {
    let mut shelf = Shelf::default();
    let cells: String = (0..1_000).map(|index| format!("c{index} = {index}\n")).collect();
    shelf.0.insert("form.dew".to_string(), cells);
    let library = Library::new();
    // One by one, before running.
    let filled: String = (0..401).map(|at| format!("fill \"form.dew\" as f{at} ()\n")).collect();
    let checked = job::check(&library, &shelf, "top.dew", &filled);
    let told = &checked.diagnostics[0];
    assert!(checked.job.is_none() && told.message.contains("more than 400000 values"), "{told:?}");
    // For each row, while running, where the rows may come from a file.
    let rows: String = (0..401).map(|row| format!("  {row}\n")).collect();
    let each = format!("table t\n  k\n  number\n{rows}end\nfill \"form.dew\" as f each t ()\n");
    let job = job::check(&library, &shelf, "top.dew", &each).job.unwrap();
    let run = job.run(&library, &shelf, &Settings { values: Vec::new() });
    let told = &run.outcome.errors[0];
    assert!(told.message.contains("401 fillings make more than 400000 values"), "{told:?}");
}

#[test]
fn forms_that_double_at_every_depth_end() {
    let mut shelf = Shelf::default();
    for depth in 0..16 {
        let next = depth + 1;
        let text = format!("fill \"f{next}.dew\" as x ()\nfill \"f{next}.dew\" as y ()\nv = 1\n").repeat(1);
        shelf.0.insert(format!("f{depth}.dew"), text);
    }
    let cells: String = (0..1_000).map(|index| format!("c{index} = {index}\n")).collect();
    shelf.0.insert("f16.dew".to_string(), cells);
    let begin = Instant::now();
    let checked = job::check(&Library::new(), &shelf, "top.dew", "fill \"f0.dew\" as top ()\n");
    assert!(checked.job.is_none(), "sixty-five million cells were accepted");
    assert!(begin.elapsed() < PATIENCE, "{:?}", begin.elapsed());
}

/// Pieces of the language in any order: what people type while they are still typing.
const PIECES: &[&str] = &[
    "a",
    "b",
    "1",
    "3/8",
    "1-1/8",
    " in",
    " psig",
    " degF",
    " F°",
    "°",
    "±",
    " ± ",
    "\"",
    "\"x\"",
    "{",
    "}",
    "(",
    ")",
    "[",
    "]",
    ",",
    "|",
    "?",
    "\n",
    " = ",
    ":",
    ".",
    "..",
    "+",
    "-",
    "*",
    "/",
    "^",
    "<",
    "==",
    " within ",
    " if ",
    " then ",
    " else ",
    " where ",
    " as ",
    "table t\n",
    "stage \"s\"\n",
    "end\n",
    "input ",
    "reading ",
    "require ",
    "each ",
    "define f(",
    "solve(",
    "R-32",
    "2026-03-14",
    "T07:40",
    " at ",
    " by ",
    "#",
    "note ",
    "fill \"f\" as f (",
    "use \"u\"",
    "confirm ",
    "waive ",
    "units IP\n",
    "site altitude = ",
    "chart line ",
    "instrument i ",
    "accuracy ",
    "\u{0}",
    "\u{feff}",
    "é",
    "²",
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 3_000, ..ProptestConfig::default() })]

    #[test]
    fn no_heap_of_pieces_crashes(pieces in proptest::collection::vec(proptest::sample::select(PIECES), 0..60)) {
        let _ = try_run(&dewline_stdlib::library(), &pieces.concat());
    }

    #[test]
    fn no_text_crashes(text in ".{0,200}") {
        let _ = try_run(&Library::new(), &text);
    }
}
