//! `solve`: the kind of the unknown, and a difference that must come to nothing.

use super::Kind;
use super::algebra;
use super::checker::Checker;
use super::typed::{LocalName, Scope, Shape, Typed};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::limits;
use crate::plan::{Node, Op, Solve};
use crate::source::Span;
use crate::syntax::tree;

impl Checker<'_, '_> {
    pub(super) fn solve(&mut self, solve: &tree::Solve, span: Span, scope: &Scope) -> Typed {
        if scope.solves >= limits::SOLVE_DEPTH {
            self.report(
                Diagnostic::error(&codes::SOLVE_DEPTH, "`solve` stands three deep", span, "the third")
                    .with_mend("solve the inner ones in cells of their own"),
            );
            return Typed::unknown(span);
        }
        let (low, high) = self.ends(&solve.from, &solve.to, scope);
        let kind = algebra::unify(&low.kind, &high.kind).unwrap_or(Kind::Unknown);
        if !kind.is_numeric() {
            return self.no_number(&low, span);
        }
        if self.is_taken_name(&solve.unknown.text, scope) {
            self.report(
                Diagnostic::error(
                    &codes::UNKNOWN_HIDES,
                    format!("the unknown `{}` has the name of something else", solve.unknown.text),
                    solve.unknown.span,
                    "",
                )
                .with_mend("give the unknown a name of its own"),
            );
            return Typed::unknown(span);
        }
        let mut inside = scope.clone();
        inside.solves += 1;
        let wish = high.wish.clone().or_else(|| low.wish.clone());
        let factors = low.factors.either(high.factors);
        let unknown = Typed { wish: wish.clone(), factors, ..Typed::new(span, Op::NotTaken, kind.clone()) };
        inside.locals.push(LocalName::of(&solve.unknown.text, &unknown, Shape::One));
        let local = inside.locals.len() - 1;
        let left = self.value(&solve.left, &inside);
        let right = self.value(&solve.right, &inside);
        if let Err(refusal) = algebra::unify(&left.kind, &right.kind) {
            self.refuse(&codes::UNLIKE, refusal, span, &[&left, &right]);
            return Typed::unknown(span);
        }
        let said = self.shares_are_said(&left, &right);
        if !said || left.kind == Kind::Unknown || right.kind == Kind::Unknown {
            return Typed { kind, ..Typed::unknown(span) };
        }
        if !left.kind.is_numeric() {
            return self.no_number(&left, span);
        }
        let shape = self.join(span, &[&low, &high, &left, &right]);
        let marks = Typed::unknown(span).marked_by(&[&low, &high, &left, &right]);
        let unknown = unknown.typing();
        let residual_kind = algebra::subtract(&left.kind, &right.kind).unwrap_or(Kind::Number);
        let residual = Typed::new(span, Op::NotTaken, residual_kind).typing();
        let (left, right) = Self::side_by_side(left, right);
        let difference = Node { span, op: Op::Subtract(Box::new(left.node), Box::new(right.node)) };
        let (from, to) = (low.absolute().node, high.absolute().node);
        let op = Op::Solve(Box::new(Solve { from, to, difference, local, unknown, residual }));
        // Each row would need a root of its own; that is what a column formula is for.
        self.one(Typed { shape, wish, factors, safety: marks.safety, local: marks.local, ..Typed::new(span, op, kind) })
    }

    fn no_number(&mut self, of: &Typed, span: Span) -> Typed {
        if of.kind != Kind::Unknown {
            let message = format!("`solve` looks for a number or a quantity, and this is {}", of.kind.words());
            self.report(Diagnostic::error(&codes::WRONG_KIND, message, of.span(), ""));
        }
        Typed::unknown(span)
    }
}
