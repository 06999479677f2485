//! A comma between digits. In one country it is the decimal comma, in the other it parts thousands, and here it would
//! part two values; so it is refused wherever it stands, and the message shows what each may have been meant for.

use super::Joiner;
use crate::diagnostic::{Diagnostic, words};
use crate::syntax::lexeme::LexemeKind;

/// How far to look for the brackets of a call, so that a long line is not walked through from each of its commas.
const REACH: usize = 200;
/// The longest call that is written out in a message, in bytes.
const SHOWN_CALL: usize = 80;

impl Joiner<'_, '_> {
    /// `850,9`, `1,280`, `1,2,3`: how far the numbers go that commas without a space join, if there are any.
    pub(super) fn commas(&self, at: usize) -> Option<usize> {
        let mut end = at + 1;
        while self.close_kind(end, LexemeKind::Comma).is_some()
            && self.close_kind(end + 1, LexemeKind::Number).is_some()
        {
            end += 2;
        }
        (end > at + 1).then_some(end)
    }

    /// The message about the numbers from `start` up to `end`.
    pub(super) fn commas_fault(&self, start: usize, end: usize) -> Diagnostic {
        let shown = self.slice(start, end);
        let listed = shown.replace(',', ", ");
        let (call, listed) = match self.call_around(start) {
            Some((from, to)) => (true, self.spaced_call(from, to).unwrap_or(listed)),
            None => (false, listed),
        };
        let list = (call || self.takes_a_list()).then_some(listed);
        let message = format!("`{shown}` has a comma between digits");
        Diagnostic::error(&words::COMMA, message, self.span(start, end), "one number or several?").with_mend(mend(
            shown,
            list.as_deref(),
            self.begins_unit(end),
        ))
    }

    /// The call or bracket around a place: from its name to behind its last bracket.
    fn call_around(&self, at: usize) -> Option<(usize, usize)> {
        let is = |at: usize, test: fn(LexemeKind) -> bool| self.get(at).is_some_and(|lexeme| test(lexeme.kind));
        let (opens, closes) = (|kind: LexemeKind| kind.closing().is_some(), LexemeKind::is_closing);
        let mut depth = 0_usize;
        let open = (at.saturating_sub(REACH)..at).rev().find(|&one| {
            depth += usize::from(is(one, closes));
            let found = depth == 0 && is(one, opens);
            depth -= usize::from(depth > 0 && is(one, opens));
            found
        })?;
        let mut depth = 0_usize;
        let close = (open + 1..at + REACH).find(|&one| {
            let found = depth == 0 && is(one, closes);
            depth += usize::from(is(one, opens));
            depth -= usize::from(depth > 0 && is(one, closes));
            found
        })?;
        let named = self.close(open).is_some() && open > 0 && is(open - 1, |kind| kind == LexemeKind::Word);
        Some((open - usize::from(named), close + 1))
    }

    /// The call with a space behind each comma; nothing if it is too long to show.
    fn spaced_call(&self, from: usize, to: usize) -> Option<String> {
        if self.bytes(from, to).len() > SHOWN_CALL {
            return None;
        }
        let mut call = String::new();
        for at in from..to {
            let lexeme = self.get(at)?;
            let behind_comma = at > from && self.get(at - 1).is_some_and(|before| before.kind == LexemeKind::Comma);
            if at > from && (lexeme.spaced || behind_comma) {
                call.push(' ');
            }
            call.push_str(self.text.slice(lexeme.range()));
        }
        Some(call)
    }

    /// Whether several values may stand here side by side: repeats of a reading, in a sheet or set from outside.
    fn takes_a_list(&self) -> bool {
        let first = self.get(0).map(|lexeme| lexeme.kind);
        let set =
            first == Some(LexemeKind::Number) && self.lexemes.iter().take(REACH).all(|one| one.kind != LexemeKind::Bar);
        self.word_at(0) == "reading" || set
    }
}

/// How to write a number with commas between its digits. `list` is how several values are written where they may stand.
pub fn mend(shown: &str, list: Option<&str>, unit_follows: bool) -> String {
    let parts: Vec<&str> = shown.split(',').collect();
    let decimal = decimal(&parts).map(|number| (number, "for a decimal comma"));
    let thousands = thousands(&parts).map(|number| (number, "if the comma parts thousands"));
    // `0,022` is no list: nobody writes a value `022`.
    let zeros = parts.iter().skip(1).any(|part| part.len() > 1 && part.starts_with('0') && !part.starts_with("0."));
    let list = list.filter(|_| !zeros || (decimal.is_none() && thousands.is_none()));
    let list = list.map(|list| (list.to_string(), "with a space for several values"));
    let ways = if unit_follows { [thousands, decimal, list] } else { [list, thousands, decimal] };
    let ways: Vec<String> = ways.into_iter().flatten().map(|(way, meaning)| format!("`{way}` {meaning}")).collect();
    match ways.as_slice() {
        [] => {
            "write the decimal point as a point, nothing between thousands, and a space behind a comma between values"
                .to_string()
        }
        [one] => format!("write {one}"),
        [first @ .., last] => format!("write {}, or {last}", first.join(", ")),
    }
}

/// `850,9` as 850.9, and `1.280,5` as 1280.5.
fn decimal(parts: &[&str]) -> Option<String> {
    let [whole, decimals] = parts else { return None };
    if decimals.contains('.') {
        return None;
    }
    match whole.split_once('.') {
        None => Some(format!("{whole}.{decimals}")),
        Some((above, below)) => {
            let grouped = below.len() == 3 && above.len() <= 3 && !above.starts_with('0');
            grouped.then(|| format!("{above}{below}.{decimals}"))
        }
    }
}

/// `1,280` as 1280: groups of three digits behind one that may be shorter and does not begin with a zero.
fn thousands(parts: &[&str]) -> Option<String> {
    let (first, groups) = parts.split_first()?;
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    let (last, middle) = groups.split_last()?;
    let last = last.split_once('.').map_or(*last, |(group, _)| group);
    let begins = (1..=3).contains(&first.len()) && digits(first) && !first.starts_with('0');
    let goes_on = middle.iter().chain([&last]).all(|group| group.len() == 3 && digits(group));
    (begins && goes_on).then(|| parts.concat())
}

#[cfg(test)]
mod tests {
    use super::mend;

    #[test]
    fn what_may_be_meant_is_shown_and_nothing_else() {
        let decimal = |number: &str| format!("write `{number}` for a decimal comma");
        assert_eq!(mend("0,022", Some("0, 022"), true), decimal("0.022"));
        assert_eq!(mend("850,9", None, true), decimal("850.9"));
        assert_eq!(mend("1.280,5", None, true), decimal("1280.5"));
        assert_eq!(
            mend("1,280", None, true),
            "write `1280` if the comma parts thousands, or `1.280` for a decimal comma"
        );
        assert_eq!(mend("1,280,000.5", None, false), "write `1280000.5` if the comma parts thousands");
        assert_eq!(
            mend("1,2", Some("max(1, 2)"), false),
            "write `max(1, 2)` with a space for several values, or `1.2` for a decimal comma"
        );
        assert_eq!(mend("1,2,3", Some("1, 2, 3"), false), "write `1, 2, 3` with a space for several values");
        assert!(mend("1.5,2.5", None, false).starts_with("write the decimal point as a point"));
    }
}
