//! The seam for functions: how a trade function is declared, and how it is handed its arguments.
//!
//! One [`Function`] value feeds the kind checker, named arguments, help, completion, the function reference and the
//! tests that run its examples. A crate outside this project adds functions in the same way: it builds [`Function`]s
//! and puts them into a [`Library`].
//!
//! Kinds of parameters and results are named by a unit of the language, which says point, difference or open as in a
//! sheet: `kPaa` is an absolute pressure point, `kPa` a difference of pressures, `Pa` an open pressure, `degC` a
//! temperature point, `C°` a difference of temperatures, `m` a length. Numbers cross the seam as bare SI `f64`s;
//! points as absolute SI (kelvin, pascal absolute).

mod answers;
mod arguments;
mod declare;
mod drawing;
mod of_numbers;
mod value;

pub use arguments::{Argument, Arguments, ColumnView, Context};
pub use declare::{
    Accepts, Basic, Body, Default, Draws, Example, Field, Function, Group, Parameter, Returns, field, maybe_field,
    parameter,
};
pub use drawing::{Axis, Drawing, Limit, Mark, Series};
pub use of_numbers::OfNumbers;
pub use value::{Failure, Value};

use std::collections::BTreeMap;

/// Functions known to a sheet, and constants such as gases.
#[derive(Debug, Default)]
pub struct Library {
    functions: BTreeMap<&'static str, Function>,
    gases: Vec<&'static str>,
    refrigerants: Option<RefrigerantCheck>,
}

/// Says whether a refrigerant of this canonical designation is known, or why not.
pub type RefrigerantCheck = fn(&str) -> Result<(), Failure>;

impl Library {
    /// A library without functions.
    pub fn new() -> Library {
        Library::default()
    }

    /// Adds a function; one of the same name is replaced and returned.
    pub fn add(&mut self, function: Function) -> Option<Function> {
        self.functions.insert(function.name, function)
    }

    /// Adds a gas, known to sheets by this name.
    pub fn add_gas(&mut self, name: &'static str) {
        self.gases.push(name);
    }

    /// Sets who knows which refrigerants there are.
    pub fn check_refrigerants_with(&mut self, check: RefrigerantCheck) {
        self.refrigerants = Some(check);
    }

    /// The function of this name.
    pub fn function(&self, name: &str) -> Option<&Function> {
        self.functions.get(name)
    }

    /// All functions in the order of their names.
    pub fn functions(&self) -> impl Iterator<Item = &Function> {
        self.functions.values()
    }

    /// The gas of this name.
    pub fn gas(&self, name: &str) -> Option<&'static str> {
        self.gases.iter().copied().find(|gas| *gas == name)
    }

    /// All gases in the order of adding.
    pub fn gases(&self) -> &[&'static str] {
        &self.gases
    }

    /// Whether a refrigerant is known, or why not. Without a check every designation is.
    pub fn refrigerant(&self, designation: &str) -> Result<(), Failure> {
        self.refrigerants.map_or(Ok(()), |check| check(designation))
    }
}
