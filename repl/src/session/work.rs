//! What is worked on: the text of a sheet, and fields of its data files that were filled in.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};

use dewline_lang::host::{Document, Host, HostProblem, RawTable};

use super::field::Field;

/// Everything that a session can lose.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Work {
    /// The text of the sheet.
    pub text: String,
    /// Fields of data files, in the order of filling in.
    pub fields: Vec<Field>,
}

impl Work {
    /// Fills a field in; what was typed for it before is no longer wanted.
    pub fn fill(&mut self, field: Field) {
        self.fields.retain(|old| !old.is_place_of(&field));
        self.fields.push(field);
    }

    /// The same with the names of its files changed.
    pub fn with_files(mut self, named: impl Fn(&str) -> String) -> Work {
        for field in &mut self.fields {
            field.file = named(&field.file);
        }
        self
    }
}

/// Files with the fields that were filled in.
pub struct Filled<'a> {
    host: &'a dyn Host,
    fields: &'a [Field],
    seen: RefCell<Seen>,
}

/// What was met while files were read.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Seen {
    /// Of each table read its path as written and a print of it, to notice when somebody else writes the file.
    prints: BTreeMap<String, u64>,
    /// Fields that no longer stand on their rows, with the reason.
    pub adrift: Vec<(Field, String)>,
}

impl Seen {
    /// Whether a table was another when it was read.
    pub fn is_changed(&self, path: &str, now: &RawTable) -> bool {
        self.prints.get(path).is_some_and(|before| *before != print(now))
    }
}

impl<'a> Filled<'a> {
    /// The files of a host with these fields.
    pub fn new(host: &'a dyn Host, fields: &'a [Field]) -> Filled<'a> {
        Filled { host, fields, seen: RefCell::default() }
    }

    /// What was met.
    pub fn into_seen(self) -> Seen {
        self.seen.into_inner()
    }
}

impl Host for Filled<'_> {
    fn sheet(&self, from: &str, path: &str) -> Result<Document, HostProblem> {
        self.host.sheet(from, path)
    }

    fn table(&self, from: &str, path: &str) -> Result<RawTable, HostProblem> {
        let mut table = self.host.table(from, path)?;
        let mut seen = self.seen.borrow_mut();
        seen.prints.insert(path.to_string(), print(&table));
        let mine = self.fields.iter().filter(|field| field.file == table.name);
        let places: Vec<_> = mine.map(|field| (field, field.place(&table))).collect();
        for (field, place) in places {
            let there = place.map(|(row, column)| table.rows.get_mut(row)?.fields.get_mut(column));
            match there {
                Ok(Some(there)) => {
                    there.clone_from(&field.value);
                    // These are not the bytes of the file any more.
                    table.sha256.clear();
                }
                Ok(None) => {}
                Err(why) if seen.adrift.iter().any(|(other, _)| other == field) => drop(why),
                Err(why) => seen.adrift.push((field.clone(), why)),
            }
        }
        Ok(table)
    }
}

fn print(table: &RawTable) -> u64 {
    let mut hasher = DefaultHasher::new();
    table.headers.hash(&mut hasher);
    for row in &table.rows {
        row.fields.hash(&mut hasher);
    }
    hasher.finish()
}
