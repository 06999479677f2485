//! Arithmetic: sums, products, powers and signs, with points, differences and values from zero told apart.

use super::Kind;
use super::algebra::{self, Made, Refusal};
use super::checker::Checker;
use super::typed::{Scope, Typed};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::plan::{Datum, Node, Op, Wish};
use crate::source::Span;
use crate::syntax::tree::{BinaryOp, Expr, ExprKind};
use crate::units::{self, Unit};

impl Checker<'_, '_> {
    pub(super) fn negate(&mut self, value: &Expr, span: Span, scope: &Scope) -> Typed {
        let value = self.factor(value, scope);
        match algebra::negate(&value.kind) {
            Ok(kind) => Typed {
                shape: value.shape,
                wish: value.wish.clone(),
                factors: value.factors,
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
        self.refuse_atmosphere(&left, &right, span, plus);
        let shape = self.join(span, &[&left, &right]);
        let marks = Typed::unknown(span).marked_by(&[&left, &right]);
        let wish = wish_of_sum(&left, &right);
        let factors = if plus { left.factors.plus(right.factors) } else { left.factors.minus(right.factors) };
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
        let both_points = left.kind.is_bounded_by_zero() && right.kind.is_bounded_by_zero();
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
        Self::above_zero(Typed { shape, wish, factors, safety: marks.safety, local: marks.local, ..typed })
    }

    pub(super) fn scaled(
        &mut self,
        left: Typed,
        right: Typed,
        span: Span,
        rule: fn(&Made, &Made) -> Result<Made, Refusal>,
        op: fn(Box<Node>, Box<Node>) -> Op,
    ) -> Typed {
        let node = op(Box::new(left.node.clone()), Box::new(right.node.clone()));
        let (kind, factors) = match rule(&left.made(), &right.made()) {
            Ok(made) => made,
            Err(refusal) => {
                let refusal = self.both_ways(&left, &right, &node, refusal);
                let point = if left.kind.is_point() { &left } else { &right };
                self.refuse(&codes::SCALED_POINT, refusal, span, &[&point.clone()]);
                return Typed::unknown(span);
            }
        };
        let shape = self.join(span, &[&left, &right]);
        let wish = wish_of_product(&left, &right, &node);
        Self::above_zero(Typed { shape, wish, factors, ..Typed::new(span, node, kind) }.marked_by(&[&left, &right]))
    }

    pub(super) fn power(&mut self, base: &Expr, exponent: &Expr, span: Span, scope: &Scope) -> Typed {
        let base = self.factor(base, scope);
        let written = written_fraction(exponent);
        if let Some((numerator, denominator)) = written {
            return match algebra::power(&base.made(), numerator, denominator) {
                Ok((kind, factors)) => {
                    let op = Op::Power(Box::new(base.node.clone()), numerator, denominator);
                    let typed = Typed { shape: base.shape, factors, ..Typed::new(span, op, kind) };
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
                let factors = base.factors;
                Typed { shape, factors, ..Typed::new(span, op, Kind::Number) }.marked_by(&[&base, &exponent])
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

/// Shares add up to a share, and what two values of a vacuum gauge lie apart is shown in its unit.
fn wish_of_sum(left: &Typed, right: &Typed) -> Option<Wish> {
    if left.is_share() || right.is_share() {
        return [left, right].into_iter().find(|one| one.is_share()).and_then(|one| one.wish.clone());
    }
    if !(left.kind.is_point() && right.kind.is_point()) {
        return None;
    }
    apart(left.unit()?, right.unit()?).map(Wish::unit)
}

/// The unit in which two values of a deep vacuum lie apart, if both are shown in one.
fn apart(one: &Unit, other: &Unit) -> Option<Unit> {
    let deep = |unit: &Unit| units::in_differences(unit) != *unit;
    if deep(one) && deep(other) { units::difference(one) } else { None }
}

/// A number of times a share, or a part of it, is a share.
fn wish_of_product(left: &Typed, right: &Typed, node: &Op) -> Option<Wish> {
    let both_numbers = left.kind == Kind::Number && right.kind == Kind::Number;
    match node {
        Op::Multiply(..) if both_numbers => {
            [left, right].into_iter().find(|one| one.is_share()).and_then(|one| one.wish.clone())
        }
        Op::Divide(..) if both_numbers && left.is_share() && !right.is_share() => left.wish.clone(),
        _ => None,
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
    [1, 2, 3, 4, 5, 6, 8].into_iter().find_map(|under| {
        let over = number * f64::from(under);
        (over == over.round() && over.abs() <= 60.0).then_some((over as i32, under))
    })
}
