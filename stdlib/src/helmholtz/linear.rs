//! Small dense systems of linear equations.

/// Solves A x = b, of which the first `n` rows and columns count, for two right-hand sides at once, by elimination with partial pivoting. `None`
/// where the matrix is singular.
pub fn solve<const M: usize>(n: usize, mut a: [[f64; M]; M], mut b: [[f64; M]; 2]) -> Option<[[f64; M]; 2]> {
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
