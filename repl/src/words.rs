//! Texts made fit for a terminal: control characters escaped, widths counted, lines wrapped.

use std::borrow::Cow;
use std::fmt::Write;

use unicode_width::UnicodeWidthStr;

/// Columns of a report.
pub const PAGE: usize = 80;

/// The text with everything that could steer a terminal or turn the reading direction written out as an escape.
pub fn plain(text: &str) -> Cow<'_, str> {
    if !text.chars().any(steers) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    for letter in text.chars() {
        match letter {
            '\n' => out.push_str("\\n"),
            '\r' => out.push_str("\\r"),
            '\t' => out.push_str("\\t"),
            letter if steers(letter) => {
                let _ = write!(out, "\\u{{{:x}}}", u32::from(letter));
            }
            letter => out.push(letter),
        }
    }
    Cow::Owned(out)
}

/// A control character, a line or paragraph separator, or a mark that changes the reading direction.
pub fn steers(letter: char) -> bool {
    letter.is_control()
        || matches!(letter, '\u{2028}' | '\u{2029}' | '\u{200e}' | '\u{200f}' | '\u{061c}' | '\u{feff}')
        || matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Columns that a text takes on a terminal.
pub fn width(text: &str) -> usize {
    text.width()
}

/// The text filled with blanks on the right.
pub fn left(text: &str, columns: usize) -> String {
    format!("{text}{}", " ".repeat(columns.saturating_sub(width(text))))
}

/// The text filled with blanks on the left.
pub fn right(text: &str, columns: usize) -> String {
    format!("{}{text}", " ".repeat(columns.saturating_sub(width(text))))
}

/// Lines of at most so many columns, broken at blanks; a longer word is cut.
pub fn wrap(text: &str, columns: usize) -> Vec<String> {
    let columns = columns.max(8);
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let mut word = Cow::Borrowed(word);
        if !line.is_empty() && width(&line) + 1 + width(&word) > columns {
            lines.push(std::mem::take(&mut line));
        }
        while width(&word) > columns {
            let (head, tail) = split_at_width(&word, columns);
            lines.push(head);
            word = Cow::Owned(tail);
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(&word);
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// A text after a lead, wrapped to the page with further lines hanging under its first word.
pub fn hang(out: &mut String, lead: &str, text: &str) {
    let indent = width(lead);
    hang_painted(out, lead, indent, text);
}

/// Like [`hang`], for a lead whose width is not that of its characters, since it is painted.
pub fn hang_painted(out: &mut String, lead: &str, indent: usize, text: &str) {
    for (index, line) in wrap(&plain(text), PAGE.saturating_sub(indent)).iter().enumerate() {
        let before = if index == 0 { Cow::Borrowed(lead) } else { Cow::Owned(" ".repeat(indent)) };
        out.push_str(format!("{before}{line}").trim_end());
        out.push('\n');
    }
}

/// `1 check`, `3 checks`.
pub fn count(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// `a, b and c`; of a long list the first few and how many more.
pub fn list(items: &[String], most: usize) -> String {
    match items {
        [] => String::new(),
        [only] => only.clone(),
        items if items.len() > most => {
            format!("{} and {} more", items[..most].join(", "), items.len() - most)
        }
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

fn split_at_width(text: &str, columns: usize) -> (String, String) {
    let mut taken = 0;
    let mut at = text.len();
    for (index, letter) in text.char_indices() {
        let mut bytes = [0; 4];
        let next = taken + width(letter.encode_utf8(&mut bytes));
        if next > columns && index > 0 {
            at = index;
            break;
        }
        taken = next;
    }
    let (head, tail) = text.split_at(at);
    (head.to_string(), tail.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_steers_the_terminal() {
        assert_eq!(plain("a\u{1b}[31mb\n\u{202e}c"), "a\\u{1b}[31mb\\n\\u{202e}c");
        assert!(matches!(plain("61.0 °F ± 1 F°"), Cow::Borrowed(_)));
    }

    #[test]
    fn lines_break_at_blanks_and_long_words_are_cut() {
        assert_eq!(wrap("soap at every joint", 10), ["soap at", "every", "joint"]);
        assert_eq!(wrap("abcdefghijkl x", 8), ["abcdefgh", "ijkl x"]);
        assert_eq!(wrap("", 10), [""]);
    }

    #[test]
    fn lists_read_as_a_sentence() {
        let items = ["a".to_string(), "b".to_string(), "c".to_string()];
        assert_eq!(list(&items, 5), "a, b and c");
        assert_eq!(list(&items, 2), "a, b and 1 more");
    }
}
