//! A motor at rest: its windings and its insulation.

use uom::si::f64::{ElectricalResistance, TemperatureInterval, ThermodynamicTemperature};
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin;
use uom::si::thermodynamic_temperature::degree_celsius;

use super::unbalance::unbalance;

/// Unbalance of three windings after the resistance of the leads is taken off; nothing if that leaves none.
pub fn winding_unbalance(windings: [f64; 3], leads: f64) -> Option<f64> {
    let bare = windings.map(|ohms| ohms - leads);
    if bare.iter().any(|ohms| *ohms <= 0.0) { None } else { unbalance(bare) }
}

/// Insulation resistance as it would be at another temperature: it halves with every 10 K (common practice, no source).
pub fn insulation_at(measured: ElectricalResistance, warmer_by: TemperatureInterval) -> ElectricalResistance {
    measured * libm::exp2(-warmer_by.get::<kelvin>() / 10.0)
}

/// Mean temperature of a winding by its resistance and by that at a known temperature: (R₂/R₁)·(k + t₁) − k.
///
/// `constant` is how far below 0 °C the metal's resistance would reach nought on a straight line: copper 234.5 K.
pub fn winding_temperature(
    hot: ElectricalResistance,
    cold: ElectricalResistance,
    cold_temperature: ThermodynamicTemperature,
    constant: TemperatureInterval,
) -> ThermodynamicTemperature {
    let k = constant.get::<kelvin>();
    let t = (hot / cold).get::<ratio>() * (k + cold_temperature.get::<degree_celsius>()) - k;
    ThermodynamicTemperature::new::<degree_celsius>(t)
}

#[cfg(test)]
mod tests {
    use super::{insulation_at, winding_unbalance};
    use uom::si::electrical_resistance::megaohm;
    use uom::si::f64::{ElectricalResistance, TemperatureInterval};
    use uom::si::temperature_interval::kelvin;

    #[test]
    fn windings_and_insulation() {
        // (1.30 − 1.26)/1.26 with 0.1 Ω of leads taken off each.
        let found = winding_unbalance([1.34, 1.34, 1.40], 0.1).unwrap_or(f64::NAN);
        assert!((found - 0.04 / 1.26).abs() < 1e-12, "{found}");
        assert_eq!(winding_unbalance([0.1, 1.3, 1.3], 0.1), None);
        let measured = ElectricalResistance::new::<megaohm>(80.0);
        let warm = insulation_at(measured, TemperatureInterval::new::<kelvin>(20.0));
        assert!((warm.get::<megaohm>() - 20.0).abs() < 1e-12);
    }
}
