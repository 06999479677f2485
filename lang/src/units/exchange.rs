//! Units of one system for those of the other, for forms that are filled in a job of the other system.

use super::{Unit, UnitSystem, compound};

/// The unit of this system that stands for one of the other; `None` for a unit that both use, such as `V` or `micron`.
pub fn exchanged(unit: &Unit, system: UnitSystem) -> Option<Unit> {
    let text = whole(&unit.text, system).map(str::to_string).or_else(|| by_words(&unit.text, system))?;
    compound::parse(&text).ok().filter(|other| other.dimension == unit.dimension)
}

/// Inch–pound, then SI: units whose parts would exchange badly one by one.
const WHOLE: &[[&str; 2]] = &[
    ["Btu/h", "kW"],
    ["ft3/h", "L/min"],
    ["in3/ft", "L/m"],
    ["oz/ft", "g/m"],
    ["lb/ft3", "kg/m3"],
    ["Btu/(lb·degF)", "kJ/(kg·K)"],
];

/// Inch–pound, then SI. Where several have one counterpart, the first is meant the other way.
const WORDS: &[[&str; 2]] = &[
    ["ft", "m"],
    ["in", "mm"],
    ["yd", "m"],
    ["ft2", "m2"],
    ["in2", "mm2"],
    ["ft3", "m3"],
    ["in3", "cm3"],
    ["gal", "L"],
    ["lb", "kg"],
    ["oz", "g"],
    ["lbf", "N"],
    ["psig", "kPag"],
    ["psia", "kPaa"],
    ["psi", "kPa"],
    ["inHga", "kPaa"],
    ["inHg", "kPa"],
    ["degF", "degC"],
    ["F°", "C°"],
    ["degR", "K"],
    ["degR absolute", "K absolute"],
    ["Btu", "kJ"],
    ["cfm", "m3/h"],
    ["fpm", "m/s"],
];

fn counterpart<'a>(pairs: &'a [[&'a str; 2]], text: &str, system: UnitSystem) -> Option<&'a str> {
    let (from, to) = match system {
        UnitSystem::Si => (0, 1),
        UnitSystem::Ip => (1, 0),
    };
    pairs.iter().find(|pair| pair[from] == text).map(|pair| pair[to])
}

fn whole(text: &str, system: UnitSystem) -> Option<&'static str> {
    counterpart(WHOLE, text, system).or_else(|| counterpart(WORDS, text, system))
}

/// Each word of a compound by itself; `None` if none has a counterpart.
fn by_words(text: &str, system: UnitSystem) -> Option<String> {
    let mut out = String::new();
    let mut changed = false;
    for word in text.split_inclusive(['/', '·', '(', ')']) {
        let bare = word.trim_end_matches(['/', '·', '(', ')']);
        let other = counterpart(WORDS, bare, system).filter(|other| !other.contains('/'));
        changed |= other.is_some();
        out.push_str(other.unwrap_or(bare));
        out.push_str(&word[bare.len()..]);
    }
    changed.then_some(out)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn every_pair_has_one_dimension_and_one_stance() {
        for [ip, si] in WHOLE.iter().chain(WORDS) {
            let (ip, si) = (compound::parse(ip).unwrap(), compound::parse(si).unwrap());
            assert_eq!(ip.dimension, si.dimension, "{} {}", ip.text, si.text);
            let point = |unit: &Unit| unit.meaning.stance() == super::super::Stance::Point;
            assert_eq!(point(&ip), point(&si), "{} {}", ip.text, si.text);
        }
    }

    #[test]
    fn a_compound_is_exchanged_word_by_word_and_what_both_use_stays() {
        let to_si = |text: &str| exchanged(&compound::parse(text).unwrap(), UnitSystem::Si).map(|unit| unit.text);
        let wanted = [("psi/h", "kPa/h"), ("lb/year", "kg/year"), ("oz/ft", "g/m"), ("Btu/h", "kW"), ("psig", "kPag")];
        for (ip, si) in wanted {
            assert_eq!(to_si(ip).as_deref(), Some(si), "{ip}");
        }
        for both in ["micron", "V", "min", "micron/min", "Pa·m3/s", "Mohm", "degC", "kPag"] {
            assert_eq!(to_si(both), None, "{both}");
        }
        let to_ip = exchanged(&compound::parse("kPaa").unwrap(), UnitSystem::Ip).unwrap();
        assert_eq!(to_ip.text, "psia");
    }
}
