//! `dewline units`: what units there are, and what one means.

use clap::Args;
use dewline_lang::units::{self, Entry, Meaning, Stance, Unit, UnitGroup};

use crate::console::Console;
use crate::problem::{Problem, Stop};
use crate::words::{hang, left, plain, width};

#[derive(Debug, Args)]
pub struct Arguments {
    /// A unit, or what it measures; all units if not given
    word: Option<String>,
}

pub fn units(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let text = match arguments.word.as_deref().map(str::trim) {
        None => units::all().iter().map(group).collect::<Vec<_>>().join("\n"),
        Some(word) => about(word)?,
    };
    console.out.write_all(text.as_bytes())?;
    Ok(0)
}

fn group(group: &UnitGroup) -> String {
    let mut out = format!("{}\n", group.name);
    let columns = group.units.iter().map(|entry| width(entry.text)).max().unwrap_or(0);
    for entry in group.units {
        hang(&mut out, &format!("  {}  ", left(entry.text, columns)), entry.about);
    }
    out
}

/// All about one unit, or a list of those that the word may mean.
pub fn about(word: &str) -> Result<String, Problem> {
    if let Some(entry) = units::find(word) {
        return Ok(entry_in_full(entry));
    }
    if let Ok(unit) = units::parse(word) {
        return Ok(unit_in_full(&unit));
    }
    let small = word.to_lowercase();
    let groups = units::all().iter().filter(|one| one.name.contains(&small));
    let listed: Vec<String> = groups.map(group).collect();
    if !small.is_empty() && !listed.is_empty() {
        return Ok(listed.join("\n"));
    }
    let problem = Problem::new(format!("there is no unit \"{word}\""));
    let near = units::suggest(word);
    Err(problem.with_mend(match near.is_empty() {
        false => format!("did you mean {}? All units: dewline units", near.join(" or ")),
        true => "all units: dewline units".to_string(),
    }))
}

fn entry_in_full(entry: &Entry) -> String {
    let mut out = unit_in_full(&entry.unit());
    hang(&mut out, "  is         ", entry.about);
    let others: Vec<&str> = entry.also.to_vec();
    let case = if entry.any_case { "in capitals and small letters alike" } else { "" };
    let spelt = [others.join(" "), case.to_string()].into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>();
    if !spelt.is_empty() {
        hang(&mut out, "  also       ", &spelt.join(", "));
    }
    let said = by_a_word(&entry.unit());
    if !said.is_empty() {
        hang(&mut out, "  by a word  ", &said.join("; "));
    }
    if let Some(instead) = entry.plain_instead {
        hang(&mut out, "  inside a   ", &format!("compound write {instead}"));
    }
    out
}

fn unit_in_full(unit: &Unit) -> String {
    let mut out = format!("{}: {}\n", plain(&unit.text), kind(unit));
    hang(&mut out, "  in SI      ", &in_si(unit));
    if !unit.ucum.is_empty() {
        hang(&mut out, "  UCUM       ", &unit.ucum);
    }
    out
}

/// What a unit measures, with the way its numbers are meant: `pressure point`, `length`.
pub fn kind(unit: &Unit) -> String {
    // A compound such as `L/m` is an area by its dimension only: it is named where its word or its group is plain.
    let word = units::find(&unit.text).is_some();
    let plain_group = |name: &str| matches!(name, "power" | "energy" | "force" | "viscosity");
    let named = units::all()
        .iter()
        .find(|group| group.units.iter().any(|entry| entry.dimension == unit.dimension))
        .map(|group| group.name)
        .filter(|name| word || plain_group(name));
    let what = match (unit.dimension.has_points(), named) {
        (true, _) if unit.dimension == units::Dimension::PRESSURE => "pressure".to_string(),
        (true, _) => "temperature".to_string(),
        (false, Some(name)) => name.to_string(),
        (false, None) => "quantity".to_string(),
    };
    match unit.meaning.stance() {
        Stance::Plain => what,
        Stance::Point => format!("{what} point"),
        Stance::Difference => format!("{what} difference"),
        Stance::FromZero => format!("{what} from true zero"),
    }
}

/// What the words behind a unit make of it.
fn by_a_word(unit: &Unit) -> Vec<String> {
    let with = |word: &&str| Some((word.to_string(), units::parse(&format!("{} {word}", unit.text)).ok()?));
    let said = units::WORDS.iter().filter_map(with).filter(|(_, other)| other.meaning != unit.meaning);
    said.map(|(word, other)| format!("{} {word} is a {}", unit.text, kind(&other))).collect()
}

fn in_si(unit: &Unit) -> String {
    let base = unit.dimension.text();
    let exact = units::show::exact;
    let (text, factor) = (&unit.text, exact(unit.meaning.factor()));
    match unit.meaning {
        Meaning::Plain { .. } | Meaning::Difference { .. } if base == "1" => {
            format!("1 {text} = {factor}")
        }
        Meaning::Plain { .. } | Meaning::Difference { .. } => {
            format!("1 {text} = {factor} {base}")
        }
        Meaning::Point { .. } => {
            format!("0 {text} = {} {base}; each further one adds {factor}", exact(unit.to_si(0.0, 0.0)))
        }
        Meaning::Gauge { .. } => format!("0 {text} = the site's atmosphere; each further one adds {factor} {base}"),
        Meaning::Vacuum { .. } => {
            format!("0 {text} = the site's atmosphere; each further one takes off {factor} {base}")
        }
    }
}
