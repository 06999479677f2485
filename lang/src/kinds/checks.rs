//! Checks: the condition, and what it compares with what, for value, limit and margin in the report.

use super::Kind;
use super::checker::Checker;
use super::typed::{Scope, Typed};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::plan::{CheckPlan, Comparison, Math, Node, Op, Step};
use crate::source::Span;
use crate::syntax::tree::{BinaryOp, Check, Expr, ExprKind, Level, Range};

impl Checker<'_, '_> {
    pub(super) fn check(&mut self, check: &Check, stage: Option<usize>, table: Option<usize>) {
        if check.each && table.is_none() {
            self.report(
                Diagnostic::error(
                    &codes::EACH_OUTSIDE,
                    "`each` judges the rows of a table, and this stands outside any",
                    check.span,
                    "",
                )
                .with_mend("put it into the table, after its column formulas"),
            );
            return;
        }
        if let (Some(asked), false) = (&check.asked, check.each) {
            self.where_outside(asked.span);
            return;
        }
        let each = if check.each { table } else { None };
        let scope = Scope { table: each, ..Scope::default() };
        self.in_check = true;
        let condition = self.condition(&check.condition, &scope);
        self.in_check = false;
        let condition = self.one(condition);
        let asked = check.asked.as_ref().map(|asked| {
            let typed = self.condition(asked, &scope);
            self.one(typed)
        });
        if condition.kind == Kind::Unknown || asked.as_ref().is_some_and(|asked| asked.kind == Kind::Unknown) {
            return;
        }
        let comparison = self.comparison(&check.condition, &scope);
        let plan = CheckPlan {
            label: self.label_of(check.label.as_ref(), &check.condition),
            span: check.span,
            stage,
            require: check.level == Level::Require,
            each,
            safety: condition.safety,
            condition: condition.node,
            written: self.written(check.condition.span),
            asked: asked.map(|asked| asked.node),
            comparison,
        };
        self.plan.checks.push(plan);
        self.plan.steps.push(Step::Check(self.plan.checks.len() - 1));
    }

    /// Value and limits of a condition that is one comparison. Its errors have been reported with the condition.
    fn comparison(&mut self, condition: &Expr, scope: &Scope) -> Option<Comparison> {
        let reported = self.shared.diagnostics.len();
        let comparison = match &condition.kind {
            ExprKind::Binary(op, left, right) => self.order(*op, left, right, scope),
            ExprKind::Within(value, range) => self.range(value, range, condition.span, scope),
            _ => None,
        };
        self.shared.diagnostics.truncate(reported);
        comparison
    }

    fn order(&mut self, op: BinaryOp, left: &Expr, right: &Expr, scope: &Scope) -> Option<Comparison> {
        use BinaryOp::{AtLeast, AtMost, Equal, Less, More, NotEqual};
        if !matches!(op, Equal | NotEqual | Less | AtMost | More | AtLeast) {
            return None;
        }
        // A limit on the left is read the other way round: `5 F° <= superheat`.
        let (value, limit, op) = if self.is_limit(left) && !self.is_limit(right) {
            let turned = match op {
                Less => More,
                AtMost => AtLeast,
                More => Less,
                AtLeast => AtMost,
                same => same,
            };
            (right, left, turned)
        } else {
            (left, right, op)
        };
        let text = self.written(value.span);
        let value = self.value(value, scope);
        let limit = self.value(limit, scope);
        let words = match op {
            Less => "below",
            AtMost => "at most",
            More => "above",
            AtLeast => "at least",
            Equal => "equal to",
            _ => "not equal to",
        };
        let (low, high) = match op {
            Less | AtMost => (false, true),
            More | AtLeast => (true, false),
            _ => (true, true),
        };
        let shown = shown_like(&value, &[&limit]);
        let (value, limit) = Self::side_by_side(value, limit);
        let typing = crate::plan::Typing { datum: value.datum, ..shown };
        Some(Comparison {
            text,
            value: value.node,
            typing,
            low: low.then(|| limit.node.clone()),
            high: high.then(|| limit.node.clone()),
            words,
        })
    }

    fn is_limit(&self, expr: &Expr) -> bool {
        match &expr.kind {
            ExprKind::Number(_) | ExprKind::Quantity(_) | ExprKind::Text(_) | ExprKind::Flag(_) => true,
            ExprKind::Negate(inner) => self.is_limit(inner),
            _ => false,
        }
    }

    fn range(&mut self, value: &Expr, range: &Range, span: Span, scope: &Scope) -> Option<Comparison> {
        let text = self.written(value.span);
        let value = self.value(value, scope);
        let node = |op| Node { span, op };
        let (value, low, high, shown) = match range {
            Range::Between(from, to) => {
                let (low, high) = self.ends(from, to, scope);
                let shown = shown_like(&value, &[&high, &low]);
                let alike = value.datum == low.datum && low.datum == high.datum;
                let hold = |typed: Typed| if alike { typed } else { typed.absolute() };
                (hold(value), hold(low).node, hold(high).node, shown)
            }
            Range::PlusMinus(tolerance) => {
                let tolerance = self.value(tolerance, scope);
                let shown = shown_like(&value, &[&tolerance]);
                let low = node(Op::Negate(Box::new(tolerance.node.clone())));
                (value, low, tolerance.node, shown)
            }
            Range::PlusMinusOf(tolerance, of) => {
                let tolerance = self.value(tolerance, scope).node;
                let of = self.value(of, scope);
                let shown = shown_like(&value, &[&of]);
                let (value, of) = Self::side_by_side(value, of);
                let (low, high) = around(&of, tolerance, span);
                (value, low, high, shown)
            }
            Range::ShareOf(share, of) => {
                let of = self.value(of, scope);
                let shown = shown_like(&value, &[&of]);
                let (value, of) = Self::side_by_side(value, of);
                let size = node(Op::Math(Math::Abs, vec![of.node.clone()]));
                let tolerance = node(Op::Multiply(Box::new(node(Op::Number(*share))), Box::new(size)));
                let (low, high) = around(&of, tolerance, span);
                (value, low, high, shown)
            }
        };
        let typing = crate::plan::Typing { datum: value.datum, ..shown };
        Some(Comparison { text, value: value.node, typing, low: Some(low), high: Some(high), words: "within" })
    }
}

/// `of ± tolerance`
fn around(of: &Typed, tolerance: Node, span: Span) -> (Node, Node) {
    let centre = Box::new(of.node.clone());
    let node = |op| Node { span, op };
    let tolerance = Box::new(tolerance);
    if of.kind == Kind::Time {
        let back = Box::new(node(Op::Negate(tolerance.clone())));
        return (node(Op::Shift(centre.clone(), back)), node(Op::Shift(centre, tolerance)));
    }
    (node(Op::Subtract(centre.clone(), tolerance.clone())), node(Op::Add(centre, tolerance)))
}

/// The value's typing, shown in the unit of its limit if it has none of its own.
fn shown_like(value: &Typed, limits: &[&Typed]) -> crate::plan::Typing {
    let mut typing = value.typing();
    let weak = typing.wish.as_ref().is_none_or(|wish| wish.weak);
    if weak && let Some(wish) = limits.iter().find_map(|limit| limit.wish.clone()) {
        typing.wish = Some(wish);
    }
    typing
}
