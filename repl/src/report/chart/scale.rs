//! Ends and marks of an axis.

use std::ops::Range;

use dewline_lang::units::show;
use plotters::coord::ranged1d::{DefaultFormatting, KeyPointHint, Ranged};

/// An axis from its first to its last mark, or a little beyond.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Scale {
    /// Its ends, as drawn: of a logarithmic axis the logarithms.
    pub ends: (f64, f64),
    /// Where it is marked.
    pub marks: Vec<f64>,
    logarithmic: bool,
}

impl Scale {
    /// A scale that holds all values, with about so many marks; a logarithmic one leaves out what is not above zero.
    pub fn over(values: impl Iterator<Item = f64>, marks: usize, logarithmic: bool) -> Scale {
        let usable = values.filter(|value| value.is_finite() && (!logarithmic || *value > 0.0));
        let (low, high) = usable.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| (a.min(v), b.max(v)));
        let (low, high) = if low <= high { (low, high) } else { (1.0, 10.0) };
        if logarithmic { Scale::of_powers(low, high) } else { Scale::of_steps(low, high, marks) }
    }

    /// Where a value stands on it.
    pub fn at(&self, value: f64) -> f64 {
        if self.logarithmic { libm::log10(value) } else { value }
    }

    /// The words beside a mark.
    pub fn words(&self, mark: f64) -> String {
        // What is left of a power of ten by rounding is no part of the number.
        show::number(if self.logarithmic { rounded(libm::pow(10.0, mark)) } else { rounded(mark) })
    }

    /// Even steps of 1, 2 or 5 and a power of ten.
    fn of_steps(low: f64, high: f64, marks: usize) -> Scale {
        let span = if high > low { high - low } else { low.abs().max(1.0) };
        let (low, high) = if high > low { (low, high) } else { (low - span / 2.0, high + span / 2.0) };
        let rough = span / marks.max(2) as f64;
        let power = libm::pow(10.0, libm::floor(libm::log10(rough)));
        let step = [1.0, 2.0, 5.0, 10.0].into_iter().map(|by| by * power).find(|step| *step >= rough);
        let step = step.unwrap_or(10.0 * power);
        let (first, last) = (libm::floor(low / step + 1e-9), libm::ceil(high / step - 1e-9));
        let count = (last - first).clamp(1.0, 40.0) as usize;
        let marks: Vec<f64> = (0..=count).map(|at| (first + at as f64) * step).collect();
        let ends = (first * step, marks.last().copied().unwrap_or(high).max(high));
        Scale { ends, marks, logarithmic: false }
    }

    /// 1, 2, 5 of each power of ten that lies inside.
    fn of_powers(low: f64, high: f64) -> Scale {
        let (from, to) = (libm::log10(low), libm::log10(high));
        let room = (to - from).max(0.05) * 0.04;
        let ends = (from - room, to + room);
        let powers = libm::floor(ends.0) as i32..=libm::ceil(ends.1) as i32;
        let of_each: &[f64] = if to - from > 3.0 { &[1.0] } else { &[1.0, 2.0, 5.0] };
        let all = powers.flat_map(|power| of_each.iter().map(move |by| libm::log10(*by) + f64::from(power)));
        Scale { ends, marks: all.filter(|mark| (ends.0..=ends.1).contains(mark)).collect(), logarithmic: true }
    }
}

/// What the drawing library asks of an axis.
impl Ranged for Scale {
    type FormatOption = DefaultFormatting;
    type ValueType = f64;

    fn map(&self, value: &f64, (from, to): (i32, i32)) -> i32 {
        let share = (value - self.ends.0) / (self.ends.1 - self.ends.0);
        from + (share * f64::from(to - from)).round() as i32
    }

    fn key_points<Hint: KeyPointHint>(&self, _: Hint) -> Vec<f64> {
        self.marks.clone()
    }

    fn range(&self) -> Range<f64> {
        self.ends.0..self.ends.1
    }
}

/// To ten figures.
fn rounded(number: f64) -> f64 {
    format!("{number:.9e}").parse().unwrap_or(number)
}

#[cfg(test)]
mod tests {
    use super::Scale;

    fn words(values: &[f64], logarithmic: bool) -> Vec<String> {
        let scale = Scale::over(values.iter().copied(), 5, logarithmic);
        scale.marks.iter().map(|mark| scale.words(*mark)).collect()
    }

    #[test]
    fn marks_are_round_numbers_about_the_values() {
        assert_eq!(words(&[3.1, 47.0], false), ["0", "10", "20", "30", "40", "50"]);
        assert_eq!(words(&[0.31, 0.36], false), ["0.31", "0.32", "0.33", "0.34", "0.35", "0.36"]);
        assert_eq!(words(&[-3.0, 4.0], false), ["-4", "-2", "0", "2", "4"]);
        assert_eq!(words(&[7.0], false), ["2", "4", "6", "8", "10", "12"]);
        assert_eq!(words(&[110.0, 900.0], true), ["200", "500"]);
        assert_eq!(words(&[0.5, 2e4], true), ["1", "10", "100", "1000", "10000"]);
    }

    #[test]
    fn no_values_and_values_without_end_do_no_harm() {
        assert!(!words(&[], false).is_empty());
        assert!(!words(&[f64::NAN, f64::INFINITY, 1e300, -1e300], false).is_empty());
        assert!(!words(&[-1.0, 0.0], true).is_empty());
        assert!(!words(&[5e-324, 1.0], true).is_empty());
    }
}
