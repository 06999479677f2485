//! How far a unit goes, and what it is.

use super::Joiner;
use super::numbers::Amount;
use crate::diagnostic::{Diagnostic, words};
use crate::syntax::lexeme::LexemeKind;
use crate::syntax::token::TokenKind;
use crate::units::{self, Unit};

/// The plain tokens of a unit.
pub struct UnitExtent {
    /// One past its first word with its power.
    pub head_end: usize,
    /// One past its last plain token.
    pub end: usize,
    /// Where a word stands that the unit took though the sheet has a name spelled so.
    pub clash: Option<usize>,
}

impl<'a> Joiner<'a, '_> {
    /// Whether a unit begins at this place, right after a number.
    pub(super) fn begins_unit(&self, at: usize) -> bool {
        self.unit_extent(at).is_some()
    }

    /// The unit that stands at a place after a number. It goes on behind `/`, `·` or `*` only without spaces
    /// and only if what follows is a unit of the catalogue or a bracket of such.
    pub(super) fn unit_extent(&self, at: usize) -> Option<UnitExtent> {
        self.extent(at, false)
    }

    /// As [`Joiner::unit_extent`]; `surely` where nothing but a unit can stand, so that a misspelt part is still one.
    fn extent(&self, at: usize, surely: bool) -> Option<UnitExtent> {
        let head_end = self.unit_head(at)?;
        let mut end = head_end;
        let mut clash = None;
        while let Some(next) = self.unit_goes_on(end, surely) {
            let word = self.word_at(end + 1);
            if !surely && self.sees(word) {
                clash = clash.or(Some(end + 1));
            }
            end = next;
        }
        Some(UnitExtent { head_end, end: self.word_behind(end), clash })
    }

    /// One past `absolute`, `gauge` or `difference` behind a unit. Before a bracket it is a function's name.
    fn word_behind(&self, at: usize) -> usize {
        let is_word = self.get(at).is_some_and(|lexeme| lexeme.kind == LexemeKind::Word && lexeme.spaced);
        let calls = self.close_kind(at + 1, LexemeKind::OpenRound).is_some();
        if is_word && !calls && units::WORDS.contains(&self.word_at(at)) { at + 1 } else { at }
    }

    /// One past the first part of a unit: a word, `°F`, `F°`, `%`, or the `1/h` of a rate.
    fn unit_head(&self, at: usize) -> Option<usize> {
        let lexeme = self.get(at)?;
        match lexeme.kind {
            LexemeKind::Percent => Some(at + 1),
            LexemeKind::Number if self.word_at(at) == "1" && lexeme.spaced => {
                self.close_kind(at + 1, LexemeKind::Over)?;
                self.unit_factor(at + 2, false)
            }
            LexemeKind::Word if super::words::never_unit(self.word_at(at)) => None,
            LexemeKind::Word | LexemeKind::Degree => Some(self.power_end(self.unit_word(at)?)),
            _ => None,
        }
    }

    /// One past a word with a degree sign before or behind it.
    fn unit_word(&self, at: usize) -> Option<usize> {
        match self.get(at)?.kind {
            LexemeKind::Word => Some(at + 1 + usize::from(self.close_kind(at + 1, LexemeKind::Degree).is_some())),
            LexemeKind::Degree => Some(at + 1 + usize::from(self.close_kind(at + 1, LexemeKind::Word).is_some())),
            _ => None,
        }
    }

    /// One past a power: `²`, `^2`.
    fn power_end(&self, at: usize) -> usize {
        match self.close(at).map(|lexeme| lexeme.kind) {
            Some(LexemeKind::Squared | LexemeKind::Cubed) => at + 1,
            Some(LexemeKind::Caret) if self.close_kind(at + 1, LexemeKind::Number).is_some() => at + 2,
            _ => at,
        }
    }

    fn unit_goes_on(&self, at: usize, surely: bool) -> Option<usize> {
        self.close(at).filter(|lexeme| matches!(lexeme.kind, LexemeKind::Over | LexemeKind::Times))?;
        let next = self.close(at + 1)?;
        if next.kind != LexemeKind::OpenRound {
            return self.unit_factor(at + 1, surely);
        }
        let mut end = self.unit_factor(at + 2, surely)?;
        loop {
            let mark = self.close(end)?;
            match mark.kind {
                LexemeKind::CloseRound => return Some(end + 1),
                LexemeKind::Over | LexemeKind::Times => end = self.unit_factor(end + 1, surely)?,
                _ => return None,
            }
        }
    }

    /// One past a unit word with its power, if there is one without a space before it.
    fn unit_factor(&self, at: usize, surely: bool) -> Option<usize> {
        self.close(at)?;
        let word_end = self.unit_word(at)?;
        let end = self.power_end(word_end);
        let calls = self
            .close(end)
            .is_some_and(|next| matches!(next.kind, LexemeKind::OpenRound | LexemeKind::OpenSquare | LexemeKind::Dot));
        (!calls && (surely || units::is_unit(self.slice(at, word_end)))).then_some(end)
    }

    /// The unit after a number, and one past it; or where to go on, and what to say.
    pub(super) fn unit_of_number(&self, start: usize, amount: &Amount) -> Result<(Unit, usize), (usize, Diagnostic)> {
        let Some(extent) = self.unit_extent(amount.end) else {
            let message = "a unit is missing";
            return Err((amount.end, Diagnostic::error(&words::UNIT_FORM, message, self.span(start, amount.end), "")));
        };
        if let Some(diagnostic) = self.not_a_unit(start, amount, &extent) {
            return Err(diagnostic);
        }
        if let Some(clash) = extent.clash {
            return Err((extent.end, self.clash_fault(amount.end, &extent, clash)));
        }
        match self.read_unit(amount.end, extent.end) {
            Ok(unit) => Ok((unit, extent.end)),
            Err(diagnostic) => Err((extent.end, diagnostic)),
        }
    }

    fn clash_fault(&self, start: usize, extent: &UnitExtent, clash: usize) -> Diagnostic {
        let (unit, word) = (self.slice(start, extent.end), self.word_at(clash));
        let before = self.slice(start, clash - 1);
        let mark = self.word_at(clash - 1);
        let message = format!("`{unit}` may be a unit, or `{before}` {mark} your `{word}`");
        Diagnostic::error(&words::UNIT_OR_NAME, message, self.span(start, extent.end), "two readings").with_mend(
            format!(
                "for your `{word}` put spaces: `{before} {mark} {word}`; for the unit give your `{word}` another name"
            ),
        )
    }

    /// Reads the unit between two plain tokens.
    pub(super) fn read_unit(&self, from: usize, to: usize) -> Result<Unit, Diagnostic> {
        let shown = self.slice(from, to);
        // `^` is taken in a unit; the catalogue writes powers as digits.
        let text = shown.replace('^', "");
        units::parse(&text).map_err(|problem| {
            let range = self.bytes(from, to);
            let place = match text.len() == shown.len() {
                true => range.start + problem.range.start..range.start + problem.range.end,
                false => range.clone(),
            };
            let part = text.get(problem.range.clone()).unwrap_or("");
            let known = units::is_unit(part) || units::WORDS.contains(&part);
            let code = if known || part.len() < 2 { &words::UNIT_FORM } else { &words::UNKNOWN_UNIT };
            let diagnostic = Diagnostic::error(code, problem.message, self.text.span(place), "");
            match problem.mend {
                Some(mend) => diagnostic.with_mend(mend),
                None => diagnostic.with_mend("`dewline units` lists every unit"),
            }
        })
    }

    /// One unit or several falling ones, where a unit must stand.
    pub(super) fn units(&mut self) {
        let start = self.at;
        let mut list = Vec::new();
        let mut end = start;
        while let Some(extent) = self.unit_where_one_must_stand(end) {
            let further = !list.is_empty();
            if further && !units::is_unit(self.slice(end, extent.head_end)) {
                break;
            }
            if let Some(diagnostic) = self.bare_degree(end, &extent) {
                return self.give_up(extent.end, diagnostic);
            }
            match self.read_unit(end, extent.end) {
                Ok(unit) => list.push(unit),
                Err(diagnostic) => return self.give_up(extent.end, diagnostic),
            }
            end = extent.end;
        }
        if !list.is_empty() {
            self.push(TokenKind::Units(list), self.bytes(start, end));
            self.at = end;
        }
    }

    fn unit_where_one_must_stand(&self, at: usize) -> Option<UnitExtent> {
        let rate = self.get(at).is_some_and(|lexeme| lexeme.kind == LexemeKind::Number);
        if rate && self.close_kind(at + 1, LexemeKind::Over).is_none() { None } else { self.extent(at, true) }
    }

    /// A kind word or a unit, after `:` and in the cells of a table's unit line.
    pub(super) fn annotation(&mut self) {
        let word = self.get(self.at).is_some_and(|lexeme| lexeme.kind == LexemeKind::Word);
        if !(word && super::words::names_kind(self.word_at(self.at))) {
            self.units();
        }
    }
}
