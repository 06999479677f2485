//! Following the two-phase line by continuation in the separation S.
//!
//! Temperature and pressure turn along the line and Newton's method breaks down at its middle,
//! where both phases become one; but every quantity is smooth in S. So the line is solved at
//! Chebyshev points of S, those about the middle by the equations of [`super::near_critical`].

use super::curve::{Curve, NODES, Piece};
use super::equilibrium::{Solution, Specification, TwoPhasePoint, solve};
use super::near_critical::NearCriticalPoint;
use super::{COMPONENTS_MAX, Model};

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
/// Width of the pieces before any is halved.
const WIDTH: f64 = 0.4;
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

/// The line of `model` from below `lowest` (K) on the bubble side, over the critical point, to
/// below `lowest` on the dew side. Where the line of a mixture breaks off before that, because its
/// liquid would split in two, it ends there.
pub fn trace(model: &Model, lowest: f64) -> Result<Curve, TraceError> {
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
    pieces.push(solved(&mut near, CORE, -CORE)?);
    pieces.extend(resolved(&mut near, -CORE, -MIDDLE)?);
    near.value_at(-MIDDLE)?;
    let guess = near.point.two_phase(model);
    let solution = solve(model, Specification::Separation(-MIDDLE), &guess);
    let solution = solution.ok_or_else(|| near.lost(-MIDDLE))?;
    let mut walker = Walker { model, solution, s: -MIDDLE };
    pieces.extend(outwards(&mut walker, -MIDDLE, -WIDTH, ln_lowest)?);
    Curve::new(pieces).ok_or(TraceError::NoStart)
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

/// The piece through the Chebyshev points between `near` and `far`, from the nearer one on.
fn solved(follow: &mut impl Follow, near: f64, far: f64) -> Result<Piece, TraceError> {
    let mut values = [[0.0; 3]; NODES];
    for (k, value) in values.iter_mut().enumerate() {
        *value = follow.value_at(Piece::node(near, far, k))?;
    }
    Ok(Piece::through(near, far, &values))
}

/// The pieces from `near` to `far`, halved until each is well resolved.
fn resolved(follow: &mut impl Follow, near: f64, far: f64) -> Result<Vec<Piece>, TraceError> {
    let before = follow.clone();
    let piece = solved(follow, near, far)?;
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
