//! Student's t: how far a value may lie off for a given probability, when its standard uncertainty is itself only an
//! estimate. On `libm` alone, so that the bits are the same everywhere.

/// The probability of two standard deviations either way of a normal distribution: coverage factors are 2 where the
/// standard uncertainty is well known.
pub const PROBABILITY: f64 = 0.954_499_736_103_641_6;

/// More degrees of freedom than this make a normal distribution.
const MANY: f64 = 1e7;

/// The factor k for a probability about the middle; no degrees of freedom given: the standard uncertainty is exact.
pub fn factor(probability: f64, freedom: Option<f64>) -> f64 {
    if probability == PROBABILITY && freedom.is_none_or(|freedom| freedom > MANY) {
        return 2.0;
    }
    quantile(0.5 + probability / 2.0, freedom)
}

/// The chance of a deviation at most `t` standard uncertainties up.
pub fn below(t: f64, freedom: Option<f64>) -> f64 {
    match freedom {
        Some(freedom) if freedom <= MANY && freedom > 0.0 => {
            // A&S 26.5.27: the tails of Student's t by the incomplete beta function.
            let tails = incomplete_beta(freedom / 2.0, 0.5, freedom / (freedom + t * t));
            if t < 0.0 { tails / 2.0 } else { 1.0 - tails / 2.0 }
        }
        _ => 0.5 * libm::erfc(-t / std::f64::consts::SQRT_2),
    }
}

/// How many standard uncertainties are not passed upwards with a probability.
pub fn one_sided(probability: f64, freedom: Option<f64>) -> f64 {
    quantile(probability, freedom)
}

/// The deviation that is not passed with this probability, by halving: slow and sure.
fn quantile(probability: f64, freedom: Option<f64>) -> f64 {
    if probability <= 0.5 {
        return if probability == 0.5 { 0.0 } else { -quantile(1.0 - probability, freedom) };
    }
    let (mut low, mut high) = (0.0, 2.0);
    while below(high, freedom) < probability && high < 1e9 {
        low = high;
        high *= 2.0;
    }
    for _ in 0..100 {
        let middle = low + (high - low) / 2.0;
        if middle <= low || middle >= high {
            break;
        }
        if below(middle, freedom) < probability {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

/// Effective degrees of freedom of a sum of independent contributions (Welch–Satterthwaite: JCGM 100, G.4.1), from each
/// contribution with its own; `None` if the standard uncertainty is as good as exact.
pub fn effective(standard: f64, contributions: impl Iterator<Item = (f64, f64)>) -> Option<f64> {
    if standard == 0.0 {
        return None;
    }
    let sum: f64 = contributions.map(|(part, freedom)| libm::pow(part / standard, 4.0) / freedom).sum();
    let freedom = 1.0 / sum;
    (freedom > 0.0 && freedom <= MANY).then_some(freedom)
}

/// The incomplete beta function by its continued fraction (A&S 26.5.8), Lentz's way of working it out.
fn incomplete_beta(a: f64, b: f64, x: f64) -> f64 {
    if x <= 0.0 || x >= 1.0 {
        return x.clamp(0.0, 1.0);
    }
    let log = libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b) + a * libm::log(x) + b * libm::log1p(-x);
    let front = libm::exp(log);
    if x < (a + 1.0) / (a + b + 2.0) {
        front * fraction(a, b, x) / a
    } else {
        1.0 - front * fraction(b, a, 1.0 - x) / b
    }
}

fn fraction(a: f64, b: f64, x: f64) -> f64 {
    const LEAST: f64 = 1e-300;
    let kept = |value: f64| if value.abs() < LEAST { LEAST } else { value };
    let mut c = 1.0;
    let mut d = 1.0 / kept(1.0 - (a + b) * x / (a + 1.0));
    let mut all = d;
    for step in 1..10_000 {
        let m = f64::from(step);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        d = 1.0 / kept(1.0 + even * d);
        c = kept(1.0 + even / c);
        all *= d * c;
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        d = 1.0 / kept(1.0 + odd * d);
        c = kept(1.0 + odd / c);
        let change = d * c;
        all *= change;
        if (change - 1.0).abs() < 1e-15 {
            break;
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::{PROBABILITY, below, effective, factor};

    #[test]
    fn factors_are_those_of_the_printed_table() {
        // JCGM 100:2008, table G.2, as printed to two decimals.
        for (freedom, p95, p9545, p99) in [
            (1.0, 12.71, 13.97, 63.66),
            (2.0, 4.30, 4.53, 9.92),
            (3.0, 3.18, 3.31, 5.84),
            (5.0, 2.57, 2.65, 4.03),
            (9.0, 2.26, 2.32, 3.25),
            (10.0, 2.23, 2.28, 3.17),
            (16.0, 2.12, 2.17, 2.92),
            (50.0, 2.01, 2.05, 2.68),
            (100.0, 1.984, 2.025, 2.626),
        ] {
            for (probability, printed) in [(0.95, p95), (0.9545, p9545), (0.99, p99)] {
                let k = factor(probability, Some(freedom));
                let step = if freedom == 100.0 { 0.0005 } else { 0.005 };
                assert!((k - printed).abs() <= step * 1.01, "{freedom} {probability}: {k} for {printed}");
            }
        }
        assert_eq!(factor(PROBABILITY, None), 2.0);
        assert!((factor(0.95, None) - 1.959_963_984_540_054).abs() < 1e-12);
    }

    #[test]
    fn the_chance_of_one_degree_of_freedom_is_in_closed_form() {
        for t in [-30.0, -1.0, -0.1, 0.0, 0.5, 2.0, 1000.0] {
            let exact = 0.5 + libm::atan(t) / std::f64::consts::PI;
            assert!((below(t, Some(1.0)) - exact).abs() < 1e-13);
        }
    }

    #[test]
    fn degrees_of_freedom_go_together() {
        // Two equal contributions with 4 degrees of freedom each have 8 together.
        let freedom = effective(2.0_f64.sqrt(), [(1.0, 4.0), (1.0, 4.0)].into_iter());
        assert!(freedom.is_some_and(|freedom| (freedom - 8.0).abs() < 1e-12));
    }
}
