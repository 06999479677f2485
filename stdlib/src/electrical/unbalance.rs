//! Unbalance of three phases.

/// The greatest distance from the mean as a share of the mean; the three values are of one sign and not all nought.
///
/// NEMA MG 1 for voltages, taken line to line. It is neither the negative-sequence ratio nor the spread over the mean.
pub fn unbalance(values: [f64; 3]) -> Option<f64> {
    let mean = values.iter().sum::<f64>() / 3.0;
    let farthest = values.iter().map(|value| (value - mean).abs()).fold(0.0, f64::max);
    (mean > 0.0).then_some(farthest / mean)
}

#[cfg(test)]
mod tests {
    use super::unbalance;

    #[test]
    fn published_and_worked_cases() {
        for (values, percent) in [
            // The example of NEMA MG 1 as repeated in public teaching pages: 1.96 %.
            ([460.0, 467.0, 450.0], 1.9608),
            // A tip sheet of the US Department of Energy, from memory: 1.1 %.
            ([462.0, 463.0, 455.0], 1.0870),
            ([220.0, 215.0, 210.0], 2.3256),
            // Currents, worked by hand.
            ([22.1, 24.0, 25.4], 7.273),
        ] {
            let found = unbalance(values).unwrap_or(f64::NAN) * 100.0;
            assert!((found - percent).abs() < 5e-4, "{values:?}: {found}");
        }
    }

    #[test]
    fn a_dead_supply_has_none() {
        assert_eq!(unbalance([0.0, 0.0, 0.0]), None);
        assert_eq!(unbalance([400.0, 400.0, 0.0]).map(|share| share > 0.9), Some(true));
    }
}
