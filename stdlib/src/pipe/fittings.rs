//! Fittings as the length of straight pipe that loses as much.

use uom::si::f64::Length;
use uom::si::length::{foot, inch};

/// Counts of fittings in a line.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Fittings {
    /// 90° elbows.
    pub elbows: f64,
    /// 90° elbows of long radius.
    pub long_elbows: f64,
    /// 45° elbows.
    pub half_elbows: f64,
    /// Tees passed through the branch.
    pub tees: f64,
}

/// Outside diameter in inches, then feet for a 90° elbow, a long one, a 45° one, a tee's branch: ASHRAE
/// Handbook—Refrigeration, chapter 1, from memory.
const TABLE: [(f64, [f64; 4]); 7] = [
    (0.375, [1.4, 0.9, 0.7, 2.7]),
    (0.5, [1.6, 1.0, 0.8, 3.0]),
    (0.75, [2.0, 1.4, 0.9, 4.0]),
    (1.0, [2.6, 1.7, 1.3, 5.0]),
    (1.25, [3.3, 2.3, 1.7, 7.0]),
    (1.5, [4.0, 2.6, 2.1, 8.0]),
    (2.0, [5.0, 3.3, 2.6, 10.0]),
];

/// Length of straight pipe that loses as much as the fittings; straight between the table's sizes, nothing outside.
pub fn equivalent_length(od: Length, fittings: &Fittings) -> Option<Length> {
    let od = od.get::<inch>();
    let counts = [fittings.elbows, fittings.long_elbows, fittings.half_elbows, fittings.tees];
    let each = TABLE.windows(2).find_map(|pair| match pair {
        [(low, from), (high, to)] if (*low - 0.006..=*high + 0.006).contains(&od) => {
            let share = ((od - low) / (high - low)).clamp(0.0, 1.0);
            Some(
                from.iter()
                    .zip(to)
                    .map(|(from, to)| from + (to - from) * share)
                    .zip(counts)
                    .map(|(feet, n)| feet * n)
                    .sum(),
            )
        }
        _ => None,
    });
    each.map(Length::new::<foot>)
}

#[cfg(test)]
mod tests {
    use super::{Fittings, equivalent_length};
    use uom::si::f64::Length;
    use uom::si::length::{foot, inch};

    #[test]
    fn the_table_and_between() {
        let two_and_one = Fittings { elbows: 2.0, tees: 1.0, ..Fittings::default() };
        let found = |od: f64| equivalent_length(Length::new::<inch>(od), &two_and_one).map(|l| l.get::<foot>());
        assert!(found(0.375).is_some_and(|feet| (feet - 5.5).abs() < 1e-9));
        assert!(found(0.625).is_some_and(|feet| (feet - 7.1).abs() < 1e-9));
        assert_eq!(found(3.125), None);
        assert_eq!(found(0.25), None);
    }
}
