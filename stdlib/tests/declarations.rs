//! Every declaration is whole, and its worked examples come out as printed.

#![allow(clippy::unwrap_used, clippy::panic)]

use dewline_lang::host::NoFiles;
use dewline_lang::job::{Settings, calculate, check};
use dewline_lang::library::Library;

/// What an expression, or the cell `answer` of a small sheet, is shown as.
fn answer(library: &Library, expression: &str) -> String {
    if !expression.contains('\n') {
        let calculated = calculate(library, expression, None);
        let problems: Vec<String> = calculated.diagnostics.iter().map(|one| one.message.clone()).collect();
        let answers: Vec<String> = calculated.answers.into_iter().map(|(_, shown)| shown).collect();
        return [answers, problems].concat().join("; ");
    }
    let checked = check(library, &NoFiles, "example", expression);
    let Some(job) = checked.job else {
        return checked.diagnostics.iter().map(|one| one.message.clone()).collect::<Vec<_>>().join("; ");
    };
    let run = job.run(library, &NoFiles, &Settings::default());
    let cell = run.outcome.cells.iter().find(|cell| cell.name == "answer").unwrap();
    let problems: Vec<String> = run.diagnostics.iter().map(|one| one.message.clone()).collect();
    cell.shown.as_ref().map_or_else(|| problems.join("; "), |shown| shown.text.clone())
}

#[test]
fn every_example_comes_out_as_printed() {
    let library = dewline_stdlib::library();
    let wrong: Vec<String> = library
        .functions()
        .flat_map(|function| &function.examples)
        .filter_map(|example| {
            let found = answer(&library, example.expression);
            (found != example.gives)
                .then(|| format!("{}\n  gives {found}\n  not   {}", example.expression, example.gives))
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_declaration_is_whole() {
    for function in dewline_stdlib::library().functions() {
        let name = function.name;
        for (part, text) in [
            ("what it gives", function.gives),
            ("equation", function.equation),
            ("source", function.source),
            ("validity", function.validity),
        ] {
            assert!(!text.is_empty(), "{name} lacks its {part}");
        }
        assert!(!function.examples.is_empty(), "{name} lacks an example");
        for parameter in &function.parameters {
            assert!(!parameter.about.is_empty(), "{name} does not say what {} is", parameter.name);
        }
    }
}
