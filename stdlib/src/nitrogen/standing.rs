//! The standing pressure test: is what the gauge lost more than temperature and the instruments explain?

use uom::si::f64::{Pressure, ThermodynamicTemperature};

use super::trapped::{Zone, trapped_pressure, zoned_pressure};
use crate::numeric::line::Line;
use crate::numeric::solve::{Fit, fit};
use crate::refrigerant::{Gas, PropertyError};
use crate::said::said;

/// One reading: seconds, absolute pressure, temperatures of the gas.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// s from any beginning.
    pub time: f64,
    /// Absolute.
    pub pressure: Pressure,
    /// Of the gas; of its first zone if there are more.
    pub temperature: ThermodynamicTemperature,
    /// Of a second and a third zone.
    pub others: [Option<ThermodynamicTemperature>; 2],
}

/// What the test is judged by, Pa, K and s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Greatest loss allowed.
    pub limit: f64,
    /// Expanded uncertainty of the difference of two readings on the one gauge.
    pub pressure: f64,
    /// Expanded uncertainty of the change of the gas's temperature.
    pub temperature: f64,
    /// How long the gas settles after filling.
    pub settle: f64,
    /// Shares of the volume in a second and a third zone.
    pub shares: [f64; 2],
}

/// The verdict on a standing test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Loss and its uncertainty together stay within the limit.
    Holds,
    /// The loss passes the limit by more than its uncertainty.
    Loses,
    /// The pressure rose by more than its uncertainty and the limit.
    Gains,
    /// The uncertainty is too great for the limit.
    Indistinguishable,
    /// All was lost early: gas passing into a part that was not filled.
    EveningOut,
    /// A little was lost in the first hour and a half: the heat of filling, or a small part not filled.
    AfterFill,
    /// What is left after correction goes up and down with the temperature.
    TemperatureNotSeen,
    /// The gauge does not move with the temperature at all.
    DoesNotFollow,
    /// No two readings after the gas has settled.
    Settling,
}

said! {
    Verdict {
        Verdict::Holds => "holds",
        Verdict::Loses => "loses",
        Verdict::Gains => "gains",
        Verdict::Indistinguishable => "indistinguishable",
        Verdict::EveningOut => "evening out",
        Verdict::AfterFill => "settling after fill",
        Verdict::TemperatureNotSeen => "temperature not represented",
        Verdict::DoesNotFollow => "does not follow the gas",
        Verdict::Settling => "settling",
    }
}

impl Verdict {
    /// What to do next.
    pub fn next(self) -> &'static str {
        match self {
            Verdict::Holds => "soap or a detector at every joint at test pressure: the gauge does not see small leaks",
            Verdict::Loses => "find it with soap at test pressure, then let down slowly outdoors",
            Verdict::Gains => "is the cylinder shut and disconnected? or is the gas warmer than the thermometer says?",
            Verdict::Indistinguishable => {
                "hold longer, measure the gas's temperature better, or read when it is as warm as at the start"
            }
            Verdict::EveningOut => {
                "gas passes a closed valve into a part not filled: equalise all sides and start again"
            }
            Verdict::AfterFill => {
                "heat of filling, or a small part not filled: `volume_check`, then judge from the minute given as `settle`"
            }
            Verdict::TemperatureNotSeen => "put thermometers on the parts in sun and shade, or read before dawn",
            Verdict::DoesNotFollow => "is the valve to the gauge shut?",
            Verdict::Settling => "wait: the baseline is the first reading after the gas has settled",
        }
    }
}

/// What came out. SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// The verdict.
    pub verdict: Verdict,
    /// Last reading less what it should be; below nought lost. Pa.
    pub residual: f64,
    /// Expanded uncertainty of it, Pa.
    pub uncertainty: f64,
    /// Slope of the residuals, Pa/s.
    pub rate: f64,
    /// Seconds from the baseline to the last reading.
    pub span: f64,
    /// Seconds from the first reading after which nothing more fell.
    pub steady_from: Option<f64>,
    /// Seconds of hold after which a loss as fast as the limit allows could be told.
    pub hold_needed: Option<f64>,
    /// Pa; the smallest loss that would surely have been called one: the limit and twice the uncertainty.
    pub surely_seen: f64,
}

/// Judges readings in time order.
pub fn judge(gas: Gas, readings: &[Reading], bounds: &Bounds) -> Result<Standing, PropertyError> {
    let start = readings.first().map_or(0.0, |reading| reading.time);
    let settled: Vec<&Reading> = readings.iter().filter(|reading| reading.time - start >= bounds.settle).collect();
    let (Some(baseline), Some(last)) = (settled.first(), settled.last()) else {
        return Ok(nothing_yet());
    };
    if settled.len() < 2 {
        return Ok(nothing_yet());
    }
    let expected: Vec<f64> = settled
        .iter()
        .map(|reading| expected(gas, baseline, reading, bounds).map(|p| p.value))
        .collect::<Result<_, _>>()?;
    let residuals: Vec<f64> = settled.iter().zip(&expected).map(|(reading, p)| reading.pressure.value - p).collect();
    let residual = residuals.last().copied().unwrap_or(0.0);
    let warmer = |t: ThermodynamicTemperature| ThermodynamicTemperature { value: t.value + 1.0, ..t };
    let slope =
        trapped_pressure(gas, last.pressure, last.temperature, warmer(last.temperature))?.value - last.pressure.value;
    let thermal = slope * bounds.temperature;
    let uncertainty = (bounds.pressure * bounds.pressure + thermal * thermal).sqrt();
    let span = last.time - baseline.time;
    let times: Vec<f64> = settled.iter().map(|reading| reading.time).collect();
    let rate = Line::through(&times, &residuals).map_or(residual / span, |line| line.slope);
    let measured: Vec<f64> = settled.iter().map(|reading| reading.pressure.value).collect();
    let found = Found {
        residual,
        uncertainty,
        limit: bounds.limit,
        start,
        times: &times,
        residuals: &residuals,
        expected: &expected,
        stands_still: spread(&measured) <= 1.5 * bounds.pressure,
        measured_moved: spread(&measured),
        zoned: bounds.shares.iter().any(|share| *share > 0.0),
    };
    let (verdict, steady_from) = found.verdict(baseline.pressure.value);
    let hold_needed = (verdict == Verdict::Indistinguishable).then(|| span * 2.0 * uncertainty / bounds.limit);
    let surely_seen = bounds.limit + 2.0 * uncertainty;
    Ok(Standing { verdict, residual, uncertainty, rate, span, steady_from, hold_needed, surely_seen })
}

/// What the pressure should be: the gas of the baseline in the same volume at the reading's temperatures.
fn expected(gas: Gas, baseline: &Reading, reading: &Reading, bounds: &Bounds) -> Result<Pressure, PropertyError> {
    let [second, third] = bounds.shares;
    let zone = |share: f64, start, end| Zone { share, start, end };
    let mut zones = vec![zone(1.0 - second - third, baseline.temperature, reading.temperature)];
    for (at, share) in bounds.shares.into_iter().enumerate() {
        let of = |reading: &Reading| reading.others.get(at).copied().flatten();
        if let (true, Some(start), Some(end)) = (share > 0.0, of(baseline), of(reading)) {
            zones.push(zone(share, start, end));
        }
    }
    match zones.as_slice() {
        [only] => trapped_pressure(gas, baseline.pressure, only.start, only.end),
        zones => zoned_pressure(gas, baseline.pressure, zones),
    }
}

fn nothing_yet() -> Standing {
    Standing {
        verdict: Verdict::Settling,
        residual: 0.0,
        uncertainty: f64::MAX,
        rate: 0.0,
        span: 0.0,
        steady_from: None,
        hold_needed: None,
        surely_seen: f64::MAX,
    }
}

/// Gas that was filled in quickly is warmer by 4 K at most (its heat goes into the copper): common practice, no source.
const FILL_HEAT: f64 = 4.0 / 293.0;
/// s; by then it has cooled.
const COOLED: f64 = 5_400.0;
/// From this correlation on, time and temperature cannot be told apart.
const TOGETHER: f64 = 0.97;

/// Residuals and what they are judged by.
struct Found<'a> {
    residual: f64,
    uncertainty: f64,
    limit: f64,
    start: f64,
    times: &'a [f64],
    residuals: &'a [f64],
    expected: &'a [f64],
    /// The gauge moved by no more than it is uncertain.
    stands_still: bool,
    measured_moved: f64,
    /// Parts of the volume have temperatures of their own.
    zoned: bool,
}

/// How the residuals go with what the temperature should have done.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Thermal {
    /// They undo it: the gauge stands still.
    Undone,
    /// They go with a part of it.
    Part,
    /// They may go with up to this share of it, as far as can be told.
    UpTo(f64),
}

impl Found<'_> {
    /// The verdict; where the fall ended early, also when (s after the first reading).
    fn verdict(&self, pressure: f64) -> (Verdict, Option<f64>) {
        let Found { residual, uncertainty, limit, residuals, .. } = *self;
        let thermal = self.thermal();
        match thermal {
            Thermal::Undone => return (Verdict::DoesNotFollow, None),
            Thermal::Part => return (Verdict::TemperatureNotSeen, None),
            Thermal::UpTo(_) => {}
        }
        // A part that swings more than the thermometers say moves the pressure the way the temperature goes.
        let Thermal::UpTo(share) = thermal else { return (Verdict::Indistinguishable, None) };
        let warmed = self.expected.last().zip(self.expected.first()).map_or(0.0, |(last, first)| last - first);
        let may_be_thermal = warmed.abs() > uncertainty && (0.0..=share).contains(&(residual / warmed));
        let steady = spread(residuals) <= 2.0 * uncertainty.max(limit / 2.0);
        // Where time and temperature rose together a part that warms more may hide a loss, unless zones are given.
        let hidden = share.is_infinite() && warmed > 3.0 * uncertainty && !self.zoned;
        if residual.abs() + uncertainty <= limit && steady && !hidden {
            return (Verdict::Holds, None);
        }
        if residual - uncertainty > limit && !may_be_thermal {
            return (Verdict::Gains, None);
        }
        if residual < -uncertainty
            && let Some(at) = self.levelled_off()
        {
            // Small and over within the hour and a half: heat of filling, or a small part not filled. Else the latter.
            let early = at <= COOLED && -residual <= FILL_HEAT * pressure + uncertainty;
            return (if early { Verdict::AfterFill } else { Verdict::EveningOut }, Some(at));
        }
        if -residual - uncertainty > limit && !may_be_thermal && self.goes_with_time() {
            return (Verdict::Loses, None);
        }
        (Verdict::Indistinguishable, None)
    }

    /// A hole loses in proportion to time, or ever less; what comes and goes is no hole. Of few readings nothing is said.
    fn goes_with_time(&self) -> bool {
        let Some(line) = Line::through(self.times, self.residuals).filter(|_| self.residuals.len() >= 6) else {
            return true;
        };
        let allowed = (self.uncertainty / 2.0).max(0.1 * self.residual.abs());
        line.scatter <= allowed || (self.dying_away() / (self.residuals.len() as f64 - 3.0)).sqrt() <= allowed / 2.0
    }

    /// Residuals as a constant, a loss in proportion to time and a share of what the temperature should have done: that
    /// share, if it is surely there, moves the pressure by more than the uncertainty, and explains it better than a
    /// change that dies away.
    fn thermal(&self) -> Thermal {
        let first = self.expected.first().copied().unwrap_or(0.0);
        let moved = spread(self.expected);
        if moved <= self.uncertainty {
            return Thermal::UpTo(0.0);
        }
        if self.stands_still && moved > 1.5 * self.uncertainty && self.measured_moved < moved / 3.0 {
            return Thermal::Undone;
        }
        if self.residuals.len() < 6 || correlation(self.times, self.expected).abs() > TOGETHER {
            return Thermal::UpTo(f64::INFINITY);
        }
        let Some(found) = self.with(self.expected.iter().map(|expected| (expected - first) / moved)) else {
            return Thermal::UpTo(0.0);
        };
        let scatter = (found.misses / (self.residuals.len() as f64 - 3.0)).sqrt();
        let [_, part, _] = found.coefficients;
        let unsure = 4.0 * scatter * found.variance[1].sqrt();
        let sure = part.abs() > unsure && scatter < self.uncertainty / 2.0 && found.misses < self.dying_away() / 2.0;
        match part / moved {
            share if sure && (share + 1.0).abs() < 0.25 => Thermal::Undone,
            share if sure && share.abs() > 0.1 && part.abs() > self.uncertainty => Thermal::Part,
            share => Thermal::UpTo((share + unsure / moved).max(0.0)),
        }
    }

    /// Least misses with a change that dies away in place of the temperature.
    fn dying_away(&self) -> f64 {
        let span = self.span();
        [0.05, 0.1, 0.2, 0.4, 0.8]
            .iter()
            .filter_map(|share| {
                let shape = self.times.iter().map(|time| libm::exp(-(time - self.start) / (share * span)));
                self.with(shape).map(|found| found.misses)
            })
            .fold(f64::INFINITY, f64::min)
    }

    fn span(&self) -> f64 {
        self.times.last().map_or(1.0, |last| last - self.start).max(1.0)
    }

    /// Residuals fitted by a constant, a shape and time.
    fn with(&self, shape: impl Iterator<Item = f64>) -> Option<Fit<3>> {
        let span = self.span();
        let rows: Vec<([f64; 3], f64)> = shape
            .zip(self.times)
            .zip(self.residuals)
            .map(|((shape, time), residual)| ([1.0, shape, (time - self.start) / span], *residual))
            .collect();
        fit(&rows)
    }

    /// When the fall ended, if the second half lost less than a tenth of the whole and less than can be told; s after the
    /// first reading. Six readings or more.
    fn levelled_off(&self) -> Option<f64> {
        let (half, last) = (self.residuals.len() / 2, self.residual);
        let middle = self.residuals.get(half).copied()?;
        if self.residuals.len() < 6 || (last - middle).abs() >= (0.1 * last.abs()).min(self.uncertainty) {
            return None;
        }
        // A loss that goes on as fast as in the beginning did not level off, however little that is.
        let near = (0.1 * last.abs()).max(self.uncertainty / 5.0);
        let at = self.residuals.iter().position(|residual| (residual - last).abs() <= near)?;
        self.times.get(at).map(|time| time - self.start)
    }
}

fn correlation(x: &[f64], y: &[f64]) -> f64 {
    let n = x.len().min(y.len()) as f64;
    let (mean_x, mean_y) = (x.iter().sum::<f64>() / n, y.iter().sum::<f64>() / n);
    let sum = |f: fn(f64, f64) -> f64| x.iter().zip(y).map(|(x, y)| f(x - mean_x, y - mean_y)).sum::<f64>();
    let scale = (sum(|x, _| x * x) * sum(|_, y| y * y)).sqrt();
    if scale > 0.0 { sum(|x, y| x * y) / scale } else { 0.0 }
}

fn spread(values: &[f64]) -> f64 {
    let (least, most) = values.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| (a.min(*v), b.max(*v)));
    (most - least).max(0.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{Bounds, Reading, Standing, Verdict, judge};
    use crate::nitrogen::trapped::trapped_pressure;
    use crate::refrigerant::Gas;
    use uom::si::f64::{Pressure, ThermodynamicTemperature};
    use uom::si::pressure::pascal;
    use uom::si::thermodynamic_temperature::degree_celsius;

    const HOUR: f64 = 3_600.0;
    const BAR: f64 = 1e5;

    fn celsius(t: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<degree_celsius>(t)
    }

    /// 24 hours from 41.5 bar gauge at 20 °C: temperature by the hour, and what is lost besides, in bar.
    fn test(temperature: impl Fn(f64) -> f64, shown: impl Fn(f64) -> f64, lost: impl Fn(f64) -> f64) -> Standing {
        let start = Pressure::new::<pascal>(41.5 * BAR + 101_325.0);
        let readings: Vec<Reading> = (0..25)
            .map(f64::from)
            .map(|hour| {
                let held =
                    trapped_pressure(Gas::Nitrogen, start, celsius(temperature(0.0)), celsius(temperature(hour)));
                let pressure = held.unwrap() - Pressure::new::<pascal>(lost(hour) * BAR);
                Reading { time: hour * HOUR, pressure, temperature: celsius(shown(hour)), others: [None; 2] }
            })
            .collect();
        let bounds =
            Bounds { limit: 0.15 * BAR, pressure: 0.05 * BAR, temperature: 0.3, settle: 0.5 * HOUR, shares: [0.0; 2] };
        judge(Gas::Nitrogen, &readings, &bounds).unwrap()
    }

    fn night(hour: f64) -> f64 {
        20.0 - 6.0 * (std::f64::consts::TAU * hour / 24.0).sin()
    }

    #[test]
    fn each_test_gets_its_name() {
        let tight = test(night, night, |_| 0.0);
        assert_eq!(tight.verdict, Verdict::Holds);
        assert!(tight.residual.abs() < 1.0);
        assert_eq!(test(night, night, |hour| 0.02 * hour).verdict, Verdict::Loses);
        assert_eq!(test(night, night, |hour| -0.02 * hour).verdict, Verdict::Gains);
        assert_eq!(test(night, night, |hour| 0.006 * hour).verdict, Verdict::Indistinguishable);
        assert_eq!(test(night, night, |hour| 0.8 * (1.0 - (-hour / 1.5).exp())).verdict, Verdict::EveningOut);
        // The thermometer hangs where it swings half as much.
        let half = |hour: f64| 20.0 + (night(hour) - 20.0) / 2.0;
        assert_eq!(test(night, half, |_| 0.0).verdict, Verdict::TemperatureNotSeen);
        // The pressure of a shut gauge stays while the gas cools.
        assert_eq!(test(|_| 20.0, |hour| 20.0 - hour / 3.0, |_| 0.0).verdict, Verdict::DoesNotFollow);
    }

    #[test]
    fn one_reading_is_no_test() {
        let one = Reading {
            time: 0.0,
            pressure: Pressure::new::<pascal>(4e6),
            temperature: celsius(20.0),
            others: [None; 2],
        };
        let bounds = Bounds { limit: 1e4, pressure: 1e3, temperature: 0.3, settle: 1_800.0, shares: [0.0; 2] };
        assert_eq!(judge(Gas::Nitrogen, &[one, one], &bounds).unwrap().verdict, Verdict::Settling);
        assert_eq!(judge(Gas::Nitrogen, &[], &bounds).unwrap().verdict, Verdict::Settling);
    }
}
