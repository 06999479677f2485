//! The judgement on a hold.

use super::curve::{Bend, Curve, Reading};
use super::words;

/// Where the gauge sits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GaugeAt {
    /// At the end of the pipes that is farthest from the pump.
    Far,
    /// At the pump.
    Pump,
}

/// What is known about a hold besides its readings. SI throughout: s, Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hold {
    /// Vapour pressure of water, or of ice, at the coldest pipe.
    pub water_at_coldest: f64,
    /// Vapour pressure of water at the warmest spot.
    pub water_at_warmest: f64,
    /// The level that the hold must stay under.
    pub limit: f64,
    /// Where the gauge sits.
    pub gauge_at: GaugeAt,
    /// How long pressure may take to even out after the pump is shut off.
    pub equalising: f64,
    /// The longest time constant of moisture that is reckoned with.
    pub longest: f64,
    /// Standard deviation of a reading.
    pub noise: f64,
    /// Slope of a hold before a nitrogen break, with its standard uncertainty.
    pub earlier: Option<(f64, f64)>,
    /// A standing pressure test was passed.
    pub standing: bool,
    /// Every side was reached: a gauge on each main, or volume by fill.
    pub all_reached: bool,
}

/// What a hold looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// It bends to a plateau, or does not rise.
    LevelsOff,
    /// It levels off at the vapour pressure of water.
    FreeWater,
    /// It levels off, but the gauge is at the pump: pressure evening out.
    EveningOut,
    /// It rises straight, longer than moisture could: leak or slow moisture.
    Straight,
    /// It rises straight again after a nitrogen break, or past what water can do.
    Leak,
    /// It rises ever slower without a plateau.
    StillSlowing,
    /// The slope grows.
    Accelerating,
    /// It falls.
    Falling,
    /// It jumps in the middle.
    Step,
    /// It ran over the gauge's range before there was a curve to judge.
    OverRange,
    /// The gauge does not move at all.
    NoMovement,
    /// Nothing can be told yet.
    TooShort,
    /// At this temperature ice would stay under the limit.
    CannotProveDry,
    /// Not every side of the system was reached.
    OtherSide,
    /// None of the shapes fits.
    Unclear,
}

/// The judgement: what it is, why, what next, and what it could not have seen. SI.
#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    /// What it looks like.
    pub verdict: Verdict,
    /// Why, in one sentence.
    pub why: String,
    /// What to do or read next.
    pub next: String,
    /// Straight part of the rise, Pa/s.
    pub rate: f64,
    /// Its standard uncertainty.
    pub rate_uncertainty: f64,
    /// Where it levels off, Pa.
    pub plateau: Option<f64>,
    /// Time constant, s.
    pub settling: Option<f64>,
    /// When it jumped, s after the first reading.
    pub jumped: Option<f64>,
    /// When it ran over the gauge's range, s after the first reading.
    pub over: Option<f64>,
    /// How long a hold it takes to tell, s.
    pub time_needed: Option<f64>,
    /// The smallest steady rise that this hold could have told from slow moisture, Pa/s.
    pub missed: f64,
}

/// Why a hold cannot be judged at all.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TooLittle {
    /// Fewer than four readings.
    Readings,
    /// Times do not rise.
    Order,
}

/// A reading further than this many standard deviations off is no noise.
const SURELY: f64 = 3.0;
/// Time constants that a hold must cover before a plateau counts as seen.
const SEEN: f64 = 1.5;
/// Thermal gauges are set in air and read water up to about twice too high, so ice must stand this far above the limit.
const ICE_OVER_LIMIT: f64 = 4.0;

/// Readings that make a curve.
const ENOUGH: usize = 4;

/// Judges a hold from its readings; those over the gauge's range say only that it was at least so much.
pub fn judge(readings: &[Reading], hold: &Hold) -> Result<Judgement, TooLittle> {
    if readings.len() < ENOUGH {
        return Err(TooLittle::Readings);
    }
    let curve = Curve::new(readings).ok_or(TooLittle::Order)?;
    let noise = noise_of(&curve, hold);
    let mut judgement = Judgement::of_line(&curve, hold, noise);
    judgement.verdict = judgement.verdict_on(&curve, hold, noise);
    // Whatever the curve: where even ice would stay under the limit, a low pressure proves nothing.
    let looks_dry = matches!(judgement.verdict, Verdict::LevelsOff | Verdict::EveningOut);
    if looks_dry && hold.water_at_coldest < ICE_OVER_LIMIT * hold.limit {
        judgement.verdict = Verdict::CannotProveDry;
    }
    if looks_dry && !hold.all_reached {
        judgement.verdict = Verdict::OtherSide;
    }
    if looks_dry || judgement.verdict == Verdict::FreeWater {
        judgement.missed = judgement.missed.max(judgement.unseen(&curve, hold, noise));
    }
    let (why, next) = words::of(&judgement, &curve, hold);
    Ok(Judgement { why, next, ..judgement })
}

/// The stated noise, or what the readings scatter about the most patient shape if that is surely more.
fn noise_of(curve: &Curve, hold: &Hold) -> f64 {
    let spare = curve.count().saturating_sub(4);
    let stated = hold.noise;
    match curve.bend_on_slope(hold.longest) {
        // Scatter may be a shape that was not thought of: it is not let grow without bound.
        Some(fit) if spare >= 4 && fit.misses > stated * stated * likely_most(spare) => {
            (fit.misses / spare as f64).sqrt().min(3.0 * stated)
        }
        _ => stated,
    }
}

impl Judgement {
    /// Nothing said yet but what the best line is.
    fn of_line(curve: &Curve, hold: &Hold, noise: f64) -> Judgement {
        let (rate, factor) = curve.straight().map_or((0.0, f64::INFINITY), |line| (line.rate, line.rate_factor));
        Judgement {
            verdict: Verdict::Unclear,
            why: String::new(),
            next: String::new(),
            rate,
            rate_uncertainty: factor * noise,
            plateau: None,
            settling: None,
            jumped: None,
            over: curve.went_over(),
            time_needed: None,
            missed: 24.0 * noise * hold.longest / (curve.span() * curve.span()),
        }
    }

    /// A steady rise that the shape found leaves room for: what there is of it and four standard uncertainties; where it
    /// levels off, of a bend on a slope with any time constant that fits nearly as well.
    fn unseen(&self, curve: &Curve, hold: &Hold, noise: f64) -> f64 {
        let flat = self.rate.max(0.0) + 4.0 * self.rate_uncertainty;
        match self.settling {
            Some(_) => curve.most_slope_under_a_bend(hold.longest, noise).unwrap_or(flat),
            None => flat,
        }
    }

    fn verdict_on(&mut self, curve: &Curve, hold: &Hold, noise: f64) -> Verdict {
        let readings = curve.readings();
        let (first, last) = (pressure(readings.first()), pressure(readings.last()));
        if self.over.is_none() && readings.len() >= 5 && readings.iter().all(|reading| reading.pressure == first) {
            return Verdict::NoMovement;
        }
        if last - first < -SURELY * noise && self.rate < -SURELY * self.rate_uncertainty {
            return Verdict::Falling;
        }
        if last > 2.0 * hold.water_at_warmest {
            return Verdict::Leak;
        }
        if curve.count() < ENOUGH {
            return Verdict::OverRange;
        }
        let spare = |terms: usize| curve.count().saturating_sub(terms);
        let within = |misses: Option<f64>, terms: usize| {
            misses.is_some_and(|misses| misses <= noise * noise * likely_most(spare(terms)))
        };
        let bend = curve.bend(hold.longest);
        let (line_fits, root_fits) =
            (within(curve.straight().map(|line| line.misses), 2), within(curve.root_of_time(), 2));
        let bend_fits = within(bend.map(|bend| bend.misses), 3) && bend.is_some_and(|bend| bend.rise > 0.0);
        if line_fits {
            return self.straight_or_flat(curve, hold, noise);
        }
        if let Some((at, height, misses)) = curve.jump()
            && !bend_fits
            && !root_fits
            && height.abs() > 2.0 * SURELY * noise
            && within(Some(misses), 4)
        {
            self.jumped = readings.get(at).map(|reading| reading.time);
            return Verdict::Step;
        }
        if let Some((growth, factor)) = curve.curvature()
            && growth > SURELY * factor * noise
        {
            return Verdict::Accelerating;
        }
        let bends_better = match (bend, curve.root_of_time()) {
            (Some(bend), Some(root)) => bend.misses + 6.0 * noise * noise < root,
            _ => false,
        };
        if bend_fits && (bends_better || !root_fits) {
            return self.bends(curve, hold, bend);
        }
        if root_fits {
            return Verdict::StillSlowing;
        }
        match curve.bend_on_slope(hold.longest) {
            Some(fit) if within(Some(fit.misses), 4) => {
                self.rate = fit.rate;
                self.rate_uncertainty = fit.rate_factor * noise;
                if fit.rate > SURELY * self.rate_uncertainty {
                    self.told(curve, hold, noise)
                } else {
                    self.bends(curve, hold, bend)
                }
            }
            _ => Verdict::Unclear,
        }
    }

    /// A line fits: rising, or flat.
    fn straight_or_flat(&mut self, curve: &Curve, hold: &Hold, noise: f64) -> Verdict {
        if self.rate > SURELY * self.rate_uncertainty {
            return self.told(curve, hold, noise);
        }
        // Flat: what may still rise unseen must leave it under the limit for as long as moisture could take.
        let last = curve.readings().last().map_or(f64::INFINITY, |reading| reading.pressure);
        let unseen = (self.rate.max(0.0) + 2.0 * self.rate_uncertainty) * hold.longest;
        let room = (hold.limit - last).max(SURELY * noise);
        if curve.span() < hold.longest / 2.0 || unseen > room {
            // The uncertainty of a slope falls with the 3/2 power of the time.
            let longer = curve.span() * libm::pow(unseen / room, 2.0 / 3.0);
            self.time_needed = Some(longer.max(hold.longest / 2.0));
            return Verdict::TooShort;
        }
        self.plateau = Some(last);
        self.levelled(hold, last)
    }

    /// A rising line: straight once moisture of the longest time constant would have bent by more than the noise.
    fn told(&mut self, curve: &Curve, hold: &Hold, noise: f64) -> Verdict {
        let needed = (24.0 * noise * hold.longest / self.rate).sqrt();
        if curve.span() < needed {
            self.time_needed = Some(needed);
            return Verdict::TooShort;
        }
        let again = hold.earlier.is_some_and(|(rate, uncertainty)| {
            let apart = (uncertainty * uncertainty + self.rate_uncertainty * self.rate_uncertainty).sqrt();
            (rate - self.rate).abs() <= 2.0 * apart
        });
        if again { Verdict::Leak } else { Verdict::Straight }
    }

    fn bends(&mut self, curve: &Curve, hold: &Hold, bend: Option<Bend>) -> Verdict {
        let Some(bend) = bend else {
            return Verdict::Unclear;
        };
        self.settling = Some(bend.tau);
        if curve.span() < SEEN * bend.tau {
            self.time_needed = Some(SEEN * bend.tau);
            return Verdict::TooShort;
        }
        self.plateau = Some(bend.plateau);
        // What is left to rise is no steady rise.
        self.rate = bend.rise / bend.tau * libm::exp(-curve.span() / bend.tau);
        self.levelled(hold, bend.plateau)
    }

    fn levelled(&self, hold: &Hold, plateau: f64) -> Verdict {
        if plateau >= hold.water_at_coldest / 2.0 {
            Verdict::FreeWater
        } else if hold.gauge_at == GaugeAt::Pump && self.settling.is_some_and(|tau| tau <= hold.equalising) {
            Verdict::EveningOut
        } else {
            Verdict::LevelsOff
        }
    }
}

fn pressure(reading: Option<&Reading>) -> f64 {
    reading.map_or(0.0, |reading| reading.pressure)
}

/// The greatest sum of squares of so many standard normal numbers in 99 of 100 cases (Wilson and Hilferty 1931).
fn likely_most(degrees: usize) -> f64 {
    if degrees == 0 {
        return 0.5;
    }
    let k = degrees as f64;
    let root = 1.0 - 2.0 / (9.0 * k) + 2.326 * (2.0 / (9.0 * k)).sqrt();
    k * root * root * root
}
