//! Sheets written at random by one who knows the language: bytes decide, so that a fuzzer can steer, and most of what
//! comes out passes the checker.

mod call;
mod expression;
mod kind;
mod statement;

use arbitrary::Unstructured;
use dewline_lang::library::Library;

use kind::Kind;

/// Statements of one sheet.
const STATEMENTS: usize = 24;

/// The sheet that these bytes stand for.
pub fn sheet(library: &Library, bytes: &[u8]) -> String {
    let mut author = Author {
        bytes: Unstructured::new(bytes),
        library,
        text: String::new(),
        values: Vec::new(),
        tables: Vec::new(),
        instruments: Vec::new(),
        definitions: Vec::new(),
        row: None,
        named: 0,
    };
    for _ in 0..STATEMENTS {
        if author.bytes.is_empty() {
            break;
        }
        author.statement();
    }
    author.text
}

/// Writes one sheet and knows what it has written.
struct Author<'a> {
    bytes: Unstructured<'a>,
    library: &'a Library,
    text: String,
    /// Names of one value each.
    values: Vec<(String, Kind)>,
    tables: Vec<Table>,
    instruments: Vec<String>,
    definitions: Vec<Definition>,
    /// The table in whose rows a formula stands.
    row: Option<usize>,
    /// Names given so far.
    named: usize,
}

/// A table that has been written.
struct Table {
    name: String,
    columns: Vec<(String, Kind)>,
    rows: usize,
}

/// A definition that has been written.
struct Definition {
    name: String,
    parameters: Vec<Kind>,
    gives: Kind,
}

impl Author<'_> {
    /// One of several, by the bytes; the first when they are used up.
    fn choose<T: Copy>(&mut self, among: &[T]) -> T {
        let at = self.bytes.choose_index(among.len()).unwrap_or(0);
        among[at]
    }

    /// A number from 0 to `most`.
    fn upto(&mut self, most: usize) -> usize {
        self.bytes.int_in_range(0..=most).unwrap_or(0)
    }

    /// True once in so many times.
    fn once_in(&mut self, times: usize) -> bool {
        self.upto(times - 1) == times - 1
    }

    fn name(&mut self, of: &str) -> String {
        self.named += 1;
        format!("{of}{}", self.named)
    }

    fn line(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }
}
