//! A field of a data file, as what its column is of.

use std::sync::Arc;

use crate::kinds::{Kind, algebra, folded, mend_of_word};
use crate::library::Library;
use crate::moment::Moment;
use crate::plan::{Datum, Typing};
use crate::syntax::{self, tree::ExprKind};
use crate::units::{self, Unit};

/// Why a field cannot be what its column is.
pub struct Misread {
    /// What goes on behind the field.
    pub what: String,
    /// How to mend it, where there is a way.
    pub mend: Option<String>,
}

impl Misread {
    /// A field that is something.
    pub fn is(what: &str) -> Misread {
        Misread { what: format!(" is {what}"), mend: None }
    }

    fn told(message: &str, mend: Option<String>) -> Misread {
        Misread { what: format!(": {message}"), mend }
    }

    /// Adds how to mend it.
    pub fn with_mend(mut self, mend: impl Into<String>) -> Misread {
        self.mend = Some(mend.into());
        self
    }
}

/// A number as held: bare, or with a unit of the same kind.
pub fn number(field: &str, unit: Option<&Unit>, typing: &Typing) -> Result<f64, Misread> {
    let (digits, rest) = field.split_at(length_of_number(field));
    let no_number = || Misread::is("no number");
    let number = digits.parse::<f64>().map_err(|_| no_number())?;
    if !number.is_finite() {
        return Err(Misread::is("too large to hold"));
    }
    if rest.starts_with(',') {
        let end = field.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ','))).unwrap_or(field.len());
        let mend = syntax::mend_of_commas(field[..end].trim_end_matches(','), None, true);
        return Err(Misread::is("no number: it has a comma between digits").with_mend(mend));
    }
    if rest.is_empty() {
        return held(number, unit, typing);
    }
    let own = units::parse(rest.trim()).map_err(|problem| Misread {
        mend: problem.mend,
        ..Misread::is(&format!("no number with a unit: {}", problem.message))
    })?;
    algebra::fits(&Kind::of_unit(&own), &typing.kind)
        .map_err(|refusal| Misread::told(&refusal.message, refusal.mend))?;
    held(number, Some(&own), typing)
}

/// A yes or no.
pub fn flag(field: &str) -> Result<bool, Misread> {
    match field.to_ascii_lowercase().as_str() {
        "true" | "yes" => Ok(true),
        "false" | "no" => Ok(false),
        _ => Err(Misread::is("neither true nor false").with_mend("write `true` or `false`")),
    }
}

/// A date, or a date with its time.
pub fn moment(field: &str) -> Result<Moment, Misread> {
    Moment::parse(field).map_err(|problem| Misread::told(&problem.message, problem.mend))
}

/// A text, one of several, or the name of a fluid.
pub fn word(field: &str, kind: &Kind, library: &Library) -> Result<Arc<str>, Misread> {
    match kind {
        Kind::Text(Some(words)) => match folded(words, field) {
            Some(word) => Ok(Arc::from(word)),
            None => Err(Misread::is("none of the words of its column").with_mend(mend_of_word(words, field))),
        },
        Kind::Refrigerant => match syntax::parse_field(field) {
            Some(ExprKind::Refrigerant(name)) => {
                let known = library.refrigerant(&name);
                known.map_err(|failure| Misread::told(&failure.message, failure.mend)).map(|()| Arc::from(name))
            }
            _ => Err(Misread::is("no refrigerant's designation").with_mend("write it as `R-410A`")),
        },
        Kind::Gas => match library.gas(&field.to_lowercase()) {
            Some(gas) => Ok(Arc::from(gas)),
            None => Err(Misread::is("no gas").with_mend(format!("one of {}", library.gases().join(", ")))),
        },
        _ => Ok(Arc::from(field)),
    }
}

/// How many bytes of a field are its number. Its exponent belongs to it if digits follow: `1e3 Pa`, but `5 eV`.
fn length_of_number(field: &str) -> usize {
    let rest = |from: usize, allowed: fn(char) -> bool| {
        field[from..].find(|c: char| !allowed(c)).map_or(field.len(), |length| from + length)
    };
    let mantissa = rest(0, |c| c.is_ascii_digit() || matches!(c, '.' | '-' | '+'));
    let Some(exponent) = field[mantissa..].strip_prefix(['e', 'E']) else { return mantissa };
    let sign = usize::from(exponent.starts_with(['+', '-']));
    let end = rest(mantissa + 1 + sign, |c| c.is_ascii_digit());
    if end > mantissa + 1 + sign { end } else { mantissa }
}

fn held(number: f64, unit: Option<&Unit>, typing: &Typing) -> Result<f64, Misread> {
    let Some(unit) = unit else { return Ok(number) };
    let si = unit.to_si(number, 0.0);
    let gauge = unit.needs_atmosphere();
    if gauge != (typing.datum == Datum::Gauge) {
        let mend = format!("give the column the unit {} in the sheet", unit.text);
        return Err(Misread::told("this mixes gauge and absolute pressure with the rest of its column", Some(mend)));
    }
    if !gauge && typing.kind.is_bounded_by_zero() && si <= 0.0 {
        return Err(Misread::is("at or below absolute zero").with_mend("a value not taken is an empty field or `?`"));
    }
    if si.is_finite() { Ok(si) } else { Err(Misread::is("too large to hold")) }
}

#[cfg(test)]
mod tests {
    use super::length_of_number;

    #[test]
    fn a_number_ends_where_its_unit_begins() {
        for (field, length) in
            [("12.5", 4), ("-3 psig", 2), ("1e3", 3), ("1e3 Pa", 3), ("5.2E-03 Torr", 7), ("5 eV", 1), ("5e", 1)]
        {
            assert_eq!(length_of_number(field), length, "{field}");
        }
        for (field, length) in [("", 0), ("abc", 0), ("1e+", 1), ("1e+x", 1), ("5°", 1), ("e5", 2)] {
            assert_eq!(length_of_number(field), length, "{field}");
        }
    }
}
