//! Calls of the trade library, from its own declarations.

use dewline_lang::library::{Accepts, Basic, Default, Function, Parameter, Returns};

use super::Author;
use super::kind::{COMMON, Kind, alike};

impl Author<'_> {
    /// A call that gives the kind, as a value or as a field of a record.
    pub fn call_giving(&mut self, kind: Kind, depth: usize) -> Option<String> {
        let library = self.library;
        let mut ways: Vec<(&Function, Option<&str>)> = Vec::new();
        for function in library.functions() {
            match &function.returns {
                Returns::One(basic) if alike(*basic, kind) => ways.push((function, None)),
                Returns::Record(fields) => {
                    let same = fields.iter().filter(|field| alike(field.kind, kind));
                    ways.extend(same.map(|field| (function, Some(field.name))));
                }
                _ => {}
            }
        }
        if ways.is_empty() {
            return None;
        }
        let (function, field) = self.choose(&ways);
        let call = self.call(function, depth)?;
        Some(match field {
            Some(field) => format!("{call}.{field}"),
            None => call,
        })
    }

    /// A call of any function.
    pub fn any_call(&mut self) -> Option<String> {
        let all: Vec<&Function> = self.library.functions().collect();
        let function = self.choose(&all);
        self.call(function, 2)
    }

    fn call(&mut self, function: &Function, depth: usize) -> Option<String> {
        let mut given = Vec::new();
        for parameter in &function.parameters {
            let grouped = function.groups.iter().any(|group| group.parameters.contains(&parameter.name));
            let optional = parameter.default.is_some() || grouped;
            // Of a group exactly one is to be given; mostly that is its first.
            let wanted = if grouped {
                let first = function.groups.iter().any(|group| group.parameters.first() == Some(&parameter.name));
                first != self.once_in(8)
            } else {
                !optional || self.once_in(3)
            };
            if wanted {
                given.push(format!("{} = {}", parameter.name, self.argument(parameter, &parameter.accepts, depth)?));
            }
        }
        Some(format!("{}({})", function.name, given.join(", ")))
    }

    fn argument(&mut self, parameter: &Parameter, accepts: &Accepts, depth: usize) -> Option<String> {
        Some(match accepts {
            Accepts::One(kind) => self.value(parameter, *kind, depth),
            Accepts::AnyOf(kinds) => {
                let kind = self.choose(kinds);
                self.value(parameter, kind, depth)
            }
            Accepts::Variable(_) | Accepts::Amount(_) => self.expression(Basic::Unit("F°"), depth),
            Accepts::DifferenceOf(_) => self.expression(Basic::Unit("F°"), depth),
            Accepts::Choice(texts) => format!("\"{}\"", self.choose(texts)),
            Accepts::Range(inner) => {
                let low = self.argument(parameter, inner, 0)?;
                format!("{low} .. {}", self.argument(parameter, inner, 0)?)
            }
            Accepts::Column(inner) => self.column(inner)?,
        })
    }

    /// Mostly something inside the parameter's range.
    fn value(&mut self, parameter: &Parameter, kind: Kind, depth: usize) -> String {
        if let (Some(Default::Literal(literal)), true) = (&parameter.default, self.once_in(2)) {
            return (*literal).to_string();
        }
        match parameter.within {
            Some((least, greatest)) if !self.once_in(3) => self.between(least, greatest),
            _ => self.expression(kind, depth),
        }
    }

    fn between(&mut self, least: &str, greatest: &str) -> String {
        let split = |text: &str| {
            let (number, unit) = text.split_once(' ').unwrap_or((text, ""));
            number.parse::<f64>().ok().map(|number| (number, unit.to_string()))
        };
        match (split(least), split(greatest)) {
            (Some((low, unit)), Some((high, same))) if unit == same => {
                let share = self.upto(256) as f64 / 256.0;
                // Ranges often go over decades.
                let number = if low > 0.0 && self.once_in(2) {
                    low * (high / low).powf(share)
                } else {
                    low + (high - low) * share
                };
                format!("{number} {unit}")
            }
            _ => self.choose(&[least, greatest]).to_string(),
        }
    }

    fn column(&mut self, of: &Accepts) -> Option<String> {
        let kinds = match of {
            Accepts::One(kind) => vec![*kind],
            Accepts::AnyOf(kinds) => kinds.clone(),
            _ => COMMON[..4].to_vec(),
        };
        let mut columns = Vec::new();
        for table in &self.tables {
            let same = table.columns.iter().filter(|(_, one)| kinds.iter().any(|kind| alike(*one, *kind)));
            columns.extend(same.map(|(column, _)| format!("{}.{column}", table.name)));
        }
        if columns.is_empty() {
            return None;
        }
        let at = self.upto(columns.len() - 1);
        Some(columns.swap_remove(at))
    }
}
