//! How often checks hold in the trials: the probability that the value behind the readings keeps its limits
//! (JCGM 106, 7), without any straight line between.

use std::cell::Cell;

use super::again::{Again, Judgement, Way};
use crate::engine::run::Run;
use crate::engine::stages::{stage_name, title_prefix};
use crate::outcome::TrialCheck;

/// Checks to be watched.
pub struct WatchedChecks<'r> {
    all: Vec<(Way, usize, &'r Run)>,
}

/// What came of the rows of all watched checks, one after another.
#[derive(Debug, Clone)]
pub struct Tally {
    rows: Vec<Count>,
}

#[derive(Debug, Clone, Copy, Default)]
struct Count {
    passed: usize,
    failed: usize,
    not_asked: usize,
    open: usize,
}

impl<'r> WatchedChecks<'r> {
    /// The checks of a run that hang on its doubtful readings.
    pub fn of(again: &Again, run: &'r Run) -> WatchedChecks<'r> {
        WatchedChecks { all: again.watched_checks(run) }
    }

    /// Nothing counted yet.
    pub fn tally(&self) -> Tally {
        let rows = self.all.iter().map(|(_, check, run)| run.checks[*check].entries.len()).sum();
        Tally { rows: vec![Count::default(); rows] }
    }

    /// Counts what the checks come to now.
    pub fn count(&self, again: &Again, tally: &mut Tally) {
        let work = Cell::new(0);
        let mut first = 0;
        for (way, check, run) in &self.all {
            let entries = run.checks[*check].entries.len();
            let counts = tally.rows[first..first + entries].iter_mut();
            for (count, judgement) in counts.zip(again.judge(way, *check, &work)) {
                match judgement {
                    Judgement::Decided(true) => count.passed += 1,
                    Judgement::Decided(false) => count.failed += 1,
                    Judgement::NotAsked => count.not_asked += 1,
                    Judgement::Open => count.open += 1,
                }
            }
            first += entries;
        }
    }

    /// All that was counted, in words; rows that no trial judges are not told.
    pub fn told(&self, tally: &Tally) -> Vec<TrialCheck> {
        let entries = self.all.iter().flat_map(|(_, check, run)| {
            run.checks[*check].entries.iter().map(move |entry| (*run, &run.plan.checks[*check], entry))
        });
        let told = entries.zip(&tally.rows).filter(|(_, count)| count.passed + count.failed > 0);
        told.map(|((run, check, entry), count)| TrialCheck {
            label: format!("{}{}", title_prefix(run), check.label),
            stage: stage_name(run, check.stage),
            level: check.level(),
            table: check
                .each
                .and_then(|table| run.plan.tables.get(table))
                .map(|table| format!("{}{}", run.prefix, table.name)),
            row: entry.key.clone(),
            verdict: entry.verdict,
            passed: count.passed,
            failed: count.failed,
            not_asked: count.not_asked,
            broken: count.open,
            share: count.passed as f64 / (count.passed + count.failed) as f64,
        })
        .collect()
    }
}

impl Tally {
    /// Both together.
    pub fn add(&mut self, other: &Tally) {
        for (mine, other) in self.rows.iter_mut().zip(&other.rows) {
            mine.passed += other.passed;
            mine.failed += other.failed;
            mine.not_asked += other.not_asked;
            mine.open += other.open;
        }
    }
}
