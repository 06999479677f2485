//! What the discharge temperature says: only against what the cycle lets expect.

use uom::si::f64::{Ratio, TemperatureInterval, ThermodynamicTemperature};

use super::Verdict;
use crate::circuit::superheat::difference;
use crate::cycle::vapor::{Conditions, Cycle};
use crate::refrigerant::{PropertyError, Refrigerant};
use crate::seam::quantity;
use crate::verification::sign::Sign;

/// Shares of the work without loss that a good and a poor compressor reach.
const GOOD: Ratio = quantity(0.8);
const POOR: Ratio = quantity(0.6);

/// The discharge of a running system, as far as it was read and can be expected.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Discharge {
    /// As read.
    pub read: Option<ThermodynamicTemperature>,
    /// Lowest to expect at no superheat and a good compressor.
    pub least: Option<ThermodynamicTemperature>,
    /// Highest to expect at the superheat wanted and a poor compressor.
    pub most: Option<ThermodynamicTemperature>,
}

/// The lowest and the highest discharge temperature between these saturation temperatures.
pub fn expected(
    r: Refrigerant,
    evaporating: ThermodynamicTemperature,
    condensing: ThermodynamicTemperature,
    superheat: TemperatureInterval,
) -> Result<(ThermodynamicTemperature, ThermodynamicTemperature), PropertyError> {
    let at = |superheat, efficiency| {
        let conditions = Conditions { evaporating, condensing, superheat, subcooling: quantity(0.0), efficiency };
        Ok(Cycle::new(r, &conditions)?.discharge_temperature)
    };
    Ok((at(quantity(0.0), GOOD)?, at(superheat, POOR)?))
}

impl Discharge {
    /// What comes before all signs: too hot to go on, or not settled.
    pub(super) fn before_signs(&self, settled: bool, stop: ThermodynamicTemperature) -> Option<Verdict> {
        match self.read {
            Some(read) if read > stop => Some(Verdict::Stop),
            _ => (!settled).then_some(Verdict::NotSettled),
        }
    }

    /// Whether vapour comes back hotter than wanted.
    pub(super) fn is_high(&self, uncertainty: TemperatureInterval) -> Sign {
        apart(self.read, self.most, uncertainty)
    }

    /// Whether it is colder than the best compressor makes dry vapour: then liquid comes back.
    pub(super) fn is_low(&self, uncertainty: TemperatureInterval) -> Sign {
        apart(self.least, self.read, uncertainty)
    }
}

fn apart(
    upper: Option<ThermodynamicTemperature>,
    lower: Option<ThermodynamicTemperature>,
    uncertainty: TemperatureInterval,
) -> Sign {
    let Some((upper, lower)) = upper.zip(lower) else { return Sign::Unsure };
    Sign::above(difference(upper, lower), quantity(0.0), uncertainty)
}
