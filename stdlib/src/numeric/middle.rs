//! The middle of some numbers.

/// The median; nothing of none.
pub fn middle(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let half = values.len() / 2;
    let upper = *values.get(half)?;
    if values.len() % 2 == 1 { Some(upper) } else { Some(f64::midpoint(*values.get(half - 1)?, upper)) }
}
