//! What can be wrong with a system and its units; one thing at a time.

use super::random::Random;
use super::sensors::Fault;

/// What is wrong with a system.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cause {
    Nothing,
    /// A calling unit whose valve or branch is shut, or nearly.
    Shut,
    /// A calling unit through which too little gets.
    Restricted,
    /// A calling unit whose valve does not close.
    Passing,
    /// A resting unit whose valve does not close.
    LeakingIdle,
    GasSensorOff,
    LiquidSensorOff,
    Swapped,
    LittleAir,
    SensorDrift,
    /// Sensors of two units exchanged; at least one calls.
    CrossedSensors,
    /// Valves of two units exchanged; at least one calls.
    CrossedValves,
    LowCharge,
    /// Liquid that does not get past the outdoor valve (heating).
    HeldBack,
    Gas,
    Overfilled,
    OutdoorAir,
    /// An outdoor valve that does not close (heating).
    OutdoorPassing,
}

impl Cause {
    pub const IN_COOLING: [Cause; 16] = [
        Cause::Nothing,
        Cause::Shut,
        Cause::Restricted,
        Cause::Passing,
        Cause::LeakingIdle,
        Cause::GasSensorOff,
        Cause::LiquidSensorOff,
        Cause::Swapped,
        Cause::LittleAir,
        Cause::SensorDrift,
        Cause::CrossedSensors,
        Cause::CrossedValves,
        Cause::LowCharge,
        Cause::Gas,
        Cause::Overfilled,
        Cause::OutdoorAir,
    ];

    pub const IN_HEATING: [Cause; 18] = [
        Cause::Nothing,
        Cause::Shut,
        Cause::Restricted,
        Cause::Passing,
        Cause::LeakingIdle,
        Cause::GasSensorOff,
        Cause::LiquidSensorOff,
        Cause::Swapped,
        Cause::LittleAir,
        Cause::SensorDrift,
        Cause::CrossedSensors,
        Cause::CrossedValves,
        Cause::LowCharge,
        Cause::HeldBack,
        Cause::Gas,
        Cause::Overfilled,
        Cause::OutdoorAir,
        Cause::OutdoorPassing,
    ];

    /// Whether a valve of an indoor unit is to blame.
    pub fn is_of_valve(self) -> bool {
        matches!(self, Cause::Shut | Cause::Restricted | Cause::Passing | Cause::LeakingIdle)
    }

    /// Whether the system as a whole is to blame, and no unit.
    pub fn is_of_system(self) -> bool {
        use Cause as C;
        matches!(
            self,
            C::Nothing | C::LowCharge | C::HeldBack | C::Gas | C::Overfilled | C::OutdoorAir | C::OutdoorPassing
        )
    }

    /// Which unit is bad, if one is; the first five call.
    pub fn bad(self, calling: &[bool], random: &mut Random) -> Option<usize> {
        let one = random.below(5);
        match self {
            Cause::LeakingIdle => calling.iter().position(|calling| !calling),
            _ => (!self.is_of_system()).then_some(one),
        }
    }

    /// What is wrong with it.
    pub fn fault(self, random: &mut Random) -> Fault {
        match self {
            Cause::Shut => Fault::Passes(random.between(0.0, 0.02)),
            Cause::Restricted => Fault::Passes(random.between(0.04, 0.4)),
            Cause::Passing => Fault::Floor(random.between(1.0, 2.5)),
            Cause::LeakingIdle => Fault::Floor(random.between(0.02, 0.3)),
            Cause::GasSensorOff => Fault::GasOff(random.between(0.3, 1.0)),
            Cause::LiquidSensorOff => Fault::LiquidOff(random.between(0.3, 1.0)),
            Cause::Swapped => Fault::Swapped,
            Cause::LittleAir => Fault::LittleAir(random.between(0.1, 0.6)),
            Cause::SensorDrift => {
                let mut offsets = [0.0; 4];
                offsets[random.below(4)] = random.between(2.0, 8.0) * random.of(&[-1.0, 1.0]);
                Fault::Drift(offsets)
            }
            _ => Fault::None,
        }
    }
}
