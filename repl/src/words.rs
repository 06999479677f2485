//! Texts made fit for a terminal: control characters escaped, widths counted, lines wrapped.

use std::borrow::Cow;
use std::fmt::Write;

use dewline_lang::units;
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

/// A whole page with the same written out; its line ends and tabulators stay.
pub fn visible(page: &str) -> String {
    let steering = |letter: &char| steers(*letter) && !matches!(letter, '\n' | '\t');
    let mut out = String::with_capacity(page.len());
    let mut rest = page;
    while let Some(letter) = rest.chars().find(steering) {
        let (before, from) = rest.split_at(rest.find(letter).unwrap_or(rest.len()));
        out.push_str(before);
        out.push_str(&plain(&from[..letter.len_utf8()]));
        rest = &from[letter.len_utf8()..];
    }
    out + rest
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

/// The text with the blanks between a number and its unit, and within a range, made ones that no line is broken at.
pub fn kept(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut before: Option<&str> = None;
    for word in text.split(' ') {
        if let Some(before) = before {
            let number = before.trim_start_matches(['(', '-', '−', '±']).parse::<f64>().is_ok();
            let unit = || units::parse(word.trim_end_matches([',', ';', '.', ':', ')'])).is_ok();
            let joined = before.ends_with('±') || before == ".." || word == "..";
            out.push(if joined || number && unit() { KEPT } else { ' ' });
        }
        out.push_str(word);
        before = Some(word);
    }
    out
}

/// A blank that no line is broken at.
const KEPT: char = '\u{a0}';

/// A text after a lead, wrapped to the page with further lines hanging under its first word.
pub fn hang(out: &mut String, lead: &str, text: &str) {
    let indent = width(lead);
    hang_painted(out, lead, indent, text);
}

/// Like [`hang`], for a lead whose width is not that of its characters, since it is painted.
pub fn hang_painted(out: &mut String, lead: &str, indent: usize, text: &str) {
    for (index, line) in wrap(&kept(&plain(text)), PAGE.saturating_sub(indent)).iter().enumerate() {
        let before = if index == 0 { Cow::Borrowed(lead) } else { Cow::Owned(" ".repeat(indent)) };
        out.push_str(format!("{before}{}", line.replace(KEPT, " ")).trim_end());
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

/// The first letters of a text that is to stand in a line.
pub fn shortened(text: &str, most: usize) -> String {
    match text.char_indices().nth(most) {
        Some((end, _)) => format!("{}…", text.get(..end).unwrap_or_default()),
        None => text.to_string(),
    }
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
    fn a_number_keeps_its_unit_beside_it() {
        let mut out = String::new();
        hang(&mut out, &" ".repeat(60), "outside by 12.2 F°, margin ± 3 psi. 5 checks");
        let lines: Vec<&str> = out.lines().map(str::trim).collect();
        assert_eq!(lines, ["outside by 12.2 F°,", "margin ± 3 psi. 5", "checks"]);
        assert_eq!(kept("15 lb 7 oz of R-32"), "15\u{a0}lb 7\u{a0}oz of R-32");
        assert_eq!(kept("margin (± 3 psi)"), "margin (±\u{a0}3\u{a0}psi)");
        assert_eq!(kept("within 5 .. 15 F°"), "within 5\u{a0}..\u{a0}15\u{a0}F°");
    }

    #[test]
    fn lists_read_as_a_sentence() {
        let items = ["a".to_string(), "b".to_string(), "c".to_string()];
        assert_eq!(list(&items, 5), "a, b and c");
        assert_eq!(list(&items, 2), "a, b and 1 more");
    }
}
