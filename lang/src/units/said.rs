//! The words that say of a unit what its numbers stand for: `kPa absolute`, `hPa gauge`, `micron difference`.

use super::catalogue;
use super::compound::{self, UnitProblem};
use super::{Dimension, Meaning, Stance, Unit};

/// The words that may stand behind a unit.
pub const WORDS: [&str; 3] = ["absolute", "gauge", "difference"];

/// A unit text taken apart from the word behind it.
pub(super) fn split_word(text: &str) -> Option<(&str, &'static str)> {
    let (unit, last) = text.rsplit_once(char::is_whitespace)?;
    let word = WORDS.into_iter().find(|word| *word == last)?;
    Some((unit.trim_end(), word))
}

/// The unit with what the word behind it says. A word names what the numbers stand for; it never converts.
pub(super) fn with_word(unit: Unit, word: &'static str, text: &str) -> Result<Unit, UnitProblem> {
    let is_difference = unit.meaning.stance() == Stance::Difference;
    let pressure = unit.dimension == Dimension::PRESSURE;
    // What shows a degree of the everyday scales has a zero of its own, which no word moves.
    let from_zero = matches!(unit.text.as_str(), "K" | "degR");
    let factor = unit.meaning.factor();
    match word {
        "difference" if is_difference => Ok(Unit { said: true, ..unit }),
        "difference" if catalogue::is_deep_vacuum(&unit.text) => Ok(steps(&unit)),
        "absolute" if is_difference && (pressure || from_zero) => {
            Ok(point(unit, word, "a", Meaning::Point { offset: 0.0, factor }))
        }
        "gauge" if is_difference && pressure => Ok(point(unit, word, "g", Meaning::Gauge { factor })),
        _ => Err(refused(&unit, word, text)),
    }
}

/// A unit that counts from a zero it names: the catalogue's own word where it has one.
fn point(unit: Unit, word: &str, letter: &str, meaning: Meaning) -> Unit {
    if let Some(entry) = catalogue::find(&format!("{}{letter}", unit.text))
        && entry.meaning == meaning
    {
        return entry.unit();
    }
    Unit { text: format!("{} {word}", unit.text), ucum: format!("{}{{{word}}}", unit.ucum), meaning, ..unit }
}

/// A unit of deep vacuum as one of differences.
fn steps(unit: &Unit) -> Unit {
    let meaning = Meaning::Difference { factor: unit.meaning.factor() };
    Unit { text: format!("{} difference", unit.text), meaning, said: true, ..unit.clone() }
}

fn refused(unit: &Unit, word: &str, text: &str) -> UnitProblem {
    let range = text.len().saturating_sub(word.len())..text.len();
    let shown = &unit.text;
    let (message, mend) = match (unit.dimension, unit.meaning.stance()) {
        (Dimension::PRESSURE | Dimension::TEMPERATURE, Stance::Point) if word == "difference" => {
            let mend = difference(unit).map(|other| format!("a difference is written in `{}`", other.text));
            (format!("`{shown}` is a point on a scale, and no word makes a difference of it"), mend)
        }
        (Dimension::PRESSURE | Dimension::TEMPERATURE, Stance::Point) => {
            (format!("`{shown}` says by itself from where it counts"), Some(format!("write `{shown}` alone")))
        }
        (Dimension::TEMPERATURE, _) => {
            let mend = "a temperature is `degF` or `degC`, from true zero `K absolute` or `degR absolute`";
            (format!("`{word}` does not stand behind `{shown}`"), Some(mend.to_string()))
        }
        _ => {
            let mend = "it stands behind a unit of pressure, `absolute` behind `K` and `degR` too";
            (format!("`{word}` does not stand behind `{shown}`"), Some(mend.to_string()))
        }
    };
    UnitProblem { range, message, mend }
}

/// The unit in which two values of a point unit lie apart: `psi` for `psig`, `micron difference` for `micron`.
pub fn difference(unit: &Unit) -> Option<Unit> {
    if unit.meaning.stance() == Stance::Difference {
        return Some(unit.clone());
    }
    if catalogue::is_deep_vacuum(&unit.text) {
        return Some(steps(unit));
    }
    let text = match unit.text.as_str() {
        "degF" => "F°",
        "degC" => "C°",
        "inHgv" => "inHg",
        text => match split_word(text) {
            Some((before, _)) => before,
            None => catalogue::find(text)?.plain_instead.filter(|plain| text.starts_with(plain))?,
        },
    };
    compound::parse(text).ok()
}

/// The unit as one of differences behind a ±, where no word need say so: `± 10 micron`. Points on other scales stay
/// what they are.
pub fn in_differences(unit: &Unit) -> Unit {
    if !catalogue::is_deep_vacuum(&unit.text) {
        return unit.clone();
    }
    Unit { text: unit.text.clone(), ..steps(unit) }
}

/// The ways to say a point in a unit of differences, likeliest first: `kPag` and `kPaa` for `kPa`.
pub fn points(unit: &Unit) -> Vec<Unit> {
    let said = |word: &'static str| with_word(unit.clone(), word, &unit.text).ok();
    match unit.text.as_str() {
        "F°" | "C°" => compound::parse(if unit.text == "F°" { "degF" } else { "degC" }).into_iter().collect(),
        "inHg" => compound::parse("inHgv").ok().into_iter().chain(said("absolute")).collect(),
        _ => [said("gauge"), said("absolute")].into_iter().flatten().collect(),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::units::parse;

    #[test]
    fn a_word_names_what_the_numbers_stand_for() {
        for (typed, shown, si) in [
            ("kPa absolute", "kPaa", 2_000.0),
            ("kPa gauge", "kPag", 101_325.0 + 2_000.0),
            ("psi gauge", "psig", 101_325.0 + 2.0 * 6_894.757_293_168_361),
            ("hPa absolute", "hPa absolute", 200.0),
            ("mbar gauge", "mbar gauge", 101_325.0 + 200.0),
            ("inHg absolute", "inHga", 2.0 * 3_386.388_640_341),
            ("K absolute", "K absolute", 2.0),
            ("degR absolute", "degR absolute", 2.0 * 5.0 / 9.0),
            ("micron difference", "micron difference", 2.0 * 0.133_322_387_415),
            ("psi difference", "psi", 2.0 * 6_894.757_293_168_361),
            ("lbf/in2 gauge", "lbf/in2 gauge", 101_325.0 + 2.0 * 6_894.757_293_168_361),
        ] {
            let unit = parse(typed).unwrap();
            assert_eq!(unit.text, shown, "{typed}");
            assert!((unit.to_si(2.0, 101_325.0) - si).abs() <= 1e-9 * si, "{typed}");
            assert_eq!(parse(&unit.text).unwrap().meaning, unit.meaning, "{typed}");
        }
    }

    #[test]
    fn behind_any_other_unit_a_word_is_refused() {
        for typed in
            ["ft absolute", "F° absolute", "K gauge", "psig absolute", "micron absolute", "degF difference", "% gauge"]
        {
            assert!(parse(typed).is_err(), "{typed}");
        }
    }

    #[test]
    fn a_distance_of_two_points_has_its_unit() {
        for (point, apart) in [
            ("psig", Some("psi")),
            ("inHgv", Some("inHg")),
            ("degC", Some("C°")),
            ("micron", Some("micron difference")),
            ("K absolute", Some("K")),
            ("hPa gauge", Some("hPa")),
            ("atm", None),
            ("psi", Some("psi")),
        ] {
            let unit = difference(&parse(point).unwrap()).map(|unit| unit.text);
            assert_eq!(unit.as_deref(), apart, "{point}");
        }
    }
}
