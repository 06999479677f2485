//! Small systems of linear equations, for least squares of a few terms.

/// Unknowns at most.
pub const MOST: usize = 4;

/// Coefficients of the least-squares fit of `y` by columns of terms, with the sum of squared misses and the variance
/// factor of each coefficient (multiply by the noise squared). Nothing if the terms cannot be told apart.
pub fn fit<const K: usize>(rows: &[([f64; K], f64)]) -> Option<Fit<K>> {
    if K > MOST || rows.len() < K {
        return None;
    }
    let mut normal = [[0.0; K]; K];
    let mut right = [0.0; K];
    for (terms, y) in rows {
        for (i, left) in terms.iter().enumerate() {
            right[i] += left * y;
            for (j, other) in terms.iter().enumerate() {
                normal[i][j] += left * other;
            }
        }
    }
    let inverse = inverse(normal)?;
    let mut coefficients = [0.0; K];
    let mut variance = [0.0; K];
    for i in 0..K {
        coefficients[i] = (0..K).map(|j| inverse[i][j] * right[j]).sum();
        variance[i] = inverse[i][i];
    }
    let misses = rows
        .iter()
        .map(|(terms, y)| y - terms.iter().zip(&coefficients).map(|(term, c)| term * c).sum::<f64>())
        .map(|miss| miss * miss)
        .sum();
    Some(Fit { coefficients, variance, misses })
}

/// A least-squares fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit<const K: usize> {
    /// One for each term.
    pub coefficients: [f64; K],
    /// Variance of each coefficient for noise of variance one.
    pub variance: [f64; K],
    /// Sum of squared misses.
    pub misses: f64,
}

/// The inverse of a symmetric positive definite matrix by elimination with the greatest pivot first.
fn inverse<const K: usize>(mut matrix: [[f64; K]; K]) -> Option<[[f64; K]; K]> {
    let scale = matrix.iter().flatten().fold(0.0, |most: f64, x| most.max(x.abs()));
    let mut inverse = [[0.0; K]; K];
    for (i, row) in inverse.iter_mut().enumerate() {
        row[i] = 1.0;
    }
    for column in 0..K {
        let pivot = (column..K).max_by(|a, b| matrix[*a][column].abs().total_cmp(&matrix[*b][column].abs()))?;
        matrix.swap(column, pivot);
        inverse.swap(column, pivot);
        let divisor = matrix[column][column];
        if divisor.is_nan() || divisor.abs() <= 1e-14 * scale {
            return None;
        }
        for k in 0..K {
            matrix[column][k] /= divisor;
            inverse[column][k] /= divisor;
        }
        for row in (0..K).filter(|row| *row != column) {
            let factor = matrix[row][column];
            for k in 0..K {
                matrix[row][k] -= factor * matrix[column][k];
                inverse[row][k] -= factor * inverse[column][k];
            }
        }
    }
    Some(inverse)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::fit;

    #[test]
    fn recovers_what_the_data_were_made_of() {
        let rows: Vec<([f64; 3], f64)> =
            (0..9).map(f64::from).map(|t| ([1.0, t, t * t], 3.0 - 2.0 * t + 0.5 * t * t)).collect();
        let found = fit(&rows).unwrap();
        for (c, expected) in found.coefficients.iter().zip([3.0, -2.0, 0.5]) {
            assert!((c - expected).abs() < 1e-10);
        }
        assert!(found.misses < 1e-18);
        // The variance of a mean is one over the number of readings.
        let ones: Vec<([f64; 1], f64)> = (0..4).map(|_| ([1.0], 7.0)).collect();
        assert_eq!(fit(&ones).unwrap().variance, [0.25]);
    }

    #[test]
    fn terms_that_are_the_same_are_refused() {
        let rows: Vec<([f64; 2], f64)> = (0..5).map(f64::from).map(|t| ([t, 2.0 * t], t)).collect();
        assert_eq!(fit(&rows), None);
        assert_eq!(fit::<2>(&[([1.0, 0.0], 1.0)]), None);
    }
}
