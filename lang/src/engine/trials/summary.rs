//! What trials say of a value, and whether its first-order uncertainty agrees (JCGM 101, 7.6, 7.7 and 8).

use crate::engine::block::Block;
use crate::engine::coverage;
use crate::engine::origins::Origins;
use crate::engine::run::Run;
use crate::engine::{rounding, shown};
use crate::outcome::TrialValue;
use crate::plan::{Datum, Typing};

/// The probability of coverage intervals here.
const PROBABILITY: f64 = 0.95;
/// Three standard errors of the end of such an interval, in standard uncertainties times √trials: √(p(1−p))/f for the
/// density f of a normal distribution there. What lies within them is the noise of the trials.
const NOISE: f64 = 3.0 * 2.67;

/// One value: in SI, points absolute.
pub fn of(
    run: &Run,
    origins: &Origins,
    name: String,
    (block, row): (&Block, usize),
    typing: &Typing,
    mut trials: Vec<f64>,
) -> TrialValue {
    let asked = trials.len();
    trials.retain(|value| value.is_finite());
    let broken = asked - trials.len();
    let site = run.atmosphere.number_at(0);
    let estimate = shown::si(block, row, typing.datum, site).unwrap_or(0.0);
    // A point held above the site moves with the site too: its doubt is that of the absolute value.
    let parts = match typing.datum {
        Datum::Gauge => {
            let both = [(block.states.doubt_at(row), 1.0), (run.atmosphere.states.doubt_at(0), 1.0)];
            super::super::doubt::Doubt::linear(both.into_iter()).map_or_else(Vec::new, |sum| sum.row(0).to_vec())
        }
        Datum::Absolute => block.states.doubt_at(row).to_vec(),
    };
    let first = origins.uncertainty(&parts);
    let first_standard = first.map_or(0.0, |first| first.standard);
    let reach = coverage::factor(PROBABILITY, first.and_then(|first| first.freedom)) * first_standard;
    let (mean, standard) = moments(&trials);
    trials.sort_by(f64::total_cmp);
    let symmetric = symmetric(&trials);
    let tolerance = tolerance(first_standard) + NOISE * standard / (trials.len().max(1) as f64).sqrt();
    let off = (estimate - reach - symmetric.0).abs().max((estimate + reach - symmetric.1).abs());
    let agrees = broken == 0 && off <= tolerance;
    let holds = estimate - reach <= symmetric.0 + tolerance && estimate + reach >= symmetric.1 - tolerance;
    let held = Typing { datum: Datum::Absolute, ..typing.clone() };
    let distance = shown::distance(typing, run.system);
    let show = |si: f64| point(si, standard.max(first_standard), &held, run, site);
    TrialValue {
        name,
        mean,
        standard,
        symmetric: [symmetric.0, symmetric.1],
        shortest: shortest(&trials),
        broken,
        estimate,
        first_standard,
        first: [estimate - reach, estimate + reach],
        tolerance,
        agrees,
        wider: !agrees && broken == 0 && holds,
        shown_mean: show(mean),
        shown_standard: rounding::distance(standard, &distance, run.system),
        shown_interval: format!("{} .. {}", show(symmetric.0), show(symmetric.1)),
        shown_first: format!("{} .. {}", show(estimate - reach), show(estimate + reach)),
    }
}

/// Mean and standard deviation, added up from the mean on so that large values lose nothing.
fn moments(values: &[f64]) -> (f64, f64) {
    let count = values.len() as f64;
    let Some(&first) = values.first() else { return (0.0, 0.0) };
    let mean = first + super::super::folds::sum(&values.iter().map(|x| x - first).collect::<Vec<_>>()) / count;
    let squares = super::super::folds::sum(&values.iter().map(|x| (x - mean) * (x - mean)).collect::<Vec<_>>());
    (mean, if values.len() > 1 { (squares / (count - 1.0)).sqrt() } else { 0.0 })
}

/// As many values below as above.
fn symmetric(sorted: &[f64]) -> (f64, f64) {
    let count = sorted.len();
    let Some(last) = count.checked_sub(1) else { return (0.0, 0.0) };
    let inside = ((PROBABILITY * count as f64 + 0.5) as usize).min(last);
    let low = (count - inside) / 2;
    let low = low.saturating_sub(1).min(last);
    (sorted[low], sorted[(low + inside).min(last)])
}

/// The shortest of all intervals that hold the share.
fn shortest(sorted: &[f64]) -> [f64; 2] {
    let count = sorted.len();
    let Some(last) = count.checked_sub(1) else { return [0.0, 0.0] };
    let inside = ((PROBABILITY * count as f64 + 0.5) as usize).min(last);
    let width = |low: usize| sorted[low + inside] - sorted[low];
    let best = (0..count - inside).fold(0, |best, low| if width(low) < width(best) { low } else { best });
    [sorted[best], sorted[best + inside]]
}

/// Half a unit of the second significant figure of a standard uncertainty (JCGM 101, 7.9.2).
fn tolerance(standard: f64) -> f64 {
    let text = format!("{standard:.1e}");
    let exponent = text.split_once('e').and_then(|(_, exponent)| exponent.parse::<i32>().ok());
    exponent.filter(|_| standard > 0.0).map_or(0.0, |exponent| 0.5 * libm::pow(10.0, f64::from(exponent - 1)))
}

/// A value in its unit, to the place of the second figure of its uncertainty, without the unit.
fn point(si: f64, standard: f64, typing: &Typing, run: &Run, site: Option<f64>) -> String {
    let wish = shown::wish(typing, run.system);
    let Some(unit) = wish.units.last() else { return rounding::to_place_of(si, standard) };
    let number = shown::in_unit(si, Datum::Absolute, unit, site).filter(|number| number.is_finite()).unwrap_or(si);
    rounding::to_place_of(number, standard / unit.meaning.factor())
}

#[cfg(test)]
mod tests {
    use super::{moments, shortest, symmetric, tolerance};

    #[test]
    fn tolerances_are_those_of_the_guide() {
        // JCGM 101, 7.9.2, example 1: u = 0.35 g to two figures is 35 hundredths, so that half a unit is 0.005 g.
        for (standard, expected) in [(0.35, 0.005), (2.0, 0.05), (0.0539, 0.0005), (0.0, 0.0)] {
            assert!((tolerance(standard) - expected).abs() < 1e-12);
        }
    }

    #[test]
    fn intervals_hold_their_share() {
        let values: Vec<f64> = (1..=1000).map(f64::from).collect();
        assert_eq!(symmetric(&values), (25.0, 975.0));
        let mut squares: Vec<f64> = (0..1000).map(|x| f64::from(x) * f64::from(x)).collect();
        squares.sort_by(f64::total_cmp);
        assert_eq!(shortest(&squares), [0.0, 950.0 * 950.0]);
        assert_eq!(moments(&[1e9 + 1.0, 1e9 + 2.0, 1e9 + 3.0]), (1e9 + 2.0, 1.0));
    }
}
