//! The lines of a laid-out sheet: the same as before, each with its indentation.

use super::columns::{aligned, cells};
use super::spacing::spell;
use crate::syntax::join::Text;
use crate::syntax::lexeme::{LexemeKind, lexemes};
use crate::syntax::parser::{first_word, has_formula, is_cell, is_row};
use crate::syntax::token::{Joined, LineRole, Token, TokenKind};

/// A line of the result.
#[derive(Debug, Default, Clone)]
pub struct PrintLine<'a> {
    /// Blocks and brackets it stands in.
    pub indent: usize,
    /// What stands on it.
    pub words: String,
    /// The comment at its end, or all there is on it.
    pub comment: Option<&'a str>,
}

/// The lines of a sheet that can be read.
pub fn print_lines<'a>(text: Text<'a>, joined: &Joined) -> Vec<PrintLine<'a>> {
    let starts: Vec<usize> = std::iter::once(0).chain(text.text.match_indices('\n').map(|(at, _)| at + 1)).collect();
    let mut sheet = Sheet { text, lines: vec![PrintLine::default(); starts.len()], starts, open: Vec::new() };
    for line in &joined.lines {
        sheet.line(joined.of(line), line.role);
    }
    sheet.comments();
    sheet.lines
}

/// A block whose `end` is still to come.
enum Block {
    /// A stage or a definition.
    Plain,
    /// A table, with the lines of its cells.
    Table(Vec<(usize, Vec<String>)>),
}

struct Sheet<'a> {
    text: Text<'a>,
    lines: Vec<PrintLine<'a>>,
    /// Where each line begins.
    starts: Vec<usize>,
    open: Vec<Block>,
}

impl Sheet<'_> {
    fn line(&mut self, line: &[Token], role: LineRole) {
        let Some(number) = line.first().map(|token| self.number(token)) else { return };
        if line.len() == 1 && first_word(line) == "end" {
            self.close();
            return self.set(number, self.open.len(), "end".into());
        }
        let indent = self.open.len();
        if let Some(Block::Table(rows)) = self.open.last_mut()
            && (role != LineRole::Plain || is_row(line))
        {
            rows.push((number, cells(self.text, line)));
            return self.set(number, indent, String::new());
        }
        let belongs = !is_cell(line) && matches!(first_word(line), "accuracy" | "repeats" | "serial" | "calibrated");
        self.statement(line, indent + usize::from(belongs));
        if !is_cell(line) && !matches!(self.open.last(), Some(Block::Table(_))) {
            match first_word(line) {
                "stage" => self.open.push(Block::Plain),
                "define" if !has_formula(line) => self.open.push(Block::Plain),
                "table" => self.open.push(Block::Table(Vec::new())),
                _ => {}
            }
        }
    }

    /// Prints a statement on the lines it was written on; the further ones are indented by the brackets open there.
    fn statement(&mut self, line: &[Token], indent: usize) {
        let mut brackets = 0_usize;
        let mut from = 0;
        while let Some(number) = line.get(from).map(|token| self.number(token)) {
            let rest = line.get(from..).unwrap_or(&[]);
            let to = from + rest.iter().take_while(|token| self.number(token) == number).count();
            let closing = rest.iter().take_while(|token| closes(token)).count();
            let deeper = if from == 0 || closing > 0 { brackets.saturating_sub(closing) } else { brackets.max(1) };
            for further in rest.iter().take(to - from) {
                brackets =
                    if closes(further) { brackets.saturating_sub(1) } else { brackets + usize::from(opens(further)) };
            }
            self.set(number, indent + deeper, spell(self.text, line, from, to));
            from = to;
        }
    }

    /// Closes the block that is open last, and lays its cells out.
    fn close(&mut self) {
        let Some(Block::Table(rows)) = self.open.pop() else { return };
        let (numbers, cells): (Vec<usize>, Vec<Vec<String>>) = rows.into_iter().unzip();
        for (number, words) in numbers.into_iter().zip(aligned(&cells)) {
            if let Some(line) = self.lines.get_mut(number) {
                line.words = words;
            }
        }
    }

    /// Puts comments where they were; one with a line of its own is indented as what follows it, before an `end` as
    /// what stands in the block.
    fn comments(&mut self) {
        for comment in lexemes(self.text.text).into_iter().filter(|lexeme| lexeme.kind == LexemeKind::Comment) {
            let number = self.line_of(comment.start as usize);
            if let Some(line) = self.lines.get_mut(number) {
                line.comment = Some(self.text.slice(comment.range()).trim_end());
            }
        }
        let mut indent = 0;
        for line in self.lines.iter_mut().rev() {
            if line.words.is_empty() {
                line.indent = indent;
            } else {
                indent = line.indent + usize::from(line.words == "end");
            }
        }
    }

    fn set(&mut self, number: usize, indent: usize, words: String) {
        if let Some(line) = self.lines.get_mut(number) {
            line.indent = indent;
            line.words = words;
        }
    }

    fn number(&self, token: &Token) -> usize {
        self.line_of(token.span.start as usize)
    }

    fn line_of(&self, byte: usize) -> usize {
        self.starts.partition_point(|&start| start <= byte).saturating_sub(1)
    }
}

fn opens(token: &Token) -> bool {
    matches!(token.kind, TokenKind::Mark(mark) if mark.closing().is_some())
}

fn closes(token: &Token) -> bool {
    matches!(token.kind, TokenKind::Mark(mark) if mark.is_closing())
}
