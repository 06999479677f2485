//! What functions give back.

use crate::moment::Moment;

/// A result. Numbers are SI; points absolute SI.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A number or quantity.
    Number(f64),
    /// A text.
    Text(String),
    /// True or false.
    Flag(bool),
    /// A date or time.
    Moment(Moment),
    /// A refrigerant, by designation.
    Refrigerant(String),
    /// A gas, by name.
    Gas(String),
    /// The fields of a record in the order of its declaration; a *maybe* field may be a failure.
    Record(Vec<Result<Value, Failure>>),
    /// A value or a record a row; a failure breaks its row only.
    Column(Vec<Result<Value, Failure>>),
}

/// Why a function gives no value: outside its limits, or a state that does not exist.
#[derive(Debug, Clone, PartialEq)]
pub struct Failure {
    /// One line that names limit and value, such as `R-32 has no liquid above 78.1 °C; asked at 85.0 °C`.
    pub message: String,
    /// The parameter it is about; the place of the message is then that argument.
    pub parameter: Option<&'static str>,
    /// How to mend it.
    pub mend: Option<String>,
}

impl Failure {
    /// A failure of the call as a whole.
    pub fn new(message: impl Into<String>) -> Failure {
        Failure { message: message.into(), parameter: None, mend: None }
    }

    /// A failure of one argument.
    pub fn of(parameter: &'static str, message: impl Into<String>) -> Failure {
        Failure { message: message.into(), parameter: Some(parameter), mend: None }
    }

    /// Says how to mend it.
    pub fn with_mend(mut self, mend: impl Into<String>) -> Failure {
        self.mend = Some(mend.into());
        self
    }
}

impl From<f64> for Value {
    fn from(number: f64) -> Value {
        Value::Number(number)
    }
}

impl From<bool> for Value {
    fn from(flag: bool) -> Value {
        Value::Flag(flag)
    }
}

impl From<&str> for Value {
    fn from(text: &str) -> Value {
        Value::Text(text.to_string())
    }
}

impl From<String> for Value {
    fn from(text: String) -> Value {
        Value::Text(text)
    }
}
