//! The rows of a table from a data file: its columns found by name, its fields read as what the table's own lines say.

use std::sync::Arc;

use super::block::{Block, Data, Mark, States};
use super::evaluate::TableValues;
use super::fields::{self, Misread};
use super::rows;
use crate::diagnostic::{Diagnostic, tables as codes};
use crate::host::{Host, RawTable, columns_of, without_unit};
use crate::kinds::Kind;
use crate::library::Library;
use crate::limits;
use crate::moment::Moment;
use crate::outcome::FileOutcome;
use crate::plan::{ColumnPlan, TablePlan};
use crate::source::Span;
use crate::suggest::did_you_mean;
use crate::units::{self, Unit};

/// Fields of one column that are told one by one.
const TOLD: usize = 5;

/// Rows of a file, and which file it was. Errors leave the table pending and are reported.
pub fn rows(
    host: &dyn Host,
    library: &Library,
    from: &str,
    path: &str,
    span: Span,
    table: &TablePlan,
    diagnostics: &mut Vec<Diagnostic>,
) -> (TableValues, FileOutcome) {
    let none = TableValues { rows: 0, pending: true, columns: Vec::new() };
    let raw = match host.table(from, path) {
        Ok(raw) => raw,
        Err(problem) => {
            let mut diagnostic = Diagnostic::error(&codes::UNREADABLE_TABLE, problem.message, span, "");
            diagnostic.mend = problem.mend;
            diagnostics.push(diagnostic);
            return (none, FileOutcome { name: path.to_string(), sha256: String::new() });
        }
    };
    let file = FileOutcome { name: raw.name.clone(), sha256: raw.sha256.clone() };
    let before = diagnostics.len();
    if raw.rows.len() > limits::ROWS {
        let message = format!("\"{}\" has {} rows; a table may have {}", raw.name, raw.rows.len(), limits::ROWS);
        diagnostics.push(Diagnostic::error(&codes::TOO_MANY_ROWS, message, span, ""));
        return (none, file);
    }
    let mut readers = Vec::new();
    for column in &table.columns[..table.given] {
        if column.optional && columns_of(&raw, &column.name, column.header.as_deref()).is_empty() {
            readers.push(Err(column));
        } else if let Some(reader) = reader(&raw, column, span, diagnostics) {
            readers.push(Ok(reader));
        }
    }
    let mut columns = Vec::new();
    if diagnostics.len() == before {
        report_widths(&raw, span, diagnostics);
        for reader in &readers {
            columns.push(match reader {
                Ok(reader) => reader.read(&raw, library, span, diagnostics),
                Err(absent) => rows::typed(Block::pending(raw.rows.len()), &absent.typing.kind),
            });
        }
    }
    let values =
        if diagnostics.len() > before { none } else { TableValues { rows: raw.rows.len(), pending: false, columns } };
    (values, file)
}

fn report_widths(raw: &RawTable, span: Span, diagnostics: &mut Vec<Diagnostic>) {
    let width = raw.headers.len();
    let mut wrong = raw.rows.iter().filter(|row| row.fields.len() != width);
    if let Some(row) = wrong.next() {
        let more = wrong.count();
        let others = if more == 0 { String::new() } else { format!(", and {more} further rows are wrong too") };
        diagnostics.push(
            Diagnostic::error(
                &codes::ROW_WIDTH,
                format!(
                    "\"{}\" line {}: {} fields where the header has {width}{others}",
                    raw.name,
                    row.line,
                    row.fields.len()
                ),
                span,
                "read here",
            )
            .with_mend("a field with a comma in it stands in quotes"),
        );
    }
}

struct Reader<'a> {
    index: usize,
    column: &'a ColumnPlan,
    /// The unit of bare numbers.
    unit: Option<Unit>,
}

/// Finds a column in the file and settles the unit of its bare numbers.
fn reader<'a>(
    raw: &RawTable,
    column: &'a ColumnPlan,
    span: Span,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<Reader<'a>> {
    let wanted = column.header.as_deref().unwrap_or(&column.name);
    let found = columns_of(raw, &column.name, column.header.as_deref());
    let index = match found.as_slice() {
        [index] => *index,
        [] => {
            let near = did_you_mean(wanted, raw.headers.iter().map(String::as_str));
            let mend = match near {
                Some(near) => format!("did you mean `{} = \"{near}\"`?", column.name),
                None => format!("its columns are: {}", raw.headers.join(", ")),
            };
            let message = format!("\"{}\" has no column `{wanted}`", raw.name);
            diagnostics.push(
                Diagnostic::error(&codes::MISSING_COLUMN, message, column.span, "wanted here")
                    .with_label(span, "of this file")
                    .with_mend(mend),
            );
            return None;
        }
        _ => {
            let message = format!("\"{}\" has the column `{wanted}` {} times", raw.name, found.len());
            diagnostics.push(
                Diagnostic::error(&codes::DOUBLE_COLUMN, message, column.span, "which of them?")
                    .with_mend("rename one of them in the file"),
            );
            return None;
        }
    };
    let mut unit = column.typing.wish.as_ref().and_then(|wish| wish.units.first()).cloned();
    if let (_, Some(text)) = without_unit(&raw.headers[index])
        && column.typing.kind.is_numeric()
    {
        match units::parse(text.trim()) {
            Ok(in_file) => {
                let kind = Kind::of_unit(&in_file);
                if let Err(refusal) = crate::kinds::algebra::fits(&kind, &column.typing.kind) {
                    let message = format!("\"{}\" gives `{wanted}` in {}: {}", raw.name, in_file.text, refusal.message);
                    let mut diagnostic = Diagnostic::error(&codes::BAD_UNIT_IN_FILE, message, column.span, "");
                    diagnostic.mend = refusal.mend.or_else(|| Some("give the column that unit in the sheet".into()));
                    diagnostics.push(diagnostic);
                    return None;
                }
                unit = Some(in_file);
            }
            Err(problem) => {
                let message = format!("\"{}\", header `{}`: {}", raw.name, raw.headers[index], problem.message);
                let mut diagnostic = Diagnostic::error(&codes::BAD_UNIT_IN_FILE, message, column.span, "");
                diagnostic.mend = problem.mend;
                diagnostics.push(diagnostic);
                return None;
            }
        }
    }
    Some(Reader { index, column, unit })
}

impl Reader<'_> {
    fn read(&self, raw: &RawTable, library: &Library, span: Span, diagnostics: &mut Vec<Diagnostic>) -> Block {
        let mut misread = Vec::new();
        for &(row, _) in raw.faults.iter().filter(|(_, header)| *header == self.index).take(TOLD) {
            let mend = "mend it in the workbook, or clear the cell: a blank one is not taken yet";
            misread.push((row, Misread::is("an error of the workbook").with_mend(mend)));
        }
        let block = match &self.column.typing.kind {
            Kind::Number | Kind::Quantity(_) => {
                let unit = self.unit.as_ref();
                let typing = &self.column.typing;
                self.values(raw, 0.0, &mut misread, Data::Numbers, |field| fields::number(field, unit, typing))
            }
            Kind::Flag => self.values(raw, false, &mut misread, Data::Flags, fields::flag),
            Kind::Time => {
                let none = Moment { seconds: 0.0, offset: None, whole_day: false };
                self.values(raw, none, &mut misread, Data::Moments, fields::moment)
            }
            kind => {
                let none: Arc<str> = Arc::from("");
                self.values(raw, none, &mut misread, Data::Texts, |field| fields::word(field, kind, library))
            }
        };
        self.report(raw, misread, span, diagnostics);
        block
    }

    /// All fields of the column; what is blank is not taken.
    fn values<T: Clone>(
        &self,
        raw: &RawTable,
        none: T,
        misread: &mut Vec<(usize, Misread)>,
        data: impl Fn(Vec<T>) -> Data,
        read: impl Fn(&str) -> Result<T, Misread>,
    ) -> Block {
        let length = raw.rows.len();
        let mut states = States::known();
        let mut values = vec![none; length];
        for (at, (value, row)) in values.iter_mut().zip(&raw.rows).enumerate() {
            let field = row.fields.get(self.index).map_or("", |field| field.trim());
            if field.is_empty() || field == "?" || raw.faults.contains(&(at, self.index)) {
                states.set(at, Mark::Pending, length);
                continue;
            }
            match read(field) {
                Ok(read) => *value = read,
                // A file wrong throughout need not be told field by field.
                Err(problem) if misread.len() < TOLD => misread.push((at, problem)),
                Err(_) => {}
            }
        }
        Block { data: data(values), states }
    }

    fn report(&self, raw: &RawTable, misread: Vec<(usize, Misread)>, span: Span, diagnostics: &mut Vec<Diagnostic>) {
        for (row, problem) in misread {
            let field = raw.rows.get(row).and_then(|row| row.fields.get(self.index)).map_or("", |field| field.trim());
            let message = format!(
                "\"{}\" {}, column `{}`: \"{}\"{}",
                raw.name,
                raw.place(row, self.index),
                raw.headers[self.index],
                field.chars().take(40).collect::<String>(),
                problem.what,
            );
            let mut diagnostic =
                Diagnostic::error(&codes::BAD_FIELD, message, self.column.span, "read into this column")
                    .with_label(span, "from this file");
            diagnostic.mend = problem.mend;
            diagnostics.push(diagnostic);
        }
    }
}
