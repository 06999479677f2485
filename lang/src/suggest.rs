//! Did you mean: the nearest of the words that would have been right.

/// The candidate nearest to a mistyped word, if one is near enough. Among equally near ones the first.
///
/// Letters swapped, left out, doubled or wrong count one each; a word of up to two letters may differ in case only, one
/// of three to five letters by one, longer ones by a third of their length.
pub fn did_you_mean<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = word.to_lowercase();
    let letters = word.chars().count();
    let mut best: Option<(usize, &str)> = None;
    for candidate in candidates {
        let others = candidate.chars().count();
        let allowed = allowed(letters.max(others));
        // Words of very different length are never near, and comparing a word of megabytes would take long.
        if letters.abs_diff(others) > allowed {
            continue;
        }
        let distance = strsim::osa_distance(&word, &candidate.to_lowercase());
        if distance <= allowed && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// As [`did_you_mean`], among words that may hold figures, such as standards with their editions: another figure is
/// another thing and no slip of the pen.
pub fn word_meant<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let figures = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
    let wanted = figures(word);
    did_you_mean(word, candidates.into_iter().filter(|candidate| figures(candidate) == wanted))
}

fn allowed(letters: usize) -> usize {
    match letters {
        0..=2 => 0,
        3..=5 => 1,
        longer => longer / 3,
    }
}

#[cfg(test)]
mod tests {
    use super::{did_you_mean, word_meant};

    #[test]
    fn finds_what_was_meant() {
        let names = ["superheat", "subcooling", "drift", "suction", "od"];
        for (typed, meant) in [
            ("superheta", Some("superheat")),
            ("Superheat", Some("superheat")),
            ("subcoling", Some("subcooling")),
            ("drfit", Some("drift")),
            ("OD", Some("od")),
            ("suctoin", Some("suction")),
            ("id", None),
            ("discharge", None),
            ("ft", None),
        ] {
            assert_eq!(did_you_mean(typed, names), meant, "{typed}");
        }
    }

    #[test]
    fn another_edition_is_not_what_was_meant() {
        let editions = ["ASHRAE 34-2019", "EN 378-1:2016+A1:2020", "as stated"];
        assert_eq!(word_meant("ashrae 34-2019", editions), Some("ASHRAE 34-2019"));
        assert_eq!(word_meant("ASHRAE 34-2022", editions), None);
        assert_eq!(word_meant("EN 378-1:2016", editions), None);
        assert_eq!(word_meant("as statde", editions), Some("as stated"));
    }

    #[test]
    fn an_endless_word_is_near_nothing() {
        assert_eq!(did_you_mean(&"x".repeat(5_000), ["superheat"]), None);
    }
}
