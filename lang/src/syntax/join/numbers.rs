//! Numbers and fractions.

use super::Joiner;
use crate::diagnostic::{Diagnostic, words};
use crate::syntax::lexeme::{Lexeme, LexemeKind};
use crate::syntax::token::TokenKind;

/// A number as written, fraction worked out, up to its last plain token.
pub struct Amount {
    /// Its value, without sign.
    pub value: f64,
    /// One past its last plain token.
    pub end: usize,
    /// Neither point nor exponent nor fraction.
    pub whole: bool,
    /// It is a fraction, and that is not one.
    pub fault: Option<FractionFault>,
}

/// Why a fraction with a unit cannot be read.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum FractionFault {
    /// `100/5 min`
    Improper,
    /// `x/3/8 in`
    Chained,
}

impl Joiner<'_, '_> {
    /// Reads the number at a place, with its fraction if a unit follows.
    pub(super) fn amount(&self, at: usize) -> Amount {
        self.mixed_number(at).or_else(|| self.fraction(at)).unwrap_or_else(|| Amount {
            value: number(self.word_at(at)),
            end: at + 1,
            whole: self.is_whole(at),
            fault: None,
        })
    }

    /// `1-1/8 in`
    fn mixed_number(&self, at: usize) -> Option<Amount> {
        self.close_kind(at + 1, LexemeKind::Minus)?;
        self.close_kind(at + 2, LexemeKind::Number)?;
        let fraction = self.fraction(at + 2)?;
        if !self.is_whole(at) {
            return None;
        }
        Some(Amount { value: number(self.word_at(at)) + fraction.value, ..fraction })
    }

    /// `3/8 in`
    fn fraction(&self, at: usize) -> Option<Amount> {
        self.close_kind(at + 1, LexemeKind::Over)?;
        self.close_kind(at + 2, LexemeKind::Number)?;
        if !self.is_whole(at) || !self.is_whole(at + 2) || !self.begins_unit(at + 3) {
            return None;
        }
        let (above, below) = (number(self.word_at(at)), number(self.word_at(at + 2)));
        let chained = self.get(at).is_some_and(|lexeme| !lexeme.spaced)
            && self.before(at).is_some_and(|before| matches!(before.kind, LexemeKind::Over | LexemeKind::Caret));
        let fault = match (chained, above < below) {
            (true, _) => Some(FractionFault::Chained),
            (false, false) => Some(FractionFault::Improper),
            (false, true) => None,
        };
        Some(Amount { value: if below == 0.0 { 0.0 } else { above / below }, end: at + 3, whole: false, fault })
    }

    fn is_whole(&self, at: usize) -> bool {
        self.get(at).is_some_and(|lexeme| lexeme.kind == LexemeKind::Number)
            && self.word_at(at).bytes().all(|byte| byte.is_ascii_digit())
    }

    /// `.5`: a point with a number right behind it and nothing before it that could have a field.
    pub(super) fn is_number_without_zero(&self) -> bool {
        let begins = self.get(self.at).is_none_or(|dot| dot.spaced)
            || self.before(self.at).is_none_or(|before| before.kind.is_operator() || before.kind.closing().is_some());
        begins && self.close_kind(self.at + 1, LexemeKind::Number).is_some()
    }

    pub(super) fn number_without_zero(&mut self, dot: Lexeme) {
        let shown = format!("0.{}", self.word_at(self.at + 1));
        let place = self.span(self.at, self.at + 2);
        self.report(
            Diagnostic::error(&words::NUMBER_FORM, "a number begins with a digit", place, "no digit before the point")
                .with_mend(format!("write `{shown}`")),
        );
        self.push(TokenKind::Unreadable, dot.range());
        self.at = self.unit_extent(self.at + 2).map_or(self.at + 2, |unit| unit.end);
    }
}

/// The value of a plain number; it has been cut as digits, so that only its size can fail, and that shows as infinity.
pub fn number(word: &str) -> f64 {
    if word.contains('_') { word.replace('_', "").parse() } else { word.parse() }.unwrap_or(f64::INFINITY)
}
