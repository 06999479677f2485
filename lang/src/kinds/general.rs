//! The general functions of the language, of which no sheet can do without: mathematics, folds, columns.

use super::algebra::{self, Refusal};
use super::checker::Checker;
use super::typed::{Scope, Shape, Typed};
use super::{Kind, Quantity, Stance};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::plan::{Datum, Fold, FoldKind, Math, Node, Op};
use crate::source::Span;
use crate::syntax::tree::{Call, Expr, ExprKind};
use crate::units::Dimension;

/// A general function with its help.
#[derive(Debug, Clone, Copy)]
pub struct General {
    /// Its name.
    pub name: &'static str,
    /// How it is called.
    pub call: &'static str,
    /// What it gives.
    pub gives: &'static str,
}

/// All general functions, for help and completion.
pub static GENERAL: &[General] = &[
    General { name: "abs", call: "abs(x)", gives: "x without its sign; not of a point" },
    General {
        name: "absolute",
        call: "absolute(p)",
        gives: "a point counted from true zero, so that it can be scaled",
    },
    General { name: "all", call: "all(column)", gives: "whether it is true in all rows" },
    General { name: "any", call: "any(column)", gives: "whether it is true in any row" },
    General { name: "cbrt", call: "cbrt(x)", gives: "the cube root" },
    General { name: "cos", call: "cos(x)", gives: "the cosine of an angle in radians" },
    General {
        name: "count",
        call: "count(column where …)",
        gives: "how many rows there are; of a yes-or-no column, how many are true",
    },
    General { name: "elapsed", call: "elapsed(time)", gives: "in a table: the time since its first row" },
    General { name: "exp", call: "exp(x)", gives: "e to the power of a number" },
    General { name: "first", call: "first(column)", gives: "the first row's value" },
    General {
        name: "interpolate",
        call: "interpolate(x, table.a, table.b)",
        gives: "b where a is x, on a straight line between two rows",
    },
    General { name: "last", call: "last(column)", gives: "the last row's value" },
    General { name: "ln", call: "ln(x)", gives: "the natural logarithm of a number" },
    General { name: "log10", call: "log10(x)", gives: "the decimal logarithm of a number" },
    General { name: "max", call: "max(column) or max(a, b, …)", gives: "the greatest" },
    General { name: "mean", call: "mean(column) or mean(a, b, …)", gives: "the mean" },
    General { name: "median", call: "median(column) or median(a, b, …)", gives: "the middle value" },
    General { name: "min", call: "min(column) or min(a, b, …)", gives: "the least" },
    General {
        name: "previous",
        call: "previous(x)",
        gives: "in a table: the value of the row before; the first row has none",
    },
    General { name: "round", call: "round(x, step)", gives: "x to the nearest step, halves away from zero" },
    General { name: "round_down", call: "round_down(x, step)", gives: "x to the next step below" },
    General { name: "round_up", call: "round_up(x, step)", gives: "x to the next step above" },
    General { name: "sign", call: "sign(x)", gives: "-1, 0 or 1; not of a point" },
    General { name: "sin", call: "sin(x)", gives: "the sine of an angle in radians" },
    General { name: "slope", call: "slope(t, y)", gives: "the slope of the least-squares line through a column" },
    General { name: "spread", call: "spread(column) or spread(a, b, …)", gives: "the greatest less the least" },
    General { name: "sqrt", call: "sqrt(x)", gives: "the square root" },
    General { name: "sum", call: "sum(column) or sum(a, b, …)", gives: "the sum; not of points" },
    General { name: "taken", call: "taken(column)", gives: "the column without its rows that are not taken yet" },
    General { name: "tan", call: "tan(x)", gives: "the tangent of an angle in radians" },
    General {
        name: "weighted_mean",
        call: "weighted_mean(column, by = weights)",
        gives: "the mean with a weight a row",
    },
];

/// Whether a general function has this name.
pub(super) fn is_general(name: &str) -> bool {
    GENERAL.iter().any(|general| general.name == name)
}

impl Checker<'_, '_> {
    /// A call of a general function.
    pub(super) fn general(&mut self, call: &Call, span: Span, scope: &Scope) -> Typed {
        let name = call.name.text.as_str();
        if call.filter.is_some() && fold_kind(name).is_none() {
            self.where_outside(call.name.span);
            return Typed::unknown(span);
        }
        if let Some(named) = call.arguments.iter().find_map(|argument| argument.name.as_ref())
            && !(name == "weighted_mean" && named.text == "by")
        {
            self.arguments_error(named.span, format!("`{name}` takes its arguments in order, without names"), name);
            return Typed::unknown(span);
        }
        let arguments: Vec<&Expr> = call.arguments.iter().map(|argument| &argument.value).collect();
        if let Some(fold) = fold_kind(name) {
            return self.fold(fold, call, &arguments, span, scope);
        }
        let wanted = match name {
            "round" | "round_up" | "round_down" | "slope" => 2,
            "interpolate" => 3,
            _ => 1,
        };
        if arguments.len() != wanted {
            let message = format!("`{name}` takes {wanted} argument{}, not {}", plural(wanted), arguments.len());
            self.arguments_error(span, message, name);
            return Typed::unknown(span);
        }
        match name {
            "absolute" => self.absolute(arguments[0], span, scope),
            "taken" => self.taken(arguments[0], span, scope),
            "elapsed" | "previous" => self.along(name, arguments[0], span, scope),
            "slope" => self.slope(arguments[0], arguments[1], span, scope),
            "interpolate" => self.interpolate(&arguments, span, scope),
            "round" | "round_up" | "round_down" => self.round(name, arguments[0], arguments[1], span, scope),
            _ => self.math(name, arguments[0], span, scope),
        }
    }

    pub(super) fn where_outside(&mut self, span: Span) {
        self.report(
            Diagnostic::error(&codes::WHERE_OUTSIDE, "`where` stands outside a fold", span, "this takes no `where`")
                .with_mend("put the `where` inside `mean(…)`, `max(…)`, `count(…)` or another fold"),
        );
    }

    pub(super) fn arguments_error(&mut self, span: Span, message: String, function: &str) {
        let mut diagnostic = Diagnostic::error(&codes::WRONG_ARGUMENTS, message, span, "");
        if let Some(general) = GENERAL.iter().find(|general| general.name == function) {
            diagnostic.mend = Some(format!("write `{}`", general.call));
        }
        self.report(diagnostic);
    }

    fn math(&mut self, name: &str, argument: &Expr, span: Span, scope: &Scope) -> Typed {
        let value = self.value(argument, scope);
        if value.kind == Kind::Unknown {
            return Typed::unknown(span);
        }
        if value.kind.is_point() {
            let refusal = Refusal {
                message: format!("`{name}` of a point on a scale means nothing: its zero is not true zero"),
                mend: Some("write `absolute(…)` around it, or take a difference first".into()),
            };
            self.refuse(&codes::SCALED_POINT, refusal, span, &[&value]);
            return Typed::unknown(span);
        }
        let (math, kind) = match name {
            "abs" if value.kind.is_numeric() => (Math::Abs, value.kind.clone()),
            "sign" if value.kind.is_numeric() => (Math::Sign, Kind::Number),
            "sqrt" if value.kind.is_numeric() => (Math::Sqrt, self.root(&value, 2, span)),
            "cbrt" if value.kind.is_numeric() => (Math::Cbrt, self.root(&value, 3, span)),
            "exp" | "ln" | "log10" | "sin" | "cos" | "tan" if value.kind == Kind::Number => {
                let math = match name {
                    "exp" => Math::Exp,
                    "ln" => Math::Ln,
                    "log10" => Math::Log10,
                    "sin" => Math::Sin,
                    "cos" => Math::Cos,
                    _ => Math::Tan,
                };
                (math, Kind::Number)
            }
            _ => {
                let wanted = if value.kind.is_numeric() { "a plain number" } else { "a number or a quantity" };
                let message = format!("`{name}` takes {wanted}, and this is {}", value.kind.words());
                let mut diagnostic = Diagnostic::error(&codes::WRONG_KIND, message, value.span(), "");
                if value.kind.is_numeric() {
                    diagnostic.mend = Some("divide by a quantity of the same kind first, such as `x / (1 ft)`".into());
                }
                self.report(diagnostic);
                return Typed::unknown(span);
            }
        };
        let wish = if math == Math::Abs { value.wish.clone() } else { None };
        let typed =
            Typed { shape: value.shape, wish, ..Typed::new(span, Op::Math(math, vec![value.node.clone()]), kind) };
        Self::above_zero(typed.marked_by(&[&value]))
    }

    fn root(&mut self, value: &Typed, of: i32, span: Span) -> Kind {
        algebra::power(&value.kind, 1, of).unwrap_or_else(|refusal| {
            self.refuse(&codes::SCALED_POINT, refusal, span, &[value]);
            Kind::Unknown
        })
    }

    fn round(&mut self, name: &str, value: &Expr, step: &Expr, span: Span, scope: &Scope) -> Typed {
        let value = self.value(value, scope);
        let step = self.value(step, scope);
        if value.kind == Kind::Unknown || step.kind == Kind::Unknown {
            return Typed::unknown(span);
        }
        if value.kind.is_point() {
            let refusal = Refusal {
                message: format!("`{name}` of a point on a scale would depend on the scale's zero"),
                mend: Some("to round what is shown, write `as unit to step`".into()),
            };
            self.refuse(&codes::SCALED_POINT, refusal, span, &[&value]);
            return Typed::unknown(span);
        }
        if !value.kind.is_numeric() || step.kind.is_point() || algebra::unify(&value.kind, &step.kind).is_err() {
            let refusal = Refusal {
                message: "the step must be of the kind of the value it rounds".into(),
                mend: Some("write it in a unit of the same kind, such as `round(length, 1 ft)`".into()),
            };
            self.refuse(&codes::UNLIKE, refusal, span, &[&value, &step]);
            return Typed::unknown(span);
        }
        let shape = self.join(span, &[&value, &step]);
        let math = match name {
            "round" => Math::Round,
            "round_up" => Math::RoundUp,
            _ => Math::RoundDown,
        };
        let wish = value.wish.clone().or_else(|| step.wish.clone());
        let op = Op::Math(math, vec![value.node.clone(), step.node.clone()]);
        let typed = Typed { shape, wish, ..Typed::new(span, op, value.kind.clone()) };
        Self::above_zero(typed.marked_by(&[&value, &step]))
    }

    fn absolute(&mut self, argument: &Expr, span: Span, scope: &Scope) -> Typed {
        let value = self.value(argument, scope);
        match value.kind.quantity() {
            Some(Quantity { dimension, stance: Stance::Point | Stance::Open }) => {
                let value = value.absolute();
                let kind = Kind::Quantity(Quantity { dimension, stance: Stance::Open });
                Typed { wish: None, kind, vacuum: false, ..value }
            }
            _ if value.kind == Kind::Unknown => value,
            Some(Quantity { dimension, stance: Stance::Difference }) => {
                let (what, point) =
                    if dimension == Dimension::TEMPERATURE { ("temperature", "degF") } else { ("pressure", "psig") };
                let refusal = Refusal {
                    message: format!("`absolute` of a {what} difference means nothing: it has no place on a scale"),
                    mend: Some(format!("give it a point: a reading in `{point}`")),
                };
                self.refuse(&codes::WRONG_KIND, refusal, span, &[&value]);
                Typed::unknown(span)
            }
            _ => {
                let refusal = Refusal {
                    message: format!(
                        "`absolute` takes a temperature or a pressure, and this is {}",
                        value.kind.words()
                    ),
                    mend: (value.kind.is_numeric()).then(|| "for the size of a number use `abs(…)`".into()),
                };
                self.refuse(&codes::WRONG_KIND, refusal, span, &[&value]);
                Typed::unknown(span)
            }
        }
    }

    fn taken(&mut self, argument: &Expr, span: Span, scope: &Scope) -> Typed {
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
    fn fold(&mut self, kind: FoldKind, call: &Call, arguments: &[&Expr], span: Span, scope: &Scope) -> Typed {
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

    fn fold_column(
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
        let wish = if result == over.kind { over.wish.clone() } else { None };
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
        Typed { datum, wish, vacuum, safety: marks.safety, local: marks.local, ..Typed::new(span, op, result) }
    }

    fn fold_values(&mut self, kind: FoldKind, values: Vec<Typed>, span: Span) -> Typed {
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
        let wish = if result == common.kind { values.iter().find_map(|value| value.wish.clone()) } else { None };
        let nodes = values.iter().map(|value| value.node.clone()).collect();
        let op = Op::FoldValues(kind, nodes);
        Typed { datum, wish, safety: marks.safety, local: marks.local, ..Typed::new(span, op, result) }
    }

    /// The kind that a fold gives.
    fn folded_kind(&mut self, fold: FoldKind, over: &Typed, span: Span) -> Option<Kind> {
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

    /// `elapsed(time)` and `previous(x)`: a value a row from the whole column.
    fn along(&mut self, name: &str, argument: &Expr, span: Span, scope: &Scope) -> Typed {
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
            Typed::new(span, Op::Elapsed(node), Kind::computed(Dimension::TIME, false))
        } else {
            Typed {
                datum: column.datum,
                wish: column.wish.clone(),
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

    fn slope(&mut self, across: &Expr, up: &Expr, span: Span, scope: &Scope) -> Typed {
        let across = self.value(across, &scope.of_columns());
        let up = self.value(up, &scope.of_columns());
        if across.kind == Kind::Unknown || up.kind == Kind::Unknown {
            return Typed::unknown(span);
        }
        for column in [&across, &up] {
            if column.shape == Shape::One {
                self.not_a_column("slope", column, scope);
                return Typed::unknown(span);
            }
        }
        let Shape::Column(table) = self.join(span, &[&across, &up]) else { return Typed::unknown(span) };
        let run = match &across.kind {
            Kind::Time => Ok(Kind::computed(Dimension::TIME, false)),
            kind => algebra::subtract(kind, kind),
        };
        let rise = algebra::subtract(&up.kind, &up.kind);
        let kind = run.and_then(|run| rise.and_then(|rise| algebra::divide(&rise, &run)));
        match kind {
            Ok(kind) => {
                let marks = Typed::unknown(span).marked_by(&[&across, &up]);
                let op = Op::Slope(table, Box::new(across.node), Box::new(up.node));
                Typed { safety: marks.safety, ..Typed::new(span, op, kind) }
            }
            Err(refusal) => {
                self.refuse(&codes::WRONG_KIND, refusal, span, &[&across, &up]);
                Typed::unknown(span)
            }
        }
    }

    fn interpolate(&mut self, arguments: &[&Expr], span: Span, scope: &Scope) -> Typed {
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
                let message = format!("`interpolate` needs columns of numbers, and this is {}", column.kind.words());
                self.report(Diagnostic::error(&codes::WRONG_KIND, message, column.span(), ""));
                return Typed::unknown(span);
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
        let (datum, wish, kind) = (up.datum, up.wish.clone(), up.kind.clone());
        let op = Op::Interpolate(Box::new(value.node), table, Box::new(across.node), Box::new(up.node));
        Typed { shape, datum, wish, safety: marks.safety, local: marks.local, ..Typed::new(span, op, kind) }
    }
}

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

pub(super) fn plural(count: usize) -> &'static str {
    if count == 1 { "" } else { "s" }
}
