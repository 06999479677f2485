//! Values given on the command line and from files, as typed.

use std::collections::BTreeMap;

use dewline_lang::diagnostic::{Diagnostic, settings as codes};
use dewline_lang::host::RawTable;
use dewline_lang::job::{Setting, Settings};
use serde_json::Value;

use crate::host::{read_data_file, read_data_table, read_text, workbook};
use crate::problem::Problem;
use crate::record::strict;
use crate::words::shortened;

/// Letters of a row's key.
const KEY: usize = 60;

/// What is set, each with where it comes from.
pub type Values = Vec<Setting>;

/// One run of a sheet.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct RunSettings {
    /// Which row it is, by its place; empty for the only run.
    pub name: String,
    /// What the row's first column says, `unit = RU-3`; empty if that says nothing.
    pub key: String,
    /// What is set.
    pub values: Values,
}

impl RunSettings {
    /// Which row it is, by its place and its key.
    pub fn shown(&self) -> String {
        if self.key.is_empty() { self.name.clone() } else { format!("{}: {}", self.name, self.key) }
    }
}

/// For every name that any run sets, a value of it: what is wrong with a name is wrong in each run.
pub fn names(runs: &[RunSettings]) -> Values {
    let mut names = BTreeMap::new();
    for setting in runs.iter().flat_map(|run| &run.values) {
        names.entry(&setting.name).or_insert(setting);
    }
    names.into_values().cloned().collect()
}

/// Splits `name=value` at the first `=`.
pub fn split(text: &str) -> Result<(String, String), String> {
    match text.split_once('=') {
        Some((name, value)) if !name.trim().is_empty() => Ok((name.trim().to_string(), value.trim().to_string())),
        _ => Err("write the name, `=` and the value: --set 'end_pressure=556 psig'".to_string()),
    }
}

/// The runs that a file asks for: one of a JSON object, one a row of a CSV file or a workbook's sheet. What `--set` says holds
/// in each, and says what it took the place of.
pub fn runs(from: Option<&str>, set: &[(String, String)]) -> Result<Vec<RunSettings>, Problem> {
    let mut runs = match from {
        None => vec![RunSettings::default()],
        Some(path) if path.to_lowercase().ends_with(".json") => vec![from_json(path)?],
        Some(path) if path.to_lowercase().ends_with(".csv") || workbook(path).is_some() => from_table(path)?,
        Some(path) => {
            return Err(Problem::new(format!("\"{path}\" is neither JSON, CSV nor XLSX by its name"))
                .with_mend("name a file that ends in .json (one run), .csv or .xlsx (one run a row)"));
        }
    };
    for run in &mut runs {
        let mut values = Settings::from(set.to_vec()).values;
        for setting in &mut values {
            let earlier = run.values.iter().find(|one| one.name == setting.name);
            if let Some(Setting { text, from, .. }) = earlier {
                setting.from = format!("{}, where {from} has {text}", setting.from);
            }
        }
        run.values.retain(|one| !set.iter().any(|(name, _)| *name == one.name));
        run.values.extend(values);
    }
    Ok(runs)
}

/// Whether the message is about the name of a setting, not its value.
pub fn is_about_a_name(diagnostic: &Diagnostic) -> bool {
    [codes::UNKNOWN_SETTING.id, codes::SET_A_CELL.id, codes::SET_TWICE.id].contains(&diagnostic.code.id)
}

/// Whether a value from outside could not be used, so that nothing that was computed is an answer to what was asked.
pub fn refused(diagnostics: &[Diagnostic]) -> bool {
    let codes =
        [&codes::UNKNOWN_SETTING, &codes::BAD_SETTING, &codes::SET_A_CELL, &codes::SET_TWICE].map(|code| code.id);
    diagnostics.iter().any(|one| codes.contains(&one.code.id))
}

fn from_json(path: &str) -> Result<RunSettings, Problem> {
    let text = read_text(path, read_data_file(path)?, false)?;
    let bad = |message: String| Problem::new(message).with_mend("write {\"end_pressure\": \"556 psig\"}");
    match strict::read(&text) {
        Ok(Value::Object(fields)) => {
            let mut values = Values::new();
            for (name, value) in &fields {
                add_json(path, &mut values, name, value)?;
            }
            Ok(RunSettings { values, ..RunSettings::default() })
        }
        Ok(_) => Err(bad(format!("\"{path}\" does not hold an object of names and values"))),
        Err(error) => Err(bad(format!("\"{path}\" is not JSON: {error}"))),
    }
}

/// A value by its name; an object inside gives `name.field`, so that a filled sheet's inputs can stand together.
fn add_json(path: &str, values: &mut Values, name: &str, value: &Value) -> Result<(), Problem> {
    let text = match value {
        Value::Object(fields) => {
            // The JSON reader bounds how deep objects lie in one another.
            return fields
                .iter()
                .try_for_each(|(field, value)| add_json(path, values, &format!("{name}.{field}"), value));
        }
        Value::String(text) => text.clone(),
        Value::Number(number) => number.to_string(),
        Value::Bool(flag) => flag.to_string(),
        Value::Null => "?".to_string(),
        Value::Array(_) => {
            return Err(Problem::new(format!("\"{name}\" in \"{path}\" is a list; a value is one text or number"))
                .with_mend("repeated readings are one text: \"61.0, 61.2, 60.9 degF\""));
        }
    };
    values.push(Setting { name: name.to_string(), text, from: path.to_string() });
    Ok(())
}

fn from_table(path: &str) -> Result<Vec<RunSettings>, Problem> {
    let table = read_data_table(path)?;
    if let Some(&(row, header)) = table.faults.first() {
        return Err(Problem::new(format!("\"{path}\" {} is an error of the workbook", table.place(row, header)))
            .with_mend("mend it in the workbook, or clear the cell"));
    }
    let columns: Vec<(String, Option<String>)> = table.headers.iter().map(|header| name_and_unit(header)).collect();
    let named = columns.iter().map(|(name, _)| name).filter(|name| !name.is_empty());
    if let Some(twice) =
        named.clone().enumerate().find_map(|(at, name)| named.clone().take(at).find(|one| *one == name))
    {
        return Err(Problem::new(format!("\"{path}\" has two columns `{twice}`, and only one of them can hold"))
            .with_mend("take one of them out"));
    }
    if table.rows.is_empty() {
        return Err(Problem::new(format!("\"{path}\" has no rows")).with_mend("each row after the header is one run"));
    }
    table.rows.iter().map(|row| from_row(path, &table, &columns, row)).collect()
}

fn from_row(
    path: &str,
    table: &RawTable,
    columns: &[(String, Option<String>)],
    row: &dewline_lang::host::RawRow,
) -> Result<RunSettings, Problem> {
    if row.fields.len() > table.headers.len() {
        let (fields, headers) = (row.fields.len(), table.headers.len());
        return Err(Problem::new(format!("line {} of \"{path}\" has {fields} fields for {headers} columns", row.line)));
    }
    let mut values = Values::new();
    let mut key = String::new();
    let place = format!("{path} line {}", row.line);
    for (at, ((name, unit), field)) in columns.iter().zip(&row.fields).enumerate() {
        // A blank field leaves the value as the sheet has it.
        if field.is_empty() || name.is_empty() {
            continue;
        }
        let value = match unit {
            Some(unit) if field.parse::<f64>().is_ok() => format!("{field} {unit}"),
            _ => field.clone(),
        };
        if at == 0 {
            key = shortened(&format!("{name} = {value}"), KEY);
        }
        values.push(Setting { name: name.clone(), text: value, from: place.clone() });
    }
    Ok(RunSettings { name: place, key, values })
}

/// `end_pressure [psig]` is the name `end_pressure` and the unit `psig`.
pub fn name_and_unit(header: &str) -> (String, Option<String>) {
    match header.trim().strip_suffix(']').and_then(|inside| inside.rsplit_once('[')) {
        Some((name, unit)) => (name.trim().to_string(), Some(unit.trim().to_string())),
        None => (header.trim().to_string(), None),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_setting_is_split_at_its_first_equals_sign() {
        assert_eq!(split("a = b=c").unwrap(), ("a".to_string(), "b=c".to_string()));
        assert!(split("=3").is_err() && split("a").is_err());
    }

    #[test]
    fn a_header_gives_name_and_unit() {
        assert_eq!(name_and_unit("end_pressure [psig]"), ("end_pressure".to_string(), Some("psig".to_string())));
        assert_eq!(name_and_unit("tag"), ("tag".to_string(), None));
    }

    #[test]
    fn objects_inside_objects_name_the_inputs_of_filled_sheets() {
        let mut values = Values::new();
        let value = serde_json::json!({"end_pressure": "556 psig", "count": 3, "on": true, "later": null});
        add_json("a.json", &mut values, "riser_b", &value).unwrap();
        let texts: Vec<String> = values.iter().map(|one| format!("{}={}", one.name, one.text)).collect();
        let expected = ["riser_b.count=3", "riser_b.end_pressure=556 psig", "riser_b.later=?", "riser_b.on=true"];
        assert_eq!(texts, expected);
        assert!(add_json("a.json", &mut values, "x", &serde_json::json!([1])).is_err());
    }
}
