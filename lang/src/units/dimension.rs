//! Dimensions as exponents of six base quantities.

/// Exponents are kept in sixtieths, so that halves, thirds, quarters, fifths and sixths are exact.
const PARTS: i16 = 60;

/// What a quantity is made of: length, mass, time, current, temperature, amount of substance.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Dimension([i16; 6]);

impl Dimension {
    /// A pure number.
    pub const NUMBER: Dimension = Dimension::whole([0, 0, 0, 0, 0, 0]);
    /// m
    pub const LENGTH: Dimension = Dimension::whole([1, 0, 0, 0, 0, 0]);
    /// kg
    pub const MASS: Dimension = Dimension::whole([0, 1, 0, 0, 0, 0]);
    /// s
    pub const TIME: Dimension = Dimension::whole([0, 0, 1, 0, 0, 0]);
    /// A
    pub const CURRENT: Dimension = Dimension::whole([0, 0, 0, 1, 0, 0]);
    /// K
    pub const TEMPERATURE: Dimension = Dimension::whole([0, 0, 0, 0, 1, 0]);
    /// mol
    pub const AMOUNT: Dimension = Dimension::whole([0, 0, 0, 0, 0, 1]);
    /// kg/(m·s²), Pa
    pub const PRESSURE: Dimension = Dimension::whole([-1, 1, -2, 0, 0, 0]);

    /// From whole exponents of m, kg, s, A, K, mol.
    pub const fn whole(exponents: [i16; 6]) -> Dimension {
        let mut parts = [0; 6];
        let mut index = 0;
        while index < 6 {
            parts[index] = exponents[index] * PARTS;
            index += 1;
        }
        Dimension(parts)
    }

    /// The dimension of a product, if its exponents stay in range.
    pub fn times(self, other: Dimension) -> Option<Dimension> {
        self.combine(other, i16::checked_add)
    }

    /// The dimension of a quotient, if its exponents stay in range.
    pub fn over(self, other: Dimension) -> Option<Dimension> {
        self.combine(other, i16::checked_sub)
    }

    /// The dimension of a power `numerator/denominator`, if its exponents stay in range and come out in sixtieths.
    pub fn power(self, numerator: i32, denominator: i32) -> Option<Dimension> {
        let mut parts = [0; 6];
        for (part, exponent) in parts.iter_mut().zip(self.0) {
            let product = i32::from(exponent).checked_mul(numerator)?;
            if denominator == 0 || product % denominator != 0 {
                return None;
            }
            *part = i16::try_from(product / denominator).ok()?;
        }
        Some(Dimension(parts))
    }

    /// A temperature or a pressure: these are points, differences or open.
    pub fn has_points(self) -> bool {
        self == Dimension::TEMPERATURE || self == Dimension::PRESSURE
    }

    /// A pure number.
    pub fn is_number(self) -> bool {
        self == Dimension::NUMBER
    }

    /// As base units with exponents, such as `kg/(m·s2)`; `1` for a number. A canonical text for JSON and messages.
    pub fn text(self) -> String {
        let name = ["m", "kg", "s", "A", "K", "mol"];
        // Mass first reads better: kg/(m·s2), not m-1·kg.
        let order = [1, 0, 2, 3, 4, 5];
        let write = |sign: i16| -> Vec<String> {
            order
                .iter()
                .filter(|&&index| self.0[index] * sign > 0)
                .map(|&index| {
                    let parts = self.0[index] * sign;
                    match (parts / PARTS, parts % PARTS) {
                        (1, 0) => name[index].to_string(),
                        (whole, 0) => format!("{}{whole}", name[index]),
                        _ => {
                            let (mut a, mut b) = (parts, PARTS);
                            while b != 0 {
                                (a, b) = (b, a % b);
                            }
                            format!("{}^({}/{})", name[index], parts / a, PARTS / a)
                        }
                    }
                })
                .collect()
        };
        let (over, under) = (write(1), write(-1));
        let upper = if over.is_empty() { "1".to_string() } else { over.join("·") };
        match under.len() {
            0 => upper,
            1 => format!("{upper}/{}", under[0]),
            _ => format!("{upper}/({})", under.join("·")),
        }
    }

    /// What it is called, with its article, where the trade has a name for it.
    pub fn name(self) -> Option<&'static str> {
        NAMES.iter().find(|(exponents, _)| Dimension::whole(*exponents) == self).map(|(_, name)| *name)
    }

    fn combine(self, other: Dimension, with: fn(i16, i16) -> Option<i16>) -> Option<Dimension> {
        let mut parts = [0; 6];
        for (part, (left, right)) in parts.iter_mut().zip(self.0.into_iter().zip(other.0)) {
            *part = with(left, right)?;
        }
        Some(Dimension(parts))
    }
}

/// Names for messages, by exponents of m, kg, s, A, K, mol.
static NAMES: &[([i16; 6], &str)] = &[
    ([1, 0, 0, 0, 0, 0], "a length"),
    ([2, 0, 0, 0, 0, 0], "an area"),
    ([3, 0, 0, 0, 0, 0], "a volume"),
    ([0, 1, 0, 0, 0, 0], "a mass"),
    ([0, 0, 1, 0, 0, 0], "a duration"),
    ([0, 0, 0, 1, 0, 0], "a current"),
    ([0, 0, 0, 0, 0, 1], "an amount of substance"),
    ([1, 0, -1, 0, 0, 0], "a velocity"),
    ([1, 0, -2, 0, 0, 0], "an acceleration"),
    ([3, 0, -1, 0, 0, 0], "a volume flow"),
    ([0, 1, -1, 0, 0, 0], "a mass flow"),
    ([-1, 1, 0, 0, 0, 0], "a mass per length"),
    ([-3, 1, 0, 0, 0, 0], "a density"),
    ([3, -1, 0, 0, 0, 0], "a specific volume"),
    ([1, 1, -2, 0, 0, 0], "a force"),
    ([2, 1, -2, 0, 0, 0], "an energy"),
    ([2, 1, -3, 0, 0, 0], "a power"),
    ([2, 0, -2, 0, 0, 0], "an energy per mass"),
    ([2, 0, -2, 0, -1, 0], "a heat capacity per mass"),
    ([0, 1, -3, 0, -1, 0], "a heat transfer coefficient"),
    ([-1, 1, -1, 0, 0, 0], "a viscosity"),
    ([2, 0, -1, 0, 0, 0], "a kinematic viscosity"),
    ([-1, 1, -3, 0, 0, 0], "a rate of pressure"),
    ([0, 0, -1, 0, 1, 0], "a rate of temperature"),
    ([0, 0, -1, 0, 0, 0], "a frequency"),
    ([2, 1, -3, -1, 0, 0], "a voltage"),
    ([2, 1, -3, -2, 0, 0], "a resistance"),
    ([0, 1, 0, 0, 0, -1], "a molar mass"),
];
