//! Tables: two head lines, rows, formulas, checks.

use super::lines::{LineReader, first_word, is_cell, name_at};
use super::marks::place;
use super::rows::row;
use super::statements::{TableHead, UnitCell};
use crate::diagnostic::{Diagnostic, counted, statements};
use crate::limits;
use crate::source::Span;
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::{LineRole, Token, TokenKind};
use crate::syntax::tree::*;

/// A table whose `end` is still to come.
pub struct OpenTable {
    /// Its first line.
    pub span: Span,
    table: Table,
    header: Option<Vec<(Name, Option<Words>)>>,
    has_units: bool,
    /// Its head lines are wrong and have their message; rows cannot be told short or long.
    broken_head: bool,
}

impl OpenTable {
    /// A table from its first line.
    pub fn new(span: Span, head: TableHead) -> OpenTable {
        let TableHead { name, from, at, traits } = head;
        let table = Table { name, from, at, traits, columns: vec![], rows: vec![], formulas: vec![], checks: vec![] };
        OpenTable { span, table, header: None, has_units: false, broken_head: false }
    }

    /// Whether a line can stand in a table.
    pub fn holds(line: &[Token], role: LineRole) -> bool {
        role != LineRole::Plain
            || is_row(line)
            || is_cell(line)
            || matches!(first_word(line), "require" | "advise")
            || super::forms::form(first_word(line)).is_none()
    }

    /// Reads a line of the table.
    pub fn line<'t>(&mut self, reader: &mut LineReader<'t, '_>, line: &'t [Token], role: LineRole, faulty: bool) {
        match role {
            LineRole::Header => return self.header(reader, line, faulty),
            LineRole::UnitLine if self.header.is_some() => return self.units(reader, line, faulty),
            _ => {}
        }
        if !self.has_units && !self.broken_head {
            self.broken_head = true;
            reader.diagnostics.push(head_missing(place(line), self.header.is_some()));
        }
        if is_cell(line) {
            if let StatementKind::Cell(cell) = reader.statement(line, faulty) {
                self.table.formulas.push(cell);
            }
        } else if is_row(line) {
            self.row(reader, line, faulty);
        } else if let StatementKind::Check(check) = reader.statement(line, faulty) {
            self.table.checks.push(check);
        }
    }

    /// The table as far as it was read.
    pub fn close(mut self, diagnostics: &mut Vec<Diagnostic>) -> StatementKind {
        if !self.has_units && !self.broken_head {
            diagnostics.push(head_missing(self.span, self.header.is_some()));
        }
        if let (false, Some(header)) = (self.has_units, self.header.take()) {
            self.columns(header, Vec::new());
        }
        StatementKind::Table(self.table)
    }

    fn header<'t>(&mut self, reader: &mut LineReader<'t, '_>, line: &'t [Token], faulty: bool) {
        let rule = reader.grammar.header.clone();
        let read = reader.read(&rule, line, faulty);
        self.broken_head |= faulty || read.is_none();
        let header = read.unwrap_or_else(|| {
            let begins =
                |at: usize| at == 0 || line.get(at - 1).is_some_and(|token| token.kind == TokenKind::Mark(Mark::Bar));
            (0..line.len())
                .filter(|&at| begins(at))
                .filter_map(|at| name_at(line, at))
                .map(|name| (name, None))
                .collect()
        });
        self.broken_head |= header.is_empty();
        if header.len() > limits::COLUMNS {
            self.broken_head = true;
            let message = format!("a table has at most {} columns", limits::COLUMNS);
            reader.diagnostics.push(Diagnostic::error(&statements::TOO_LARGE, message, place(line), ""));
        }
        self.header = Some(header.into_iter().take(limits::COLUMNS).collect());
    }

    fn units<'t>(&mut self, reader: &mut LineReader<'t, '_>, line: &'t [Token], faulty: bool) {
        self.has_units = true;
        let header = self.header.take().unwrap_or_default();
        let rule = reader.grammar.unit_line.clone();
        let cells = match reader.read(&rule, line, faulty) {
            Some(cells) if cells.len() != header.len() && !faulty && !self.broken_head => {
                let stand = if cells.len() == 1 { "stands" } else { "stand" };
                let (units, columns) = (counted(cells.len(), "unit"), counted(header.len(), "column"));
                let message = format!("{units} {stand} under {columns}");
                reader.diagnostics.push(
                    Diagnostic::error(&statements::TABLE_HEAD, message, place(line), "")
                        .with_mend("give each column its unit; `-` for a number, `text` for words"),
                );
                cells
            }
            Some(cells) => cells,
            None => Vec::new(),
        };
        self.columns(header, cells);
    }

    fn columns(&mut self, header: Vec<(Name, Option<Words>)>, cells: Vec<UnitCell>) {
        let cells = cells.into_iter().map(Some).chain(std::iter::repeat_with(|| None));
        self.table.columns = header
            .into_iter()
            .zip(cells)
            .map(|((name, header), cell)| {
                let UnitCell { annotation, uncertainty, by, optional } = cell.unwrap_or_default();
                let annotation = annotation.map(|annotation| match annotation.kind {
                    // A blank cell has no place of its own.
                    AnnotationKind::Text => Annotation { span: name.span, ..annotation },
                    _ => annotation,
                });
                Column { name, header, annotation, uncertainty, by, optional }
            })
            .collect();
    }

    fn row<'t>(&mut self, reader: &mut LineReader<'t, '_>, line: &'t [Token], faulty: bool) {
        let span = place(line);
        if faulty || self.broken_head {
            return;
        }
        if let Some(formula) = self.table.formulas.first() {
            let message = "a row stands after a formula";
            reader.diagnostics.push(
                Diagnostic::error(&statements::ROW_AFTER_FORMULA, message, span, "this row")
                    .with_label(formula.name.span, "the formulas begin here")
                    .with_mend("move the row up: first all rows, then formulas and checks"),
            );
            return;
        }
        if self.table.rows.len() >= limits::ROWS {
            return;
        }
        match row(line, span, &self.table.columns) {
            Ok(row) => self.table.rows.push(row),
            Err(diagnostic) => reader.diagnostics.push(diagnostic),
        }
    }
}

/// A line is a row if it begins with a literal, a text, `?` or `|`, or with the name of a gas before a bar.
pub fn is_row(line: &[Token]) -> bool {
    match line.first().map(|token| &token.kind) {
        Some(TokenKind::Word(_)) => line.get(1).is_none_or(|second| second.kind == TokenKind::Mark(Mark::Bar)),
        Some(TokenKind::Mark(mark)) => {
            matches!(mark, Mark::NotTaken | Mark::Bar | Mark::Minus | Mark::True | Mark::False)
        }
        Some(TokenKind::Function(_) | TokenKind::Units(_)) | None => false,
        Some(_) => true,
    }
}

fn head_missing(span: Span, has_header: bool) -> Diagnostic {
    let message = if has_header {
        "the second line of a table gives each column its unit"
    } else {
        "the first line of a table names its columns"
    };
    Diagnostic::error(&statements::TABLE_HEAD, message, span, "")
        .with_mend("a table begins with two lines, such as `time | pressure` and `min | micron`")
}
