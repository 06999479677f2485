//! Dates and times.

use super::Joiner;
use crate::diagnostic::{Diagnostic, words};
use crate::moment::Moment;
use crate::syntax::lexeme::{Lexeme, LexemeKind};
use crate::syntax::token::TokenKind;

const TO_SUBTRACT: &str = "write a day that there is; to subtract numbers instead, put spaces round `-`";

impl Joiner<'_, '_> {
    pub(super) fn moment(&mut self, lexeme: Lexeme) {
        let shown = self.text.slice(lexeme.range());
        let end = self.at + 1;
        if self.close(end).is_some_and(|next| matches!(next.kind, LexemeKind::Number | LexemeKind::Word)) {
            let place = self.span(self.at, end + 1);
            let message = format!("`{}` begins as a date and does not end as one", self.slice(self.at, end + 1));
            let diagnostic = Diagnostic::error(&words::MOMENT_FORM, message, place, "")
                .with_mend("write `2026-03-14`, or with a time `2026-03-14T07:40`; put spaces round `-` to subtract");
            return self.give_up(end + 1, diagnostic);
        }
        if let Some(time_end) = self.spaced_time(end) {
            let place = self.span(self.at, time_end);
            let joined = format!("{shown}T{}", self.slice(end, time_end));
            let diagnostic = Diagnostic::error(&words::MOMENT_FORM, "a date and its time are joined by `T`", place, "")
                .with_mend(format!("write `{joined}`"));
            return self.give_up(time_end, diagnostic);
        }
        match Moment::parse(shown) {
            Ok(moment) => {
                self.push(TokenKind::Moment(moment), lexeme.range());
                self.at = end;
            }
            Err(problem) => {
                let place = self.text.span(lexeme.range());
                let diagnostic = Diagnostic::error(&words::MOMENT_IMPOSSIBLE, problem.message, place, "")
                    .with_mend(problem.mend.unwrap_or_else(|| TO_SUBTRACT.to_string()));
                self.give_up(end, diagnostic);
            }
        }
    }

    /// ` 07:40` behind a date: one past it.
    fn spaced_time(&self, at: usize) -> Option<usize> {
        self.get(at).filter(|lexeme| lexeme.kind == LexemeKind::Number)?;
        let mut end = at + 1;
        while self.close_kind(end, LexemeKind::Colon).is_some()
            && self.close_kind(end + 1, LexemeKind::Number).is_some()
        {
            end += 2;
        }
        (end > at + 1).then_some(end)
    }
}
