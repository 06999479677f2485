//! What many runs came to together: how many of each verdict, and which they are that did not pass.

use dewline_lang::outcome::{JobVerdict, Outcome};

use crate::words::count;

/// Runs of one verdict that are named; of more, the rest is counted.
const NAMED: usize = 20;

/// The verdicts of all runs so far.
#[derive(Default)]
pub(super) struct Total {
    runs: Vec<(JobVerdict, String)>,
}

impl Total {
    /// Counts one run; `run` names the row of settings it belongs to, if any.
    pub fn add(&mut self, run: &str, outcome: &Outcome) {
        let name = if run.is_empty() { outcome.sheet.path.clone() } else { run.to_string() };
        self.runs.push((outcome.verdict, name));
    }

    /// How many runs there are, in words; none if there is only one, which speaks for itself.
    pub fn title(&self) -> Option<String> {
        (self.runs.len() > 1).then(|| format!("All {}", count(self.runs.len(), "run", "runs")))
    }

    /// `31 passed`, `1 failed: runs.csv line 3: unit = RU-2`, the best first.
    pub fn lines(&self) -> Vec<String> {
        use JobVerdict::{Computed, Failed, Incomplete, Passed, PassedWithWaivers, Unusable};
        let mut lines = Vec::new();
        for verdict in [Passed, PassedWithWaivers, Computed, Incomplete, Failed, Unusable] {
            let names: Vec<&str> =
                self.runs.iter().filter(|(one, _)| *one == verdict).map(|(_, name)| name.as_str()).collect();
            let said = match verdict {
                Passed => "passed",
                PassedWithWaivers => "passed with waivers",
                Computed => "computed, with nothing asked",
                Incomplete => "incomplete, waiting for something",
                Failed => "failed",
                Unusable => "could not be used",
            };
            let more = match names.len().saturating_sub(NAMED) {
                0 => String::new(),
                more => format!("; and {more} more"),
            };
            match names.as_slice() {
                [] => {}
                all if verdict == Passed => lines.push(format!("{} {said}", all.len())),
                some => {
                    let named = some.get(..NAMED).unwrap_or(some).join("; ");
                    lines.push(format!("{} {said}: {named}{more}", some.len()));
                }
            }
        }
        lines
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::sample;

    #[test]
    fn runs_are_counted_and_those_that_did_not_pass_are_named() {
        let mut total = Total::default();
        let mut outcome = sample::outcome();
        for (verdict, run) in [(JobVerdict::Passed, "a"), (JobVerdict::Unusable, "b"), (JobVerdict::Passed, "c")] {
            outcome.verdict = verdict;
            total.add(run, &outcome);
        }
        assert_eq!(total.title().as_deref(), Some("All 3 runs"));
        assert_eq!(total.lines(), ["2 passed", "1 could not be used: b"]);
        outcome.verdict = JobVerdict::Failed;
        for run in 0..25 {
            total.add(&run.to_string(), &outcome);
        }
        assert!(
            total.lines().iter().any(|line| line.starts_with("25 failed: 0; 1; ") && line.ends_with("; and 5 more"))
        );
    }
}
