//! Expressions as written.

use super::Name;
use crate::moment::Moment;
use crate::source::Span;
use crate::units::Unit;

/// An expression with its place.
#[derive(Debug, Clone)]
pub struct Expr {
    /// Its place.
    pub span: Span,
    /// What it is.
    pub kind: ExprKind,
}

/// What an expression is.
#[derive(Debug, Clone)]
pub enum ExprKind {
    /// A number without a unit.
    Number(f64),
    /// A number with a unit, in one or several pieces.
    Quantity(Quantity),
    /// A text, maybe with fillings.
    Text(TextLiteral),
    /// `true`, `false`
    Flag(bool),
    /// A date or time.
    Moment(Moment),
    /// A refrigerant, in its canonical spelling `R-410A`, `R-1234ze(E)`.
    Refrigerant(String),
    /// `?`
    NotTaken,
    /// A name.
    Name(String),
    /// `a.b`
    Field(Box<Expr>, Name),
    /// `table["key"]`
    Index(Box<Expr>, Box<Expr>),
    /// `f(a, named = b where c)`
    Call(Call),
    /// `-a`
    Negate(Box<Expr>),
    /// `not a`
    Not(Box<Expr>),
    /// `a + b` and its like
    Binary(BinaryOp, Box<Expr>, Box<Expr>),
    /// `a within …`
    Within(Box<Expr>, Box<Range>),
    /// `a as unit to 0.1`
    As(Box<Expr>, As),
    /// `if a then b else c`
    If(Box<Expr>, Box<Expr>, Box<Expr>),
    /// `solve(x within a .. b where left == right)`
    Solve(Box<Solve>),
    /// `a .. b`, where a parameter is declared as a range.
    Range(Box<Expr>, Box<Expr>),
    /// What could not be read; its message has been given.
    Unreadable,
}

impl ExprKind {
    /// A value written out, without an operator and without a name.
    pub fn is_literal(&self) -> bool {
        matches!(
            self,
            ExprKind::Number(_)
                | ExprKind::Quantity(_)
                | ExprKind::Text(_)
                | ExprKind::Flag(_)
                | ExprKind::Moment(_)
                | ExprKind::Refrigerant(_)
                | ExprKind::NotTaken
        )
    }
}

/// A literal quantity.
#[derive(Debug, Clone, PartialEq)]
pub struct Quantity {
    /// `12 lb 4 oz` has two pieces; the minus sign is in the number of the only piece, or in all of them.
    pub pieces: Vec<Piece>,
}

/// A number and its unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// The number, fractions worked out.
    pub number: f64,
    /// The unit.
    pub unit: Unit,
    /// The unit's place.
    pub unit_span: Span,
}

/// A text with fillings.
#[derive(Debug, Clone)]
pub struct TextLiteral {
    /// Its place, with quotes.
    pub span: Span,
    /// Its parts in order.
    pub parts: Vec<TextPart>,
}

/// A part of a text.
#[derive(Debug, Clone)]
pub enum TextPart {
    /// Plain words.
    Plain(String),
    /// `{expression as unit}`
    Filled(Expr),
}

/// A call.
#[derive(Debug, Clone)]
pub struct Call {
    /// The function's name; `alias.name(…)` of a used sheet has the alias before it.
    pub name: Name,
    /// The alias of a used sheet.
    pub alias: Option<Name>,
    /// Arguments in order.
    pub arguments: Vec<Argument>,
    /// `where …` inside the brackets of a fold.
    pub filter: Option<Box<Expr>>,
}

/// An argument.
#[derive(Debug, Clone)]
pub struct Argument {
    /// Its name, if named.
    pub name: Option<Name>,
    /// Its value.
    pub value: Expr,
}

/// An operator between two expressions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BinaryOp {
    /// `+`
    Add,
    /// `-`
    Subtract,
    /// `*`
    Multiply,
    /// `/`
    Divide,
    /// `^`
    Power,
    /// `==`
    Equal,
    /// `!=`
    NotEqual,
    /// `<`
    Less,
    /// `<=`
    AtMost,
    /// `>`
    More,
    /// `>=`
    AtLeast,
    /// `and`
    And,
    /// `or`
    Or,
}

/// What stands after `within`.
#[derive(Debug, Clone)]
pub enum Range {
    /// `a .. b`
    Between(Expr, Expr),
    /// `± t`
    PlusMinus(Expr),
    /// `± t of y`
    PlusMinusOf(Expr, Expr),
    /// `± p % of y`; the share as a plain number.
    ShareOf(f64, Expr),
}

/// What stands after `as`.
#[derive(Debug, Clone)]
pub struct As {
    /// One unit, or several falling ones (`lb oz`).
    pub units: Vec<Unit>,
    /// Their place.
    pub span: Span,
    /// `to 0.1`: rounds what is shown, in the last unit.
    pub step: Option<f64>,
}

/// `solve(x within a .. b where left == right)`
#[derive(Debug, Clone)]
pub struct Solve {
    /// The unknown.
    pub unknown: Name,
    /// One end.
    pub from: Expr,
    /// The other end.
    pub to: Expr,
    /// Left side.
    pub left: Expr,
    /// Right side.
    pub right: Expr,
}
