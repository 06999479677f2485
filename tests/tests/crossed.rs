//! Every operation over every kind: what is let through comes to what is written down, and everything else is refused.
//!
//! `crossed__….snap` is to be read like a table of the algebra: a line that makes no sense is a hole in the checker.
#![allow(clippy::unwrap_used)]

use std::fmt::Write;

use dewline_lang::library::Library;
use dewline_lang::outcome::Outcome;
use dewline_tests::sheet::try_run;

/// One literal of each kind.
const VALUES: [&str; 19] = [
    "\"a\"",
    "true",
    "2026-03-01",
    "R-32",
    "nitrogen",
    "tube(3/8 in)",
    "5 F°",
    "50 degF",
    "300 K",
    "300 K absolute",
    "absolute(50 degF)",
    "5 psig",
    "20 inHgv",
    "500 micron",
    "3",
    "2 ft",
    "2 h",
    "3 K/min",
    "5 %",
];

const OF_ONE: [&str; 21] = [
    "-(A)",
    "not A",
    "sqrt(A)",
    "cbrt(A)",
    "abs(A)",
    "sign(A)",
    "exp(A)",
    "absolute(A)",
    "(A)^2",
    "(A)^(1/2)",
    "A as ft",
    "A as K",
    "A as K absolute",
    "A as psia",
    "A as %",
    "\"{A}\"",
    "\"{A as min}\"",
    "A within ± 1",
    "A.bore",
    "solve(x within A .. A where x == A)",
    "round_up(A, A)",
];

const OF_TWO: [&str; 22] = [
    "A + B",
    "A - B",
    "A * B",
    "A / B",
    "A ^ B",
    "A < B",
    "A == B",
    "A != B",
    "A and B",
    "if true then A else B",
    "if A then B else B",
    "A within B .. B",
    "A within ± B",
    "A within ± B of A",
    "A within ± 5 % of B",
    "round(A, B)",
    "min(A, B)",
    "median(A, B)",
    "spread(A, B)",
    "first(A, B)",
    "count(A, B)",
    "all(A, B)",
];

/// One column of each kind.
const TABLE: &str = "table t\n\
    n | p | T | d | k | g | v | m | tx | fl | at | rf | gs\n\
    number | % | degF | F° | K | psig | inHgv | micron | text | flag | time | refrigerant | gas\n\
    1 | 5 | 50 | 5 | 300 | 5 | 20 | 500 | \"x\" | true | 2026-03-01T08:00 | R-32 | nitrogen\n\
    2 | 6 | 60 | 6 | 310 | 6 | 10 | 400 | \"y\" | false | 2026-03-01T09:00 | R-410A | oxygen\n";

const COLUMNS: [&str; 13] = ["n", "p", "T", "d", "k", "g", "v", "m", "tx", "fl", "at", "rf", "gs"];

const OF_COLUMN: [&str; 16] = [
    "sum(A)",
    "mean(A)",
    "median(A)",
    "min(A)",
    "max(A)",
    "spread(A)",
    "count(A)",
    "first(A)",
    "last(A)",
    "all(A)",
    "any(A)",
    "mean(taken(A))",
    "mean(t.n where A)",
    "last(previous(A))",
    "last(elapsed(A))",
    "t[1].COLUMN",
];

const OF_COLUMNS: [&str; 3] = ["weighted_mean(A, by = B)", "slope(A, B)", "interpolate(first(A), A, B)"];

/// What the cell `a` comes to; nothing if the sheet is refused.
fn came_to(library: &Library, sheet: &str) -> Option<String> {
    let outcome: Outcome = try_run(library, sheet).ok()?;
    let cell = outcome.cells.iter().find(|cell| cell.name == "a" || cell.name.starts_with("a."))?;
    Some(match (&cell.shown, outcome.errors.first()) {
        (Some(shown), _) => shown.text.clone(),
        (None, Some(error)) => format!("broken: {}", error.message),
        (None, None) => "waits".to_string(),
    })
}

fn crossed(library: &Library, lead: &str, operations: &[&str], each: &[(String, String, String)]) -> String {
    let mut told = String::new();
    for operation in operations {
        for (one, other, column) in each {
            let formula = operation.replace("COLUMN", column).replace('A', one).replace('B', other);
            if let Some(value) = came_to(library, &format!("{lead}a = {formula}\n")) {
                writeln!(told, "{formula}  →  {value}").unwrap();
            }
        }
        told.push('\n');
    }
    told
}

fn alone(all: &[&str], lead: &str) -> Vec<(String, String, String)> {
    all.iter().map(|one| (format!("{lead}{one}"), String::new(), (*one).to_string())).collect()
}

fn pairs(all: &[&str], lead: &str) -> Vec<(String, String, String)> {
    let pair = |one: &&str, other: &&str| (format!("{lead}{one}"), format!("{lead}{other}"), (*one).to_string());
    all.iter().flat_map(|one| all.iter().map(move |other| pair(one, other))).collect()
}

#[test]
fn values() {
    let library = dewline_stdlib::library();
    let told =
        crossed(&library, "", &OF_ONE, &alone(&VALUES, "")) + &crossed(&library, "", &OF_TWO, &pairs(&VALUES, ""));
    insta::assert_snapshot!("values", told);
}

#[test]
fn columns() {
    let library = dewline_stdlib::library();
    let lead = format!("{TABLE}end\n");
    let told = crossed(&library, &lead, &OF_COLUMN, &alone(&COLUMNS, "t."))
        + &crossed(&library, &lead, &OF_COLUMNS, &pairs(&COLUMNS, "t."));
    insta::assert_snapshot!("columns", told);
}
