//! The given rows of a table: from the sheet, from a file, or from outside.

use std::sync::Arc;

use super::block::{Block, Data, Mark, States};
use super::evaluate::{Sight, TableValues};
use super::fault::Fault;
use crate::diagnostic::{Diagnostic, tables as codes};
use crate::host::{Host, RawTable, columns_of, without_unit};
use crate::kinds::Kind;
use crate::limits;
use crate::moment::Moment;
use crate::plan::{ColumnPlan, Datum, TablePlan};
use crate::source::Span;
use crate::suggest::did_you_mean;
use crate::units::{self, Unit};

/// Rows written in the sheet.
pub fn from_sheet(sight: &Sight<'_>, table: &TablePlan) -> TableValues {
    let columns = (0..table.given)
        .map(|column| {
            let kind = table.columns.get(column).map_or(&Kind::Unknown, |column| &column.typing.kind);
            let rows = table
                .rows
                .iter()
                .map(|(_, nodes)| nodes.get(column).map_or_else(|| Block::pending(1), |node| sight.eval(node)));
            typed(Block::gather(rows.collect()), kind)
        })
        .collect();
    TableValues { rows: table.rows.len(), pending: table.open, columns }
}

/// A column of which nothing is known still has the sort of its kind.
fn typed(block: Block, kind: &Kind) -> Block {
    let Data::Nothing(length) = block.data else { return block };
    let data = match kind {
        Kind::Number | Kind::Quantity(_) => Data::Numbers(vec![0.0; length]),
        Kind::Text(_) | Kind::Refrigerant | Kind::Gas => Data::Texts(vec![Arc::from(""); length]),
        Kind::Flag => Data::Flags(vec![false; length]),
        Kind::Time => Data::Moments(vec![Moment { seconds: 0.0, offset: None, whole_day: false }; length]),
        Kind::Record(_) | Kind::Unknown => Data::Nothing(length),
    };
    Block { data, states: block.states }
}

/// Rows of a file. Errors leave the table pending and are reported.
pub fn from_file(
    host: &dyn Host,
    from: &str,
    path: &str,
    span: Span,
    table: &TablePlan,
    diagnostics: &mut Vec<Diagnostic>,
) -> TableValues {
    let none = TableValues { rows: 0, pending: true, columns: Vec::new() };
    let raw = match host.table(from, path) {
        Ok(raw) => raw,
        Err(problem) => {
            let mut diagnostic = Diagnostic::error(&codes::UNREADABLE_TABLE, problem.message, span, "");
            diagnostic.mend = problem.mend;
            diagnostics.push(diagnostic);
            return none;
        }
    };
    let before = diagnostics.len();
    if raw.rows.len() > limits::ROWS {
        let message = format!("\"{}\" has {} rows; a table may have {}", raw.name, raw.rows.len(), limits::ROWS);
        diagnostics.push(Diagnostic::error(&codes::TOO_MANY_ROWS, message, span, ""));
        return none;
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
                Ok(reader) => reader.read(&raw, span, diagnostics),
                Err(absent) => typed(Block::pending(raw.rows.len()), &absent.typing.kind),
            });
        }
    }
    if diagnostics.len() > before { none } else { TableValues { rows: raw.rows.len(), pending: false, columns } }
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
    fn read(&self, raw: &RawTable, span: Span, diagnostics: &mut Vec<Diagnostic>) -> Block {
        let length = raw.rows.len();
        let mut states = States::known();
        let mut problems = 0;
        let mut report =
            |row: usize, field: &str, problem: String, mend: Option<String>, diagnostics: &mut Vec<Diagnostic>| {
                problems += 1;
                // The first few say what is wrong; a file wrong throughout need not say it for each row.
                if problems <= 5 {
                    let shown: String = field.chars().take(40).collect();
                    let message = format!(
                        "\"{}\" {}, column `{}`: \"{shown}\" {problem}",
                        raw.name,
                        raw.place(row, self.index),
                        raw.headers[self.index]
                    );
                    let mut diagnostic =
                        Diagnostic::error(&codes::BAD_FIELD, message, self.column.span, "read into this column")
                            .with_label(span, "from this file");
                    diagnostic.mend = mend;
                    diagnostics.push(diagnostic);
                }
            };
        for &(row, _) in raw.faults.iter().filter(|(_, header)| *header == self.index) {
            let field = raw.rows.get(row).and_then(|row| row.fields.get(self.index)).map_or("", String::as_str);
            let mend = "mend it in the workbook, or clear the cell: a blank one is not taken yet";
            report(row, field, "is an error of the workbook".into(), Some(mend.into()), diagnostics);
        }
        let field_of = |at: usize, states: &mut States| -> Option<&str> {
            let row = raw.rows.get(at)?;
            let field = row.fields.get(self.index)?.trim();
            if field.is_empty() || field == "?" || raw.faults.contains(&(at, self.index)) {
                states.set(at, Mark::Pending, length);
                return None;
            }
            Some(field)
        };
        let data = match &self.column.typing.kind {
            Kind::Number | Kind::Quantity(_) => {
                let mut values = vec![0.0; length];
                for (at, value) in values.iter_mut().enumerate() {
                    let Some(field) = field_of(at, &mut states) else { continue };
                    match self.number(field) {
                        Ok(number) => *value = number,
                        Err((problem, mend)) => report(at, field, problem, mend, diagnostics),
                    }
                }
                Data::Numbers(values)
            }
            Kind::Flag => {
                let mut values = vec![false; length];
                for (at, value) in values.iter_mut().enumerate() {
                    let Some(field) = field_of(at, &mut states) else { continue };
                    match field.to_ascii_lowercase().as_str() {
                        "true" | "yes" => *value = true,
                        "false" | "no" => *value = false,
                        _ => report(
                            at,
                            field,
                            "is neither true nor false".into(),
                            Some("write `true` or `false`".into()),
                            diagnostics,
                        ),
                    }
                }
                Data::Flags(values)
            }
            Kind::Time => {
                let mut values = vec![Moment { seconds: 0.0, offset: None, whole_day: false }; length];
                for (at, value) in values.iter_mut().enumerate() {
                    let Some(field) = field_of(at, &mut states) else { continue };
                    match Moment::parse(field) {
                        Ok(moment) => *value = moment,
                        Err(problem) => report(
                            at,
                            field,
                            format!("is no date or time: {}", problem.message),
                            problem.mend,
                            diagnostics,
                        ),
                    }
                }
                Data::Moments(values)
            }
            kind => {
                let none: Arc<str> = Arc::from("");
                let mut values = vec![none; length];
                for (at, value) in values.iter_mut().enumerate() {
                    let Some(field) = field_of(at, &mut states) else { continue };
                    match kind {
                        Kind::Text(Some(words)) if !words.iter().any(|word| word == field) => {
                            report(at, field, format!("is not one of {}", words.join(", ")), None, diagnostics);
                        }
                        Kind::Refrigerant => match crate::syntax::parse_field(field) {
                            Some(crate::syntax::tree::ExprKind::Refrigerant(name)) => *value = Arc::from(name),
                            _ => report(
                                at,
                                field,
                                "is no refrigerant's designation".into(),
                                Some("write it as `R-410A`".into()),
                                diagnostics,
                            ),
                        },
                        _ => *value = Arc::from(field),
                    }
                }
                Data::Texts(values)
            }
        };
        Block { data, states }
    }

    /// A number as held: bare, or with a unit of the same kind.
    fn number(&self, field: &str) -> Result<f64, (String, Option<String>)> {
        if let Ok(number) = field.parse::<f64>()
            && number.is_finite()
            && !field.contains(['n', 'N', 'i', 'I'])
        {
            return self.held(number, self.unit.as_ref());
        }
        let split = field.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '+'))).unwrap_or(field.len());
        let (digits, rest) = field.split_at(split);
        let Ok(number) = digits.parse::<f64>() else {
            let mend =
                field.contains(',').then(|| "write the decimal point as a point, and no commas between digits".into());
            return Err(("is no number".into(), mend));
        };
        let unit = units::parse(rest.trim())
            .map_err(|problem| (format!("is no number with a unit: {}", problem.message), problem.mend))?;
        crate::kinds::algebra::fits(&Kind::of_unit(&unit), &self.column.typing.kind)
            .map_err(|refusal| (format!(": {}", refusal.message), refusal.mend))?;
        self.held(number, Some(&unit))
    }

    fn held(&self, number: f64, unit: Option<&Unit>) -> Result<f64, (String, Option<String>)> {
        let Some(unit) = unit else { return Ok(number) };
        let si = unit.to_si(number, 0.0);
        let gauge = unit.needs_atmosphere();
        match (gauge, self.column.typing.datum) {
            (true, Datum::Gauge) | (false, Datum::Absolute) => {
                if !gauge && self.column.typing.kind.is_bounded_by_zero() && si <= 0.0 {
                    return Err((
                        "is at or below absolute zero".into(),
                        Some("a value not taken is an empty field or `?`".into()),
                    ));
                }
                if si.is_finite() { Ok(si) } else { Err(("is too large to hold".into(), None)) }
            }
            _ => Err((
                "mixes gauge and absolute pressure with the rest of its column".into(),
                Some(format!("give the column the unit {} in the sheet", unit.text)),
            )),
        }
    }
}

/// A table handed over from the sheet that fills this one. Of an optional column that is not there nothing is known.
pub fn handed(
    table: &TableValues,
    columns: &[Option<usize>],
    data: &[(Datum, Datum)],
    atmosphere: &Block,
    span: Span,
) -> TableValues {
    let columns = columns
        .iter()
        .zip(data)
        .map(|(column, &(from, to))| {
            let block = column
                .and_then(|column| table.columns.get(column))
                .cloned()
                .unwrap_or_else(|| Block::pending(table.rows));
            super::evaluate::held(block, from, to, atmosphere, span)
        })
        .collect();
    TableValues { rows: table.rows, pending: table.pending, columns }
}

/// Breaks values outside the absolute scale once the atmosphere is known.
pub fn check_gauge(block: Block, atmosphere: &Block, span: Span) -> Block {
    let Some(site) = atmosphere.number_at(0) else { return block };
    super::arithmetic::break_where(
        block,
        |gauge| gauge + site <= 0.0,
        |_| {
            Fault::new(
                &crate::diagnostic::running::BELOW_ZERO,
                "this gauge pressure lies at or below absolute zero at this site",
                span,
            )
            .with_mend("mend the number or the site's atmosphere")
        },
    )
}
