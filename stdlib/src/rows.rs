//! Columns row by row, where a row may be without a value and a column may be left out.

use dewline_lang::library::{Argument, Arguments, ColumnView};

/// A number of a column; nothing where it was not taken.
pub fn taken(values: Option<&[f64]>, row: usize) -> Option<f64> {
    values.and_then(|values| values.get(row)).copied().filter(|value| !value.is_nan())
}

/// A column of numbers that may be left out.
pub fn maybe_numbers<'a>(arguments: &Arguments<'a>, parameter: &'static str) -> Option<&'a [f64]> {
    arguments.numbers(parameter).ok()
}

/// A flag of a column that may be left out; nothing where it was not taken.
pub fn flag_at(arguments: &Arguments<'_>, parameter: &'static str, row: usize) -> Option<bool> {
    match arguments.get(parameter) {
        Argument::Column(ColumnView::Flags(flags)) => flags.get(row).copied().flatten(),
        _ => None,
    }
}
