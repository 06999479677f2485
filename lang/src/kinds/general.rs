//! The general functions of the language, of which no sheet can do without: mathematics, folds, columns.

use super::algebra::{self, Made, Refusal};
use super::checker::Checker;
use super::folds::fold_kind;
use super::typed::{Scope, Typed};
use super::{Factors, Kind, Quantity, Stance};
use crate::diagnostic::{Diagnostic, counted, kinds as codes};
use crate::plan::{Math, Op};
use crate::source::Span;
use crate::syntax::tree::{Call, Expr};
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
            let message = format!("`{name}` takes {}, not {}", counted(wanted, "argument"), arguments.len());
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
        let value =
            if matches!(name, "sqrt" | "cbrt") { self.factor(argument, scope) } else { self.value(argument, scope) };
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
        let (math, (kind, factors)) = match name {
            "abs" if value.kind.is_numeric() => (Math::Abs, value.made()),
            "sign" if value.kind.is_numeric() => (Math::Sign, (Kind::Number, Factors::NONE)),
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
                (math, (Kind::Number, Factors::NONE))
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
        let typed = Typed {
            shape: value.shape,
            wish,
            factors,
            ..Typed::new(span, Op::Math(math, vec![value.node.clone()]), kind)
        };
        Self::above_zero(typed.marked_by(&[&value]))
    }

    fn root(&mut self, value: &Typed, of: i32, span: Span) -> Made {
        algebra::power(&value.made(), 1, of).unwrap_or_else(|refusal| {
            self.refuse(&codes::SCALED_POINT, refusal, span, &[value]);
            (Kind::Unknown, Factors::NONE)
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
        let distance = algebra::subtract(&value.kind, &value.kind);
        let alike = distance.is_ok_and(|distance| algebra::unify(&distance, &step.kind).is_ok());
        if !value.kind.is_numeric() || !alike {
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
        let wish = value.wish.clone().or_else(|| step.wish.clone().filter(|_| value.kind == step.kind));
        let op = Op::Math(math, vec![value.node.clone(), step.node.clone()]);
        let factors = value.factors;
        let typed = Typed { shape, wish, factors, ..Typed::new(span, op, value.kind.clone()) };
        Self::above_zero(typed.marked_by(&[&value, &step]))
    }

    fn absolute(&mut self, argument: &Expr, span: Span, scope: &Scope) -> Typed {
        let value = self.value(argument, scope);
        match value.kind.quantity() {
            Some(Quantity { dimension, stance: Stance::Point | Stance::FromZero }) => {
                let value = value.absolute();
                let kind = Kind::Quantity(Quantity { dimension, stance: Stance::FromZero });
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
}
