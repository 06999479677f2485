//! A text cut into words for colouring and completion: what each looks like, whether or not it can be read.

use std::ops::Range;

use super::lexeme::{Lexeme, LexemeKind, lexemes};
use super::parser::form;
use crate::units;

/// What a word looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// A number.
    Number,
    /// A unit.
    Unit,
    /// A name.
    Name,
    /// A name with an opening bracket right behind it.
    Function,
    /// A word of the language.
    Keyword,
    /// A text.
    Text,
    /// A date or time.
    Time,
    /// A refrigerant.
    Refrigerant,
    /// An operator or a mark.
    Mark,
    /// An opening bracket.
    Open,
    /// A closing bracket.
    Close,
    /// `?`
    NotTaken,
    /// A comment.
    Comment,
    /// What stands for nothing.
    Strange,
}

/// A word with its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Word {
    /// What it looks like.
    pub class: Class,
    /// Its bytes.
    pub range: Range<usize>,
}

/// Words that stand inside a statement, and behind a number are no units.
const LINKS: [&str; 15] = [
    "by", "at", "to", "of", "from", "after", "due", "each", "optional", "coverage", "standard", "guarded", "yes", "no",
    "one",
];

/// Cuts a text into words.
pub fn words(text: &str) -> Vec<Word> {
    let mut words: Vec<Word> = Vec::new();
    let list = lexemes(text);
    let mut begins = true;
    for (at, lexeme) in list.iter().enumerate() {
        if lexeme.kind == LexemeKind::LineEnd {
            begins = true;
            continue;
        }
        let class = class(text, &list, at, words.last(), begins);
        begins = false;
        words.push(Word { class, range: lexeme.range() });
    }
    words
}

fn class(text: &str, list: &[Lexeme], at: usize, before: Option<&Word>, begins: bool) -> Class {
    let Some(lexeme) = list.get(at) else { return Class::Strange };
    match lexeme.kind {
        LexemeKind::Number => Class::Number,
        LexemeKind::Moment => Class::Time,
        LexemeKind::Refrigerant => Class::Refrigerant,
        LexemeKind::Text | LexemeKind::OpenText => Class::Text,
        LexemeKind::Comment => Class::Comment,
        LexemeKind::NotTaken => Class::NotTaken,
        LexemeKind::Percent | LexemeKind::Degree | LexemeKind::Squared | LexemeKind::Cubed => Class::Unit,
        LexemeKind::Strange => Class::Strange,
        LexemeKind::Word => word(text, list, at, before, begins),
        kind if kind.is_reserved() => Class::Keyword,
        kind if kind.closing().is_some() => Class::Open,
        kind if kind.is_closing() => Class::Close,
        _ => Class::Mark,
    }
}

fn word(text: &str, list: &[Lexeme], at: usize, before: Option<&Word>, begins: bool) -> Class {
    let Some(lexeme) = list.get(at) else { return Class::Strange };
    let word = text.get(lexeme.range()).unwrap_or("");
    let next = list.get(at + 1);
    if next.is_some_and(|next| next.kind == LexemeKind::OpenRound && !next.spaced) {
        return Class::Function;
    }
    // `F°` and `C°`, whose letter is no unit by itself.
    if next.is_some_and(|next| next.kind == LexemeKind::Degree && !next.spaced) {
        return Class::Unit;
    }
    let cell = next.is_some_and(|next| matches!(next.kind, LexemeKind::Equals | LexemeKind::Colon));
    if begins {
        let keyword = !cell && form(word).is_some() && (word != "end" || next.is_none_or(ends));
        return if keyword { Class::Keyword } else { Class::Name };
    }
    let previous = at.checked_sub(1).and_then(|at| list.get(at)).map(|lexeme| lexeme.kind);
    let glued = matches!(previous, Some(LexemeKind::Over | LexemeKind::Times)) && !lexeme.spaced
        || matches!(previous, Some(LexemeKind::Degree));
    let after_unit = at.checked_sub(2).is_some() && before_mark_is_unit(text, list, at);
    match before.map(|word| word.class) {
        Some(Class::Number) if !LINKS.contains(&word) => Class::Unit,
        Some(Class::Unit) if units::is_unit(word) || previous == Some(LexemeKind::Degree) => Class::Unit,
        Some(Class::Mark) if glued && after_unit && units::is_unit(word) => Class::Unit,
        _ if matches!(previous, Some(LexemeKind::As | LexemeKind::Colon)) && units::is_unit(word) => Class::Unit,
        _ if LINKS.contains(&word) && !cell => Class::Keyword,
        _ => Class::Name,
    }
}

fn ends(lexeme: &Lexeme) -> bool {
    matches!(lexeme.kind, LexemeKind::LineEnd | LexemeKind::Comment)
}

/// Whether what stands before the mark before this word is a unit, as in `oz/ft`.
fn before_mark_is_unit(text: &str, list: &[Lexeme], at: usize) -> bool {
    let Some(lexeme) = at.checked_sub(2).and_then(|at| list.get(at)) else { return false };
    lexeme.kind == LexemeKind::Word && units::is_unit(text.get(lexeme.range()).unwrap_or(""))
}

#[cfg(test)]
mod tests {
    use super::Class::*;
    use super::*;

    fn classes(text: &str) -> Vec<Class> {
        words(text).into_iter().map(|word| word.class).collect()
    }

    #[test]
    fn words_look_like_what_they_are() {
        assert_eq!(
            classes("over : F° = gas - 40 degF # x"),
            [Name, Mark, Unit, Unit, Mark, Name, Mark, Number, Unit, Comment]
        );
        assert_eq!(classes("superheat(R-32, 0.6 oz/ft"), [Function, Open, Refrigerant, Mark, Number, Unit, Mark, Unit]);
        assert_eq!(classes("reading p = ? by gauge"), [Keyword, Name, Mark, NotTaken, Keyword, Name]);
        assert_eq!(classes("units = 3\nend"), [Name, Mark, Number, Keyword]);
        assert_eq!(classes("x as psig to 0.1"), [Name, Keyword, Unit, Keyword, Number]);
        assert_eq!(classes("10 ft/x"), [Number, Unit, Mark, Name]);
    }
}
