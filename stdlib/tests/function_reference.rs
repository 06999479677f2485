//! `stdlib/FUNCTIONS.md` is what the declarations say. `WRITE_REFERENCE=1` writes it anew.
//!
//! That its examples come out as printed is held by `declarations.rs`, from the same declarations.

#![allow(clippy::unwrap_used, clippy::panic)]

use std::fmt::Write;

use dewline_lang::library::{Accepts, Basic, Default, Field, Function, Parameter, Returns};

const PATH: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/FUNCTIONS.md");

const HEAD: &str = "# The functions of the trade library\n\n\
    Written from the declarations by the test `function_reference`; do not edit. `dewline functions NAME` prints the same of \
    one function. Arguments may be given by name; those with `=` may be left out. Every example is run by a test. How often \
    `hold_test`, `standing_test`, `system_reading`, `system_reading_heating` and `valve_reading` are wrong, by cause and \
    strength of the signal: [SIMULATIONS.md](SIMULATIONS.md).\n";

#[test]
fn the_function_reference_is_current() {
    let text = reference();
    if std::env::var_os("WRITE_REFERENCE").is_some() {
        std::fs::write(PATH, &text).unwrap();
    }
    let held = std::fs::read_to_string(PATH).unwrap_or_default();
    let differs = held.lines().zip(text.lines()).position(|(held, now)| held != now);
    assert!(
        held == text,
        "FUNCTIONS.md is not current from line {:?} on; run with WRITE_REFERENCE=1",
        differs.map(|line| line + 1)
    );
}

fn reference() -> String {
    let library = dewline_stdlib::library();
    let mut functions: Vec<&Function> = library.functions().collect();
    functions.sort_by_key(|function| (function.subject, function.name));
    let mut out = HEAD.to_string();
    out.push_str("\n| subject | functions |\n| --- | --- |\n");
    for group in functions.chunk_by(|a, b| a.subject == b.subject) {
        let names: Vec<String> = group.iter().map(|function| format!("[`{0}`](#{0})", function.name)).collect();
        let _ = writeln!(out, "| {} | {} |", group[0].subject, names.join(" "));
    }
    for group in functions.chunk_by(|a, b| a.subject == b.subject) {
        let _ = write!(out, "\n## {}\n", group[0].subject);
        for function in group {
            one(&mut out, function);
        }
    }
    out
}

fn one(out: &mut String, function: &Function) {
    let _ = write!(out, "\n### {}\n\n{}.", function.name, capital(function.gives));
    if function.safety {
        out.push_str(" A safety function: its checks are decided guarded and cannot be waived.");
    }
    out.push_str("\n\n```\n");
    let written: Vec<String> = function.parameters.iter().map(argument).collect();
    let _ = write!(out, "{}({})\n```\n", function.name, written.join(", "));
    if !function.parameters.is_empty() {
        out.push_str("\n| takes | what | kind |\n| --- | --- | --- |\n");
        for parameter in &function.parameters {
            let range = parameter.within.map_or_else(String::new, |(low, high)| format!(", {low} to {high}"));
            let gaps = if parameter.gaps { ", rows not taken yet allowed" } else { "" };
            let kind = accepts(&parameter.accepts);
            let _ = writeln!(out, "| `{}` | {} | {kind}{range}{gaps} |", parameter.name, cell(parameter.about));
        }
        for group in &function.groups {
            let names: Vec<String> = group.parameters.iter().map(|name| format!("`{name}`")).collect();
            let _ = write!(out, "\nExactly one of {} is given.\n", names.join(", "));
        }
    }
    gives(out, function);
    let _ = write!(
        out,
        "\n- Equation: {}\n- Holds: {}\n- Source: {}\n",
        function.equation, function.validity, function.source
    );
    for caution in &function.cautions {
        let _ = writeln!(out, "- **Caution**: {caution}");
    }
    for example in &function.examples {
        let _ = write!(out, "\n```dew-example\n{}\n# → {}\n```\n", example.expression, example.gives);
    }
}

fn argument(parameter: &Parameter) -> String {
    match parameter.default {
        None => parameter.name.to_string(),
        Some(Default::Literal(literal)) => format!("{} = {literal}", parameter.name),
        Some(Default::SiteAtmosphere) => format!("{} = the site's", parameter.name),
        Some(Default::Absent) => format!("{} = …", parameter.name),
    }
}

fn gives(out: &mut String, function: &Function) {
    let one = match &function.returns {
        Returns::One(basic) => kind(*basic),
        Returns::Like(letter) => like(function, *letter),
        Returns::DifferenceOf(letter) => format!("a difference of {}", like(function, *letter)),
        Returns::Column(basic) => format!("for each row {}", kind(*basic)),
        Returns::ColumnLike(letter) => format!("for each row {}", like(function, *letter)),
        Returns::Record(fields) => return record(out, "gives", fields),
        Returns::Rows(fields) => return record(out, "gives for each row", fields),
    };
    let _ = write!(out, "\nGives {one}.\n");
}

fn record(out: &mut String, head: &str, fields: &[Field]) {
    let _ = write!(out, "\n| {head} | what | kind |\n| --- | --- | --- |\n");
    for field in fields {
        let maybe = if field.maybe { ", where there is one" } else { "" };
        let _ = writeln!(out, "| `.{}` | {} | {}{maybe} |", field.name, cell(field.about), kind(field.kind));
    }
}

/// The parameters whose kind a letter stands for.
fn like(function: &Function, letter: char) -> String {
    let names: Vec<String> = function.settling(letter).map(|name| format!("`{name}`")).collect();
    format!("the kind of {}", names.join(", "))
}

fn accepts(accepts: &Accepts) -> String {
    match accepts {
        Accepts::One(basic) => kind(*basic),
        Accepts::AnyOf(basics) => basics.iter().map(|basic| kind(*basic)).collect::<Vec<_>>().join(" or "),
        Accepts::Variable(_) => "any quantity or number".to_string(),
        Accepts::Amount(_) => "any quantity or number that adds up".to_string(),
        Accepts::DifferenceOf(_) => "a difference of that quantity".to_string(),
        Accepts::Choice(words) => words.iter().map(|word| format!("`\"{word}\"`")).collect::<Vec<_>>().join(" or "),
        Accepts::Range(inner) => format!("a range of {}", self::accepts(inner)),
        Accepts::Column(inner) => format!("column: {}", self::accepts(inner)),
    }
}

/// A kind by the unit that names it in the declaration.
fn kind(basic: Basic) -> String {
    match basic {
        Basic::Unit(unit) => format!("`{unit}`"),
        Basic::Number => "number".to_string(),
        Basic::Text => "text".to_string(),
        Basic::OneOf(words) => words.iter().map(|word| format!("`\"{word}\"`")).collect::<Vec<_>>().join(", "),
        Basic::Flag => "flag".to_string(),
        Basic::Time => "time".to_string(),
        Basic::Refrigerant => "refrigerant".to_string(),
        Basic::Gas => "gas".to_string(),
    }
}

fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
