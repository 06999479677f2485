//! `dewline functions`: what functions there are, and all about one, from its one declaration.

use clap::Args;
use dewline_lang::kinds::{GENERAL, General};
use dewline_lang::library::{Accepts, Basic, Default, Field, Function, Library, Parameter, Returns};
use dewline_lang::suggest::did_you_mean;
use dewline_lang::units;

use super::units::kind;
use crate::console::Console;
use crate::problem::{Problem, Stop};
use crate::words::{PAGE, hang, left, list, width};

#[derive(Debug, Args)]
pub struct Arguments {
    /// A function's name, or a word of what it gives; all functions if not given
    word: Option<String>,
}

pub fn functions(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let library = dewline_stdlib::library();
    let text = told(&library, arguments.word.as_deref())?;
    console.out.write_all(text.as_bytes())?;
    Ok(0)
}

/// All functions, all about the one of this name, or those that the word may mean.
pub fn told(library: &Library, word: Option<&str>) -> Result<String, Problem> {
    let all = all(library);
    match word.map(str::trim) {
        None => Ok(listed(&all)),
        Some(word) => about(&all, word),
    }
}

/// Whether there is a function of just this name.
pub fn is_function(library: &Library, name: &str) -> bool {
    all(library).iter().any(|function| function.name() == name)
}

/// A function that a sheet can call: one of the trade, or one that belongs to the language itself.
#[derive(Clone, Copy)]
enum Callable<'a> {
    General(&'a General),
    Trade(&'a Function),
}

impl Callable<'_> {
    fn name(&self) -> &'static str {
        match self {
            Callable::General(general) => general.name,
            Callable::Trade(function) => function.name,
        }
    }

    fn subject(&self) -> &'static str {
        match self {
            Callable::General(_) => "general",
            Callable::Trade(function) => function.subject,
        }
    }

    fn gives(&self) -> &'static str {
        match self {
            Callable::General(general) => general.gives,
            Callable::Trade(function) => function.gives,
        }
    }

    fn in_full(&self) -> String {
        match self {
            Callable::General(general) => {
                let mut out = format!("{}\n", general.call);
                hang(&mut out, "  ", &capitalised(general.gives));
                out
            }
            Callable::Trade(function) => in_full(function),
        }
    }
}

/// All functions by subject, those of the language first.
fn all(library: &Library) -> Vec<Callable<'_>> {
    let mut trade: Vec<Callable<'_>> = library.functions().map(Callable::Trade).collect();
    trade.sort_by_key(|function| (function.subject(), function.name()));
    GENERAL.iter().map(Callable::General).chain(trade).collect()
}

/// One line each, under their subjects.
fn listed(functions: &[Callable<'_>]) -> String {
    let columns = functions.iter().map(|function| width(function.name())).max().unwrap_or(0);
    let mut out = String::new();
    let mut subject = "";
    for function in functions {
        if function.subject() != subject {
            subject = function.subject();
            out.push_str(&format!("{}{subject}\n", if out.is_empty() { "" } else { "\n" }));
        }
        hang(&mut out, &format!("  {}  ", left(function.name(), columns)), function.gives());
    }
    out
}

/// All about the function of this name, or those that the word may mean.
fn about(all: &[Callable<'_>], word: &str) -> Result<String, Problem> {
    let name = word.trim_end_matches(['(', ')']);
    if let Some(function) = all.iter().find(|function| function.name() == name) {
        return Ok(function.in_full());
    }
    let small = name.to_lowercase();
    let fits = |function: &&Callable<'_>| {
        function.name().contains(&small)
            || function.subject() == small
            || function.gives().to_lowercase().contains(&small)
    };
    let found: Vec<Callable<'_>> = all.iter().filter(fits).copied().collect();
    match found.as_slice() {
        [] => {}
        _ if small.len() < 2 => {}
        [only] if only.name().contains(&small) => return Ok(only.in_full()),
        _ => return Ok(listed(&found)),
    }
    let near = did_you_mean(name, all.iter().map(Callable::name));
    Err(Problem::new(format!("there is no function \"{name}\"")).with_mend(match near {
        Some(near) => format!("did you mean {near}? All functions: dewline functions"),
        None => "all functions: dewline functions".to_string(),
    }))
}

fn in_full(function: &Function) -> String {
    let mut out = signature(function);
    hang(&mut out, "  ", &capitalised(function.gives));
    if function.safety {
        hang(&mut out, "  ", "Safety function: its checks are decided guarded and cannot be waived.");
    }
    takes(&mut out, function);
    gives(&mut out, function);
    for (title, text) in [("Equation", function.equation), ("Holds", function.validity), ("Source", function.source)] {
        if !text.is_empty() {
            out.push_str(&format!("\n{title}\n"));
            hang(&mut out, "  ", text);
        }
    }
    if !function.examples.is_empty() {
        out.push_str("\nFor example\n");
        for example in &function.examples {
            // An example of several lines is a small sheet.
            for line in example.expression.lines() {
                out.push_str(&format!("  {line}\n"));
            }
            for line in example.gives.lines() {
                out.push_str(&format!("    gives {line}\n"));
            }
        }
    }
    if !function.cautions.is_empty() {
        out.push_str("\nCaution\n");
        for caution in &function.cautions {
            hang(&mut out, "  - ", caution);
        }
    }
    out
}

/// `superheat(refrigerant, suction_pressure, line_temperature, share = …)`: what may be left out stands with `=`.
fn signature(function: &Function) -> String {
    let written = |parameter: &Parameter| match parameter.default {
        None => parameter.name.to_string(),
        Some(Default::Literal(literal)) => format!("{} = {literal}", parameter.name),
        Some(Default::SiteAtmosphere | Default::Absent) => format!("{} = …", parameter.name),
    };
    let parameters: Vec<String> = function.parameters.iter().map(written).collect();
    let whole = format!("{}({})", function.name, parameters.join(", "));
    if width(&whole) <= PAGE {
        return format!("{whole}\n");
    }
    let indent = width(function.name) + 1;
    let mut out = format!("{}(", function.name);
    let mut used = indent;
    for (index, one) in parameters.iter().enumerate() {
        if used > indent && used + width(one) + 2 > PAGE {
            out.push_str(&format!("\n{}", " ".repeat(indent)));
            used = indent;
        }
        let end = if index + 1 == parameters.len() { ")\n" } else { ", " };
        out.push_str(&format!("{one}{end}"));
        used += width(one) + 2;
    }
    out.lines().map(|line| format!("{}\n", line.trim_end())).collect()
}

fn takes(out: &mut String, function: &Function) {
    if function.parameters.is_empty() {
        return;
    }
    out.push_str("\nTakes\n");
    let columns = function.parameters.iter().map(|parameter| width(parameter.name)).max().unwrap_or(0);
    for parameter in &function.parameters {
        let grouped = function.groups.iter().any(|group| group.parameters.contains(&parameter.name));
        let mut parts = vec![accepts(&parameter.accepts)];
        if let Some((least, greatest)) = parameter.within {
            parts.push(format!("{least} to {greatest}"));
        }
        match parameter.default {
            None => {}
            Some(Default::Literal(literal)) => parts.push(format!("{literal} if not given")),
            Some(Default::SiteAtmosphere) => parts.push("the site's atmosphere if not given".to_string()),
            Some(Default::Absent) if grouped => {}
            Some(Default::Absent) => parts.push("may be left out".to_string()),
        }
        let lead = format!("  {}  ", left(parameter.name, columns));
        hang(
            out,
            &lead,
            &format!("{}. {}.", capitalised(parameter.about.trim_end_matches('.')), capitalised(&parts.join(", "))),
        );
    }
    for group in &function.groups {
        let names: Vec<String> = group.parameters.iter().map(|name| (*name).to_string()).collect();
        hang(out, "  ", &format!("Give exactly one of {}.", list(&names, usize::MAX)));
    }
}

fn gives(out: &mut String, function: &Function) {
    out.push_str("\nGives\n");
    match &function.returns {
        Returns::One(basic) => hang(out, "  ", &capitalised(&basic_words(basic))),
        Returns::Like(letter) => hang(out, "  ", &format!("The same kind as {}", sharing(function, *letter))),
        Returns::DifferenceOf(letter) => {
            hang(out, "  ", &format!("A difference of the kind of {}", sharing(function, *letter)));
        }
        Returns::Column(basic) => hang(out, "  ", &format!("For each row {}", basic_words(basic))),
        Returns::ColumnLike(letter) => {
            hang(out, "  ", &format!("For each row the same kind as {}", sharing(function, *letter)));
        }
        Returns::Record(fields) | Returns::Rows(fields) => {
            if function.returns.is_column() {
                out.push_str("  For each row of the table:\n");
            }
            let columns = fields.iter().map(|field| width(field.name) + 1).max().unwrap_or(0);
            for Field { name, kind, about, maybe } in fields {
                let maybe = if *maybe { ", where there is one" } else { "" };
                let lead = format!("  {}  ", left(&format!(".{name}"), columns));
                let about = capitalised(about.trim_end_matches('.'));
                hang(out, &lead, &format!("{about}. {}{maybe}.", capitalised(&basic_words(kind))));
            }
        }
    }
}

/// The parameters whose kind a letter stands for.
fn sharing(function: &Function, letter: char) -> String {
    let names: Vec<String> = function.settling(letter).map(str::to_string).collect();
    list(&names, usize::MAX)
}

fn accepts(accepts: &Accepts) -> String {
    match accepts {
        Accepts::One(basic) => basic_words(basic),
        Accepts::AnyOf(basics) => basics.iter().map(basic_words).collect::<Vec<_>>().join(" or "),
        Accepts::Variable(_) => "any quantity or number".to_string(),
        Accepts::Amount(_) => "any quantity or number that adds up".to_string(),
        Accepts::DifferenceOf(_) => "a difference of that quantity".to_string(),
        Accepts::Choice(texts) => texts.iter().map(|text| format!("\"{text}\"")).collect::<Vec<_>>().join(" or "),
        Accepts::Range(inner) => format!("a range a .. b of {}", self::accepts(inner)),
        Accepts::Column(inner) => format!("a column of {}", self::accepts(inner)),
    }
}

/// A kind in words, with the unit that stands for it: `pressure point, such as kPaa`, or those it is shown in.
fn basic_words(basic: &Basic) -> String {
    match basic {
        Basic::Unit(declared) => {
            let (si, shown) = match declared.split_once(" or ") {
                Some((si, ip)) if si == ip => (si, format!("in {si}")),
                Some((si, _)) => (si, format!("in {declared}")),
                None => (*declared, format!("such as {declared}")),
            };
            units::parse(si).map_or_else(|_| (*declared).to_string(), |unit| format!("{}, {shown}", kind(&unit)))
        }
        Basic::Number => "number".to_string(),
        Basic::Text => "text".to_string(),
        Basic::OneOf(words) => words.iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(", "),
        Basic::Flag => "true or false".to_string(),
        Basic::Time => "date or time".to_string(),
        Basic::Refrigerant => "refrigerant, such as R-32".to_string(),
        Basic::Gas => "gas, such as nitrogen".to_string(),
    }
}

fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) if !text.starts_with(|letter: char| letter.is_uppercase()) => {
            first.to_uppercase().collect::<String>() + letters.as_str()
        }
        _ => text.to_string(),
    }
}
