//! Every declaration is whole, and its worked examples come out as printed.

#![allow(clippy::unwrap_used, clippy::panic)]

use dewline_lang::host::NoFiles;
use dewline_lang::job::{Settings, calculate, check};
use dewline_lang::library::{Basic, Body, Function, Library, Returns};

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

/// The sets of words that a function can answer.
fn answered(returns: &Returns) -> Vec<(&'static str, Basic)> {
    match returns {
        Returns::One(basic) | Returns::Column(basic) => vec![("answer", *basic)],
        Returns::Record(fields) | Returns::Rows(fields) => fields.iter().map(|one| (one.name, one.kind)).collect(),
        _ => Vec::new(),
    }
}

#[test]
fn verdicts_are_of_whole_sets() {
    // What tells something in sentences, or names what the caller named.
    const FREE: &[&str] = &["next", "signs", "why", "missed", "moved", "advice", "edition", "room", "segment"];
    // One text put together of names and figures, or the names of rows.
    const FREE_FUNCTIONS: &[&str] = &["composition", "properties_source", "binary_lamps", "network"];
    let mut sets = 0;
    for function in dewline_stdlib::library().functions() {
        for (field, basic) in answered(&function.returns) {
            let place = format!("{}.{field}", function.name);
            match basic {
                Basic::Text => assert!(
                    FREE.contains(&field) || FREE_FUNCTIONS.contains(&function.name),
                    "{place} answers with a text and declares no words"
                ),
                Basic::OneOf(words) => {
                    sets += 1;
                    assert!(words.len() > 1, "{place} has one word only");
                    for (at, word) in words.iter().enumerate() {
                        assert!(!word.contains('…') && word.trim() == *word && !word.is_empty(), "{place}: \"{word}\"");
                        let folded = word.to_lowercase();
                        let twice = words[..at].iter().any(|other| other.to_lowercase() == folded);
                        assert!(!twice, "{place} has \"{word}\" twice");
                    }
                }
                _ => {}
            }
        }
    }
    assert!(sets >= 25, "only {sets} sets");
}

/// The words inside the answers of all worked examples are held against the declarations by the language itself: an answer
/// outside would be a broken value and no example would come out as printed. Here a function that breaks its word is told.
#[test]
fn an_answer_outside_of_its_set_is_broken() {
    let mut library = dewline_stdlib::library();
    let words = Basic::OneOf(&["open", "shut"]);
    library.add(Function::new("half_open", "test", "a word", Returns::One(words), Body::Values(|_| Ok("ajar".into()))));
    let calculated = calculate(&library, "half_open()", None);
    let told: Vec<&str> = calculated.diagnostics.iter().map(|one| one.message.as_str()).collect();
    assert_eq!(told, ["`half_open` answered \"ajar\", a word that it does not declare"]);
}
