//! Blocks: stages, tables and definitions put together from lines, and what to do when an `end` is missing.

use chumsky::prelude::*;

use super::lines::{LineReader, first_word, has_formula, is_cell, name_at};
use super::marks::place;
use super::statements::{Grammar, InstrumentLine, TableHead};
use super::tables::OpenTable;
use crate::diagnostic::{Diagnostic, statements};
use crate::source::Span;
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::{Joined, LineRole, Token, TokenKind};
use crate::syntax::tree::*;

/// Reads all lines.
pub fn statements(joined: &Joined, diagnostics: &mut Vec<Diagnostic>) -> Vec<Statement> {
    let reader = LineReader { grammar: Grammar::new(), diagnostics };
    let mut blocks = Blocks { reader, sheet: Vec::new(), stage: None, inner: None };
    for line in &joined.lines {
        blocks.line(joined.of(line), line.role, line.faulty);
    }
    blocks.close_all(None);
    blocks.sheet
}

struct Blocks<'t, 'd> {
    reader: LineReader<'t, 'd>,
    sheet: Vec<Statement>,
    stage: Option<(Span, Stage)>,
    inner: Option<Inner>,
}

/// A block that no other stands in.
enum Inner {
    Table(OpenTable),
    Define(Span, Define, Vec<Cell>),
}

impl<'t> Blocks<'t, '_> {
    fn line(&mut self, line: &'t [Token], role: LineRole, faulty: bool) {
        if is_end(line) {
            if line.len() > 1 {
                // What stands behind `end` is told, and the block is closed all the same.
                self.reader.fault_at(line, 1, faulty);
            }
            return self.end(place(line), faulty || line.len() > 1);
        }
        match &mut self.inner {
            Some(Inner::Table(table)) if OpenTable::holds(line, role) => {
                return table.line(&mut self.reader, line, role, faulty);
            }
            Some(Inner::Define(_, _, cells)) if is_cell(line) || super::forms::form(first_word(line)).is_none() => {
                if let StatementKind::Cell(cell) = self.reader.statement(line, faulty) {
                    cells.push(cell);
                }
                return;
            }
            Some(_) => self.close_inner(None, Some(place(line))),
            None => {}
        }
        if is_cell(line) {
            let kind = self.reader.statement(line, faulty);
            return self.push(place(line), kind);
        }
        match first_word(line) {
            "stage" => self.open_stage(line, faulty),
            "sheet" => {
                self.close_all(Some(place(line)));
                let kind = self.reader.statement(line, faulty);
                self.push(place(line), kind);
            }
            "table" => self.open_table(line, faulty),
            "define" => self.define(line, faulty),
            "instrument" => self.instrument(line, faulty),
            "accuracy" | "repeats" | "serial" | "calibrated" => self.instrument_line(line, faulty),
            _ => {
                let kind = self.reader.statement(line, faulty);
                self.push(place(line), kind);
            }
        }
    }

    fn open_stage(&mut self, line: &'t [Token], faulty: bool) {
        let span = place(line);
        self.close_all(Some(span));
        let rule = self.reader.grammar.stage.clone();
        let (name, after) = self.reader.read(&rule, line, faulty).unwrap_or_else(|| {
            // What cannot be read still opens a stage, so that its `end` is not a stray one.
            let text = match line.get(1).map(|token| &token.kind) {
                Some(TokenKind::Text(text)) => text.plain.clone(),
                _ => String::new(),
            };
            (Words { text, span }, Vec::new())
        });
        self.stage = Some((span, Stage { name, after, statements: Vec::new() }));
    }

    fn open_table(&mut self, line: &'t [Token], faulty: bool) {
        let Some(name) = name_at(line, 1) else {
            self.reader.fault_at(line, 1, faulty);
            return self.push(place(line), StatementKind::Unreadable);
        };
        let rule = self.reader.grammar.table.clone();
        let head = self.reader.read(&rule, line, faulty);
        let head = head.unwrap_or(TableHead { name, from: None, at: None, traits: TableTraits::default() });
        self.inner = Some(Inner::Table(OpenTable::new(place(line), head)));
    }

    fn define(&mut self, line: &'t [Token], faulty: bool) {
        let span = place(line);
        let rule = self.reader.grammar.define.clone();
        let Some(define) = self.reader.read(&rule, line, faulty).or_else(|| self.unread_define(line)) else {
            return self.push(span, StatementKind::Unreadable);
        };
        if matches!(define.body, DefineBody::Block(_)) {
            self.inner = Some(Inner::Define(span, define, Vec::new()));
        } else {
            self.push(span, StatementKind::Define(define));
        }
    }

    /// A definition that cannot be read still declares its name, and still opens its block.
    fn unread_define(&self, line: &'t [Token]) -> Option<Define> {
        let (TokenKind::Word(text) | TokenKind::Function(text)) = &line.get(1)?.kind else { return None };
        let name = Name { text: text.clone(), span: line.get(1)?.span };
        let head = self.reader.grammar.define_head.parse(line).into_output();
        let (name, parameters, annotation) = head.unwrap_or((name, Vec::new(), None));
        let has_bracket = line.iter().any(|token| token.kind == TokenKind::Mark(Mark::OpenRound));
        let body = match has_bracket && !has_formula(line) {
            true => DefineBody::Block(Vec::new()),
            false => DefineBody::Formula(Expr { span: place(line), kind: ExprKind::Unreadable }),
        };
        Some(Define { name, parameters, annotation, body })
    }

    fn instrument(&mut self, line: &'t [Token], faulty: bool) {
        let rule = self.reader.grammar.instrument.clone();
        let kind = match (self.reader.read(&rule, line, faulty), name_at(line, 1)) {
            (Some(instrument), _) => StatementKind::Instrument(instrument),
            (None, Some(name)) => StatementKind::Instrument(Instrument {
                name,
                description: None,
                accuracy: None,
                repeats: None,
                serial: None,
                calibrated: None,
            }),
            (None, None) => StatementKind::Unreadable,
        };
        self.push(place(line), kind);
    }

    /// `accuracy …` and its like belong to the instrument right before them.
    fn instrument_line(&mut self, line: &'t [Token], faulty: bool) {
        let rule = self.reader.grammar.instrument_line.clone();
        let read = self.reader.read(&rule, line, faulty);
        let list = self.stage.as_mut().map_or(&mut self.sheet, |(_, stage)| &mut stage.statements);
        let Some(Statement { span, kind: StatementKind::Instrument(instrument) }) = list.last_mut() else {
            if !faulty && !matches!(list.last(), Some(Statement { kind: StatementKind::Unreadable, .. })) {
                let message =
                    format!("`{}` belongs to an instrument, and none stands right before it", first_word(line));
                self.reader.diagnostics.push(
                    Diagnostic::error(&statements::INSTRUMENT_LINE, message, place(line), "")
                        .with_mend("put it right below its line `instrument name \"description\"`"),
                );
            }
            return;
        };
        let Some(read) = read else { return };
        *span = span.to(place(line));
        let twice = match read {
            InstrumentLine::Accuracy(value) => instrument.accuracy.replace(value).is_some(),
            InstrumentLine::Repeats(value) => instrument.repeats.replace(value).is_some(),
            InstrumentLine::Serial(value) => instrument.serial.replace(value).is_some(),
            InstrumentLine::Calibrated(on, due) => instrument.calibrated.replace((on, due)).is_some(),
        };
        if twice {
            let message = format!("`{}` is given twice for this instrument", first_word(line));
            let diagnostic = Diagnostic::error(&statements::TWICE, message, place(line), "the second");
            self.reader.diagnostics.push(diagnostic.with_mend("keep one of them"));
        }
    }

    fn end(&mut self, span: Span, faulty: bool) {
        if self.inner.is_some() {
            self.close_inner(Some(span), None);
        } else if let Some((start, stage)) = self.stage.take() {
            self.sheet.push(Statement { span: start.to(span), kind: StatementKind::Stage(stage) });
        } else if !faulty {
            let message = "this `end` ends nothing";
            self.reader.diagnostics.push(
                Diagnostic::error(&statements::END_STRAY, message, span, "no stage, table or definition is open here")
                    .with_mend("take it away, or look above for a line that did not open what it should"),
            );
        }
    }

    /// Closes the table or definition that is open: at its `end`, or because of what stands at `noticed`.
    fn close_inner(&mut self, end: Option<Span>, noticed: Option<Span>) {
        let Some(inner) = self.inner.take() else { return };
        let (start, what, kind) = match inner {
            Inner::Table(table) => (table.span, "table", table.close(self.reader.diagnostics)),
            Inner::Define(start, define, cells) => {
                let kind = StatementKind::Define(Define { body: DefineBody::Block(cells), ..define });
                (start, "definition", kind)
            }
        };
        if end.is_none() {
            self.reader.diagnostics.push(end_missing(what, start, noticed));
        }
        self.push(start.to(end.unwrap_or(start)), kind);
    }

    /// Closes everything that is open, because of what stands at `noticed` or because the sheet ends.
    fn close_all(&mut self, noticed: Option<Span>) {
        self.close_inner(None, noticed);
        if let Some((start, stage)) = self.stage.take() {
            self.reader.diagnostics.push(end_missing("stage", start, noticed));
            let last = stage.statements.last().map_or(start, |statement| statement.span);
            self.sheet.push(Statement { span: start.to(last), kind: StatementKind::Stage(stage) });
        }
    }

    fn push(&mut self, span: Span, kind: StatementKind) {
        let statement = Statement { span, kind };
        match &mut self.stage {
            Some((_, stage)) => stage.statements.push(statement),
            None => self.sheet.push(statement),
        }
    }
}

fn is_end(line: &[Token]) -> bool {
    let second = line.get(1).map(|token| &token.kind);
    first_word(line) == "end" && !is_cell(line) && second != Some(&TokenKind::Mark(Mark::Bar))
}

fn end_missing(what: &str, start: Span, noticed: Option<Span>) -> Diagnostic {
    let message = format!("this {what} has no `end`");
    let diagnostic = Diagnostic::error(&statements::END_MISSING, message, start, "it begins here");
    let diagnostic = match noticed {
        Some(place) => diagnostic.with_label(place, format!("this cannot stand in a {what}")),
        None => diagnostic,
    };
    diagnostic.with_mend(format!("put `end` on a line of its own behind the last line of the {what}"))
}
