//! Trees as short texts, to be compared with.

use crate::syntax::tree::*;

/// An expression with every bracket written: `(+ a (* 2 b))`.
pub fn expr(expr: &Expr) -> String {
    match &expr.kind {
        ExprKind::Number(number) => number.to_string(),
        ExprKind::Quantity(quantity) => pieces(quantity),
        ExprKind::Text(text) => format!("{:?}", parts(text)),
        ExprKind::Flag(flag) => flag.to_string(),
        ExprKind::Moment(moment) => format!("@{moment}"),
        ExprKind::Refrigerant(name) | ExprKind::Name(name) => name.clone(),
        ExprKind::NotTaken => "?".into(),
        ExprKind::Field(base, field) => format!("{}.{}", self::expr(base), field.text),
        ExprKind::Index(base, key) => format!("{}[{}]", self::expr(base), self::expr(key)),
        ExprKind::Call(call) => self::call(call),
        ExprKind::Negate(inner) => format!("(- {})", self::expr(inner)),
        ExprKind::Not(inner) => format!("(not {})", self::expr(inner)),
        ExprKind::Binary(op, left, right) => {
            format!("({} {} {})", operator(*op), self::expr(left), self::expr(right))
        }
        ExprKind::Within(value, range) => format!("(within {} {})", self::expr(value), self::range(range)),
        ExprKind::As(value, shown) => {
            let step = shown.step.map_or(String::new(), |step| format!(" to {step}"));
            format!("(as {} {}{step})", self::expr(value), units(&shown.units))
        }
        ExprKind::If(condition, yes, no) => {
            format!("(if {} {} {})", self::expr(condition), self::expr(yes), self::expr(no))
        }
        ExprKind::Solve(solve) => format!(
            "(solve {} {} {} {} {})",
            solve.unknown.text,
            self::expr(&solve.from),
            self::expr(&solve.to),
            self::expr(&solve.left),
            self::expr(&solve.right)
        ),
        ExprKind::Range(from, to) => format!("({} .. {})", self::expr(from), self::expr(to)),
        ExprKind::Unreadable => "!".into(),
    }
}

/// Several expressions.
pub fn exprs(list: &[Expr]) -> String {
    list.iter().map(expr).collect::<Vec<_>>().join(", ")
}

/// What stands after `within`.
pub fn range(range: &Range) -> String {
    match range {
        Range::Between(from, to) => format!("{} .. {}", expr(from), expr(to)),
        Range::PlusMinus(amount) => format!("± {}", expr(amount)),
        Range::PlusMinusOf(amount, of) => format!("± {} of {}", expr(amount), expr(of)),
        Range::ShareOf(share, of) => format!("± {share} of {}", expr(of)),
    }
}

/// A kind.
pub fn kind(annotation: Option<&Annotation>) -> String {
    match annotation.map(|annotation| &annotation.kind) {
        None => "none".into(),
        Some(AnnotationKind::Units(list)) => units(list),
        Some(AnnotationKind::OneOf(choices)) => {
            format!("one of {}", choices.iter().map(|choice| choice.text.as_str()).collect::<Vec<_>>().join(", "))
        }
        Some(kind) => format!("{kind:?}").to_lowercase(),
    }
}

/// `± …`
pub fn uncertainty(uncertainty: Option<&Uncertainty>) -> String {
    let Some(uncertainty) = uncertainty else { return "none".into() };
    let terms: Vec<String> = uncertainty
        .terms
        .iter()
        .map(|term| match term {
            UncertaintyTerm::Amount(amount) => expr(amount),
            UncertaintyTerm::OfReading(share, _) => format!("{share} of reading"),
            UncertaintyTerm::Of(share, of) => format!("{share} of {}", expr(of)),
        })
        .collect();
    let style = match uncertainty.style {
        UncertaintyStyle::Limits => String::new(),
        UncertaintyStyle::Coverage(k) => format!(" coverage {k}"),
        UncertaintyStyle::Standard => " standard".into(),
    };
    format!("± {}{style}", terms.join(" + "))
}

/// The parts of a text.
pub fn parts(text: &TextLiteral) -> Vec<String> {
    text.parts
        .iter()
        .map(|part| match part {
            TextPart::Plain(plain) => plain.clone(),
            TextPart::Filled(filled) => format!("{{{}}}", expr(filled)),
        })
        .collect()
}

fn call(call: &Call) -> String {
    let alias = call.alias.as_ref().map_or(String::new(), |alias| format!("{}.", alias.text));
    let arguments: Vec<String> = call
        .arguments
        .iter()
        .map(|argument| match &argument.name {
            Some(name) => format!("{} = {}", name.text, expr(&argument.value)),
            None => expr(&argument.value),
        })
        .collect();
    let filter = call.filter.as_ref().map_or(String::new(), |filter| format!(" where {}", expr(filter)));
    format!("{alias}{}({}{filter})", call.name.text, arguments.join(", "))
}

fn pieces(quantity: &Quantity) -> String {
    let pieces: Vec<String> =
        quantity.pieces.iter().map(|piece| format!("{} {}", piece.number, piece.unit.text)).collect();
    format!("<{}>", pieces.join(" "))
}

fn units(units: &[crate::units::Unit]) -> String {
    units.iter().map(|unit| unit.text.as_str()).collect::<Vec<_>>().join(" ")
}

fn operator(operator: BinaryOp) -> &'static str {
    match operator {
        BinaryOp::Add => "+",
        BinaryOp::Subtract => "-",
        BinaryOp::Multiply => "*",
        BinaryOp::Divide => "/",
        BinaryOp::Power => "^",
        BinaryOp::Equal => "==",
        BinaryOp::NotEqual => "!=",
        BinaryOp::Less => "<",
        BinaryOp::AtMost => "<=",
        BinaryOp::More => ">",
        BinaryOp::AtLeast => ">=",
        BinaryOp::And => "and",
        BinaryOp::Or => "or",
    }
}
