//! What a function or a word still takes, told behind the cursor as a comment, so that it reads without colour too.

use dewline_lang::kinds::GENERAL;
use dewline_lang::library::{Accepts, Basic, Function, Parameter};
use dewline_lang::syntax::{Class, form};
use dewline_lang::units::{UnitSystem, default_unit};

use super::cursor::{Call, Cursor};
use super::units::of_parameter;
use crate::session::{Mode, SAYINGS, Session};
use crate::words::width;

/// Columns below which a hint says nothing.
const LEAST: usize = 14;

impl Session {
    /// The hint behind a line in so many columns.
    pub fn hint(&self, line: &str, columns: usize) -> Option<String> {
        if !matches!(self.mode, Mode::Lines) || line.trim().is_empty() {
            return None;
        }
        let text = self.hinted(line)?;
        let last = line.rsplit('\n').next().unwrap_or(line);
        let room = columns.saturating_sub(width(last));
        let hint = format!("  # {text}");
        match width(&hint) <= room {
            true => Some(hint),
            false if room < LEAST => None,
            false => {
                let mut cut = hint;
                while width(&cut) + 1 > room {
                    cut.pop();
                }
                Some(format!("{cut}…"))
            }
        }
    }

    fn hinted(&self, line: &str) -> Option<String> {
        let cursor = Cursor::at(line, line.len());
        if cursor.open_text().is_some() || cursor.words.last().is_some_and(|word| word.class == Class::Comment) {
            return None;
        }
        if let Some(call) = cursor.call() {
            return self.call_hint(&call, self.units_while(line));
        }
        if let Some(hint) = self.column_hint(line) {
            return Some(hint);
        }
        let alone = line.strip_suffix(' ').filter(|word| !word.contains(' '))?;
        match SAYINGS.iter().find(|saying| saying.word == alone) {
            Some(saying) if alone != "units" => (!saying.takes.is_empty()).then(|| saying.takes.to_string()),
            _ => form(alone).map(str::to_string),
        }
    }

    fn call_hint(&self, call: &Call<'_>, system: Option<UnitSystem>) -> Option<String> {
        if let Some(function) = self.library.function(call.function) {
            return remaining(function, call, system);
        }
        if let Some(define) = self.defines().find(|define| define.name.text == call.function) {
            let names: Vec<&str> =
                define.parameters.iter().skip(call.unnamed).map(|parameter| parameter.name.text.as_str()).collect();
            return (!names.is_empty()).then(|| names.join(", "));
        }
        let general = GENERAL.iter().find(|general| general.name == call.function)?;
        let inside = general.call.split_once('(')?.1.trim_end_matches(')');
        let rest: Vec<&str> = inside.split(", ").skip(call.unnamed).collect();
        (!rest.is_empty()).then(|| rest.join(", "))
    }
}

/// The parameters from this argument on. Those up to the last that must be given are told with their units; what may be
/// left out behind them is only named.
fn remaining(function: &Function, call: &Call<'_>, system: Option<UnitSystem>) -> Option<String> {
    let all = &function.parameters;
    let last_must = all.iter().rposition(|parameter| parameter.default.is_none());
    let current = call.name.and_then(|name| all.iter().find(|parameter| parameter.name == name));
    let open = |parameter: &Parameter| {
        !call.named.contains(&parameter.name) && current.is_none_or(|current| current.name != parameter.name)
    };
    let mut parts: Vec<String> = current.map(|parameter| named(parameter, system)).into_iter().collect();
    for (at, parameter) in all.iter().enumerate().skip(call.unnamed).filter(|(_, parameter)| open(parameter)) {
        let told = last_must.is_some_and(|last| at <= last);
        parts.push(if told { named(parameter, system) } else { format!("{} = …", parameter.name) });
    }
    (!parts.is_empty()).then(|| parts.join(", "))
}

/// `suction_pressure [psig]`; without its unit while nothing says in which units is worked.
fn named(parameter: &Parameter, system: Option<UnitSystem>) -> String {
    let Some(system) = system else { return parameter.name.to_string() };
    let units: Vec<String> = of_parameter(parameter)
        .iter()
        .map(|wanted| default_unit(wanted.dimension, wanted.stance, system).text)
        .filter(|text| text != "1")
        .collect();
    let what = match &parameter.accepts {
        _ if !units.is_empty() => units.join(" or "),
        Accepts::Choice(choices) => choices.join("/"),
        Accepts::One(Basic::Refrigerant) if parameter.name != "refrigerant" => "R-…".to_string(),
        _ => return parameter.name.to_string(),
    };
    format!("{} [{what}]", parameter.name)
}
