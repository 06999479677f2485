//! Values by the names that people type.

use super::super::run::{FillRun, Run};
use super::{Above, Place, Teller, Why};
use crate::diagnostic::{Diagnostic, names as codes};
use crate::kinds::Kind;
use crate::plan::{TablePlan, Typing};
use crate::source::Span;
use crate::suggest::did_you_mean;

/// The value of this name, or what is wrong with the name; `None` if nothing here bears it.
pub fn find(teller: &mut Teller<'_>, place: &Place<'_>, name: &str) -> Option<Result<Why, Diagnostic>> {
    let run = place.run;
    let own = name.strip_prefix(&run.prefix);
    if let Some(own) = own {
        if let Some((slot, field)) = slot(run, own) {
            return Some(Ok(teller.slot(place, slot, field)));
        }
        for (at, table) in run.plan.tables.iter().enumerate() {
            let Some(rest) = own.strip_prefix(table.name.as_str()) else { continue };
            if let Some(column) = rest.strip_prefix('.')
                && let Some((column, field)) = column_of(table, column)
            {
                return Some(Ok(teller.column(place, at, column, field)));
            }
            if let Some((key, column)) = rest.strip_prefix('[').and_then(|rest| rest.split_once("].")) {
                let Some((column, field)) = column_of(table, column) else { continue };
                return Some(match row_of(&run.keys(at), key) {
                    Ok(row) => Ok(teller.cell(place, at, column, row, field)),
                    Err(mend) => Err(no_row(&format!("{}{}", run.prefix, table.name), key, mend)),
                });
            }
        }
    }
    run.fills.iter().enumerate().find_map(|(fill, filled)| match filled {
        FillRun::One(child) => find(teller, &Place { run: child, above: Some(Above { place, fill, row: None }) }, name),
        FillRun::Each(children) => {
            let plan = &run.plan.fills[fill];
            let of_all = own.and_then(|own| own.strip_prefix(plan.name.as_str())?.strip_prefix('.'));
            let slot = plan.plan.slots.iter().position(|slot| of_all == Some(slot.name.as_str()));
            if let Some(column) = slot.and_then(|slot| teller.filled_column(place, fill, slot)) {
                return Some(Ok(column));
            }
            children.iter().enumerate().find_map(|(row, (_, child))| {
                find(teller, &Place { run: child, above: Some(Above { place, fill, row: Some(row) }) }, name)
            })
        }
    })
}

fn slot(run: &Run, own: &str) -> Option<(usize, Option<usize>)> {
    let named = |name: &str| run.plan.slots.iter().position(|slot| slot.name == name);
    if let Some(slot) = named(own) {
        return Some((slot, None));
    }
    let (record, field) = own.rsplit_once('.')?;
    let slot = named(record)?;
    Some((slot, Some(field_of(&run.plan.slots[slot].typing, field)?)))
}

/// A column by its name, with a field of it if the name goes on.
fn column_of(table: &TablePlan, name: &str) -> Option<(usize, Option<usize>)> {
    let named = |name: &str| table.columns.iter().position(|column| column.name == name);
    if let Some(column) = named(name) {
        return Some((column, None));
    }
    let (record, field) = name.rsplit_once('.')?;
    let column = named(record)?;
    Some((column, Some(field_of(&table.columns[column].typing, field)?)))
}

fn field_of(typing: &Typing, field: &str) -> Option<usize> {
    let Kind::Record(record) = &typing.kind else { return None };
    record.fields.iter().position(|one| one.name == field)
}

/// The row of a key as typed: in quotes or not, a quantity with its unit or without. Otherwise the mend.
fn row_of(keys: &[String], typed: &str) -> Result<usize, String> {
    let typed = typed.trim();
    let bare = typed.strip_prefix('"').and_then(|rest| rest.strip_suffix('"')).unwrap_or(typed).replace("\"\"", "\"");
    let whole = keys.iter().position(|key| *key == bare);
    let number = || keys.iter().position(|key| key.split_once(' ').is_some_and(|(number, _)| number == bare));
    whole.or_else(number).ok_or_else(|| {
        let mut first = keys.iter().take(12).cloned().collect::<Vec<_>>().join(", ");
        if keys.len() > 12 {
            first.push_str(", …");
        }
        match did_you_mean(&bare, keys.iter().map(String::as_str)) {
            _ if keys.is_empty() => "it has no rows".to_string(),
            Some(near) => format!("did you mean `{near}`? Its rows are {first}"),
            None => format!("its rows are {first}"),
        }
    })
}

fn no_row(table: &str, key: &str, mend: String) -> Diagnostic {
    without_place(format!("the table `{table}` has no row {key}"), Some(mend))
}

/// The message for a name that nothing bears.
pub fn unknown(run: &Run, name: &str) -> Diagnostic {
    let column = name.rsplit('.').next().unwrap_or(name);
    let mend = in_tables(run, column).or_else(|| {
        let names = names(run);
        did_you_mean(name, names.iter().map(String::as_str)).map(|near| format!("did you mean `{near}`?"))
    });
    let otherwise = "`dewline run` lists every value with its name; rows are asked for as `table[\"key\"].column`";
    without_place(format!("the sheet has no value `{name}`"), mend.or_else(|| Some(otherwise.into())))
}

fn without_place(message: String, mend: Option<String>) -> Diagnostic {
    let mut diagnostic = Diagnostic::error(&codes::UNKNOWN_NAME, message, Span::default(), "");
    diagnostic.labels.clear();
    diagnostic.mend = mend;
    diagnostic
}

/// How to ask for a column that was named without its table.
fn in_tables(run: &Run, column: &str) -> Option<String> {
    let tables = run.plan.tables.iter().enumerate().filter(|(_, table)| !table.used);
    for (at, table) in tables {
        if table.columns.iter().any(|one| one.name == column) {
            let table = format!("{}{}", run.prefix, table.name);
            let key = run.keys(at).first().cloned().unwrap_or_else(|| "…".to_string());
            return Some(format!(
                "`{column}` is a column: ask for `{table}[\"{key}\"].{column}`, or for all rows with `{table}.{column}`"
            ));
        }
    }
    run.children().find_map(|child| in_tables(child, column))
}

/// Names that can be asked about.
fn names(run: &Run) -> Vec<String> {
    let mut names: Vec<String> = run.plan.slots.iter().map(|slot| format!("{}{}", run.prefix, slot.name)).collect();
    for table in run.plan.tables.iter().filter(|table| !table.used) {
        names.extend(table.columns.iter().map(|column| format!("{}{}.{}", run.prefix, table.name, column.name)));
    }
    for child in run.children() {
        names.extend(self::names(child));
    }
    names
}
