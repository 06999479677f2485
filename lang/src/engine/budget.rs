//! The budget of a value's uncertainty: which reading and which instrument contributes how much.

use super::doubt::{Part, standard};
use super::origins::{Cause, LOST, Origin, Origins};
use super::run::Run;
use super::{rounding, shown};
use crate::plan::Typing;
use crate::units::UnitSystem;

/// Rows of one column that are told one by one.
const ROWS: usize = 3;

/// What makes up the uncertainty of a value.
#[derive(Debug, Clone, PartialEq)]
pub struct Budget {
    /// Standard uncertainty, as shown.
    pub standard: String,
    /// Expanded uncertainty, as shown.
    pub expanded: String,
    /// Coverage factor.
    pub k: f64,
    /// Effective degrees of freedom, unless the standard uncertainty is as good as exact.
    pub freedom: Option<f64>,
    /// By cause, the greatest first.
    pub contributions: Vec<Contribution>,
    /// What instruments contribute in all, the greatest first: name, as shown, share.
    pub instruments: Vec<(String, String, f64)>,
    /// Not all doubt could be carried.
    pub incomplete: bool,
}

/// What one cause contributes.
#[derive(Debug, Clone, PartialEq)]
pub struct Contribution {
    /// The reading, or the instrument for what is common to its readings.
    pub name: String,
    /// What it is, in words.
    pub about: String,
    /// Its standard uncertainty as shown; empty where readings differ in it.
    pub standard: String,
    /// What one unit of it makes of the value, as shown; empty likewise.
    pub sensitivity: String,
    /// Its contribution with its sign, as shown.
    pub contribution: String,
    /// Its share of the variance, 0 to 1.
    pub share: f64,
}

/// The budget of a value with these contributions; nothing if it is exact.
pub fn of(origins: &Origins, parts: &[Part], typing: &Typing, system: Option<UnitSystem>) -> Option<Budget> {
    let total = origins.uncertainty(parts)?;
    let typing = shown::distance(typing, system);
    let show = |si: f64| rounding::distance(si, &typing, system);
    let share = |part: f64| if total.standard > 0.0 { (part / total.standard) * (part / total.standard) } else { 0.0 };
    let told: Vec<Part> = parts.iter().copied().filter(|(cause, _)| *cause != LOST).collect();
    let mut lines: Vec<(f64, Contribution)> = Vec::new();
    let families = told.chunk_by(|(one, _), (other, _)| {
        origins.get(*one).is_some_and(|origin| (origin.first..origin.first + origin.count).contains(other))
    });
    for family in families {
        let Some(origin) = family.first().and_then(|(cause, _)| origins.get(*cause)) else { continue };
        if family.len() > ROWS {
            // Many rows of one column are one line; by themselves they would bury the rest.
            let part = standard(family);
            let line = Contribution {
                name: origin.name.to_string(),
                about: format!("{}, {} rows", origin.words(), family.len()),
                standard: origin.standard.map_or_else(String::new, |u| rounding::distance(u, &origin.typing, system)),
                sensitivity: String::new(),
                contribution: show(part),
                share: share(part),
            };
            lines.push((part, line));
            continue;
        }
        for &(cause, part) in family {
            let u = origin.standard;
            let line = Contribution {
                name: origin.name_of(cause),
                about: origin.words(),
                standard: u.map_or_else(String::new, |u| rounding::distance(u, &origin.typing, system)),
                sensitivity: u.map_or_else(String::new, |u| sensitivity(part / u, &typing, origin, system)),
                contribution: show(part),
                share: share(part),
            };
            lines.push((part.abs(), line));
        }
    }
    lines.sort_by(|(a, _), (b, _)| b.total_cmp(a));
    let contributions = lines.into_iter().map(|(_, line)| line).collect();
    let mut instruments: Vec<(String, Vec<Part>)> = Vec::new();
    for &(cause, part) in &told {
        let Some(by) = origins.get(cause).and_then(|origin| origin.instrument.as_deref()) else { continue };
        match instruments.iter_mut().find(|(name, _)| name == by) {
            Some((_, parts)) => parts.push((cause, part)),
            None => instruments.push((by.to_string(), vec![(cause, part)])),
        }
    }
    let mut instruments: Vec<(String, f64)> =
        instruments.into_iter().map(|(name, parts)| (name, standard(&parts))).collect();
    instruments.sort_by(|(x, a), (y, b)| b.total_cmp(a).then(x.cmp(y)));
    Some(Budget {
        standard: show(total.standard),
        expanded: show(total.expanded),
        k: total.k,
        freedom: total.freedom,
        contributions,
        instruments: instruments.into_iter().map(|(name, part)| (name, show(part), share(part))).collect(),
        incomplete: parts.iter().any(|(cause, _)| *cause == LOST),
    })
}

/// `0.29 F°/psi`: the units shown, of the value over that of the cause.
fn sensitivity(si: f64, typing: &Typing, origin: &Origin, system: Option<UnitSystem>) -> String {
    let (above, below) = (shown::wish(typing, system), shown::wish(&origin.typing, system));
    let factor = |wish: &crate::plan::Wish| wish.units.last().map_or(1.0, |unit| unit.meaning.factor());
    let name = |wish: &crate::plan::Wish| {
        wish.units.last().map(|unit| unit.text.clone()).filter(|text| text != "1").unwrap_or_default()
    };
    let number = rounding::three_figures(si * factor(&below) / factor(&above));
    match (name(&above), name(&below)) {
        (above, below) if above == below => number,
        (above, below) if below.is_empty() => format!("{number} {above}"),
        (above, below) => {
            let above = if above.is_empty() { "1".to_string() } else { above };
            let below = if below.contains(['/', '·']) { format!("({below})") } else { below };
            format!("{number} {above}/{below}")
        }
    }
}

/// The cause that contributes most, with its share, in words; rows of one column count together.
pub fn largest(origins: &Origins, parts: &[Part]) -> Option<String> {
    let total = standard(parts);
    let mut families: Vec<(u32, f64)> = Vec::new();
    for &(cause, part) in parts {
        let Some(origin) = origins.get(cause) else { continue };
        match families.last_mut() {
            Some((first, sum)) if *first == origin.first => *sum += part * part,
            _ => families.push((origin.first, part * part)),
        }
    }
    let (first, square) = families.into_iter().max_by(|(x, a), (y, b)| a.total_cmp(b).then(y.cmp(x)))?;
    let origin = origins.get(first)?;
    let name = match (&origin.cause, &origin.instrument) {
        (Cause::Repeats, Some(by)) => format!("how well {by} repeats ({})", origin.name),
        (Cause::Scatter(count), _) => format!("the scatter of {count} readings of {}", origin.name),
        (Cause::Accuracy, _) => format!("the accuracy of {}", origin.name),
        _ => origin.name.to_string(),
    };
    Some(format!("{name} ({:.0} %)", 100.0 * square / (total * total)))
}

/// The correlation of two single values of the outermost sheet.
pub fn correlation(run: &Run, one: &str, other: &str) -> Option<f64> {
    let parts = |name: &str| {
        let slot = run.plan.slots.iter().position(|slot| slot.name == name)?;
        Some(run.slots.get(slot)?.states.doubt_at(0))
    };
    let (a, b) = (parts(one)?, parts(other)?);
    let shared = a.iter().filter_map(|(cause, part)| {
        let at = b.binary_search_by_key(cause, |(cause, _)| *cause).ok()?;
        Some(part * b[at].1)
    });
    let product = standard(a) * standard(b);
    (product > 0.0).then(|| shared.sum::<f64>() / product)
}
