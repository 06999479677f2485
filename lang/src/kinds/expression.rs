//! The kind of every expression.

use std::sync::Arc;

use super::algebra::{self, Refusal};
use super::checker::Checker;
use super::typed::{LocalName, Scope, Shape, Typed};
use super::{Kind, Quantity, Stance};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::limits;
use crate::plan::{Datum, Node, Op, Order, Solve, Template, TemplatePart, Wish};
use crate::source::Span;
use crate::syntax::tree::{self, BinaryOp, Expr, ExprKind, Range, TextLiteral, TextPart};
use crate::units::Dimension;

impl Checker<'_, '_> {
    /// The formula of an expression. What cannot be read has been reported and is of unknown kind.
    pub(super) fn expr(&mut self, expr: &Expr, scope: &Scope) -> Typed {
        let span = expr.span;
        if scope.depth > limits::EXPRESSION_DEPTH {
            self.report(
                Diagnostic::error(
                    &codes::TOO_DEEP_EXPRESSION,
                    format!("this expression has more than {} operations inside one another", limits::EXPRESSION_DEPTH),
                    span,
                    "too deep here",
                )
                .with_mend("give parts of it names of their own, or put the terms into a table and use `sum`"),
            );
            return Typed::unknown(span);
        }
        let inner = &Scope { depth: scope.depth + 1, ..scope.clone() };
        match &expr.kind {
            ExprKind::Number(number) => Typed::new(span, Op::Number(*number), Kind::Number),
            ExprKind::Quantity(quantity) => self.quantity(quantity, span),
            ExprKind::Text(text) => self.text(text, inner),
            ExprKind::Flag(flag) => Typed::new(span, Op::Flag(*flag), Kind::Flag),
            ExprKind::Moment(moment) => Typed::new(span, Op::Moment(*moment), Kind::Time),
            ExprKind::Refrigerant(name) => self.refrigerant(name, span),
            ExprKind::NotTaken => {
                self.report(
                    Diagnostic::error(&codes::NOT_TAKEN_HERE, "`?` cannot stand inside a formula", span, "here")
                        .with_mend("make it a reading of its own: `reading name : unit`, and use the name here"),
                );
                Typed::unknown(span)
            }
            ExprKind::Name(name) => self.name(name, span, scope),
            ExprKind::Field(base, field) => self.field(base, field, span, inner),
            ExprKind::Index(..) => self.index_without_field(span),
            ExprKind::Call(call) => self.call(call, span, inner),
            ExprKind::Negate(value) => self.negate(value, span, inner),
            ExprKind::Not(value) => {
                let value = self.condition(value, inner);
                Typed { shape: value.shape, ..Typed::new(span, Op::Not(Box::new(value.node.clone())), Kind::Flag) }
                    .marked_by(&[&value])
            }
            ExprKind::Binary(op, left, right) => self.binary(*op, left, right, span, inner),
            ExprKind::Within(value, range) => self.within(value, range, span, inner),
            ExprKind::As(value, shown) => self.shown_as(value, shown, span, inner),
            ExprKind::If(condition, yes, no) => self.choose(condition, yes, no, span, inner),
            ExprKind::Solve(solve) => self.solve(solve, span, inner),
            ExprKind::Range(..) => {
                self.report(
                    Diagnostic::error(
                        &codes::WRONG_ARGUMENTS,
                        "a range `a .. b` stands after `within`, or where a function's parameter is a range",
                        span,
                        "no range is wanted here",
                    )
                    .with_mend("write `x within a .. b`"),
                );
                Typed::unknown(span)
            }
            ExprKind::Unreadable => Typed::unknown(span),
        }
    }

    /// A value that is no column and no record.
    pub(super) fn value(&mut self, expr: &Expr, scope: &Scope) -> Typed {
        let typed = self.expr(expr, scope);
        self.single(typed)
    }

    /// A condition.
    pub(super) fn condition(&mut self, expr: &Expr, scope: &Scope) -> Typed {
        let typed = self.value(expr, scope);
        if !matches!(typed.kind, Kind::Flag | Kind::Unknown) {
            self.report(
                Diagnostic::error(
                    &codes::NOT_A_CONDITION,
                    format!("a condition is wanted, and this is {}", typed.kind.words()),
                    typed.span(),
                    "neither true nor false",
                )
                .with_mend("compare it with something, such as `> 5 F°`"),
            );
            return Typed { kind: Kind::Unknown, ..typed };
        }
        typed
    }

    fn text(&mut self, text: &TextLiteral, scope: &Scope) -> Typed {
        let span = text.span;
        if let [TextPart::Plain(words)] = text.parts.as_slice() {
            return Typed::new(span, Op::Text(Arc::from(words.as_str())), Kind::Text(None));
        }
        if text.parts.is_empty() {
            return Typed::new(span, Op::Text(Arc::from("")), Kind::Text(None));
        }
        let (template, parts) = self.template(text, scope);
        let parts: Vec<&Typed> = parts.iter().collect();
        let shape = self.join(span, &parts);
        let typed = Typed { shape, ..Typed::new(span, Op::Filling(Box::new(template)), Kind::Text(None)) };
        self.one(typed.marked_by(&parts))
    }

    pub(super) fn template(&mut self, text: &TextLiteral, scope: &Scope) -> (Template, Vec<Typed>) {
        let mut parts = Vec::new();
        let mut filled = Vec::new();
        for part in &text.parts {
            match part {
                TextPart::Plain(words) => parts.push(TemplatePart::Plain(words.clone())),
                TextPart::Filled(expr) => {
                    let typed = self.value(expr, scope);
                    parts.push(TemplatePart::Filled(typed.node.clone(), typed.typing()));
                    filled.push(typed);
                }
            }
        }
        (Template { parts, system: self.directory.system }, filled)
    }

    pub(super) fn refrigerant(&mut self, name: &str, span: Span) -> Typed {
        if let Err(failure) = self.shared.library.refrigerant(name) {
            let mut diagnostic =
                Diagnostic::error(&crate::diagnostic::names::UNKNOWN_REFRIGERANT, failure.message, span, "");
            diagnostic.mend = failure.mend;
            self.report(diagnostic);
            return Typed { kind: Kind::Refrigerant, ..Typed::unknown(span) };
        }
        Typed::new(span, Op::Text(Arc::from(name)), Kind::Refrigerant)
    }

    fn negate(&mut self, value: &Expr, span: Span, scope: &Scope) -> Typed {
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

    fn binary(&mut self, op: BinaryOp, left: &Expr, right: &Expr, span: Span, scope: &Scope) -> Typed {
        match op {
            BinaryOp::Power => return self.power(left, right, span, scope),
            BinaryOp::And | BinaryOp::Or => {
                let left = self.condition(left, scope);
                let right = self.condition(right, scope);
                let shape = self.join(span, &[&left, &right]);
                let (a, b) = (Box::new(left.node.clone()), Box::new(right.node.clone()));
                let op = if op == BinaryOp::And { Op::And(a, b) } else { Op::Or(a, b) };
                return Typed { shape, ..Typed::new(span, op, Kind::Flag) }.marked_by(&[&left, &right]);
            }
            _ => {}
        }
        let left = self.value(left, scope);
        let right = self.value(right, scope);
        match op {
            BinaryOp::Add => self.sum(left, right, span, true),
            BinaryOp::Subtract => self.sum(left, right, span, false),
            BinaryOp::Multiply => self.scaled(left, right, span, algebra::multiply, Op::Multiply),
            BinaryOp::Divide => self.scaled(left, right, span, algebra::divide, Op::Divide),
            BinaryOp::Equal => self.compare(Order::Equal, left, right, span),
            BinaryOp::NotEqual => self.compare(Order::NotEqual, left, right, span),
            BinaryOp::Less => self.compare(Order::Less, left, right, span),
            BinaryOp::AtMost => self.compare(Order::AtMost, left, right, span),
            BinaryOp::More => self.compare(Order::More, left, right, span),
            BinaryOp::AtLeast => self.compare(Order::AtLeast, left, right, span),
            BinaryOp::Power | BinaryOp::And | BinaryOp::Or => Typed::unknown(span),
        }
    }

    fn sum(&mut self, left: Typed, right: Typed, span: Span, plus: bool) -> Typed {
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

    fn scaled(
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

    fn power(&mut self, base: &Expr, exponent: &Expr, span: Span, scope: &Scope) -> Typed {
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

    pub(super) fn compare(&mut self, order: Order, left: Typed, right: Typed, span: Span) -> Typed {
        if let Err(refusal) = algebra::unify(&left.kind, &right.kind) {
            self.refuse(&codes::UNLIKE, refusal, span, &[&left, &right]);
            return Typed { kind: Kind::Flag, ..Typed::unknown(span) };
        }
        self.check_choice(&left, &right);
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

    fn check_choice(&mut self, left: &Typed, right: &Typed) {
        for (choices, other) in [(left, right), (right, left)] {
            if let (Kind::Text(Some(choices)), Op::Text(word)) = (&choices.kind, &other.node.op)
                && !choices.iter().any(|choice| **choice == **word)
            {
                let listed: Vec<String> = choices.iter().map(|choice| format!("\"{choice}\"")).collect();
                self.report(
                    Diagnostic::error(
                        &codes::BAD_CHOICE,
                        format!("\"{word}\" is not one of the choices, so this can never be true"),
                        other.span(),
                        "",
                    )
                    .with_mend(format!("one of {}", listed.join(", "))),
                );
            }
        }
    }

    fn within(&mut self, value: &Expr, range: &Range, span: Span, scope: &Scope) -> Typed {
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
                    Some(Quantity { dimension, stance: Stance::Open }) => {
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
        let high = self.value(to, scope);
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
            return (Typed { kind: Kind::Unknown, ..low }, Typed { kind: Kind::Unknown, ..high });
        }
        (low, high)
    }

    pub(super) fn between(&mut self, value: Typed, low: Typed, high: Typed, span: Span) -> Typed {
        for end in [&low, &high] {
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
        let op = if value.kind == Kind::Time {
            let node = |order, a: &Typed, b: &Typed| {
                Box::new(Node { span, op: Op::CompareTimes(order, Box::new(a.node.clone()), Box::new(b.node.clone())) })
            };
            Op::And(node(Order::AtLeast, &value, &low), node(Order::AtMost, &value, &high))
        } else {
            let alike = value.datum == low.datum && low.datum == high.datum;
            let hold = |typed: Typed| Box::new(if alike { typed } else { typed.absolute() }.node);
            Op::Within(hold(value), hold(low), hold(high))
        };
        Typed { shape, safety: marks.safety, local: marks.local, ..Typed::new(span, op, Kind::Flag) }
    }

    /// `x within ± t`: for a difference, a quantity or a number.
    fn around_zero(&mut self, value: Typed, tolerance: Typed, span: Span) -> Typed {
        if value.kind.is_bounded_by_zero() {
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

    fn near(&mut self, value: Typed, tolerance: Typed, of: Typed, span: Span) -> Typed {
        let flag = |typed: Typed| Typed { kind: Kind::Flag, ..typed };
        if let Err(refusal) = algebra::unify(&value.kind, &of.kind) {
            self.refuse(&codes::UNLIKE, refusal, span, &[&value, &of]);
            return flag(Typed::unknown(span));
        }
        let distance = algebra::subtract(&value.kind, &value.kind).unwrap_or(Kind::Unknown);
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
        let (value, of) = Self::side_by_side(value, of);
        let op = Op::Near(Box::new(value.node), Box::new(tolerance.node), Box::new(of.node));
        Typed { shape, safety: marks.safety, local: marks.local, ..Typed::new(span, op, Kind::Flag) }
    }

    fn shown_as(&mut self, value: &Expr, shown: &tree::As, span: Span, scope: &Scope) -> Typed {
        let value = self.value(value, scope);
        let Some(unit) = shown.units.first() else { return value };
        let wanted = Kind::of_unit(unit);
        if shown.units.iter().any(|other| other.dimension != unit.dimension) {
            let message = "units to show a value in pieces must be of one dimension";
            self.report(Diagnostic::error(&codes::PIECES, message, shown.span, ""));
            return value;
        }
        let Some(typed) = self.settled(value, &wanted, shown.span) else { return Typed::unknown(span) };
        let mut typed = typed;
        typed.node.span = span;
        typed.wish = Some(Wish { units: shown.units.clone(), step: shown.step, weak: false });
        typed.vacuum = matches!(unit.meaning, crate::units::Meaning::Vacuum { .. });
        typed
    }

    /// A value settled to a kind, as after `:` or `as`: an open value becomes the point or difference wanted.
    pub(super) fn settled(&mut self, value: Typed, wanted: &Kind, place: Span) -> Option<Typed> {
        if let Err(refusal) = algebra::fits(&value.kind, wanted) {
            let code = if matches!((&value.kind, wanted), (Kind::Quantity(a), Kind::Quantity(b)) if a.dimension != b.dimension)
            {
                &codes::SHOWN_UNIT
            } else {
                &codes::WRONG_KIND
            };
            let mut diagnostic = Diagnostic::error(code, refusal.message, value.span(), "");
            diagnostic.labels[0].text = format!("this is {}", value.kind.words());
            diagnostic = diagnostic.with_label(place, format!("{} is wanted", wanted.words()));
            diagnostic.mend = refusal.mend;
            self.report(diagnostic);
            return None;
        }
        let kind = match (&value.kind, wanted) {
            (Kind::Unknown, _) => Kind::Unknown,
            // What was computed from true zero stays marked.
            (Kind::Quantity(have), Kind::Quantity(want)) => match (have.stance, want.stance) {
                (Stance::Plain { .. }, _) => value.kind.clone(),
                _ => Kind::Quantity(*want),
            },
            (Kind::Text(_), wanted) => wanted.clone(),
            _ => value.kind.clone(),
        };
        Some(Typed { kind, ..value })
    }

    fn choose(&mut self, condition: &Expr, yes: &Expr, no: &Expr, span: Span, scope: &Scope) -> Typed {
        let condition = self.condition(condition, scope);
        let yes = self.value(yes, scope);
        let no = self.value(no, scope);
        let kind = match algebra::unify(&yes.kind, &no.kind) {
            Ok(kind) => kind,
            Err(refusal) => {
                self.refuse(&codes::UNLIKE, refusal, span, &[&yes, &no]);
                return Typed::unknown(span);
            }
        };
        let shape = self.join(span, &[&condition, &yes, &no]);
        let marks = Typed::unknown(span).marked_by(&[&condition, &yes, &no]);
        let wish = yes.wish.clone().or_else(|| no.wish.clone());
        let vacuum = yes.vacuum || no.vacuum;
        let (yes, no) = Self::side_by_side(yes, no);
        let datum = yes.datum;
        let op = Op::If(Box::new(condition.node), Box::new(yes.node), Box::new(no.node));
        Typed { shape, datum, wish, vacuum, safety: marks.safety, local: marks.local, ..Typed::new(span, op, kind) }
    }

    fn solve(&mut self, solve: &tree::Solve, span: Span, scope: &Scope) -> Typed {
        if scope.solves >= limits::SOLVE_DEPTH {
            self.report(
                Diagnostic::error(&codes::SOLVE_DEPTH, "`solve` stands three deep", span, "the third")
                    .with_mend("solve the inner ones in cells of their own"),
            );
            return Typed::unknown(span);
        }
        let (low, high) = self.ends(&solve.from, &solve.to, scope);
        let kind = match algebra::unify(&low.kind, &high.kind) {
            Ok(kind) => kind,
            Err(refusal) => {
                self.refuse(&codes::UNLIKE, refusal, span, &[&low, &high]);
                return Typed::unknown(span);
            }
        };
        if !matches!(kind, Kind::Number | Kind::Quantity(_)) {
            return Typed::unknown(span);
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
        inside.locals.push(LocalName {
            name: solve.unknown.text.clone(),
            kind: kind.clone(),
            shape: Shape::One,
            wish: high.wish.clone().or_else(|| low.wish.clone()),
            safety: false,
        });
        let local = inside.locals.len() - 1;
        let left = self.value(&solve.left, &inside);
        let right = self.value(&solve.right, &inside);
        if let Err(refusal) = algebra::unify(&left.kind, &right.kind) {
            self.refuse(&codes::UNLIKE, refusal, span, &[&left, &right]);
            return Typed::unknown(span);
        }
        if left.kind == Kind::Unknown || right.kind == Kind::Unknown {
            return Typed { kind, ..Typed::unknown(span) };
        }
        if !left.kind.is_numeric() {
            let message = format!("`solve` needs numbers on both sides, and this is {}", left.kind.words());
            self.report(Diagnostic::error(&codes::WRONG_KIND, message, left.span(), ""));
            return Typed::unknown(span);
        }
        let shape = self.join(span, &[&low, &high, &left, &right]);
        let marks = Typed::unknown(span).marked_by(&[&low, &high, &left, &right]);
        let wish = high.wish.clone().or_else(|| low.wish.clone());
        let unknown = Typed { wish: wish.clone(), ..Typed::new(span, Op::NotTaken, kind.clone()) }.typing();
        let residual_kind = algebra::subtract(&left.kind, &right.kind).unwrap_or(Kind::Number);
        let residual = Typed::new(span, Op::NotTaken, residual_kind).typing();
        let (left, right) = Self::side_by_side(left, right);
        let difference = Node { span, op: Op::Subtract(Box::new(left.node), Box::new(right.node)) };
        let (from, to) = (low.absolute().node, high.absolute().node);
        let op = Op::Solve(Box::new(Solve { from, to, difference, local, unknown, residual }));
        // Each row would need a root of its own; that is what a column formula is for.
        self.one(Typed { shape, wish, safety: marks.safety, local: marks.local, ..Typed::new(span, op, kind) })
    }

    fn index_without_field(&mut self, span: Span) -> Typed {
        self.report(
            Diagnostic::error(
                &crate::diagnostic::names::NOT_A_VALUE,
                "a whole row stands where one value is wanted",
                span,
                "which column of it?",
            )
            .with_mend("write a dot and the column: `table[\"key\"].column`"),
        );
        Typed::unknown(span)
    }
}

/// Literals whose order is known before running.
fn reversed(low: &Typed, high: &Typed) -> bool {
    match (&low.node.op, &high.node.op) {
        (Op::Number(a), Op::Number(b)) => low.datum == high.datum && a > b,
        _ => false,
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
