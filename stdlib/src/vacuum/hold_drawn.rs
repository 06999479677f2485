//! The chart of a hold: its readings, the curve under them, and the level to stay under.

use dewline_lang::library::{Arguments, Axis, Drawing, Limit, Mark, Series};

use super::hold::{judge, shape};
use super::hold_declared::{hold_of, readings};

/// What a report draws of a call of `hold_test`.
pub(super) fn drawn(arguments: &Arguments<'_>) -> Option<Drawing> {
    let readings = readings(arguments).ok()?;
    let hold = hold_of(arguments).ok()?;
    let judged = judge(&readings, &hold).ok()?;
    let fit = shape(&readings, &hold, &judged)?;
    let fitted = if judged.settling.is_some() { "bend that fits best" } else { "line that fits best" };
    let most = readings.iter().map(|reading| reading.pressure).fold(hold.limit, f64::max);
    let mut limits = vec![Limit { name: "level to stay under".to_string(), at: hold.limit }];
    // Far above the readings it would only press them flat.
    if hold.water_at_coldest < 2.0 * most {
        limits.push(Limit { name: "water at the coldest pipe".to_string(), at: hold.water_at_coldest });
    }
    let points = |over: bool| -> Vec<(f64, f64)> {
        readings.iter().filter(|one| one.over == over).map(|one| (one.time, one.pressure)).collect()
    };
    let mut series = vec![Series::of(fitted, Mark::Line, fit), Series::of("read", Mark::Points, points(false))];
    if judged.over.is_some() {
        series.push(Series::of("over the gauge's range: at least", Mark::Points, points(true)));
    }
    Some(Drawing {
        title: "Vacuum hold".to_string(),
        says: format!(
            "{} readings of the vacuum gauge over time and the {fitted}. {}: {}.",
            readings.len(),
            capital(judged.verdict.name()),
            judged.why.trim_end_matches('.')
        ),
        across: Axis::of("time", "min"),
        up: Axis::of("pressure", "Pa absolute or micron"),
        series,
        limits,
    })
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
