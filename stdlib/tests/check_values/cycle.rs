//! The refrigeration cycle.

use super::ask::held;

/// CoolProp 8.0.0, R-410A by its pseudo-pure equation (1 %); ASHRAE Fundamentals 2021, chapter 29, table 8, for
/// R-32, R-22, R-134a (1 %, 0.5 K).
#[test]
fn cycles() {
    held(&[
        (r#"compression_ratio(933.18 kPaa, 2733.76 kPaa)"#, 2.9295, 0.0001),
        (
            r#"vapor_cycle(R-32, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 1).discharge_temperature as degC to 0.01"#,
            83.67,
            0.1,
        ),
        (
            r#"vapor_cycle(R-32, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 0.7).discharge_temperature as degC to 0.01"#,
            98.93,
            0.1,
        ),
        (r#"vapor_cycle(R-32, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 1).cooling_performance"#, 5.502, 0.01),
        (r#"vapor_cycle(R-32, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 0.7).cooling_performance"#, 3.852, 0.01),
        (r#"line_flow(R-32, 5 degC, 45 degC, 8 C°, 5 C°, capacity = 10 kW) as g/s to 0.001"#, 39.88, 0.05),
        (r#"line_flow(R-410A, 5 degC, 45 degC, 8 C°, 5 C°, capacity = 10 kW) as g/s to 0.001"#, 60.27, 0.6),
        (
            r#"vapor_cycle(R-410A, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 0.7).discharge_temperature as degC to 0.01"#,
            80.42,
            0.5,
        ),
        (r#"vapor_cycle(R-410A, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 0.7).cooling_performance"#, 3.766, 0.04),
        (r#"carnot_performance(5 degC, 45 degC)"#, 6.954, 0.001),
        (r#"volumetric_efficiency(0.04, 3, 1.15)"#, 0.93602, 1e-05),
        (r#"volumetric_efficiency(0.05, 4, 1.13)"#, 0.87948, 1e-05),
        (
            r#"vapor_cycle(R-32, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_effect as kJ/kg to 0.01"#,
            258.6,
            2.59,
        ),
        (r#"vapor_cycle(R-32, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_performance"#, 5.924, 0.0592),
        (
            r#"vapor_cycle(R-32, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).discharge_temperature as degC to 0.01"#,
            59.7,
            0.5,
        ),
        (
            r#"vapor_cycle(R-22, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_effect as kJ/kg to 0.01"#,
            165.9,
            1.66,
        ),
        (r#"vapor_cycle(R-22, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_performance"#, 6.105, 0.0611),
        (
            r#"vapor_cycle(R-22, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).discharge_temperature as degC to 0.01"#,
            47.8,
            0.5,
        ),
        (
            r#"vapor_cycle(R-134a, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_effect as kJ/kg to 0.01"#,
            153.0,
            1.53,
        ),
        (r#"vapor_cycle(R-134a, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_performance"#, 6.063, 0.0606),
        (
            r#"vapor_cycle(R-134a, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).discharge_temperature as degC to 0.01"#,
            34.8,
            0.5,
        ),
    ]);
}

/// Discharge superheat at 5/45 °C, 5 K, efficiency 0.7 and at −10/45 °C (R-32), CoolProp 8.0.0; whole kelvins.
/// R-407C depends on which line the 45 °C are of, and is left out.
#[test]
fn expected_discharge() {
    held(&[
        (
            r#"vapor_cycle(R-410A, 5 degC, 45 degC, 5 C°, 0 C°, efficiency = 0.7).discharge_superheat as C° to 0.01"#,
            32.0,
            0.7,
        ),
        (
            r#"vapor_cycle(R-32, 5 degC, 45 degC, 5 C°, 0 C°, efficiency = 0.7).discharge_superheat as C° to 0.01"#,
            50.0,
            0.7,
        ),
        (
            r#"vapor_cycle(R-22, 5 degC, 45 degC, 5 C°, 0 C°, efficiency = 0.7).discharge_superheat as C° to 0.01"#,
            36.0,
            0.7,
        ),
        (
            r#"vapor_cycle(R-134a, 5 degC, 45 degC, 5 C°, 0 C°, efficiency = 0.7).discharge_superheat as C° to 0.01"#,
            19.0,
            0.7,
        ),
        (
            r#"vapor_cycle(R-32, -10 degC, 45 degC, 5 C°, 0 C°, efficiency = 0.7).discharge_superheat as C° to 0.01"#,
            74.0,
            0.8,
        ),
        (r#"expected_discharge(R-32, 8 degC, 44 degC, 5 C°).least_superheat as C° to 0.01"#, 39.0, 1.0),
        (r#"expected_discharge(R-32, 8 degC, 44 degC, 5 C°).most_superheat as C° to 0.01"#, 53.0, 1.5),
    ]);
}

/// Textbook cycles of R-134a. Çengel & Boles, Thermodynamics, example 11-1: 0.14 to 0.8 MPa, 0.05 kg/s; CoolProp 8.0.0 to 0.1 %.
/// Moran & Shapiro, Fundamentals of Engineering Thermodynamics, examples 10.1 and 10.2, by older tables: 2 %.
#[test]
fn textbook_cycles() {
    held(&[
        (
            r#"vapor_cycle(R-134a, dew_temperature(R-134a, 140 kPaa), bubble_temperature(R-134a, 800 kPaa), 0 C°, 0 C°, efficiency = 1).cooling_effect * 0.05 kg/s as kW to 0.001"#,
            7.18,
            0.01,
        ),
        (
            r#"vapor_cycle(R-134a, dew_temperature(R-134a, 140 kPaa), bubble_temperature(R-134a, 800 kPaa), 0 C°, 0 C°, efficiency = 1).work * 0.05 kg/s as kW to 0.001"#,
            1.81,
            0.005,
        ),
        (
            r#"(vapor_cycle(R-134a, dew_temperature(R-134a, 140 kPaa), bubble_temperature(R-134a, 800 kPaa), 0 C°, 0 C°, efficiency = 1).cooling_effect + vapor_cycle(R-134a, dew_temperature(R-134a, 140 kPaa), bubble_temperature(R-134a, 800 kPaa), 0 C°, 0 C°, efficiency = 1).work) * 0.05 kg/s as kW to 0.001"#,
            9.0,
            0.02,
        ),
        (
            r#"vapor_cycle(R-134a, dew_temperature(R-134a, 140 kPaa), bubble_temperature(R-134a, 800 kPaa), 0 C°, 0 C°, efficiency = 1).cooling_performance"#,
            3.968,
            0.004,
        ),
        (
            r#"vapor_cycle(R-134a, dew_temperature(R-134a, 140 kPaa), bubble_temperature(R-134a, 800 kPaa), 0 C°, 0 C°, efficiency = 1).discharge_temperature as degC to 0.001"#,
            38.98,
            0.03,
        ),
        (
            r#"vapor_cycle(R-134a, dew_temperature(R-134a, 292.8 kPaa), 26 degC, 0 C°, 0 C°, efficiency = 1).work * 0.08 kg/s as kW to 0.001"#,
            1.4,
            0.03,
        ),
        (
            r#"vapor_cycle(R-134a, dew_temperature(R-134a, 292.8 kPaa), 26 degC, 0 C°, 0 C°, efficiency = 1).cooling_performance"#,
            9.236,
            0.01,
        ),
        (r#"carnot_performance(0 degC, 26 degC)"#, 10.5, 0.01),
        (
            r#"vapor_cycle(R-134a, -10 degC, bubble_temperature(R-134a, 900 kPaa), 0 C°, 0 C°, efficiency = 1).work * 0.08 kg/s as kW to 0.001"#,
            2.48,
            0.05,
        ),
        (
            r#"vapor_cycle(R-134a, -10 degC, bubble_temperature(R-134a, 900 kPaa), 0 C°, 0 C°, efficiency = 1).cooling_performance"#,
            4.57,
            0.09,
        ),
    ]);
}

/// ASHRAE Fundamentals 2021, chapter 29, table 8: pressures to two decimals of a MPa, ratio, flow for each kW; R-410A there by the
/// mean of its lines (1.5 %).
#[test]
fn the_handbook_table() {
    held(&[
        (r#"dew_pressure(R-32, -6.7 degC) as MPaa to 0.0001"#, 0.653, 0.002),
        (r#"bubble_pressure(R-32, 30 degC) as MPaa to 0.0001"#, 1.928, 0.002),
        (r#"dew_pressure(R-22, -6.7 degC) as MPaa to 0.0001"#, 0.399, 0.002),
        (r#"bubble_pressure(R-22, 30 degC) as MPaa to 0.0001"#, 1.192, 0.002),
        (r#"dew_pressure(R-134a, -6.7 degC) as MPaa to 0.0001"#, 0.228, 0.002),
        (r#"bubble_pressure(R-134a, 30 degC) as MPaa to 0.0001"#, 0.77, 0.002),
        (r#"vapor_cycle(R-32, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).ratio"#, 2.95, 0.01),
        (r#"vapor_cycle(R-22, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).ratio"#, 2.99, 0.01),
        (r#"vapor_cycle(R-134a, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).ratio"#, 3.37, 0.015),
        (r#"line_flow(R-32, -6.7 degC, 30 degC, 0 C°, 0 C°, capacity = 1 kW) as g/s to 0.001"#, 3.87, 0.01),
        (r#"line_flow(R-22, -6.7 degC, 30 degC, 0 C°, 0 C°, capacity = 1 kW) as g/s to 0.001"#, 6.03, 0.01),
        (r#"line_flow(R-134a, -6.7 degC, 30 degC, 0 C°, 0 C°, capacity = 1 kW) as g/s to 0.001"#, 6.54, 0.01),
        (r#"1 / saturated_vapor(R-32, -6.7 degC).density as m3/kg to 0.00001"#, 0.0563, 0.0003),
        (
            r#"vapor_cycle(R-410A, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_effect as kJ/kg to 0.01"#,
            170.9,
            1.7,
        ),
        (r#"vapor_cycle(R-410A, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).cooling_performance"#, 5.78, 0.09),
        (
            r#"vapor_cycle(R-410A, -6.7 degC, 30 degC, 0 C°, 0 C°, efficiency = 1).discharge_temperature as degC to 0.01"#,
            46.6,
            0.5,
        ),
        (r#"line_flow(R-410A, -6.7 degC, 30 degC, 0 C°, 0 C°, capacity = 1 kW) as g/s to 0.001"#, 5.85, 0.06),
        (
            r#"vapor_cycle(R-410A, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 1).discharge_temperature as degC to 0.01"#,
            69.99,
            0.5,
        ),
        (r#"vapor_cycle(R-410A, 5 degC, 45 degC, 8 C°, 5 C°, efficiency = 1).cooling_performance"#, 5.38, 0.05),
    ]);
}

/// R-32 at 8 and 44 °C: healthy 39 to 54 K of discharge superheat, liquid below 30 K at the better compressor: CoolProp 8.0.0.
#[test]
fn liquid_in_the_suction() {
    held(&[(r#"expected_discharge(R-32, 8 degC, 44 degC, 0 C°).least_superheat - 3 C° as C° to 0.01"#, 30.0, 1.5)]);
}

/// Winter heating, in which vapor gets hotter than its equation's range (R-32: 161.9 °C, R-1234yf: 136.9 °C). R-32 against the
/// same equation carried on in CoolProp 8.0.0; of the blends only that they are told, and between R-32 and R-1234yf.
#[test]
fn winter_heating() {
    held(&[
        (r#"expected_discharge(R-32, -20 degC, 50 degC, 5 C°).highest as degC to 0.01"#, 166.03, 0.02),
        (r#"expected_discharge(R-32, -20 degC, 50 degC, 5 C°).lowest as degC to 0.01"#, 134.25, 0.02),
        (r#"expected_discharge(R-32, -30 degC, 55 degC, 5 C°).highest as degC to 0.01"#, 202.18, 0.02),
        (r#"expected_discharge(R-454B, -20 degC, 50 degC, 5 C°).highest as degC to 0.01"#, 137.0, 3.0),
        (r#"expected_discharge(R-452B, -20 degC, 50 degC, 5 C°).highest as degC to 0.01"#, 137.0, 3.0),
    ]);
}

/// R-744 above critical pressure, at 80 bar and 33.5 °C: the enthalpy there leads back; the cycle by CoolProp 8.0.0.
#[test]
fn above_critical() {
    held(&[
        (
            r#"state_ph(R-744, 80 bara, refrigerant_state(R-744, 80 bara, 33.5 degC).enthalpy).temperature as degC to 0.001"#,
            33.5,
            0.001,
        ),
        (r#"gas_cooler_cycle(R-744, -10 degC, 90 bara, 35 degC, 5 C°).cooling_performance"#, 1.8365, 1e-3),
    ]);
}
