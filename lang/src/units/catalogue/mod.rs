//! The units that have a word of their own.

mod definitions;
mod electrical;
mod energy;
mod entry;
mod geometry;
mod mechanics;
mod numbers;
mod pressure;
mod temperature;

pub use entry::Entry;

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// Units that belong together, for listing.
#[derive(Debug, Clone, Copy)]
pub struct UnitGroup {
    /// What they measure.
    pub name: &'static str,
    /// The units, smallest first.
    pub units: &'static [Entry],
}

/// The whole catalogue, group by group.
pub fn all() -> &'static [UnitGroup] {
    GROUPS
}

/// Whether this is the spelling of a unit that a vacuum gauge counts in from true zero.
pub fn is_deep_vacuum(text: &str) -> bool {
    pressure::DEEP_VACUUM.iter().any(|entry| entry.text == text)
}

/// The unit of this word in any accepted spelling.
pub fn find(word: &str) -> Option<&'static Entry> {
    let word = plain_spelling(word);
    let spellings = &*SPELLINGS;
    spellings.exact.get(&*word).or_else(|| spellings.any_case.get(&word.to_lowercase())).copied()
}

const GROUPS: &[UnitGroup] = &[
    UnitGroup { name: "temperature", units: temperature::TEMPERATURES },
    UnitGroup { name: "pressure point", units: pressure::PRESSURE_POINTS },
    UnitGroup { name: "pressure difference", units: pressure::PRESSURE_DIFFERENCES },
    UnitGroup { name: "deep vacuum", units: pressure::DEEP_VACUUM },
    UnitGroup { name: "length", units: geometry::LENGTHS },
    UnitGroup { name: "area", units: geometry::AREAS },
    UnitGroup { name: "volume", units: geometry::VOLUMES },
    UnitGroup { name: "mass", units: mechanics::MASSES },
    UnitGroup { name: "time", units: mechanics::TIMES },
    UnitGroup { name: "motion and flow", units: mechanics::MOTIONS },
    UnitGroup { name: "force", units: mechanics::FORCES },
    UnitGroup { name: "energy", units: energy::ENERGIES },
    UnitGroup { name: "power", units: energy::POWERS },
    UnitGroup { name: "viscosity", units: mechanics::VISCOSITIES },
    UnitGroup { name: "electrical", units: electrical::ELECTRICAL },
    UnitGroup { name: "amount of substance", units: mechanics::AMOUNTS },
    UnitGroup { name: "number", units: numbers::NUMBERS },
];

struct Spellings {
    exact: BTreeMap<&'static str, &'static Entry>,
    /// In small letters.
    any_case: BTreeMap<String, &'static Entry>,
}

static SPELLINGS: LazyLock<Spellings> = LazyLock::new(|| {
    let mut exact = BTreeMap::new();
    let mut any_case = BTreeMap::new();
    for entry in GROUPS.iter().flat_map(|group| group.units) {
        for spelling in entry.spellings() {
            exact.insert(spelling, entry);
            if entry.any_case {
                any_case.insert(spelling.to_lowercase(), entry);
            }
        }
    }
    Spellings { exact, any_case }
});

/// Keyboards give the Greek letter, the micro sign or a `u`, and raised or plain digits; the catalogue is written with
/// the micro sign and plain digits.
fn plain_spelling(word: &str) -> Cow<'_, str> {
    if word.is_ascii() {
        return Cow::Borrowed(word);
    }
    word.chars()
        .map(|letter| match letter {
            'μ' => 'µ',
            '²' => '2',
            '³' => '3',
            '⁴' => '4',
            other => other,
        })
        .collect()
}
