//! Designations of refrigerants, brought to one spelling.

use super::Joiner;
use crate::diagnostic::{Diagnostic, words};
use crate::syntax::lexeme::{Lexeme, LexemeKind};
use crate::syntax::token::TokenKind;

impl Joiner<'_, '_> {
    pub(super) fn refrigerant(&mut self, lexeme: Lexeme) {
        let shown = self.text.slice(lexeme.range());
        let end = self.at + 1;
        if self.close(end).is_some_and(|next| matches!(next.kind, LexemeKind::Number | LexemeKind::Word)) {
            let message = format!("`{}` is not the designation of a refrigerant", self.slice(self.at, end + 1));
            let place = self.span(self.at, end + 1);
            let diagnostic = Diagnostic::error(&words::REFRIGERANT, message, place, "")
                .with_mend("write it as on the cylinder, such as `R-410A` or `R-1234ze(E)`; no name may begin so");
            return self.give_up(end + 1, diagnostic);
        }
        self.push(TokenKind::Refrigerant(canonical(shown)), lexeme.range());
        self.at = end;
    }
}

/// `R410a` as `R-410A`, `R-1234ZE(E)` as `R-1234ze(E)`: a blend's letter is large (series 400, 500, 700), an
/// isomer's small. ASHRAE 34, ISO 817.
fn canonical(shown: &str) -> String {
    let body = shown.trim_start_matches('R').trim_start_matches('-');
    let digits_end = body.find(|c: char| !c.is_ascii_digit()).unwrap_or(body.len());
    let (digits, rest) = body.split_at(digits_end);
    let (letters, isomer) = rest.split_at(rest.find('(').unwrap_or(rest.len()));
    let blend = digits.len() == 3 && digits.starts_with(['4', '5', '7']);
    let as_written = digits.is_empty() || letters.bytes().any(|byte| byte.is_ascii_digit());
    let letters = match (as_written, blend) {
        (true, _) => letters.to_string(),
        (false, true) => letters.to_ascii_uppercase(),
        (false, false) => letters.to_ascii_lowercase(),
    };
    format!("R-{digits}{letters}{isomer}")
}

#[cfg(test)]
mod tests {
    use super::canonical;

    #[test]
    fn spellings_come_to_one() {
        for (shown, wanted) in [
            ("R410A", "R-410A"),
            ("R-410a", "R-410A"),
            ("R32", "R-32"),
            ("R-134A", "R-134a"),
            ("R-1234ze(E)", "R-1234ze(E)"),
            ("R1233ZD(E)", "R-1233zd(E)"),
            ("R-C318", "R-C318"),
            ("R-13I1", "R-13I1"),
            ("R-744", "R-744"),
            ("R-744A", "R-744A"),
            ("R-600a", "R-600a"),
        ] {
            assert_eq!(canonical(shown), wanted);
        }
    }
}
