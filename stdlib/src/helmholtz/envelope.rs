//! The whole two-phase line of a fluid, from the coldest bubble point over the critical point to
//! the coldest dew point, as one smooth curve of the separation S.
//!
//! Temperature and pressure turn along the line and Newton's method breaks down at its middle,
//! where both phases become one; but every quantity is smooth in S. So the line is solved at
//! Chebyshev points of S, none of them nearer to nought than the method bears, and interpolated
//! between them.

use super::equilibrium::{Solution, Specification, TwoPhasePoint, solve};
use super::near_critical::NearCriticalPoint;
use super::{COMPONENTS_MAX, Model};

/// A traced two-phase line.
#[derive(Clone, Debug)]
pub struct Envelope {
    /// Pieces in falling S, each joining the next.
    pieces: Vec<Piece>,
    bubble: Branch,
    dew: Branch,
    critical: EnvelopePoint,
}

/// Which line of the two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// Boiling begins: the liquid is at the nominal composition.
    Bubble,
    /// Condensation begins: the vapour is at the nominal composition.
    Dew,
}

/// A point of the line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EnvelopePoint {
    /// S
    pub separation: f64,
    /// ln T, T in K
    pub ln_temperature: f64,
    /// ln p, p in Pa
    pub ln_pressure: f64,
    /// ln ρ of the phase at the nominal composition, ρ in mol/m³
    pub ln_density: f64,
}

/// A monotone stretch of the line, from its cold end to its end.
#[derive(Clone, Copy, Debug)]
pub struct Branch {
    /// At the lowest temperature.
    pub cold: EnvelopePoint,
    /// Where temperature or pressure first stops rising, or at the critical point.
    pub end: EnvelopePoint,
}

/// Why a line could not be traced.
#[derive(Clone, Debug, PartialEq)]
pub enum TraceError {
    /// No start was found.
    NoStart,
    /// The line was lost at this separation and temperature (K).
    Lost {
        /// S
        separation: f64,
        /// K
        temperature: f64,
    },
}

/// Half the width of the stretch about the critical point, which has its own way of solving.
const MIDDLE: f64 = 0.12;
/// Width of the pieces before any is halved, and their nodes.
const WIDTH: f64 = 0.4;
const NODES: usize = 14;
/// A piece is halved while its last coefficients exceed this, down to a least width.
const TAIL_MAX: f64 = 1e-12;
const WIDTH_MIN: f64 = 0.02;
/// Half the width of the piece that holds the critical point itself. It is never halved, so that
/// no node comes so near to S = 0 that the densities of the phases lose their difference.
const CORE: f64 = 0.01;
/// Longest step of the continuation in S.
const STEP_MAX: f64 = 0.25;
const STEP_MIN: f64 = 1e-4;
/// Largest change from the predicted to the solved point, in any logarithm. More means that the
/// solution belongs to another line.
const SURPRISE_MAX: f64 = 0.03;

impl Envelope {
    /// Traces the line of `model` down to `lowest` (K) on both sides. Where the line of a mixture
    /// breaks off before that, because its liquid would split in two, it ends there.
    pub fn trace(model: &Model, lowest: f64) -> Result<Self, TraceError> {
        let ln_lowest = libm::log(lowest);
        let n = model.count();
        let start = start(model).ok_or(TraceError::NoStart)?;
        let mut walker = Walker { model, solution: start, s: start.point.separation(n) };

        // The bubble line from the middle's edge outwards, the middle, the dew line outwards.
        walker.go_to(MIDDLE)?;
        let edge = walker.solution.point;
        let mut pieces = outwards(&mut walker, MIDDLE, WIDTH, ln_lowest)?;
        pieces.reverse();
        let mut near = NearWalker { model, point: NearCriticalPoint::new(model, MIDDLE, &edge), before: None };
        pieces.extend(resolved(&mut near, MIDDLE, CORE)?);
        pieces.push(Piece::solved(&mut near, CORE, -CORE)?);
        pieces.extend(resolved(&mut near, -CORE, -MIDDLE)?);
        near.value_at(-MIDDLE)?;
        let guess = near.point.two_phase(model);
        let solution = solve(model, Specification::Separation(-MIDDLE), &guess);
        let solution = solution.ok_or_else(|| near.lost(-MIDDLE))?;
        let mut walker = Walker { model, solution, s: -MIDDLE };
        pieces.extend(outwards(&mut walker, -MIDDLE, -WIDTH, ln_lowest)?);
        Ok(Self::new(pieces, ln_lowest))
    }

    fn new(pieces: Vec<Piece>, ln_lowest: f64) -> Self {
        let blank = EnvelopePoint { separation: 0.0, ln_temperature: 0.0, ln_pressure: 0.0, ln_density: 0.0 };
        let branch = Branch { cold: blank, end: blank };
        let mut envelope = Self { pieces, bubble: branch, dew: branch, critical: blank };
        envelope.critical = envelope.at_separation(0.0);
        envelope.bubble = envelope.branch(1.0, ln_lowest);
        envelope.dew = envelope.branch(-1.0, ln_lowest);
        envelope
    }

    /// The critical point, S = 0.
    pub fn critical(&self) -> EnvelopePoint {
        self.critical
    }

    /// The monotone stretch of one of the lines.
    pub fn line(&self, line: Line) -> Branch {
        match line {
            Line::Bubble => self.bubble,
            Line::Dew => self.dew,
        }
    }

    /// The point at separation `s`.
    pub fn at_separation(&self, s: f64) -> EnvelopePoint {
        let last = self.pieces.len() - 1;
        let index = self.pieces.partition_point(|piece| piece.low > s).min(last);
        self.pieces[index].at(s)
    }

    /// The point of a line at ln T; outside of the line its nearer end.
    pub fn at_ln_temperature(&self, line: Line, ln_t: f64) -> EnvelopePoint {
        self.where_equal(line, ln_t, |point| point.ln_temperature)
    }

    /// The point of a line at ln p; outside of the line its nearer end.
    pub fn at_ln_pressure(&self, line: Line, ln_p: f64) -> EnvelopePoint {
        self.where_equal(line, ln_p, |point| point.ln_pressure)
    }

    /// Bisection closed in by secants (the method of Illinois): the curve is monotone here.
    fn where_equal(&self, line: Line, target: f64, value: impl Fn(&EnvelopePoint) -> f64) -> EnvelopePoint {
        let Branch { cold, end } = self.line(line);
        if target <= value(&cold) {
            return cold;
        }
        if target >= value(&end) {
            return end;
        }
        let find = |s: f64| value(&self.at_separation(s)) - target;
        let s = root(find, cold.separation, end.separation);
        self.at_separation(s)
    }

    /// The monotone stretch on the side of `sign`.
    fn branch(&self, sign: f64, ln_lowest: f64) -> Branch {
        // From the cold end towards S = 0, until T or p stops rising.
        let coldest = if sign > 0.0 { self.pieces[0].high } else { self.pieces[self.pieces.len() - 1].low };
        let cold_s = if self.at_separation(coldest).ln_temperature >= ln_lowest {
            coldest
        } else {
            root(|s| self.at_separation(s).ln_temperature - ln_lowest, coldest, sign * MIDDLE)
        };
        let steps = 4000;
        let mut before = cold_s;
        let mut end_s = 0.0;
        for k in 1..=steps {
            let s = cold_s * (1.0 - f64::from(k) / f64::from(steps));
            let (t, p) = self.slopes(s);
            // Towards S = 0, S falls on the bubble side and rises on the dew side.
            if t * sign >= 0.0 || p * sign >= 0.0 {
                let turn_t = root_or_end(|s| self.slopes(s).0, before, s);
                let turn_p = root_or_end(|s| self.slopes(s).1, before, s);
                end_s = if turn_t.abs() > turn_p.abs() { turn_t } else { turn_p };
                break;
            }
            before = s;
        }
        Branch { cold: self.at_separation(cold_s), end: self.at_separation(end_s) }
    }

    /// d ln T/dS and d ln p/dS.
    fn slopes(&self, s: f64) -> (f64, f64) {
        let last = self.pieces.len() - 1;
        let index = self.pieces.partition_point(|piece| piece.low > s).min(last);
        self.pieces[index].slopes(s)
    }
}

/// Root of `f` between `a` and `b`, or `b` where its sign does not change.
fn root_or_end(f: impl Fn(f64) -> f64, a: f64, b: f64) -> f64 {
    if f(a) * f(b) < 0.0 { root(f, a, b) } else { b }
}

/// Root of `f` between `a` and `b`, by the method of Illinois kept inside by bisection.
fn root(f: impl Fn(f64) -> f64, mut a: f64, mut b: f64) -> f64 {
    let (mut fa, mut fb) = (f(a), f(b));
    for iteration in 0..200 {
        if fa == 0.0 {
            return a;
        }
        if fb == 0.0 {
            return b;
        }
        let secant = (a * fb - b * fa) / (fb - fa);
        let middle = 0.5 * (a + b);
        let inside = (secant - a) * (secant - b) < 0.0;
        let c = if inside && iteration % 4 != 3 { secant } else { middle };
        if c == a || c == b {
            return c;
        }
        let fc = f(c);
        if fc * fb < 0.0 {
            a = b;
            fa = fb;
        } else {
            fa *= 0.5;
        }
        b = c;
        fb = fc;
        if (a - b).abs() < 1e-15 * (1.0 + b.abs()) {
            return b;
        }
    }
    0.5 * (a + b)
}

/// The line between two separations, interpolated at Chebyshev points.
#[derive(Clone, Debug)]
struct Piece {
    high: f64,
    low: f64,
    /// Chebyshev coefficients of ln T, ln p and ln ρ.
    coefficients: Vec<[f64; 3]>,
}

impl Piece {
    /// Solves at the Chebyshev points between `near` and `far`, from the nearer one on.
    fn solved(follow: &mut impl Follow, near: f64, far: f64) -> Result<Self, TraceError> {
        let (middle, half) = (0.5 * (near + far), 0.5 * (near - far));
        let angle = |k: usize| std::f64::consts::PI * (k as f64 + 0.5) / NODES as f64;
        let mut values = [[0.0; 3]; NODES];
        for (k, value) in values.iter_mut().enumerate() {
            *value = follow.value_at(middle + half * libm::cos(angle(k)))?;
        }
        let coefficients = (0..NODES).map(|j| {
            let mut sum = [0.0; 3];
            for (k, value) in values.iter().enumerate() {
                let weight = libm::cos(j as f64 * angle(k));
                for (sum, v) in sum.iter_mut().zip(value) {
                    *sum += weight * v;
                }
            }
            let norm = if j == 0 { 1.0 } else { 2.0 } / NODES as f64;
            // Chebyshev polynomials of odd order change sign with the direction.
            let sign = if half < 0.0 && j % 2 == 1 { -norm } else { norm };
            sum.map(|s| s * sign)
        });
        let coefficients = coefficients.collect();
        Ok(Self { high: near.max(far), low: near.min(far), coefficients })
    }

    /// Size of the last two coefficients of ln T and ln p: what the next ones may be.
    fn tail(&self) -> f64 {
        let last = &self.coefficients[self.coefficients.len() - 2..];
        last.iter().fold(0.0, |tail: f64, c| tail.max(c[0].abs()).max(c[1].abs()))
    }

    fn at(&self, s: f64) -> EnvelopePoint {
        let x = (2.0 * s - self.high - self.low) / (self.high - self.low);
        let (mut b1, mut b2) = ([0.0; 3], [0.0; 3]);
        for c in self.coefficients.iter().skip(1).rev() {
            for k in 0..3 {
                let b0 = 2.0 * x * b1[k] - b2[k] + c[k];
                b2[k] = b1[k];
                b1[k] = b0;
            }
        }
        let value = |k: usize| self.coefficients[0][k] + x * b1[k] - b2[k];
        EnvelopePoint { separation: s, ln_temperature: value(0), ln_pressure: value(1), ln_density: value(2) }
    }

    /// d ln T/dS and d ln p/dS, by the recurrence for Chebyshev polynomials of the second kind.
    fn slopes(&self, s: f64) -> (f64, f64) {
        let x = (2.0 * s - self.high - self.low) / (self.high - self.low);
        let mut sums = [0.0; 2];
        let (mut u0, mut u1) = (0.0, 1.0);
        for (k, c) in self.coefficients.iter().enumerate().skip(1) {
            for (sum, c) in sums.iter_mut().zip(c) {
                *sum += k as f64 * c * u1;
            }
            (u0, u1) = (u1, 2.0 * x * u1 - u0);
        }
        let scale = 2.0 / (self.high - self.low);
        (scale * sums[0], scale * sums[1])
    }
}

/// A solved point from which the line is followed.
#[derive(Clone)]
struct Walker<'a> {
    model: &'a Model,
    solution: Solution,
    s: f64,
}

impl Walker<'_> {
    /// Follows the line to separation `s`, with a tangent predictor and as many steps as it takes.
    fn go_to(&mut self, s: f64) -> Result<(), TraceError> {
        let mut step: f64 = STEP_MAX;
        while self.s != s {
            let target = if (s - self.s).abs() <= step { s } else { self.s + step.copysign(s - self.s) };
            if self.try_to(target, &self.predicted(target)) {
                step = (2.0 * step).min(STEP_MAX);
            } else {
                step *= 0.5;
                if step < STEP_MIN {
                    return Err(TraceError::Lost {
                        separation: target,
                        temperature: libm::exp(self.solution.point.ln_temperature),
                    });
                }
            }
        }
        Ok(())
    }

    fn predicted(&self, s: f64) -> TwoPhasePoint {
        self.solution.point.moved(s - self.s, &self.solution.tangent)
    }

    /// Solves at `s` from a guess; false where that fails or leads to another line.
    fn try_to(&mut self, s: f64, guess: &TwoPhasePoint) -> bool {
        match solve(self.model, Specification::Separation(s), guess) {
            Some(solution) if solution.point.distance(guess, self.model.count()) < SURPRISE_MAX => {
                self.solution = solution;
                self.s = s;
                true
            }
            _ => false,
        }
    }
}

impl Follow for Walker<'_> {
    fn value_at(&mut self, s: f64) -> Result<[f64; 3], TraceError> {
        self.go_to(s)?;
        let Solution { point, ln_pressure, .. } = self.solution;
        Ok([point.ln_temperature, ln_pressure, point.ln_density])
    }
}

/// A solved point about the critical point from which the line is followed.
#[derive(Clone)]
struct NearWalker<'a> {
    model: &'a Model,
    point: NearCriticalPoint,
    before: Option<NearCriticalPoint>,
}

impl NearWalker<'_> {
    fn lost(&self, separation: f64) -> TraceError {
        let point = self.point.two_phase(self.model);
        TraceError::Lost { separation, temperature: libm::exp(point.ln_temperature) }
    }
}

impl Follow for NearWalker<'_> {
    fn value_at(&mut self, s: f64) -> Result<[f64; 3], TraceError> {
        let mut step: f64 = 0.03;
        while self.point.separation != s {
            let here = self.point.separation;
            let target = if (s - here).abs() <= step { s } else { here + step.copysign(s - here) };
            match self.point.extrapolated(self.before.as_ref(), target).solved(self.model) {
                Some(solved) => {
                    self.before = Some(self.point);
                    self.point = solved;
                }
                None => {
                    step *= 0.5;
                    if step < STEP_MIN {
                        return Err(self.lost(target));
                    }
                }
            }
        }
        let point = self.point.two_phase(self.model);
        Ok([point.ln_temperature, self.point.ln_pressure(self.model), point.ln_density])
    }
}

/// Something that follows the line to a given separation.
trait Follow: Clone {
    /// ln T, ln p and ln ρ of the phase at the nominal composition, at separation `s`.
    fn value_at(&mut self, s: f64) -> Result<[f64; 3], TraceError>;
}

/// Pieces from `near` on, each of the signed width `width`, until they are colder than `ln_lowest`
/// or the line breaks off.
fn outwards(follow: &mut impl Follow, mut near: f64, mut width: f64, ln_lowest: f64) -> Result<Vec<Piece>, TraceError> {
    let mut pieces: Vec<Piece> = Vec::new();
    loop {
        let before = follow.clone();
        match resolved(follow, near, near + width) {
            Ok(found) => {
                near += width;
                let coldest = found.last().map(|piece| piece.at(near).ln_temperature);
                pieces.extend(found);
                if coldest.is_none_or(|coldest| coldest < ln_lowest) {
                    return Ok(pieces);
                }
            }
            Err(_) if width.abs() > WIDTH_MIN => {
                *follow = before;
                width *= 0.5;
            }
            Err(_) if !pieces.is_empty() => return Ok(pieces),
            Err(lost) => return Err(lost),
        }
    }
}

/// The pieces from `near` to `far`, halved until each is well resolved.
fn resolved(follow: &mut impl Follow, near: f64, far: f64) -> Result<Vec<Piece>, TraceError> {
    let before = follow.clone();
    let piece = Piece::solved(follow, near, far)?;
    if piece.tail() < TAIL_MAX || (far - near).abs() < WIDTH_MIN {
        return Ok(vec![piece]);
    }
    *follow = before;
    let half = 0.5 * (near + far);
    let mut pieces = resolved(follow, near, half)?;
    pieces.extend(resolved(follow, half, far)?);
    Ok(pieces)
}

/// A first bubble point at a middling temperature, from Wilson's estimate of the vapour pressure.
fn start(model: &Model) -> Option<Solution> {
    for share in [0.8, 0.75, 0.85, 0.7, 0.65, 0.9, 0.6] {
        let t = share * model.reducing_temperature();
        let mut ln_incipient = [0.0; COMPONENTS_MAX];
        for (i, component) in model.components().iter().enumerate() {
            let critical = component.critical;
            let ln_p = libm::log(model.fractions[i] * critical.pressure)
                + 5.373 * (1.0 + component.acentric) * (1.0 - critical.temperature / t);
            ln_incipient[i] = ln_p - libm::log(model.gas_constant * t);
        }
        let away = 1.0 - share;
        let reduced = 1.0 + 1.75 * libm::pow(away, 0.35) + 0.75 * away;
        let guess = TwoPhasePoint {
            ln_temperature: libm::log(t),
            ln_density: libm::log(reduced * model.reducing_density()),
            ln_incipient,
        };
        let found = solve(model, Specification::Temperature(libm::log(t)), &guess);
        if let Some(found) = found {
            let s = found.point.separation(model.count());
            if s > 0.1 {
                // The tangent is by temperature; a step of none in S turns it.
                return solve(model, Specification::Separation(s), &found.point);
            }
        }
    }
    None
}
