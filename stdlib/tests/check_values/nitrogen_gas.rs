//! Nitrogen in cylinders, and driving air out.

use super::ask::held;

/// Span and others (2000) through CoolProp 8.0.0.
#[test]
fn cylinders_of_nitrogen() {
    held(&[
        (r#"cylinder(50 L, 200 bara, 15 degC).mass as kg to 0.0001"#, 11.159, 0.001),
        (r#"cylinder(50 L, 200 bara, 15 degC).free_gas as m3 to 0.0001"#, 9.541, 0.002),
        (r#"cylinder(47 L, 150 bara, 20 degC).mass as kg to 0.0001"#, 7.94, 0.001),
        (r#"cylinder(47 L, 150 bara, 20 degC).free_gas as m3 to 0.0001"#, 6.788, 0.002),
        (r#"cylinder(10 L, 200 bara, 15 degC).mass as kg to 0.0001"#, 2.232, 0.001),
        (r#"cylinder(49.1 L, 2640 psig, 70 degF).mass as kg to 0.0001"#, 9.886, 0.001),
        (r#"gas_needed(25 L, 40 barg, 20 degC).mass as kg to 0.0001"#, 1.1563, 0.0005),
        (r#"gas_needed(25 L, 40 barg, 20 degC).free_gas as m3 to 0.0001"#, 0.9886, 0.0005),
        (r#"stored_energy(25 L, 41.5 barg).energy as kJ to 0.1"#, 174.0, 1.0),
        (r#"stored_energy(60 L, 41.5 barg).energy as kJ to 0.1"#, 419.0, 1.0),
        (r#"oxygen_after_release(25 m3, 9.5 m3).mixed as % to 0.01"#, 14.3, 0.06),
        (r#"oxygen_after_release(25 m3, 9.5 m3).displaced as % to 0.01"#, 13.0, 0.06),
    ]);
}

/// Mass balance, worked by hand from 20.95 % of oxygen.
#[test]
fn purging() {
    held(&[
        (r#"dilution_purge(25 L, 401.325 kPaa, 101.325 kPaa, 3).oxygen as % to 0.0001"#, 0.3372, 0.0003),
        (r#"sweep_purge(4.682 L, 2.3597 L/min, residual = 0.0191 %).longest as min to 0.001"#, 13.89, 0.02),
        (r#"sweep_purge(4.682 L, 2.3597 L/min, residual = 0.0191 %).shortest as min to 0.001"#, 1.98, 0.01),
        (r#"sweep_purge(4.682 L, 3 ft3/h, residual = 0.0191 %).longest as min to 0.001"#, 23.15, 0.05),
        (r#"sweep_purge(4.682 L, 10 ft3/h, residual = 0.0191 %).longest as min to 0.001"#, 6.945, 0.02),
        (r#"sweep_purge(4.682 L, 20 ft3/h, residual = 0.0191 %).longest as min to 0.001"#, 3.473, 0.02),
    ]);
}

/// Cylinders as US suppliers count them, at 70 °F and 1 atm: Span and others (2000) through CoolProp 8.0.0; what an ideal gas
/// would be, worked by hand.
#[test]
fn cylinders_in_standard_cubic_feet() {
    held(&[
        (
            r#"cylinder(50 L, 200 bara, 15 degC).mass / (cylinder(100 L, 1 atm, 70 degF).mass / 100 L) as ft3 to 0.01"#,
            339.6,
            0.2,
        ),
        (
            r#"cylinder(47 L, 150 bara, 20 degC).mass / (cylinder(100 L, 1 atm, 70 degF).mass / 100 L) as ft3 to 0.01"#,
            241.6,
            0.2,
        ),
        (
            r#"cylinder(10 L, 200 bara, 15 degC).mass / (cylinder(100 L, 1 atm, 70 degF).mass / 100 L) as ft3 to 0.01"#,
            67.9,
            0.1,
        ),
        (r#"cylinder(10 L, 200 bara, 15 degC).free_gas as m3 to 0.0001"#, 1.908, 0.001),
        (
            r#"cylinder(49.1 L, 2640 psig, 70 degF).mass / (cylinder(100 L, 1 atm, 70 degF).mass / 100 L) as ft3 to 0.01"#,
            300.8,
            0.2,
        ),
        (r#"cylinder(49.1 L, 2640 psig, 70 degF).free_gas as m3 to 0.0001"#, 8.452, 0.003),
        (r#"absolute(200 bara) * 50 L / (296.8039 J/(kg·K) * absolute(15 degC)) as kg to 0.0001"#, 11.693, 0.001),
        (r#"absolute(150 bara) * 47 L / (296.8039 J/(kg·K) * absolute(20 degC)) as kg to 0.0001"#, 8.103, 0.001),
        (r#"absolute(2640 psig) * 49.1 L / (296.8039 J/(kg·K) * absolute(70 degF)) as kg to 0.0001"#, 10.29, 0.002),
    ]);
}

/// What a cylinder loses to a system: Span and others (2000) through CoolProp 8.0.0. 50 L at 200 bar gauge and 15 °C end at
/// 176.46 after 25 L to 40 bar; from 200 bar absolute at 20 °C at 159.9, 163.7 or 169.4 after 40, 36 or 30 L to 41.5 bar; 10 g on the scale
/// are 0.2 L, and a cylinder 10 K colder reads 7.9 bar less.
#[test]
fn what_a_system_draws() {
    held(&[
        (
            r#"solve(p within 100 barg .. 200 barg where cylinder(50 L, p, 15 degC).mass == cylinder(50 L, 200 barg, 15 degC).mass - gas_needed(25 L, 40 barg, 20 degC).mass) as barg to 0.01"#,
            176.46,
            0.05,
        ),
        (
            r#"solve(p within 100 barg .. 200 barg where cylinder(50 L, p, 20 degC).mass == cylinder(50 L, 200 bara, 20 degC).mass - gas_needed(40 L, 41.5 barg, 20 degC).mass) as barg to 0.01"#,
            159.9,
            0.1,
        ),
        (
            r#"solve(p within 100 barg .. 200 barg where cylinder(50 L, p, 20 degC).mass == cylinder(50 L, 200 bara, 20 degC).mass - gas_needed(36 L, 41.5 barg, 20 degC).mass) as barg to 0.01"#,
            163.7,
            0.1,
        ),
        (
            r#"solve(p within 100 barg .. 200 barg where cylinder(50 L, p, 20 degC).mass == cylinder(50 L, 200 bara, 20 degC).mass - gas_needed(30 L, 41.5 barg, 20 degC).mass) as barg to 0.01"#,
            169.4,
            0.1,
        ),
        (r#"volume_by_fill(70.000 kg, 69.990 kg, 0 barg, 41.5 barg, 20 degC) as L to 0.001"#, 0.2, 0.015),
        (r#"(163.7 barg - trapped_pressure(nitrogen, 163.7 barg, 20 degC, 10 degC)) as bar to 0.01"#, 7.9, 1.5),
    ]);
}

/// The same cylinder by its own gauge: Span and others (2000) through CoolProp 8.0.0. It ends at 159.9, 163.7 or 169.4 bar
/// gauge for 40, 36 or 30 L, where a tenth of a bar is a tenth of a litre; a gauge that reads 7.9 bar less because the gas is
/// 10 K colder gives the same volume if the cold is told, and 8 L more if it is not.
#[test]
fn volume_by_the_cylinders_gauge() {
    let by_gauge = |after: &str, warmth: &str| {
        format!(
            "volume_by_fill(start_pressure = 0 barg, end_pressure = 41.5 barg, temperature = 20 degC, cylinder_volume = 50 L, \
             cylinder_before = 200 bara, cylinder_after = {after}, warmth_before = 20 degC, warmth_after = {warmth}) as L to 0.01"
        )
    };
    held(&[
        (by_gauge("159.9 barg", "20 degC").as_str(), 40.0, 0.1),
        (by_gauge("163.7 barg", "20 degC").as_str(), 36.0, 0.1),
        (by_gauge("169.4 barg", "20 degC").as_str(), 30.0, 0.1),
        (by_gauge("155.8 barg", "10 degC").as_str(), 36.0, 0.6),
        (by_gauge("155.8 barg", "20 degC").as_str(), 44.0, 0.6),
    ]);
}

/// Worked by hand: oxygen left by so many volumes, well mixed, from 20.95 %; speed of 10 ft3/h in a 7/8 in tube; masses of
/// oxygen in a room.
#[test]
fn volumes_of_a_sweep() {
    held(&[
        (r#"sweep_purge(1 L, 1 L/min, residual = 7.7071 %).volumes"#, 1.0, 0.001),
        (r#"sweep_purge(1 L, 1 L/min, residual = 1.0430 %).volumes"#, 3.0, 0.001),
        (r#"sweep_purge(1 L, 1 L/min, residual = 0.1412 %).volumes"#, 5.0, 0.001),
        (r#"sweep_purge(1 L, 1 L/min, residual = 0.0191 %).volumes"#, 7.0, 0.003),
        (r#"sweep_purge(1 L, 1 L/min, residual = 0.00095 %).volumes"#, 10.0, 0.006),
        (r#"sweep_purge(1 L, 1 L/min, residual = 1 %).volumes"#, 3.042, 0.001),
        (r#"sweep_purge(1 L, 1 L/min, residual = 0.1 %).volumes"#, 5.345, 0.001),
        (r#"sweep_purge(1 L, 1 L/min, residual = 0.01 %).volumes"#, 7.647, 0.001),
        (r#"sweep_purge(1 L, 1 L/min, residual = 0.001 %).volumes"#, 9.95, 0.001),
        (r#"10 ft3/h / tube(7/8 in).area as m/s to 0.0001"#, 0.252, 0.0005),
        (r#"tube_volume(5/8 in, 30 m) as L to 0.001"#, 4.682, 0.001),
    ]);
}

/// Compressibility: Span and others (2000) through CoolProp 8.0.0.
#[test]
fn compressibility() {
    held(&[
        (
            r#"absolute(101.325 kPaa) / (cylinder(100 L, 101.325 kPaa, 0 degC).mass / 100 L * 296.8039 J/(kg·K) * absolute(0 degC))"#,
            0.999543,
            4e-6,
        ),
        (
            r#"absolute(1 MPaa) / (cylinder(100 L, 1 MPaa, 20 degC).mass / 100 L * 296.8039 J/(kg·K) * absolute(20 degC))"#,
            0.997815,
            4e-6,
        ),
        (
            r#"absolute(4 MPaa) / (cylinder(100 L, 4 MPaa, 20 degC).mass / 100 L * 296.8039 J/(kg·K) * absolute(20 degC))"#,
            0.994176,
            4e-6,
        ),
        (
            r#"absolute(10 MPaa) / (cylinder(100 L, 10 MPaa, 26.85 degC).mass / 100 L * 296.8039 J/(kg·K) * absolute(26.85 degC))"#,
            1.005211,
            4e-6,
        ),
        (
            r#"absolute(20 MPaa) / (cylinder(100 L, 20 MPaa, 15 degC).mass / 100 L * 296.8039 J/(kg·K) * absolute(15 degC))"#,
            1.047786,
            4e-6,
        ),
    ]);
}
