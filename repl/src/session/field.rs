//! A field of a data file that was filled in, known by its row and its column and not by their numbers: whoever inserts a
//! row, sorts the file or moves a column meanwhile must not lead a reading into another row.

use dewline_lang::host::RawTable;
use serde_json::{Value, json};

use crate::problem::Problem;
use crate::words::shortened;

/// Letters of a key or a field in a message.
const SHOWN: usize = 40;

/// A field of a data file with its new value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Field {
    /// The file, by the name the host knows it by.
    pub file: String,
    /// Its column, by the whole head, which holds the unit too.
    pub column: String,
    /// What tells its row from all others, as head and text: the key, or every field where keys repeat.
    pub row: Vec<(String, String)>,
    /// What stood there when it was typed.
    pub was: String,
    /// What is to stand there.
    pub value: String,
}

impl Field {
    /// The field at a place of a file as it stands; `key` is the column that holds the keys.
    pub fn at(
        raw: &RawTable,
        row: usize,
        column: usize,
        key: Option<usize>,
        value: impl Into<String>,
    ) -> Result<Field, Problem> {
        let head = raw.headers.get(column).cloned().unwrap_or_default();
        let file = &raw.name;
        if raw.headers.iter().filter(|other| **other == head).count() > 1 {
            return Err(Problem::new(format!("\"{file}\" has the column \"{head}\" more than once"))
                .with_mend("give each column a head of its own in the file"));
        }
        let named = |column: usize| Some((raw.headers.get(column)?.clone(), text(raw, row, column).to_string()));
        let by_key: Vec<_> = key.and_then(named).into_iter().filter(|(_, key)| !key.is_empty()).collect();
        let by_all = || (0..raw.headers.len()).filter_map(named).collect();
        let alone = |row: &[(String, String)]| !row.is_empty() && rows(raw, row).len() == 1;
        let told = if alone(&by_key) { by_key } else { by_all() };
        if !alone(&told) {
            return Err(Problem::new(format!(
                "two rows of \"{file}\" are alike; nothing tells which of them is meant"
            ))
            .with_mend("give each row a key of its own in the file, or fill the field in there"));
        }
        Ok(Field {
            file: file.clone(),
            column: head,
            row: told,
            was: text(raw, row, column).to_string(),
            value: value.into(),
        })
    }

    /// Whether it is the same field of the same file, whatever stands there.
    pub fn is_place_of(&self, other: &Field) -> bool {
        (&self.file, &self.column, &self.row) == (&other.file, &other.column, &other.row)
    }

    /// Its row and its column in a file as it stands now, or why it no longer stands there.
    pub fn place(&self, raw: &RawTable) -> Result<(usize, usize), String> {
        let mut columns = raw.headers.iter().enumerate().filter(|(_, head)| **head == self.column);
        let (Some((column, _)), None) = (columns.next(), columns.next()) else {
            return Err(format!("there is no column \"{}\" any more", shortened(&self.column, SHOWN)));
        };
        let row = match rows(raw, &self.row).as_slice() {
            [row] => *row,
            [] => return Err("its row is not there any more".to_string()),
            _ => return Err("its row is there more than once now".to_string()),
        };
        let now = text(raw, row, column);
        if now == self.was || now == self.value {
            return Ok((row, column));
        }
        Err(format!("now {} stands there, where it was {}", said(now), said(&self.was)))
    }

    /// As it is told: the file, the key, the column and the value.
    pub fn shown(&self) -> String {
        let key = self.row.first().map_or("", |(_, key)| key);
        let (key, column) = (shortened(key, SHOWN), shortened(&self.column, SHOWN));
        format!("{}: {key}, {column} = {} (was {})", self.file, said(&self.value), said(&self.was))
    }

    /// For the journal.
    pub fn to_json(&self) -> Value {
        json!({"file": self.file, "column": self.column, "row": self.row, "was": self.was, "value": self.value})
    }

    /// From the journal.
    pub fn of_json(value: &Value) -> Option<Field> {
        let text = |name: &str| Some(value.get(name)?.as_str()?.to_string());
        let row = serde_json::from_value(value.get("row")?.clone()).ok()?;
        Some(Field { file: text("file")?, column: text("column")?, row, was: text("was")?, value: text("value")? })
    }
}

/// The rows in which all of these stand under their heads.
fn rows(raw: &RawTable, wanted: &[(String, String)]) -> Vec<usize> {
    let places: Option<Vec<(usize, &str)>> = wanted
        .iter()
        .map(|(head, wanted)| Some((raw.headers.iter().position(|one| one == head)?, wanted.as_str())))
        .collect();
    let Some(places) = places else { return Vec::new() };
    let fits = |row: &usize| places.iter().all(|&(column, wanted)| text(raw, *row, column) == wanted);
    (0..raw.rows.len()).filter(fits).collect()
}

fn text(raw: &RawTable, row: usize, column: usize) -> &str {
    raw.rows.get(row).and_then(|row| row.fields.get(column)).map_or("", |field| field.trim())
}

fn said(text: &str) -> String {
    if text.is_empty() { "empty".to_string() } else { shortened(text, SHOWN) }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::host::read_table;

    fn read(text: &str) -> RawTable {
        read_table("a.csv".to_string(), "a.csv", text.as_bytes().to_vec()).unwrap()
    }

    #[test]
    fn it_is_found_again_wherever_its_row_and_column_have_gone() {
        let field = Field::at(&read("tag,air [degF],p\nF-07,,1\nF-08,54,2\n"), 0, 1, Some(0), "55.9").unwrap();
        for (text, place) in [
            ("tag,air [degF],p\nF-06,,1\nF-07,,1\nF-08,54,2\n", (1, 1)),
            ("tag,air [degF],p\nF-08,54,2\nF-07,,1\n", (1, 1)),
            ("p,tag,air [degF]\n1,F-07,55.9\n", (0, 2)),
        ] {
            assert_eq!(field.place(&read(text)), Ok(place), "{text}");
        }
        for (text, why) in [
            ("tag,air [degF],p\nF-08,54,2\n", "not there any more"),
            ("tag,air [degC],p\nF-07,,1\n", "no column \"air [degF]\""),
            ("tag,air [degF],p\nF-07,,1\nF-07,,2\n", "more than once"),
            ("tag,air [degF],p\nF-07,56.1,1\n", "now 56.1 stands there, where it was empty"),
        ] {
            let said = field.place(&read(text)).unwrap_err();
            assert!(said.contains(why), "{said}");
        }
    }

    #[test]
    fn rows_whose_keys_repeat_are_known_by_all_their_fields() {
        let raw = read("size,run,p\n3/8,12,\n3/8,14,\n3/8,14,\n");
        let field = Field::at(&raw, 0, 2, Some(0), "5").unwrap();
        assert_eq!(field.row.len(), 3);
        assert!(field.place(&read("size,run,p\n3/8,13,\n3/8,14,\n")).is_err());
        assert!(Field::at(&raw, 1, 2, Some(0), "5").unwrap_err().message.contains("alike"));
    }
}
