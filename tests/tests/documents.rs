//! What the documents show is true: their snippets run and come to what they say.
//!
//! ` ```dew ` is a sheet; a line with `# → text` is a cell shown so. ` ```dew-error ` is a sheet of mistakes; exactly the
//! lines with `# →` have an error.
#![allow(clippy::unwrap_used, clippy::panic)]

use dewline_lang::host::Host;
use dewline_lang::job;
use dewline_lang::limits;
use dewline_tests::program::dewline_reading;
use dewline_tests::sheet::{Shelf, cell, run};

const REFERENCE: &str = include_str!("../../lang/REFERENCE.md");
const README: &str = include_str!("../../README.md");

/// The texts between ` ```kind ` and ` ``` `.
fn fences<'a>(document: &'a str, kind: &str) -> Vec<&'a str> {
    let opening = format!("```{kind}\n");
    document.split(&opening).skip(1).filter_map(|rest| rest.split_once("\n```").map(|(inside, _)| inside)).collect()
}

fn name_of(line: &str) -> &str {
    line.split(['=', ':'])
        .next()
        .unwrap_or("")
        .trim()
        .trim_start_matches("input ")
        .trim_start_matches("reading ")
        .trim()
}

#[test]
fn snippets_come_to_what_they_say() {
    let library = dewline_stdlib::library();
    let mut shown = 0;
    for snippet in [REFERENCE, README].into_iter().flat_map(|document| fences(document, "dew")) {
        let outcome = run(&library, snippet);
        let mut name = "";
        for line in snippet.lines() {
            if line.contains(" = ") && !name_of(line).is_empty() && name_of(line).split_whitespace().count() == 1 {
                name = name_of(line);
            }
            if let Some((_, expected)) = line.split_once("# → ") {
                // A formula over several lines carries its answer on the last one.
                assert_eq!(cell(&outcome, name), expected.trim(), "`{name}` in\n{snippet}");
                shown += 1;
            }
        }
    }
    assert!(shown >= 20, "only {shown} answers were found in the documents");
}

#[test]
fn mistakes_are_refused_where_they_stand() {
    let library = dewline_stdlib::library();
    let host: &dyn Host = &Shelf::default();
    for snippet in fences(REFERENCE, "dew-error").into_iter().chain(fences(README, "dew-error")) {
        let checked = job::check(&library, host, "snippet.dew", snippet);
        let mut lines: Vec<usize> = checked
            .diagnostics
            .iter()
            .map(|one| checked.sources.line_column(one.span().file, one.span().start).0)
            .collect();
        lines.sort_unstable();
        let marked: Vec<usize> =
            snippet.lines().enumerate().filter(|(_, line)| line.contains("# → ")).map(|(at, _)| at + 1).collect();
        assert_eq!(lines, marked, "{:#?}\n{snippet}", checked.diagnostics);
    }
}

/// ` ```console ` shows a command and lines of what it prints, in order; lines between them may be left out.
#[test]
fn commands_print_what_is_shown() {
    let blocks = fences(README, "console");
    assert!(blocks.len() >= 2);
    for block in blocks {
        let (command, shown) = block.split_once('\n').unwrap();
        // Documents name files from the top of the project, tests run in the folder of their crate.
        let command = command.strip_prefix("$ dewline").unwrap().replace("examples/", "../examples/");
        // What is typed line by line stands behind `> `.
        let typed: Vec<&str> = shown.lines().filter_map(|line| line.strip_prefix("> ")).collect();
        let left = dewline_reading(
            &command.split_whitespace().collect::<Vec<_>>(),
            format!("{}\n", typed.join("\n")).as_bytes(),
        );
        let mut printed = left.out.lines();
        for line in shown.lines().filter(|line| !line.trim().is_empty() && !line.starts_with("> ")) {
            assert!(printed.any(|one| one == line), "not printed, or not here: {line}\n{}{}", left.out, left.err);
        }
    }
}

#[test]
fn the_table_of_limits_is_current() {
    let limits = [
        ("Bytes of one sheet", limits::SHEET_BYTES as u64),
        ("Open brackets inside one another", limits::NESTING as u64),
        ("Operators in one expression", limits::EXPRESSION_TOKENS as u64),
        ("Operations inside one another in one expression", limits::EXPRESSION_DEPTH as u64),
        ("Definitions that call one another", limits::DEFINE_DEPTH as u64),
        ("Named values of one sheet", limits::CELLS as u64),
        ("Rows of one table", limits::ROWS as u64),
        ("Columns of one table", limits::COLUMNS as u64),
        ("Sheets inside sheets", limits::FILL_DEPTH as u64),
        ("Cells of all filled sheets together", limits::FILLED_CELLS as u64),
        ("Calls of definitions after expansion", limits::CALLS),
        ("`solve` inside `solve`", limits::SOLVE_DEPTH as u64),
        ("Steps of one `solve`", limits::SOLVE_STEPS as u64),
        ("Work of one run", limits::WORK),
        ("Values in all tables of one run", limits::VALUES as u64),
        ("Bytes of one text made by a sheet", limits::TEXT_BYTES as u64),
        ("Bytes of all texts of one run", limits::TEXTS_BYTES as u64),
        ("Contributions to the doubt of all values", limits::DOUBT as u64),
        ("Errors reported of one sheet", limits::ERRORS as u64),
        ("Broken rows of one column", limits::FAULTS as u64),
    ];
    let rows: Vec<&str> = REFERENCE.lines().skip_while(|line| !line.starts_with("| of | at most")).skip(2).collect();
    for (about, bound) in limits {
        let row = rows.iter().find(|row| row.starts_with(&format!("| {about}")));
        let row = row.unwrap_or_else(|| panic!("no row about {about}"));
        let told = row.trim_end_matches(" |").rsplit('|').next().unwrap().trim().replace(',', "");
        let told = match told.strip_suffix(" MiB") {
            Some(mebibytes) => mebibytes.parse::<u64>().unwrap() * 1024 * 1024,
            None => told.parse().unwrap(),
        };
        assert_eq!(told, bound, "{about}");
    }
}
