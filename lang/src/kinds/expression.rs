//! The kind of every expression.

use std::sync::Arc;

use super::Kind;
use super::algebra;
use super::checker::Checker;
use super::typed::{Scope, Typed};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::limits;
use crate::names::{Entry, dotted};
use crate::plan::{Op, Order, Template, TemplatePart, Typing, Wish};
use crate::source::Span;
use crate::syntax::tree::{self, BinaryOp, Expr, ExprKind, TextLiteral, TextPart};

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
            ExprKind::Index(base, _) => self.index_without_field(base, span),
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

    /// A value that is no record.
    pub(super) fn value(&mut self, expr: &Expr, scope: &Scope) -> Typed {
        let typed = self.factor(expr, scope);
        self.said(typed)
    }

    /// A value where more is multiplied to it, or where its place says what a product stands for.
    pub(super) fn factor(&mut self, expr: &Expr, scope: &Scope) -> Typed {
        let typed = self.expr(expr, scope);
        self.single(typed)
    }

    /// Insists that it is known of a product whether it counts from zero.
    pub(super) fn said(&mut self, typed: Typed) -> Typed {
        match typed.kind.quantity() {
            Some(quantity) if typed.kind.is_unsaid() => {
                self.refuse(&codes::UNSAID, algebra::unsaid(quantity), typed.span(), &[]);
                Typed { kind: Kind::Unknown, ..typed }
            }
            _ => typed,
        }
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
        (Template { parts }, filled)
    }

    pub(super) fn refrigerant(&mut self, name: &str, span: Span) -> Typed {
        if let Err(failure) = self.shared.library.refrigerant(name) {
            let mut diagnostic =
                Diagnostic::error(&crate::diagnostic::names::UNKNOWN_REFRIGERANT, failure.message, span, "");
            diagnostic.mend = failure.mend;
            self.report(diagnostic);
            return Typed { kind: Kind::Refrigerant, ..Typed::unknown(span) };
        }
        if !self.plan.refrigerants.iter().any(|known| known == name) {
            self.plan.refrigerants.push(name.to_string());
        }
        Typed::new(span, Op::Text(Arc::from(name)), Kind::Refrigerant)
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
        let scales = matches!(op, BinaryOp::Multiply | BinaryOp::Divide);
        let mut side = |expr| if scales { self.factor(expr, scope) } else { self.value(expr, scope) };
        let (left, right) = (side(left), side(right));
        if matches!(op, BinaryOp::Equal | BinaryOp::NotEqual) {
            self.remember_compared(&left, &right, scope);
        }
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

    fn shown_as(&mut self, value: &Expr, shown: &tree::As, span: Span, scope: &Scope) -> Typed {
        let value = self.factor(value, scope);
        let Some(unit) = shown.units.first() else { return self.said(value) };
        let wanted = Typing::of_unit(unit);
        if shown.units.iter().any(|other| other.dimension != unit.dimension) {
            let message = "units to show a value in pieces must be of one dimension";
            self.report(Diagnostic::error(&codes::PIECES, message, shown.span, ""));
            return self.said(value);
        }
        let Some(typed) = self.settled(value, &wanted, shown.span) else { return Typed::unknown(span) };
        let mut typed = typed;
        typed.node.span = span;
        typed.wish = Some(Wish { units: shown.units.clone(), step: shown.step, weak: false });
        typed.vacuum = matches!(unit.meaning, crate::units::Meaning::Vacuum { .. });
        typed
    }

    /// A value settled to a kind, as after `:` or `as`: one from zero becomes the point wanted, a product what is wanted.
    pub(super) fn settled(&mut self, value: Typed, wanted: &Typing, place: Span) -> Option<Typed> {
        if !self.share_is_said(&value, wanted.wish.as_ref()) {
            return None;
        }
        let wanted = &wanted.kind;
        if let Err(mut refusal) = algebra::fits(&value.kind, wanted) {
            refusal.mend = self.words_for(&value, wanted).or(refusal.mend);
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
            (Kind::Quantity(_), Kind::Quantity(want)) => Kind::Quantity(*want),
            // A text may be anything; a word of a closed set stays one.
            (Kind::Text(Some(_)), Kind::Text(None)) => value.kind.clone(),
            (Kind::Text(_), wanted) => wanted.clone(),
            _ => value.kind.clone(),
        };
        let bounded = kind.is_bounded_by_zero() && !value.kind.is_bounded_by_zero();
        let typed = Typed { kind, ..value };
        // A product that the place takes for a point must lie above absolute zero as any other.
        Some(if bounded { Self::above_zero(typed) } else { typed })
    }

    fn choose(&mut self, condition: &Expr, yes: &Expr, no: &Expr, span: Span, scope: &Scope) -> Typed {
        let condition = self.condition(condition, scope);
        let yes = self.value(yes, scope).branch();
        let no = self.value(no, scope).branch();
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
        let factors = yes.factors.either(no.factors);
        let (yes, no) = Self::side_by_side(yes, no);
        let datum = yes.datum;
        let op = Op::If(Box::new(condition.node), Box::new(yes.node), Box::new(no.node));
        Typed {
            shape,
            datum,
            wish,
            factors,
            vacuum,
            safety: marks.safety,
            local: marks.local,
            ..Typed::new(span, op, kind)
        }
    }

    fn index_without_field(&mut self, base: &Expr, span: Span) -> Typed {
        if let Some(name) = dotted(base)
            && !matches!(self.directory.names.get(&name), Some(Entry::Table(_) | Entry::UsedTable(_) | Entry::Fill(_)))
        {
            return self.no_table(&name, base.span);
        }
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
