//! Folds: one value from a column, or from several values.

use super::algebra::{self, Refusal};
use super::checker::Checker;
use super::typed::{Scope, Shape, Typed};
use super::{Factors, Kind};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::plan::{Datum, Fold, FoldKind, Node, Op, Wish};
use crate::source::Span;
use crate::syntax::tree::{Call, Expr, ExprKind};
use crate::units;

impl Checker<'_, '_> {
    pub(super) fn taken(&mut self, argument: &Expr, span: Span, scope: &Scope) -> Typed {
        if !scope.columns {
            self.report(
                Diagnostic::error(
                    &codes::NOT_A_COLUMN,
                    "`taken` stands only inside a fold or a column argument",
                    span,
                    "",
                )
                .with_mend("write it as in `mean(taken(indoor.superheat))`"),
            );
            return Typed::unknown(span);
        }
        let value = self.value(argument, scope);
        if value.shape == Shape::One && value.kind != Kind::Unknown {
            self.not_a_column("taken", &value, scope);
            return Typed::unknown(span);
        }
        Typed { node: Node { span, op: Op::Taken(Box::new(value.node.clone())) }, ..value }
    }

    pub(super) fn not_a_column(&mut self, name: &str, value: &Typed, scope: &Scope) {
        let mut diagnostic = Diagnostic::error(
            &codes::NOT_A_COLUMN,
            format!("`{name}` takes a column, and this is one value"),
            value.span(),
            "one value",
        );
        if let (Some(table), Op::Row(column)) = (scope.table, &value.node.op) {
            let plan = &self.plan.tables[table];
            diagnostic.mend = Some(format!(
                "inside its table a bare name is the row's value; the whole column is `{}.{}`",
                plan.name, plan.columns[*column].name
            ));
        } else if fold_kind(name).is_some() {
            diagnostic.mend = Some("give it two and more values, or a column such as `table.column`".into());
        }
        self.report(diagnostic);
    }

    /// A fold of one column, or of several values.
    pub(super) fn fold(
        &mut self,
        kind: FoldKind,
        call: &Call,
        arguments: &[&Expr],
        span: Span,
        scope: &Scope,
    ) -> Typed {
        let name = call.name.text.as_str();
        let columns = 1 + usize::from(kind == FoldKind::WeightedMean);
        if arguments.is_empty() || (kind == FoldKind::WeightedMean && arguments.len() != 2) {
            self.arguments_error(span, format!("`{name}` needs something to fold"), name);
            return Typed::unknown(span);
        }
        let inside = scope.with_columns();
        if kind == FoldKind::Count
            && let ExprKind::Name(table) = &arguments[0].kind
            && let Some(table) = self.table_named(table, arguments[0].span, scope)
        {
            let over =
                Typed { shape: Shape::Column(table), ..Typed::new(arguments[0].span, Op::Flag(true), Kind::Flag) };
            return self.fold_column(kind, over, None, call, span, &inside);
        }
        let mut values: Vec<Typed> = arguments.iter().map(|argument| self.value(argument, &inside)).collect();
        if values.iter().any(|value| value.kind == Kind::Unknown) {
            if let Some(filter) = &call.filter {
                self.condition(filter, &inside);
            }
            return Typed::unknown(span);
        }
        let several = values.len() > columns;
        if several {
            if call.filter.is_some() {
                self.where_outside(span);
                return Typed::unknown(span);
            }
            let values = values.into_iter().map(|value| self.one(value)).collect();
            return self.fold_values(kind, values, span);
        }
        let over = values.remove(0);
        if over.shape == Shape::One {
            self.not_a_column(name, &over, scope);
            return Typed::unknown(span);
        }
        self.fold_column(kind, over, values.pop(), call, span, &inside)
    }

    pub(super) fn fold_column(
        &mut self,
        kind: FoldKind,
        over: Typed,
        weight: Option<Typed>,
        call: &Call,
        span: Span,
        inside: &Scope,
    ) -> Typed {
        let Shape::Column(table) = over.shape else { return Typed::unknown(span) };
        let filter = call.filter.as_ref().map(|filter| self.condition(filter, inside));
        let mut parts = vec![&over];
        parts.extend(weight.iter());
        parts.extend(filter.iter());
        self.join(span, &parts);
        let marks = Typed::unknown(span).marked_by(&parts);
        if filter.as_ref().is_some_and(|filter| filter.kind == Kind::Unknown) {
            return Typed::unknown(span);
        }
        if let Some(weight) = &weight
            && (!weight.kind.is_numeric() || weight.kind.is_point())
        {
            let message = format!("a weight is a number or a quantity, and this is {}", weight.kind.words());
            self.report(Diagnostic::error(&codes::WRONG_KIND, message, weight.span(), ""));
            return Typed::unknown(span);
        }
        let Some(result) = self.folded_kind(kind, &over, span) else { return Typed::unknown(span) };
        let numeric = over.kind.is_numeric();
        let datum = if result == over.kind { over.datum } else { Datum::Absolute };
        let wish = wish_of_fold(kind, &over, &result);
        let factors = factors_of_fold(kind, over.factors);
        let vacuum = over.vacuum && result == over.kind;
        let fold = Fold {
            kind,
            table,
            over: over.node,
            weight: weight.map(|weight| weight.node),
            filter: filter.map(|filter| filter.node),
            correlated: marks.local,
            numeric,
        };
        let op = Op::Fold(Box::new(fold));
        Typed { datum, wish, factors, vacuum, safety: marks.safety, local: marks.local, ..Typed::new(span, op, result) }
    }

    pub(super) fn fold_values(&mut self, kind: FoldKind, values: Vec<Typed>, span: Span) -> Typed {
        let mut common = values[0].clone();
        for value in &values[1..] {
            match algebra::unify(&common.kind, &value.kind) {
                Ok(unified) => common.kind = unified,
                Err(refusal) => {
                    self.refuse(&codes::UNLIKE, refusal, span, &[&common, value]);
                    return Typed::unknown(span);
                }
            }
        }
        let alike = values.iter().all(|value| value.datum == values[0].datum);
        let values: Vec<Typed> = if alike { values } else { values.into_iter().map(Typed::absolute).collect() };
        common.datum = values[0].datum;
        let Some(result) = self.folded_kind(kind, &common, span) else { return Typed::unknown(span) };
        let parts: Vec<&Typed> = values.iter().collect();
        let marks = Typed::unknown(span).marked_by(&parts);
        let datum = if result == common.kind { common.datum } else { Datum::Absolute };
        common.wish = values.iter().find_map(|value| value.wish.clone());
        let wish = wish_of_fold(kind, &common, &result);
        common.factors = values.iter().skip(1).fold(values[0].factors, |all, value| all.either(value.factors));
        let factors = factors_of_fold(kind, common.factors);
        let nodes = values.iter().map(|value| value.node.clone()).collect();
        let op = Op::FoldValues(kind, nodes);
        Typed { datum, wish, factors, safety: marks.safety, local: marks.local, ..Typed::new(span, op, result) }
    }

    /// The kind that a fold gives.
    pub(super) fn folded_kind(&mut self, fold: FoldKind, over: &Typed, span: Span) -> Option<Kind> {
        let numeric = over.kind.is_numeric();
        let refuse = |checker: &mut Self, message: String, mend: &str| {
            checker.report(Diagnostic::error(&codes::WRONG_KIND, message, over.span(), "").with_mend(mend));
            None
        };
        match fold {
            FoldKind::Count => Some(Kind::Number),
            FoldKind::First | FoldKind::Last => Some(over.kind.clone()),
            FoldKind::All | FoldKind::Any if over.kind == Kind::Flag => Some(Kind::Flag),
            FoldKind::All | FoldKind::Any => refuse(
                self,
                format!("a condition is wanted, and this is {}", over.kind.words()),
                "compare it with a limit",
            ),
            FoldKind::Sum if over.kind.is_point() => {
                let refusal = Refusal {
                    message: "the sum of points on a scale means nothing".into(),
                    mend: Some("`mean(…)` of them does; a sum needs differences or `absolute(…)`".into()),
                };
                self.refuse(&codes::POINT_SUM, refusal, span, &[over]);
                None
            }
            FoldKind::Spread if numeric => algebra::subtract(&over.kind, &over.kind).ok(),
            _ if numeric => Some(over.kind.clone()),
            _ => refuse(
                self,
                format!("numbers are wanted, and this is {}", over.kind.words()),
                "fold a column of numbers",
            ),
        }
    }
}

/// What a fold gives is shown in the unit of what it folds, as far as it is of its kind. A count of percentages is no
/// percentage; readings of a vacuum gauge are spread by so many `micron difference`.
fn wish_of_fold(fold: FoldKind, over: &Typed, result: &Kind) -> Option<Wish> {
    match fold {
        FoldKind::Count => None,
        _ if over.kind == *result => over.wish.clone(),
        FoldKind::Spread => {
            let unit = over.unit().filter(|unit| units::in_differences(unit) != **unit)?;
            units::difference(unit).map(Wish::unit)
        }
        _ => None,
    }
}

/// What has gone into what a fold gives.
fn factors_of_fold(fold: FoldKind, over: Factors) -> Factors {
    match fold {
        FoldKind::Count | FoldKind::All | FoldKind::Any => Factors::NONE,
        FoldKind::Spread => over.apart(),
        _ => over,
    }
}

/// The fold of this name.
pub(super) fn fold_kind(name: &str) -> Option<FoldKind> {
    Some(match name {
        "sum" => FoldKind::Sum,
        "mean" => FoldKind::Mean,
        "median" => FoldKind::Median,
        "min" => FoldKind::Min,
        "max" => FoldKind::Max,
        "spread" => FoldKind::Spread,
        "count" => FoldKind::Count,
        "first" => FoldKind::First,
        "last" => FoldKind::Last,
        "all" => FoldKind::All,
        "any" => FoldKind::Any,
        "weighted_mean" => FoldKind::WeightedMean,
        _ => return None,
    })
}
