//! Which thing of one outcome is which of another.

use std::collections::BTreeMap;

use serde_json::{Map, Value};

pub(super) type Object = Map<String, Value>;

/// One thing in both outcomes; at least one of them has it.
pub(super) struct Pair<'a> {
    pub name: String,
    /// The row of a table that it is about.
    pub row: Option<String>,
    pub old: Option<&'a Object>,
    pub new: Option<&'a Object>,
}

/// What a thing is called, with its row, and a number where several are called the same.
type Name = (String, Option<String>, usize);

/// Pairs by identity, in the old order, then what is only in the new.
pub(super) fn pairs<'a>(old: Option<&'a Value>, new: Option<&'a Value>) -> Vec<Pair<'a>> {
    let fresh = named(new);
    let mut left: BTreeMap<&Name, &Object> = fresh.iter().map(|(name, object)| (name, *object)).collect();
    let pair = |(name, row, _): Name, old, new| Pair { name, row, old, new };
    let mut found: Vec<Pair<'_>> = Vec::new();
    for (name, old) in named(old) {
        let new = left.remove(&name);
        found.push(pair(name, Some(old), new));
    }
    for (name, new) in &fresh {
        if left.contains_key(name) {
            found.push(pair(name.clone(), None, Some(new)));
        }
    }
    found
}

fn named(list: Option<&Value>) -> Vec<(Name, &Object)> {
    let mut seen: BTreeMap<(String, Option<String>), usize> = BTreeMap::new();
    let objects = list.and_then(Value::as_array).into_iter().flatten().filter_map(Value::as_object);
    objects
        .map(|object| {
            let (name, row) = name(object);
            let count = seen.entry((name.clone(), row.clone())).or_default();
            *count += 1;
            ((name, row, *count), object)
        })
        .collect()
}

/// What a thing is called: its name or title, or its label with its stage; and the row it is about.
fn name(object: &Object) -> (String, Option<String>) {
    let text = |field: &str| object.get(field).and_then(Value::as_str).filter(|text| !text.is_empty());
    let row = [text("table"), text("row")].into_iter().flatten().collect::<Vec<_>>().join(" ");
    let row = if row.is_empty() { None } else { Some(row) };
    if let Some(label) = text("label") {
        let stage = text("stage").map(|stage| format!(" in {stage}")).unwrap_or_default();
        return (format!("\"{label}\"{stage}"), row);
    }
    let other = [text("code"), text("cell"), text("stage")].into_iter().flatten().collect::<Vec<_>>().join(" ");
    (text("name").or(text("title")).map_or(other, str::to_string), row)
}
