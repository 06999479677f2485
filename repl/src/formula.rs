//! Texts that a spreadsheet would take for a formula when it opens a CSV file.
//!
//! They are written with `'` before them, by which a spreadsheet knows a text, and it is taken off when a table is read.

use dewline_lang::units;

use crate::words::visible;

/// The text as it may stand in a CSV file.
pub fn guarded(text: &str) -> String {
    let text = visible(text);
    if is_like_one(&text) || text.strip_prefix('\'').is_some_and(is_like_one) { format!("'{text}") } else { text }
}

/// The text that was guarded.
pub fn unguarded(field: &str) -> &str {
    match field.strip_prefix('\'') {
        Some(text) if is_like_one(text) || text.strip_prefix('\'').is_some_and(is_like_one) => text,
        _ => field,
    }
}

/// It begins as a formula does, and is neither a number nor one with its unit.
fn is_like_one(text: &str) -> bool {
    let number = |text: &str| text.parse::<f64>().is_ok();
    let with_unit = |text: &str| {
        text.split_once(' ').is_some_and(|(before, unit)| {
            number(before) && (units::parse(unit).is_ok() || unit.split(' ').all(|unit| units::parse(unit).is_ok()))
        })
    };
    text.trim_start().starts_with(['=', '+', '-', '@', '|', '%', '\t'])
        && !number(text)
        && !with_unit(text)
        && text != "-"
}

#[cfg(test)]
mod tests {
    use super::{guarded, unguarded};

    #[test]
    fn formulas_are_guarded_and_come_back() {
        for text in ["=1+1", "@SUM(A1:A9)", "+1|cmd", "-2+3", " =1", "'=1+1", "-x", "-1 zzz"] {
            assert!(guarded(text).starts_with('\''), "{text}");
            assert_eq!(unguarded(&guarded(text)), text);
        }
        for text in ["-1.2", "-0.4 psi", "+3", "Exam 1", "'x", "", "-", "-1e-5 Pa·m3/s"] {
            assert_eq!(guarded(text), text);
            assert_eq!(unguarded(text), text);
        }
        assert_eq!(guarded("a\u{202e}\u{1b}[31m"), "a\\u{202e}\\u{1b}[31m");
    }
}
