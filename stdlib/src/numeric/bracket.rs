//! A root between two ends.

/// Steps after which bisection has used up every bit of a double.
const STEPS: usize = 200;

/// Where a continuous function that rises (or falls) passes nought between two ends; nothing if it does not, or if the
/// function has no value on the way. Bisection: slow and sure.
pub fn root(mut low: f64, mut high: f64, mut function: impl FnMut(f64) -> Option<f64>) -> Option<f64> {
    let at_low = function(low)?;
    let at_high = function(high)?;
    if at_low == 0.0 {
        return Some(low);
    }
    if at_high == 0.0 {
        return Some(high);
    }
    if (at_low < 0.0) == (at_high < 0.0) {
        return None;
    }
    for _ in 0..STEPS {
        let middle = low + (high - low) / 2.0;
        if middle <= low || middle >= high {
            break;
        }
        let at_middle = function(middle)?;
        if at_middle == 0.0 {
            return Some(middle);
        }
        if (at_middle < 0.0) == (at_low < 0.0) {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(low + (high - low) / 2.0)
}

#[cfg(test)]
mod tests {
    use super::root;

    #[test]
    fn finds_a_root_or_says_there_is_none() {
        let found = root(0.0, 2.0, |x| Some(x * x - 2.0)).unwrap_or(0.0);
        assert!((found - std::f64::consts::SQRT_2).abs() < 1e-15);
        assert_eq!(root(0.0, 1.0, |x| Some(x * x - 2.0)), None);
        assert_eq!(root(0.0, 2.0, |_| None), None);
        assert_eq!(root(0.0, 2.0, |x| Some(x - 2.0)), Some(2.0));
    }
}
