//! A first look over the lines: which names a sheet declares and where they can be seen, and which
//! lines are the two head lines of a table.

use std::collections::HashMap;
use std::ops::Range;

use super::Text;
use super::lines::RawLines;
use crate::syntax::lexeme::{Lexeme, LexemeKind};
use crate::syntax::token::LineRole;

/// What the first look found.
#[derive(Debug, Default)]
pub struct Outline {
    /// Lines in which a name can be seen.
    names: HashMap<String, Vec<Range<usize>>>,
    /// The role of each line.
    roles: Vec<LineRole>,
}

impl Outline {
    /// Whether a name that the sheet declares can be seen in a line.
    pub fn sees(&self, name: &str, line: usize) -> bool {
        let Some(scopes) = self.names.get(name) else { return false };
        // Scopes are sorted by their beginning and do not overlap, save for one over the whole sheet, which is first.
        let begun = scopes.partition_point(|scope| scope.start <= line);
        [scopes.first(), begun.checked_sub(1).and_then(|at| scopes.get(at))]
            .into_iter()
            .flatten()
            .any(|scope| scope.contains(&line))
    }

    /// What a line is to be read as.
    pub fn role(&self, line: usize) -> LineRole {
        self.roles.get(line).copied().unwrap_or(LineRole::Plain)
    }

    /// Looks over all lines.
    pub fn of(text: &Text<'_>, raw: &RawLines) -> Outline {
        let all = 0..raw.lines.len();
        let mut look =
            Look { text, outline: Outline::default(), blocks: Vec::new(), all: all.clone(), head_lines_left: 0 };
        look.outline.roles = vec![LineRole::Plain; raw.lines.len()];
        for (index, line) in raw.lines.iter().enumerate() {
            look.line(index, raw.lexemes.get(line.lexemes.clone()).unwrap_or(&[]));
        }
        look.close_all();
        #[expect(clippy::iter_over_hash_type, reason = "each list is put in order by itself")]
        for scopes in look.outline.names.values_mut() {
            scopes.sort_by_key(|scope| (scope.start, std::cmp::Reverse(scope.end)));
        }
        look.outline
    }
}

/// An open table or definition with the names that are seen only inside it.
struct Block {
    start: usize,
    names: Vec<String>,
    /// Stages group, they do not hide.
    hides: bool,
}

struct Look<'a> {
    text: &'a Text<'a>,
    outline: Outline,
    blocks: Vec<Block>,
    all: Range<usize>,
    /// Head lines of the table just begun that are still to come.
    head_lines_left: u8,
}

impl Look<'_> {
    fn line(&mut self, index: usize, line: &[Lexeme]) {
        let first = line.first().map_or("", |lexeme| self.text.slice(lexeme.range()));
        let alone = line.len() == 1;
        if self.head_lines_left > 0 && !(alone && first == "end") {
            return self.head_line(index, line);
        }
        self.head_lines_left = 0;
        self.solved_names(index, line);
        let second_is_word = self.kind(line, 1) == Some(LexemeKind::Word);
        match first {
            "end" if alone => self.close(index),
            "stage" if matches!(self.kind(line, 1), Some(LexemeKind::Text | LexemeKind::OpenText)) => {
                self.open(index, false)
            }
            "input" | "reading" | "instrument" if second_is_word => self.declare(line, 1),
            "table" if second_is_word => {
                self.declare(line, 1);
                self.open(index, true);
                self.head_lines_left = 2;
            }
            "define" if second_is_word => self.define(index, line),
            "fill" | "use" => {
                if let Some(at) = line.iter().position(|lexeme| lexeme.kind == LexemeKind::As) {
                    self.declare(line, at + 1);
                }
            }
            _ if matches!(self.kind(line, 1), Some(LexemeKind::Colon | LexemeKind::Equals)) => self.declare(line, 0),
            _ => {}
        }
    }

    fn head_line(&mut self, index: usize, line: &[Lexeme]) {
        let role = if self.head_lines_left == 2 { LineRole::Header } else { LineRole::UnitLine };
        self.head_lines_left -= 1;
        let looks_like_a_row = match (self.kind(line, 0), self.kind(line, 1)) {
            (Some(LexemeKind::Number), Some(LexemeKind::Over)) => false,
            (Some(LexemeKind::Text | LexemeKind::Number | LexemeKind::NotTaken), _) => true,
            _ => false,
        };
        if looks_like_a_row {
            return;
        }
        if let Some(slot) = self.outline.roles.get_mut(index) {
            *slot = role;
        }
        if role == LineRole::Header {
            let mut begins = true;
            for (at, lexeme) in line.iter().enumerate() {
                if begins && lexeme.kind == LexemeKind::Word {
                    self.declare(line, at);
                }
                begins = lexeme.kind == LexemeKind::Bar;
            }
        }
    }

    fn define(&mut self, index: usize, line: &[Lexeme]) {
        self.declare(line, 1);
        let mut depth = 0_usize;
        let mut formula = false;
        let mut parameters = Vec::new();
        for (at, lexeme) in line.iter().enumerate() {
            match lexeme.kind {
                LexemeKind::OpenRound => depth += 1,
                LexemeKind::CloseRound => depth = depth.saturating_sub(1),
                LexemeKind::Equals if depth == 0 => formula = true,
                LexemeKind::Word if depth == 1 && !formula => {
                    if matches!(self.kind(line, at - 1), Some(LexemeKind::OpenRound | LexemeKind::Comma)) {
                        parameters.push(self.text.name(*lexeme));
                    }
                }
                _ => {}
            }
        }
        if formula {
            for name in parameters {
                self.outline.names.entry(name).or_default().push(index..index + 1);
            }
        } else {
            self.blocks.push(Block { start: index, names: parameters, hides: true });
        }
    }

    /// The unknown of `solve(x within …` is seen in its own line.
    fn solved_names(&mut self, index: usize, line: &[Lexeme]) {
        for four in line.windows(4) {
            let [function, open, unknown, within] = four else { continue };
            if within.kind == LexemeKind::Within
                && open.kind == LexemeKind::OpenRound
                && unknown.kind == LexemeKind::Word
                && self.text.slice(function.range()) == "solve"
            {
                self.outline.names.entry(self.text.name(*unknown)).or_default().push(index..index + 1);
            }
        }
    }

    fn kind(&self, line: &[Lexeme], at: usize) -> Option<LexemeKind> {
        line.get(at).map(|lexeme| lexeme.kind)
    }

    fn declare(&mut self, line: &[Lexeme], at: usize) {
        let Some(lexeme) = line.get(at).filter(|lexeme| lexeme.kind == LexemeKind::Word) else { return };
        let name = self.text.name(*lexeme);
        match self.blocks.iter_mut().rev().find(|block| block.hides) {
            Some(block) => block.names.push(name),
            None => self.outline.names.entry(name).or_default().push(self.all.clone()),
        }
    }

    fn open(&mut self, start: usize, hides: bool) {
        self.blocks.push(Block { start, names: Vec::new(), hides });
    }

    fn close(&mut self, end: usize) {
        let Some(block) = self.blocks.pop() else { return };
        for name in block.names {
            self.outline.names.entry(name).or_default().push(block.start..end + 1);
        }
    }

    fn close_all(&mut self) {
        while !self.blocks.is_empty() {
            self.close(self.all.end);
        }
    }
}
