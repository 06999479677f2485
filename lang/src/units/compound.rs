//! Reading a whole unit text: a word of the catalogue, or a compound such as `Btu/(h·ft2·degF)`.
//!
//! In a compound every degree, kelvin, pascal or psi is a step, never a place on a scale: `J/(kg·K)` is heat for each
//! kelvin of *rise*, `Pa·m3/s` a throughput whose product with a time over a volume is a *rise* of pressure. So no
//! compound counts from zero, `micron` in it included, and one that comes out as a pressure or a temperature (`lbf/in2`)
//! is a difference. Whoever means true zero says so of the quantity: `absolute(…)`.

use std::ops::Range;

use super::catalogue::{self, Entry};
use super::{Dimension, Meaning, Unit};
use super::{near, said};

/// Why a text is no unit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnitProblem {
    /// The bytes of the unit text that are at fault.
    pub range: Range<usize>,
    /// What is wrong, in one line.
    pub message: String,
    /// How to mend it, where there is a way.
    pub mend: Option<String>,
}

/// Whether a word is a unit by itself: of the catalogue, or one of them with a power (`s2`). No compounds.
pub fn is_unit(word: &str) -> bool {
    catalogue::find(word).is_some() || split_power(word).is_some_and(|(base, _)| catalogue::find(base).is_some())
}

/// Reads a unit text: `psig`, `ft2`, `oz/ft`, `1/h`, `Btu/(h·ft2·degF)`; without spaces but for a word behind it,
/// `kPa absolute`.
pub fn parse(text: &str) -> Result<Unit, UnitProblem> {
    if let Some(entry) = catalogue::find(text) {
        return Ok(entry.unit());
    }
    if let Some((unit, word)) = said::split_word(text) {
        return said::with_word(parse(unit)?, word, text);
    }
    let mut reader = Reader { pieces: split(text)?, at: 0, end: text.len(), over: Vec::new(), under: Vec::new() };
    reader.whole()?;
    assemble(&reader.over, &reader.under, text)
}

/// A part of a compound: which unit, to which power.
#[derive(Clone, Copy)]
struct Part {
    entry: &'static Entry,
    power: u8,
}

#[derive(Clone, PartialEq)]
enum Mark {
    Word(String),
    Over,
    Times,
    Open,
    Close,
}

fn split(text: &str) -> Result<Vec<(Mark, Range<usize>)>, UnitProblem> {
    let mut pieces = Vec::new();
    let mut word: Option<usize> = None;
    let finish = |word: &mut Option<usize>, end: usize, pieces: &mut Vec<(Mark, Range<usize>)>| {
        if let Some(start) = word.take() {
            pieces.push((Mark::Word(text.get(start..end).unwrap_or("").to_string()), start..end));
        }
    };
    for (at, letter) in text.char_indices() {
        let range = at..at + letter.len_utf8();
        let mark = match letter {
            '/' => Mark::Over,
            '·' | '⋅' | '*' => Mark::Times,
            '(' => Mark::Open,
            ')' => Mark::Close,
            '^' => return Err(power_sign(text, at)),
            space if space.is_whitespace() => {
                return Err(problem(range, "a unit has no space inside", Some(format!("write `{}`", squeezed(text)))));
            }
            _ => {
                word.get_or_insert(at);
                continue;
            }
        };
        finish(&mut word, at, &mut pieces);
        pieces.push((mark, range));
    }
    finish(&mut word, text.len(), &mut pieces);
    Ok(pieces)
}

fn power_sign(text: &str, at: usize) -> UnitProblem {
    let message = "a power in a unit is written as a digit, without `^`";
    problem(at..at + 1, message, Some(format!("write `{}`", text.replace('^', ""))))
}

fn squeezed(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace()).collect()
}

struct Reader {
    pieces: Vec<(Mark, Range<usize>)>,
    at: usize,
    end: usize,
    over: Vec<Part>,
    under: Vec<Part>,
}

impl Reader {
    /// `[1/] term { (·|/) term }`
    fn whole(&mut self) -> Result<(), UnitProblem> {
        let mut divided = false;
        if self.is_word("1") && matches!(self.pieces.get(1), Some((Mark::Over, _))) {
            self.at = 1;
        } else {
            let parts = self.term()?;
            self.over.extend(parts);
        }
        while let Some((mark, range)) = self.next() {
            match mark {
                Mark::Over => {
                    divided = true;
                    let parts = self.term()?;
                    self.under.extend(parts);
                }
                Mark::Times if divided => return Err(self.two_meanings(range)),
                Mark::Times => {
                    let parts = self.term()?;
                    self.over.extend(parts);
                }
                _ => return Err(problem(range, "a bracket that does not belong here", None)),
            }
        }
        Ok(())
    }

    /// A unit with or without a power, or a bracket of products of them.
    fn term(&mut self) -> Result<Vec<Part>, UnitProblem> {
        let Some((mark, range)) = self.next() else {
            return Err(problem(self.end..self.end, "the unit ends too early", None));
        };
        match mark {
            Mark::Word(word) => Ok(vec![part(&word, range)?]),
            Mark::Open => self.bracket(range),
            _ => Err(problem(range, "a unit is missing before this", None)),
        }
    }

    fn bracket(&mut self, open: Range<usize>) -> Result<Vec<Part>, UnitProblem> {
        let mut parts = Vec::new();
        loop {
            match self.next() {
                Some((Mark::Word(word), range)) => parts.push(part(&word, range)?),
                Some((Mark::Open, range)) => return Err(problem(range, "no bracket inside a bracket in a unit", None)),
                Some((_, range)) => return Err(problem(range, "a unit is missing before this", None)),
                None => break,
            }
            match self.next() {
                Some((Mark::Close, _)) => return Ok(parts),
                Some((Mark::Times, _)) => {}
                Some((Mark::Over, range)) => {
                    let message = "a bracket in a unit holds products only";
                    return Err(problem(range, message, Some("write one fraction, such as `Btu/(h·ft2·degF)`".into())));
                }
                Some((_, range)) => return Err(problem(range, "`·` or `)` is missing before this", None)),
                None => break,
            }
        }
        Err(problem(open, "this bracket is not closed", None))
    }

    /// `W/m2·K`: half of the world means `W/(m2·K)` by it.
    fn two_meanings(&self, range: Range<usize>) -> UnitProblem {
        let last = self.under.iter().map(Part::text).collect::<Vec<_>>().join("·");
        let first = self.over.iter().map(Part::text).collect::<Vec<_>>().join("·");
        let next = match self.pieces.get(self.at) {
            Some((Mark::Word(word), _)) => word.clone(),
            _ => "…".to_string(),
        };
        let first = if first.is_empty() { "1".to_string() } else { first };
        problem(
            range,
            "a product after a division can be read two ways",
            Some(format!("write `{first}/({last}·{next})` or `{first}·{next}/{last}`, whichever you mean")),
        )
    }

    fn is_word(&self, word: &str) -> bool {
        matches!(self.pieces.get(self.at), Some((Mark::Word(found), _)) if found == word)
    }

    fn next(&mut self) -> Option<(Mark, Range<usize>)> {
        let piece = self.pieces.get(self.at).cloned();
        self.at += 1;
        piece
    }
}

impl Part {
    fn text(&self) -> String {
        match self.power {
            1 => self.entry.text.to_string(),
            power => format!("{}{power}", self.entry.text),
        }
    }

    fn ucum(&self) -> String {
        let code = self.entry.ucum_in_compound();
        let simple = !code.contains(['.', '/']);
        match (self.power, simple) {
            // A code such as `m2` ends in a power of its own, and brackets take none in the unified code: repeat it.
            (power, true) if !code.ends_with(|last: char| last.is_ascii_digit()) => match power {
                1 => code.to_string(),
                power => format!("{code}{power}"),
            },
            (power, true) => vec![code; usize::from(power)].join("."),
            (power, false) => vec![format!("({code})"); usize::from(power)].join("."),
        }
    }
}

fn part(word: &str, range: Range<usize>) -> Result<Part, UnitProblem> {
    let (entry, power) = match catalogue::find(word) {
        Some(entry) => (entry, 1),
        None => match split_power(word).and_then(|(base, power)| Some((catalogue::find(base)?, power))) {
            Some(found) => found,
            None => return Err(unknown(word, range)),
        },
    };
    match entry.plain_instead {
        None => Ok(Part { entry, power }),
        Some(plain) => Err(problem(
            range,
            format!("`{}` is a point on a scale and cannot be part of a compound unit", entry.text),
            Some(format!("write `{plain}` there: a step of pressure")),
        )),
    }
}

fn unknown(word: &str, range: Range<usize>) -> UnitProblem {
    if let Some(why) = near::not_here(word) {
        return problem(range, format!("`{word}` is not a unit here"), Some(why.to_string()));
    }
    let near = near::suggest(word);
    let mend = (!near.is_empty()).then(|| {
        let quoted: Vec<String> = near.iter().map(|one| format!("`{one}`")).collect();
        format!("did you mean {}?", quoted.join(" or "))
    });
    problem(range, format!("`{word}` is not a unit"), mend)
}

/// `s2` as `s` and 2.
fn split_power(word: &str) -> Option<(&str, u8)> {
    let last = word.chars().next_back()?;
    let power = match last {
        '2' | '²' => 2,
        '3' | '³' => 3,
        '4' | '⁴' => 4,
        _ => return None,
    };
    let base = word.get(..word.len() - last.len_utf8())?;
    let doubled = base.ends_with(|letter: char| letter.is_ascii_digit() || matches!(letter, '²' | '³' | '⁴'));
    (!base.is_empty() && !doubled).then_some((base, power))
}

fn assemble(over: &[Part], under: &[Part], text: &str) -> Result<Unit, UnitProblem> {
    let too_great = || problem(0..text.len(), "the powers in this unit are too great", None);
    let mut dimension = Dimension::NUMBER;
    let (mut above, mut below) = (1.0, 1.0);
    for part in over {
        let of_part = part.entry.dimension.power(i32::from(part.power), 1).ok_or_else(too_great)?;
        dimension = dimension.times(of_part).ok_or_else(too_great)?;
        above *= raised(part);
    }
    for part in under {
        let of_part = part.entry.dimension.power(i32::from(part.power), 1).ok_or_else(too_great)?;
        dimension = dimension.over(of_part).ok_or_else(too_great)?;
        below *= raised(part);
    }
    let factor = above / below;
    if !(factor.is_normal()) {
        return Err(too_great());
    }
    let meaning = if dimension.has_points() { Meaning::Difference { factor } } else { Meaning::Plain { factor } };
    let shown = fraction(over, under, Part::text, "·", "1");
    Ok(Unit { text: shown, dimension, meaning, ucum: fraction(over, under, Part::ucum, ".", ""), said: false })
}

fn raised(part: &Part) -> f64 {
    (0..part.power).fold(1.0, |product, _| product * part.entry.meaning.factor())
}

fn fraction(over: &[Part], under: &[Part], write: fn(&Part) -> String, times: &str, one: &str) -> String {
    let join = |parts: &[Part]| parts.iter().map(write).collect::<Vec<_>>().join(times);
    let upper = if over.is_empty() { one.to_string() } else { join(over) };
    match under.len() {
        0 => upper,
        1 => format!("{upper}/{}", join(under)),
        _ => format!("{upper}/({})", join(under)),
    }
}

fn problem(range: Range<usize>, message: impl Into<String>, mend: Option<String>) -> UnitProblem {
    UnitProblem { range, message: message.into(), mend }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]

    use super::{is_unit, parse};
    use crate::units::{Dimension, Stance};

    #[test]
    fn compounds_read_and_are_shown_in_one_way() {
        for (typed, shown, ucum) in [
            ("Btu/(h·ft2·degF)", "Btu/(h·ft2·degF)", "[Btu_IT]/(h.[sft_i].[degR])"),
            ("BTU/(h*ft²*°F)", "Btu/(h·ft2·degF)", "[Btu_IT]/(h.[sft_i].[degR])"),
            ("W/m2/K", "W/(m2·K)", "W/(m2.K)"),
            ("1/h", "1/h", "/h"),
            ("oz/ft", "oz/ft", "[oz_av]/[ft_i]"),
            ("lbf/in2", "lbf/in2", "[lbf_av]/[sin_i]"),
            ("kg/(m·s2)", "kg/(m·s2)", "kg/(m.s2)"),
            ("ton/kW", "ton/kW", "(12000.[Btu_IT]/h)/kW"),
            ("1/(kg·s3)", "1/(kg·s3)", "/(kg.s3)"),
        ] {
            let unit = parse(typed).unwrap();
            assert_eq!((unit.text.as_str(), unit.ucum.as_str()), (shown, ucum), "{typed}");
        }
    }

    #[test]
    fn a_compound_pressure_or_temperature_is_a_difference() {
        for text in ["lbf/in2", "kgf/cm2", "N/m2", "Pa·m/m", "degF·kg/kg", "K·m/m"] {
            assert_eq!(parse(text).unwrap().meaning.stance(), Stance::Difference, "{text}");
        }
        assert_eq!(parse("lbf/in2").unwrap().dimension, Dimension::PRESSURE);
        assert_eq!(parse("Pa·m3/s").unwrap().meaning.stance(), Stance::Plain);
    }

    #[test]
    fn what_cannot_be_read_says_where_and_what_to_write() {
        for (text, range, message, mend) in [
            (
                "psig/min",
                0..4,
                "`psig` is a point on a scale and cannot be part of a compound unit",
                Some("write `psi`"),
            ),
            ("Btu/hr", 4..6, "`hr` is not a unit", Some("did you mean `h`?")),
            ("m^2", 1..2, "a power in a unit is written as a digit, without `^`", Some("write `m2`")),
            ("W/m2·K", 4..6, "a product after a division can be read two ways", Some("write `W/(m2·K)` or `W·K/m2`")),
            ("kg/", 3..3, "the unit ends too early", None),
            ("kg/(m·s", 3..4, "this bracket is not closed", None),
            ("kg/(m/s)", 5..6, "a bracket in a unit holds products only", Some("write one fraction")),
            ("kg/((m))", 4..5, "no bracket inside a bracket in a unit", None),
            ("kg//m", 3..4, "a unit is missing before this", None),
            ("kg)", 2..3, "a bracket that does not belong here", None),
            ("m22", 0..3, "`m22` is not a unit", Some("did you mean `mm2`?")),
            ("in Hg", 2..3, "a unit has no space inside", Some("write `inHg`")),
            ("", 0..0, "the unit ends too early", None),
            ("1", 0..1, "`1` is not a unit", None),
        ] {
            let problem = parse(text).unwrap_err();
            assert_eq!((problem.range.clone(), problem.message.as_str()), (range, message), "{text}");
            match mend {
                Some(mend) => assert!(problem.mend.as_deref().unwrap_or("").starts_with(mend), "{text}: {problem:?}"),
                None => assert_eq!(problem.mend, None, "{text}"),
            }
        }
        assert!(parse(&vec!["m4"; 300].join("·")).is_err());
    }

    #[test]
    fn words_and_words_with_a_power_are_units_and_compounds_are_not() {
        for word in ["psig", "PSIG", "°F", "F°", "%", "ft2", "ft²", "s2", "inH2O", "μF"] {
            assert!(is_unit(word), "{word}");
        }
        for word in ["", "1", "2", "x", "t", "oz/ft", "mpa", "KW", "m22", "²"] {
            assert!(!is_unit(word), "{word}");
        }
    }
}
