//! Comparisons and ranges: both sides of one kind, held alike.

use std::cmp::Ordering;

use super::algebra::{self, Refusal};
use super::checker::Checker;
use super::typed::{Scope, Typed};
use super::{Kind, Quantity, Stance};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::plan::{Node, Op, Order};
use crate::source::Span;
use crate::syntax::tree::{self, Expr, ExprKind, Range};
use crate::units::Dimension;

impl Checker<'_, '_> {
    pub(super) fn compare(&mut self, order: Order, left: Typed, right: Typed, span: Span) -> Typed {
        if let Err(refusal) = algebra::unify(&left.kind, &right.kind) {
            self.refuse(&codes::UNLIKE, refusal, span, &[&left, &right]);
            return Typed { kind: Kind::Flag, ..Typed::unknown(span) };
        }
        self.compare_words(&left, &right, span);
        if !self.shares_are_said(&left, &right) {
            return Typed { kind: Kind::Flag, ..Typed::unknown(span) };
        }
        let ordering = !matches!(order, Order::Equal | Order::NotEqual);
        if ordering && (left.vacuum || right.vacuum) {
            self.report(
                Diagnostic::error(
                    &codes::VACUUM_ORDER,
                    "a deeper vacuum is a lower pressure but a larger number in inHgv, so this order says the opposite of what it seems to",
                    span,
                    "compared here",
                )
                .with_mend("compare in `psia` or `micron`"),
            );
            return Typed { kind: Kind::Flag, ..Typed::unknown(span) };
        }
        let shape = self.join(span, &[&left, &right]);
        let marks = Typed::unknown(span).marked_by(&[&left, &right]);
        let kind = if left.kind == Kind::Unknown { right.kind.clone() } else { left.kind.clone() };
        let (left, right) = Self::side_by_side(left, right);
        let (a, b) = (Box::new(left.node), Box::new(right.node));
        let negated = order == Order::NotEqual;
        let op = match kind {
            Kind::Number | Kind::Quantity(_) => Op::Compare(order, a, b),
            Kind::Time => Op::CompareTimes(order, a, b),
            Kind::Text(_) | Kind::Refrigerant | Kind::Gas | Kind::Flag if !ordering => {
                let same = if kind == Kind::Flag { Op::SameFlag(a, b) } else { Op::SameText(a, b) };
                if negated { Op::Not(Box::new(Node { span, op: same })) } else { same }
            }
            Kind::Unknown => return Typed { kind: Kind::Flag, ..Typed::unknown(span) },
            other => {
                self.report(
                    Diagnostic::error(&codes::UNLIKE, format!("{} has no order", other.words()), span, "compared here")
                        .with_mend("use `==` or `!=`"),
                );
                return Typed { kind: Kind::Flag, ..Typed::unknown(span) };
            }
        };
        Typed { shape, safety: marks.safety, local: marks.local, ..Typed::new(span, op, Kind::Flag) }
    }

    /// Two values of one kind held alike: gauge readings stay gauge if both are.
    pub(super) fn side_by_side(left: Typed, right: Typed) -> (Typed, Typed) {
        if left.datum == right.datum { (left, right) } else { (left.absolute(), right.absolute()) }
    }

    pub(super) fn within(&mut self, value: &Expr, range: &Range, span: Span, scope: &Scope) -> Typed {
        let value = self.value(value, scope);
        match range {
            Range::Between(from, to) => {
                let (low, high) = self.ends(from, to, scope);
                self.between(value, low, high, span)
            }
            Range::PlusMinus(tolerance) => {
                let tolerance = self.value(tolerance, scope);
                self.around_zero(value, tolerance, span)
            }
            Range::PlusMinusOf(tolerance, of) => {
                let tolerance = self.value(tolerance, scope);
                let of = self.value(of, scope);
                self.near(value, tolerance, of, span)
            }
            Range::ShareOf(share, of) => {
                let of = self.value(of, scope);
                if of.kind.is_point() {
                    self.refuse(
                        &codes::SCALED_POINT,
                        Refusal {
                            message: "a share of a point on a scale means nothing: its zero is not true zero".into(),
                            mend: Some("state the tolerance in its unit, or use `absolute(…)` on both".into()),
                        },
                        span,
                        &[&of],
                    );
                    return Typed { kind: Kind::Flag, ..Typed::unknown(span) };
                }
                let share = Node { span, op: Op::Number(*share) };
                let size = Node { span, op: Op::Math(crate::plan::Math::Abs, vec![of.node.clone()]) };
                let kind = match of.kind.quantity() {
                    Some(Quantity { dimension, stance: Stance::FromZero }) => {
                        Kind::Quantity(Quantity { dimension, stance: Stance::Difference })
                    }
                    _ => of.kind.clone(),
                };
                let op = Op::Multiply(Box::new(share), Box::new(size));
                let tolerance = Typed { shape: of.shape, ..Typed::new(span, op, kind) }.marked_by(&[&of]);
                self.near(value, tolerance, of, span)
            }
        }
    }

    /// Both ends of a range; a bare first number takes the unit of the second.
    pub(super) fn ends(&mut self, from: &Expr, to: &Expr, scope: &Scope) -> (Typed, Typed) {
        let unknown = |low, high| (Typed { kind: Kind::Unknown, ..low }, Typed { kind: Kind::Unknown, ..high });
        let high = self.value(to, scope);
        // A bare first number waits for the unit of the second.
        if matches!(to.kind, ExprKind::Unreadable) {
            return unknown(Typed::unknown(from.span), high);
        }
        let low = match (&from.kind, &to.kind, &high.wish) {
            (ExprKind::Number(number), ExprKind::Quantity(quantity), Some(_)) if quantity.pieces.len() == 1 => {
                let mut piece = quantity.pieces[0].clone();
                piece.number = *number;
                self.quantity(&tree::Quantity { pieces: vec![piece] }, from.span)
            }
            (ExprKind::Negate(inner), ExprKind::Quantity(quantity), Some(_))
                if quantity.pieces.len() == 1 && matches!(inner.kind, ExprKind::Number(_)) =>
            {
                let mut piece = quantity.pieces[0].clone();
                if let ExprKind::Number(number) = inner.kind {
                    piece.number = -number;
                }
                self.quantity(&tree::Quantity { pieces: vec![piece] }, from.span)
            }
            _ => self.value(from, scope),
        };
        if let Err(refusal) = algebra::unify(&low.kind, &high.kind) {
            self.refuse(&codes::UNLIKE, refusal, from.span.to(to.span), &[&low, &high]);
            return unknown(low, high);
        }
        let (low, high) = if low.vacuum && high.vacuum && reversed(&low, &high) { (high, low) } else { (low, high) };
        if reversed(&low, &high) {
            self.report(
                Diagnostic::error(
                    &codes::ENDS_REVERSED,
                    "the ends of this range are the wrong way round",
                    from.span.to(to.span),
                    "the lesser end stands first",
                )
                .with_mend("swap the two ends"),
            );
            return unknown(low, high);
        }
        (low, high)
    }

    pub(super) fn between(&mut self, value: Typed, low: Typed, high: Typed, span: Span) -> Typed {
        for end in [&low, &high] {
            if !self.shares_are_said(&value, end) {
                return Typed { kind: Kind::Flag, ..Typed::unknown(span) };
            }
            if let Err(refusal) = algebra::unify(&value.kind, &end.kind) {
                self.refuse(&codes::UNLIKE, refusal, span, &[&value, &end.clone()]);
                return Typed { kind: Kind::Flag, ..Typed::unknown(span) };
            }
            if !matches!(end.kind, Kind::Number | Kind::Quantity(_) | Kind::Time | Kind::Unknown) {
                let message = format!("{} has no order", end.kind.words());
                self.report(Diagnostic::error(&codes::UNLIKE, message, span, ""));
                return Typed { kind: Kind::Flag, ..Typed::unknown(span) };
            }
        }
        let shape = self.join(span, &[&value, &low, &high]);
        let marks = Typed::unknown(span).marked_by(&[&value, &low, &high]);
        let alike = value.datum == low.datum && low.datum == high.datum;
        let hold = |typed: Typed| Box::new(if alike { typed } else { typed.absolute() }.node);
        let op = Op::Within(hold(value), hold(low), hold(high));
        Typed { shape, safety: marks.safety, local: marks.local, ..Typed::new(span, op, Kind::Flag) }
    }

    /// `x within ± t`: for a difference, a quantity or a number.
    pub(super) fn around_zero(&mut self, value: Typed, tolerance: Typed, span: Span) -> Typed {
        let has_distance = value.kind.is_numeric() || value.kind == Kind::Unknown;
        if value.kind.is_bounded_by_zero() || !has_distance {
            let refusal = Refusal {
                message: format!("`within ±` around zero is for a difference, and this is {}", value.kind.words()),
                mend: Some("say around what: `within ± t of y`".into()),
            };
            self.refuse(&codes::UNLIKE, refusal, span, &[&value]);
            return Typed { kind: Kind::Flag, ..Typed::unknown(span) };
        }
        let zero = Typed::new(span, Op::Number(0.0), value.kind.clone());
        self.near(value, tolerance, zero, span)
    }

    pub(super) fn near(&mut self, value: Typed, tolerance: Typed, of: Typed, span: Span) -> Typed {
        let flag = |typed: Typed| Typed { kind: Kind::Flag, ..typed };
        if let Err(refusal) = algebra::unify(&value.kind, &of.kind) {
            self.refuse(&codes::UNLIKE, refusal, span, &[&value, &of]);
            return flag(Typed::unknown(span));
        }
        if !self.shares_are_said(&value, &of) || !self.shares_are_said(&value, &tolerance) {
            return flag(Typed::unknown(span));
        }
        let Ok(distance) = algebra::subtract(&value.kind, &value.kind) else {
            let message =
                format!("`within ±` is for numbers, quantities and times, and this is {}", value.kind.words());
            self.refuse(&codes::UNLIKE, Refusal::bare(message), span, &[&value]);
            return flag(Typed::unknown(span));
        };
        if tolerance.kind.is_point() || algebra::unify(&distance, &tolerance.kind).is_err() {
            let (message, mend) = match (tolerance.kind.is_point(), tolerance.kind.dimension()) {
                (true, Some(Dimension::TEMPERATURE)) => (
                    "a tolerance is a difference of temperatures, not a temperature".to_string(),
                    "write it in `F°` or `C°`",
                ),
                (true, _) => (
                    "a tolerance is a difference of pressures, not a pressure".to_string(),
                    "write it in `psi`, `kPa` or `bar`",
                ),
                _ => (
                    format!("the tolerance is {}, but the value is {}", tolerance.kind.words(), value.kind.words()),
                    "write the tolerance in a unit of the value's own kind",
                ),
            };
            let refusal = Refusal { message, mend: Some(mend.into()) };
            self.refuse(&codes::UNCERTAINTY_KIND, refusal, tolerance.span(), &[&tolerance.clone()]);
            return flag(Typed::unknown(span));
        }
        let shape = self.join(span, &[&value, &tolerance, &of]);
        let marks = Typed::unknown(span).marked_by(&[&value, &tolerance, &of]);
        let is_time = value.kind == Kind::Time;
        let (value, of) = Self::side_by_side(value, of);
        let (value, tolerance, of) = (Box::new(value.node), Box::new(tolerance.node), Box::new(of.node));
        let op = if is_time {
            let apart = Box::new(Node { span, op: Op::Between(value, of) });
            Op::Near(apart, tolerance, Box::new(Node { span, op: Op::Number(0.0) }))
        } else {
            Op::Near(value, tolerance, of)
        };
        Typed { shape, safety: marks.safety, local: marks.local, ..Typed::new(span, op, Kind::Flag) }
    }
}

/// Literals whose order is known before running.
fn reversed(low: &Typed, high: &Typed) -> bool {
    match (&low.node.op, &high.node.op) {
        (Op::Number(a), Op::Number(b)) => low.datum == high.datum && a > b,
        (Op::Moment(a), Op::Moment(b)) => b.compare(*a).is_ok_and(Ordering::is_lt),
        _ => false,
    }
}
