//! Names of embedded files: places under the sheet's folder and nothing else. Nothing embedded is ever written to a
//! disk, but a record is read by other programs too.

/// Files in one record.
const FILES: usize = 10_000;
/// Bytes of one name.
const NAME_BYTES: usize = 4_096;

/// What is wrong with these names.
pub(super) fn fault<'a>(names: impl Iterator<Item = &'a str>) -> Option<String> {
    let mut seen = std::collections::BTreeSet::new();
    for name in names {
        if let Some(why) = bad(name) {
            let shown: String = name.chars().take(80).collect();
            return Some(format!("the embedded file {shown:?} {why}"));
        }
        if !seen.insert(name) {
            return Some(format!("the file \"{name}\" is embedded twice"));
        }
    }
    (seen.len() > FILES).then(|| format!("it holds more than {FILES} files"))
}

fn bad(name: &str) -> Option<&'static str> {
    let mut letters = name.chars();
    let drive = matches!((letters.next(), letters.next()), (Some(letter), Some(':')) if letter.is_ascii_alphabetic());
    if name.is_empty() || name.len() > NAME_BYTES {
        return Some("has no name, or one too long");
    }
    if name.chars().any(char::is_control) {
        return Some("has a control character in its name");
    }
    if drive || name.starts_with(['/', '~']) || name.contains('\\') {
        return Some("has a name that is no place inside the folder of the sheet");
    }
    if name.split('/').any(|part| part == ".." || part == "." || part.is_empty()) {
        return Some("has a name that leads out of the folder of the sheet");
    }
    None
}

#[cfg(test)]
mod tests {
    use super::fault;

    #[test]
    fn names_stay_inside_the_folder() {
        assert_eq!(fault(["job.dew", "parts/form.dew", "-", "größe 3.csv"].into_iter()), None);
        for bad in
            ["", "/etc/passwd", "../job.dew", "a/../../b", "a//b", "./a", "C:\\a", "c:a", "~/a", "a\\b", "a\nb", "a\0"]
        {
            assert!(fault([bad].into_iter()).is_some(), "{bad:?}");
        }
        assert!(fault(["a", "b", "a"].into_iter()).is_some());
    }
}
