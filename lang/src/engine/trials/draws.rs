//! Draws from the distributions that causes of doubt have (JCGM 101, 6.4), the same for a seed on every machine.
//!
//! Trials are drawn in chunks, each from a stream of its own of one counter-based generator, so that it does not matter
//! which thread works out which chunk, nor how many there are.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

use crate::engine::origins::{Origins, Shape};

/// Draws for the trials of one chunk.
pub struct Draws {
    random: ChaCha8Rng,
    /// The second of a pair of normal draws.
    spare: Option<f64>,
}

impl Draws {
    /// Of one chunk.
    pub fn of_chunk(seed: u64, chunk: u64) -> Draws {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        random.set_stream(chunk);
        Draws { random, spare: None }
    }

    /// One draw for each cause, in standard uncertainties.
    pub fn trial(&mut self, origins: &Origins, draws: &mut Vec<f64>) {
        draws.clear();
        for origin in origins.all() {
            for _ in 0..origin.count {
                let draw = self.one(origin.shape);
                draws.push(draw);
            }
        }
    }

    fn one(&mut self, shape: Shape) -> f64 {
        match shape {
            Shape::Rectangular => 3.0_f64.sqrt() * (2.0 * self.uniform() - 1.0),
            Shape::Normal => self.normal(),
            Shape::Student(freedom) => self.student(freedom),
        }
    }

    /// Between 0 and 1, neither of them.
    fn uniform(&mut self) -> f64 {
        ((self.random.next_u64() >> 12) as f64 + 0.5) / (1_u64 << 52) as f64
    }

    /// Box and Muller's pair (JCGM 101, C.4).
    fn normal(&mut self) -> f64 {
        if let Some(spare) = self.spare.take() {
            return spare;
        }
        let radius = (-2.0 * libm::log(self.uniform())).sqrt();
        let angle = 2.0 * std::f64::consts::PI * self.uniform();
        self.spare = Some(radius * libm::sin(angle));
        radius * libm::cos(angle)
    }

    /// Bailey's polar way (Math. Comp. 62 (1994) 779), good for any number of degrees of freedom.
    fn student(&mut self, freedom: f64) -> f64 {
        let radius = (freedom * (libm::pow(self.uniform(), -2.0 / freedom) - 1.0)).sqrt();
        radius * libm::cos(2.0 * std::f64::consts::PI * self.uniform())
    }
}

#[cfg(test)]
mod tests {
    use super::Draws;
    use crate::engine::coverage;
    use crate::engine::origins::Shape;

    /// The share of draws below some bounds, against the distribution in closed form: four standard errors are allowed.
    #[test]
    fn draws_lie_as_they_should() {
        const COUNT: usize = 100_000;
        let mut draws = Draws::of_chunk(11, 0);
        for shape in [Shape::Rectangular, Shape::Normal, Shape::Student(3.0), Shape::Student(18.0)] {
            let all: Vec<f64> = (0..COUNT).map(|_| draws.one(shape)).collect();
            for bound in [-2.0, -1.0, -0.3, 0.0, 0.7, 1.5] {
                let expected = match shape {
                    Shape::Rectangular => (0.5 + bound / (2.0 * 3.0_f64.sqrt())).clamp(0.0, 1.0),
                    Shape::Normal => coverage::below(bound, None),
                    Shape::Student(freedom) => coverage::below(bound, Some(freedom)),
                };
                let share = all.iter().filter(|draw| **draw <= bound).count() as f64 / COUNT as f64;
                let error = (expected * (1.0 - expected) / COUNT as f64).sqrt();
                assert!((share - expected).abs() <= 4.0 * error + 1e-12, "{shape:?} {bound}: {share} for {expected}");
            }
        }
    }
}
