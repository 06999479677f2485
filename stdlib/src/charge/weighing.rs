//! Charge by the weights of cylinders.

/// One drawing from a cylinder, kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drawing<'a> {
    /// Serial number or name of the cylinder.
    pub cylinder: &'a str,
    /// On the scale before.
    pub start: f64,
    /// On the scale after.
    pub end: f64,
}

/// What was weighed in, kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighed {
    /// Refrigerant in the system.
    pub charge: f64,
    /// Its expanded uncertainty.
    pub uncertainty: f64,
    /// Different cylinders.
    pub cylinders: usize,
}

/// What is wrong with the rows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wrong {
    /// A row whose cylinder got heavier.
    Heavier(String),
    /// A cylinder that starts heavier than it ended before.
    Refilled(String),
    /// More left in the hoses than was drawn.
    Hoses,
}

/// Adds up what was drawn, less what stays in the hoses; `scale` is the expanded uncertainty of one weighing.
///
/// The weighings are taken as independent (JCGM 100:2008, 5.1.2).
pub fn weigh_in(drawings: &[Drawing<'_>], hoses: f64, scale: f64) -> Result<Weighed, Wrong> {
    let mut names: Vec<&str> = Vec::new();
    let mut last: Vec<f64> = Vec::new();
    let mut drawn = 0.0;
    for drawing in drawings {
        if drawing.end > drawing.start {
            return Err(Wrong::Heavier(drawing.cylinder.to_string()));
        }
        match names.iter().position(|name| *name == drawing.cylinder) {
            Some(at) => {
                if let Some(last) = last.get_mut(at) {
                    if drawing.start > *last + 2.0 * scale {
                        return Err(Wrong::Refilled(drawing.cylinder.to_string()));
                    }
                    *last = drawing.end;
                }
            }
            None => {
                names.push(drawing.cylinder);
                last.push(drawing.end);
            }
        }
        drawn += drawing.start - drawing.end;
    }
    if hoses > drawn {
        return Err(Wrong::Hoses);
    }
    let uncertainty = scale * (2.0 * drawings.len() as f64).sqrt();
    Ok(Weighed { charge: drawn - hoses, uncertainty, cylinders: names.len() })
}

/// What was recovered against what should be there: missing charge with its expanded uncertainty, kg.
///
/// `nameplate` and `added` are known within a share of themselves.
pub fn missing(recovered: f64, nameplate: f64, added: f64, scale: f64, records: f64) -> (f64, f64) {
    let (first, second) = (records * nameplate, records * added);
    (nameplate + added - recovered, (scale * scale + first * first + second * second).sqrt())
}

#[cfg(test)]
mod tests {
    use super::{Drawing, Wrong, missing, weigh_in};

    fn row(cylinder: &str, start: f64, end: f64) -> Drawing<'_> {
        Drawing { cylinder, start, end }
    }

    /// Added up by hand: 8.0 + 2.5 + 1.5 − 0.1 kg; three rows are six weighings.
    #[test]
    fn cylinders_add_up() {
        let rows = [row("A", 20.0, 12.0), row("B", 20.0, 17.5), row("A", 12.0, 10.5)];
        let found = weigh_in(&rows, 0.1, 0.01);
        assert!(found.as_ref().is_ok_and(|w| (w.charge - 11.9).abs() < 1e-12 && w.cylinders == 2), "{found:?}");
        assert!(found.is_ok_and(|w| (w.uncertainty - 0.01 * 6.0_f64.sqrt()).abs() < 1e-15));
        assert_eq!(weigh_in(&[row("A", 5.0, 6.0)], 0.0, 0.01), Err(Wrong::Heavier("A".into())));
        let refilled = [row("A", 20.0, 12.0), row("A", 13.0, 10.0)];
        assert_eq!(weigh_in(&refilled, 0.0, 0.01), Err(Wrong::Refilled("A".into())));
        assert_eq!(weigh_in(&[row("A", 5.0, 4.9)], 0.2, 0.01), Err(Wrong::Hoses));
    }

    #[test]
    fn what_is_missing_has_an_uncertainty() {
        let (found, uncertainty) = missing(18.0, 12.0, 10.0, 0.05, 0.02);
        assert!((found - 4.0).abs() < 1e-12);
        assert!((uncertainty - (0.0025_f64 + 0.0576 + 0.04).sqrt()).abs() < 1e-12);
    }
}
