//! Global warming potentials.

use super::ask::held;

/// IPCC AR4, AR5, AR6 by public tables, blends by mass.
#[test]
fn warming_potentials() {
    held(&[
        (r#"co2_equivalent(R-410A, 1 kg, basis = "AR4").potential"#, 2087.5, 0.06),
        (r#"co2_equivalent(R-410A, 1 kg, basis = "AR5").potential"#, 1923.5, 0.06),
        (r#"co2_equivalent(R-410A, 1 kg, basis = "AR6").potential"#, 2255.5, 0.06),
        (r#"co2_equivalent(R-407C, 1 kg, basis = "AR4").potential"#, 1773.8, 0.06),
        (r#"co2_equivalent(R-407C, 1 kg, basis = "AR5").potential"#, 1624.2, 0.06),
        (r#"co2_equivalent(R-407C, 1 kg, basis = "AR6").potential"#, 1907.9, 0.06),
        (r#"co2_equivalent(R-404A, 1 kg, basis = "AR4").potential"#, 3921.6, 0.06),
        (r#"co2_equivalent(R-404A, 1 kg, basis = "AR5").potential"#, 3942.8, 0.06),
        (r#"co2_equivalent(R-404A, 1 kg, basis = "AR6").potential"#, 4728.0, 0.06),
        (r#"co2_equivalent(R-507A, 1 kg, basis = "AR4").potential"#, 3985.0, 0.06),
        (r#"co2_equivalent(R-507A, 1 kg, basis = "AR5").potential"#, 3985.0, 0.06),
        (r#"co2_equivalent(R-507A, 1 kg, basis = "AR6").potential"#, 4775.0, 0.06),
        (r#"co2_equivalent(R-448A, 1 kg, basis = "AR4").potential"#, 1387.1, 0.06),
        (r#"co2_equivalent(R-448A, 1 kg, basis = "AR5").potential"#, 1273.5, 0.06),
        (r#"co2_equivalent(R-448A, 1 kg, basis = "AR6").potential"#, 1494.4, 0.06),
        (r#"co2_equivalent(R-449A, 1 kg, basis = "AR4").potential"#, 1397.0, 0.06),
        (r#"co2_equivalent(R-449A, 1 kg, basis = "AR5").potential"#, 1281.9, 0.06),
        (r#"co2_equivalent(R-449A, 1 kg, basis = "AR6").potential"#, 1504.5, 0.06),
        (r#"co2_equivalent(R-452A, 1 kg, basis = "AR4").potential"#, 2140.4, 0.06),
        (r#"co2_equivalent(R-452A, 1 kg, basis = "AR5").potential"#, 1945.1, 0.06),
        (r#"co2_equivalent(R-452A, 1 kg, basis = "AR6").potential"#, 2291.6, 0.06),
        (r#"co2_equivalent(R-452B, 1 kg, basis = "AR4").potential"#, 698.3, 0.06),
        (r#"co2_equivalent(R-452B, 1 kg, basis = "AR5").potential"#, 675.8, 0.06),
        (r#"co2_equivalent(R-452B, 1 kg, basis = "AR6").potential"#, 778.5, 0.06),
        (r#"co2_equivalent(R-454A, 1 kg, basis = "AR4").potential"#, 238.8, 0.06),
        (r#"co2_equivalent(R-454A, 1 kg, basis = "AR5").potential"#, 237.6, 0.06),
        (r#"co2_equivalent(R-454A, 1 kg, basis = "AR6").potential"#, 270.2, 0.06),
        (r#"co2_equivalent(R-454B, 1 kg, basis = "AR4").potential"#, 466.3, 0.06),
        (r#"co2_equivalent(R-454B, 1 kg, basis = "AR5").potential"#, 466.8, 0.06),
        (r#"co2_equivalent(R-454B, 1 kg, basis = "AR6").potential"#, 531.4, 0.06),
        (r#"co2_equivalent(R-454C, 1 kg, basis = "AR4").potential"#, 148.3, 0.06),
        (r#"co2_equivalent(R-454C, 1 kg, basis = "AR5").potential"#, 146.3, 0.06),
        (r#"co2_equivalent(R-454C, 1 kg, basis = "AR6").potential"#, 166.2, 0.06),
        (r#"co2_equivalent(R-513A, 1 kg, basis = "AR4").potential"#, 631.4, 0.06),
        (r#"co2_equivalent(R-513A, 1 kg, basis = "AR5").potential"#, 572.6, 0.06),
        (r#"co2_equivalent(R-513A, 1 kg, basis = "AR6").potential"#, 673.5, 0.06),
        (r#"co2_equivalent(R-32, 1 kg, basis = "AR4").potential"#, 675.0, 0.06),
        (r#"co2_equivalent(R-32, 1 kg, basis = "AR5").potential"#, 677.0, 0.06),
        (r#"co2_equivalent(R-32, 1 kg, basis = "AR6").potential"#, 771.0, 0.06),
        (r#"co2_equivalent(R-134a, 1 kg, basis = "AR4").potential"#, 1430.0, 0.06),
        (r#"co2_equivalent(R-134a, 1 kg, basis = "AR5").potential"#, 1300.0, 0.06),
        (r#"co2_equivalent(R-134a, 1 kg, basis = "AR6").potential"#, 1530.0, 0.06),
        (r#"co2_equivalent(R-22, 1 kg, basis = "AR4").potential"#, 1810.0, 0.06),
        (r#"co2_equivalent(R-22, 1 kg, basis = "AR5").potential"#, 1760.0, 0.06),
        (r#"co2_equivalent(R-22, 1 kg, basis = "AR6").potential"#, 1960.0, 0.06),
        (r#"co2_equivalent(R-32, 8 kg, basis = "AR4").equivalent as tonne to 0.001"#, 5.4, 0.001),
        (r#"co2_equivalent(R-410A, 12.5 kg, basis = "AR4").equivalent as tonne to 0.001"#, 26.1, 0.01),
        (r#"co2_equivalent(R-454B, 10 kg, basis = "AR4").equivalent as tonne to 0.001"#, 4.66, 0.005),
    ]);
}

/// 5 t of equivalent by AR4, worked by hand; and what the handbook rounds (ASHRAE Fundamentals 2021, chapter 29, table 4).
#[test]
fn five_tonnes() {
    held(&[
        (r#"5 tonne / co2_equivalent(R-410A, 1 kg, basis = "AR4").potential as kg to 0.001"#, 2.395, 0.001),
        (r#"5 tonne / co2_equivalent(R-32, 1 kg, basis = "AR4").potential as kg to 0.001"#, 7.407, 0.001),
        (r#"5 tonne / co2_equivalent(R-134a, 1 kg, basis = "AR4").potential as kg to 0.001"#, 3.497, 0.001),
        (r#"5 tonne / co2_equivalent(R-454B, 1 kg, basis = "AR4").potential as kg to 0.001"#, 10.73, 0.01),
    ]);
}

/// ASHRAE Fundamentals 2021, chapter 29, table 4, rounded to three digits.
#[test]
fn the_handbook_rounds() {
    held(&[
        (r#"co2_equivalent(R-404A, 1 kg, basis = "AR4").potential"#, 3920.0, 5.01),
        (r#"co2_equivalent(R-404A, 1 kg, basis = "AR5").potential"#, 3940.0, 5.01),
        (r#"co2_equivalent(R-407C, 1 kg, basis = "AR4").potential"#, 1770.0, 5.01),
        (r#"co2_equivalent(R-407C, 1 kg, basis = "AR5").potential"#, 1620.0, 5.01),
        (r#"co2_equivalent(R-410A, 1 kg, basis = "AR4").potential"#, 2090.0, 5.01),
        (r#"co2_equivalent(R-410A, 1 kg, basis = "AR5").potential"#, 1920.0, 5.01),
        (r#"co2_equivalent(R-449A, 1 kg, basis = "AR4").potential"#, 1400.0, 5.01),
        (r#"co2_equivalent(R-449A, 1 kg, basis = "AR5").potential"#, 1280.0, 5.01),
        (r#"co2_equivalent(R-452A, 1 kg, basis = "AR4").potential"#, 2140.0, 5.01),
        (r#"co2_equivalent(R-452A, 1 kg, basis = "AR5").potential"#, 1950.0, 5.01),
        (r#"co2_equivalent(R-507A, 1 kg, basis = "AR4").potential"#, 3990.0, 5.01),
        (r#"co2_equivalent(R-507A, 1 kg, basis = "AR5").potential"#, 3990.0, 5.01),
        (r#"co2_equivalent(R-454A, 1 kg, basis = "AR4").potential"#, 239.0, 0.51),
        (r#"co2_equivalent(R-454A, 1 kg, basis = "AR5").potential"#, 238.0, 0.51),
        (r#"co2_equivalent(R-454B, 1 kg, basis = "AR4").potential"#, 466.0, 0.51),
        (r#"co2_equivalent(R-454B, 1 kg, basis = "AR5").potential"#, 467.0, 0.51),
        (r#"co2_equivalent(R-513A, 1 kg, basis = "AR4").potential"#, 631.0, 0.51),
        (r#"co2_equivalent(R-513A, 1 kg, basis = "AR5").potential"#, 573.0, 0.51),
    ]);
}

/// IPCC AR4, AR5, AR6 by public tables: the other pure fluids.
#[test]
fn other_pure_fluids() {
    held(&[
        (r#"co2_equivalent(R-23, 1 kg, basis = "AR4").potential"#, 14800.0, 0.06),
        (r#"co2_equivalent(R-23, 1 kg, basis = "AR5").potential"#, 12400.0, 0.06),
        (r#"co2_equivalent(R-23, 1 kg, basis = "AR6").potential"#, 14600.0, 0.06),
        (r#"co2_equivalent(R-125, 1 kg, basis = "AR4").potential"#, 3500.0, 0.06),
        (r#"co2_equivalent(R-125, 1 kg, basis = "AR5").potential"#, 3170.0, 0.06),
        (r#"co2_equivalent(R-125, 1 kg, basis = "AR6").potential"#, 3740.0, 0.06),
        (r#"co2_equivalent(R-143a, 1 kg, basis = "AR4").potential"#, 4470.0, 0.06),
        (r#"co2_equivalent(R-143a, 1 kg, basis = "AR5").potential"#, 4800.0, 0.06),
        (r#"co2_equivalent(R-143a, 1 kg, basis = "AR6").potential"#, 5810.0, 0.06),
        (r#"co2_equivalent(R-152a, 1 kg, basis = "AR4").potential"#, 124.0, 0.06),
        (r#"co2_equivalent(R-152a, 1 kg, basis = "AR5").potential"#, 138.0, 0.06),
        (r#"co2_equivalent(R-152a, 1 kg, basis = "AR6").potential"#, 164.0, 0.06),
        (r#"co2_equivalent(R-227ea, 1 kg, basis = "AR4").potential"#, 3220.0, 0.06),
        (r#"co2_equivalent(R-227ea, 1 kg, basis = "AR5").potential"#, 3350.0, 0.06),
        (r#"co2_equivalent(R-227ea, 1 kg, basis = "AR6").potential"#, 3600.0, 0.06),
        (r#"co2_equivalent(R-1234yf, 1 kg, basis = "AR6").potential"#, 0.501, 0.0006),
        (r#"co2_equivalent(R-1234ze(E), 1 kg, basis = "AR6").potential"#, 1.37, 0.006),
    ]);
}
