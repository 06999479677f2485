//! A refrigerant by its designation, and what can be asked of it.

use std::sync::OnceLock;

use uom::si::available_energy::joule_per_kilogram;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{
    AvailableEnergy, DynamicViscosity, MassDensity, MolarMass, Pressure, Ratio, SpecificHeatCapacity,
    TemperatureInterval, ThermodynamicTemperature, Velocity,
};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::molar_mass::kilogram_per_mole;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::specific_heat_capacity::joule_per_kilogram_kelvin;
use uom::si::temperature_interval::kelvin as kelvin_difference;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::velocity::meter_per_second;

use super::basis::{MassState, modelled};
use super::catalogue::{self, Listed};
use super::error::{NameError, PropertyError};
use super::fluid::{Fluid, Phase};
use super::heat::{Heat, HeatState};
use crate::helmholtz::envelope::Line;
use crate::saturation::saturation;

/// A refrigerant. Cheap to copy; its equations are read when they are first needed.
#[derive(Clone, Copy, Debug)]
pub struct Refrigerant {
    listed: &'static Listed,
    fluid: &'static Fluid,
}

/// A homogeneous state, or a point of the two-phase region with its overall properties.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State {
    /// Absolute.
    pub pressure: Pressure,
    /// Temperature.
    pub temperature: ThermodynamicTemperature,
    /// Density.
    pub density: MassDensity,
    /// Enthalpy; 200 kJ/kg for saturated liquid at 0 °C.
    pub enthalpy: AvailableEnergy,
    /// Entropy; 1 kJ/(kg K) for saturated liquid at 0 °C.
    pub entropy: SpecificHeatCapacity,
    /// Heat capacity at constant pressure.
    pub heat_capacity: SpecificHeatCapacity,
    /// Speed of sound.
    pub sound_speed: Velocity,
}

/// The critical point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CriticalPoint {
    /// Temperature.
    pub temperature: ThermodynamicTemperature,
    /// Absolute pressure.
    pub pressure: Pressure,
    /// Density.
    pub density: MassDensity,
}

/// Where the equations are valid: the narrowest limits of the components.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Lowest temperature.
    pub lowest_temperature: ThermodynamicTemperature,
    /// Highest temperature.
    pub highest_temperature: ThermodynamicTemperature,
    /// Highest absolute pressure.
    pub highest_pressure: Pressure,
}

/// The range of a saturation line, ends included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineRange {
    /// At the lowest temperature of the equations.
    pub lowest_temperature: ThermodynamicTemperature,
    /// Where temperature or pressure stops rising along the line, or the critical point.
    pub highest_temperature: ThermodynamicTemperature,
    /// Absolute, at the lowest temperature.
    pub lowest_pressure: Pressure,
    /// Absolute, at the highest temperature.
    pub highest_pressure: Pressure,
}

/// A state that may hold liquid and vapour together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MixedState {
    /// Its phase.
    pub phase: Phase,
    /// Share of the mass that is vapour; only where there are two phases.
    pub quality: Option<Ratio>,
    /// Absolute.
    pub pressure: Pressure,
    /// Temperature.
    pub temperature: ThermodynamicTemperature,
    /// Density of the whole.
    pub density: MassDensity,
    /// Enthalpy of the whole; 200 kJ/kg for saturated liquid at 0 °C.
    pub enthalpy: AvailableEnergy,
    /// Entropy of the whole; 1 kJ/(kg K) for saturated liquid at 0 °C.
    pub entropy: SpecificHeatCapacity,
}

impl Refrigerant {
    /// The refrigerant of that designation, in any usual spelling (`R-410A`, `r410a`).
    ///
    /// # Errors
    /// Where no refrigerant has that designation, or none of its models is published.
    pub fn find(name: &str) -> Result<Self, NameError> {
        Self::at(catalogue::find(name)?)
    }

    /// All refrigerants of ASHRAE 34, with the reason where one cannot be computed.
    pub fn all() -> impl Iterator<Item = Result<Self, NameError>> {
        (0..catalogue::all().len()).map(Self::at)
    }

    fn at(index: usize) -> Result<Self, NameError> {
        static READ: OnceLock<Vec<OnceLock<Result<Fluid, String>>>> = OnceLock::new();
        let cells = READ.get_or_init(|| catalogue::all().iter().map(|_| OnceLock::new()).collect());
        let listed = &catalogue::all()[index];
        let designation = listed.designation;
        match cells[index].get_or_init(|| fluid(listed)) {
            Ok(fluid) => Ok(Self { listed, fluid }),
            Err(reason) => Err(NameError::NotModelled { designation, reason: reason.clone() }),
        }
    }

    /// Designation as ASHRAE 34 writes it.
    pub fn designation(&self) -> &'static str {
        self.listed.designation
    }

    /// Components and their shares of the mass.
    pub fn composition(&self) -> &'static [(&'static str, f64)] {
        &self.listed.composition
    }

    /// Safety group of ASHRAE 34, where one is assigned.
    pub fn safety_group(&self) -> Option<&'static str> {
        self.listed.safety_group
    }

    /// Where the safety group was taken from.
    pub fn safety_group_source(&self) -> &'static str {
        self.listed.safety_group_source
    }

    /// Molar mass.
    pub fn molar_mass(&self) -> MolarMass {
        MolarMass::new::<kilogram_per_mole>(self.fluid.saturation.molar_mass)
    }

    /// The publications that the values rest on, and what is estimated.
    ///
    /// # Errors
    /// Where the coefficients cannot be read.
    pub fn source(&self) -> Result<&'static str, PropertyError> {
        Ok(&self.fluid.basis()?.source)
    }

    /// Pairs of components without published parameters. Where there are any, the blend's values
    /// are estimates.
    ///
    /// # Errors
    /// As [`Self::source`].
    pub fn estimated_pairs(&self) -> Result<&'static [[String; 2]], PropertyError> {
        Ok(&self.fluid.basis()?.estimated)
    }

    /// Whether the refrigerant is a single substance.
    pub fn is_pure(&self) -> bool {
        self.fluid.is_pure()
    }

    /// The critical point of the equation, or of the mixture model at this composition.
    pub fn critical_point(&self) -> CriticalPoint {
        let (t, p, rho) = self.fluid.saturation.critical;
        let density = rho * self.fluid.saturation.molar_mass;
        CriticalPoint {
            temperature: temperature(t),
            pressure: pressure(p),
            density: MassDensity::new::<kilogram_per_cubic_meter>(density),
        }
    }

    /// Where the equations are valid.
    pub fn limits(&self) -> Limits {
        let limits = &self.fluid.saturation.limits;
        Limits {
            lowest_temperature: temperature(limits.lowest_temperature),
            highest_temperature: temperature(limits.highest_temperature),
            highest_pressure: pressure(limits.highest_pressure),
        }
    }

    /// Range of the bubble line.
    pub fn bubble_range(&self) -> LineRange {
        self.range(Line::Bubble)
    }

    /// Range of the dew line.
    pub fn dew_range(&self) -> LineRange {
        self.range(Line::Dew)
    }

    fn range(&self, line: Line) -> LineRange {
        let line = self.fluid.saturation.line(line);
        LineRange {
            lowest_temperature: temperature(line.cold.0),
            highest_temperature: temperature(line.end.0),
            lowest_pressure: pressure(line.cold.1),
            highest_pressure: pressure(line.end.1),
        }
    }

    /// Pressure at which liquid of this temperature begins to boil.
    ///
    /// # Errors
    /// Above the end of the line or below the lowest temperature of the equations.
    pub fn bubble_pressure(&self, t: ThermodynamicTemperature) -> Result<Pressure, PropertyError> {
        self.fluid.saturation_pressure(Line::Bubble, t.get::<kelvin>()).map(pressure)
    }

    /// Pressure at which vapour of this temperature begins to condense.
    ///
    /// # Errors
    /// As [`Self::bubble_pressure`].
    pub fn dew_pressure(&self, t: ThermodynamicTemperature) -> Result<Pressure, PropertyError> {
        self.fluid.saturation_pressure(Line::Dew, t.get::<kelvin>()).map(pressure)
    }

    /// Temperature at which liquid begins to boil at this absolute pressure.
    ///
    /// # Errors
    /// Above the end of the line or below its pressure at the lowest temperature.
    pub fn bubble_temperature(&self, p: Pressure) -> Result<ThermodynamicTemperature, PropertyError> {
        self.fluid.saturation_temperature(Line::Bubble, p.get::<pascal>()).map(temperature)
    }

    /// Temperature at which vapour begins to condense at this absolute pressure.
    ///
    /// # Errors
    /// As [`Self::bubble_temperature`].
    pub fn dew_temperature(&self, p: Pressure) -> Result<ThermodynamicTemperature, PropertyError> {
        self.fluid.saturation_temperature(Line::Dew, p.get::<pascal>()).map(temperature)
    }

    /// How the temperature of a saturation line goes with absolute pressure, dT/dp in K/Pa: the slope of the very
    /// polynomial that gives the temperature. None where there is no temperature, or pressure turns.
    pub fn saturation_temperature_slope(&self, line: Line, p: Pressure) -> Option<f64> {
        self.fluid.saturation_temperature_slope(line, p.get::<pascal>())
    }

    /// How the pressure of a saturation line goes with temperature, dp/dT in Pa/K; as
    /// [`Self::saturation_temperature_slope`].
    pub fn saturation_pressure_slope(&self, line: Line, t: ThermodynamicTemperature) -> Option<f64> {
        self.fluid.saturation_pressure_slope(line, t.get::<kelvin>())
    }

    /// Dew temperature less bubble temperature at one absolute pressure; nought for a pure fluid.
    ///
    /// # Errors
    /// As [`Self::bubble_temperature`].
    pub fn glide(&self, p: Pressure) -> Result<TemperatureInterval, PropertyError> {
        let fluid = self.fluid;
        let bubble = fluid.saturation_temperature(Line::Bubble, p.get::<pascal>())?;
        let dew = fluid.saturation_temperature(Line::Dew, p.get::<pascal>())?;
        // At an azeotrope the lines touch, and rounding may set them a hair the wrong way round.
        let glide = if fluid.is_pure() { 0.0 } else { (dew - bubble).max(0.0) };
        Ok(TemperatureInterval::new::<kelvin_difference>(glide))
    }

    /// Saturated liquid at a temperature.
    ///
    /// # Errors
    /// As [`Self::bubble_pressure`].
    pub fn saturated_liquid_at_temperature(&self, t: ThermodynamicTemperature) -> Result<State, PropertyError> {
        let fluid = self.fluid;
        fluid.saturated_at_temperature(Line::Bubble, t.get::<kelvin>()).map(State::from)
    }

    /// Saturated vapour at a temperature.
    ///
    /// # Errors
    /// As [`Self::bubble_pressure`].
    pub fn saturated_vapor_at_temperature(&self, t: ThermodynamicTemperature) -> Result<State, PropertyError> {
        let fluid = self.fluid;
        fluid.saturated_at_temperature(Line::Dew, t.get::<kelvin>()).map(State::from)
    }

    /// Saturated liquid at an absolute pressure.
    ///
    /// # Errors
    /// As [`Self::bubble_temperature`].
    pub fn saturated_liquid_at_pressure(&self, p: Pressure) -> Result<State, PropertyError> {
        let fluid = self.fluid;
        fluid.saturated_at_pressure(Line::Bubble, p.get::<pascal>()).map(State::from)
    }

    /// Saturated vapour at an absolute pressure.
    ///
    /// # Errors
    /// As [`Self::bubble_temperature`].
    pub fn saturated_vapor_at_pressure(&self, p: Pressure) -> Result<State, PropertyError> {
        let fluid = self.fluid;
        fluid.saturated_at_pressure(Line::Dew, p.get::<pascal>()).map(State::from)
    }

    /// The single-phase state at an absolute pressure and a temperature, with its phase.
    ///
    /// # Errors
    /// Outside of the equations' limits, and between the bubble and the dew line, where pressure
    /// and temperature do not determine a state.
    pub fn state(&self, p: Pressure, t: ThermodynamicTemperature) -> Result<(Phase, State), PropertyError> {
        let (phase, state) = self.fluid.state_at(p.get::<pascal>(), t.get::<kelvin>())?;
        Ok((phase, state.into()))
    }

    /// Viscosity of the single-phase state at an absolute pressure and a temperature.
    ///
    /// # Errors
    /// Where no published correlation is built in, and as [`Self::state`].
    pub fn viscosity(&self, p: Pressure, t: ThermodynamicTemperature) -> Result<DynamicViscosity, PropertyError> {
        let value = self.fluid.viscosity(p.get::<pascal>(), t.get::<kelvin>())?;
        Ok(DynamicViscosity::new::<pascal_second>(value))
    }

    /// The state of one or two phases at an absolute pressure and an enthalpy, as after an
    /// expansion without work.
    ///
    /// # Errors
    /// Outside of the equations' limits.
    pub fn state_with_enthalpy(&self, p: Pressure, h: AvailableEnergy) -> Result<MixedState, PropertyError> {
        let heat = Heat::Enthalpy(h.get::<joule_per_kilogram>());
        self.fluid.state_with(p.get::<pascal>(), heat).map(MixedState::from)
    }

    /// The state of one or two phases at an absolute pressure and an entropy, as after a
    /// compression without loss.
    ///
    /// # Errors
    /// Outside of the equations' limits.
    pub fn state_with_entropy(&self, p: Pressure, s: SpecificHeatCapacity) -> Result<MixedState, PropertyError> {
        let heat = Heat::Entropy(s.get::<joule_per_kilogram_kelvin>());
        self.fluid.state_with(p.get::<pascal>(), heat).map(MixedState::from)
    }
}

fn temperature(t: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<kelvin>(t)
}

fn pressure(p: f64) -> Pressure {
    Pressure::new::<pascal>(p)
}

impl From<MassState> for State {
    fn from(state: MassState) -> Self {
        Self {
            pressure: pressure(state.pressure),
            temperature: temperature(state.temperature),
            density: MassDensity::new::<kilogram_per_cubic_meter>(state.density),
            enthalpy: AvailableEnergy::new::<joule_per_kilogram>(state.enthalpy),
            entropy: SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(state.entropy),
            heat_capacity: SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(state.heat_capacity),
            sound_speed: Velocity::new::<meter_per_second>(state.sound_speed),
        }
    }
}

impl From<HeatState> for MixedState {
    fn from(state: HeatState) -> Self {
        Self {
            phase: state.phase,
            quality: state.quality.map(Ratio::new::<ratio>),
            pressure: pressure(state.pressure),
            temperature: temperature(state.temperature),
            density: MassDensity::new::<kilogram_per_cubic_meter>(state.density),
            enthalpy: AvailableEnergy::new::<joule_per_kilogram>(state.enthalpy),
            entropy: SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(state.entropy),
        }
    }
}

/// The tables of a listed refrigerant, or the reason in words why there are none.
fn fluid(listed: &'static Listed) -> Result<Fluid, String> {
    match saturation(listed.designation) {
        Some(saturation) => Ok(Fluid::new(listed, saturation)),
        None => Err(match modelled(listed) {
            Err(reason) => reason,
            Ok(_) => "the two-phase line of its mixture model breaks off".to_string(),
        }),
    }
}
