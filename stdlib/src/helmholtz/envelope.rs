//! The two-phase line of a fluid with its critical point and the monotone parts of its two sides.
//!
//! Along the whole curve temperature and pressure have a highest value each, which for a mixture
//! are not at the critical point. The *bubble line* and the *dew line* are taken as far from the
//! cold as both temperature and pressure rise, or to the critical point if that comes first: so
//! that temperature and pressure determine each other on them. What lies between their ends is a
//! few hundredths of a kelvin wide for most blends.

use super::Model;
use super::curve::{Curve, LinePoint, root};
use super::trace::{TraceError, trace};

/// A traced two-phase line.
#[derive(Clone, Debug)]
pub struct Envelope {
    curve: Curve,
    bubble: Branch,
    dew: Branch,
    critical: LinePoint,
}

/// Which line of the two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// Boiling begins: the liquid is at the nominal composition.
    Bubble,
    /// Condensation begins: the vapour is at the nominal composition.
    Dew,
}

/// A monotone stretch of the curve.
#[derive(Clone, Copy, Debug)]
pub struct Branch {
    /// The coldest point.
    pub cold: LinePoint,
    /// Where temperature or pressure first stops rising, or the critical point.
    pub end: LinePoint,
}

impl Envelope {
    /// Traces the line of `model` from `lowest` (K) on.
    pub fn trace(model: &Model, lowest: f64) -> Result<Self, TraceError> {
        let curve = trace(model, lowest)?;
        let ln_lowest = libm::log(lowest);
        let bubble = branch(&curve, curve.highest(), ln_lowest);
        let dew = branch(&curve, curve.lowest(), ln_lowest);
        let critical = curve.at(0.0);
        Ok(Self { curve, bubble, dew, critical })
    }

    /// The whole curve.
    pub fn curve(&self) -> &Curve {
        &self.curve
    }

    /// The critical point, S = 0.
    pub fn critical(&self) -> LinePoint {
        self.critical
    }

    /// The monotone stretch of one of the lines.
    pub fn line(&self, line: Line) -> Branch {
        match line {
            Line::Bubble => self.bubble,
            Line::Dew => self.dew,
        }
    }

    /// The point of a line at ln T; outside of the line its nearer end.
    pub fn at_ln_temperature(&self, line: Line, ln_t: f64) -> LinePoint {
        let Branch { cold, end } = self.line(line);
        self.curve.find(cold.separation, end.separation, ln_t, |point| point.ln_temperature)
    }

    /// The point of a line at ln p; outside of the line its nearer end.
    pub fn at_ln_pressure(&self, line: Line, ln_p: f64) -> LinePoint {
        let Branch { cold, end } = self.line(line);
        self.curve.find(cold.separation, end.separation, ln_p, |point| point.ln_pressure)
    }
}

/// The monotone stretch from the end of the curve at separation `coldest` towards S = 0.
fn branch(curve: &Curve, coldest: f64, ln_lowest: f64) -> Branch {
    let cold = if curve.at(coldest).ln_temperature >= ln_lowest {
        coldest
    } else {
        let middle = coldest.signum() * HOT;
        root(|s| curve.at(s).ln_temperature - ln_lowest, coldest, middle)
    };
    // Towards S = 0, S falls on the bubble side and rises on the dew side.
    let rising = |slope: f64| slope * coldest < 0.0;
    let mut before = cold;
    let mut end = 0.0;
    for k in 1..=STEPS {
        let s = cold * (1.0 - f64::from(k) / f64::from(STEPS));
        let (t, p) = curve.slopes(s);
        if !(rising(t) && rising(p)) {
            let turn_t = root_or_end(|s| curve.slopes(s).0, before, s);
            let turn_p = root_or_end(|s| curve.slopes(s).1, before, s);
            end = if turn_t.abs() > turn_p.abs() { turn_t } else { turn_p };
            break;
        }
        before = s;
    }
    Branch { cold: curve.at(cold), end: curve.at(end) }
}

/// A separation at which every fluid is hotter than its lowest temperature.
const HOT: f64 = 0.5;
/// Steps in which the turning points are sought.
const STEPS: u32 = 4000;

/// Root of `f` between `a` and `b`, or `b` where its sign does not change.
fn root_or_end(f: impl Fn(f64) -> f64, a: f64, b: f64) -> f64 {
    if f(a) * f(b) < 0.0 { root(f, a, b) } else { b }
}
