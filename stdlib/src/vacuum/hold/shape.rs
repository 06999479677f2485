//! The curve that a judgement rests on, as points.

use super::curve::{Curve, Reading};
use super::judge::{Hold, Judgement};

/// Points of the curve; enough for a bend to look like one.
const POINTS: usize = 60;

/// The curve under readings that were judged: a bend where they bend, else the best line. Times are
/// those of the readings.
pub fn shape(readings: &[Reading], hold: &Hold, judged: &Judgement) -> Option<Vec<(f64, f64)>> {
    let start = readings.first()?.time;
    let curve = Curve::new(readings)?;
    let last = curve.readings().last()?.time;
    let at = |share: usize| last * share as f64 / POINTS as f64;
    if judged.settling.is_some()
        && let Some(bend) = curve.bend(hold.longest)
    {
        let pressure = |t: f64| bend.plateau - bend.rise * libm::exp(-t / bend.tau);
        return Some((0..=POINTS).map(|share| (start + at(share), pressure(at(share)))).collect());
    }
    let line = curve.straight()?;
    Some([0.0, last].map(|t| (start + t, line.start + line.rate * t)).to_vec())
}
