//! How deep a line's tree would grow, told from its tokens before anything is built: neither the parser nor the
//! dropping of a tree may run out of stack.

use super::show::ends_value;
use crate::diagnostic::{Diagnostic, words};
use crate::limits;
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::{TextTokenPart, Token, TokenKind};

/// What is wrong with a line that would grow too deep or too long.
pub fn too_deep(line: &[Token]) -> Option<Diagnostic> {
    let mut depth = Depth { open: vec![Level::default()], sum: 0, operators: 0 };
    let mut after_value = false;
    for token in line {
        match &token.kind {
            TokenKind::Mark(Mark::Minus) if !after_value => depth.sign(),
            TokenKind::Mark(mark) => depth.mark(*mark),
            TokenKind::Text(text) => {
                for part in &text.parts {
                    if let TextTokenPart::Filled(filling) = part
                        && let Some(diagnostic) = too_deep(&filling.tokens)
                    {
                        return Some(diagnostic);
                    }
                }
            }
            _ => {}
        }
        after_value = ends_value(token);
        if depth.sum > limits::NESTING {
            let message = format!("more than {} brackets and signs stand inside one another", limits::NESTING);
            return Some(
                Diagnostic::error(&words::TOO_DEEP, message, token.span, "too deep from here")
                    .with_mend("give parts of the formula names of their own"),
            );
        }
        if depth.operators > limits::EXPRESSION_TOKENS {
            let message = format!("more than {} operators stand in one formula", limits::EXPRESSION_TOKENS);
            return Some(
                Diagnostic::error(&words::TOO_DEEP, message, token.span, "too long from here")
                    .with_mend("give parts of the formula names of their own, or put the numbers in a table"),
            );
        }
    }
    None
}

/// What nests to the right within one bracket.
#[derive(Default, Clone, Copy)]
struct Level {
    /// `if`, which holds all that follows.
    lasting: usize,
    /// Signs, `not` and powers, which end at the next looser operator.
    passing: usize,
    /// Operators since the last comma: each may hold all before it, as in a long sum.
    operators: usize,
}

struct Depth {
    open: Vec<Level>,
    /// What nests to the right, all levels together.
    sum: usize,
    /// Operators that may hold one another, all levels together.
    operators: usize,
}

impl Depth {
    fn mark(&mut self, mark: Mark) {
        if mark.is_operator() || matches!(mark, Mark::Dot | Mark::OpenSquare) {
            self.operator();
        }
        match mark {
            Mark::OpenRound | Mark::OpenSquare => {
                self.open.push(Level::default());
                self.sum += 1;
            }
            Mark::CloseRound | Mark::CloseSquare => {
                let level = self.open.pop().unwrap_or_default();
                self.sum = self.sum.saturating_sub(1 + level.lasting + level.passing);
                self.operators = self.operators.saturating_sub(level.operators);
                if self.open.is_empty() {
                    self.open.push(Level::default());
                }
            }
            Mark::Comma | Mark::Bar => self.reset(true),
            Mark::If => self.count(|level| &mut level.lasting),
            Mark::Caret | Mark::Not => self.sign(),
            mark if mark.is_operator() => self.reset(false),
            _ => {}
        }
    }

    fn operator(&mut self) {
        if let Some(level) = self.open.last_mut() {
            level.operators += 1;
            self.operators += 1;
        }
    }

    fn sign(&mut self) {
        self.operator();
        self.count(|level| &mut level.passing);
    }

    fn count(&mut self, which: fn(&mut Level) -> &mut usize) {
        if let Some(level) = self.open.last_mut() {
            *which(level) += 1;
            self.sum += 1;
        }
    }

    fn reset(&mut self, lasting_too: bool) {
        if let Some(level) = self.open.last_mut() {
            self.sum -= level.passing;
            level.passing = 0;
            if lasting_too {
                self.sum -= level.lasting;
                level.lasting = 0;
                self.operators -= level.operators;
                level.operators = 0;
            }
        }
    }
}
