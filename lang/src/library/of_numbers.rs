//! A function of numbers that has looked at all else already.

use super::Failure;

type Value = dyn Fn(&[f64]) -> Result<f64, Failure> + Send + Sync;
type Slope = dyn Fn(&[f64], usize) -> Option<f64> + Send + Sync;

/// A function of the numbers among the arguments, each in the place of its parameter; of what is absent or no number,
/// nought stands there.
pub struct OfNumbers {
    value: Box<Value>,
    slope: Option<Box<Slope>>,
}

impl OfNumbers {
    /// A function whose slopes are found by moving its arguments.
    pub fn new(value: impl Fn(&[f64]) -> Result<f64, Failure> + Send + Sync + 'static) -> OfNumbers {
        OfNumbers { value: Box::new(value), slope: None }
    }

    /// Says its exact slopes: by the argument of a place, in SI. Where it knows none, the argument is moved.
    pub fn sloped(mut self, slope: impl Fn(&[f64], usize) -> Option<f64> + Send + Sync + 'static) -> OfNumbers {
        self.slope = Some(Box::new(slope));
        self
    }

    /// Its value.
    pub fn value(&self, numbers: &[f64]) -> Result<f64, Failure> {
        (self.value)(numbers)
    }

    /// Its slope by one of the numbers, if it says one.
    pub fn slope(&self, numbers: &[f64], by: usize) -> Option<f64> {
        self.slope.as_ref().and_then(|slope| slope(numbers, by))
    }
}
