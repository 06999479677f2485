//! The plain words of a session.

/// A word with what may stand behind it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Saying {
    /// The word.
    pub word: &'static str,
    /// What may stand behind it.
    pub takes: &'static str,
    /// What it does.
    pub does: &'static str,
}

const fn saying(word: &'static str, takes: &'static str, does: &'static str) -> Saying {
    Saying { word, takes, does }
}

/// All of them, as help lists them.
pub const SAYINGS: &[Saying] = &[
    saying("help", "[NAME]", "this list; all about a function, a unit, a word, a cell or a message such as D0101"),
    saying("units", "[WORD]", "the units there are, or all about one; `units IP` sets the sheet's units"),
    saying("cells", "[WORD]", "the values of the sheet, or those with this word in their name"),
    saying("why", "NAME", "how a value came about, down to the readings"),
    saying("pt", "REFRIGERANT [FROM TO]", "pressure-temperature chart at the site, in your units"),
    saying("stages", "", "how the stages stand, and the job"),
    saying("take", "[NAME]", "asks for what is still to be taken, one thing after another, and saves"),
    saying("report", "", "the whole report"),
    saying("text", "[NAME]", "the sheet as written, or one statement of it"),
    saying("remove", "NAME", "takes a definition, a check or a confirmation out of the sheet"),
    saying("undo", "", "takes the last change back"),
    saying("open", "FILE", "another sheet in place of this one"),
    saying("save", "[FILE]", "writes the sheet, laid out"),
    saying("quit", "", "leaves; so does Ctrl-D"),
];

/// A line that begins with one of the words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// The word.
    pub word: &'static str,
    /// What stands behind it.
    pub rest: String,
}

/// Reads a line as one of the words; a definition, a call or arithmetic with a value of that name is none.
pub fn said(line: &str) -> Option<Said> {
    let line = line.trim();
    let end = line.find(|letter: char| letter.is_whitespace()).unwrap_or(line.len());
    let (first, rest) = line.split_at(end);
    let rest = rest.trim();
    let first = match first {
        "exit" | "bye" | "q" if rest.is_empty() => "quit",
        "?" if rest.is_empty() => "help",
        other => other,
    };
    let saying = SAYINGS.iter().find(|saying| saying.word == first)?;
    if rest.starts_with(['=', ':', '+', '*', '/', '^', '<', '>', '!', '(', ')', '[', ',']) {
        return None;
    }
    let operator = ["-", "and", "or", "as", "within", "then", "else"].contains(&rest.split(' ').next().unwrap_or(""));
    if operator || first == "units" && matches!(rest, "IP" | "SI") {
        return None;
    }
    Some(Said { word: saying.word, rest: rest.to_string() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_of_that_name_is_no_word() {
        for line in ["units IP", "units = 3", "cells + 1", "stages as m", "open : psig = 3 psig", "save - 1", "helper"]
        {
            assert_eq!(said(line), None, "{line}");
        }
        let rest = |line: &str| said(line).map(|said| (said.word, said.rest));
        assert_eq!(rest("units"), Some(("units", String::new())));
        assert_eq!(rest(" why  over "), Some(("why", "over".to_string())));
        assert_eq!(rest("exit"), Some(("quit", String::new())));
        assert_eq!(rest("pt R-410A -20 50"), Some(("pt", "R-410A -20 50".to_string())));
    }
}
