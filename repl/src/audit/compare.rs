//! What differs between two outcomes, in words. It goes by the outcomes' JSON: a field that a later version adds is
//! compared like every other.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;

use super::change::{Change, What};
use super::numbers::Closeness;
use super::pairs::{Object, Pair, pairs};
use crate::record::Site;

/// All that differs.
#[derive(Debug, Default)]
pub(super) struct Comparison {
    /// Verdicts first.
    pub changes: Vec<Change>,
    /// Numbers that differ within the tolerance.
    pub within: usize,
    /// The largest relative difference of all numbers that differ.
    pub largest: Option<f64>,
}

/// Compares outcomes.
pub(super) fn compare(old: &Value, new: &Value, tolerance: Option<f64>) -> Comparison {
    let mut comparer = Comparer { close: Closeness::new(tolerance), changes: Vec::new() };
    comparer.outcomes(old, new);
    let mut changes = comparer.changes;
    changes.sort_by_key(|change| change.what);
    let (within, largest) = comparer.close.into_parts();
    Comparison { changes, within, largest }
}

impl Comparison {
    /// Compares the air around the job too.
    pub(super) fn site(&mut self, old: Site, new: Site) {
        if old != new {
            let show = |site: Site| {
                let pressure = site.atmosphere.map_or("not known".to_string(), |pascal| format!("{pascal} Pa"));
                if site.stated { pressure } else { format!("{pressure}, not stated") }
            };
            self.changes.push(Change::new(What::Site, "atmosphere", Some(show(old)), Some(show(new))));
            self.changes.sort_by_key(|change| change.what);
        }
    }
}

struct Comparer {
    close: Closeness,
    changes: Vec<Change>,
}

impl Comparer {
    fn outcomes(&mut self, old: &Value, new: &Value) {
        for section in fields(old.as_object(), new.as_object()) {
            let (old, new) = (old.get(&section), new.get(&section));
            match section.as_str() {
                "verdict" => self.told(What::Verdict, "job", old, new),
                "sheet" => {
                    let print = |value: Option<&Value>| value.and_then(|value| value.get("sha256")).cloned();
                    self.told(What::SheetText, "SHA-256", print(old).as_ref(), print(new).as_ref());
                    for field in fields(old.and_then(Value::as_object), new.and_then(Value::as_object)) {
                        let part = |value: Option<&Value>| value.and_then(|value| value.get(&field)).cloned();
                        if field != "sha256" {
                            self.told(What::Other, &format!("sheet {field}"), part(old).as_ref(), part(new).as_ref());
                        }
                    }
                }
                // A file read has a state of its own in the report of an audit.
                "files" => self.each(old, new, |comparer, pair| {
                    let (old, new) = (get(pair.old, "sha256"), get(pair.new, "sha256"));
                    comparer.told(What::SheetText, &format!("{} SHA-256", pair.name), old, new);
                }),
                "cells" => self.each(old, new, Comparer::cell),
                "tables" | "charts" => self.each(old, new, Comparer::table),
                "checks" => self.each(old, new, Comparer::check),
                "stages" => self.each(old, new, |comparer, pair| comparer.judged(pair, What::Stage)),
                "confirmations" => self.each(old, new, |comparer, pair| comparer.judged(pair, What::Check)),
                _ if is_list_of_objects(old) || is_list_of_objects(new) => {
                    self.each(old, new, |comparer, pair| {
                        let name = format!("{section} {}", pair.name).trim_end().to_string();
                        comparer.rest(&name, pair, &[]);
                    });
                }
                _ => self.list(&section, old, new),
            }
        }
    }

    fn each<'a>(
        &mut self,
        old: Option<&'a Value>,
        new: Option<&'a Value>,
        mut compare: impl FnMut(&mut Comparer, &Pair<'a>),
    ) {
        for pair in pairs(old, new) {
            compare(self, &pair);
        }
    }

    fn cell(&mut self, pair: &Pair<'_>) {
        let role = role_of(pair.new.or(pair.old));
        self.formula(&pair.name, pair);
        let value = ["si", "shown", "pending", "broken", "stated"];
        if value.iter().any(|field| !self.same(get(pair.old, field), get(pair.new, field))) {
            let (mut old, mut new) = (pair.old.map(show_cell), pair.new.map(show_cell));
            if old == new {
                old = pair.old.map(|cell| format!("{} ({} in SI)", show_cell(cell), plain(cell.get("si"))));
                new = pair.new.map(|cell| format!("{} ({} in SI)", show_cell(cell), plain(cell.get("si"))));
            }
            self.changes.push(Change::new(role, &pair.name, old, new));
        }
        if pair.old.is_some() && pair.new.is_some() {
            self.rest(&pair.name, pair, &["si", "shown", "pending", "broken", "stated", "formula"]);
        }
    }

    fn formula(&mut self, name: &str, pair: &Pair<'_>) {
        let formula = |object: Option<&Object>| get(object, "formula").and_then(Value::as_str).map(str::to_string);
        let (old, new) = (formula(pair.old), formula(pair.new));
        if let (Some(old), Some(new)) = (old, new)
            && old != new
        {
            let given = |text: String| if text.is_empty() { "given".to_string() } else { text };
            self.changes.push(Change::new(What::Formula, name, Some(given(old)), Some(given(new))));
        }
    }

    /// A table row by row: rows are known by their key, which is the first column of texts, else by their number.
    fn table(&mut self, pair: &Pair<'_>) {
        let (keys_old, keys_new) = (row_keys(pair.old), row_keys(pair.new));
        for column in pairs(get(pair.old, "columns"), get(pair.new, "columns")) {
            let name = format!("{}.{}", pair.name, column.name);
            self.formula(&name, &column);
            let before = self.changes.len();
            self.rows(pair, &column, &keys_old, &keys_new);
            if column.old.is_some() && column.new.is_some() {
                let mut told = vec!["si", "text", "broken", "formula"];
                // What is printed of values and uncertainties follows from them: where these are told, it says nothing more.
                let follows =
                    self.changes.len() > before || !self.same(get(column.old, "expanded"), get(column.new, "expanded"));
                if follows {
                    told.extend(["together", "expanded_text"]);
                }
                self.rest(&name, &column, &told);
            }
        }
        self.rest(&pair.name, pair, &["columns"]);
    }

    fn rows(&mut self, table: &Pair<'_>, column: &Pair<'_>, keys_old: &[String], keys_new: &[String]) {
        let role = role_of(column.new.or(column.old));
        let places: BTreeMap<&String, usize> = keys_new.iter().enumerate().map(|(row, key)| (key, row)).collect();
        let olds: BTreeSet<&String> = keys_old.iter().collect();
        let pairs = keys_old.iter().enumerate().map(|(row, key)| (key, Some(row), places.get(key).copied()));
        let added = keys_new.iter().enumerate().filter(|(_, key)| !olds.contains(key));
        for (key, old, new) in pairs.chain(added.map(|(row, key)| (key, None, Some(row)))) {
            let a = column.old.zip(old).map(|(object, row)| Entry::of(object, row));
            let b = column.new.zip(new).map(|(object, row)| Entry::of(object, row));
            let same = match (&a, &b) {
                (Some(a), Some(b)) => {
                    self.same(a.si, b.si)
                        && self.close.texts(a.text, b.text)
                        && a.broken == b.broken
                        && a.unit == b.unit
                }
                (None, None) => true,
                _ => false,
            };
            if !same {
                let name = format!("{}.{}", table.name, column.name);
                let (mut shown_a, mut shown_b) = (a.as_ref().map(Entry::show), b.as_ref().map(Entry::show));
                if shown_a == shown_b {
                    shown_a = a.as_ref().map(|entry| format!("{} ({} in SI)", entry.show(), plain(entry.si)));
                    shown_b = b.as_ref().map(|entry| format!("{} ({} in SI)", entry.show(), plain(entry.si)));
                }
                self.changes.push(Change::new(role, &name, shown_a, shown_b).at(Some(key)));
            }
        }
    }

    fn check(&mut self, pair: &Pair<'_>) {
        let (Some(old), Some(new)) = (pair.old, pair.new) else { return self.judged(pair, What::Check) };
        let same = |field: &str| self.same(old.get(field), new.get(field));
        let same_limit = same("limit") && same("level");
        // The margin follows from value and limit: where one of these is told to have changed, it says nothing more.
        // Under a tolerance it may be next to nothing, and then any difference is large beside it.
        let same_margin = !same_limit || !self.close.is_strict() || (same("margin") && same("margin_si"));
        let (same_verdict, same_value) = (same("verdict"), same("value"));
        if !same_limit {
            self.field(What::Limit, &pair.name, pair, "limit");
            self.field(What::Limit, &format!("{}: level", pair.name), pair, "level");
        }
        if !same_verdict {
            let (old, new) = (Some(show_check(old, true)), Some(show_check(new, true)));
            self.tell(pair, What::Check, &pair.name, old, new);
        } else if !same_value || !same_margin {
            let shown = [show_check(old, false), show_check(new, false)];
            let exact = |check: &Object| format!("margin {} in SI", plain(check.get("margin_si")));
            let [old, new] = if shown[0] == shown[1] { [exact(old), exact(new)] } else { shown };
            self.tell(pair, What::Seen, &pair.name, Some(old), Some(new));
        }
        self.rest(&pair.name, pair, &["limit", "level", "value", "margin", "margin_si", "verdict"]);
    }

    /// A thing with a verdict.
    fn judged(&mut self, pair: &Pair<'_>, what: What) {
        self.field(what, &pair.name, pair, "verdict");
        if pair.old.is_some() && pair.new.is_some() {
            self.rest(&pair.name, pair, &["verdict"]);
        }
    }

    /// All fields but those already told.
    fn rest(&mut self, name: &str, pair: &Pair<'_>, told: &[&str]) {
        for field in fields(pair.old, pair.new) {
            if !told.contains(&field.as_str()) {
                self.field(What::Other, &format!("{name}: {field}"), pair, &field);
            }
        }
    }

    fn field(&mut self, what: What, name: &str, pair: &Pair<'_>, field: &str) {
        let (old, new) = (get(pair.old, field), get(pair.new, field));
        if !self.same(old, new) {
            self.tell(pair, what, name, shown(old), shown(new));
        }
    }

    fn tell(&mut self, pair: &Pair<'_>, what: What, name: &str, old: Option<String>, new: Option<String>) {
        self.changes.push(Change::new(what, name, old, new).at(pair.row.as_deref()));
    }

    /// A difference between two values, told as they are.
    fn told(&mut self, what: What, name: &str, old: Option<&Value>, new: Option<&Value>) {
        if !self.same(old, new) {
            self.changes.push(Change::new(what, name, shown(old), shown(new)));
        }
    }

    /// Texts of a list that went or came.
    fn list(&mut self, name: &str, old: Option<&Value>, new: Option<&Value>) {
        if self.same(old, new) {
            return;
        }
        let before = self.changes.len();
        let items = |value: Option<&Value>| value.and_then(Value::as_array).cloned().unwrap_or_default();
        let (olds, mut news) = (items(old), items(new));
        for item in &olds {
            match news.iter().position(|other| self.same(Some(item), Some(other))) {
                Some(at) => {
                    news.remove(at);
                }
                None => self.changes.push(Change::new(What::Other, name, Some(plain(Some(item))), None)),
            }
        }
        for item in &news {
            self.changes.push(Change::new(What::Other, name, None, Some(plain(Some(item)))));
        }
        if self.changes.len() == before {
            self.changes.push(Change::new(What::Other, name, Some(plain(old)), Some(plain(new))));
        }
    }

    fn same(&self, old: Option<&Value>, new: Option<&Value>) -> bool {
        let (old, new) = match (old, new) {
            (None | Some(Value::Null), None | Some(Value::Null)) => return true,
            (Some(old), Some(new)) => (old, new),
            _ => return false,
        };
        match (old, new) {
            (Value::Number(a), Value::Number(b)) => match (a.as_f64(), b.as_f64()) {
                (Some(a), Some(b)) => self.close.numbers(a, b),
                _ => a == b,
            },
            (Value::String(a), Value::String(b)) => self.close.texts(a, b),
            (Value::Array(a), Value::Array(b)) => {
                a.len() == b.len() && a.iter().zip(b).all(|(a, b)| self.same(Some(a), Some(b)))
            }
            (Value::Object(a), Value::Object(b)) => {
                fields(Some(a), Some(b)).iter().all(|field| self.same(a.get(field), b.get(field)))
            }
            _ => old == new,
        }
    }
}

/// One value of a column.
struct Entry<'a> {
    si: Option<&'a Value>,
    text: &'a str,
    unit: &'a str,
    broken: bool,
}

impl<'a> Entry<'a> {
    fn of(column: &'a Object, row: usize) -> Entry<'a> {
        let item = |field: &str| column.get(field).and_then(|list| list.get(row));
        let broken = column.get("broken").and_then(Value::as_array);
        Entry {
            si: item("si"),
            text: item("text").and_then(Value::as_str).unwrap_or_default(),
            unit: column.get("unit").and_then(Value::as_str).unwrap_or_default(),
            broken: broken.is_some_and(|rows| rows.iter().any(|one| one.as_u64() == Some(row as u64))),
        }
    }

    fn show(&self) -> String {
        match (self.text, self.broken) {
            ("", true) => "broken".to_string(),
            ("", false) => "not known".to_string(),
            (text, _) => format!("{text} {}", self.unit).trim_end().to_string(),
        }
    }
}

fn get<'a>(object: Option<&'a Object>, field: &str) -> Option<&'a Value> {
    object.and_then(|object| object.get(field))
}

/// Names of fields in either.
fn fields(old: Option<&Object>, new: Option<&Object>) -> BTreeSet<String> {
    old.into_iter().chain(new).flat_map(|object| object.keys().cloned()).collect()
}

fn is_list_of_objects(value: Option<&Value>) -> bool {
    value.and_then(Value::as_array).is_some_and(|list| list.first().is_some_and(Value::is_object))
}

fn role_of(object: Option<&Object>) -> What {
    match get(object, "role").and_then(Value::as_str) {
        Some("input") => What::Input,
        Some("reading") => What::Reading,
        _ => What::Value,
    }
}

fn show_cell(cell: &Object) -> String {
    let is = |field: &str| cell.get(field).and_then(Value::as_bool).unwrap_or(false);
    let shown = cell.get("shown").and_then(|shown| shown.get("text")).and_then(Value::as_str);
    let mut text = match shown {
        Some(text) => text.to_string(),
        None if is("broken") => "broken".to_string(),
        None => "not known".to_string(),
    };
    for (field, before) in [("uncertainty", ""), ("by", "by "), ("at", "at "), ("note", "note: ")] {
        if let Some(said) = cell.get("stated").and_then(|stated| stated.get(field)).and_then(Value::as_str) {
            text.push_str(&format!(" {before}{said}"));
        }
    }
    text
}

/// How the rows of a table are known: by the first column of texts where no two are the same, else by number.
fn row_keys(table: Option<&Object>) -> Vec<String> {
    let columns = || get(table, "columns").and_then(Value::as_array).into_iter().flatten();
    let texts = |column: &Value| -> Vec<String> {
        let texts = column.get("text").and_then(Value::as_array).into_iter().flatten();
        texts.map(|text| text.as_str().unwrap_or_default().to_string()).collect()
    };
    let key = columns().find(|column| column.get("kind").and_then(Value::as_str) == Some("text")).map(texts);
    if let Some(keys) = key {
        let distinct: BTreeSet<&String> = keys.iter().collect();
        if distinct.len() == keys.len() && keys.iter().all(|key| !key.is_empty()) {
            return keys;
        }
    }
    let rows = columns().map(|column| texts(column).len()).max().unwrap_or(0);
    (1..=rows).map(|row| row.to_string()).collect()
}

/// A value in words; `None` for none.
fn shown(value: Option<&Value>) -> Option<String> {
    value.filter(|value| !value.is_null()).map(|value| plain(Some(value)))
}

/// What a check saw and found.
fn show_check(check: &Object, verdict: bool) -> String {
    let text = |field: &str| check.get(field).and_then(Value::as_str).filter(|text| !text.is_empty());
    let margin = text("margin").map(|margin| format!("margin {margin}"));
    let parts = [text("verdict").filter(|_| verdict), text("value"), margin.as_deref()];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// A value in words.
fn plain(value: Option<&Value>) -> String {
    match value {
        None | Some(Value::Null) => "nothing".to_string(),
        Some(Value::String(text)) => text.clone(),
        Some(Value::Array(items)) if items.is_empty() => "none".to_string(),
        Some(Value::Array(items)) => items.iter().map(|item| plain(Some(item))).collect::<Vec<_>>().join(", "),
        Some(Value::Object(fields)) => {
            fields.iter().map(|(name, value)| format!("{name} {}", plain(Some(value)))).collect::<Vec<_>>().join(", ")
        }
        Some(other) => other.to_string(),
    }
}
