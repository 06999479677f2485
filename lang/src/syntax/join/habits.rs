//! Habits of typing that the language does not have; each gets a message of its own.

use super::Joiner;
use super::numbers::Amount;
use super::unit_texts::UnitExtent;
use crate::diagnostic::{Diagnostic, words};
use crate::syntax::lexeme::{Lexeme, LexemeKind};
use crate::syntax::token::TokenKind;
use crate::syntax::tree::Piece;
use crate::units::{self, Stance};

impl Joiner<'_, '_> {
    /// `5 F`, `5 deg`, `2 x`, `2 sin(x)`: what stands after a number and is no unit.
    pub(super) fn not_a_unit(&self, start: usize, amount: &Amount, extent: &UnitExtent) -> Option<(usize, Diagnostic)> {
        let word = self.slice(amount.end, extent.head_end);
        let called = self
            .close(extent.head_end)
            .is_some_and(|next| matches!(next.kind, LexemeKind::OpenRound | LexemeKind::OpenSquare | LexemeKind::Dot));
        if let Some(diagnostic) = self.bare_degree(amount.end, extent) {
            return Some((extent.end, diagnostic));
        }
        let multiplies = called || (self.sees(word) && !units::is_unit(word));
        if !multiplies {
            return None;
        }
        let number = self.slice(start, amount.end);
        let message = format!("`{number} {word}` does not multiply");
        let place = self.span(start, extent.head_end);
        let diagnostic = Diagnostic::error(&words::SIDE_BY_SIDE, message, place, "a value right behind a number")
            .with_mend(format!("write `{number} * {word}`"));
        Some((extent.head_end, diagnostic))
    }

    /// `5 F`, `: C`, `5 °`
    pub(super) fn bare_degree(&self, at: usize, extent: &UnitExtent) -> Option<Diagnostic> {
        let word = self.slice(at, extent.head_end);
        let scale = match word {
            "F" | "f" | "fahrenheit" | "Fahrenheit" => "F",
            "C" | "c" | "celsius" | "Celsius" => "C",
            "deg" | "degs" | "degree" | "degrees" | "°" | "º" | "ºF" => "F",
            "ºC" => "C",
            _ => return None,
        };
        let place = self.span(at, extent.head_end);
        let message = format!("`{word}` does not say which degrees are meant");
        Some(
            Diagnostic::error(&words::BARE_DEGREE, message, place, "a temperature, or a difference of two?")
                .with_mend(format!("write `deg{scale}` for a temperature, `{scale}°` for a difference")),
        )
    }

    /// What may not follow a quantity: `10 ft / min`, `3 ft ^ 2`.
    pub(super) fn after_quantity(&mut self) {
        let Some(mark) = self.get(self.at) else { return };
        if mark.kind == LexemeKind::Caret {
            let value = self.last_slice();
            let power = self.word_at(self.at + 1);
            let place = self.span(self.at, self.at + 1);
            let message = format!("`{value} ^ {power}` can be read in two ways");
            self.report(
                Diagnostic::error(&words::POWER_OF_QUANTITY, message, place, "a power of the unit, or of the whole?")
                    .with_mend(format!(
                        "write `{value}{power}` for the unit's power, `({value})^{power}` for the whole"
                    )),
            );
        }
        if !(matches!(mark.kind, LexemeKind::Over | LexemeKind::Times) && mark.spaced) {
            return;
        }
        let Some(word) = self.get(self.at + 1).filter(|next| next.kind == LexemeKind::Word) else { return };
        let name = self.text.slice(word.range());
        let used = self
            .close(self.at + 2)
            .is_some_and(|next| matches!(next.kind, LexemeKind::OpenRound | LexemeKind::OpenSquare | LexemeKind::Dot));
        if !used && units::is_unit(name) && !self.sees(name) {
            let value = self.last_slice();
            let sign = self.word_at(self.at);
            let place = self.span(self.at, self.at + 2);
            let message = format!("`{name}` is a unit, and no unit stands after an operator with spaces");
            self.report(
                Diagnostic::error(&words::UNIT_SPACED, message, place, "the unit goes on here")
                    .with_mend(format!("write `{value}{sign}{name}` without spaces")),
            );
        }
    }

    /// `(a + b) psi`
    pub(super) fn unit_after_bracket(&mut self, bracket: Lexeme) {
        let Some(next) = self.get(self.at).filter(|next| next.kind == LexemeKind::Word) else { return };
        let word = self.text.slice(next.range());
        if super::words::never_unit(word) || !units::is_unit(word) || self.sees(word) {
            return;
        }
        let Some(extent) = self.unit_extent(self.at) else { return };
        let unit = self.slice(self.at, extent.end);
        let message = format!("`{unit}` stands after a bracket, and a unit stands only after a number");
        let place = self.span(self.at, extent.end);
        self.report(
            Diagnostic::error(&words::UNIT_AFTER_BRACKET, message, place, "")
                .with_label(self.text.span(bracket.range()), "the bracket ends here")
                .with_mend(format!("write `(…) * 1 {unit}` if the bracket is a number, `(…) as {unit}` to show it so")),
        );
        self.at = extent.end;
    }

    /// `± 1 degF`: a half-width is a difference, never a temperature or a gauge pressure.
    pub(super) fn after_plus_minus(&mut self, mark: Lexeme) {
        let Some(next) = self.get(self.at).filter(|next| next.kind == LexemeKind::Number) else { return };
        let tokens_before = self.joined.tokens.len();
        self.token(next);
        let Some(token) = self.joined.tokens.get(tokens_before) else { return };
        let TokenKind::Quantity(quantity) = &token.kind else { return };
        let point =
            quantity.pieces.iter().find_map(|piece| Some((&piece.unit, difference_instead(piece)?, piece.number)));
        let Some((unit, instead, number)) = point else { return };
        let (text, place) = (unit.text.clone(), token.span);
        let message = format!("`± {number} {text}`: a ± is a difference, and `{text}` is a point on a scale");
        if let Some(token) = self.joined.tokens.get_mut(tokens_before) {
            token.kind = TokenKind::Unreadable;
        }
        self.report(
            Diagnostic::error(&words::PLUS_MINUS_POINT, message, place, "")
                .with_label(self.text.span(mark.range()), "")
                .with_mend(format!("write `± {instead}`")),
        );
    }

    /// A sign that stands for nothing here.
    pub(super) fn misplaced(&mut self, lexeme: Lexeme) {
        let shown = self.text.slice(lexeme.range());
        let mend = match shown {
            "“" | "”" | "„" | "‘" | "’" => Some("write the plain quote `\"`"),
            "–" | "—" | "−" | "‐" => Some("write the plain minus `-`"),
            "×" | "∙" | "⋅" | "•" => Some("write `*`"),
            "÷" => Some("write `/`"),
            "≤" => Some("write `<=`"),
            "≥" => Some("write `>=`"),
            "≠" | "<>" => Some("write `!=`"),
            "&" | "&&" => Some("write `and`"),
            "!" => Some("write `not`"),
            "½" | "¼" | "¾" | "⅛" | "⅜" | "⅝" | "⅞" => {
                Some("write the fraction as `1/2`, after a whole number `1-1/2`")
            }
            "∆" => Some("a difference of temperatures has the unit `F°` or `C°`"),
            "`" => Some("take it away"),
            ";" => Some("one statement stands on each line; take it away"),
            "{" | "}" => Some("a filling `{…}` stands only inside a text"),
            "²" | "³" => Some("write a power of a value as `^2` or `^3`"),
            "%" => Some("a per cent stands right after a number: `55 %`"),
            "°" => Some("write `degF` or `F°` right after a number"),
            "'" | "′" => Some("write `ft` after a number, and \"…\" round a text"),
            "\"" | "″" => Some("write `in` after a number"),
            _ => None,
        };
        let code = if lexeme.kind == LexemeKind::Strange { &words::STRANGE_CHARACTER } else { &words::MISPLACED_MARK };
        let message = match lexeme.kind {
            LexemeKind::Strange => format!("`{}` means nothing in a sheet", shortened(shown)),
            _ => format!("`{shown}` has no meaning at this place"),
        };
        let diagnostic = Diagnostic::error(code, message, self.text.span(lexeme.range()), "");
        let diagnostic = match mend {
            Some(mend) => diagnostic.with_mend(mend),
            None => diagnostic,
        };
        // The second of two typographic quotes says nothing new.
        let line_start = self.bytes(0, 0).start;
        let told = |last: &Diagnostic| {
            let here = last.span().start as usize >= self.text.base + line_start;
            here && last.code == code && last.mend == diagnostic.mend
        };
        if self.joined.diagnostics.last().is_some_and(told) {
            self.push(TokenKind::Unreadable, lexeme.range());
            self.at += 1;
        } else {
            self.give_up(self.at + 1, diagnostic);
        }
    }

    fn last_slice(&self) -> String {
        let range = self.joined.tokens.last().map_or(0..0, |token| token.span.range());
        self.text
            .slice(range.start.saturating_sub(self.text.base)..range.end.saturating_sub(self.text.base))
            .to_string()
    }
}

/// The difference that people mean when they write a point after `±`. A vacuum gauge's own unit is a difference there.
fn difference_instead(piece: &Piece) -> Option<String> {
    let unit = &piece.unit;
    if unit.meaning.stance() != Stance::Point || units::in_differences(unit) != *unit {
        return None;
    }
    let number = units::show::number;
    Some(match units::difference(unit) {
        Some(apart) => format!("{} {}", number(piece.number), apart.text),
        // A whole atmosphere has no unit of differences of its own.
        None => format!("{} kPa", number(piece.number * unit.meaning.factor() / 1e3)),
    })
}

/// At most a few characters of a run of strange ones, invisible ones made visible.
fn shortened(text: &str) -> String {
    let mut shown: String = text
        .chars()
        .take(8)
        .flat_map(|c| if c.is_control() { c.escape_default().collect::<Vec<_>>() } else { vec![c] })
        .collect();
    if text.chars().nth(8).is_some() {
        shown.push('…');
    }
    shown
}
