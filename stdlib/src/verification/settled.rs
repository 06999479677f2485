//! Whether readings have settled.

use crate::numeric::line::Line;

/// What came of the readings; SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settled {
    /// The last window drifts and swings by less than allowed.
    pub settled: bool,
    /// Whether that can be said at all: the readings that count span the window, with three or more in it.
    pub told: bool,
    /// When they settled, in the time of the readings.
    pub since: Option<f64>,
    /// Least-squares slope over the last window, each second.
    pub slope: f64,
    /// Its standard uncertainty, from the scatter.
    pub slope_uncertainty: f64,
    /// |slope|·window + spread about the line, over the last window.
    pub moved: f64,
}

/// Judges the last window of readings (time, value) in time order: |slope|·window + spread of what is left < within.
///
/// Common practice, no source.
pub fn judge(readings: &[(f64, f64)], within: f64, over: f64) -> Settled {
    let last = readings.last().map_or(0.0, |(time, _)| *time);
    let window = from(readings, last - over);
    let (times, values): (Vec<f64>, Vec<f64>) = window.iter().copied().unzip();
    let Some(line) = Line::through(&times, &values).filter(|_| spans(readings, over)) else {
        return Settled {
            settled: false,
            told: false,
            since: None,
            slope: 0.0,
            slope_uncertainty: f64::INFINITY,
            moved: f64::INFINITY,
        };
    };
    let moved = moved(window, &line, over);
    Settled {
        settled: moved < within,
        told: true,
        since: (moved < within).then(|| since(readings, within, over)),
        slope: line.slope,
        slope_uncertainty: line.slope_uncertainty,
        moved,
    }
}

/// The readings from a time on; one that is a hair early for want of bits counts.
fn from(readings: &[(f64, f64)], time: f64) -> &[(f64, f64)] {
    let first = readings.partition_point(|(at, _)| *at < time - 1e-6);
    readings.get(first..).unwrap_or(&[])
}

fn spans(readings: &[(f64, f64)], over: f64) -> bool {
    matches!((readings.first(), readings.last()), (Some((a, _)), Some((b, _))) if b - a >= over - 1e-6)
}

fn moved(window: &[(f64, f64)], line: &Line, over: f64) -> f64 {
    let left = window.iter().map(|(time, value)| value - line.intercept - line.slope * time);
    let (low, high) = left.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| (low.min(x), high.max(x)));
    line.slope.abs() * over + (high - low)
}

/// The start of the earliest window from which on every window is settled.
fn since(readings: &[(f64, f64)], within: f64, over: f64) -> f64 {
    let mut since = readings.last().map_or(0.0, |(time, _)| *time) - over;
    for end in (0..readings.len()).rev() {
        let part = readings.get(..=end).unwrap_or(&[]);
        let Some((last, _)) = part.last().copied() else { break };
        let window = from(part, last - over);
        let (times, values): (Vec<f64>, Vec<f64>) = window.iter().copied().unzip();
        let Some(line) = Line::through(&times, &values).filter(|_| spans(part, over)) else { break };
        if moved(window, &line, over) >= within {
            break;
        }
        since = window.first().map_or(since, |(time, _)| *time);
    }
    since
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::judge;

    fn readings(minutes: usize, of: impl Fn(f64) -> f64) -> Vec<(f64, f64)> {
        (0..=minutes).map(|minute| (60.0 * minute as f64, of(minute as f64))).collect()
    }

    #[test]
    fn a_drift_of_the_limit_is_not_settled() {
        // 0.04 K a minute over ten minutes is 0.4 K, 0.06 is 0.6 K: worked by hand.
        assert!(judge(&readings(30, |t| 8.0 + 0.04 * t), 0.5, 600.0).settled);
        let drifts = judge(&readings(30, |t| 8.0 + 0.06 * t), 0.5, 600.0);
        assert!(!drifts.settled && drifts.told && drifts.since.is_none());
        assert!((drifts.slope * 600.0 - 0.6).abs() < 1e-9);
        // Swinging without drift.
        assert!(!judge(&readings(30, |t| 8.0 + 0.4 * (t as i64 % 2) as f64 * 2.0), 0.5, 600.0).settled);
    }

    #[test]
    fn it_says_since_when() {
        let step = |t: f64| if t < 12.0 { 12.0 - t / 3.0 } else { 8.0 };
        let found = judge(&readings(40, step), 0.5, 600.0);
        assert!(found.settled);
        let since = found.since.unwrap() / 60.0;
        assert!((11.0..=12.0).contains(&since), "{since}");
    }

    #[test]
    fn too_little_tells_nothing() {
        assert!(!judge(&readings(9, |_| 8.0), 0.5, 600.0).told);
        assert!(!judge(&[(0.0, 8.0), (600.0, 8.0)], 0.5, 600.0).told);
        assert!(!judge(&[], 0.5, 600.0).told);
    }
}
