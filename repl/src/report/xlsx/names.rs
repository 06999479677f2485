//! Names of sheets: what a workbook allows, and no two alike.

use std::collections::BTreeSet;

use crate::words::plain;

/// Letters of a name.
const MOST: usize = 31;

/// Names that are taken; case does not tell two apart.
pub(super) struct Names {
    taken: BTreeSet<String>,
}

impl Names {
    /// With some taken from the start, and the one that spreadsheets keep to themselves.
    pub fn taking(names: &[&str]) -> Names {
        Names { taken: names.iter().chain(&["History"]).map(|name| name.to_lowercase()).collect() }
    }

    /// A name made fit and free, as near to the wanted one as can be; it is taken then.
    pub fn free(&mut self, wanted: &str) -> String {
        let fit = fit(wanted);
        let mut name = cut(&fit, MOST);
        for number in 2_usize.. {
            if self.taken.insert(name.to_lowercase()) {
                break;
            }
            let ending = format!(" ({number})");
            name = format!("{}{ending}", cut(&fit, MOST - ending.len()));
        }
        name
    }
}

/// Without the signs that a name of a sheet may not have.
fn fit(wanted: &str) -> String {
    let plain = plain(wanted);
    let letters = plain.chars().map(|letter| match letter {
        '[' => '(',
        ']' => ')',
        ':' | '*' | '?' | '/' | '\\' => '_',
        letter => letter,
    });
    let fit: String = letters.collect();
    let fit = fit.trim_matches(['\'', ' ']);
    if fit.is_empty() { "table".to_string() } else { fit.to_string() }
}

/// Spreadsheets count letters beyond the first 65,536 as two.
fn cut(name: &str, most: usize) -> String {
    let mut used = 0;
    let fits = name.chars().take_while(|letter| {
        used += letter.len_utf16();
        used <= most
    });
    let cut: String = fits.collect();
    cut.trim_end_matches(['\'', ' ']).to_string()
}

#[cfg(test)]
mod tests {
    use super::Names;

    #[test]
    fn names_are_made_fit_and_kept_apart() {
        let mut names = Names::taking(&["Summary"]);
        let long = "a_table_with_a_name_that_is_longer_than_a_sheet_may_have";
        let wanted =
            ["indoor", "Indoor", "summary", "branch[\"Exam 1\"].log", "'x'", "a/b", "a:b", "", long, long, "history"];
        let found: Vec<String> = wanted.iter().map(|name| names.free(name)).collect();
        let expected = [
            "indoor",
            "Indoor (2)",
            "summary (2)",
            "branch(\"Exam 1\").log",
            "x",
            "a_b",
            "a_b (2)",
            "table",
            "a_table_with_a_name_that_is_lon",
            "a_table_with_a_name_that_is (2)",
            "history (2)",
        ];
        assert_eq!(found, expected);
        assert!(found.iter().all(|name| name.encode_utf16().count() <= 31));
    }
}
