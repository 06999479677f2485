//! Arithmetic: sums, products, powers and signs, with points, differences and open values told apart.

use super::Kind;
use super::algebra::{self, Refusal};
use super::checker::Checker;
use super::typed::{Scope, Typed};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::plan::{Datum, Node, Op};
use crate::source::Span;
use crate::syntax::tree::{BinaryOp, Expr, ExprKind};

impl Checker<'_, '_> {
    pub(super) fn negate(&mut self, value: &Expr, span: Span, scope: &Scope) -> Typed {
        let value = self.value(value, scope);
        match algebra::negate(&value.kind) {
            Ok(kind) => Typed {
                shape: value.shape,
                wish: value.wish.clone().filter(|_| kind == value.kind),
                ..Typed::new(span, Op::Negate(Box::new(value.node.clone())), kind)
            }
            .marked_by(&[&value]),
            Err(refusal) => {
                self.refuse(&codes::SCALED_POINT, refusal, span, &[&value]);
                Typed::unknown(span)
            }
        }
    }

    pub(super) fn sum(&mut self, left: Typed, right: Typed, span: Span, plus: bool) -> Typed {
        let rule = if plus { algebra::add } else { algebra::subtract };
        let kind = match rule(&left.kind, &right.kind) {
            Ok(Kind::Unknown) => return Typed::unknown(span),
            Ok(kind) => kind,
            Err(refusal) => {
                self.refuse(&codes::UNLIKE, refusal, span, &[&left, &right]);
                return Typed::unknown(span);
            }
        };
        let shape = self.join(span, &[&left, &right]);
        let marks = Typed::unknown(span).marked_by(&[&left, &right]);
        let build = |left: Typed, right: Typed, datum: Datum| {
            let (a, b) = (Box::new(left.node), Box::new(right.node));
            let op = match (&left.kind, &right.kind, plus) {
                (Kind::Time, Kind::Time, _) => Op::Between(a, b),
                (Kind::Time, _, true) => Op::Shift(a, b),
                (_, Kind::Time, _) => Op::Shift(b, a),
                (Kind::Time, _, false) => Op::Shift(a, Box::new(Node { span, op: Op::Negate(b) })),
                (_, _, true) => Op::Add(a, b),
                (_, _, false) => Op::Subtract(a, b),
            };
            Typed { datum, ..Typed::new(span, op, kind.clone()) }
        };
        let both_points = left.kind.is_point() && right.kind.is_point();
        let typed = if both_points && left.datum == right.datum {
            // The atmosphere cancels: two gauge readings need no site for their difference.
            build(left, right, Datum::Absolute)
        } else if both_points {
            build(left.absolute(), right.absolute(), Datum::Absolute)
        } else if left.kind.is_point() {
            let datum = left.datum;
            build(left, right.absolute(), datum)
        } else if right.kind.is_point() {
            let datum = right.datum;
            build(left.absolute(), right, datum)
        } else {
            build(left, right, Datum::Absolute)
        };
        Self::above_zero(Typed { shape, safety: marks.safety, local: marks.local, ..typed })
    }

    pub(super) fn scaled(
        &mut self,
        left: Typed,
        right: Typed,
        span: Span,
        rule: fn(&Kind, &Kind) -> Result<Kind, Refusal>,
        op: fn(Box<Node>, Box<Node>) -> Op,
    ) -> Typed {
        let kind = match rule(&left.kind, &right.kind) {
            Ok(kind) => kind,
            Err(refusal) => {
                let point = if left.kind.is_point() { &left } else { &right };
                self.refuse(&codes::SCALED_POINT, refusal, span, &[&point.clone()]);
                return Typed::unknown(span);
            }
        };
        let shape = self.join(span, &[&left, &right]);
        let typed = Typed::new(span, op(Box::new(left.node.clone()), Box::new(right.node.clone())), kind);
        Self::above_zero(Typed { shape, ..typed }.marked_by(&[&left, &right]))
    }

    pub(super) fn power(&mut self, base: &Expr, exponent: &Expr, span: Span, scope: &Scope) -> Typed {
        let base = self.value(base, scope);
        let written = written_fraction(exponent);
        if let Some((numerator, denominator)) = written {
            return match algebra::power(&base.kind, numerator, denominator) {
                Ok(kind) => {
                    let op = Op::Power(Box::new(base.node.clone()), numerator, denominator);
                    let typed = Typed { shape: base.shape, ..Typed::new(span, op, kind) };
                    Self::above_zero(typed.marked_by(&[&base]))
                }
                Err(refusal) => {
                    self.refuse(&codes::SCALED_POINT, refusal, span, &[&base]);
                    Typed::unknown(span)
                }
            };
        }
        let exponent = self.value(exponent, scope);
        match (&base.kind, &exponent.kind) {
            (Kind::Unknown, _) | (_, Kind::Unknown) => Typed::unknown(span),
            (Kind::Number, Kind::Number) => {
                let shape = self.join(span, &[&base, &exponent]);
                let op = Op::PowerOf(Box::new(base.node.clone()), Box::new(exponent.node.clone()));
                Typed { shape, ..Typed::new(span, op, Kind::Number) }.marked_by(&[&base, &exponent])
            }
            _ => {
                self.report(
                    Diagnostic::error(
                        &codes::BAD_EXPONENT,
                        "a quantity can be raised only to a written whole number or simple fraction",
                        exponent.span(),
                        "the unit of the result must be known beforehand",
                    )
                    .with_mend("write the exponent as a number: `^2`, `^(1/2)`"),
                );
                Typed::unknown(span)
            }
        }
    }
}

/// A written whole number or simple fraction: `2`, `-1`, `(1/2)`, `0.5`.
fn written_fraction(expr: &Expr) -> Option<(i32, i32)> {
    match &expr.kind {
        ExprKind::Number(number) => as_fraction(*number),
        ExprKind::Negate(inner) => written_fraction(inner).map(|(a, b)| (-a, b)),
        ExprKind::Binary(BinaryOp::Divide, over, under) => {
            let ((a, 1), (b, 1)) = (written_fraction(over)?, written_fraction(under)?) else { return None };
            if b == 0 { None } else { Some(if b < 0 { (-a, -b) } else { (a, b) }) }
        }
        _ => None,
    }
}

fn as_fraction(number: f64) -> Option<(i32, i32)> {
    [1, 2, 3, 4, 5, 6].into_iter().find_map(|under| {
        let over = number * f64::from(under);
        (over == over.round() && over.abs() <= 60.0).then_some((over as i32, under))
    })
}
