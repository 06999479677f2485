//! A function of one positive variable as polynomials chosen by the variable's own bits.
//!
//! A double's exponent tells the octave that it lies in, the next few bits tell the interval
//! within the octave, and the bits after those are the local variable. So a value costs one
//! polynomial, and neither logarithm nor root nor search, wherever in many decades it lies; and an
//! end at which the function behaves like a root is resolved by octaves of the distance to it.

/// Number of coefficients of a polynomial.
pub const TERMS: usize = 8;

const MANTISSA_BITS: u32 = 52;
const MANTISSA: u64 = (1 << MANTISSA_BITS) - 1;
const EXPONENT_OF_ONE: u64 = 1023;

/// Polynomials of the local variable −½ … ½, lowest power first.
pub type Polynomial = [f64; TERMS];

/// A tabulated function.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BitTable {
    /// Exponent of the lowest octave, as it stands in the bits.
    pub lowest_exponent: u32,
    /// Octaves, lowest first.
    pub octaves: Vec<Octave>,
    /// Polynomials of all octaves, one after the other.
    pub polynomials: Vec<Polynomial>,
}

/// The polynomials between a power of two and the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Octave {
    /// The octave is divided into 2^bits intervals.
    pub bits: u32,
    /// Index of the first interval's polynomial. Negative by as many as are left out before it.
    pub first: i32,
}

impl BitTable {
    /// The function's value at `x`, which must be positive. Outside of the table it is a number without
    /// meaning: who asks keeps within the limits.
    #[inline]
    pub fn value(&self, x: f64) -> f64 {
        self.piece(x).map_or(f64::NAN, |(polynomial, t, _)| polynomial_value(polynomial, t))
    }

    /// The function's slope at `x`, under the same terms.
    pub fn slope(&self, x: f64) -> f64 {
        self.piece(x).map_or(f64::NAN, |(polynomial, t, split)| {
            let (low, high) = Self::interval(Self::exponent_of(x), split, 0);
            polynomial_slope(polynomial, t) / (high - low)
        })
    }

    /// The polynomial that holds at `x`, its local variable there, and into how many bits of intervals its octave is
    /// divided.
    #[inline]
    fn piece(&self, x: f64) -> Option<(&Polynomial, f64, u32)> {
        let bits = x.to_bits();
        let exponent = (bits >> MANTISSA_BITS) as u32;
        let highest = self.octaves.len().saturating_sub(1);
        let octave = (exponent.saturating_sub(self.lowest_exponent) as usize).min(highest);
        let &Octave { bits: split, first } = self.octaves.get(octave)?;
        let interval = ((bits & MANTISSA) >> (MANTISSA_BITS - split)) as i32;
        let last = self.polynomials.len().saturating_sub(1);
        let index = ((first + interval).max(0) as usize).min(last);
        let rest = (bits << split) & MANTISSA;
        let t = f64::from_bits(EXPONENT_OF_ONE << MANTISSA_BITS | rest) - 1.5;
        self.polynomials.get(index).map(|polynomial| (polynomial, t, split))
    }

    /// Least and greatest `x` of an interval.
    pub fn interval(exponent: u32, bits: u32, index: u32) -> (f64, f64) {
        let octave = f64::from_bits(u64::from(exponent) << MANTISSA_BITS);
        let width = octave / f64::from(1u32 << bits);
        let low = octave + width * f64::from(index);
        (low, low + width)
    }

    /// The exponent of `x` as it stands in its bits.
    pub fn exponent_of(x: f64) -> u32 {
        (x.to_bits() >> MANTISSA_BITS) as u32
    }
}

/// The polynomial at `t`, in an order of operations that leaves few to wait for each other.
#[inline]
pub fn polynomial_value(c: &Polynomial, t: f64) -> f64 {
    let t2 = t * t;
    let low = (c[0] + c[1] * t) + (c[2] + c[3] * t) * t2;
    let high = (c[4] + c[5] * t) + (c[6] + c[7] * t) * t2;
    low + high * (t2 * t2)
}

/// The slope of the polynomial at `t`.
fn polynomial_slope(c: &Polynomial, t: f64) -> f64 {
    c.iter().enumerate().skip(1).rev().fold(0.0, |sum, (power, c)| sum * t + power as f64 * c)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two octaves from 1, the second in halves, of which the first is left out.
    #[test]
    fn bits_find_the_interval_and_the_local_variable() {
        let constant = |c: f64| [c, 0.25, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0];
        let table = BitTable {
            lowest_exponent: BitTable::exponent_of(1.0),
            octaves: vec![Octave { bits: 0, first: 0 }, Octave { bits: 1, first: 0 }],
            polynomials: vec![constant(10.0), constant(20.0)],
        };
        assert_eq!(table.value(1.0), 10.0 - 0.125);
        assert_eq!(table.value(1.5), 10.0);
        assert_eq!(table.value(3.0), 20.0 - 0.125);
        assert_eq!(table.value(3.75), 20.0 + 0.0625);
        // A slope of the local variable, which runs through an interval's width.
        assert_eq!((table.slope(1.25), table.slope(3.25)), (0.25, 0.25));
        // Outside, some interval answers.
        assert!(table.value(1e-300) > 9.0 && table.value(1e300) > 9.0);
        assert_eq!(BitTable::interval(BitTable::exponent_of(2.0), 1, 1), (3.0, 4.0));
    }
}
