//! The shapes that a hold can have, fitted to its readings.

use crate::numeric::solve::{Fit, fit};

/// A reading of the gauge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// s
    pub time: f64,
    /// Pa
    pub pressure: f64,
    /// The gauge was over its range: the pressure is at least this.
    pub over: bool,
}

impl From<(f64, f64)> for Reading {
    fn from((time, pressure): (f64, f64)) -> Reading {
        Reading { time, pressure, over: false }
    }
}

/// Readings in time order, seconds from the first.
#[derive(Debug, Clone)]
pub struct Curve {
    readings: Vec<Reading>,
}

/// `p = start + rate · t`
#[derive(Debug, Clone, Copy)]
pub struct Straight {
    /// Pa
    pub start: f64,
    /// Pa/s
    pub rate: f64,
    /// Standard uncertainty of the rate for noise of one pascal.
    pub rate_factor: f64,
    /// Sum of squared misses, Pa².
    pub misses: f64,
}

/// `p = plateau − rise · e^(−t/τ)`
#[derive(Debug, Clone, Copy)]
pub struct Bend {
    /// Pa
    pub plateau: f64,
    /// Pa
    pub rise: f64,
    /// s
    pub tau: f64,
    /// Sum of squared misses, Pa².
    pub misses: f64,
}

/// Time constants tried in a fit, evenly in their logarithm.
const TRIES: usize = 24;
/// Halvings of the distance between them.
const CLOSER: usize = 24;
/// Rounds of a fit with readings over the gauge's range.
const ROUNDS: usize = 30;

impl Curve {
    /// From readings with their gaps taken out; nothing if times do not rise.
    pub fn new(readings: &[Reading]) -> Option<Curve> {
        let first = readings.first()?.time;
        let rising = readings.windows(2).all(|pair| matches!(pair, [a, b] if b.time > a.time));
        let from_first = |reading: &Reading| Reading { time: reading.time - first, ..*reading };
        rising.then(|| Curve { readings: readings.iter().map(from_first).collect() })
    }

    /// How many were read, not over the gauge's range.
    pub fn count(&self) -> usize {
        self.read().count()
    }

    /// Those within the gauge's range.
    pub fn read(&self) -> impl Iterator<Item = &Reading> {
        self.readings.iter().filter(|reading| !reading.over)
    }

    /// The first one over it.
    pub fn went_over(&self) -> Option<f64> {
        self.readings.iter().find(|reading| reading.over).map(|reading| reading.time)
    }

    /// Seconds from the first to the last that was read.
    pub fn span(&self) -> f64 {
        let last = self.read().last().map_or(0.0, |reading| reading.time);
        last - self.read().next().map_or(0.0, |reading| reading.time)
    }

    /// All in order, seconds from the first.
    pub fn readings(&self) -> &[Reading] {
        &self.readings
    }

    /// A straight line.
    pub fn straight(&self) -> Option<Straight> {
        let found = self.fit(|t| [1.0, t])?;
        let [start, rate] = found.coefficients;
        Some(Straight { start, rate, rate_factor: found.variance[1].sqrt(), misses: found.misses })
    }

    /// A bend to a plateau, of a time constant up to the longest.
    pub fn bend(&self, longest: f64) -> Option<Bend> {
        let (tau, found) = self.best_time_constant(longest, |tau| self.fit(|t| [1.0, libm::exp(-t / tau)]))?;
        let [plateau, falling] = found.coefficients;
        Some(Bend { plateau, rise: -falling, tau, misses: found.misses })
    }

    /// A bend on a slope: the rate, its factor and the misses.
    pub fn bend_on_slope(&self, longest: f64) -> Option<Straight> {
        let (_, found) = self.best_time_constant(longest, |tau| self.fit(|t| [1.0, t, libm::exp(-t / tau)]))?;
        let [start, rate, _] = found.coefficients;
        Some(Straight { start, rate, rate_factor: found.variance[1].sqrt(), misses: found.misses })
    }

    /// The greatest slope, with four standard uncertainties, of the bends on a slope that miss by no more than four
    /// standard deviations of the noise over the best.
    pub fn most_slope_under_a_bend(&self, longest: f64, noise: f64) -> Option<f64> {
        let at = |tau: f64| self.fit(|t| [1.0, t, libm::exp(-t / tau)]);
        let (tau, best) = self.best_time_constant(longest, at)?;
        let slope = |fit: &Fit<3>| fit.coefficients[1] + 4.0 * fit.variance[1].sqrt() * noise;
        let mut most = slope(&best);
        // Away from the best time constant on both sides, in steps that grow, as long as it fits nearly as well.
        for side in [-1.0, 1.0] {
            let mut away = 0.000_5;
            while let Some(fit) = at((tau * libm::exp(side * away)).min(longest)).filter(|_| away < 3.0) {
                if fit.misses > best.misses + 16.0 * noise * noise {
                    break;
                }
                most = most.max(slope(&fit));
                away *= 1.2;
            }
        }
        Some(most)
    }

    /// A rise with the square root of time, as of gas coming out of oil and rubber: the sum of squared misses.
    pub fn root_of_time(&self) -> Option<f64> {
        self.fit(|t| [1.0, t.sqrt()]).map(|found| found.misses)
    }

    /// A slope with one jump in it: index of the first reading after the jump, its height and the misses. Three readings
    /// at least before it and two after.
    pub fn jump(&self) -> Option<(usize, f64, f64)> {
        let last = self.readings.len().checked_sub(2)?;
        (3..=last)
            .filter_map(|at| {
                let from = self.readings.get(at)?.time;
                let found = self.fit(|t| [1.0, t, if t >= from { 1.0 } else { 0.0 }])?;
                Some((at, found.coefficients[2], found.misses))
            })
            .min_by(|a, b| a.2.total_cmp(&b.2))
    }

    /// How much the slope grows: Pa/s², and its standard uncertainty for noise of one pascal.
    pub fn curvature(&self) -> Option<(f64, f64)> {
        let found = self.fit(|t| [1.0, t, t * t])?;
        Some((2.0 * found.coefficients[2], 2.0 * found.variance[2].sqrt()))
    }

    /// The time constant that misses least: the best of a few, then closer and closer about it.
    fn best_time_constant<const K: usize>(
        &self,
        longest: f64,
        fit: impl Fn(f64) -> Option<Fit<K>>,
    ) -> Option<(f64, Fit<K>)> {
        let shortest = self.shortest(longest);
        let tau = |share: f64| shortest * libm::pow(longest / shortest, share.clamp(0.0, 1.0));
        let tried = |share: f64| fit(tau(share)).map(|found| (share, found));
        let less = |a: &(f64, Fit<K>), b: &(f64, Fit<K>)| a.1.misses.total_cmp(&b.1.misses);
        let mut best = (0..=TRIES).filter_map(|step| tried(step as f64 / TRIES as f64)).min_by(less)?;
        let mut width = 1.0 / TRIES as f64;
        for _ in 0..CLOSER {
            width /= 2.0;
            let sides = [best.0 - width, best.0 + width].into_iter().filter_map(tried);
            best = sides.chain([best]).min_by(less)?;
        }
        Some((tau(best.0), best.1))
    }

    /// The shortest time constant that is tried.
    fn shortest(&self, longest: f64) -> f64 {
        let interval = self.readings.get(1).map_or(f64::INFINITY, |second| second.time);
        (self.span() / 40.0).min(longest / 2.0).min(interval / 2.0)
    }

    /// Least squares in scaled time, so that seconds squared do not drown the rest; slopes come back in seconds.
    ///
    /// A reading over the gauge's range asks only that the shape be no lower there: it counts as its bound where the shape
    /// would be below, and not at all elsewhere.
    fn fit<const K: usize>(&self, terms: impl Fn(f64) -> [f64; K]) -> Option<Fit<K>> {
        let scales = terms(self.span().max(1.0));
        let rows: Vec<([f64; K], f64)> = self
            .readings
            .iter()
            .map(|reading| {
                let mut row = terms(reading.time);
                for (term, scale) in row.iter_mut().zip(&scales) {
                    *term /= scale.max(1.0);
                }
                (row, reading.pressure)
            })
            .collect();
        let mut found = self.fit_above_bounds(&rows)?;
        for ((coefficient, variance), scale) in found.coefficients.iter_mut().zip(&mut found.variance).zip(&scales) {
            let scale = scale.max(1.0);
            *coefficient /= scale;
            *variance /= scale * scale;
        }
        Some(found)
    }

    fn fit_above_bounds<const K: usize>(&self, rows: &[([f64; K], f64)]) -> Option<Fit<K>> {
        let mut found = fit(rows)?;
        if self.went_over().is_none() {
            return Some(found);
        }
        let mut counts = vec![true; rows.len()];
        // The sum to be least is convex, so that this comes to rest within some rounds.
        for _ in 0..ROUNDS {
            let shape = |terms: &[f64; K]| terms.iter().zip(&found.coefficients).map(|(a, b)| a * b).sum::<f64>();
            let now: Vec<bool> = rows
                .iter()
                .zip(&self.readings)
                .map(|((terms, bound), reading)| !reading.over || shape(terms) < *bound)
                .collect();
            if now == counts {
                break;
            }
            let chosen: Vec<([f64; K], f64)> =
                rows.iter().zip(&now).filter(|(_, counts)| **counts).map(|(row, _)| *row).collect();
            let Some(next) = fit(&chosen) else { break };
            (found, counts) = (next, now);
        }
        Some(found)
    }
}
