//! What is read of a unit, what holds for all of them, and where signs begin.

use uom::si::f64::{Ratio, TemperatureInterval, ThermodynamicTemperature, Time};

use crate::circuit::superheat::difference;
use crate::seam::quantity;
use crate::verification::sign::Sign;

/// Cooling or heating.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// The coil evaporates.
    Cooling,
    /// The coil condenses.
    Heating,
}

/// What the system as a whole was found to be, before any valve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum System {
    /// Nothing against it.
    Healthy,
    /// Liquid returns: in cooling a passing valve may be why.
    SuctionSide,
    /// Anything else, or not read.
    First,
}

/// One indoor unit; nothing where it was not taken.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Unit {
    /// It calls for cooling or heating.
    pub calling: bool,
    /// It was told to run the other way, as a system that cools and heats at once allows: nothing is said of it here.
    pub other_way: bool,
    /// Commanded opening as a share of full travel.
    pub opening: Option<Ratio>,
    /// Since anything was changed.
    pub since_change: Option<Time>,
    /// Sensor where liquid enters in cooling.
    pub liquid: Option<ThermodynamicTemperature>,
    /// Sensor where vapour leaves in cooling.
    pub gas: Option<ThermodynamicTemperature>,
    /// Air on.
    pub air_in: Option<ThermodynamicTemperature>,
    /// Air off.
    pub air_out: Option<ThermodynamicTemperature>,
    /// Airflow was proven.
    pub fan: Option<bool>,
    /// It answered a step of the commanded opening.
    pub answered: Option<bool>,
    /// The resistance of its coils is right.
    pub resistance: Option<bool>,
    /// A probe on the gas pipe.
    pub hand_gas: Option<ThermodynamicTemperature>,
    /// The room gets warmer (heating).
    pub room_rises: Option<bool>,
    /// Difference of saturation temperature between the outdoor unit's pressure and this coil.
    pub line_drop: TemperatureInterval,
}

/// What holds for all units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plant {
    /// Cooling or heating.
    pub mode: Mode,
    /// What was read before any valve.
    pub system: System,
    /// Evaporating (dew) or condensing (bubble) temperature at the outdoor unit.
    pub saturation: ThermodynamicTemperature,
    /// Glide of a blend from the coil's inlet to its dew line.
    pub glide: TemperatureInterval,
    /// Every unit was acted on by itself and its own sensors moved.
    pub mapped: bool,
    /// Expanded uncertainty of a difference of two pipe sensors, or of one and the saturation temperature.
    pub pipes: TemperatureInterval,
    /// Expanded uncertainty of a difference of two air sensors.
    pub air: TemperatureInterval,
    /// Time until a unit has settled.
    pub settle: Time,
}

/// Where signs begin. A sign counts only when its uncertainty keeps clear of the limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Superheat below which a coil floods in cooling.
    pub flooding: TemperatureInterval,
    /// Superheat above which it starves.
    pub starving: TemperatureInterval,
    /// Subcooling below which gas leaves a coil uncondensed in heating.
    pub uncondensed: TemperatureInterval,
    /// Subcooling above which it is full of liquid.
    pub full: TemperatureInterval,
    /// How far above saturation pipes of a coil without flow are in cooling, and how far below the room those of a
    /// resting one through which some passes.
    pub warm: TemperatureInterval,
    /// How near to condensing the liquid pipe of a resting coil is through which gas passes in heating.
    pub near_condensing: TemperatureInterval,
    /// How far the pipe that should be colder is above the other, from which the two stand for one another.
    pub turned: TemperatureInterval,
    /// Opening from which a controller is at its end.
    pub wide: Ratio,
    /// Opening up to which it is at its low end.
    pub low: Ratio,
    /// Least change of the air across a coil that works.
    pub air_least: TemperatureInterval,
    /// Change of the air from which little air is suspected.
    pub air_most: TemperatureInterval,
}

impl Limits {
    /// The usual limits. With 1 K of uncertainty they are the trade's: superheat 1 and 12 K, 6 K to the pipes of a coil
    /// without flow, air 2 and 14 K in cooling; subcooling 2 and 20 K, air 3 and 25 K in heating.
    pub const fn usual(mode: Mode) -> Limits {
        let (turned, air_least, air_most) = match mode {
            Mode::Cooling => (2.0, 3.0, 13.0),
            Mode::Heating => (4.0, 4.0, 24.0),
        };
        Limits {
            flooding: quantity(2.0),
            starving: quantity(11.0),
            uncondensed: quantity(3.0),
            full: quantity(19.0),
            warm: quantity(5.0),
            near_condensing: quantity(6.0),
            turned: quantity(turned),
            wide: quantity(0.85),
            low: quantity(0.15),
            air_least: quantity(air_least),
            air_most: quantity(air_most),
        }
    }
}

impl Unit {
    /// Whether it calls and has done so unchanged for long enough.
    pub(super) fn has_settled(&self, plant: &Plant) -> bool {
        self.calling && self.since_change.is_some_and(|since| since >= plant.settle)
    }

    /// Whether its air changes the wrong way: in cooling it gets warmer.
    pub(super) fn runs_backwards(&self, plant: &Plant, limits: &Limits) -> bool {
        self.air_change(plant).is_some_and(|change| Sign::above(-change, limits.air_least, plant.air).is_sure())
    }

    /// Whether its valve was seen not to answer, or its coils cannot move it.
    pub(super) fn does_not_answer(&self) -> bool {
        self.answered == Some(false) || self.resistance == Some(false)
    }

    /// Whether its controller is at its end and does not get what it wants.
    pub(super) fn is_wide(&self, limits: &Limits) -> bool {
        self.calling && self.opening.is_some_and(|opening| opening >= limits.wide)
    }

    /// Whether it calls and nothing flows through it: pipes warm in cooling, a coil full of liquid in heating.
    pub(super) fn is_without_flow(&self, plant: &Plant, limits: &Limits) -> bool {
        let saturation = self.saturation(plant);
        let warm = |pipe: Option<ThermodynamicTemperature>| {
            pipe.is_some_and(|t| Sign::above(difference(t, saturation), limits.warm, plant.pipes).is_sure())
        };
        let full = || self.excess(plant).is_some_and(|by| Sign::above(by, limits.full, plant.pipes).is_sure());
        self.calling
            && match plant.mode {
                Mode::Cooling => warm(self.liquid) && warm(self.gas),
                Mode::Heating => full(),
            }
    }

    /// Whether its controller is at its low end and its coil still has more than it wants, as far as can be told.
    pub(super) fn is_low(&self, plant: &Plant, limits: &Limits) -> bool {
        let least = match plant.mode {
            Mode::Cooling => limits.flooding,
            Mode::Heating => limits.uncondensed,
        };
        let much = self.excess(plant).is_some_and(|excess| Sign::below(excess, least, plant.pipes) != Sign::No);
        self.calling && much && self.opening.is_some_and(|opening| opening <= limits.low)
    }

    /// Saturation temperature in its coil: in cooling above that of the outdoor unit's suction by what the line takes, in
    /// heating below that of its discharge.
    pub(super) fn saturation(&self, plant: &Plant) -> ThermodynamicTemperature {
        match plant.mode {
            Mode::Cooling => plant.saturation + self.line_drop,
            Mode::Heating => plant.saturation - self.line_drop,
        }
    }

    /// Superheat of its coil in cooling, subcooling in heating.
    pub(super) fn excess(&self, plant: &Plant) -> Option<TemperatureInterval> {
        Some(match plant.mode {
            Mode::Cooling => difference(self.gas?, self.liquid?) - plant.glide,
            Mode::Heating => difference(self.saturation(plant), self.liquid?),
        })
    }

    /// Fall of the air's temperature in cooling, rise in heating.
    pub(super) fn air_change(&self, plant: &Plant) -> Option<TemperatureInterval> {
        let (on, off) = (self.air_in?, self.air_out?);
        Some(match plant.mode {
            Mode::Cooling => difference(on, off),
            Mode::Heating => difference(off, on),
        })
    }
}
