//! How thick insulation must be for its surface to stay dry.

use uom::si::f64::{HeatTransfer, Length, ThermalConductivity, ThermodynamicTemperature};
use uom::si::length::meter;

use crate::numeric::bracket::root;

/// Thickness at which the surface of a round layer is just at the dew point; nothing if the pipe is no colder than that,
/// `None` inside if half a metre would not do.
///
/// k·(T_s − T_line)/ln(r2/r1) = r2·h·(T_air − T_s): conduction through a cylinder against the film outside.
pub fn thickness(
    od: Length,
    conductivity: ThermalConductivity,
    film: HeatTransfer,
    line: ThermodynamicTemperature,
    air: ThermodynamicTemperature,
    dew: ThermodynamicTemperature,
) -> Option<Option<Length>> {
    if line >= dew {
        return None;
    }
    let inner = od.get::<meter>() / 2.0;
    let lost = conductivity.value * (dew.value - line.value);
    let miss = |layer: f64| {
        let outer = inner + layer;
        Some(outer * film.value * (air.value - dew.value) * libm::log(outer / inner) - lost)
    };
    Some(root(0.0, 0.5, miss).map(Length::new::<meter>))
}

#[cfg(test)]
mod tests {
    use super::thickness;
    use uom::si::f64::{HeatTransfer, Length, ThermalConductivity, ThermodynamicTemperature};
    use uom::si::heat_transfer::watt_per_square_meter_kelvin;
    use uom::si::length::millimeter;
    use uom::si::thermal_conductivity::watt_per_meter_kelvin;
    use uom::si::thermodynamic_temperature::degree_celsius;

    fn needed(line: f64, dew: f64) -> Option<Option<f64>> {
        let celsius = |t| ThermodynamicTemperature::new::<degree_celsius>(t);
        thickness(
            Length::new::<millimeter>(22.2),
            ThermalConductivity::new::<watt_per_meter_kelvin>(0.036),
            HeatTransfer::new::<watt_per_square_meter_kelvin>(8.0),
            celsius(line),
            celsius(27.0),
            celsius(dew),
        )
        .map(|found| found.map(|layer| layer.get::<millimeter>()))
    }

    /// The heat through the layer, worked out anew, is what the film gives off at the dew point.
    #[test]
    fn the_surface_is_at_the_dew_point() {
        let layer = needed(5.0, 22.0).flatten().unwrap_or(0.0);
        let (inner, outer) = (11.1e-3_f64, 11.1e-3 + layer * 1e-3);
        let through = 0.036 * 17.0 / (outer / inner).ln();
        assert!((through / (outer * 8.0 * 5.0) - 1.0).abs() < 1e-9, "{layer} mm");
        assert!((9.0..13.0).contains(&layer), "{layer} mm");
    }

    #[test]
    fn a_warm_pipe_needs_none_and_saturated_air_no_thickness_helps() {
        assert_eq!(needed(23.0, 22.0), None);
        assert_eq!(needed(5.0, 27.0), Some(None));
    }
}
