//! How numbers and quantities are written for people.
//!
//! A number has up to six significant digits, trailing zeros dropped, and all digits before the point from a million up
//! to a thousand million; it is plain between 1e-4 and 1e9 and `1.5e-7` outside. A step (`as psig to 0.1`) fixes the
//! decimals instead. Rounding is that of the exact binary value: a decimal that looks like a tie (2.675) is rarely one;
//! a true tie (0.125 to two decimals) goes to the even digit.

use super::{Stance, Unit};

/// Significant digits of a number shown without a step.
const DIGITS: usize = 6;

/// A number without a step.
pub fn number(value: f64) -> String {
    if !value.is_finite() {
        return "not a number".to_string();
    }
    // The exponent after rounding: 999999.7 has seven digits before the point.
    let rounded = format!("{value:.*e}", DIGITS - 1);
    let (mantissa, exponent) = rounded.split_once('e').unwrap_or((&rounded, "0"));
    let exponent: i32 = exponent.parse().unwrap_or(0);
    let shown = if value == 0.0 {
        "0".to_string()
    } else if (-4..9).contains(&exponent) {
        let decimals = usize::try_from(DIGITS as i32 - 1 - exponent).unwrap_or(0);
        without_trailing_zeros(&format!("{value:.decimals$}"))
    } else {
        format!("{}e{exponent}", without_trailing_zeros(mantissa))
    };
    without_minus_of_zero(shown)
}

/// A number rounded to the nearest multiple of a step, with the step's decimals kept: `60.0` for a step of 0.1.
pub fn number_to(value: f64, step: f64) -> String {
    if !(value.is_finite() && step.is_finite() && step > 0.0) {
        return number(value);
    }
    let decimals = decimals_of(step);
    // For 1, 0.1, 0.01 … the formatter rounds the exact value; dividing by a rounded step first would not.
    let power_of_ten = format!("{step:.decimals$}").trim_start_matches(['0', '.']) == "1";
    let rounded = if power_of_ten && step <= 1.0 { value } else { (value / step).round_ties_even() * step };
    without_minus_of_zero(format!("{rounded:.decimals$}"))
}

/// The shortest text that reads back as the same number, for data exchange.
pub fn exact(value: f64) -> String {
    format!("{value:?}")
}

/// A value with its unit: `12.9 psig`, `55 %`; a pure number stands alone.
pub fn quantity(si: f64, unit: &Unit, atmosphere: f64, step: Option<f64>) -> String {
    let value = unit.from_si(si, atmosphere);
    let shown = step.map_or_else(|| number(value), |step| number_to(value, step));
    if unit.text == "1" { shown } else { format!("{shown} {}", unit.text) }
}

/// A value in pieces, units falling: `4 lb 3.2 oz`. The last piece is rounded to the step, a tenth if none is given,
/// before it is split, so that no piece overflows. `None` if the units do not go into one another whole, or are points.
pub fn pieces(si: f64, units: &[Unit], step: Option<f64>) -> Option<String> {
    let last = units.last()?;
    if !si.is_finite() || units.iter().any(|unit| unit.meaning.stance() == Stance::Point) {
        return None;
    }
    let step = step.unwrap_or(0.1);
    let total = last.from_si(si.abs(), 0.0);
    let mut left = (total / step).round_ties_even() * step;
    let mut shown = Vec::new();
    for unit in units.get(..units.len() - 1)? {
        let ratio = unit.meaning.factor() / last.meaning.factor();
        let whole = ratio.round();
        if unit.dimension != last.dimension || whole < 2.0 || (ratio - whole).abs() > 1e-9 * whole {
            return None;
        }
        // A hair is added so that 47.99999999999999 ounces, left by the rounding to the step, are three pounds.
        let count = (left / whole + 1e-12).floor();
        left = (left - count * whole).max(0.0);
        if count != 0.0 || !shown.is_empty() {
            shown.push(format!("{count} {}", unit.text));
        }
    }
    let rest = number_to(left, step);
    let rest = if rest.contains('.') { without_trailing_zeros(&rest) } else { rest };
    if rest != "0" || shown.is_empty() {
        shown.push(format!("{rest} {}", last.text));
    }
    let sign = if si < 0.0 && total >= step / 2.0 { "-" } else { "" };
    Some(format!("{sign}{}", shown.join(" ")))
}

/// How many decimals a step is written with, 12 at most.
fn decimals_of(step: f64) -> usize {
    let shortest = format!("{step}");
    shortest.split_once('.').map_or(0, |(_, decimals)| decimals.len()).min(12)
}

fn without_trailing_zeros(shown: &str) -> String {
    if shown.contains('.') { shown.trim_end_matches('0').trim_end_matches('.').to_string() } else { shown.to_string() }
}

fn without_minus_of_zero(shown: String) -> String {
    match shown.strip_prefix('-') {
        Some(rest) if rest.chars().all(|digit| matches!(digit, '0' | '.')) => rest.to_string(),
        _ => shown,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]

    use super::{exact, number, number_to, pieces, quantity};
    use crate::units::parse;

    #[test]
    fn numbers_have_six_significant_digits() {
        for (value, shown) in [
            (0.0, "0"),
            (-0.0, "0"),
            (1.0, "1"),
            (0.1 + 0.2, "0.3"),
            (538.342_91, "538.343"),
            (-40.0, "-40"),
            (999_999.7, "1000000"),
            (1_234_567.8, "1234568"),
            (123_456_789.0, "123456789"),
            (1e9, "1e9"),
            (1.5e12, "1.5e12"),
            (0.000_1, "0.0001"),
            (0.000_123_456_78, "0.000123457"),
            (0.000_099_999_99, "0.0001"),
            (1.5e-7, "1.5e-7"),
            (f64::NAN, "not a number"),
        ] {
            assert_eq!(number(value), shown);
        }
    }

    #[test]
    fn a_step_fixes_the_decimals() {
        for (value, step, shown) in [
            (60.0, 0.1, "60.0"),
            (538.343, 0.1, "538.3"),
            (538.343, 1.0, "538"),
            (538.343, 5.0, "540"),
            (538.343, 0.5, "538.5"),
            (538.343, 0.25, "538.25"),
            (0.125, 0.01, "0.12"),
            (-0.04, 0.1, "0.0"),
            (1_234.0, 100.0, "1200"),
            (12.0, 0.0, "12"),
        ] {
            assert_eq!(number_to(value, step), shown);
        }
    }

    #[test]
    fn pieces_never_overflow() {
        let units = ["lb", "oz"].map(|text| parse(text).unwrap());
        let ounce = 0.028_349_523_125;
        for (ounces, shown) in [
            (67.2, "4 lb 3.2 oz"),
            (63.99, "4 lb"),
            (3.0, "3 oz"),
            (0.0, "0 oz"),
            (-67.2, "-4 lb 3.2 oz"),
            (16.0, "1 lb"),
        ] {
            assert_eq!(pieces(ounces * ounce, &units, None).unwrap(), shown);
        }
        let times = ["h", "min", "s"].map(|text| parse(text).unwrap());
        assert_eq!(pieces(5_400.0, &times, Some(1.0)).unwrap(), "1 h 30 min");
        assert_eq!(pieces(3_605.0, &times, Some(1.0)).unwrap(), "1 h 0 min 5 s");
        assert_eq!(pieces(1.0, &["ft", "cm"].map(|text| parse(text).unwrap()), None), None);
        assert_eq!(pieces(1.0, &["psig", "psi"].map(|text| parse(text).unwrap()), None), None);
    }

    #[test]
    fn quantities_carry_their_unit() {
        let shown = |si: f64, text: &str, step| quantity(si, &parse(text).unwrap(), 101_325.0, step);
        assert_eq!(shown(0.55, "%", None), "55 %");
        assert_eq!(shown(790_800.7, "psig", Some(0.1)), "100.0 psig");
        assert_eq!(shown(273.15, "degF", None), "32 degF");
    }

    #[test]
    fn exact_text_reads_back() {
        for value in [0.1, 1.0 / 3.0, 1e300, 5e-324, 101_325.0] {
            assert_eq!(exact(value).parse::<f64>().unwrap().to_bits(), value.to_bits());
        }
    }
}
