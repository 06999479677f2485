//! What the refrigerant library answers when it has no number: always a limit and a value.

use std::fmt;

/// Why a name leads to no refrigerant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NameError {
    /// No such designation.
    Unknown {
        /// The name as asked.
        asked: String,
        /// Designations that look alike, nearest first.
        alike: Vec<&'static str>,
    },
    /// A refrigerant of ASHRAE 34 that has no model here.
    NotModelled {
        /// Its designation.
        designation: &'static str,
        /// The reason in words.
        reason: String,
    },
}

impl fmt::Display for NameError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unknown { asked, .. } => write!(f, "no refrigerant {asked} is built in"),
            Self::NotModelled { designation, reason } => {
                write!(f, "{designation} cannot be computed: {reason}")
            }
        }
    }
}

impl std::error::Error for NameError {}

/// A value in SI with what it is, so that a message can show it in the reader's units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value {
    /// K
    Temperature(f64),
    /// Pa, absolute
    Pressure(f64),
    /// kg/m³
    Density(f64),
    /// J/kg
    Enthalpy(f64),
    /// J/(kg K)
    Entropy(f64),
}

/// A limit that a question went beyond.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// Above the end of the bubble line.
    EndOfBubbleLine,
    /// Above the end of the dew line.
    EndOfDewLine,
    /// Above the critical point of a pure fluid.
    Critical,
    /// Below the lowest temperature of the equation, or the pressure on the line there.
    Lowest,
    /// Above the highest temperature of the equation.
    HighestTemperature,
    /// Above the highest pressure of the equation.
    HighestPressure,
}

/// Why there is no value.
#[derive(Clone, Debug, PartialEq)]
pub enum PropertyError {
    /// The question lies beyond a limit.
    OutOfRange {
        /// Which.
        limit: Limit,
        /// The limit's value.
        at: Value,
        /// What was asked.
        asked: Value,
    },
    /// Pressure and temperature lie between the bubble and the dew line, where they do not
    /// determine a state.
    InsideDome {
        /// K
        asked: f64,
        /// Pa
        pressure: f64,
        /// Bubble temperature at that pressure, K.
        bubble: f64,
        /// Dew temperature at that pressure, K.
        dew: f64,
    },
    /// Not a positive finite number.
    NotPositive(Value),
    /// No state has these values within the limits of the equation.
    NoState(Value, Value),
    /// No published correlation, in words.
    NotPublished(String),
}

/// For programs in Rust; what a user reads, in both unit systems, is written where the trade functions refuse.
impl fmt::Display for PropertyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotPublished(what) => f.write_str(what),
            other => write!(f, "{other:?}"),
        }
    }
}

impl std::error::Error for PropertyError {}
