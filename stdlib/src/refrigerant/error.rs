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
            Self::Unknown { asked, alike } => {
                write!(f, "no refrigerant is designated {asked}")?;
                match alike.as_slice() {
                    [] => Ok(()),
                    names => write!(f, "; did you mean {}?", names.join(" or ")),
                }
            }
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

impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Temperature(t) => write!(f, "{} °C", short(t - 273.15)),
            Self::Pressure(p) => write!(f, "{} kPa absolute", short(p / 1000.0)),
            Self::Density(rho) => write!(f, "{} kg/m³", short(rho)),
            Self::Enthalpy(h) => write!(f, "{} kJ/kg", short(h / 1000.0)),
            Self::Entropy(s) => write!(f, "{} kJ/(kg·K)", short(s / 1000.0)),
        }
    }
}

/// About five figures, without trailing noughts.
fn short(value: f64) -> String {
    let size = value.abs();
    let places: usize = match size {
        s if s >= 10_000.0 => 0,
        s if s >= 1000.0 => 1,
        s if s >= 10.0 => 2,
        s if s >= 0.1 => 4,
        _ => return format!("{value:.3e}"),
    };
    let text = format!("{value:.places$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_string() } else { text }
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

impl fmt::Display for Limit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::EndOfBubbleLine => "above the end of the bubble line",
            Self::EndOfDewLine => "above the end of the dew line",
            Self::Critical => "above critical",
            Self::Lowest => "below the lowest that the equation is valid for",
            Self::HighestTemperature | Self::HighestPressure => "above the highest that the equation is valid for",
        })
    }
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

impl fmt::Display for PropertyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OutOfRange { limit, at, asked } => write!(f, "{limit}: {at}, asked {asked}"),
            Self::InsideDome { asked, pressure, bubble, dew } => write!(
                f,
                "two phases: at {} it boils from {} to {}, asked {}",
                Value::Pressure(*pressure),
                Value::Temperature(*bubble),
                Value::Temperature(*dew),
                Value::Temperature(*asked),
            ),
            Self::NotPositive(value) => write!(f, "not above zero on the absolute scale: {value}"),
            Self::NoState(first, second) => {
                write!(f, "no state within the equation's limits has {first} and {second}")
            }
            Self::NotPublished(what) => f.write_str(what),
        }
    }
}

impl std::error::Error for PropertyError {}
