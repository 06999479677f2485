//! A value and its uncertainty printed together: two figures of the uncertainty at most, the value to the same place
//! (JCGM 100, 7.2.6), as in `9.2 ± 1.4 F°`.

use super::block::Block;
use super::origins::Uncertain;
use super::shown;
use crate::outcome::Shown;
use crate::plan::Typing;
use crate::units::{UnitSystem, show};

/// The two together; nothing where there is no uncertainty to tell.
pub fn together(
    block: &Block,
    at: usize,
    typing: &Typing,
    system: Option<UnitSystem>,
    atmosphere: Option<f64>,
    uncertainty: &Uncertain,
) -> Option<String> {
    let value = shown::value(block, at, typing, system, atmosphere)?;
    let wish = shown::wish(typing, system);
    let (factor, unit) = match wish.units.last() {
        Some(unit) => (unit.meaning.factor(), if unit.text == "1" { "" } else { unit.text.as_str() }),
        None => (1.0, ""),
    };
    let expanded = uncertainty.expanded / factor.abs();
    if !(expanded > 0.0 && expanded.is_finite()) {
        return None;
    }
    Some(match value.number {
        Some(number) => rounded(number, expanded, unit, wish.step),
        None => format!("{} ± {} {unit}", value.text, two_figures(expanded)),
    })
}

/// A distance with two figures and its unit, as in `1.4 F°`.
pub fn distance(si: f64, typing: &Typing, system: Option<UnitSystem>) -> String {
    distance_shown(si, typing, system).text
}

/// The same with its number.
pub fn distance_shown(si: f64, typing: &Typing, system: Option<UnitSystem>) -> Shown {
    let wish = shown::wish(typing, system);
    let unit = wish.units.last();
    let number = si / unit.map_or(1.0, |unit| unit.meaning.factor());
    if !number.is_finite() {
        return shown::in_base_units(si, &typing.kind);
    }
    let unit = unit.map(|unit| unit.text.clone()).filter(|unit| unit != "1").unwrap_or_default();
    let text = format!("{} {unit}", two_figures(number)).trim_end().to_string();
    Shown { number: Some(number), unit, text }
}

/// A number with two figures.
pub fn two_figures(number: f64) -> String {
    show::number(format!("{number:.1e}").parse().unwrap_or(number))
}

/// A number with three figures.
pub fn three_figures(number: f64) -> String {
    show::number(format!("{number:.2e}").parse().unwrap_or(number))
}

/// A number to the place of the second figure of an uncertainty.
pub fn to_place_of(number: f64, uncertainty: f64) -> String {
    let place = exponent_of(uncertainty) - 1;
    if !(uncertainty > 0.0 && (-12..7).contains(&place)) {
        return show::number(number);
    }
    let scale = libm::pow(10.0, f64::from(place));
    let text = if place >= 0 {
        format!("{:.0}", (number / scale).round_ties_even() * scale)
    } else {
        format!("{number:.*}", usize::try_from(-place).unwrap_or(0))
    };
    match text.strip_prefix('-') {
        Some(zero) if zero.chars().all(|digit| matches!(digit, '0' | '.')) => zero.to_string(),
        _ => text,
    }
}

fn rounded(number: f64, expanded: f64, unit: &str, step: Option<f64>) -> String {
    let figures = format!("{expanded:.1e}");
    let exponent: i32 = figures.split_once('e').and_then(|(_, exponent)| exponent.parse().ok()).unwrap_or(0);
    let spread: f64 = figures.parse().unwrap_or(expanded);
    let place = exponent - 1;
    let tail = if unit.is_empty() { String::new() } else { format!(" {unit}") };
    // Very large and very small numbers are told with one power of ten for both.
    if !(-7..7).contains(&exponent) {
        let power = exponent.max(exponent_of(number));
        let scale = libm::pow(10.0, f64::from(power));
        let decimals = usize::try_from(power - place).unwrap_or(0).min(17);
        return format!("({:.decimals$} ± {:.decimals$})e{power}{tail}", number / scale, spread / scale);
    }
    let step_of_place = libm::pow(10.0, f64::from(place));
    let wider = step.filter(|step| *step > step_of_place * 1.000_001);
    // A step wider than the uncertainty's place stays: it was asked for. The uncertainty keeps to it if it can.
    let value = match wider {
        Some(step) => show::number_to(number, step),
        _ if place >= 0 => format!("{:.0}", (number / step_of_place).round_ties_even() * step_of_place),
        _ => format!("{number:.*}", usize::try_from(-place).unwrap_or(0)),
    };
    let value = match value.strip_prefix('-') {
        Some(zero) if zero.chars().all(|digit| matches!(digit, '0' | '.')) => zero.to_string(),
        _ => value,
    };
    let decimals = usize::try_from(-place).unwrap_or(0);
    match wider {
        Some(step) if spread >= 2.0 * step => format!("{value} ± {}{tail}", show::number_to(expanded, step)),
        _ => format!("{value} ± {spread:.decimals$}{tail}"),
    }
}

fn exponent_of(number: f64) -> i32 {
    format!("{number:e}").split_once('e').and_then(|(_, exponent)| exponent.parse().ok()).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::rounded;

    #[test]
    fn value_and_uncertainty_end_at_the_same_place() {
        for (number, expanded, unit, step, shown) in [
            (9.234, 1.376, "F°", None, "9.2 ± 1.4 F°"),
            // JCGM 100, 7.2.2: m = 100.02147 g, U = 0.79 mg.
            (100.021_47, 0.000_79, "g", None, "100.02147 ± 0.00079 g"),
            (538.34, 13.8, "psig", None, "538 ± 14 psig"),
            (1234.5, 156.0, "kPa", None, "1230 ± 160 kPa"),
            (0.123, 0.099_6, "", None, "0.12 ± 0.10"),
            (-0.001, 0.5, "F°", None, "0.00 ± 0.50 F°"),
            (9.234, 0.034, "F°", Some(0.1), "9.2 ± 0.034 F°"),
            (208.7, 1.97, "kJ", Some(1.0), "209 ± 2 kJ"),
            (1.2345, 0.312, "", Some(0.1), "1.2 ± 0.3"),
            (50_000_623.0, 1.2e-9, "nm", None, "(50000623.0000000000 ± 0.0000000012) nm"),
        ] {
            let told = rounded(number, expanded, unit, step);
            if expanded > 1e-7 {
                assert_eq!(told, shown);
            } else {
                assert!(told.contains('e'), "{told}");
            }
        }
    }
}
