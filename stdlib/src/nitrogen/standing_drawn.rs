//! The chart of a standing test: what was read, what the temperature explains, and how far off it may be.

use dewline_lang::library::{Arguments, Axis, Drawing, Mark, Series};

use super::declared::gas;
use super::standing::judge;
use super::standing_declared::{bounds_of, readings};
use super::trapped::trapped_pressure;

/// What a report draws of a call of `standing_test`.
pub(super) fn drawn(arguments: &Arguments<'_>) -> Option<Drawing> {
    let (readings, gas) = (readings(arguments).ok()?, gas(arguments).ok()?);
    let bounds = bounds_of(arguments).ok()?;
    let found = judge(gas, &readings, &bounds).ok()?;
    let start = readings.first()?.time;
    let settled = || readings.iter().filter(|reading| reading.time - start >= bounds.settle);
    let baseline = settled().next()?;
    let expected: Vec<(f64, f64)> = settled()
        .map(|reading| {
            let expected = trapped_pressure(gas, baseline.pressure, baseline.temperature, reading.temperature).ok()?;
            Some((reading.time, expected.value))
        })
        .collect::<Option<_>>()?;
    let beside = |by: f64| expected.iter().map(|(time, pressure)| (*time, pressure + by)).collect();
    let read = readings.iter().map(|reading| (reading.time, reading.pressure.value)).collect();
    Some(Drawing {
        title: "Standing pressure test".to_string(),
        says: format!(
            "{} gauge readings over time, the pressure that the temperature of the gas alone would give, and the \
             limit on both sides of it. Verdict: {}.",
            readings.len(),
            found.verdict.name()
        ),
        across: Axis::of("time", "h"),
        up: Axis::of("pressure", "barg or psig"),
        series: vec![
            Series::of("limit", Mark::Dashed, beside(bounds.limit)),
            Series::of("", Mark::Dashed, beside(-bounds.limit)),
            Series::of("by temperature alone", Mark::Line, expected.clone()),
            Series::of("read", Mark::Points, read),
        ],
        limits: Vec::new(),
    })
}
