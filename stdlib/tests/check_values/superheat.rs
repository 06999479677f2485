//! Superheat, subcooling, glide.

use super::ask::held;

/// Saturation by the published equations through CoolProp 8.0.0, barometer 14.696 psia; tolerance 0.1 °F.
#[test]
fn superheat_and_subcooling() {
    held(&[
        (r#"superheat(R-410A, 118 psig, 52 degF) as F° to 0.001"#, 12.16, 0.1),
        (r#"subcooling(R-410A, 350 psig, 95 degF) as F° to 0.001"#, 11.68, 0.1),
        (r#"superheat(R-32, 120 psig, 50 degF) as F° to 0.001"#, 10.41, 0.1),
        (r#"superheat(R-407C, 65 psig, 50 degF) as F° to 0.001"#, 8.75, 0.1),
        (r#"subcooling(R-407C, 240 psig, 90 degF) as F° to 0.001"#, 14.3, 0.1),
        (r#"superheat(R-22, 68.5 psig, 50 degF) as F° to 0.001"#, 10.04, 0.1),
        (r#"superheat(R-410A, 936 kPaa, 11 degC) as C° to 0.001"#, 5.9, 0.05),
    ]);
}

/// Mixture models through CoolProp 8.0.0.
#[test]
fn glide_of_blends() {
    held(&[
        (r#"glide(R-454B, 101.325 kPaa) as C° to 0.001"#, 1.21, 0.03),
        (r#"glide(R-454B, 800 kPaa) as C° to 0.001"#, 1.471, 0.03),
        (r#"glide(R-454B, 1000 kPaa) as C° to 0.001"#, 1.495, 0.03),
        (r#"glide(R-454B, 2500 kPaa) as C° to 0.001"#, 1.442, 0.03),
        (r#"glide(R-407C, 101.325 kPaa) as C° to 0.001"#, 6.998, 0.03),
        (r#"glide(R-407C, 800 kPaa) as C° to 0.001"#, 5.847, 0.03),
        (r#"glide(R-407C, 1000 kPaa) as C° to 0.001"#, 5.631, 0.03),
        (r#"glide(R-407C, 2500 kPaa) as C° to 0.001"#, 4.175, 0.03),
        (r#"glide(R-410A, 101.325 kPaa) as C° to 0.001"#, 0.079, 0.03),
        (r#"glide(R-410A, 800 kPaa) as C° to 0.001"#, 0.104, 0.03),
        (r#"glide(R-410A, 1000 kPaa) as C° to 0.001"#, 0.109, 0.03),
    ]);
}

/// ASHRAE Handbook—Fundamentals 2021, chapter 29, table 2: dew less bubble at the normal boiling point, each
/// printed to 0.1 K. The handbook took another mixture model: up to 0.5 K apart.
#[test]
fn glide_of_the_handbook() {
    held(&[
        (r#"glide(R-407C, 101.325 kPaa) as C° to 0.001"#, 7.1, 0.15),
        (r#"glide(R-454B, 101.325 kPaa) as C° to 0.001"#, 0.9, 0.35),
        (r#"glide(R-454A, 101.325 kPaa) as C° to 0.001"#, 6.8, 0.5),
        (r#"glide(R-448A, 101.325 kPaa) as C° to 0.001"#, 6.1, 0.5),
        (r#"glide(R-410A, 101.325 kPaa) as C° to 0.001"#, 0.1, 0.1),
    ]);
}

/// Worked with CoolProp 8.0.0: a sea-level barometer at 1500 m makes the saturation temperature of R-410A at 5 °C
/// read 0.59 K high.
#[test]
fn site_atmosphere_matters() {
    held(&[
        (r#"dew_temperature(R-410A, 933.18 kPaa) as degC to 0.001"#, 5.0, 0.02),
        (r#"dew_temperature(R-410A, 949.95 kPaa) as degC to 0.001"#, 5.59, 0.02),
    ]);
}

/// Saturation behind the superheats above, by the published equations through CoolProp 8.0.0, barometer 14.696 psia; of
/// R-407C both lines, since the wrong one is off by 11 °F.
#[test]
fn lines_behind_them() {
    held(&[
        (r#"dew_temperature(R-410A, 118 psig) as degF to 0.001"#, 39.843, 0.1),
        (r#"bubble_temperature(R-410A, 350 psig) as degF to 0.001"#, 106.681, 0.1),
        (r#"dew_temperature(R-32, 120 psig) as degF to 0.001"#, 39.591, 0.1),
        (r#"dew_temperature(R-407C, 65 psig) as degF to 0.001"#, 41.252, 0.1),
        (r#"bubble_temperature(R-407C, 65 psig) as degF to 0.001"#, 30.184, 0.1),
        (r#"bubble_temperature(R-407C, 240 psig) as degF to 0.001"#, 104.303, 0.1),
        (r#"dew_temperature(R-407C, 240 psig) as degF to 0.001"#, 113.104, 0.1),
        (r#"dew_temperature(R-22, 68.5 psig) as degF to 0.001"#, 39.959, 0.1),
        (r#"dew_temperature(R-410A, 936 kPaa) as degC to 0.001"#, 5.099, 0.05),
        (r#"discharge_superheat(R-410A, 2726.13 kPaa, 80 degC) as C° to 0.001"#, 35.0, 0.05),
    ]);
}

/// CoolProp 8.0.0: what one step of a coarse display of pressure is worth at 5 °C, and what a transducer's offset of 10 kPa is
/// worth at rest at 25 °C.
#[test]
fn steps_of_pressure_in_kelvin() {
    held(&[
        (r#"dew_temperature(R-410A, 946.21 kPaa) - dew_temperature(R-410A, 936.21 kPaa) as C° to 0.001"#, 0.34, 0.012),
        (r#"dew_temperature(R-410A, 1036.21 kPaa) - dew_temperature(R-410A, 936.21 kPaa) as C° to 0.01"#, 3.4, 0.15),
        (
            r#"bubble_temperature(R-410A, 1667 kPaa) - bubble_temperature(R-410A, 1657 kPaa) as C° to 0.001"#,
            0.23,
            0.006,
        ),
    ]);
}

/// Saturation by the published equations through CoolProp 8.0.0. R-407C at 1748.86 kPa begins to boil at 40 °C; its dew line,
/// between 1541.19 kPa at 40 °C and 1753.50 at 45 °C, is at 44.9 °C there, and half way is 42.45 °C.
#[test]
fn coils_against_their_air() {
    held(&[
        (r#"condenser_approach(R-134a, 1016.59 kPaa, 28 degC) as C° to 0.001"#, 12.0, 0.02),
        (r#"condenser_approach(R-410A, 2425.64 kPaa, 30 degC) as C° to 0.001"#, 10.06, 0.02),
        (r#"condenser_approach(R-407C, 1748.86 kPaa, 30 degC) as C° to 0.001"#, 12.45, 0.03),
        (r#"evaporator_difference(R-32, 951.45 kPaa, 27 degC) as C° to 0.001"#, 22.0, 0.02),
        (r#"evaporator_difference(R-134a, 349.66 kPaa, 25 degC) as C° to 0.001"#, 20.0, 0.02),
    ]);
}
