//! Small dense systems of linear equations.

use super::COMPONENTS_MAX;

/// Largest system: one unknown a component, and temperature and density besides.
pub const UNKNOWNS_MAX: usize = COMPONENTS_MAX + 2;

/// A vector of unknowns.
pub type Vector = [f64; UNKNOWNS_MAX];

/// Solves A x = b for two right-hand sides at once, by elimination with partial pivoting. `None`
/// where the matrix is singular.
pub fn solve(n: usize, mut a: [Vector; UNKNOWNS_MAX], mut b: [Vector; 2]) -> Option<[Vector; 2]> {
    for column in 0..n {
        let mut pivot = column;
        for row in column + 1..n {
            if a[row][column].abs() > a[pivot][column].abs() {
                pivot = row;
            }
        }
        let size = a[pivot][column].abs();
        if size == 0.0 || !size.is_finite() {
            return None;
        }
        a.swap(column, pivot);
        b.iter_mut().for_each(|side| side.swap(column, pivot));
        for row in column + 1..n {
            let factor = a[row][column] / a[column][column];
            if factor == 0.0 {
                continue;
            }
            let top = a[column];
            for (value, &above) in a[row].iter_mut().zip(&top).take(n).skip(column) {
                *value -= factor * above;
            }
            b.iter_mut().for_each(|side| side[row] -= factor * side[column]);
        }
    }
    for side in &mut b {
        for row in (0..n).rev() {
            let mut sum = side[row];
            for k in row + 1..n {
                sum -= a[row][k] * side[k];
            }
            side[row] = sum / a[row][row];
        }
    }
    Some(b)
}
