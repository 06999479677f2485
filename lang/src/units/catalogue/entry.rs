//! One unit of the catalogue, and how it is declared.

use crate::units::{Dimension, Meaning, Unit};

/// A unit that the language knows by a word of its own.
#[derive(Debug, Clone, Copy)]
pub struct Entry {
    /// The spelling that reports use.
    pub text: &'static str,
    /// Other accepted spellings.
    pub also: &'static [&'static str],
    /// What it measures.
    pub dimension: Dimension,
    /// What its numbers stand for.
    pub meaning: Meaning,
    /// Code in the Unified Code for Units of Measure. It has no codes for gauge and vacuum scales, nor for a
    /// difference of temperatures: the annotation in braces then says what the number means.
    pub ucum: &'static str,
    /// What it is, in one line.
    pub about: &'static str,
    /// Read in capitals and small letters alike. Units where a prefix hangs on the case (`mPa`, `MPa`) are not.
    pub any_case: bool,
    /// What to write instead inside a compound; `None`: it may stand there itself.
    pub plain_instead: Option<&'static str>,
}

impl Entry {
    /// As a unit by itself.
    pub fn unit(&self) -> Unit {
        Unit {
            text: self.text.to_string(),
            dimension: self.dimension,
            meaning: self.meaning,
            ucum: self.ucum.to_string(),
            said: false,
        }
    }

    /// Its code as part of a compound, where a degree is a difference.
    pub fn ucum_in_compound(&self) -> &'static str {
        match (self.dimension == Dimension::TEMPERATURE, self.meaning.factor() == 1.0) {
            (true, true) => "K",
            (true, false) => "[degR]",
            _ => self.ucum,
        }
    }

    /// Every accepted spelling, the shown one first.
    pub fn spellings(&self) -> impl Iterator<Item = &'static str> {
        std::iter::once(self.text).chain(self.also.iter().copied())
    }

    /// Accepts other spellings too.
    pub(super) const fn also(mut self, also: &'static [&'static str]) -> Entry {
        self.also = also;
        self
    }

    /// Reads it in any case.
    pub(super) const fn any_case(mut self) -> Entry {
        self.any_case = true;
        self
    }

    /// Refuses it inside compounds and names what to write there.
    pub(super) const fn instead(mut self, plain: &'static str) -> Entry {
        self.plain_instead = Some(plain);
        self
    }
}

/// A unit of anything but temperature and pressure.
pub(super) const fn plain(
    text: &'static str,
    dimension: Dimension,
    factor: f64,
    ucum: &'static str,
    about: &'static str,
) -> Entry {
    declare(text, dimension, Meaning::Plain { factor }, ucum, about)
}

/// A unit of pressure.
pub(super) const fn pressure(text: &'static str, meaning: Meaning, ucum: &'static str, about: &'static str) -> Entry {
    declare(text, Dimension::PRESSURE, meaning, ucum, about)
}

/// A unit of temperature.
pub(super) const fn temperature(
    text: &'static str,
    meaning: Meaning,
    ucum: &'static str,
    about: &'static str,
) -> Entry {
    declare(text, Dimension::TEMPERATURE, meaning, ucum, about)
}

const fn declare(
    text: &'static str,
    dimension: Dimension,
    meaning: Meaning,
    ucum: &'static str,
    about: &'static str,
) -> Entry {
    Entry { text, also: &[], dimension, meaning, ucum, about, any_case: false, plain_instead: None }
}
