//! A progress bar for long work, on a terminal only. The clock decides what is drawn, never a result.

use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressStyle};

/// Work that takes less is not worth a bar.
const PATIENCE: Duration = Duration::from_secs(1);

/// How far a row of runs, records or trials has come.
pub struct Progress {
    noun: &'static str,
    total: usize,
    done: usize,
    began: Instant,
    wanted: bool,
    bar: Option<ProgressBar>,
}

impl Progress {
    /// Begins with so many things of this kind to do; nothing is drawn yet.
    pub fn new(noun: &'static str, total: usize, terminal: bool) -> Progress {
        Progress { noun, total, done: 0, began: Instant::now(), wanted: terminal && total > 1, bar: None }
    }

    /// So many more are done.
    pub fn step(&mut self, more: usize) {
        self.done += more;
        if self.bar.is_none() && self.wanted && self.done < self.total && self.began.elapsed() > PATIENCE {
            let bar = ProgressBar::new(self.total as u64);
            if let Ok(style) =
                ProgressStyle::with_template(&format!("{{pos}} of {{len}} {} [{{bar:30}}] {{eta}} left", self.noun))
            {
                bar.set_style(style.progress_chars("=> "));
            }
            self.bar = Some(bar);
        }
        if let Some(bar) = &self.bar {
            bar.set_position(self.done as u64);
        }
    }

    /// Takes the bar away while something is printed.
    pub fn aside(&self, print: impl FnOnce()) {
        match &self.bar {
            Some(bar) => bar.suspend(print),
            None => print(),
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}
