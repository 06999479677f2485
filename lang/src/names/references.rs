//! Which names an expression mentions, apart from what they stand for.

use std::collections::BTreeSet;

use crate::syntax::tree::{Define, DefineBody, Expr, ExprKind, Range, TextPart};

/// Names and calls in an expression, with the field asked of each name.
#[derive(Debug, Default)]
pub struct Mentions {
    /// A name, and the field asked of it if one is: `rise.time` gives both.
    pub names: BTreeSet<(String, Option<String>)>,
    /// Functions called, with the alias before them.
    pub calls: BTreeSet<String>,
}

impl Mentions {
    /// All mentions in an expression.
    pub fn of(expr: &Expr) -> Mentions {
        let mut mentions = Mentions::default();
        mentions.expr(expr);
        mentions
    }

    /// Adds those of another expression.
    pub fn expr(&mut self, expr: &Expr) {
        match &expr.kind {
            ExprKind::Number(_)
            | ExprKind::Quantity(_)
            | ExprKind::Flag(_)
            | ExprKind::Moment(_)
            | ExprKind::Refrigerant(_)
            | ExprKind::NotTaken
            | ExprKind::Unreadable => {}
            ExprKind::Text(text) => {
                for part in &text.parts {
                    if let TextPart::Filled(inner) = part {
                        self.expr(inner);
                    }
                }
            }
            ExprKind::Name(name) => drop(self.names.insert((name.clone(), None))),
            ExprKind::Field(base, field) => match dotted(base) {
                Some(name) => drop(self.names.insert((name, Some(field.text.clone())))),
                None => match &base.kind {
                    // `table["key"].column` asks one column of the table.
                    ExprKind::Index(table, key) => {
                        match dotted(table) {
                            Some(name) => drop(self.names.insert((name, Some(field.text.clone())))),
                            None => self.expr(table),
                        }
                        self.expr(key);
                    }
                    _ => self.expr(base),
                },
            },
            ExprKind::Index(base, key) => {
                self.expr(base);
                self.expr(key);
            }
            ExprKind::Call(call) => {
                self.calls.insert(match &call.alias {
                    Some(alias) => format!("{}.{}", alias.text, call.name.text),
                    None => call.name.text.clone(),
                });
                for argument in &call.arguments {
                    self.expr(&argument.value);
                }
                if let Some(filter) = &call.filter {
                    self.expr(filter);
                }
            }
            ExprKind::Negate(inner) | ExprKind::Not(inner) | ExprKind::As(inner, _) => self.expr(inner),
            ExprKind::Binary(_, left, right) | ExprKind::Range(left, right) => {
                self.expr(left);
                self.expr(right);
            }
            ExprKind::Within(value, range) => {
                self.expr(value);
                match &**range {
                    Range::Between(left, right) | Range::PlusMinusOf(left, right) => {
                        self.expr(left);
                        self.expr(right);
                    }
                    Range::PlusMinus(one) | Range::ShareOf(_, one) => self.expr(one),
                }
            }
            ExprKind::If(condition, yes, no) => {
                self.expr(condition);
                self.expr(yes);
                self.expr(no);
            }
            ExprKind::Solve(solve) => {
                for part in [&solve.from, &solve.to, &solve.left, &solve.right] {
                    self.expr(part);
                }
                self.names.remove(&(solve.unknown.text.clone(), None));
            }
        }
    }
}

/// What a definition mentions beside its parameters and own cells.
pub fn mentions_of_define(define: &Define) -> Mentions {
    let mut mentions = Mentions::default();
    match &define.body {
        DefineBody::Formula(expr) => mentions.expr(expr),
        DefineBody::Block(cells) => cells.iter().for_each(|cell| mentions.expr(&cell.value)),
    }
    for parameter in &define.parameters {
        if let Some(default) = &parameter.default {
            mentions.expr(default);
        }
    }
    mentions
}

/// `a` or `a.b` as one text, which may be a name or an alias with a name.
pub(crate) fn dotted(expr: &Expr) -> Option<String> {
    match &expr.kind {
        ExprKind::Name(name) => Some(name.clone()),
        ExprKind::Field(base, field) => dotted(base).map(|base| format!("{base}.{}", field.text)),
        _ => None,
    }
}
