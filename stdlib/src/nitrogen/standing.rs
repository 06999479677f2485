//! The standing pressure test: is what the gauge lost more than temperature and the instruments explain?

use uom::si::f64::{Pressure, ThermodynamicTemperature};

use super::trapped::trapped_pressure;
use crate::numeric::line::Line;
use crate::refrigerant::{Gas, PropertyError};

/// One reading: seconds, absolute pressure, temperature of the gas.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// s from any beginning.
    pub time: f64,
    /// Absolute.
    pub pressure: Pressure,
    /// Of the gas.
    pub temperature: ThermodynamicTemperature,
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
    /// Nearly all was lost early: gas passing into a part that was not filled.
    EveningOut,
    /// What is left after correction goes up and down with the temperature.
    TemperatureNotSeen,
    /// The gauge does not move with the temperature at all.
    DoesNotFollow,
    /// No two readings after the gas has settled.
    Settling,
}

impl Verdict {
    /// As sheets see it.
    pub fn name(self) -> &'static str {
        match self {
            Verdict::Holds => "holds",
            Verdict::Loses => "loses",
            Verdict::Gains => "gains",
            Verdict::Indistinguishable => "indistinguishable",
            Verdict::EveningOut => "evening out",
            Verdict::TemperatureNotSeen => "temperature not represented",
            Verdict::DoesNotFollow => "does not follow the gas",
            Verdict::Settling => "settling",
        }
    }

    /// What to do next.
    pub fn next(self) -> &'static str {
        match self {
            Verdict::Holds => "soap or a detector at every joint at test pressure: the gauge does not see small leaks",
            Verdict::Loses => "find it with soap at test pressure, then let down slowly outdoors",
            Verdict::Gains => "is the cylinder shut and disconnected? or is the gas warmer than the thermometer says?",
            Verdict::Indistinguishable => "hold longer, or measure the gas's temperature better",
            Verdict::EveningOut => {
                "gas passes a closed valve into a part not filled: equalise all sides and start again"
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
        .map(|reading| {
            trapped_pressure(gas, baseline.pressure, baseline.temperature, reading.temperature).map(|p| p.value)
        })
        .collect::<Result<_, _>>()?;
    let residuals: Vec<f64> = settled.iter().zip(&expected).map(|(reading, p)| reading.pressure.value - p).collect();
    let residual = residuals.last().copied().unwrap_or(0.0);
    let one_kelvin_more = ThermodynamicTemperature { value: last.temperature.value + 1.0, ..last.temperature };
    let slope = trapped_pressure(gas, last.pressure, last.temperature, one_kelvin_more)?.value - last.pressure.value;
    let thermal = slope * bounds.temperature;
    let uncertainty = (bounds.pressure * bounds.pressure + thermal * thermal).sqrt();
    let span = last.time - baseline.time;
    let times: Vec<f64> = settled.iter().map(|reading| reading.time).collect();
    let rate = Line::through(&times, &residuals).map_or(residual / span, |line| line.slope);
    let measured: Vec<f64> = settled.iter().map(|reading| reading.pressure.value).collect();
    let verdict = if spread(&expected) > 3.0 * uncertainty && spread(&measured) < bounds.pressure / 3.0 {
        Verdict::DoesNotFollow
    } else {
        verdict(residual, uncertainty, bounds.limit, &residuals, &settled)
    };
    Ok(Standing { verdict, residual, uncertainty, rate, span })
}

fn nothing_yet() -> Standing {
    Standing { verdict: Verdict::Settling, residual: 0.0, uncertainty: f64::MAX, rate: 0.0, span: 0.0 }
}

fn verdict(residual: f64, uncertainty: f64, limit: f64, residuals: &[f64], settled: &[&Reading]) -> Verdict {
    if residual.abs() + uncertainty <= limit && spread(residuals) <= 2.0 * (limit + uncertainty) {
        return Verdict::Holds;
    }
    if residuals.len() >= 6 && spread(residuals) > uncertainty && follows_temperature(residuals, settled) {
        return Verdict::TemperatureNotSeen;
    }
    if residual - uncertainty > limit {
        return Verdict::Gains;
    }
    if -residual - uncertainty > limit {
        return if fell_early(residuals) { Verdict::EveningOut } else { Verdict::Loses };
    }
    Verdict::Indistinguishable
}

/// Six readings or more, and the second half lost less than a tenth of what the first did.
fn fell_early(residuals: &[f64]) -> bool {
    let middle = residuals.get(residuals.len() / 2).copied().unwrap_or(0.0);
    let last = residuals.last().copied().unwrap_or(0.0);
    residuals.len() >= 6 && (last - middle).abs() < 0.1 * middle.abs()
}

/// Whether the residuals move with the temperature (correlation above 0.9) and not with the time.
fn follows_temperature(residuals: &[f64], settled: &[&Reading]) -> bool {
    let temperatures: Vec<f64> = settled.iter().map(|reading| reading.temperature.value).collect();
    let times: Vec<f64> = settled.iter().map(|reading| reading.time).collect();
    let with_time = correlation(&times, residuals).abs();
    let with_temperature = correlation(&temperatures, residuals).abs();
    with_temperature > 0.9 && with_temperature > with_time
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
                Reading { time: hour * HOUR, pressure, temperature: celsius(shown(hour)) }
            })
            .collect();
        let bounds = Bounds { limit: 0.15 * BAR, pressure: 0.05 * BAR, temperature: 0.3, settle: 0.5 * HOUR };
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
        let one = Reading { time: 0.0, pressure: Pressure::new::<pascal>(4e6), temperature: celsius(20.0) };
        let bounds = Bounds { limit: 1e4, pressure: 1e3, temperature: 0.3, settle: 1_800.0 };
        assert_eq!(judge(Gas::Nitrogen, &[one, one], &bounds).unwrap().verdict, Verdict::Settling);
        assert_eq!(judge(Gas::Nitrogen, &[], &bounds).unwrap().verdict, Verdict::Settling);
    }
}
