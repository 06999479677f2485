//! Gases of the trade that are no refrigerant to it: those of tests and purges.

use std::sync::{Arc, OnceLock};

use uom::si::available_energy::joule_per_kilogram;
use uom::si::f64::{AvailableEnergy, MassDensity, Pressure, ThermodynamicTemperature};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

use super::error::{Limit, PropertyError, Value};
use crate::helmholtz::{Equation, Model, sources};

/// A gas above its critical temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gas {
    /// Nitrogen.
    Nitrogen,
    /// Helium.
    Helium,
}

impl Gas {
    const ALL: [Self; 2] = [Self::Nitrogen, Self::Helium];

    fn designation(self) -> &'static str {
        match self {
            Self::Nitrogen => "R-728",
            Self::Helium => "R-704",
        }
    }

    /// Density at an absolute pressure and a temperature.
    ///
    /// # Errors
    /// Outside of the equation's limits, and at or below the critical temperature.
    pub fn density(self, p: Pressure, t: ThermodynamicTemperature) -> Result<MassDensity, PropertyError> {
        let model = self.model()?;
        let (p, t) = (p.get::<pascal>(), t.get::<kelvin>());
        let limits = model.components()[0].limits;
        self.check_temperature(t)?;
        let asked = Value::Pressure(p);
        if !(p > 0.0 && p.is_finite()) {
            return Err(PropertyError::NotPositive(asked));
        }
        if p > limits.highest_pressure {
            let at = Value::Pressure(limits.highest_pressure);
            return Err(PropertyError::OutOfRange { limit: Limit::HighestPressure, at, asked });
        }
        let ideal = p / (model.gas_constant * t);
        let most = 6.0 * model.reducing_density();
        let nothing = PropertyError::NoState(asked, Value::Temperature(t));
        let rho = model.density_between(t, p, 1e-3 * ideal.min(most), most, ideal);
        let rho = rho.ok_or(nothing)?;
        Ok(MassDensity::new::<kilogram_per_cubic_meter>(rho * model.molar_mass))
    }

    /// Absolute pressure at a density and a temperature.
    ///
    /// # Errors
    /// As [`Self::density`].
    pub fn pressure(self, density: MassDensity, t: ThermodynamicTemperature) -> Result<Pressure, PropertyError> {
        self.pressure_with_slope(density, t).map(|(pressure, _)| pressure)
    }

    /// The same with its slope by density at that temperature, in Pa/(kg/m³), which is J/kg.
    ///
    /// # Errors
    /// As [`Self::density`].
    pub fn pressure_with_slope(
        self,
        density: MassDensity,
        t: ThermodynamicTemperature,
    ) -> Result<(Pressure, AvailableEnergy), PropertyError> {
        let model = self.model()?;
        let (density, t) = (density.get::<kilogram_per_cubic_meter>(), t.get::<kelvin>());
        let limits = model.components()[0].limits;
        self.check_temperature(t)?;
        let asked = Value::Density(density);
        if !(density > 0.0 && density.is_finite()) {
            return Err(PropertyError::NotPositive(asked));
        }
        let (p, slope) = model.pressure(t, density / model.molar_mass);
        if p.is_nan() || p > limits.highest_pressure {
            let at = Value::Pressure(limits.highest_pressure);
            return Err(PropertyError::OutOfRange { limit: Limit::HighestPressure, at, asked });
        }
        let slope = AvailableEnergy::new::<joule_per_kilogram>(slope / model.molar_mass);
        Ok((Pressure::new::<pascal>(p), slope))
    }

    fn check_temperature(self, t: f64) -> Result<(), PropertyError> {
        let equation = &self.model()?.components()[0];
        let asked = Value::Temperature(t);
        // Only above the critical temperature does pressure rise with density throughout.
        let least = equation.reducing_temperature.max(equation.limits.lowest_temperature);
        if !(t > 0.0 && t.is_finite()) {
            return Err(PropertyError::NotPositive(asked));
        }
        if t <= least {
            let at = Value::Temperature(least);
            return Err(PropertyError::OutOfRange { limit: Limit::Lowest, at, asked });
        }
        let most = equation.limits.highest_temperature;
        if t > most {
            let at = Value::Temperature(most);
            return Err(PropertyError::OutOfRange { limit: Limit::HighestTemperature, at, asked });
        }
        Ok(())
    }

    fn equation(self) -> Result<Arc<Equation>, PropertyError> {
        match sources::equation(self.designation()) {
            Some(Ok(equation)) => Ok(equation),
            _ => Err(PropertyError::NotPublished(format!("no equation for {}", self.designation()))),
        }
    }

    fn model(self) -> Result<&'static Model, PropertyError> {
        static READ: [OnceLock<Model>; Gas::ALL.len()] = [const { OnceLock::new() }; Gas::ALL.len()];
        let read = &READ[self as usize];
        match read.get() {
            Some(model) => Ok(model),
            None => self.equation().map(|equation| read.get_or_init(|| Model::pure(equation))),
        }
    }
}
