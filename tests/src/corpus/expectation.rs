//! Expectations as written in a sheet: taken out of it, put back into it, compared.

use std::collections::BTreeMap;

/// What a case expects, or what came of it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Expectations {
    /// Errors by line of the sheet without expectations, from 1; line 0 holds errors placed in other files.
    pub errors: BTreeMap<usize, Vec<String>>,
    /// Lines of the outcome.
    pub outcome: Vec<String>,
}

const ERROR: &str = "#! ";
const OUTCOME: &str = "#= ";

/// Parts a text into the sheet proper and its expectations.
pub fn split(text: &str) -> (String, Expectations) {
    let mut sheet = String::new();
    let mut expected = Expectations::default();
    let mut line = 0;
    for whole in text.split_inclusive('\n') {
        let bare = whole.trim();
        if let Some(error) = bare.strip_prefix(ERROR) {
            expected.errors.entry(line).or_default().push(error.to_string());
        } else if let Some(outcome) = bare.strip_prefix(OUTCOME) {
            expected.outcome.push(outcome.to_string());
        } else {
            line += 1;
            sheet.push_str(whole);
        }
    }
    (sheet, expected)
}

impl Expectations {
    /// The sheet with these expectations written into it: errors under their lines, the outcome at the end.
    pub fn write_into(&self, sheet: &str) -> String {
        let mut text = String::new();
        let put_errors = |text: &mut String, line: usize| {
            for error in self.errors.get(&line).into_iter().flatten() {
                text.push_str(&format!("{ERROR}{error}\n"));
            }
        };
        put_errors(&mut text, 0);
        for (index, line) in sheet.split_inclusive('\n').enumerate() {
            text.push_str(line);
            if self.errors.contains_key(&(index + 1)) && !line.ends_with('\n') {
                text.push('\n');
            }
            put_errors(&mut text, index + 1);
        }
        for line in &self.outcome {
            text.push_str(&format!("{OUTCOME}{line}\n"));
        }
        text
    }

    /// What differs, in words; empty if nothing does.
    pub fn differences(&self, seen: &Expectations) -> Vec<String> {
        let mut found = Vec::new();
        let lines: std::collections::BTreeSet<usize> = self.errors.keys().chain(seen.errors.keys()).copied().collect();
        for line in lines {
            let (wanted, got) = (self.errors.get(&line), seen.errors.get(&line));
            if wanted != got {
                for error in wanted.into_iter().flatten().filter(|error| !got.is_some_and(|got| got.contains(error))) {
                    found.push(format!("line {line}: missing  {error}"));
                }
                for error in got.into_iter().flatten().filter(|error| !wanted.is_some_and(|all| all.contains(error))) {
                    found.push(format!("line {line}: extra    {error}"));
                }
                if found.is_empty() {
                    found.push(format!("line {line}: errors in another order or number"));
                }
            }
        }
        let before = found.len();
        for line in self.outcome.iter().filter(|line| !seen.outcome.contains(line)) {
            found.push(format!("missing  {line}"));
        }
        for line in seen.outcome.iter().filter(|line| !self.outcome.contains(line)) {
            found.push(format!("extra    {line}"));
        }
        if found.len() == before && self.outcome != seen.outcome {
            found.push("outcome in another order".to_string());
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read_back() {
        let text = "a = 1\n#! 1-2 D0101 no\nb = 2\n#= a 1\n#= job passed\n";
        let (sheet, expected) = split(text);
        assert_eq!(sheet, "a = 1\nb = 2\n");
        assert_eq!(expected.errors[&1], ["1-2 D0101 no"]);
        assert_eq!(expected.write_into(&sheet), text);
    }

    #[test]
    fn missing_and_extra_are_both_told() {
        let (_, expected) = split("a = 1\n#! 1-2 D0101 no\n#= a 1\n");
        let (_, seen) = split("a = 1\nb = 1\n#! 1-2 D0101 no\n#= a 2\n");
        let told = expected.differences(&seen);
        assert_eq!(
            told,
            ["line 1: missing  1-2 D0101 no", "line 2: extra    1-2 D0101 no", "missing  a 1", "extra    a 2"]
        );
    }
}
