//! One line at a time: which rule reads it, and what becomes of a line that cannot be read.

use chumsky::prelude::*;

use super::depth::too_deep;
use super::explain::{explain, no_name};
use super::marks::{Rule, place};
use super::statements::Grammar;
use crate::diagnostic::{Diagnostic, statements};
use crate::source::Span;
use crate::suggest::did_you_mean;
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::{Token, TokenKind};
use crate::syntax::tree::*;

/// Reads single lines and gathers their messages.
pub struct LineReader<'t, 'd> {
    /// The rules.
    pub grammar: Grammar<'t>,
    /// Where messages go.
    pub diagnostics: &'d mut Vec<Diagnostic>,
}

impl<'t> LineReader<'t, '_> {
    /// Reads a whole line by a rule. A `faulty` line has its message already and gets no other.
    pub fn read<O>(&mut self, rule: &Rule<'t, O>, line: &'t [Token], faulty: bool) -> Option<O> {
        self.read_from(rule, line, 0, faulty)
    }

    /// Reads a line by a rule from one of its tokens on.
    pub fn read_from<O>(&mut self, rule: &Rule<'t, O>, line: &'t [Token], from: usize, faulty: bool) -> Option<O> {
        if let Some(diagnostic) = too_deep(line) {
            if !faulty {
                self.diagnostics.push(diagnostic);
            }
            return None;
        }
        let (output, faults) = rule.parse(line.get(from..).unwrap_or(&[])).into_output_errors();
        if !faulty {
            for mut fault in faults {
                fault.at += from;
                self.diagnostics.push(explain(fault, line, place(line)));
            }
        }
        output
    }

    /// Reads a statement that fills one line. What cannot be read still declares its name.
    pub fn statement(&mut self, line: &'t [Token], faulty: bool) -> StatementKind {
        if is_cell(line) {
            let rule = self.grammar.cell.clone();
            return self.read(&rule, line, faulty).map_or_else(|| unread_cell(line), StatementKind::Cell);
        }
        match first_word(line) {
            "input" => self.given(line, faulty, StatementKind::Input),
            "reading" => self.given(line, faulty, StatementKind::Reading),
            "site" => self.site(line, faulty),
            "require" | "advise" => {
                let rule = self.grammar.check.clone();
                self.read(&rule, line, faulty).map_or(StatementKind::Unreadable, StatementKind::Check)
            }
            "fill" => {
                let rule = self.grammar.single.clone();
                self.read(&rule, line, faulty).unwrap_or_else(|| unread_fill(line))
            }
            "sheet" | "units" | "decide" | "use" | "confirm" | "waive" | "note" | "chart" => {
                let rule = self.grammar.single.clone();
                self.read(&rule, line, faulty).unwrap_or(StatementKind::Unreadable)
            }
            _ => {
                if !faulty {
                    let given_a_value = matches!(line.get(1), Some(token) if is_giving(token));
                    let none = line.first().filter(|first| given_a_value && is_no_name(first));
                    self.diagnostics.push(none.map_or_else(|| unknown_statement(line), no_name));
                }
                StatementKind::Unreadable
            }
        }
    }

    /// `input name …`, `reading name …`
    fn given(&mut self, line: &'t [Token], faulty: bool, kind: fn(Given) -> StatementKind) -> StatementKind {
        let Some(name) = name_at(line, 1) else {
            self.fault_at(line, 1, faulty);
            return StatementKind::Unreadable;
        };
        let rule = self.grammar.given.clone();
        kind(match self.read_from(&rule, line, 2, faulty) {
            Some((annotation, values, tail)) => {
                let given = Given { name, annotation, values, tail };
                if first_word(line) == "reading" && !faulty {
                    self.diagnostics.extend(given.values.iter().find_map(formula_in_reading));
                }
                if given.annotation.is_none() && given.values.is_empty() && !faulty {
                    self.diagnostics.push(nothing_given(&given.name, first_word(line)));
                }
                given
            }
            None => unread_given(name, line),
        })
    }

    /// `site altitude = …`, `site atmosphere = …`
    fn site(&mut self, line: &'t [Token], faulty: bool) -> StatementKind {
        let name = name_at(line, 1);
        let kind = match name.as_ref().map(|name| name.text.as_str()) {
            Some("altitude") => StatementKind::SiteAltitude,
            Some("atmosphere") => StatementKind::SiteAtmosphere,
            _ => {
                self.fault_at(line, 1, faulty);
                return StatementKind::Unreadable;
            }
        };
        self.given(line, faulty, kind)
    }

    /// A message at a token of a line.
    pub fn fault_at(&mut self, line: &'t [Token], at: usize, faulty: bool) {
        if !faulty {
            self.diagnostics.push(explain(super::fault::Fault { at, said: None }, line, place(line)));
        }
    }
}

/// The word a line begins with; empty if it begins with something else.
pub fn first_word(line: &[Token]) -> &str {
    match line.first().map(|token| &token.kind) {
        Some(TokenKind::Word(word)) => word,
        _ => "",
    }
}

/// `name = …` or `name : …`, whatever the name.
pub fn is_cell(line: &[Token]) -> bool {
    matches!(line.first().map(|token| &token.kind), Some(TokenKind::Word(_))) && line.get(1).is_some_and(is_giving)
}

/// `=` or `:` behind a name.
fn is_giving(token: &Token) -> bool {
    matches!(token.kind, TokenKind::Mark(Mark::Equals | Mark::Colon))
}

/// What looks like a name and can be none.
fn is_no_name(token: &Token) -> bool {
    match &token.kind {
        TokenKind::Refrigerant(_) => true,
        TokenKind::Mark(mark) => mark.is_reserved(),
        _ => false,
    }
}

/// Whether a definition has a formula on its line, so that no block follows.
pub fn has_formula(line: &[Token]) -> bool {
    let mut depth = 0_usize;
    line.iter().any(|token| {
        match token.kind {
            TokenKind::Mark(mark) if mark.is_closing() => depth = depth.saturating_sub(1),
            TokenKind::Mark(mark) if mark.closing().is_some() => depth += 1,
            _ => {}
        }
        depth == 0 && token.kind == TokenKind::Mark(Mark::Equals)
    })
}

/// The name at a token of a line.
pub fn name_at(line: &[Token], at: usize) -> Option<Name> {
    let token = line.get(at)?;
    match &token.kind {
        TokenKind::Word(text) => Some(Name { text: text.clone(), span: token.span }),
        _ => None,
    }
}

fn unread_cell(line: &[Token]) -> StatementKind {
    let unreadable = Expr { span: place(line), kind: ExprKind::Unreadable };
    match name_at(line, 0) {
        Some(name) => StatementKind::Cell(Cell { name, annotation: None, value: unreadable, note: None }),
        None => StatementKind::Unreadable,
    }
}

fn unread_given(name: Name, line: &[Token]) -> Given {
    let unreadable = Expr { span: place(line), kind: ExprKind::Unreadable };
    Given { name, annotation: None, values: vec![unreadable], tail: Tail::default() }
}

/// A filling whose bindings cannot be read still has its name.
fn unread_fill(line: &[Token]) -> StatementKind {
    let name = |at: usize| match line.get(at).map(|token| (&token.kind, token.span)) {
        Some((TokenKind::Word(text) | TokenKind::Function(text), span)) => Some(Name { text: text.clone(), span }),
        _ => None,
    };
    let path = match line.get(1).map(|token| (&token.kind, token.span)) {
        Some((TokenKind::Text(text), span)) => Some(Words { text: text.plain.clone(), span }),
        _ => None,
    };
    let each = name(4).filter(|word| word.text == "each").and_then(|_| name(5));
    match (path, name(3)) {
        (Some(path), Some(name)) => StatementKind::Fill(Fill { path, name, each, bindings: Vec::new() }),
        _ => StatementKind::Unreadable,
    }
}

/// A reading holds what an instrument showed; a formula belongs into a cell.
fn formula_in_reading(value: &Expr) -> Option<Diagnostic> {
    let formula = !value.kind.is_literal() && !matches!(value.kind, ExprKind::Name(_) | ExprKind::Unreadable);
    formula.then(|| {
        let message = "a reading is what was read, not a formula";
        Diagnostic::error(&statements::READING_FORMULA, message, value.span, "").with_mend(
            "give the value as read, and compute in a cell: `name = formula`; what is not measured is an `input`",
        )
    })
}

fn nothing_given(name: &Name, statement: &str) -> Diagnostic {
    let message = format!("the {statement} `{}` has neither a value nor a kind", name.text);
    Diagnostic::error(&statements::NOTHING_GIVEN, message, name.span, "").with_mend(format!(
        "write `{statement} {} = …`, or its unit if it is not known yet: `{statement} {} : psig`",
        name.text, name.text
    ))
}

/// Words a statement may begin with, for a hint at a misspelt one.
fn unknown_statement(line: &[Token]) -> Diagnostic {
    let word = first_word(line);
    let span: Span = line.first().map_or_else(Span::default, |token| token.span);
    let shown = line.first().map_or_else(String::new, super::show::shown);
    let message = format!("no statement begins with {shown}");
    let diagnostic = Diagnostic::error(&statements::UNKNOWN, message, span, "");
    let near = did_you_mean(word, super::forms::FORMS.iter().map(|(first, _)| *first)).filter(|_| !word.is_empty());
    diagnostic.with_mend(match near {
        Some(near) => format!("did you mean `{near}`? it is written `{}`", super::forms::form(near).unwrap_or(near)),
        None => "a cell is written `name = formula`; a table's rows stand between `table` and its `end`".to_string(),
    })
}
