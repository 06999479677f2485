//! Units that fit where the cursor is.

use dewline_lang::library::{Accepts, Basic, Parameter};
use dewline_lang::outcome::Sort;
use dewline_lang::syntax::Class;
use dewline_lang::units::{self, Dimension, Stance, Unit, UnitSystem, default_unit, system_of};

use super::cursor::Cursor;
use crate::session::take::Taking;
use crate::session::{Mode, Session};

/// What a value must be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Wanted {
    /// What it measures.
    pub dimension: Dimension,
    /// How it stands to zero.
    pub stance: Stance,
}

impl Wanted {
    fn of(unit: &Unit) -> Wanted {
        Wanted { dimension: unit.dimension, stance: unit.meaning.stance() }
    }

    fn fits(&self, unit: &Unit) -> bool {
        let stance = unit.meaning.stance();
        let same = match self.stance {
            Stance::Plain => true,
            // What counts from zero goes with either, by the sign between them.
            Stance::FromZero => true,
            wanted => stance == wanted,
        };
        unit.dimension == self.dimension && same
    }
}

/// Unit words, those of the system first. Nothing wanted: all of them.
pub fn fitting(wanted: &[Wanted], system: UnitSystem) -> Vec<String> {
    let other = if system == UnitSystem::Ip { UnitSystem::Si } else { UnitSystem::Ip };
    let usual = [system, other]
        .into_iter()
        .flat_map(|system| wanted.iter().map(move |one| default_unit(one.dimension, one.stance, system)));
    let mut all: Vec<Unit> = usual.filter(|unit| unit.text != "1").collect();
    let mut entries: Vec<Unit> = units::all().iter().flat_map(|group| group.units).map(units::Entry::unit).collect();
    entries.sort_by_key(|unit| match system_of(unit) {
        Some(its) if its == system => 0,
        None => 1,
        Some(_) => 2,
    });
    // Behind some a word makes a point of a difference, or a difference of a point.
    let with_words: Vec<Unit> = entries.iter().flat_map(said).collect();
    all.extend(entries.into_iter().filter(|unit| wanted.is_empty() || wanted.iter().any(|one| one.fits(unit))));
    all.extend(with_words.into_iter().filter(|unit| wanted.iter().any(|one| one.fits(unit))));
    let mut texts: Vec<String> = Vec::new();
    for unit in all {
        if !texts.contains(&unit.text) {
            texts.push(unit.text);
        }
    }
    texts
}

/// The units that a word behind this one makes, where they have no spelling of their own.
fn said(unit: &Unit) -> Vec<Unit> {
    let with = |word: &&str| units::parse(&format!("{} {word}", unit.text)).ok();
    let own = |other: &Unit| units::find(&other.text).is_none();
    units::WORDS.iter().filter_map(with).filter(own).collect()
}

/// What a parameter takes.
pub fn of_parameter(parameter: &Parameter) -> Vec<Wanted> {
    of_accepts(&parameter.accepts)
}

fn of_accepts(accepts: &Accepts) -> Vec<Wanted> {
    let basic = |basic: &Basic| match basic {
        Basic::Unit(unit) => units::parse(unit.split(" or ").next().unwrap_or(unit)).ok().map(|unit| Wanted::of(&unit)),
        _ => None,
    };
    match accepts {
        Accepts::One(one) => basic(one).into_iter().collect(),
        Accepts::AnyOf(several) => several.iter().filter_map(basic).collect(),
        Accepts::Range(inner) | Accepts::Column(inner) => of_accepts(inner),
        Accepts::Amount(_) | Accepts::Variable(_) | Accepts::DifferenceOf(_) | Accepts::Choice(_) => Vec::new(),
    }
}

impl Session {
    /// The units that may stand at the cursor; `None` if no unit stands there.
    pub(super) fn units_at(&self, cursor: &Cursor<'_>) -> Option<Vec<String>> {
        let system = self.units_while(cursor.before).unwrap_or(UnitSystem::Si);
        let (last, text) = cursor.back(0)?;
        if let Mode::Taking(taking) = &self.mode {
            let wanted = asked(taking);
            return (last.class == Class::Number && !wanted.is_empty()).then(|| fitting(&wanted, system));
        }
        if text == "as" {
            let wanted = cursor.expression_before(cursor.words.len() - 1).map(|left| self.wanted_by(left));
            return Some(fitting(&wanted.unwrap_or_default(), system));
        }
        let annotated = text == ":" && cursor.call().is_none();
        if annotated {
            return Some(fitting(&[], system));
        }
        if last.class != Class::Number {
            return None;
        }
        Some(fitting(&self.wanted_at(cursor), system))
    }

    /// What a number at the cursor must be: by the parameter it is for, the value it is given to, or what it is compared
    /// with.
    fn wanted_at(&self, cursor: &Cursor<'_>) -> Vec<Wanted> {
        if let Some(compared) = self.compared(cursor) {
            return compared;
        }
        if let Some(call) = cursor.call() {
            let function = self.library.function(call.function);
            let parameter = function.and_then(|function| match call.name {
                Some(name) => function.parameters.iter().find(|parameter| parameter.name == name),
                None => function.parameters.get(call.unnamed),
            });
            return parameter.map(of_parameter).unwrap_or_default();
        }
        match (cursor.words.first(), cursor.words.get(1).map(|word| cursor.text(word))) {
            (Some(name), Some("=")) => self.wanted_by(cursor.text(name)),
            _ => Vec::new(),
        }
    }

    /// What stands on the other side of a comparison, a sum or a difference.
    fn compared(&self, cursor: &Cursor<'_>) -> Option<Vec<Wanted>> {
        let mut depth = 0_usize;
        for (at, word) in cursor.words.iter().enumerate().rev() {
            let text = cursor.text(word);
            match word.class {
                Class::Close => depth += 1,
                Class::Open if depth == 0 => return None,
                Class::Open => depth -= 1,
                _ if depth > 0 => {}
                Class::Mark if matches!(text, "," | "=" | ":" | "*" | "/" | "^") => return None,
                _ if matches!(text, "<" | "<=" | ">" | ">=" | "==" | "!=" | "within") => {
                    return cursor.expression_before(at).map(|left| self.wanted_by(left));
                }
                _ => {}
            }
        }
        None
    }

    /// What an expression is.
    fn wanted_by(&self, expression: &str) -> Vec<Wanted> {
        let evaluated = self.around().evaluate(expression);
        let [part] = evaluated.parts.as_slice() else { return Vec::new() };
        let stance = match part.cell.kind {
            Sort::Point => Stance::Point,
            Sort::Difference => Stance::Difference,
            Sort::FromZero => Stance::FromZero,
            Sort::Quantity | Sort::Number => Stance::Plain,
            _ => return Vec::new(),
        };
        units::parse(&part.cell.dimension)
            .ok()
            .map(|unit| Wanted { dimension: unit.dimension, stance })
            .into_iter()
            .collect()
    }
}

fn asked(taking: &Taking) -> Vec<Wanted> {
    taking.unit().and_then(|unit| units::parse(unit).ok()).map(|unit| Wanted::of(&unit)).into_iter().collect()
}
