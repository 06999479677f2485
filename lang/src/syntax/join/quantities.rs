//! Numbers with units, in one or several pieces, and what people write after a number by habit.

use super::Joiner;
use super::numbers::{Amount, FractionFault};
use crate::diagnostic::{Diagnostic, words};
use crate::syntax::lexeme::LexemeKind;
use crate::syntax::token::TokenKind;
use crate::syntax::tree::{Piece, Quantity};
use crate::units::{self, Unit};

impl Joiner<'_, '_> {
    /// Whether the minus at the current place stands directly before a number with a unit, and no value before it.
    pub(super) fn minus_belongs_to_quantity(&self) -> bool {
        let subtracts = self.at > 0
            && self.before(self.at).is_some_and(|before| super::words::ends_value(before, self.word_at(self.at - 1)));
        let number = self.at + 1;
        !subtracts && self.close_kind(number, LexemeKind::Number).is_some() && self.begins_unit(self.amount(number).end)
    }

    /// Joins the number at the current place, `negative` if a minus stands before it.
    pub(super) fn number(&mut self, negative: bool) {
        let start = self.at + usize::from(negative);
        if let Some(end) = self.commas(start) {
            let diagnostic = self.commas_fault(start, end);
            let end = self.unit_extent(end).map_or(end, |unit| unit.end);
            return self.give_up(end, diagnostic);
        }
        let amount = self.amount(start);
        if !amount.value.is_finite() {
            let place = self.span(start, amount.end);
            let message = "this number is too large to calculate with";
            return self.give_up(amount.end, Diagnostic::error(&words::NUMBER_FORM, message, place, ""));
        }
        if let Some(fault) = amount.fault {
            let diagnostic = self.fraction_fault(start, &amount, fault);
            let end = self.unit_extent(amount.end).map_or(amount.end, |unit| unit.end);
            return self.give_up(end, diagnostic);
        }
        if let Some((end, diagnostic)) = self.marks_of_length(start, &amount) {
            return self.give_up(end, diagnostic);
        }
        if let Some(end) = self.space_in_mixed_number(amount.end) {
            let diagnostic = self.spaced_mixed_number(start, amount.end, end);
            let end = self.unit_extent(end).map_or(end, |unit| unit.end);
            return self.give_up(end, diagnostic);
        }
        if !self.begins_unit(amount.end) {
            self.push(TokenKind::Number(amount.value), self.bytes(start, amount.end));
            self.at = amount.end;
            return;
        }
        self.quantity(start, amount, negative);
    }

    fn quantity(&mut self, start: usize, first: Amount, negative: bool) {
        let sign = if negative { -1.0 } else { 1.0 };
        let mut pieces: Vec<Piece> = Vec::new();
        let mut amount = first;
        let mut amount_start = start;
        let mut whole_so_far = true;
        loop {
            let (unit, end) = match self.unit_of_number(amount_start, &amount) {
                Ok(found) => found,
                Err((end, diagnostic)) => return self.give_up(end, diagnostic),
            };
            let unit_span = self.span(amount.end, end);
            if let Some(last) = pieces.last()
                && (!whole_so_far || !falls(&last.unit, &unit))
            {
                let diagnostic = self.pieces_fault(&last.unit, &unit, whole_so_far, end);
                return self.give_up(end, diagnostic);
            }
            whole_so_far &= amount.whole;
            pieces.push(Piece { number: sign * amount.value, unit, unit_span });
            let Some(next) = self.next_piece(end) else {
                let range = self.bytes(self.at, end);
                self.push(TokenKind::Quantity(Quantity { pieces }), range);
                self.at = end;
                return self.after_quantity();
            };
            amount_start = end;
            amount = next;
        }
    }

    /// A further number with a unit, such as `4 oz` after `12 lb`.
    fn next_piece(&self, at: usize) -> Option<Amount> {
        self.get(at).filter(|lexeme| lexeme.kind == LexemeKind::Number && lexeme.spaced)?;
        let amount = self.amount(at);
        let known =
            self.unit_extent(amount.end).is_some_and(|unit| units::is_unit(self.slice(amount.end, unit.head_end)));
        (known && amount.value.is_finite() && amount.fault.is_none()).then_some(amount)
    }

    fn pieces_fault(&self, last: &Unit, unit: &Unit, whole: bool, end: usize) -> Diagnostic {
        let place = self.span(self.at, end);
        if last.dimension == unit.dimension && !whole {
            let message = "a quantity in pieces has a point or a fraction in its last piece only";
            return Diagnostic::error(&words::PIECES, message, place, "several numbers side by side")
                .with_mend("write it in one unit, or whole numbers before the last piece: `12 lb 4.5 oz`");
        }
        let message = format!("`{}` after `{}` does not make one quantity", unit.text, last.text);
        Diagnostic::error(&words::PIECES, message, place, "two quantities side by side").with_mend(
            "pieces fall in size, such as `12 lb 4 oz`; otherwise an operator or a comma is missing between them",
        )
    }

    fn fraction_fault(&self, start: usize, amount: &Amount, fault: FractionFault) -> Diagnostic {
        let place = self.span(start, amount.end);
        let shown = self.slice(start, amount.end);
        let spaced = shown.replace('/', " / ");
        match fault {
            FractionFault::Improper => {
                let message = format!("`{shown}` before a unit is no proper fraction");
                Diagnostic::error(&words::FRACTION, message, place, "a fraction is smaller than 1, such as `3/8 in`")
                    .with_mend(format!("to divide, put spaces: `{spaced} …`; for a length write `1-1/4 in`"))
            }
            FractionFault::Chained => {
                let message = format!("`{shown}` behind another division can be read in two ways");
                Diagnostic::error(&words::FRACTION, message, place, "a fraction, or two divisions?")
                    .with_mend(format!("put brackets round the fraction with its unit, or spaces: `{spaced}`"))
            }
        }
    }

    /// `40'`, `3/8"`, `6' 4"`
    fn marks_of_length(&self, start: usize, amount: &Amount) -> Option<(usize, Diagnostic)> {
        let (mut end, mut meant) = self.marked_length(start, amount.end)?;
        let next = self.get(end).filter(|lexeme| lexeme.kind == LexemeKind::Number);
        if let Some((inches_end, inches)) = next.and_then(|_| self.marked_length(end, end + 1)) {
            meant = format!("{meant} {inches}");
            end = inches_end;
        }
        let place = self.span(start, end);
        let message = format!("`{}` is not how a length is written here", self.slice(start, end));
        let diagnostic = Diagnostic::error(&words::LENGTH_MARK, message, place, "a foot or inch mark")
            .with_mend(format!("write `{meant}`; several pieces as `6 ft 4-1/2 in`"));
        Some((end, diagnostic))
    }

    /// A number with a foot or inch mark right behind it: one past the mark, and what is meant.
    fn marked_length(&self, start: usize, number_end: usize) -> Option<(usize, String)> {
        // A fraction is joined only before a unit, so that the mark is looked for behind `3/8` and `1-1/8` too, and no
        // further: a long row of divisions would be walked through from each of its numbers.
        let mut end = number_end;
        for mark in [LexemeKind::Minus, LexemeKind::Over] {
            if self.close_kind(end, mark).is_some() && self.close_kind(end + 1, LexemeKind::Number).is_some() {
                end += 2;
            }
        }
        let unit = match self.close(end)?.kind {
            LexemeKind::FootMark => "ft",
            LexemeKind::InchMark => "in",
            _ => return None,
        };
        Some((end + 1, format!("{} {unit}", self.slice(start, end))))
    }

    /// `5 1/8 in`: one past the fraction.
    fn space_in_mixed_number(&self, at: usize) -> Option<usize> {
        self.get(at).filter(|lexeme| lexeme.kind == LexemeKind::Number && lexeme.spaced)?;
        self.close_kind(at + 1, LexemeKind::Over)?;
        self.close_kind(at + 2, LexemeKind::Number)?;
        self.begins_unit(at + 3).then_some(at + 3)
    }

    fn spaced_mixed_number(&self, start: usize, middle: usize, end: usize) -> Diagnostic {
        let joined = format!("{}-{}", self.slice(start, middle), self.slice(middle, end));
        let place = self.span(start, end);
        Diagnostic::error(&words::FRACTION, "a whole number and its fraction are joined by a dash", place, "")
            .with_mend(format!("write `{joined}` before the unit"))
    }
}

/// Whether `second` is a smaller unit of the same thing, neither on a scale of its own.
fn falls(first: &Unit, second: &Unit) -> bool {
    use units::Meaning::{Difference, Plain};
    let steps = |unit: &Unit| matches!(unit.meaning, Plain { .. } | Difference { .. });
    first.dimension == second.dimension
        && steps(first)
        && steps(second)
        && first.meaning.factor() > second.meaning.factor()
}
