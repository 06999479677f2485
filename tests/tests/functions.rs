//! Every function of the library is declared in full, and its worked example comes to what it says.
#![allow(clippy::unwrap_used, clippy::panic)]

use dewline_lang::job;
use dewline_lang::library::Library;
use dewline_tests::own_functions;
use dewline_tests::sheet::{cell, try_run};

#[test]
fn every_declaration_is_complete() {
    let library = own_functions::library();
    assert!(library.functions().count() >= 15, "the trade library is nearly empty");
    for function in library.functions() {
        let name = function.name;
        for (what, text) in [
            ("what it gives", function.gives),
            ("its subject", function.subject),
            ("its equation", function.equation),
            ("its source", function.source),
            ("where it holds", function.validity),
        ] {
            assert!(!text.trim().is_empty(), "`{name}` does not say {what}");
        }
        assert!(!function.examples.is_empty(), "`{name}` has no worked example");
        for parameter in &function.parameters {
            assert!(!parameter.about.is_empty(), "`{name}` does not say what `{}` is", parameter.name);
        }
        for group in &function.groups {
            for member in group.parameters {
                assert!(function.parameters.iter().any(|one| one.name == *member), "`{name}` groups `{member}`");
            }
        }
    }
}

#[test]
fn every_worked_example_comes_to_what_it_says() {
    let library = own_functions::library();
    let mut wrong = Vec::new();
    for function in library.functions() {
        for example in &function.examples {
            let shown = answer(&library, example.expression);
            if shown != example.gives {
                wrong.push(format!("{}\n  says {}\n  gives {shown}", example.expression, example.gives));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What an example comes to: an expression as `calc` answers it, or the cell `answer` of a sheet.
fn answer(library: &Library, expression: &str) -> String {
    if expression.contains('\n') {
        return match try_run(library, expression) {
            Ok(outcome) => cell(&outcome, "answer"),
            Err(told) => told.join("; "),
        };
    }
    let calculated = job::calculate(library, expression, None);
    match calculated.answers.as_slice() {
        [(_, value)] => value.clone(),
        answers => {
            let told: Vec<&String> = calculated.diagnostics.iter().map(|one| &one.message).collect();
            format!("{answers:?} {told:?}")
        }
    }
}
