//! Power, direct-current link and voltage drop of a supply.

use uom::si::area::square_meter;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{Area, ElectricCurrent, ElectricPotential, Length, Power, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::power::watt;
use uom::si::thermodynamic_temperature::degree_celsius;

/// √3
const ROOT_3: f64 = 1.732_050_807_568_877_2;
/// Resistivity of copper at 20 °C, Ω·m, and its rise for each kelvin: IEC 60028, from memory.
const COPPER: (f64, f64) = (1.724_1e-8, 0.003_93);

/// Power of a balanced three-phase load: √3·V·I·power factor.
pub fn three_phase_power(line: ElectricPotential, current: ElectricCurrent, power_factor: f64) -> Power {
    Power::new::<watt>(ROOT_3 * line.get::<volt>() * current.get::<ampere>() * power_factor)
}

/// Voltage of the direct-current link of a three-phase rectifier: at no load the peak, under load the mean of six pulses.
pub fn bus_voltage(line: ElectricPotential) -> (ElectricPotential, ElectricPotential) {
    (line * std::f64::consts::SQRT_2, line * (3.0 * std::f64::consts::SQRT_2 / std::f64::consts::PI))
}

/// Voltage lost in a copper cable: there and back for one phase, √3 times one way for three.
pub fn voltage_drop(
    length: Length,
    current: ElectricCurrent,
    section: Area,
    conductor: ThermodynamicTemperature,
    three_phase: bool,
) -> ElectricPotential {
    let resistivity = COPPER.0 * (1.0 + COPPER.1 * (conductor.get::<degree_celsius>() - 20.0));
    let ways = if three_phase { ROOT_3 } else { 2.0 };
    let one_way = length.get::<meter>() * resistivity / section.get::<square_meter>();
    ElectricPotential::new::<volt>(ways * one_way * current.get::<ampere>())
}

/// Share of rating that a motor may be loaded to at a voltage unbalance; nothing above 5 %, where it shall not run.
///
/// Read off the figure of NEMA MG 1 (14.36) from memory, ±0.01; straight between the points.
pub fn motor_derating(unbalance: f64) -> Option<f64> {
    const POINTS: [(f64, f64); 6] = [(0.0, 1.0), (0.01, 1.0), (0.02, 0.95), (0.03, 0.89), (0.04, 0.82), (0.05, 0.75)];
    POINTS.windows(2).find_map(|pair| match pair {
        [(low, from), (high, to)] if (*low..=*high).contains(&unbalance) => {
            Some(from + (to - from) * (unbalance - low) / (high - low))
        }
        _ => None,
    })
}

#[cfg(test)]
mod tests {
    use super::{bus_voltage, motor_derating, three_phase_power, voltage_drop};
    use uom::si::area::square_millimeter;
    use uom::si::electric_current::ampere;
    use uom::si::electric_potential::volt;
    use uom::si::f64::{Area, ElectricCurrent, ElectricPotential, Length, ThermodynamicTemperature};
    use uom::si::length::meter;
    use uom::si::power::watt;
    use uom::si::thermodynamic_temperature::degree_celsius;

    fn volts(v: f64) -> ElectricPotential {
        ElectricPotential::new::<volt>(v)
    }

    /// Worked by hand from the formulas.
    #[test]
    fn worked_cases() {
        for (v, i, pf, power) in
            [(400.0, 20.0, 0.9, 12_470.8), (208.0, 30.0, 0.85, 9_186.8), (460.0, 17.5, 0.92, 12_827.6)]
        {
            let found = three_phase_power(volts(v), ElectricCurrent::new::<ampere>(i), pf).get::<watt>();
            assert!((found - power).abs() < 0.1, "{found} {power}");
        }
        for (line, peak) in [(208.0, 294.16), (230.0, 325.27), (400.0, 565.69), (460.0, 650.54)] {
            assert!((bus_voltage(volts(line)).0.get::<volt>() - peak).abs() < 0.01);
        }
        assert!((bus_voltage(volts(400.0)).1.get::<volt>() - 540.19).abs() < 0.01);
        let drop = |celsius: f64, three: bool| {
            voltage_drop(
                Length::new::<meter>(30.0),
                ElectricCurrent::new::<ampere>(20.0),
                Area::new::<square_millimeter>(4.0),
                ThermodynamicTemperature::new::<degree_celsius>(celsius),
                three,
            )
            .get::<volt>()
        };
        for (found, expected) in [(drop(20.0, false), 5.172), (drop(70.0, false), 6.189), (drop(20.0, true), 4.479)] {
            assert!((found - expected).abs() < 1e-3, "{found} {expected}");
        }
    }

    #[test]
    fn no_motor_runs_above_five_percent() {
        assert_eq!(motor_derating(0.005), Some(1.0));
        assert!(motor_derating(0.025).is_some_and(|share| (share - 0.92).abs() < 1e-12));
        assert_eq!(motor_derating(0.051), None);
    }
}
