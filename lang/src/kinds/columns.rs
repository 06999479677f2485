//! What is read along a column: times, neighbours, slopes, interpolation.

use super::Kind;
use super::algebra;
use super::checker::Checker;
use super::typed::{Scope, Shape, Typed};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::plan::{Node, Op};
use crate::source::Span;
use crate::syntax::tree::Expr;
use crate::units::Dimension;

impl Checker<'_, '_> {
    /// `elapsed(time)` and `previous(x)`: a value a row from the whole column.
    pub(super) fn along(&mut self, name: &str, argument: &Expr, span: Span, scope: &Scope) -> Typed {
        let column = self.value(argument, &scope.of_columns());
        if column.kind == Kind::Unknown {
            return Typed::unknown(span);
        }
        let Shape::Column(_) = column.shape else {
            self.not_a_column(name, &column, scope);
            return Typed::unknown(span);
        };
        let node = Box::new(column.node.clone());
        let typed = if name == "elapsed" {
            let duration = matches!(column.kind, Kind::Quantity(q) if q.dimension == Dimension::TIME);
            if !duration && column.kind != Kind::Time {
                let message = format!("`elapsed` takes a column of times, and this is {}", column.kind.words());
                self.report(Diagnostic::error(&codes::WRONG_KIND, message, column.span(), ""));
                return Typed::unknown(span);
            }
            Typed::new(span, Op::Elapsed(node), Kind::plain(Dimension::TIME))
        } else {
            Typed {
                datum: column.datum,
                wish: column.wish.clone(),
                factors: column.factors,
                ..Typed::new(span, Op::Previous(node), column.kind.clone())
            }
        };
        self.in_row(Typed { shape: column.shape, ..typed }.marked_by(&[&column]), scope)
    }

    /// A column worked out as a whole: inside its own table's formula it is this row's value of it.
    pub(super) fn in_row(&mut self, typed: Typed, scope: &Scope) -> Typed {
        match (typed.shape, scope.table) {
            (Shape::Column(table), Some(own)) if table == own && !scope.columns => {
                let node = Node { span: typed.node.span, op: Op::ThisRow(Box::new(typed.node)) };
                Typed { node, shape: Shape::One, local: true, ..typed }
            }
            (Shape::Column(_), _) if !scope.columns => self.one(typed),
            _ => typed,
        }
    }

    pub(super) fn slope(&mut self, across: &Expr, up: &Expr, span: Span, scope: &Scope) -> Typed {
        let across = self.value(across, &scope.of_columns());
        let up = self.value(up, &scope.of_columns());
        if across.kind == Kind::Unknown || up.kind == Kind::Unknown {
            return Typed::unknown(span);
        }
        for (column, may_be_times) in [(&across, true), (&up, false)] {
            if column.shape == Shape::One {
                self.not_a_column("slope", column, scope);
                return Typed::unknown(span);
            }
            let runs = column.kind.is_numeric() || may_be_times && column.kind == Kind::Time;
            if !runs {
                return self.no_numbers("slope", column, span);
            }
        }
        let Shape::Column(table) = self.join(span, &[&across, &up]) else { return Typed::unknown(span) };
        let run = match &across.kind {
            Kind::Time => Ok(Kind::plain(Dimension::TIME)),
            kind => algebra::subtract(kind, kind),
        };
        let rise = algebra::subtract(&up.kind, &up.kind);
        let made = |kind: Kind, of: &Typed| (kind, of.factors.apart());
        let kind = run.and_then(|run| rise.and_then(|rise| algebra::divide(&made(rise, &up), &made(run, &across))));
        match kind {
            Ok((kind, factors)) => {
                let marks = Typed::unknown(span).marked_by(&[&across, &up]);
                let op = Op::Slope(table, Box::new(across.node), Box::new(up.node));
                self.said(Typed { factors, safety: marks.safety, ..Typed::new(span, op, kind) })
            }
            Err(refusal) => {
                self.refuse(&codes::WRONG_KIND, refusal, span, &[&across, &up]);
                Typed::unknown(span)
            }
        }
    }

    fn no_numbers(&mut self, function: &str, column: &Typed, span: Span) -> Typed {
        let message = format!("`{function}` needs columns of numbers, and this is {}", column.kind.words());
        self.report(Diagnostic::error(&codes::WRONG_KIND, message, column.span(), ""));
        Typed::unknown(span)
    }

    pub(super) fn interpolate(&mut self, arguments: &[&Expr], span: Span, scope: &Scope) -> Typed {
        let value = self.value(arguments[0], scope);
        let across = self.value(arguments[1], &scope.with_columns());
        let up = self.value(arguments[2], &scope.with_columns());
        if [&value, &across, &up].iter().any(|typed| typed.kind == Kind::Unknown) {
            return Typed::unknown(span);
        }
        for column in [&across, &up] {
            if column.shape == Shape::One {
                self.not_a_column("interpolate", column, scope);
                return Typed::unknown(span);
            }
            if !column.kind.is_numeric() {
                return self.no_numbers("interpolate", column, span);
            }
        }
        let Shape::Column(table) = self.join(span, &[&across, &up]) else { return Typed::unknown(span) };
        if let Err(refusal) = algebra::unify(&value.kind, &across.kind) {
            self.refuse(&codes::UNLIKE, refusal, span, &[&value, &across]);
            return Typed::unknown(span);
        }
        let marks = Typed::unknown(span).marked_by(&[&value, &across, &up]);
        let shape = value.shape;
        let (value, across) = Self::side_by_side(value, across);
        let (datum, wish, factors, kind) = (up.datum, up.wish.clone(), up.factors, up.kind.clone());
        let op = Op::Interpolate(Box::new(value.node), table, Box::new(across.node), Box::new(up.node));
        Typed { shape, datum, wish, factors, safety: marks.safety, local: marks.local, ..Typed::new(span, op, kind) }
    }
}
