//! A stretch of the two-phase line as polynomials of the separation S.

/// Number of Chebyshev coefficients of a piece.
pub const NODES: usize = 14;

/// A point of the line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LinePoint {
    /// S = ln(ρ_feed/ρ_incipient)
    pub separation: f64,
    /// ln T, T in K
    pub ln_temperature: f64,
    /// ln p, p in Pa
    pub ln_pressure: f64,
    /// ln ρ of the phase at the nominal composition, ρ in mol/m³
    pub ln_density: f64,
}

impl LinePoint {
    /// T, K
    pub fn temperature(&self) -> f64 {
        libm::exp(self.ln_temperature)
    }

    /// p, Pa
    pub fn pressure(&self) -> f64 {
        libm::exp(self.ln_pressure)
    }

    /// ρ of the phase at the nominal composition, mol/m³
    pub fn density(&self) -> f64 {
        libm::exp(self.ln_density)
    }
}

/// Adjoining pieces in falling S. At least one.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    pieces: Vec<Piece>,
}

impl Curve {
    /// A curve of adjoining pieces in falling S; `None` of none.
    pub fn new(pieces: Vec<Piece>) -> Option<Self> {
        if pieces.is_empty() { None } else { Some(Self { pieces }) }
    }

    /// The pieces.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Largest S.
    pub fn highest(&self) -> f64 {
        self.pieces[0].high
    }

    /// Least S.
    pub fn lowest(&self) -> f64 {
        self.pieces[self.pieces.len() - 1].low
    }

    /// The point at separation `s`.
    pub fn at(&self, s: f64) -> LinePoint {
        self.piece(s).at(s)
    }

    /// d ln T/dS and d ln p/dS at separation `s`.
    pub fn slopes(&self, s: f64) -> (f64, f64) {
        self.piece(s).slopes(s)
    }

    /// The point between separations `a` and `b`, where `value` is monotone, at which it equals
    /// `target`; the nearer end where it does not come to that.
    pub fn find(&self, a: f64, b: f64, target: f64, value: impl Fn(&LinePoint) -> f64) -> LinePoint {
        let (start, stop) = (self.at(a), self.at(b));
        let (low, high) = (value(&start), value(&stop));
        if (target - low) * (high - low) <= 0.0 {
            return start;
        }
        if (target - high) * (high - low) >= 0.0 {
            return stop;
        }
        self.at(root(|s| value(&self.at(s)) - target, a, b))
    }

    fn piece(&self, s: f64) -> &Piece {
        let last = self.pieces.len() - 1;
        &self.pieces[self.pieces.partition_point(|piece| piece.low > s).min(last)]
    }
}

/// The line between two separations, by Chebyshev polynomials.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Largest S.
    pub high: f64,
    /// Least S.
    pub low: f64,
    /// Coefficients of ln T, ln p and ln ρ.
    pub coefficients: [[f64; 3]; NODES],
}

impl Piece {
    /// The node of index `k` on the way from `near` to `far`.
    pub fn node(near: f64, far: f64, k: usize) -> f64 {
        0.5 * (near + far) + 0.5 * (near - far) * libm::cos(angle(k))
    }

    /// The piece through the values of ln T, ln p and ln ρ at the nodes from `near` to `far`.
    pub fn through(near: f64, far: f64, values: &[[f64; 3]; NODES]) -> Self {
        let mut coefficients = [[0.0; 3]; NODES];
        for (j, coefficient) in coefficients.iter_mut().enumerate() {
            // Chebyshev polynomials of odd order change sign with the direction.
            let sign = if near < far && j % 2 == 1 { -1.0 } else { 1.0 };
            let norm = sign * if j == 0 { 1.0 } else { 2.0 } / NODES as f64;
            for (k, value) in values.iter().enumerate() {
                let weight = norm * libm::cos(j as f64 * angle(k));
                for (sum, v) in coefficient.iter_mut().zip(value) {
                    *sum += weight * v;
                }
            }
        }
        Self { high: near.max(far), low: near.min(far), coefficients }
    }

    /// Size of the last two coefficients of ln T and ln p: what the next ones may be.
    pub fn tail(&self) -> f64 {
        let last = &self.coefficients[NODES - 2..];
        last.iter().fold(0.0, |tail: f64, c| tail.max(c[0].abs()).max(c[1].abs()))
    }

    /// The point at separation `s`, by Clenshaw's recurrence.
    pub fn at(&self, s: f64) -> LinePoint {
        let x = self.local(s);
        let (mut b1, mut b2) = ([0.0; 3], [0.0; 3]);
        for c in self.coefficients.iter().skip(1).rev() {
            for k in 0..3 {
                let b0 = 2.0 * x * b1[k] - b2[k] + c[k];
                b2[k] = b1[k];
                b1[k] = b0;
            }
        }
        let value = |k: usize| self.coefficients[0][k] + x * b1[k] - b2[k];
        LinePoint { separation: s, ln_temperature: value(0), ln_pressure: value(1), ln_density: value(2) }
    }

    /// d ln T/dS and d ln p/dS, by Chebyshev polynomials of the second kind.
    fn slopes(&self, s: f64) -> (f64, f64) {
        let x = self.local(s);
        let mut sums = [0.0; 2];
        let (mut u0, mut u1) = (0.0, 1.0);
        for (k, c) in self.coefficients.iter().enumerate().skip(1) {
            for (sum, c) in sums.iter_mut().zip(c) {
                *sum += k as f64 * c * u1;
            }
            (u0, u1) = (u1, 2.0 * x * u1 - u0);
        }
        let scale = 2.0 / (self.high - self.low);
        (scale * sums[0], scale * sums[1])
    }

    fn local(&self, s: f64) -> f64 {
        (2.0 * s - self.high - self.low) / (self.high - self.low)
    }
}

fn angle(k: usize) -> f64 {
    std::f64::consts::PI * (k as f64 + 0.5) / NODES as f64
}

/// Root of `f` between `a` and `b`, where its sign changes: the method of Illinois, kept inside by
/// bisection every fourth time.
pub fn root(f: impl Fn(f64) -> f64, mut a: f64, mut b: f64) -> f64 {
    let (mut fa, mut fb) = (f(a), f(b));
    for iteration in 0..200 {
        if fa == 0.0 {
            return a;
        }
        if fb == 0.0 {
            return b;
        }
        let secant = (a * fb - b * fa) / (fb - fa);
        let middle = 0.5 * (a + b);
        let inside = (secant - a) * (secant - b) < 0.0;
        let c = if inside && iteration % 4 != 3 { secant } else { middle };
        if c == a || c == b {
            return c;
        }
        let fc = f(c);
        if fc * fb < 0.0 {
            (a, fa) = (b, fb);
        } else {
            fa *= 0.5;
        }
        (b, fb) = (c, fc);
        if (a - b).abs() < 1e-15 * (1.0 + b.abs()) {
            return b;
        }
    }
    0.5 * (a + b)
}
