//! From the place where a line could not be read on to a message that a technician can use.

use super::calls::SOLVE;
use super::fault::Fault;
use super::forms::form;
use super::show::{ends_value, shown};
use crate::diagnostic::{Diagnostic, statements, words};
use crate::source::Span;
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::{Token, TokenKind};
use crate::units;

/// The message for a fault in a line; `whole` is the place of the line if it has no tokens.
pub fn explain(fault: Fault, line: &[Token], whole: Span) -> Diagnostic {
    if let Some(said) = fault.said {
        return *said;
    }
    let found = line.get(fault.at);
    let before = fault.at.checked_sub(1).and_then(|at| line.get(at));
    let place = match (found, before) {
        (Some(found), _) => found.span,
        (None, Some(before)) => Span { start: before.span.end, ..before.span },
        (None, None) => whole,
    };
    let around = Around { line, at: fault.at, found, before, place };
    around
        .reserved_name()
        .or_else(|| around.between_values())
        .or_else(|| around.missing_value())
        .unwrap_or_else(|| around.form())
}

struct Around<'t> {
    line: &'t [Token],
    at: usize,
    found: Option<&'t Token>,
    before: Option<&'t Token>,
    place: Span,
}

impl Around<'_> {
    fn mark(&self) -> Option<Mark> {
        self.found.and_then(mark_of)
    }

    /// `input if = 3`, `x = f(R-32 = 1)`: a word that no name may have stands where a name begins.
    fn reserved_name(&self) -> Option<Diagnostic> {
        let found = self.found?;
        let declares = matches!(
            self.before.map(|before| &before.kind),
            Some(TokenKind::Word(word)) if self.at == 1
                && matches!(word.as_str(), "input" | "reading" | "table" | "instrument" | "define")
        );
        // The columns of a table stand between bars.
        let bar = |token: &Token| mark_of(token) == Some(Mark::Bar);
        let column = self.before.map_or(self.line.iter().any(bar), bar);
        match &found.kind {
            TokenKind::Mark(mark) if column && mark.is_reserved() => {}
            TokenKind::Unreadable => return None,
            _ if declares => {}
            _ => return None,
        }
        Some(no_name(found))
    }

    /// What stands right behind a complete value and does not go on from it.
    fn between_values(&self) -> Option<Diagnostic> {
        let (before, found) = (self.before?, self.found?);
        if !ends_value(before) {
            return None;
        }
        let error = |code, message: String, mend: String| {
            Some(Diagnostic::error(code, message, self.place, "").with_mend(mend))
        };
        match &found.kind {
            TokenKind::Mark(mark) if mark.is_comparison() && self.compared_before() => error(
                &statements::CHAINED,
                "comparisons do not chain".into(),
                "join two comparisons with `and`: `1 < x and x < 5`; for a range write `x within 1 .. 5`".into(),
            ),
            TokenKind::Mark(Mark::Equals) if self.is_check() => error(
                &statements::EQUALS,
                "`=` gives a name its value; to compare, write `==`".into(),
                "write `==`".into(),
            ),
            TokenKind::Mark(Mark::Where) if !self.in_solve() => error(
                &statements::WHERE_PLACE,
                "`where` stands only after `require each`, inside a fold's brackets and in `solve`".into(),
                "write `require each …`, or `mean(table.column where condition)`".into(),
            ),
            TokenKind::Mark(Mark::Then) => {
                error(&statements::FORM, "`then` without its `if`".into(), "write `if … then … else …`".into())
            }
            TokenKind::Mark(Mark::Else) => error(
                &statements::FORM,
                "`else` without its `if`".into(),
                "write `if … then … else …`; in the middle of a formula put it in brackets".into(),
            ),
            TokenKind::Mark(Mark::PlusMinus) if self.is_formula() => error(
                &statements::FORM,
                "`±` stands after a given value or after `within`, not in a formula".into(),
                "give the ± where the value is given: an input, a reading, an instrument".into(),
            ),
            TokenKind::Word(word) if units::is_unit(word) && !self.tail_word(word) => error(
                &words::UNIT_AFTER_BRACKET,
                format!("the unit `{word}` stands after {}, and a unit stands only after a number", shown(before)),
                format!("write `… as {word}` to show the value so, or `… * 1 {word}` to give a number a unit"),
            ),
            TokenKind::Number(_) | TokenKind::Quantity(_) | TokenKind::Refrigerant(_) | TokenKind::Moment(_)
                if self.in_expression() =>
            {
                error(
                    &words::SIDE_BY_SIDE,
                    format!("{} stands right behind {}", shown(found), shown(before)),
                    "an operator, a comma or a line end is missing between them".into(),
                )
            }
            TokenKind::Word(_) | TokenKind::Function(_) | TokenKind::Mark(Mark::OpenRound) if self.is_formula() => {
                error(
                    &words::SIDE_BY_SIDE,
                    format!("{} stands right behind {}", shown(found), shown(before)),
                    "an operator is missing between them; each statement stands on a line of its own".into(),
                )
            }
            _ => None,
        }
    }

    /// An operator without a value behind it, or a line that ends too early.
    fn missing_value(&self) -> Option<Diagnostic> {
        if self.mark() == Some(Mark::NotTaken) {
            let message = "`?` stands only as the whole value of an input, a reading or a table's cell";
            return Some(
                Diagnostic::error(&statements::NOT_TAKEN_PLACE, message, self.place, "not taken yet")
                    .with_mend("make it a reading of its own, such as `reading x : psig`, and use its name here"),
            );
        }
        let before = self.before.and_then(mark_of)?;
        let needs_value = before.is_operator() || before.closing().is_some() || before == Mark::Comma;
        if !needs_value || before == Mark::As {
            return None;
        }
        let after = self.before.map(shown).unwrap_or_default();
        let mend = match self.mark() {
            Some(Mark::If) => "put brackets round the `if … then … else …`",
            Some(Mark::Not) => "put brackets round the `not …`",
            Some(Mark::Times) if before == Mark::Times => "a power is written `^`",
            Some(Mark::Equals) if matches!(before, Mark::Less | Mark::More | Mark::Equals) => {
                "comparisons are written `==` `!=` `<` `<=` `>` `>=`"
            }
            _ => "write the value, or take the sign away",
        };
        let message = format!("a value is missing after {after}");
        Some(Diagnostic::error(&statements::VALUE_MISSING, message, self.place, "").with_mend(mend))
    }

    /// Nothing special: what the statement looks like.
    fn form(&self) -> Diagnostic {
        let message = match self.found {
            Some(found) => format!("{} does not fit here", shown(found)),
            None => "the line ends too early".to_string(),
        };
        let diagnostic = Diagnostic::error(&statements::FORM, message, self.place, "");
        if self.in_solve() {
            return diagnostic.with_mend("it is written `solve(x within a .. b where left == right)`");
        }
        match form(self.first_word()) {
            Some(form) => diagnostic.with_mend(format!("it is written `{form}`")),
            None if self.is_formula() => {
                diagnostic.with_mend("a cell is written `name = formula`, or `name : unit = formula`")
            }
            None => diagnostic.with_mend("take it away, or write the formula anew from here"),
        }
    }

    /// Whether the innermost bracket open here is that of a `solve`.
    fn in_solve(&self) -> bool {
        let mut closed = 0_usize;
        for (at, token) in self.line.iter().enumerate().take(self.at).rev() {
            match mark_of(token) {
                Some(mark) if mark.is_closing() => closed += 1,
                Some(mark) if mark.closing().is_some() && closed > 0 => closed -= 1,
                Some(mark) if mark.closing().is_some() => {
                    let before = at.checked_sub(1).and_then(|before| self.line.get(before));
                    return before
                        .is_some_and(|token| matches!(&token.kind, TokenKind::Function(name) if name == SOLVE));
                }
                _ => {}
            }
        }
        false
    }

    fn first_word(&self) -> &str {
        match self.line.first().map(|token| &token.kind) {
            Some(TokenKind::Word(word)) if !self.is_formula() => word,
            _ => "",
        }
    }

    /// `name = …` or `name : kind = …`
    fn is_formula(&self) -> bool {
        matches!(self.line.get(1).and_then(mark_of), Some(Mark::Equals | Mark::Colon))
    }

    fn is_check(&self) -> bool {
        matches!(self.first_word(), "require" | "advise")
    }

    fn in_expression(&self) -> bool {
        self.is_formula() || matches!(self.first_word(), "require" | "advise" | "input" | "reading" | "site" | "")
    }

    fn tail_word(&self, word: &str) -> bool {
        matches!(word, "at" | "by" | "optional" | "after" | "from")
    }

    /// Whether a comparison stands before, in the same bracket and not cut off by `and`, `or`, `then`, `else`, a comma.
    fn compared_before(&self) -> bool {
        let mut depth = 0_usize;
        for mark in self.line.iter().take(self.at).rev().filter_map(mark_of) {
            match mark {
                mark if mark.is_closing() => depth += 1,
                mark if mark.closing().is_some() => match depth.checked_sub(1) {
                    Some(outer) => depth = outer,
                    None => return false,
                },
                _ if depth > 0 => {}
                Mark::And | Mark::Or | Mark::Then | Mark::Else | Mark::Where | Mark::Comma | Mark::If => return false,
                mark if mark.is_comparison() => return true,
                _ => {}
            }
        }
        false
    }
}

/// What stands where a name is declared and can be none.
pub fn no_name(found: &Token) -> Diagnostic {
    let message = match &found.kind {
        TokenKind::Refrigerant(name) => format!("`{name}` is a refrigerant and cannot be a name"),
        _ => format!("{} cannot be a name", shown(found)),
    };
    Diagnostic::error(&statements::NAME, message, found.span, "a name is expected here")
        .with_mend("choose another name: a letter, then letters, digits and `_`")
}

fn mark_of(token: &Token) -> Option<Mark> {
    match token.kind {
        TokenKind::Mark(mark) => Some(mark),
        _ => None,
    }
}
