//! An answer completed: a bare number gets its unit, a text its quotes.

use dewline_lang::syntax::{Class, words};

use super::ask::Sort;

/// The answer as it would stand in a sheet.
pub fn completed(line: &str, sort: Sort, unit: Option<&str>) -> String {
    match (sort, unit) {
        (Sort::Number, Some(unit)) => with_unit(line, unit),
        (Sort::Text, _) if !line.starts_with('"') => format!("\"{}\"", line.replace('"', "\"\"")),
        (Sort::Flag, _) => match line.to_lowercase().as_str() {
            "yes" | "y" => "true".to_string(),
            "no" | "n" => "false".to_string(),
            _ => line.to_string(),
        },
        _ => line.to_string(),
    }
}

/// A comma with a digit on either side: in one country decimals, in the other thousands, and here two readings, of which
/// the mean would count.
pub fn has_decimal_comma(line: &str) -> bool {
    let bytes = line.as_bytes();
    bytes
        .windows(3)
        .any(|three| matches!(three, [before, b',', after] if before.is_ascii_digit() && after.is_ascii_digit()))
}

/// `556`, `52.3, 52.5`, `556 ± 1 psi at …`: the unit goes behind the last number before anything else.
fn with_unit(line: &str, unit: &str) -> String {
    let list = words(line);
    let text = |at: usize| list.get(at).and_then(|word| line.get(word.range.clone())).unwrap_or("");
    let mut at = 0;
    let mut last = None;
    while let Some(word) = list.get(at) {
        match word.class {
            Class::Number => last = Some(word.range.end),
            Class::Mark if matches!(text(at), "," | "-" | "/") => {}
            // It says its unit itself.
            Class::Unit => return line.to_string(),
            _ => break,
        }
        at += 1;
    }
    match last {
        Some(end) => format!("{} {unit}{}", line.get(..end).unwrap_or(line), line.get(end..).unwrap_or("")),
        None => line.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bare_numbers_get_the_unit_asked_for() {
        for (line, whole) in [
            ("556", "556 psig"),
            ("-3.5", "-3.5 psig"),
            ("52.3, 52.5", "52.3, 52.5 psig"),
            ("556 at 2026-03-14", "556 psig at 2026-03-14"),
            ("556 ± 1 psi", "556 psig ± 1 psi"),
            ("556 by gauge", "556 psig by gauge"),
            ("38 barg", "38 barg"),
            ("38 bargg", "38 bargg"),
            ("abc", "abc"),
        ] {
            assert_eq!(completed(line, Sort::Number, Some("psig")), whole);
        }
        assert_eq!(completed("3/8", Sort::Number, Some("in")), "3/8 in");
    }

    #[test]
    fn a_decimal_comma_is_seen() {
        assert!(has_decimal_comma("52,4") && has_decimal_comma("1,280 ft"));
        assert!(!has_decimal_comma("52.3, 52.5") && !has_decimal_comma("a,b") && !has_decimal_comma(",5"));
    }

    #[test]
    fn texts_get_quotes_and_flags_their_word() {
        assert_eq!(completed("R. Alder", Sort::Text, None), "\"R. Alder\"");
        assert_eq!(completed("\"a\"", Sort::Text, None), "\"a\"");
        assert_eq!(completed("Yes", Sort::Flag, None), "true");
    }
}
