//! Words that have a meaning beside numbers and units.

use crate::syntax::lexeme::{Lexeme, LexemeKind};

/// Words that are never a unit, though they stand right after a number. No unit is spelled so.
const NEVER_UNITS: [&str; 13] =
    ["by", "at", "of", "to", "due", "from", "after", "coverage", "standard", "freedom", "optional", "each", "end"];

/// The kinds that stand where a unit may stand.
const KIND_WORDS: [&str; 7] = ["number", "text", "flag", "time", "refrigerant", "gas", "one"];

/// Words after which a minus begins a value.
const BEFORE_VALUES: [&str; 5] = ["require", "advise", "each", "of", "to"];

/// Whether a word right after a number is no unit.
pub fn never_unit(word: &str) -> bool {
    NEVER_UNITS.contains(&word)
}

/// Whether a word names a kind.
pub fn names_kind(word: &str) -> bool {
    KIND_WORDS.contains(&word)
}

/// Whether a value begins after a word, so that a minus behind it is a sign.
pub fn begins_value(word: &str) -> bool {
    BEFORE_VALUES.contains(&word)
}

/// Whether a value has ended before a minus, so that the minus subtracts.
pub fn ends_value(lexeme: Lexeme, word: &str) -> bool {
    use LexemeKind::*;
    match lexeme.kind {
        Number | Moment | Refrigerant | CloseRound | CloseSquare | True | False | Percent | Degree | Squared
        | Cubed | NotTaken | InchMark | FootMark | Strange => true,
        Word => !begins_value(word),
        _ => false,
    }
}
