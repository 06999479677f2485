//! The curve that a judgement rests on, as points.

use super::curve::Curve;
use super::judge::{Hold, Judgement};

/// Points of the curve; enough for a bend to look like one.
const POINTS: usize = 60;

/// The curve under readings (seconds, pascal) that were judged: a bend where they bend, else the best line. Times are
/// those of the readings.
pub fn shape(readings: &[(f64, f64)], hold: &Hold, judged: &Judgement) -> Option<Vec<(f64, f64)>> {
    let start = readings.first()?.0;
    let curve = Curve::new(readings)?;
    let at = |share: usize| curve.span() * share as f64 / POINTS as f64;
    if judged.settling.is_some()
        && let Some(bend) = curve.bend(hold.longest)
    {
        let pressure = |t: f64| bend.plateau - bend.rise * libm::exp(-t / bend.tau);
        return Some((0..=POINTS).map(|share| (start + at(share), pressure(at(share)))).collect());
    }
    let rate = curve.straight()?.rate;
    // Least squares go through the middle of the readings.
    let count = curve.count() as f64;
    let middle = curve.times().iter().sum::<f64>() / count;
    let mean = curve.pressures().iter().sum::<f64>() / count;
    Some([0.0, curve.span()].map(|t| (start + t, mean + rate * (t - middle))).to_vec())
}
