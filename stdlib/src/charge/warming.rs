//! Carbon dioxide equivalents.

/// Which report of the IPCC the figures are of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Report {
    /// Fourth, 2007.
    Ar4,
    /// Fifth, 2013.
    Ar5,
    /// Sixth, 2021.
    Ar6,
}

/// Warming potential over 100 years of pure substances: IPCC AR4, AR5, AR6 as collected in public tables. AR4-era figures
/// of R-1234yf from EN 378-1, of R-1234ze(E) from memory of the EU rules; "below 1" of AR5 is taken as 1; R-290 of AR6
/// from memory.
const FIGURES: &[(&str, [f64; 3])] = &[
    ("R-22", [1_810.0, 1_760.0, 1_960.0]),
    ("R-23", [14_800.0, 12_400.0, 14_600.0]),
    ("R-32", [675.0, 677.0, 771.0]),
    ("R-125", [3_500.0, 3_170.0, 3_740.0]),
    ("R-134a", [1_430.0, 1_300.0, 1_530.0]),
    ("R-143a", [4_470.0, 4_800.0, 5_810.0]),
    ("R-152a", [124.0, 138.0, 164.0]),
    ("R-227ea", [3_220.0, 3_350.0, 3_600.0]),
    ("R-1234yf", [4.0, 1.0, 0.501]),
    ("R-1234ze(E)", [7.0, 1.0, 1.37]),
    ("R-290", [3.0, 5.0, 0.02]),
    ("R-744", [1.0, 1.0, 1.0]),
];

/// Warming potential of a mass of a blend: the mass-weighted mean of its components; else the component that has none.
pub fn potential<'a>(composition: &[(&'a str, f64)], report: Report) -> Result<f64, &'a str> {
    composition.iter().try_fold(0.0, |sum, (component, share)| {
        let (_, figures) = FIGURES.iter().find(|(name, _)| name == component).ok_or(*component)?;
        let figure = match report {
            Report::Ar4 => figures[0],
            Report::Ar5 => figures[1],
            Report::Ar6 => figures[2],
        };
        Ok(sum + share * figure)
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{Report, potential};
    use crate::refrigerant::Refrigerant;

    /// ASHRAE Handbook—Fundamentals (2021), chapter 29, table 4, rounded to three figures; and means worked by hand.
    #[test]
    fn blends_by_mass() {
        for (name, ar4, ar5) in [
            ("R-404A", 3_921.6, 3_942.8),
            ("R-407C", 1_773.8, 1_624.2),
            ("R-410A", 2_087.5, 1_923.5),
            ("R-449A", 1_397.0, 1_281.9),
            ("R-454B", 466.3, 466.8),
            ("R-507A", 3_985.0, 3_985.0),
            ("R-513A", 631.4, 572.6),
        ] {
            let blend = Refrigerant::find(name).unwrap();
            for (report, expected) in [(Report::Ar4, ar4), (Report::Ar5, ar5)] {
                let found = potential(blend.composition(), report).unwrap();
                assert!((found - expected).abs() < 0.06, "{name}: {found} {expected}");
            }
        }
        assert_eq!(potential(Refrigerant::find("R-245fa").unwrap().composition(), Report::Ar4), Err("R-245fa"));
    }
}
