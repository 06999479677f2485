//! A straight line through points, by least squares.

/// The line `intercept + slope · x` through points, with how well it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Rise of y for each x.
    pub slope: f64,
    /// y where x is nought.
    pub intercept: f64,
    /// Standard uncertainty of the slope, from the scatter.
    pub slope_uncertainty: f64,
    /// Standard uncertainty of the intercept.
    pub intercept_uncertainty: f64,
    /// Standard deviation of the points from the line.
    pub scatter: f64,
}

impl Line {
    /// Through at least three points with at least two different x; else nothing.
    ///
    /// JCGM 100:2008, H.3.
    pub fn through(x: &[f64], y: &[f64]) -> Option<Line> {
        let count = x.len().min(y.len());
        if count < 3 {
            return None;
        }
        let n = count as f64;
        let pairs = || x.iter().copied().zip(y.iter().copied());
        let mean_x = pairs().map(|(x, _)| x).sum::<f64>() / n;
        let mean_y = pairs().map(|(_, y)| y).sum::<f64>() / n;
        let spread: f64 = pairs().map(|(x, _)| (x - mean_x) * (x - mean_x)).sum();
        if !(spread.is_finite() && spread > 0.0) {
            return None;
        }
        let slope = pairs().map(|(x, y)| (x - mean_x) * (y - mean_y)).sum::<f64>() / spread;
        let intercept = mean_y - slope * mean_x;
        let misses: f64 = pairs().map(|(x, y)| y - mean_y - slope * (x - mean_x)).map(|miss| miss * miss).sum();
        let scatter = (misses / (n - 2.0)).sqrt();
        let slope_uncertainty = scatter / spread.sqrt();
        let intercept_uncertainty = scatter * (1.0 / n + mean_x * mean_x / spread).sqrt();
        Some(Line { slope, intercept, slope_uncertainty, intercept_uncertainty, scatter })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::Line;

    /// JCGM 100:2008 (GUM), H.3: calibration of a thermometer, 11 points, reference 20 °C.
    #[test]
    fn the_thermometer_of_the_guide() {
        let t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511];
        let b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160];
        let x: Vec<f64> = t.iter().map(|t| t - 20.0).collect();
        let line = Line::through(&x, &b).unwrap();
        for (found, expected, digit) in [
            (line.intercept, -0.1712, 5e-5),
            (line.intercept_uncertainty, 0.0029, 5e-5),
            (line.slope, 0.00218, 5e-6),
            (line.slope_uncertainty, 0.00067, 5e-6),
            (line.intercept + 10.0 * line.slope, -0.1494, 5e-5),
        ] {
            assert!((found - expected).abs() <= digit, "{found} {expected}");
        }
    }

    #[test]
    fn too_little_gives_no_line() {
        assert_eq!(Line::through(&[0.0, 1.0], &[0.0, 1.0]), None);
        assert_eq!(Line::through(&[1.0, 1.0, 1.0], &[0.0, 1.0, 2.0]), None);
        assert_eq!(Line::through(&[0.0, 1.0, f64::INFINITY], &[0.0, 1.0, 2.0]), None);
    }
}
