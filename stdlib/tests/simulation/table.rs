//! Counts of answers by cause, and the Markdown table that they make.

use std::collections::BTreeMap;
use std::fmt::Write;

/// Counts by row and answer.
#[derive(Default)]
pub struct Counts {
    rows: Vec<(String, BTreeMap<String, usize>)>,
}

impl Counts {
    pub fn add(&mut self, row: &str, answer: &str) {
        let at = match self.rows.iter().position(|(name, _)| name == row) {
            Some(at) => at,
            None => {
                self.rows.push((row.to_string(), BTreeMap::new()));
                self.rows.len() - 1
            }
        };
        *self.rows[at].1.entry(answer.to_string()).or_default() += 1;
    }

    /// Shares in percent, the commonest answers first.
    pub fn markdown(&self, head: &str) -> String {
        let mut out = format!("| {head} | runs | answers, % of runs |\n| --- | ---: | --- |\n");
        for (row, answers) in &self.rows {
            let all: usize = answers.values().sum();
            let mut sorted: Vec<(&String, &usize)> = answers.iter().collect();
            sorted.sort_by(|a, b| b.1.cmp(a.1).then(a.0.cmp(b.0)));
            let said: Vec<String> = sorted
                .iter()
                .map(|(answer, count)| format!("{answer} {:.1}", 100.0 * **count as f64 / all as f64))
                .collect();
            let _ = writeln!(out, "| {row} | {all} | {} |", said.join(", "));
        }
        out
    }
}

/// Holds a section of `stdlib/SIMULATIONS.md` to what came out; `WRITE_SIMULATION=1` writes it.
pub fn kept(section: &str, text: &str) {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/SIMULATIONS.md");
    let (begin, end) = (format!("<!-- {section} -->\n"), format!("<!-- end of {section} -->\n"));
    let file = std::fs::read_to_string(path).unwrap();
    let (before, rest) = file.split_once(&begin).unwrap();
    let (held, after) = rest.split_once(&end).unwrap();
    if std::env::var_os("WRITE_SIMULATION").is_some() {
        std::fs::write(path, format!("{before}{begin}{text}{end}{after}")).unwrap();
    } else {
        assert_eq!(held, text, "run with WRITE_SIMULATION=1 and read what changed");
    }
}
