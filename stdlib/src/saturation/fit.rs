//! Fitting bit-indexed polynomials to a monotone function.

use super::bit_table::{BitTable, Octave, Polynomial, TERMS, polynomial_value};

/// Coefficients are multiples of this share of the largest power of two in the first one, so that
/// they can be written in few bytes.
pub const QUANTUM: f64 = 1.0 / (1u64 << 44) as f64;

/// Most bits that an octave is divided by.
const BITS_MAX: u32 = 8;

/// A fitted table and how well it fits.
pub struct Fitted {
    /// The table.
    pub table: BitTable,
    /// Largest relative error at the points tried, which lie between those fitted to.
    pub error: f64,
}

/// Fits `f` over `low` … `high` to the relative `tolerance`, with as few intervals as it takes.
/// `f` must be defined a little beyond both ends, and be monotone.
pub fn fit(f: &impl Fn(f64) -> f64, low: f64, high: f64, tolerance: f64) -> Fitted {
    let (lowest, highest) = (BitTable::exponent_of(low), BitTable::exponent_of(high));
    let mut table = BitTable { lowest_exponent: lowest, ..BitTable::default() };
    let mut error = 0.0f64;
    for exponent in lowest..=highest {
        let mut best = octave(f, exponent, 0, low, high);
        while best.error > tolerance && best.bits < BITS_MAX {
            best = octave(f, exponent, best.bits + 1, low, high);
        }
        error = error.max(best.error);
        let first = table.polynomials.len() as i32 - best.left_out as i32;
        table.octaves.push(Octave { bits: best.bits, first });
        table.polynomials.extend(best.polynomials);
    }
    Fitted { table, error }
}

struct FittedOctave {
    bits: u32,
    left_out: u32,
    polynomials: Vec<Polynomial>,
    error: f64,
}

fn octave(f: &impl Fn(f64) -> f64, exponent: u32, bits: u32, low: f64, high: f64) -> FittedOctave {
    let mut fitted = FittedOctave { bits, left_out: 0, polynomials: Vec::new(), error: 0.0 };
    for index in 0..1u32 << bits {
        let (a, b) = BitTable::interval(exponent, bits, index);
        if b <= low {
            fitted.left_out += 1;
        } else if a <= high {
            let (polynomial, error) = interval(f, a, b, low, high);
            fitted.polynomials.push(polynomial);
            fitted.error = fitted.error.max(error);
        }
    }
    fitted
}

/// The polynomial on `a` … `b` and its largest relative error within `low` … `high`.
///
/// It passes through the function at both ends, so that neighbours join; and then it is tilted by
/// as much as rounding may spoil, inwards at both ends, so that where two join the function never
/// steps back.
fn interval(f: &impl Fn(f64) -> f64, a: f64, b: f64, low: f64, high: f64) -> (Polynomial, f64) {
    let at = |t: f64| f(a + (t + 0.5) * (b - a));
    // Chebyshev–Lobatto points of −½ … ½.
    let node = |k: usize| -0.5 * libm::cos(std::f64::consts::PI * k as f64 / (TERMS - 1) as f64);
    let nodes: [f64; TERMS] = std::array::from_fn(node);
    let mut polynomial = through(&nodes, &nodes.map(at));
    let quantum = quantum_of(polynomial[0]);
    let rising = polynomial_value(&polynomial, 0.5) > polynomial_value(&polynomial, -0.5);
    let slack = if rising { 4.0 * quantum } else { -4.0 * quantum };
    polynomial[1] -= 2.0 * slack;
    // The first one may round up to a power of two, and so to a larger quantum.
    polynomial[0] = libm::rint(polynomial[0] / quantum) * quantum;
    let quantum = quantum_of(polynomial[0]);
    for c in &mut polynomial {
        *c = libm::rint(*c / quantum) * quantum;
    }
    let mut error = 0.0f64;
    // Tried where it will be used, however short a part of the interval that is.
    let (from, to) = (a.max(low), b.min(high));
    for k in 0..=32 {
        let x = from + f64::from(k) / 32.0 * (to - from);
        let t = (x - a) / (b - a) - 0.5;
        error = error.max((polynomial_value(&polynomial, t) / f(x) - 1.0).abs());
    }
    (polynomial, error)
}

/// The unit that coefficients are multiples of, given the first one.
pub fn quantum_of(first: f64) -> f64 {
    let (_, exponent) = libm::frexp(first);
    libm::ldexp(QUANTUM, exponent)
}

/// Coefficients of the polynomial through the values at the nodes: Newton's divided differences,
/// then multiplied out.
fn through(nodes: &[f64; TERMS], values: &[f64; TERMS]) -> Polynomial {
    let mut difference = *values;
    for order in 1..TERMS {
        for k in (order..TERMS).rev() {
            difference[k] = (difference[k] - difference[k - 1]) / (nodes[k] - nodes[k - order]);
        }
    }
    let mut polynomial = [0.0; TERMS];
    for k in (0..TERMS).rev() {
        // polynomial · (t − node) + difference
        for j in (1..TERMS).rev() {
            polynomial[j] = polynomial[j - 1] - nodes[k] * polynomial[j];
        }
        polynomial[0] = difference[k] - nodes[k] * polynomial[0];
    }
    polynomial
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_root_is_resolved_and_the_joins_do_not_step_back() {
        let f = |x: f64| 300.0 - 2.0 * x.sqrt();
        let Fitted { table, error } = fit(&f, 1e-3, 100.0, 1e-11);
        assert!(error <= 1e-11, "{error}");
        let mut joins = 0;
        for (k, octave) in table.octaves.iter().enumerate() {
            for index in 0..1u32 << octave.bits {
                let (a, _) = BitTable::interval(table.lowest_exponent + k as u32, octave.bits, index);
                if a > 1.1e-3 && a < 100.0 {
                    let before = f64::from_bits(a.to_bits() - 1);
                    assert!(table.value(before) >= table.value(a), "at {a}");
                    joins += 1;
                }
            }
        }
        assert!(joins > 16);
    }
}
